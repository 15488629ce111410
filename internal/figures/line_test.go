package figures

import (
	"encoding/csv"
	"math"
	"os"
	"strconv"
	"strings"
	"testing"
)

// TestLineIsTheGuides: the line through the thermometer's corrections is the one
// that JCGM 100:2008, H.3, works out, with its standard uncertainties.
func TestLineIsTheGuides(t *testing.T) {
	file, err := os.Open("../../testdata/reference/14_gum_examples.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	reader := csv.NewReader(file)
	reader.FieldsPerRecord, reader.Comment = -1, '#'
	rows, err := reader.ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	var pairs []pair
	value, u := map[string]float64{}, map[string]float64{}
	for _, row := range rows {
		switch row[0] {
		case "H.3 raw":
			at, off, _ := strings.Cut(row[3], ";")
			x, err1 := strconv.ParseFloat(strings.TrimSpace(at), 64)
			y, err2 := strconv.ParseFloat(strings.TrimSpace(off), 64)
			if err1 != nil || err2 != nil {
				t.Fatal(row)
			}
			pairs = append(pairs, pair{x, y, 1}) // one u for all: an ordinary fit, and none far off
		case "H.3":
			value[row[1]], _ = strconv.ParseFloat(row[3], 64)
			u[row[1]], _ = strconv.ParseFloat(row[4], 64)
		}
	}
	if len(pairs) != 11 || value["b(30 C)"] == 0 {
		t.Fatalf("the example was not found: %d pairs, %v", len(pairs), value)
	}
	line := straightThrough(pairs, true)
	s := value["s"]
	same := func(i int) float64 { return s }
	slopeU := scatter(line.slope, same)
	atU := func(x float64) float64 { return math.Hypot(scatter(line.level, same), (x-line.middle)*slopeU) }
	for _, c := range []struct {
		name                   string
		got, gotU, half, uHalf float64
	}{
		{"y1 (t0 = 20 C)", line.at(pairs, 20), atU(20), 0.00005, 0.00005},
		{"y2", total(line.slope, pairs), slopeU, 0.000005, 0.000005},
		{"b(30 C)", line.at(pairs, 30), atU(30), 0.00005, 0.00005},
	} {
		if math.Abs(c.got-value[c.name]) > c.half || math.Abs(c.gotU-u[c.name]) > c.uHalf {
			t.Errorf("%s: %.6f, u %.6f; published %g, %g", c.name, c.got, c.gotU, value[c.name], u[c.name])
		}
	}
}

// TestLineByHuber: one pair of five that is far off hardly moves the line, and the
// strain says that something is.
func TestLineByHuber(t *testing.T) {
	pairs := []pair{{0, 2, 0.7}, {1, 2, 0.7}, {2, 10, 0.7}, {3, 2, 0.7}, {4, 2, 0.7}}
	line := straightThrough(pairs, false)
	if at := line.at(pairs, 2); math.Abs(at-2) > 0.4 || line.strain < 2 {
		t.Errorf("level %.2f, strain %.2f", at, line.strain)
	}
}

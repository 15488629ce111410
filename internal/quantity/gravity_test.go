package quantity

import (
	"encoding/csv"
	"math"
	"os"
	"strconv"
	"testing"

	"pgregory.net/rapid"
)

// tableRounding is how far a specific gravity of the published tables may be from
// the cubic: the cubic's own 0.02 °P, which are 0.00008, and the last digit printed.
const tableRounding = 0.00009

// rows are those of a published table, under their heads.
func rows(t *testing.T, name string) []map[string]string {
	t.Helper()
	file, err := os.Open("../../testdata/reference/" + name)
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	all, err := csv.NewReader(file).ReadAll()
	if err != nil || len(all) < 2 {
		t.Fatal(name, len(all), err)
	}
	var table []map[string]string
	for _, fields := range all[1:] {
		row := map[string]string{}
		for i, head := range all[0] {
			row[head] = fields[i]
		}
		table = append(table, row)
	}
	return table
}

// number is a field of such a row.
func number(t *testing.T, text string) float64 {
	t.Helper()
	x, err := strconv.ParseFloat(text, 64)
	if err != nil {
		t.Fatal(err)
	}
	return x
}

// TestPlatoAgainstThePublishedTables reads degrees as a brewer writes them, and
// holds their gravity to the tables of sucrose: the United States Department of
// Agriculture's conversion table and NBS Circular C440, each named in its row.
func TestPlatoAgainstThePublishedTables(t *testing.T) {
	read := 0
	for _, row := range rows(t, "02b_sucrose_published_points.csv") {
		degrees, want := number(t, row["extract_degP"]), number(t, row["sg_apparent_published_or_derived"])
		if row["quantity"] != "apparent SG 20/20" {
			continue // weights of a gallon, which their own three digits round too far
		}
		read++
		a, err := Parse[Gravity](row["extract_degP"] + " P")
		if err != nil || math.Abs(a.Value.SG()-want) > tableRounding {
			t.Errorf("%v °P are %.5f, and the table says %.5f (%v)", degrees, a.Value.SG(), want, err)
		}
		if got := SG(want).Plato(); math.Abs(got-degrees) > 0.023 { // the same in degrees
			t.Errorf("%.5f are %.3f °P, and the table says %v", want, got, degrees)
		}
	}
	if read < 10 {
		t.Errorf("only %d rows were read", read)
	}
}

// TestPlatoOfWater: water has no extract, and no gravity but one.
func TestPlatoOfWater(t *testing.T) {
	if got := SG(1).Plato(); math.Abs(got) > 1e-12 {
		t.Errorf("water has %v °P", got)
	}
	if got := Plato(0); got != 1 {
		t.Errorf("0 °P is %v", got)
	}
	if got := SG(0.998).Plato(); got >= 0 || got < -1 {
		t.Errorf("a dry beer's apparent extract is %v °P", got)
	}
}

// TestPlatoTurnsBack: degrees to gravity and back are the same degrees, to the last
// digits, far beyond what is brewed on either side.
func TestPlatoTurnsBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		degrees := rapid.Float64Range(-8, 60).Draw(t, "degrees")
		if got := Plato(degrees).Plato(); math.Abs(got-degrees) > 1e-9 {
			t.Fatalf("%v °P come back as %v", degrees, got)
		}
		more := rapid.Float64Range(0.001, 5).Draw(t, "more")
		if Plato(degrees+more) <= Plato(degrees) {
			t.Fatalf("%v °P are no heavier than %v", degrees+more, degrees)
		}
	})
}

// TestPlatoSlope holds the slope to a difference of the cubic itself.
func TestPlatoSlope(t *testing.T) {
	for _, s := range []float64{0.99, 1, 1.05, 1.13} {
		const step = 1e-6
		want := (SG(s+step).Plato() - SG(s-step).Plato()) / (2 * step)
		if got := platoSlope(s); math.Abs(got-want) > 1e-3 {
			t.Errorf("at %v the slope is %v, and the cubic rises by %v", s, got, want)
		}
	}
}

// TestPoints: a point is a thousandth above water.
func TestPoints(t *testing.T) {
	for sg, want := range map[float64]float64{1: 0, 1.041: 41, 0.996: -4, 1.1205: 120.5} {
		if got := SG(sg).Points(); math.Abs(got-want) > 1e-9 {
			t.Errorf("%v is %v points, want %v", sg, got, want)
		}
		if got := float64(SG(sg)-1) / float64(Point); math.Abs(got-want) > 1e-9 {
			t.Errorf("%v is %v of a Point above water, want %v", sg, got, want)
		}
	}
}

package figures

import (
	"encoding/csv"
	"math"
	"os"
	"strconv"
	"testing"

	"gylebook/internal/journal"
)

// TestCellarAsPublished holds the heat that is taken for a cellar nobody wrote of to
// the trade's: inside what sources say between them, around the optimum of one.
func TestCellarAsPublished(t *testing.T) {
	file, err := os.Open("../../testdata/reference/13b_cask_trade.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	rows, err := csv.NewReader(file).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	e := newBench(&journal.Gyle{}, Context{}).cellarHeat(Container{Package: &journal.Package{}})
	value, half := float64(e.Value), math.Sqrt(3)*e.Uncertainty()
	coldest, warmest, optimum := math.Inf(1), math.Inf(-1), 0.0
	for _, row := range rows[1:] {
		low, _ := strconv.ParseFloat(row[2], 64)
		high, _ := strconv.ParseFloat(row[3], 64)
		switch row[0] {
		case "cellar temperature":
			coldest, warmest = min(coldest, low), max(warmest, high)
		case "cellar temperature, optimum":
			optimum = low
		}
	}
	if value-half < coldest-1e-9 || value+half > warmest || math.Abs(value-optimum) > half {
		t.Errorf("taken as %g ± %g °C, published %g to %g, %g at best", value, half, coldest, warmest, optimum)
	}
}

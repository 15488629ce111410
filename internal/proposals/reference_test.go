package proposals

import (
	"encoding/csv"
	"math"
	"os"
	"strconv"
	"testing"

	"gonum.org/v1/gonum/stat"
)

// TestAWarmerMashBySomeoneElsesRecipes holds the rule of thumb for a warmer mash to
// the slopes of a book's recipes: weak evidence, which has to lie within what the
// rule owns up to.
func TestAWarmerMashBySomeoneElsesRecipes(t *testing.T) {
	file, err := os.Open("../../testdata/reference/08d_mash_temperature_attenuation.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	rows, err := csv.NewReader(file).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	heats, attenuations := map[string][]float64{}, map[string][]float64{}
	for _, row := range rows[1:] {
		heat, err := strconv.ParseFloat(row[2], 64)
		attenuation, err2 := strconv.ParseFloat(row[4], 64)
		if err != nil || err2 != nil {
			t.Fatal(row)
		}
		heats[row[0]], attenuations[row[0]] = append(heats[row[0]], heat), append(attenuations[row[0]], attenuation)
	}
	if len(heats) != 2 {
		t.Errorf("%d groups of yeast, want 2", len(heats))
	}
	for yeast := range heats {
		_, slope := stat.LinearRegression(heats[yeast], attenuations[yeast], nil, false)
		if math.Abs(-slope-dryerPerDegree.Number) > dryerOff.Number {
			t.Errorf("%s yeasts: %.1f %% less a degree, and the rule is %g ± %g", yeast, -slope, dryerPerDegree.Number, dryerOff.Number)
		}
	}
}

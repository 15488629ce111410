package rules

import (
	"encoding/csv"
	"os"
	"strconv"
	"strings"
	"testing"

	"gylebook/internal/assay"
	"gylebook/internal/figures"
	"gylebook/internal/journal"
)

// published is the ranges, or single numbers twice, of the rows of a table of
// testdata/reference whose item begins so.
func published(t *testing.T, table, item string) (ranges [][2]float64) {
	t.Helper()
	file, err := os.Open("../../testdata/reference/" + table)
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	rows, err := csv.NewReader(file).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	for _, row := range rows[1:] {
		if !strings.HasPrefix(row[0], item) {
			continue
		}
		low, err := strconv.ParseFloat(row[2], 64)
		if err != nil {
			t.Fatal(err)
		}
		high, err := strconv.ParseFloat(row[3], 64)
		if err != nil { // one number, and then its source
			high = low
		}
		ranges = append(ranges, [2]float64{low, high})
	}
	if len(ranges) == 0 {
		t.Fatalf("%s has no %s", table, item)
	}
	return ranges
}

// span is the widest range that sources give: they differ, and no one of them is
// the truth.
func span(ranges [][2]float64) (low, high float64) {
	low, high = ranges[0][0], ranges[0][1]
	for _, r := range ranges {
		low, high = min(low, r[0]), max(high, r[1])
	}
	return low, high
}

// TestCellarByTheTrade holds the limits of a cellar to published ones.
func TestCellarByTheTrade(t *testing.T) {
	const table = "13b_cask_trade.csv"
	within := func(what string, x, low, high float64) {
		t.Helper()
		if x < low || x > high {
			t.Errorf("%s is %g, published %g to %g", what, x, low, high)
		}
	}
	if line := published(t, table, "line cleaning interval")[0]; assay.LinesEvery.Number != line[1] {
		t.Errorf("a line is cleaned every %g days, published %g", assay.LinesEvery.Number, line[1])
	}
	still, _ := span(published(t, table, "stillage before dispense"))
	within("hours to stand still", assay.SettleFor.Number, still, still)
	cold, warm := span(published(t, table, "serving temperature"))
	within("the coldest good glass", assay.ServeCold.Number, cold-1, cold) // widened by common practice, as it says
	within("the warmest good glass", assay.ServeWarm.Number, warm, warm)
	for _, k := range figures.Keepings() {
		if k.Vessel != journal.Cask {
			continue
		}
		_, most := span(published(t, table, "on sale at most"))
		within("days of a broached cask", k.Broached, 2, most)
		shortest, longest := span(published(t, table, "best before, cask"))
		within("weeks of a cask", k.Keeps/7, shortest, longest)
	}
}

// TestCeilingsByTheMakers holds the ceilings for what has no maker's figure below
// every published one: danger must be told of before any maker would.
func TestCeilingsByTheMakers(t *testing.T) {
	const table = "13c_pressure_ratings.csv"
	for _, of := range []string{"industry beer bottle", "UK 500 mL ale bottle", "flip-top bottle"} {
		if rated, _ := span(published(t, table, of)); bottleDanger.Number > rated || bottleMend.Number >= rated {
			t.Errorf("%s is rated at %g vol; the ceilings are %g and %g", of, rated, bottleMend.Number, bottleDanger.Number)
		}
	}
	if rules, _ := span(published(t, table, "UK Pressure Systems")); unratedBar.Number != rules {
		t.Errorf("nothing without a figure is shown safe above %g bar; the rules begin at %g", unratedBar.Number, rules)
	}
	if opens, _ := span(published(t, table, "plastic pressure barrel, cap valve opens")); barrelBar.Number != opens {
		t.Errorf("a barrel's valve is taken to open at %g bar, published %g", barrelBar.Number, opens)
	}
}

package figures

import (
	"math"
	"strconv"
	"strings"
	"testing"
	"time"
)

// worked is one row of the table at the end of a gyle worked by hand.
type worked struct {
	part
	value, tolerance float64
}

// workedTable reads the table of a worked gyle: | id | of | value | tolerance |.
func workedTable(t *testing.T, text string) []worked {
	t.Helper()
	_, table, found := strings.Cut(text, "| id | of | value | tolerance |\n|---|---|---|---|\n")
	if !found {
		t.Fatal("the working ends without its table")
	}
	var rows []worked
	for line := range strings.Lines(table) {
		cells := strings.Split(strings.TrimSpace(line), "|")
		if len(cells) != 6 {
			t.Fatalf("a row with %d cells: %s", len(cells)-2, line)
		}
		value, err1 := strconv.ParseFloat(strings.TrimSpace(cells[3]), 64)
		tolerance, err2 := strconv.ParseFloat(strings.TrimSpace(cells[4]), 64)
		if err1 != nil || err2 != nil {
			t.Fatalf("a row without its numbers: %s", line)
		}
		rows = append(rows, worked{part{ID(strings.TrimSpace(cells[1])), strings.TrimSpace(cells[2])}, value, tolerance})
	}
	return rows
}

// onPaper are the gyles worked by hand, each with the clock it was worked at.
var onPaper = []struct {
	name string
	now  time.Time
}{
	{"soft-bag-and-bottles", time.Date(2026, 1, 21, 12, 0, 0, 0, time.UTC)},
	{"keg-in-us-units", longAfter},
	{"brew-day-in-steps", time.Date(2026, 3, 14, 18, 0, 0, 0, time.UTC)},
	{"blend", time.Date(2026, 3, 2, 12, 0, 0, 0, time.UTC)},
}

// TestByHand holds the program to gyles worked with pencil and paper from the
// published formulas, each within the pencil's own rounding.
func TestByHand(t *testing.T) {
	for _, c := range onPaper {
		t.Run(c.name, func(t *testing.T) {
			j := opened(t, byHand)
			s := Work(j.Find(c.name), contextOf(j, c.now))
			for _, row := range workedTable(t, string(file(t, byHand, c.name+"-worked.md"))) {
				f, ok := s.Find(row.id, row.of)
				switch {
				case !ok:
					t.Errorf("%s is not worked at all", row.part)
				case !(math.Abs(f.Value-row.value) <= row.tolerance):
					t.Errorf("%s: %.6g, by hand %.6g ± %g", row.part, f.Value, row.value, row.tolerance)
				}
			}
		})
	}
}

package findings

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"gylebook/internal/figures"
	"gylebook/internal/journal"
	"gylebook/internal/notice"
)

// cellarBook is a book of written entries by invented brewers, good and bad, each
// with the day on which it is looked at and the dangers and mends it deserves. A
// danger names its container where it is about one.
var cellarBook = []struct {
	file, on string
	dangers  string
	mends    string
}{}

// bookSheets are the sheets of the cellar book as they stand on a day.
func bookSheet(j *journal.Journal, g *journal.Gyle, t *testing.T, on string) *figures.Sheet {
	return figures.Work(g, figures.Context{Larder: j.Larder, Settings: j.Settings, Now: clock(t, on)})
}

func TestZZBook(t *testing.T) {
	j := readAll("testdata/cellar-book")
	for _, e := range j.Errors {
		t.Error(e)
	}
	on := map[string]string{"01-": "2026-02-10", "02-": "2026-02-05", "03-": "2026-03-05", "04-": "2026-06-15", "05-": "2026-03-20", "06-": "2026-02-05", "07-": "2026-03-01", "08-": "2026-04-01", "09-": "2026-04-01", "10": "2026-03-10", "11": "2026-03-21 12:30", "12": "2026-03-21", "13": "2026-03-01", "14": "2026-03-05", "15": "2026-02-03", "16": "2026-03-14 11:00", "17": "2026-03-06", "18": "2026-02-10", "19": "2026-03-20", "20": "2026-03-01", "21": "2026-05-29", "22": "2026-03-10", "23": "2026-02-20", "24": "2026-03-15", "25": "2026-03-15", "26": "2026-02-23", "27": "2026-04-01", "28": "2026-03-14 09:30", "29": "2026-03-10", "30": "2026-05-01", "31": "2026-04-10", "32": "2026-02-03", "33": "2026-03-08 18:00", "34": "2026-03-10", "35": "2026-03-20", "36": "2026-02-27"}
	slices.SortFunc(j.Gyles, func(a, b *journal.Gyle) int { return strings.Compare(a.File, b.File) })
	for _, g := range j.Gyles {
		day := on[g.File[:2]]
		if day == "" {
			day = on[g.File[:3]]
		}
		s := bookSheet(j, g, t, day)
		fmt.Printf("=== %s %s %s\n", g.File, day, s.Stage)
		for _, n := range Examine(s) {
			fmt.Printf("   %s %s [%s] %s\n", n.Severity, n.Says, n.ID, n.Of)
		}
	}
	_ = notice.Note
}

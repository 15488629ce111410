package book

import (
	"fmt"
	"slices"
	"testing"
	"time"

	"gylebook/internal/journal"
	"gylebook/internal/notice"
)

// TestTheDemonstrationsWarningsAreDeserved: what the demonstration is warned of
// over a year, danger and mend, and nothing else. One of its beers was bottled on
// a Thursday because of a Friday; that is the one danger, and it stays until it is
// answered. A journal full of dangers would teach people to look away.
func TestTheDemonstrationsWarningsAreDeserved(t *testing.T) {
	files, err := journal.Root("../../journal")
	if err != nil {
		t.Fatal(err)
	}
	j := journal.Read(files, journal.Options{})
	unfinished := []string{"danger not-finished in gyle 39"}
	for day, want := range map[string][]string{
		"2025-06-15": nil,
		"2025-10-03": nil,
		"2026-01-10": nil,
		"2026-05-18": nil, // it is still in the bucket
		"2026-06-01": unfinished,
		"2026-07-15": append(slices.Clone(unfinished), "mend line-overdue in gyle 37"), // if nobody cleaned it since
	} {
		at, err := time.ParseInLocation("2006-01-02 15", day+" 12", j.Settings.Zone)
		if err != nil {
			t.Fatal(err)
		}
		var got []string
		for _, g := range Open(j, at).Gyles {
			for _, n := range g.Notices {
				if n.Severity >= notice.Mend {
					got = append(got, fmt.Sprintf("%s %s in gyle %d", n.Severity, n.ID, g.Number.N))
				}
			}
		}
		slices.Sort(got)
		slices.Sort(want)
		if !slices.Equal(got, want) {
			t.Errorf("on %s: %q, deserved %q", day, got, want)
		}
	}
}

package rules

import (
	"fmt"
	"io/fs"
	"slices"
	"strings"
	"testing"

	"gylebook/internal/assay/healthy"
	"gylebook/internal/figures"
	"gylebook/internal/journal"
	"gylebook/internal/notice"
)

// floated is the entry with a float, examined with its file changed line by line.
func floated(t *testing.T, day string, change func(i int, row string) string) []notice.Notice {
	t.Helper()
	raw, err := fs.ReadFile(healthy.Entries, "logged-float.csv")
	if err != nil {
		t.Fatal(err)
	}
	lines := strings.Split(strings.TrimSpace(string(raw)), "\n")
	for i, line := range lines {
		lines[i] = change(i, line)
	}
	j := healthy.Journal()
	log, errors := journal.ReadLog("logged-float.csv", strings.NewReader(strings.Join(lines, "\n")), j.Settings.Zone)
	if len(errors) > 0 {
		t.Fatal(errors)
	}
	entry, err := fs.ReadFile(healthy.Entries, "logged.md")
	if err != nil {
		t.Fatal(err)
	}
	g := journal.ReadFile("logged.md", entry, j.Settings).Gyle
	g.Log = log
	return healthy.WithID(Examine(figures.Work(g, figures.Context{Larder: j.Larder, Settings: j.Settings, Now: healthy.Clock(t, day)})), "logger-disagrees")
}

// lifted is a row with so many points more.
func lifted(row string, points float64) string {
	fields := strings.Split(row, ",")
	var g float64
	if _, err := fmt.Sscan(fields[1], &g); err != nil {
		return row // the header
	}
	fields[1] = fmt.Sprintf("%.4f", g+points/1000)
	return strings.Join(fields, ",")
}

// TestLoggerDisagrees: each of the three ways in which a logger may be wrong, with
// what the brewer is told; and none where it is well or only one row stands out.
func TestLoggerDisagrees(t *testing.T) {
	for _, c := range []struct {
		name   string
		change func(i int, row string) string
		want   string
	}{
		{"well", func(_ int, row string) string { return row }, ""},
		{"one row of foam", func(i int, row string) string { return lifted(row, map[bool]float64{i == 90: 20}[true]) }, ""},
		{"tilted by hops", func(i int, row string) string { return lifted(row, map[bool]float64{i > 150: 6}[true]) }, "The logger rose by about 6 points within an hour"},
		{"in degrees, and nobody says so", func(i int, row string) string { return lifted(row, map[bool]float64{i > 0: 9000}[true]) }, "have a gravity that no beer has"},
	} {
		got := floated(t, "2026-03-05 12:00", c.change)
		switch {
		case c.want == "" && len(got) > 0:
			t.Errorf("%s: %v", c.name, got)
		case c.want != "" && !slices.ContainsFunc(got, func(n notice.Notice) bool { return strings.Contains(n.Says, c.want) && n.Place.Line > 0 }):
			t.Errorf("%s: %v, want %q", c.name, got, c.want)
		}
		for _, n := range got {
			t.Logf("%s\n  %s\n  %s", n.Says, n.Why, n.Do)
		}
	}
	for _, n := range healthy.WithID(examined(t, "logged", "2026-03-06", "readings[2].gravity=1.022"), "logger-disagrees") {
		t.Logf("%s\n  %s\n  %s", n.Says, n.Why, n.Do)
	}
}

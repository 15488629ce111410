package scribe

import (
	"strings"
	"testing"

	"gylebook/internal/journal"
)

const corrected = `---
gyle: 14
beer: B
brewed: 2026-03-01
mash: {rests: [{at: 66 C, for: 60 min}]}
readings:
  - {when: 2026-03-06 09:00, gravity: 1.022, temp: 19 C}   # first
  - {when: 2026-03-09 09:00, gravity: 1.015, temp: 19 C}
  - {when: 2026-03-10 09:00, ph: 4.2}
racked: {on: 2026-03-12, volume: 20 L, temp: 18 C}
done:
  - {when: 2026-03-12, did: vented, at: 12 C}
---
A story.
`

// TestCorrections: a correction goes in the place of the one value that it is
// of, shows it, and leaves every other byte.
func TestCorrections(t *testing.T) {
	for typed, c := range map[string]struct{ was, is string }{
		"not 1.022 but 1.020":               {"gravity: 1.022", "gravity: 1.020"},
		"1.012":                             {"gravity: 1.015", "gravity: 1.012"},
		"racked 19 L":                       {"volume: 20 L", "volume: 19 L"},
		"not racked 20 L but 20.5 L":        {"volume: 20 L", "volume: 20.5 L"},
		"not 19 C but 1.012":                {"", "correct like with like"},
		"not racked 20 L but racked 20.5 L": {"volume: 20 L", "volume: 20.5 L"},
		"not racked 21 L but racked 20.5 L": {"", "does not say racked.volume 21 L"},
		"mash at 65.2C":                     {"at: 66 C", "at: 65.2C"},
		"vented 10C":                        {"did: vented, at: 12 C", "did: vented, at: 10C"},
		"not 1.099 but 1.020":               {"", "no line of readings says that"},
		"not 1.022":                         {"", "not 1.022 but 1.012"},
		"ph 4.1":                            {"ph: 4.2", "ph: 4.1"},
		"not 1.022 19 C but 1.020 18 C":     {"gravity: 1.022, temp: 19 C}   #", "gravity: 1.020, temp: 18 C}   #"},
	} {
		d := journal.ReadFile("14.md", []byte(corrected), nil)
		j, err := Correct(args(typed), noon, d.Gyle, nil, []byte(corrected))
		var e *Edit
		if err == nil {
			e, err = Write("14.md", []byte(corrected), nil, j)
		}
		switch {
		case c.was == "" && (err == nil || !strings.Contains(err.Error(), c.is)):
			t.Errorf("%s: %s, %v, want a refusal that says %q", typed, said(j), err, c.is)
		case c.was == "":
		case err != nil:
			t.Errorf("%s: %v", typed, err)
		case string(e.After) != strings.Replace(corrected, c.was, c.is, 1):
			t.Errorf("%s gives\n%s", typed, e.Diff())
		case !strings.Contains(e.Diff(), "- ") || string(e.Undo()) != corrected:
			t.Errorf("%s does not show what was there:\n%s", typed, e.Diff())
		}
	}
}

// TestTimed: the moment at the end of a line is taken apart from what was done.
func TestTimed(t *testing.T) {
	for typed, want := range map[string]string{"racked 20 L @16:10": "racked 20 L|16:10", "1.012 at 16:10": "1.012|16:10",
		"1.012 18C @2026-05-02 08:15": "1.012 18C|2026-05-02 08:15", "1.012 @ 16:10": "1.012|16:10",
		"1.012 at 20C": "1.012 at 20C|", "mash at 66C @2026-05-02": "mash at 66C|2026-05-02"} {
		rest, at := Timed(args(typed))
		if got := strings.Join(rest, " ") + "|" + at; got != want {
			t.Errorf("%s: %s, want %s", typed, got, want)
		}
	}
}

package rules

import (
	"slices"
	"strings"
	"testing"

	"gylebook/internal/assay/healthy"
	"gylebook/internal/figures"
	"gylebook/internal/notice"
)

// examined is an entry's notices with some values changed.
func examined(t testing.TB, entry string, day string, sets ...string) []notice.Notice {
	t.Helper()
	return Examine(healthy.Sheet(t, entry, day, sets...))
}

// examplesOf are the rules' examples, by their ids.
func examplesOf(t testing.TB) map[string]healthy.Example {
	t.Helper()
	return healthy.Examples(t, "testdata/examples.yaml")
}

// TestEveryRuleHasItsExample runs the example of each rule: the entry
// that raises it, as grave as the rule can be, and the one that comes near and
// does not.
func TestEveryRuleHasItsExample(t *testing.T) {
	examples := examplesOf(t)
	if len(examples) > len(Rules()) {
		t.Errorf("%d examples of %d rules", len(examples), len(Rules()))
	}
	for _, r := range Rules() {
		t.Run(r.ID, func(t *testing.T) {
			e := examples[r.ID]
			if e.In == "" || len(e.Raises) == 0 && r.ID != "readings-sparse" {
				t.Fatal("the rule has no example")
			}
			raised := healthy.WithID(Examine(e.Raised(t)), r.ID)
			if len(raised) == 0 {
				t.Fatalf("%v does not raise it", e.Raises)
			}
			if worst := slices.MaxFunc(raised, func(a, b notice.Notice) int { return int(a.Severity) - int(b.Severity) }); worst.Severity != r.Worst {
				t.Errorf("raised as %s, but the rule says it can be %s: %s", worst.Severity, r.Worst, worst.Says)
			}
			if spared := healthy.WithID(Examine(e.Spared(t)), r.ID); healthy.Gravest(spared) >= healthy.Gravest(raised) {
				t.Errorf("%v raises it too: %v", e.Spares, spared)
			}
		})
	}
}

// TestUnderPitched puts pitching rates on a sheet by hand.
func TestUnderPitched(t *testing.T) {
	kind := &figures.Kind{ID: "pitching-rate", Unit: "million cells per mL per °P"}
	for _, at := range []struct {
		day  string
		rate float64
		want notice.Severity
	}{
		{"2026-03-01", 1.0, -1},
		{"2026-03-01", 0.7, notice.Note},
		{"2026-03-01", 0.3, notice.Mend},
		{"2026-03-05", 0.3, notice.Note}, // nobody pitches more on the fourth day
	} {
		s := healthy.Sheet(t, "pitching", at.day)
		s.Figures = slices.DeleteFunc(s.Figures, func(f figures.Figure) bool { return f.ID == kind.ID })
		s.Figures = append(s.Figures, figures.Figure{Kind: kind, Value: at.rate, PlusMinus: 0.1})
		if got := healthy.Gravest(healthy.WithID(Examine(s), "under-pitched")); got != at.want {
			t.Errorf("%g on %s: %v, want %v", at.rate, at.day, got, at.want)
		}
	}
}

// TestHealthyEntriesAreLeftInPeace: nobody learns from warnings that are always
// there.
func TestHealthyEntriesAreLeftInPeace(t *testing.T) {
	for entry, day := range healthy.Days {
		for _, n := range examined(t, entry, day) {
			if n.Severity > notice.Note && n.ID != "rating-unknown" && n.ID != "bag-will-swell" {
				t.Errorf("%s: %s", entry, n)
			}
			if n.Severity > notice.Look {
				t.Errorf("%s is healthy, yet: %s", entry, n)
			}
		}
	}
}

// TestWords holds every finding's words to the rules above package notice.
func TestWords(t *testing.T) {
	examples := examplesOf(t)
	for _, r := range Rules() {
		if r.When == "" || r.Source == "" || len(r.Watches) == 0 {
			t.Errorf("%s: when, source or stages are missing", r.ID)
		}
		for _, n := range healthy.WithID(Examine(examples[r.ID].Raised(t)), r.ID) {
			for what, text := range map[string]string{"says": n.Says, "why": n.Why, "do": n.Do} {
				switch {
				case text == "":
					t.Errorf("%s %s nothing", r.ID, what)
				case !strings.HasSuffix(text, "."):
					t.Errorf("%s: %s does not end like a sentence: %q", r.ID, what, text)
				case strings.ContainsAny(text, "!") || strings.Contains(text, "  ") || strings.Contains(text, "NaN") || strings.Contains(text, "%!"):
					t.Errorf("%s: %s reads badly: %q", r.ID, what, text)
				case len(text) > 260:
					t.Errorf("%s: %s is too long to read with wet hands (%d characters)", r.ID, what, len(text))
				}
			}
			if n.Place.File == "" || n.Place.Line == 0 {
				t.Errorf("%s: no place: %s", r.ID, n)
			}
		}
	}
}

// TestDangerCannotBeSilenced: accept answers a danger and leaves it standing.
func TestDangerCannotBeSilenced(t *testing.T) {
	sets := []string{"priming.weight=200 g", "accept[+].finding=bottle-limit", "accept[0].because=they are thick", "accept[+].finding=rating-unknown", "accept[1].because=same"}
	for _, n := range examined(t, "bottled", "", sets...) {
		switch {
		case n.ID == "bottle-limit" && n.Accepted != "":
			t.Errorf("a danger was silenced: %s", n)
		case n.ID == "rating-unknown" && n.Accepted != "same":
			t.Errorf("accept did not reach %s", n)
		}
	}
}

// TestNobodyIsToldAboutAnEmptyCask: what can no longer be mended is not asked for,
// whatever was wrong with it.
func TestNobodyIsToldAboutAnEmptyCask(t *testing.T) {
	for id, e := range examplesOf(t) {
		if slices.Contains(slips, id) {
			continue
		}
		sets := append(slices.Clone(e.Raises), "served.emptied=2026-05-01")
		for _, n := range healthy.WithID(examined(t, e.In, "2026-06-01", sets...), id) {
			if n.Severity > notice.Note {
				t.Errorf("emptied in May, and in June: %s", n)
			}
		}
	}
}

// slips are the rules about what was written: that can be corrected for ever.
var slips = []string{
	"gravity-mistyped", "gravity-impossible", "value-impossible", "fg-above-og", "gravity-rises",
	"volume-grows", "time-backwards", "hydrometer-uncorrected", "refractometer-after-pitch", "yield-outlier",
	"volumes-do-not-close", "package-missing", "poured-too-much", "score-off", "tasting-date", "primed-twice", "hop-times",
	"alpha-odd", "pitch-tiny", "overfilled", "aim-impossible",
}

// TestNobodyRousesYeastInACask: what is said of packaged beer can be done to it.
func TestNobodyRousesYeastInACask(t *testing.T) {
	for id, e := range examplesOf(t) {
		s := e.Raised(t)
		for _, n := range Examine(s) {
			if s.Stage >= figures.Maturing && (strings.Contains(n.Do, "ouse it") || strings.Contains(n.Do, "epitch")) && !strings.HasPrefix(n.Do, "Next time:") {
				t.Errorf("%s: %s: %s", id, n, n.Do)
			}
		}
	}
}

package findings

import (
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"gylebook/internal/figures"
	"gylebook/internal/journal"
	"gylebook/internal/notice"
)

const entries = "testdata/entries"

// healthy are the entries that rules are shown by.
var healthy = []string{"bottled", "bagged", "casked", "kegged", "barrelled", "working"}

// examined is an entry's notices with some values changed.
func examined(t *testing.T, entry string, day string, sets ...string) []notice.Notice {
	t.Helper()
	fsys, err := journal.Root(entries)
	if err != nil {
		t.Fatal(err)
	}
	j := journal.Read(fsys, journal.Options{})
	for _, e := range j.Errors {
		t.Errorf("the example entries have an error: %s", e)
	}
	name := entry + ".md"
	raw, err := os.ReadFile(filepath.Join(entries, name))
	if err != nil {
		t.Fatal(err)
	}
	d := journal.ReadFileSet(name, raw, j.Settings, sets)
	for _, e := range d.Errors {
		t.Errorf("%s with %v: %s", name, sets, e)
	}
	if day == "" {
		day = "2026-03-20"
	}
	now, err := time.Parse(time.DateOnly, day)
	if err != nil {
		t.Fatal(err)
	}
	return Examine(figures.Work(d.Gyle, figures.Context{Larder: j.Larder, Settings: j.Settings, Now: now.Add(12 * time.Hour)}))
}

func withID(notices []notice.Notice, id string) []notice.Notice {
	return slices.DeleteFunc(slices.Clone(notices), func(n notice.Notice) bool { return n.ID != id })
}

// TestEveryRuleHasItsExample runs the example that each rule declares: the entry
// that raises it, as grave as the rule can be, and the one that comes near and
// does not.
func TestEveryRuleHasItsExample(t *testing.T) {
	for _, r := range Rules() {
		t.Run(r.ID, func(t *testing.T) {
			if r.Example.In == "" || len(r.Example.Raises) == 0 && r.ID != "readings-sparse" {
				t.Fatal("the rule declares no example")
			}
			raised := withID(examined(t, r.Example.In, r.Example.On, r.Example.Raises...), r.ID)
			if len(raised) == 0 {
				t.Fatalf("%v does not raise it", r.Example.Raises)
			}
			if worst := slices.MaxFunc(raised, func(a, b notice.Notice) int { return int(a.Severity) - int(b.Severity) }); worst.Severity != r.Worst {
				t.Errorf("raised as %s, but the rule says it can be %s: %s", worst.Severity, r.Worst, worst.Says)
			}
			if spared := withID(examined(t, r.Example.In, r.Example.On, r.Example.Spares...), r.ID); gravest(spared) >= gravest(raised) {
				t.Errorf("%v raises it too: %v", r.Example.Spares, spared)
			}
		})
	}
}

func gravest(notices []notice.Notice) notice.Severity {
	worst := notice.Severity(-1)
	for _, n := range notices {
		worst = max(worst, n.Severity)
	}
	return worst
}

// TestHealthyEntriesAreLeftInPeace: nobody learns from warnings that are always
// there.
func TestHealthyEntriesAreLeftInPeace(t *testing.T) {
	for _, entry := range healthy {
		for _, n := range examined(t, entry, "") {
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
	for _, r := range Rules() {
		if r.When == "" || r.Source == "" || len(r.Watches) == 0 {
			t.Errorf("%s: when, source or stages are missing", r.ID)
		}
		for _, n := range withID(examined(t, r.Example.In, r.Example.On, r.Example.Raises...), r.ID) {
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

// TestNobodyIsToldAboutAnEmptyCask: what can no longer be mended is not asked for.
func TestNobodyIsToldAboutAnEmptyCask(t *testing.T) {
	for _, n := range examined(t, "bottled", "2026-06-01", "priming.weight=200 g", "served.emptied=2026-05-01") {
		if n.Severity > notice.Note {
			t.Errorf("emptied in May, and in June: %s", n)
		}
	}
}

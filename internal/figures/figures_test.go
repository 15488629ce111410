package figures

import (
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"gylebook/internal/journal"
)

// Where the test entries are. All of them are invented.
const (
	byHand  = "../../testdata/gyles-by-hand"
	demo    = "../../journal"
	every   = "../../testdata/journal/every-key.md"
	figured = "../../testdata/figures"
)

// longAfter is a clock at which nothing in a test entry is still to come.
var longAfter = time.Date(2030, 1, 1, 12, 0, 0, 0, time.UTC)

// opened reads a journal that must be without errors.
func opened(t testing.TB, dir string) *journal.Journal {
	t.Helper()
	root, err := journal.Root(dir)
	if err != nil {
		t.Fatal(err)
	}
	j := journal.Read(root, journal.Options{})
	for _, e := range j.Errors {
		t.Errorf("%s: %s", dir, e)
	}
	return j
}

// entry is the text of a gyle, which must read without errors once the sets
// are applied.
func entry(t testing.TB, j *journal.Journal, raw []byte, sets ...string) *journal.Gyle {
	t.Helper()
	d := journal.ReadFileSet("entry.md", raw, j.Settings, sets)
	for _, e := range d.Errors {
		t.Errorf("with %v: %s", sets, e)
	}
	if d.Gyle == nil {
		t.Fatalf("with %v it is no gyle", sets)
	}
	return d.Gyle
}

// contextOf is the context of a journal's gyles, as the book gives it, but for
// what earlier gyles taught.
func contextOf(j *journal.Journal, now time.Time) Context {
	c := Context{Larder: j.Larder, Settings: j.Settings, Now: now}
	c.Other = func(n int) *Sheet {
		if g := j.Gyle(n); g != nil {
			return Work(g, Context{Larder: j.Larder, Settings: j.Settings, Now: now})
		}
		return nil
	}
	return c
}

// file reads a test file.
func file(t testing.TB, parts ...string) []byte {
	t.Helper()
	raw, err := os.ReadFile(filepath.Join(parts...))
	if err != nil {
		t.Fatal(err)
	}
	return raw
}

// part names a figure: its id and what it is of.
type part struct {
	id ID
	of string
}

func (p part) String() string {
	if p.of == "" {
		return string(p.id)
	}
	return string(p.id) + " of " + p.of
}

func partOf(f Figure) part { return part{f.ID, f.Of} }

// near tells whether two numbers agree to a share of the larger.
func near(a, b, share float64) bool {
	return math.Abs(a-b) <= share*max(math.Abs(a), math.Abs(b), 1e-12)
}

// TestAGravityAboveTheOriginalCountsForNothing: a slip such as 1.10 for 1.010
// must not become a beer of negative strength.
func TestAGravityAboveTheOriginalCountsForNothing(t *testing.T) {
	const entry = `---
gyle: 1
beer: A slip
brewed: 2026-03-07
yeast: [{yeast: any, pitched: 2026-03-07 14:00}]
fermenter: {volume: 20 L, gravity: 1.046, sample_at: 20 C}
readings:
  - {when: 2026-03-09 08:00, gravity: 1.020, sample_at: 20 C}
  - {when: 2026-03-12 08:00, gravity: 1.10, sample_at: 20 C}
---
`
	s := works(t, []byte(entry))
	for _, id := range []ID{"fg", "gravity-now"} {
		if f, ok := s.Find(id, ""); !ok || f.Value > 1.021 {
			t.Errorf("%s is %.4f, want the 1.020 before the slip", id, f.Value)
		}
	}
	if f, ok := s.Find("abv", ""); !ok || f.Value < 0 {
		t.Errorf("the alcohol is %.3g", f.Value)
	}
	fruited := works(t, []byte(entry), "added[+].fruit=damson", "added[0].weight=9 kg", "added[0].into=fermenter", "added[0].when=2026-03-11")
	if f, ok := fruited.Find("gravity-now", ""); !ok || f.Value < 1.09 {
		t.Errorf("with nine kilos of fruit the gravity now is %.4f, want the 1.100 read", f.Value)
	}
}

// TestAdviceWhereEachIsPrimedApart: the sugar to weigh is for all that was
// racked, and nobody is told that nothing is left of it.
func TestAdviceWhereEachIsPrimedApart(t *testing.T) {
	s := works(t, []byte(`---
gyle: 1
beer: Two pins
brewed: 2026-03-07
aim: {condition: 1.2 vol}
yeast: [{yeast: any, pitched: 2026-03-07 14:00}]
fermenter: {volume: 41 L, gravity: 1.038, sample_at: 20 C}
readings: [{when: 2026-03-14, gravity: 1.010, temp: 20 C}, {when: 2026-03-16, gravity: 1.010, temp: 20 C}]
racked: {on: 2026-03-17, volume: 39 L, temp: 18 C}
packages:
  - {vessel: pin, fill: 19.5 L, priming: {sugar: sucrose, weight: 30 g}}
  - {vessel: pin, fill: 19.5 L, priming: {sugar: sucrose, weight: 30 g}}
---
`))
	f, ok := s.Find("priming-sugar", "sucrose")
	// (1.2 − 0.83 vol) × 39 L × 1.977 g/L ÷ 0.489 g of gas a gram
	if !ok || math.Abs(f.Value-58) > 6 {
		t.Errorf("the advice is %.3g g, want about 58; missing are %+v", f.Value, s.Missing)
	}
	for _, m := range s.Missing {
		if strings.Contains(m.Because, "nothing is left") {
			t.Errorf("%s: %s", m.Figure, m.Because)
		}
	}
}

// TestOneBottleOpenedLeavesTheOthers: the first of two dozen bottles opened says
// nothing of how long the rest keep; a bag that is broached is broached.
func TestOneBottleOpenedLeavesTheOthers(t *testing.T) {
	best := func(packages string) time.Time {
		s := works(t, []byte("---\ngyle: 1\nbeer: Any\nbrewed: 2026-02-01\nracked: {on: 2026-02-11, volume: 12 L}\nserved: {broached: 2026-03-11}\npackages: ["+packages+"]\n---\n"))
		f, ok := s.Find("drink-by", "packages[0]")
		if !ok {
			t.Fatalf("%s: no date", packages)
		}
		return f.Date
	}
	filled := time.Date(2026, 2, 11, 0, 0, 0, 0, time.UTC)
	if days := best("{vessel: bottle 500 mL, count: 24}").Sub(filled).Hours() / 24; days != 180 {
		t.Errorf("bottles: best until %v days after filling, want the 180 of an unopened one", days)
	}
	if days := best("{vessel: soft bag 10 L, fill: 9 L}").Sub(filled).Hours() / 24; days != 28+14 {
		t.Errorf("a bag broached on the 28th day: best until the %v th, want the 42nd", days)
	}
}

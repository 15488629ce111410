package figures

import (
	"math"
	"os"
	"path/filepath"
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
type part struct{ id, of string }

func (p part) String() string {
	if p.of == "" {
		return p.id
	}
	return p.id + " of " + p.of
}

func partOf(f Figure) part { return part{f.ID, f.Of} }

// near tells whether two numbers agree to a share of the larger.
func near(a, b, share float64) bool {
	return math.Abs(a-b) <= share*max(math.Abs(a), math.Abs(b), 1e-12)
}

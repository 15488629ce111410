package rules_test

import (
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"go.yaml.in/yaml/v4"

	"gylebook/internal/figures"
	"gylebook/internal/journal"
	"gylebook/internal/notice"
	"gylebook/internal/rules"
)

// byPencil are whole stories with their accounts reckoned by hand; its README says how
// they are read.
const byPencil = "../../testdata/accounts-by-hand"

// pencilled is what a story holds the program to.
type pencilled struct {
	Now             time.Time `yaml:"now"`
	Figures, Uppers []span
	Hours           []hour
	Must            []warning
	MustNot         []warning `yaml:"must_not"`
}

// span is what a number has to lie in; its value is the pencil's own.
type span struct {
	ID, Of           string
	Value, Low, High float64
}

// hour is a span for one number of a container's state at an hour.
type hour struct {
	span `yaml:",inline"`
	At   time.Time
	What string
}

// warning is a finding that has to be there, or must not.
type warning struct {
	Finding, Of, Says, Because string
	AtLeast                    string `yaml:"at_least"`
}

// TestStoriesByPencil works every story's entry at its hour and holds figures, upper
// bounds, states and findings to what was reckoned with pencil and paper.
func TestStoriesByPencil(t *testing.T) {
	root, err := journal.Root(byPencil)
	if err != nil {
		t.Fatal(err)
	}
	j := journal.Read(root, journal.Options{})
	for _, e := range j.Errors {
		t.Errorf("%s", e)
	}
	stories, err := filepath.Glob(filepath.Join(byPencil, "[0-9]*.md"))
	if err != nil || len(stories) < 12 {
		t.Fatalf("%d stories, %v", len(stories), err)
	}
	for _, file := range stories {
		name := strings.TrimSuffix(filepath.Base(file), ".md")
		t.Run(name, func(t *testing.T) {
			p := readPencilled(t, file)
			s := workedAt(j, j.Find(name), p.Now)
			p.holdFigures(t, s)
			p.holdHours(t, s)
			p.holdWarnings(t, rules.Examine(s))
		})
	}
}

func readPencilled(t *testing.T, file string) (p pencilled) {
	t.Helper()
	raw, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	_, block, _ := strings.Cut(string(raw), "\n```yaml\n")
	block, _, closed := strings.Cut(block, "\n```")
	if !closed {
		t.Fatal("no block of figures")
	}
	if err := yaml.Load([]byte(block), &p, yaml.WithKnownFields()); err != nil {
		t.Fatal(err)
	}
	return p
}

// workedAt is a gyle worked out at an hour, those it was drawn from likewise.
func workedAt(j *journal.Journal, g *journal.Gyle, now time.Time) *figures.Sheet {
	c := figures.Context{Larder: j.Larder, Settings: j.Settings, Now: now}
	c.Other = func(number int) *figures.Sheet {
		if other := j.Gyle(number); other != nil {
			return workedAt(j, other, now)
		}
		return nil
	}
	return figures.Work(g, c)
}

func (p pencilled) holdFigures(t *testing.T, s *figures.Sheet) {
	for _, want := range p.Figures {
		if f, ok := s.Find(figures.ID(want.ID), want.Of); ok {
			want.holds(t, f.Value)
		} else {
			t.Errorf("%s of %s is not worked out", want.ID, want.Of)
		}
	}
	for _, want := range p.Uppers {
		f, _ := s.Find(figures.ID(want.ID), want.Of)
		want.ID = "at most, " + want.ID
		want.holds(t, f.UpperBound())
	}
}

// printed is half of the last digit that spans are printed to.
const printed = 0.0005

func (s span) holds(t *testing.T, got float64) {
	t.Helper()
	if !(got >= s.Low-printed && got <= s.High+printed) {
		t.Errorf("%s of %q: %.4f, by pencil %.4g, between %.4g and %.4g", s.ID, s.Of, got, s.Value, s.Low, s.High)
	}
}

func (p pencilled) holdHours(t *testing.T, s *figures.Sheet) {
	for _, want := range p.Hours {
		want.ID = want.What + " on " + want.At.Format("2 Jan 15:04")
		state, ok := stateOf(s, want.Of, want.At)
		if !ok {
			t.Errorf("%s of %s: no state", want.ID, want.Of)
			continue
		}
		want.holds(t, map[string]float64{
			"pressure": state.Gauge.Bar(), "condition": float64(state.Dissolved),
			"volume": state.Beer.Litres(), "headspace": state.Headspace.Litres(),
		}[want.What])
	}
}

func stateOf(s *figures.Sheet, of string, at time.Time) (figures.State, bool) {
	if of == "fermenter" {
		return s.Inquire().HeldInFermenter(at)
	}
	for _, c := range s.Containers() {
		if c.Key == of {
			return s.Inquire().HeldAtHour(c, at)
		}
	}
	return figures.State{}, false
}

func (p pencilled) holdWarnings(t *testing.T, found []notice.Notice) {
	for _, w := range p.Must {
		if !w.among(found) {
			t.Errorf("no %s of %q at %s or graver: %s", w.Finding, w.Of, w.AtLeast, w.Because)
		}
	}
	for _, w := range p.MustNot {
		if w.among(found) {
			t.Errorf("%s of %q %s, though %s", w.Finding, w.Of, w.AtLeast, w.Because)
		}
	}
}

func (w warning) among(found []notice.Notice) bool {
	least, _ := notice.ParseSeverity(w.AtLeast)
	for _, n := range found {
		if n.ID == w.Finding && n.Severity >= least && (w.Of == "" || n.Of == w.Of || slices.Contains(strings.Fields(n.Also), w.Of)) && strings.Contains(n.Says, w.Says) {
			return true
		}
	}
	return false
}

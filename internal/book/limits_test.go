package book_test

import (
	"fmt"
	"os"
	"regexp"
	"slices"
	"strings"
	"testing"

	"go.yaml.in/yaml/v4"

	"gylebook/internal/assay"
	"gylebook/internal/assay/healthy"
	"gylebook/internal/book"
	"gylebook/internal/causes"
	"gylebook/internal/figures"
	"gylebook/internal/planning"
	"gylebook/internal/proposals"
	"gylebook/internal/rules"
)

// bothSides are two examples of one limit: see testdata/limits.yaml.
type bothSides struct {
	Of    string   `yaml:"of"`
	In    string   `yaml:"in"`
	Day   string   `yaml:"day"`
	Sets  []string `yaml:"sets"`
	Above []string `yaml:"above"`
	Below []string `yaml:"below"`
	Notch float64  `yaml:"notch"` // where the limit's own shows nothing
}

// sheet is one side worked out. A day or an entry that differs is written among its
// values.
func (b bothSides) sheet(t *testing.T, side []string) *figures.Sheet {
	t.Helper()
	in, day := b.In, b.Day
	sets := slices.DeleteFunc(slices.Concat(b.Sets, side), func(set string) bool {
		key, value, _ := strings.Cut(set, "=")
		switch key {
		case "in":
			in = value
		case "day":
			day = value
		}
		return key == "in" || key == "day"
	})
	return healthy.Sheet(t, in, day, sets...)
}

// TestEachLimitIsHeld steps every limit one notch to either side, and demands that what
// is judged by it comes or goes. A limit without examples that near fails.
func TestEachLimitIsHeld(t *testing.T) {
	raw, err := os.ReadFile("testdata/limits.yaml")
	if err != nil {
		t.Fatal(err)
	}
	var all map[string]bothSides
	if err := yaml.Load(raw, &all, yaml.WithKnownFields()); err != nil {
		t.Fatal(err)
	}
	for _, group := range book.Limits() {
		for _, limit := range group.Limits {
			t.Run(limit.Name, func(t *testing.T) {
				sides, known := all[limit.Name]
				delete(all, limit.Name)
				var above, below func() string
				switch special := otherExamples[limit.Name]; {
				case special != nil:
					above, below = special(t)
				case known:
					a, b := sides.sheet(t, sides.Above), sides.sheet(t, sides.Below)
					above = func() string { return judged(a, sides.Of) }
					below = func() string { return judged(b, sides.Of) }
				default:
					t.Fatal("no example stands near it on both sides")
				}
				notch := limit.Notch()
				if sides.Notch > 0 {
					notch = sides.Notch
				}
				if was, is := stepped(limit, notch, above); was == is {
					t.Errorf("raised from %s by %g, %s still says %q of %v", limit, notch, sides.Of, was, sides.Above)
				}
				if was, is := stepped(limit, -notch, below); was == is {
					t.Errorf("lowered from %s by %g, %s still says %q of %v", limit, notch, sides.Of, was, sides.Below)
				}
			})
		}
	}
	for name := range all {
		t.Errorf("%s is no limit, and has examples", name)
	}
}

// stepped is what is judged with a limit as it is, and moved.
func stepped(limit *assay.Limit, by float64, judge func() string) (was, is string) {
	number := limit.Number
	was = judge()
	limit.Number = number + by
	defer func() { limit.Number = number }()
	return was, judge()
}

var digits = regexp.MustCompile(`[0-9.]+`)

// judged is what one of the rooms makes of a sheet, without the numbers that a sentence
// prints.
func judged(s *figures.Sheet, of string) string {
	kind, id, _ := strings.Cut(of, " ")
	var b strings.Builder
	switch kind {
	case "rule":
		for _, n := range healthy.WithID(rules.Examine(s), id) {
			fmt.Fprintln(&b, n.Severity, n.Of, digits.ReplaceAllString(n.Do, "#"))
		}
	case "verdict":
		v, ok := rules.FinishedOrQuiet(s)
		fmt.Fprint(&b, ok, v.Answer)
	case "cause", "remarks":
		for _, d := range causes.Diagnose(s, causes.Hear(s.Gyle)) {
			for _, suspect := range d.Suspects {
				if suspect.ID == id {
					for _, sign := range suspect.Signs {
						fmt.Fprintln(&b, sign.Voice, sign.May, sign.Weight)
					}
				}
			}
			if kind == "remarks" {
				fmt.Fprintln(&b, len(d.Remarks))
			}
		}
	case "next", "size":
		changes, passed := proposals.Appraise(s)
		for _, p := range changes {
			if string(p.Figure) != id {
				continue
			}
			fmt.Fprintln(&b, digits.ReplaceAllString(p.Change+p.Cause+p.Short, "#"))
			if kind == "size" {
				fmt.Fprintln(&b, p.Sets, p.Expect.Value, p.Expect.PlusMinus)
			}
		}
		for _, u := range passed {
			if string(u.Figure) == id {
				fmt.Fprintln(&b, digits.ReplaceAllString(u.Why, "#"))
			}
		}
	case "timetable":
		for _, way := range planning.Timetables(s) {
			fmt.Fprintln(&b, way.Vessel, way.Late, way.Hurried)
			for _, step := range way.Steps {
				fmt.Fprintln(&b, step.ID, step.By, step.Earliest)
			}
		}
	case "round":
		r, _ := planning.PartyRound(s)
		fmt.Fprint(&b, r.Low, r.High, r.Have.Value)
	default:
		return "nothing judges as " + kind
	}
	return b.String()
}

// TestLimitsAreDeclaredWhole holds each limit to have what lists print, and no two to
// have one name.
func TestLimitsAreDeclaredWhole(t *testing.T) {
	seen := map[string]bool{}
	for _, group := range book.Limits() {
		for _, l := range group.Limits {
			if l.Name == "" || l.Number <= 0 || l.Says == "" || l.Source == "" || seen[l.Name] {
				t.Errorf("%+v is not whole, or there twice", l)
			}
			seen[l.Name] = true
		}
	}
	if len(seen) < 200 {
		t.Errorf("only %d limits are listed", len(seen))
	}
}

// TestNoDeclarationTypesALimit: what rules and causes declare of their tests has the
// limits that it speaks of printed into it: where a text has a limit in it as that
// prints itself, it changes with one that prints so.
func TestNoDeclarationTypesALimit(t *testing.T) {
	printed := map[string][]*assay.Limit{}
	for _, group := range book.Limits() {
		for _, l := range group.Limits {
			if l.Unit != "" && l.Unit != "pH" {
				printed[l.String()] = append(printed[l.String()], l)
			}
		}
	}
	before, looked := declaredTexts(), 0
	for text, limits := range printed {
		word := regexp.MustCompile(`(?:^|[^0-9.])` + regexp.QuoteMeta(text) + `(?:[^0-9A-Za-z.]|\.?$)`)
		for id, said := range before {
			if !word.MatchString(said) || excused[id] == text {
				continue
			}
			looked++
			follows := func(l *assay.Limit) bool {
				was := l.Number
				l.Number += l.Notch()
				defer func() { l.Number = was }()
				return declaredTexts()[id] != said
			}
			if !slices.ContainsFunc(limits, follows) {
				t.Errorf("%s types %q: %s", id, text, said)
			}
		}
	}
	if looked < 100 {
		t.Errorf("only %d texts have a limit in them", looked)
	}
}

// excused are texts with a number that is no limit of these rooms.
var excused = map[string]string{
	"not-finished": "48 hours", "stuck": "48 hours", // journal.LevelAtLeast
}

// declaredTexts are the tests of rules and causes in words.
func declaredTexts() map[string]string {
	all := map[string]string{}
	for _, r := range rules.Rules() {
		all[r.ID] = r.When
	}
	for _, c := range causes.Causes() {
		for i, test := range c.Tests {
			all[fmt.Sprintf("%s, test %d", c.ID, i)] = test.For + "; " + test.Against
		}
	}
	return all
}

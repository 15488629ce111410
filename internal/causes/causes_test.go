package causes

import (
	"slices"
	"strings"
	"testing"

	"gylebook/internal/assay/healthy"
	"gylebook/internal/figures"
	"gylebook/internal/journal"
	"gylebook/internal/tasting"
)

// examples are the causes' examples, by their ids.
func examples(t testing.TB) map[string]healthy.Example {
	t.Helper()
	return healthy.Examples(t, "testdata/examples.yaml")
}

// tasted is the diagnosis of one word, put into an entry's first tasting.
func tasted(t testing.TB, s *figures.Sheet) Diagnosis {
	t.Helper()
	all := Diagnose(s, Hear(s.Gyle))
	if len(all) != 1 {
		t.Fatalf("one word leads to %d diagnoses", len(all))
	}
	return all[0]
}

// suspected is what the readings say of one cause; ok is false where it is not
// among the suspects.
func suspected(d Diagnosis, id string) (Suspect, bool) {
	for _, s := range d.Suspects {
		if s.ID == id {
			return s, true
		}
	}
	return Suspect{}, false
}

func TestEveryCauseHasItsExample(t *testing.T) {
	all := examples(t)
	for _, c := range Causes() {
		t.Run(c.ID, func(t *testing.T) {
			e := all[c.ID]
			if e.Word == "" {
				if c.ID == "sulphate" {
					t.Skip("the example entries have no water card; TestSulphate puts its figures on a sheet")
				}
				t.Fatal("the cause has no example")
			}
			with := tasted(t, e.Raised(t))
			if likely := with.Standing(Likely); !slices.ContainsFunc(likely, func(s Suspect) bool { return s.ID == c.ID }) {
				s, _ := suspected(with, c.ID)
				t.Errorf("%v does not make it likely: %+v", e.Raises, s.Signs)
			}
			without := tasted(t, e.Spared(t))
			if s, _ := suspected(without, c.ID); s.Cause.ID != "" && s.Standing() == Likely {
				t.Errorf("%v makes it likely too: %+v", e.Spares, s.Signs)
			}
		})
	}
}

// TestSulphate puts the liquor's figures on a sheet by hand.
func TestSulphate(t *testing.T) {
	for _, at := range []struct {
		ratio, sulphate float64
		likely          bool
	}{{4.2, 360, true}, {1.4, 90, false}, {2.5, 200, false}} {
		s := healthy.Sheet(t, "pouring", "2026-03-28", "tastings[0].found[+]=harsh")
		s.Figures = slices.DeleteFunc(s.Figures, func(f figures.Figure) bool { return f.ID == "ion" || f.ID == "sulphate-chloride" })
		s.Figures = append(s.Figures,
			figures.Figure{Kind: &figures.Kind{ID: "sulphate-chloride"}, Value: at.ratio, PlusMinus: 0.3},
			figures.Figure{Kind: &figures.Kind{ID: "ion", Unit: "mg/L"}, Of: "sulphate", Value: at.sulphate, PlusMinus: 20})
		got, _ := suspected(Diagnose(s, Hear(s.Gyle))[0], "sulphate")
		if (got.Weight > 0) != at.likely {
			t.Errorf("sulphate %g mg/L, %g times the chloride: %+v", at.sulphate, at.ratio, got.Signs)
		}
	}
}

// TestCausesAndWordsAgree: every cause that a word names is declared, and every
// cause is named by a word.
func TestCausesAndWordsAgree(t *testing.T) {
	all, named := Causes(), map[string]bool{}
	for _, w := range tasting.Words() {
		for _, id := range w.LeadsTo {
			named[id] = true
			if _, ok := causeNamed(all, id); !ok {
				t.Errorf("%s leads to %s, which is no cause", w.Word, id)
			}
		}
	}
	for _, c := range all {
		if !named[c.ID] {
			t.Errorf("no word leads to %s", c.ID)
		}
	}
}

// TestCausesAreDeclared holds each declaration to be whole and to read well.
func TestCausesAreDeclared(t *testing.T) {
	seen := map[string]bool{}
	for _, c := range Causes() {
		if seen[c.ID] {
			t.Errorf("two causes are called %s", c.ID)
		}
		seen[c.ID] = true
		if c.Name == "" || c.Source == "" || len(c.Tests) == 0 || c.Next == "" {
			t.Errorf("%s: name, source, tests or what to do next time are missing", c.ID)
		}
		for _, sentence := range []string{c.Now, c.Next} {
			if sentence != "" && (!strings.HasSuffix(sentence, ".") || len(sentence) > 160 || strings.Contains(sentence, "!")) {
				t.Errorf("%s reads badly: %q", c.ID, sentence)
			}
		}
		if c.Name != strings.ToLower(c.Name[:1])+c.Name[1:] || strings.HasSuffix(c.Name, ".") {
			t.Errorf("%s: its name is no clause: %q", c.ID, c.Name)
		}
		for i, test := range c.Tests {
			if test.For == "" && test.Against == "" || test.look == nil && test.of == nil || test.Weight != Circumstance && test.Weight != Measurement {
				t.Errorf("%s: test %d is not whole", c.ID, i)
			}
		}
	}
}

// TestSignsReadWell holds what every example says to the rules above package
// notice.
func TestSignsReadWell(t *testing.T) {
	heard := map[string]bool{}
	for _, e := range examples(t) {
		for _, sheet := range []*figures.Sheet{e.Raised(t), e.Spared(t)} {
			for _, suspect := range tasted(t, sheet).Suspects {
				for _, s := range suspect.Signs {
					heard[s.Says] = true
					switch {
					case s.Voice == Unknown && (s.Needs == "" || s.Says != ""):
						t.Errorf("%s does not know, and needs %q: %q", suspect.ID, s.Needs, s.Says)
					case s.Voice == Unknown:
					case s.Says == "" || strings.HasSuffix(s.Says, ".") || strings.Contains(s.Says, "NaN") || strings.Contains(s.Says, "%!") || strings.Contains(s.Says, "  ") || len(s.Says) > 200:
						t.Errorf("%s reads badly: %q", suspect.ID, s.Says)
					case s.Where.Line == 0 && !strings.Contains(s.Says, "noted") && !strings.HasPrefix(s.Says, "there is no"):
						t.Errorf("%s cites no line: %q", suspect.ID, s.Says)
					}
				}
			}
		}
	}
	if len(heard) < 40 {
		t.Errorf("only %d different signs were heard", len(heard))
	}
}

// TestNoReadingsNoSigns: an entry with nothing in it but what was tasted speaks
// for and against nothing, whatever the word.
func TestNoReadingsNoSigns(t *testing.T) {
	for _, w := range tasting.Words() {
		d := inBareEntry(t, w)
		if len(w.LeadsTo) == 0 {
			if d != nil {
				t.Errorf("%s is a description, and is diagnosed", w.Word)
			}
			continue
		}
		if d == nil {
			t.Errorf("%s is not diagnosed", w.Word)
			continue
		}
		for _, s := range d.Suspects {
			if s.Has(For) || s.Has(Against) {
				t.Errorf("%s, %s: an empty entry says %+v", w.Word, s.ID, s.Signs)
			}
		}
		if len(d.Standing(Open)) != len(d.Suspects) || len(d.Suspects) == 0 {
			t.Errorf("%s: %d of %d suspects are open", w.Word, len(d.Standing(Open)), len(d.Suspects))
		}
	}
}

// inBareEntry is the diagnosis of a word in an entry that has nothing else in it, nil
// for none.
func inBareEntry(t *testing.T, w tasting.Word) *Diagnosis {
	t.Helper()
	raw := []byte("---\ngyle: 1\nbeer: A beer\ntastings: [{found: [" + w.Word + "]}]\n---\n")
	d := journal.ReadFileSet("bare.md", raw, healthy.Journal().Settings, nil)
	if len(d.Errors) > 0 {
		t.Fatal(d.Errors)
	}
	s := figures.Work(d.Gyle, figures.Context{Larder: journal.NewLarder(nil), Settings: healthy.Journal().Settings, Now: healthy.Clock(t, "2026-03-28")})
	all := Diagnose(s, Hear(s.Gyle))
	if len(all) == 0 {
		return nil
	}
	return &all[0]
}

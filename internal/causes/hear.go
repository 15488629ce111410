package causes

import (
	"cmp"
	"slices"
	"strings"

	"gylebook/internal/journal"
	"gylebook/internal/tasting"
)

// Heard is what a gyle's tasters said together: their verdict.
type Heard struct {
	Tasters int      // different ones; a tasting without a name is a taster of its own
	Sayings []Saying // each word once, the one that most tasters said first
}

// Saying is one word that tasters found.
type Saying struct {
	Word     string   // as pages say it; in the taster's own spelling where it is not known
	Known    bool     // whether it is a word of package tasting
	Spelt    []string // how tasters put it, where that is not the word itself
	Tastings []int    // where it was said, as indexes of the entry's tastings
	Tasters  int      // how many said it
}

// Agreed tells whether more than one taster said so: one is a hint, two are
// evidence, and silence is neither (common practice, no source).
func (s Saying) Agreed() bool { return s.Tasters > 1 }

// Hear gathers what the tasters of a gyle found, up to the clock and after it: an
// entry is written with the glass in hand. Words for one thing count as one word,
// and a taster who says it twice as one taster.
func Hear(g *journal.Gyle) Heard {
	v := Heard{}
	tasters := map[string]bool{}
	at := map[string]int{}
	said := map[string]map[string]bool{}
	for i, t := range g.Tastings {
		who := Taster(t)
		tasters[who] = true
		for _, found := range t.Found {
			word, known := heard(found.Text)
			if word == "" {
				continue
			}
			n, ok := at[word]
			if !ok {
				n = len(v.Sayings)
				at[word], said[word] = n, map[string]bool{}
				v.Sayings = append(v.Sayings, Saying{Word: word, Known: known})
			}
			if s := &v.Sayings[n]; len(s.Tastings) == 0 || s.Tastings[len(s.Tastings)-1] != i {
				s.Tastings = append(s.Tastings, i)
			}
			said[word][who] = true
			if as := tasting.Plain(found.Text); as != word && !slices.Contains(v.Sayings[n].Spelt, as) {
				v.Sayings[n].Spelt = append(v.Sayings[n].Spelt, as)
			}
		}
	}
	v.Tasters = len(tasters)
	for i := range v.Sayings {
		v.Sayings[i].Tasters = len(said[v.Sayings[i].Word])
	}
	slices.SortFunc(v.Sayings, func(a, b Saying) int {
		return cmp.Or(cmp.Compare(b.Tasters, a.Tasters), strings.Compare(a.Word, b.Word))
	})
	return v
}

// heard is the word that was meant, else what was typed.
func heard(typed string) (word string, known bool) {
	if w, ok := tasting.Known(typed); ok {
		return w.Word, true
	}
	return tasting.Plain(typed), false
}

// Taster tells the tasters of a gyle apart: by name, without regard to case and
// spaces; one without a name is known by the line alone. It is for comparing, not
// for printing.
func Taster(t journal.Tasting) string {
	if name := strings.ToLower(strings.Join(strings.Fields(t.By.Name), "")); name != "" {
		return name
	}
	return t.Where.Key
}

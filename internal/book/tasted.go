package book

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"gylebook/internal/journal"
)

// Tasted is a gyle's tastings, gathered.
type Tasted struct {
	Tastings int
	Tasters  int // different ones; a tasting without a name is a taster of its own
	// Scored is how many of the tastings have a score that can be.
	Scored int
	// Score is the mean score as a share of the most there could be, 0 to 1;
	// NaN where nobody gave one.
	Score float64
	// PlusMinus is twice the mean's standard uncertainty by the tasters' own
	// disagreement (JCGM 100:2008, 4.2.3); NaN for fewer than two scores.
	PlusMinus float64
	// Words are what was found, the word that most tasters said first.
	Words []Said
}

// Said is one word and how many said it.
type Said struct {
	Word    string
	Tasters int
}

// usualOutOf is the most that a score can be where the entry does not say.
const usualOutOf = 50

func outOf(t journal.Tasting) float64 {
	if t.OutOf.Written() {
		return float64(t.OutOf.Value)
	}
	return usualOutOf
}

// gathered is what a gyle's tasters said up to the clock and after it: an entry
// is written with the glass in hand.
func gathered(g *journal.Gyle) Tasted {
	t := Tasted{Tastings: len(g.Tastings), Score: math.NaN(), PlusMinus: math.NaN()}
	tasters := map[string]bool{}
	said := map[string]map[string]bool{}
	var scores []float64
	for _, one := range g.Tastings {
		who := taster(one)
		tasters[who] = true
		if s, ok := scoreOf(one); ok {
			scores = append(scores, s)
		}
		for _, word := range one.Found {
			w := strings.ToLower(strings.Join(strings.Fields(word.Text), " "))
			if w == "" {
				continue
			}
			if said[w] == nil {
				said[w] = map[string]bool{}
			}
			said[w][who] = true
		}
	}
	t.Tasters = len(tasters)
	t.Scored = len(scores)
	t.Score, t.PlusMinus = meanOf(scores)
	for word, by := range said {
		t.Words = append(t.Words, Said{Word: word, Tasters: len(by)})
	}
	slices.SortFunc(t.Words, func(a, b Said) int {
		return cmp.Or(cmp.Compare(b.Tasters, a.Tasters), strings.Compare(a.Word, b.Word))
	})
	return t
}

// taster tells tasters apart; one without a name is known by the line alone.
func taster(t journal.Tasting) string {
	if t.By.Name != "" {
		return folded(t.By.Name)
	}
	return t.Where.Key
}

// scoreOf is a score as a share, where it can be one.
func scoreOf(t journal.Tasting) (share float64, ok bool) {
	most := outOf(t)
	if !t.Score.Written() || most <= 0 || t.Score.Value < 0 || float64(t.Score.Value) > most {
		return 0, false
	}
	return float64(t.Score.Value) / most, true
}

// meanOf is the mean and twice its standard uncertainty.
func meanOf(values []float64) (mean, plusMinus float64) {
	n := float64(len(values))
	if n == 0 {
		return math.NaN(), math.NaN()
	}
	for _, v := range values {
		mean += v / n
	}
	if n < 2 {
		return mean, math.NaN()
	}
	squares := 0.0
	for _, v := range values {
		squares += (v - mean) * (v - mean)
	}
	return mean, 2 * math.Sqrt(squares/(n-1)/n)
}

package book

import (
	"math"

	"gylebook/internal/causes"
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
	// Words are what was found, words for one thing counted as one, the word that
	// most tasters said first.
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
	heard := causes.Hear(g)
	t := Tasted{Tastings: len(g.Tastings), Tasters: heard.Tasters}
	var scores []float64
	for _, one := range g.Tastings {
		if s, ok := scoreOf(one); ok {
			scores = append(scores, s)
		}
	}
	t.Scored = len(scores)
	t.Score, t.PlusMinus = meanOf(scores)
	for _, s := range heard.Sayings {
		t.Words = append(t.Words, Said{Word: s.Word, Tasters: s.Tasters})
	}
	return t
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

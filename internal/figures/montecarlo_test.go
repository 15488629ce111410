package figures

import (
	"math"
	"math/rand/v2"
	"strings"
	"testing"
	"time"

	"gylebook/internal/journal"
)

// scatters are the inputs that are the scatter of a formula about real beers,
// and so normal; every other input is a reading within a half-width, and so
// rectangular (JCGM 101:2008, 6.4.2 and 6.4.7).
var scatters = map[string]bool{
	"Balling's method":                        true,
	"the bitterness formula":                  true,
	"the colour formula":                      true,
	"the energy formula":                      true,
	"the carbohydrate formula":                true,
	"the refractometer's method":              true,
	"how much of its gas the beer held on to": true,
}

// trial works a gyle once more with every input strayed by a draw of its own,
// the same wherever it is read.
func trial(g *journal.Gyle, c Context, random *rand.Rand) *Sheet {
	type name struct {
		what  string
		where journal.Where
	}
	drawn := map[name]float64{}
	s := newBench(g, c)
	s.astray = func(in Input) float64 {
		n := name{in.What, in.Where}
		z, ok := drawn[n]
		if !ok {
			if what, _, _ := strings.Cut(in.What, inGyle); scatters[what] {
				z = random.NormFloat64()
			} else {
				z = math.Sqrt(3) * (2*random.Float64() - 1)
			}
			drawn[n] = z
		}
		return z * in.Uncertainty
	}
	return s.work()
}

// coverages counts, for every figure with a ±, in what share of the trials the
// figure lay within its ± of the nominal one.
func coverages(nominal *Sheet, trials int, again func() *Sheet) map[part]float64 {
	covered := map[part]float64{}
	for range trials {
		s := again()
		for _, f := range nominal.Figures {
			if f.Unit == dateUnit || !f.HasPlusMinus() {
				continue
			}
			there, ok := s.Find(f.ID, f.Of)
			if ok && math.Abs(there.Value-f.Value) <= f.PlusMinus+1e-12*math.Abs(f.Value) {
				covered[partOf(f)]++
			} else {
				covered[partOf(f)] += 0
			}
		}
	}
	for p := range covered {
		covered[p] /= float64(trials)
	}
	return covered
}

// How much of the trials a printed ± must cover. It is made for 95 %. Where one
// rectangular input makes most of the doubt, ± 2u spans more than the whole
// rectangle (2/√3 of it) and covers everything; the upper bound is for the rest.
const (
	coversAtLeast  = 0.90
	coversAtMost   = 0.995
	mostOfTheDoubt = 0.45 // of the variance
)

// simulated are the gyles that the ± is held to a Monte Carlo on: between them they
// have every kind of figure.
var simulated = []struct {
	gyle, dir string
	now       time.Time
	trials    int
}{
	{"soft-bag-and-bottles", byHand, longAfter, 2000},
	{"keg-in-us-units", byHand, longAfter, 2000},
	{"brew-day-in-steps", byHand, time.Date(2026, 3, 14, 18, 0, 0, 0, time.UTC), 2000},
	{"blend", byHand, time.Date(2026, 3, 2, 12, 0, 0, 0, time.UTC), 2000},
	{"soft-bag-and-bottles", byHand, time.Date(2026, 1, 14, 18, 0, 0, 0, time.UTC), 800}, // working, four readings in
	{"40", demo, time.Date(2026, 6, 8, 12, 0, 0, 0, time.UTC), 500},                      // with a logger
}

// unsimulated are the kinds that have no Monte Carlo of their own, and why.
var unsimulated = map[string]string{
	"forecast-fg":     "its ± is the fit's own, held to simulated fermentations in the tests of forecasts",
	"forecast-finish": "a date: its ± is held to simulated fermentations in the tests of forecasts",
	"ready-on":        "a date: its ± is a span of days by the calendar, and no reading moves it",
	"drink-by":        "a date: its ± is a span of days by the calendar, and no reading moves it",
}

// TestCoverage holds every printed ± to a Monte Carlo of the same sheet (JCGM
// 101:2008), and sees to it that every kind of figure is among them.
func TestCoverage(t *testing.T) {
	held := map[string]bool{}
	for _, c := range simulated {
		t.Run(c.gyle+" "+c.now.Format(time.DateOnly), func(t *testing.T) {
			j := opened(t, c.dir)
			g, context := j.Find(c.gyle), contextOf(j, c.now)
			sources := context.Other
			worked := map[int]*Sheet{}
			context.Other = func(n int) *Sheet {
				if worked[n] == nil {
					worked[n] = sources(n)
				}
				return worked[n]
			}
			random := rand.New(rand.NewPCG(20260110, 4))
			nominal := Work(g, context)
			covered := coverages(nominal, c.trials, func() *Sheet { return trial(g, context, random) })
			for _, f := range nominal.Figures {
				got, ok := covered[partOf(f)]
				if !ok {
					continue
				}
				held[f.ID] = true
				_, top := leading(f)
				t.Logf("%-45s %.3f  largest %.2f", partOf(f), got, top)
				if unsimulated[f.ID] == "" && (got < coversAtLeast || got > coversAtMost && top < mostOfTheDoubt) {
					t.Errorf("%s: ± %.3g about %.5g covers %.1f %% of %d trials", partOf(f), f.PlusMinus, f.Value, 100*got, c.trials)
				}
			}
		})
	}
	for _, k := range Kinds() {
		if !held[k.ID] && unsimulated[k.ID] == "" {
			t.Errorf("no gyle here has a %s, and nobody says why", k.ID)
		}
	}
}

// leading is the input with the largest share of a figure's variance; 1 where
// there is none.
func leading(f Figure) (what string, share float64) {
	budget := f.Budget()
	if len(budget) == 0 {
		return "", 1
	}
	return budget[0].What, budget[0].Share
}

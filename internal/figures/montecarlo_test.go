package figures

import (
	"encoding/binary"
	"flag"
	"fmt"
	"hash/fnv"
	"maps"
	"math"
	"math/rand/v2"
	"strings"
	"testing"
	"time"

	"gylebook/internal/journal"
)

var seeds = flag.Int("seeds", 3, "how many seeds the Monte Carlo is run with; one where -short")

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

// draw is how far an input is off in one trial, in its u. Each input has a stream of
// its own, by what it is and where it stands, so that a new one moves no other.
func draw(in *Input, seed, trial int) float64 {
	h := fnv.New64a()
	fmt.Fprintf(h, "%s\x00%s\x00%d\x00%d", in.What, in.Where.File, in.Where.Line, in.Where.Column)
	var own [8]byte
	binary.LittleEndian.PutUint64(own[:], uint64(seed)<<32|uint64(trial))
	h.Write(own[:])
	random := rand.New(rand.NewPCG(h.Sum64(), uint64(seed)))
	if what, _, _ := strings.Cut(in.What, inGyle); scatters[what] {
		return random.NormFloat64()
	}
	return math.Sqrt(3) * (2*random.Float64() - 1)
}

// trialOf works a gyle once more with every input strayed by a draw of its own, the
// same wherever it is read.
func trialOf(g *journal.Gyle, c Context, seed, trial int) *Sheet {
	b := newBench(g, c)
	b.astray = func(in Input) float64 { return in.Uncertainty * draw(&in, seed, trial) }
	return b.work()
}

// TestStreamsAreApart: what one input draws goes by its own name and place, by the
// trial and the seed alone, and has the mean and spread that it should.
func TestStreamsAreApart(t *testing.T) {
	one, other := Input{What: "the bias of the hydrometer"}, Input{What: "Balling's method"}
	if draw(&one, 1, 7) != draw(&one, 1, 7) || draw(&one, 1, 7) == draw(&one, 1, 8) || draw(&one, 1, 7) == draw(&one, 2, 7) {
		t.Error("a draw goes by something else than its input, trial and seed")
	}
	const trials = 20000
	for _, in := range []*Input{&one, &other} {
		sum, squares, product := 0.0, 0.0, 0.0
		for trial := range trials {
			z := draw(in, 1, trial)
			sum, squares, product = sum+z, squares+z*z, product+z*draw(in, 2, trial)
		}
		for what, got := range map[string]float64{"mean": sum / trials, "variance, less 1": squares/trials - 1, "with another seed": product / trials} {
			if math.Abs(got) > sureOf*math.Sqrt(2.0/trials) {
				t.Errorf("%s: %s is %.4f", in.What, what, got)
			}
		}
	}
}

// How much of the trials a printed ± must cover, and how much a bound. A ± is made for
// 95 %; it comes to 91 % of what has a kink at its value, such as a fall between two
// readings that are level. Where one rectangular input makes most of the doubt, ± 2u
// spans more than the whole rectangle (2/√3 of it) and covers everything; the upper
// limit, which a ± half as wide again reaches, is for the rest. A bound is made for
// 97.5 %, and holds what is open at its worst besides. A share is held to a limit with
// sureOf of its own standard errors, √(p (1 − p) ÷ n): by chance alone one in 30 000
// fails.
const (
	coversAtLeast  = 0.90
	coversAtMost   = 0.998
	mostOfTheDoubt = 0.45 // of the variance
	boundsAtLeast  = 0.975
	sureOf         = 4.0
)

// below tells whether a share of so many trials is below a limit by more than chance,
// above whether it is above.
func below(share, limit float64, trials int) bool {
	return share < limit-sureOf*math.Sqrt(limit*(1-limit)/float64(trials))
}

func above(share, limit float64, trials int) bool { return below(1-share, 1-limit, trials) }

// coverage is in how many trials a figure was there, lay within its ± of the nominal
// one, and kept to its bound.
type coverage struct{ within, bound int }

// cover counts one trial for every figure with a ± or a bound.
func cover(nominal, there *Sheet, counts map[part]*coverage) {
	for _, f := range nominal.Figures {
		if f.Unit == dateUnit || !f.HasPlusMinus() {
			continue
		}
		c := counts[partOf(f)]
		if c == nil {
			c = &coverage{}
			counts[partOf(f)] = c
		}
		g, ok := there.Find(f.ID, f.Of)
		if !ok {
			continue
		}
		last := 1e-9 * max(math.Abs(f.Value), 1e-3)
		if math.Abs(g.Value-f.Value) <= f.PlusMinus+last {
			c.within++
		}
		if (!f.HasUpper() || g.Value <= f.Upper+last) && (!f.HasLower() || g.Value >= f.Lower-last) {
			c.bound++
		}
	}
}

// simulated are the gyles that the ± is held to a Monte Carlo on: between them they
// have every kind of figure, and everything that may happen to a container.
var simulated = []struct {
	gyle, dir string
	now       time.Time
	trials    int // with each seed
}{
	{"soft-bag-and-bottles", byHand, time.Date(2026, 1, 21, 12, 0, 0, 0, time.UTC), 600},
	{"keg-in-us-units", byHand, longAfter, 600},
	{"brew-day-in-steps", byHand, time.Date(2026, 3, 14, 18, 0, 0, 0, time.UTC), 600},
	{"blend", byHand, time.Date(2026, 3, 2, 12, 0, 0, 0, time.UTC), 400},
	{"soft-bag-and-bottles", byHand, time.Date(2026, 1, 14, 18, 0, 0, 0, time.UTC), 400}, // working, four readings in
	{"40", demo, time.Date(2026, 6, 8, 12, 0, 0, 0, time.UTC), 300},                      // with a logger
	{"01-late-fruit", accounts, time.Date(2026, 5, 18, 12, 0, 0, 0, time.UTC), 400},
	{"03-keg-gassed-then-warmed", accounts, time.Date(2026, 7, 5, 12, 0, 0, 0, time.UTC), 400},
	{"05-half-drawn-cask", accounts, time.Date(2026, 6, 21, 8, 0, 0, 0, time.UTC), 400},
	{"06-wort-primed-bottles", accounts, time.Date(2026, 7, 14, 12, 0, 0, 0, time.UTC), 400},
	{"07-vented-pin", accounts, time.Date(2026, 6, 23, 18, 0, 0, 0, time.UTC), 400},
	{"08-spunded-lager", accounts, time.Date(2026, 4, 28, 12, 0, 0, 0, time.UTC), 400},
	{"10-blend-with-brettanomyces", accounts, time.Date(2026, 7, 3, 12, 0, 0, 0, time.UTC), 400},
	{"13-mixed-gas-and-nitrogen", accounts, time.Date(2026, 6, 25, 12, 0, 0, 0, time.UTC), 400},
}

// unsimulated are the kinds that have no Monte Carlo of their own, and why.
var unsimulated = map[ID]string{
	"forecast-fg":     "its ± is the fit's own, held to simulated fermentations in the tests of forecasts",
	"forecast-finish": "a date: its ± is held to simulated fermentations in the tests of forecasts",
	"ready-on":        "a date: its ± is a span of days by the calendar, and no reading moves it",
	"drink-by":        "a date: its ± is a span of days by the calendar, and no reading moves it",
}

// TestCoverage holds every printed ± and every bound to a Monte Carlo of the same sheet
// (JCGM 101:2008), with any seed, and sees to it that every kind of figure is among
// them.
func TestCoverage(t *testing.T) {
	runs := *seeds
	if testing.Short() {
		runs = 1
	}
	held := map[ID]bool{}
	for _, c := range simulated {
		t.Run(c.gyle+" "+c.now.Format(time.DateOnly), func(t *testing.T) {
			j := opened(t, c.dir)
			g, context := j.Find(c.gyle), knowing(contextOf(j, c.now))
			nominal := Work(g, context)
			all := map[part]*coverage{}
			for seed := 1; seed <= runs; seed++ {
				counts := map[part]*coverage{}
				for trial := range c.trials {
					cover(nominal, trialOf(g, context, seed, trial), counts)
				}
				holdCoverage(t, nominal, counts, c.trials)
				for p, n := range counts {
					if all[p] == nil {
						all[p] = &coverage{}
					}
					all[p].within, all[p].bound = all[p].within+n.within, all[p].bound+n.bound
				}
			}
			if runs > 1 {
				holdCoverage(t, nominal, all, runs*c.trials)
			}
			for p := range maps.Keys(all) {
				held[p.id] = true
			}
		})
	}
	for _, k := range Kinds() {
		if !held[k.ID] && unsimulated[k.ID] == "" {
			t.Errorf("no gyle here has a %s, and nobody says why", k.ID)
		}
	}
}

// knowing is a context that works each of the other gyles out once.
func knowing(c Context) Context {
	sources, worked := c.Other, map[int]*Sheet{}
	c.Other = func(n int) *Sheet {
		if _, known := worked[n]; !known {
			worked[n] = sources(n)
		}
		return worked[n]
	}
	return c
}

// holdCoverage holds the counts of so many trials to the limits.
func holdCoverage(t *testing.T, nominal *Sheet, counts map[part]*coverage, trials int) {
	t.Helper()
	for _, f := range nominal.Figures {
		c := counts[partOf(f)]
		if c == nil || unsimulated[f.ID] != "" {
			continue
		}
		within, bound := float64(c.within)/float64(trials), float64(c.bound)/float64(trials)
		_, top := leading(f)
		t.Logf("%-45s %.3f within, %.3f by the bound, of %d; largest %.2f", partOf(f), within, bound, trials, top)
		if below(within, coversAtLeast, trials) || above(within, coversAtMost, trials) && top < mostOfTheDoubt {
			t.Errorf("%s: ± %.3g about %.5g covers %.1f %% of %d trials", partOf(f), f.PlusMinus, f.Value, 100*within, trials)
		}
		if below(bound, boundsAtLeast, trials) {
			t.Errorf("%s: %.5g, at most %.5g, at least %.5g: %.1f %% of %d trials keep to it",
				partOf(f), f.Value, f.UpperBound(), f.Lower, 100*bound, trials)
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

package figures

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"gylebook/internal/brewing"
	"gylebook/internal/figures/histories"
	"gylebook/internal/journal"
	q "gylebook/internal/quantity"
)

// onePackage is a line of packages by chance, with its place in the list; ok is false
// where there is none.
func onePackage(c histories.Chance, h histories.History) (l histories.Line, index int, ok bool) {
	all := h.All(histories.Subject, "packages")
	if len(all) == 0 {
		return l, 0, false
	}
	index = c.IntN(len(all))
	return all[index], index, true
}

// gauged tells whether a gauge was read: what it showed stands in the account's place, and
// how much of that is air goes by what was let out or put on before.
func gauged(h histories.History) bool {
	return slices.ContainsFunc(h.Lines, func(l histories.Line) bool { return l.Has("pressure") })
}

// rewritten is a line written otherwise.
func rewritten(l histories.Line, about int, says string, how func(histories.Line) histories.Line) *change {
	return &change{about: about, says: says, do: func(h histories.History) histories.History { return h.Changed(l.ID, how) }}
}

func ofContainer(about int) func(Figure) bool {
	return func(f Figure) bool { return f.Of == packageKey(about) }
}

// TestGasTurnedOnLowersNoPressure: a cylinder that is on feeds, and takes nothing back.
func TestGasTurnedOnLowersNoPressure(t *testing.T) {
	law{
		change: func(c histories.Chance, h histories.History) *change {
			l, i, ok := onePackage(c, h)
			if _, shared := h.One(histories.Subject, "priming"); !ok || l.Has("gas") || l.Has("spunding") || gauged(h) || shared && len(h.All(histories.Subject, "packages")) > 1 {
				return nil // of several, those without a cylinder share the gyle's priming
			}
			with, set := histories.Pick(c, "co2", "nitrogen", "mixed"), c.Bar(0.2, 2.5)
			return rewritten(l, i, fmt.Sprintf("with %s at %s on it", with, set), func(l histories.Line) histories.Line {
				return l.With("gas.with", with).With("gas.set", set)
			})
		},
		broken: func(before, after *Sheet, done *change) string {
			return noneFalls(before, after, pressures, ofContainer(done.about))
		},
	}.keep(t)
}

// TestAWarmerPlaceLowersNoPressure: neither a place ahead that is warmer than any, nor one
// that is warmer than was said.
func TestAWarmerPlaceLowersNoPressure(t *testing.T) {
	law{
		change: func(c histories.Chance, h histories.History) *change {
			l, ok := h.One(histories.Subject, "cellared")
			if !ok {
				return nil
			}
			at, _, _ := strings.Cut(l.Value("at"), " ")
			usual, err := strconv.ParseFloat(at, 64)
			if err != nil || l.Has("warmest") {
				return nil
			}
			hot := fmt.Sprintf("%.1f C", usual+c.Between(6.1, 20)) // a summer's day is 6 °C more
			return rewritten(l, allOf, "with a warmest of "+hot, func(l histories.Line) histories.Line { return l.With("warmest", hot) })
		},
		broken: func(before, after *Sheet, _ *change) string {
			return noneFalls(before, after, []*Kind{kindPressureWarmest}, everything)
		},
	}.keep(t)
}

// TestTheWarmestIsNeverBelowTheCellar, by value and by bound, in any entry.
func TestTheWarmestIsNeverBelowTheCellar(t *testing.T) {
	everyHistory(t, func(s *Sheet) string {
		for _, cellar := range s.Figures {
			if cellar.Kind != kindPressureCellar {
				continue
			}
			warmest, ok := s.Find(IDPressureWarmest, cellar.Of)
			if ok && (warmest.Value < cellar.Value-hair(cellar.Value) || warmest.UpperBound() < cellar.UpperBound()-slight(cellar)) {
				return fmt.Sprintf("%s is %s in the cellar, and %s at the warmest", cellar.Of, shown(cellar), shown(warmest))
			}
		}
		return ""
	})
}

// everyHistory holds a law to the sheets of random entries as they are.
func everyHistory(t *testing.T, broken func(*Sheet) string) {
	t.Helper()
	seed, shown := seedOfLaws(), 0
	for i := range entriesForLaw() {
		h := histories.Random(histories.NewChance(seed, uint64(i)))
		wrong := func(h histories.History) string {
			if s := sheetOf(h); s != nil {
				return broken(s)
			}
			return ""
		}
		if wrong(h) == "" {
			continue
		}
		h = histories.Shrunk(h, func(h histories.History) bool { return wrong(h) != "" })
		t.Errorf("entry %d of seed %d: %s\n%s", i, seed, wrong(h), h)
		if shown++; shown == mostShown {
			t.Fatal("and perhaps more")
		}
	}
}

// TestAVentRaisesNoPressure, and after one to quiet the gauge is nought.
func TestAVentRaisesNoPressure(t *testing.T) {
	law{
		change: func(c histories.Chance, h histories.History) *change {
			_, i, ok := onePackage(c, h)
			if !ok || gauged(h) {
				return nil
			}
			until := histories.Pick(c, "quiet", "moment")
			return vented1(i, c.Day(c.Between(5, 60)), until)
		},
		broken: func(before, after *Sheet, done *change) string {
			if before.Stage != after.Stage || done.about >= len(before.containers) || !before.Filled(before.containers[done.about]).Written() {
				return "" // that it was vented tells that it was filled
			}
			if wrong := noneFalls(after, before, pressures, ofContainer(done.about)); wrong != "" {
				return "unvented: " + wrong
			}
			return quietAtVents(after)
		},
	}.keep(t)
}

func vented1(of int, when, until string) *change {
	l := histories.Line{In: histories.Subject, Of: "done", List: true, Keys: []histories.Key{
		{Name: "when", Value: when}, {Name: "did", Value: "vented"}, {Name: "package", Value: strconv.Itoa(of)}, {Name: "until", Value: until},
	}}
	v := added(l)
	v.about = of
	return v
}

// quietAtVents tells of a container that presses at the moment at which it was vented.
func quietAtVents(s *Sheet) string {
	i := s.Inquire()
	for _, d := range s.Gyle.Done {
		for _, c := range s.containers {
			if !isVenting(&d) || !d.Until.Is(journal.UntilQuiet) || !d.Package.Written() || d.Package.N != c.Index || !s.past(d.When) {
				continue
			}
			st, ok := i.HeldAtHour(c, d.When.Middle())
			if filled := s.Filled(c); !ok || c.Package.Gas.Set.Written() || filled.Written() && !d.When.Middle().After(filled.Middle().Add(24*time.Hour)) {
				continue
			}
			if st.Gauge.Bar() > 1e-6 {
				return fmt.Sprintf("%s presses %g bar at the moment of its vent", c.Key, st.Gauge.Bar())
			}
		}
	}
	return ""
}

// TestGasBalances: what a container's account gains or loses, its postings brought or
// took: nothing comes or goes on the way (in = held + out, at every posting).
func TestGasBalances(t *testing.T) {
	everyHistory(t, func(s *Sheet) string {
		i := s.Inquire()
		for _, c := range s.containers {
			if wrong := balances(i.reckon(c)); wrong != "" {
				return c.Key + ": " + wrong
			}
		}
		return ""
	})
}

func balances(r *reckoned) string {
	if r.lack != nil {
		return ""
	}
	w, x := r.likely, valuesOf(r.numbers)
	held := func(until int) (walked, float64) {
		w.until = until
		s, err := w.through(x)
		if err != nil {
			return s, math.NaN()
		}
		return s, float64(s.CO2 + s.sugar + s.fall)
	}
	for k := 1; k < len(w.posts); k++ {
		before, was := held(k)
		after, is := held(k + 1)
		if math.IsNaN(was) || math.IsNaN(is) {
			return ""
		}
		p := &w.posts[k]
		if p.only == inBoundOnly {
			continue
		}
		change, numbers := is-was, w.numbers(x, k)
		expect := func(low, high float64) string {
			if change < low-hair(was) || change > high+hair(was) {
				return fmt.Sprintf("%s changes %g mol to %g, by what it brings it should by %g to %g", p.says, was, is, low, high)
			}
			return ""
		}
		var wrong string
		switch p.what {
		case putIn:
			brings := max(numbers[0], 0) * float64(before.Beer) * gasPerVolume
			wrong = expect(brings, brings)
		case venting, broaching:
			wrong = expect(-was, 0)
		case feeding:
			wrong = expect(0, math.Inf(1))
		case drawing:
			kept := float64(after.Beer / before.Beer)
			if float64(after.Beer) > float64(before.Beer)+1e-9 {
				wrong = fmt.Sprintf("drawing makes %g L of %g", after.Beer.Litres(), before.Beer.Litres())
			} else {
				wrong = expect(-was*(1-kept)-gasPerVolume*50, math.Inf(1))
			}
		}
		if wrong != "" {
			return wrong
		}
	}
	return ""
}

// gasPerVolume is a volume of carbon dioxide in a litre, in mol.
var gasPerVolume = float64(brewing.MolesOf(1, q.Litre))

// TestNothingPrintedIsAnUnknownNought: what is lacking says what it needs or why, and no
// figure of gas is exactly nothing where something that bears on it is not known.
func TestNothingPrintedIsAnUnknownNought(t *testing.T) {
	everyHistory(t, func(s *Sheet) string {
		for _, m := range s.Missing {
			if len(m.Needs) == 0 && m.Because == "" {
				return fmt.Sprintf("%s of %q is missing, and nobody says why", m.Figure, m.Of)
			}
		}
		for _, f := range s.Figures {
			if k := f.Kind; (k == kindInAll || k == kindCondition) && f.Value == 0 && f.PlusMinus == 0 {
				return fmt.Sprintf("%s is exactly nothing", partOf(f))
			}
		}
		return ""
	})
}

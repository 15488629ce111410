package figures

import (
	"fmt"
	"math"
	"slices"
	"testing"

	"gylebook/internal/figures/histories"
)

// A law holds of any entry: what a change to it does to the figures. Each is tried on
// many entries made at random; one that breaks it is made as small as can be before
// it is shown.
type law struct {
	// change is what is done to an entry, and in words; nil where it is no entry for
	// this law.
	change func(c histories.Chance, h histories.History) *change
	// broken is what is wrong with the figures afterwards, "" where the law is kept.
	broken func(before, after *Sheet, done *change) string
}

// change is something done to an entry. It can be done to less of the same entry too.
type change struct {
	says string
	do   func(h histories.History) histories.History
	// about is the container that it is about, all of them below nothing.
	about int
}

// mostShown is how many breaches of one law are shown.
const mostShown = 4

// keep tries a law on random entries.
func (l law) keep(t *testing.T) {
	t.Helper()
	l.keepOf(t, func(h histories.History) histories.History { return h })
}

// keepOf tries a law on random entries made ready for it.
func (l law) keepOf(t *testing.T, ready func(histories.History) histories.History) {
	t.Helper()
	seed, tried, shown := seedOfLaws(), 0, 0
	for i := range entriesForLaw() {
		c := histories.NewChance(seed, uint64(i))
		h := ready(histories.Random(c))
		done := l.change(c, h)
		if done == nil {
			continue
		}
		tried++
		if l.breach(h, done) == "" {
			continue
		}
		h = histories.Shrunk(h, func(h histories.History) bool { return l.breach(h, done) != "" })
		t.Errorf("entry %d of seed %d: %s\n%s:\n%s", i, seed, done.says, l.breach(h, done), histories.Compared(h, done.do(h)))
		if shown++; shown == mostShown {
			t.Fatal("and perhaps more")
		}
	}
	t.Logf("tried on %d entries", tried)
	if tried < entriesForLaw()/50 {
		t.Errorf("only %d entries of %d were any for this law", tried, entriesForLaw())
	}
}

// breach is how a change to an entry breaks the law, "" where it does not, or where one
// of the two does not read.
func (l law) breach(h histories.History, done *change) string {
	before, after := sheetOf(h), sheetOf(done.do(h))
	if before == nil || after == nil {
		return ""
	}
	return l.broken(before, after, done)
}

func entriesForLaw() int {
	if testing.Short() {
		return max(*entriesToTry/6, 50)
	}
	return *entriesToTry
}

// slight is by how much a bound may seem to fall: a tenth of the last digit printed, and
// a tenth of what the doubt adds to the value. Doubts are added in quadrature and, but for
// what is beyond a kink, to the first order (JCGM 100:2008, 5.1.2): where something is
// added another doubt may count for less, and an account that is bent, as by a room above
// the beer that nobody knows, is out by as much. The values that the bounds are made of are
// held to the law without any such room by TestWorstReckoningNeverFalls.
func slight(f Figure) float64 {
	return math.Pow10(-f.Decimals-1) + 0.1*math.Abs(boundsOf(f)-pressingValue(f))
}

func pressingValue(f Figure) float64 {
	if f.HasLower() {
		return -f.Value
	}
	return f.Value
}

// Gas and pressure: what is the more dangerous the more it is, with its upper bound.
var pressing = []*Kind{kindToCome, kindInAll, kindCondition, kindPressureWarmest, kindPressureCellar, kindFreeGas}

// Room and margin: what is the more dangerous the less it is, with its lower bound.
var sparing = []*Kind{kindMargin, kindSlack}

var pressures = []*Kind{kindPressureWarmest, kindPressureCellar}

// boundsOf is what a figure says of the danger: the bound that it is held against. A
// vacuum is no pressure.
func boundsOf(f Figure) float64 {
	switch {
	case f.HasLower():
		return -f.Lower
	case slices.Contains(pressures, f.Kind):
		return max(f.UpperBound(), 0)
	}
	return f.UpperBound()
}

// hair is what a sum of floating-point numbers, and shares kept as float32, may be out
// by.
func hair(v float64) float64 { return 1e-6 * max(math.Abs(v), 1) }

// noneFalls tells which bound of some kinds has fallen, or is no longer known.
func noneFalls(before, after *Sheet, kinds []*Kind, of func(f Figure) bool) string {
	for _, f := range before.Figures {
		if !slices.Contains(kinds, f.Kind) || !of(f) || f.Kind == kindInAll && nearlyDrawn(before, f.Of) {
			continue
		}
		now, there := after.Find(f.ID, f.Of)
		switch {
		case !there:
			return fmt.Sprintf("%s was %s and is gone: %+v", partOf(f), shown(f), lacking(after, f))
		case boundsOf(now) < boundsOf(f)-slight(f):
			return fmt.Sprintf("%s was %s and is %s", partOf(f), shown(f), shown(now))
		}
	}
	return ""
}

// nearlyDrawn tells whether perhaps no more than half of the beer that is taken to be left
// in a container is: all its gas in volumes of that says little.
func nearlyDrawn(s *Sheet, of string) bool {
	for _, c := range s.containers {
		if c.Key == of {
			left := s.Inquire().reckon(c).values[beerNow]
			return left.value-2*left.u < left.value/2
		}
	}
	return false
}

// lacking is what a sheet says of a figure that it does not have.
func lacking(s *Sheet, f Figure) Missing {
	for _, m := range s.Missing {
		if m.Figure == f.ID && m.Of == f.Of {
			return m
		}
	}
	return Missing{}
}

func shown(f Figure) string {
	text := fmt.Sprintf("%.6g ± %.4g %s", f.Value, f.PlusMinus, f.Unit)
	if f.HasUpper() {
		text += fmt.Sprintf(", at most %.6g", f.Upper)
	}
	if f.HasLower() {
		text += fmt.Sprintf(", at least %.6g", f.Lower)
	}
	return text
}

func everything(Figure) bool { return true }

// added is a line more.
func added(l histories.Line) *change {
	return &change{about: allOf, says: "with " + l.String() + " added", do: func(h histories.History) histories.History { return h.Added(l) }}
}

// TestMoreFermentableIsNeverSafer: anything fermentable, put in anywhere on any day,
// lowers no bound of gas or pressure.
func TestMoreFermentableIsNeverSafer(t *testing.T) {
	for _, more := range []struct {
		what string
		line func(c histories.Chance, in int, batch, day float64) histories.Line
	}{
		{"sugar", histories.Sugar}, {"fruit or juice", histories.Fruit}, {"wort", histories.Wort},
		{"hops", histories.Hops}, {"yeast", histories.Yeast},
	} {
		t.Run(more.what, func(t *testing.T) {
			law{
				change: func(c histories.Chance, h histories.History) *change {
					in := histories.Subject
					if h.Has(histories.Source) && c.Maybe(0.4) {
						in = histories.Source
					}
					l := more.line(c, in, c.Between(4, 40), c.Between(0.5, 60))
					if inTheWort(l) {
						return nil
					}
					return added(l)
				},
				broken: func(before, after *Sheet, _ *change) string {
					if before.PitchedAt().IsZero() || len(before.Gyle.Yeast) == 0 && !before.begunAsBeer() {
						return "" // a yeast more would be the first that it tells of
					}
					if byRefractometer(before) {
						return "" // the same Brix over a stronger wort is a beer that has fallen further
					}
					return noneFalls(before, after, slices.Concat(pressing, sparing), everything)
				},
			}.keep(t)
		})
	}
}

// byRefractometer tells whether a gravity of beer was worked out from Brix and from how
// strong the wort was.
func byRefractometer(s *Sheet) bool {
	return slices.ContainsFunc(s.Inquire().gravityReadings(), func(r GravityReading) bool { return r.Refractometer })
}

// inTheWort tells whether a line of the grist, without a day and not of a container, is
// of the wort whose gravity was read: a kit's tin. It says what that was made of and puts
// nothing into the beer.
func inTheWort(l histories.Line) bool {
	return l.Of == "grist" && l.Value("when") == "" && l.Value("into") == "fermenter"
}

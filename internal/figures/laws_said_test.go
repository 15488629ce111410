package figures

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"gylebook/internal/figures/histories"
)

// strengths are the figures of alcohol.
var strengths = []*Kind{kindABV, kindConditioned}

// TestWaterRaisesNoStrength, wherever and whenever it went in.
func TestWaterRaisesNoStrength(t *testing.T) {
	law{
		change: func(c histories.Chance, h histories.History) *change {
			return added(histories.Liquor(c, histories.Subject, c.Between(4, 40), c.Between(1, 40)))
		},
		broken: func(before, after *Sheet, _ *change) string {
			for _, f := range before.Figures {
				if now, ok := after.Find(f.ID, f.Of); slices.Contains(strengths, f.Kind) && ok && now.Value > max(f.Value, 0)+0.005 {
					return fmt.Sprintf("%s was %s and is %s", partOf(f), shown(f), shown(now))
				}
			}
			return ""
		},
	}.keep(t)
}

// TestEqualWortLeavesTheStrength: wort as strong as the beer's own, put in before the beer
// was first read, makes more of the same.
func TestEqualWortLeavesTheStrength(t *testing.T) {
	law{
		change: func(c histories.Chance, h histories.History) *change {
			f, ok := h.One(histories.Subject, "fermenter")
			if !ok || !f.Has("gravity") || f.Has("sample_at") || joinedByMore(h) {
				return nil
			}
			return added(histories.Line{In: histories.Subject, Of: "added", List: true, Keys: []histories.Key{
				{Name: "wort", Value: "kept back"}, {Name: "volume", Value: c.Litres(c.Between(0.5, 4))},
				{Name: "gravity", Value: f.Value("gravity")}, {Name: "into", Value: "fermenter"}, {Name: "when", Value: "2026-03-08 20:00"},
			}})
		},
		broken: func(before, after *Sheet, _ *change) string {
			if last, any := before.Inquire().lastGravityAt(); !any || last.Before(time.Date(2026, 3, 9, 0, 0, 0, 0, time.UTC)) {
				return "" // it was not read since
			}
			f, ok := before.Find(IDABV, "")
			if now, is := after.Find(IDABV, ""); ok && is && math.Abs(now.Value-f.Value) > 0.05 {
				return fmt.Sprintf("abv was %s and is %s", shown(f), shown(now))
			}
			return ""
		},
	}.keep(t)
}

// joinedByMore tells whether anything else joins the beer, or may have: what that makes
// stronger or weaker it does less in more beer.
func joinedByMore(h histories.History) bool {
	return slices.ContainsFunc(h.Lines, func(l histories.Line) bool {
		return l.Of == "added" || l.Of == "drawn_from" || l.Has("brix") || l.Value("did") == "topped up" ||
			l.Of == "grist" && (l.Has("sugar") || l.Has("syrup"))
	})
}

// gases are the figures that an account comes to.
var gases = []*Kind{kindInAll, kindCondition, kindPressureWarmest, kindPressureCellar, kindFreeGas, kindSlack}

// TestAnHourOrADigitMovesNothingFar: no figure of gas moves by more than its ± and bound
// allow when a moment is an hour off, or a gravity its last digit.
func TestAnHourOrADigitMovesNothingFar(t *testing.T) {
	law{
		change: func(c histories.Chance, h histories.History) *change {
			l, key, ok := timedOrRead(c, h)
			if !ok {
				return nil
			}
			to := nudged(c, l.Value(key))
			if to == "" {
				return nil
			}
			return rewritten(l, allOf, fmt.Sprintf("with %s: %s for %s of %s", key, to, l.Value(key), l.Of), func(l histories.Line) histories.Line {
				if !l.Has(key) {
					return l
				}
				return l.With(key, to)
			})
		},
		broken: func(before, after *Sheet, _ *change) string {
			for _, f := range before.Figures {
				now, ok := after.Find(f.ID, f.Of)
				if !slices.Contains(gases, f.Kind) || !ok || before.Stage != after.Stage {
					continue
				}
				reach := max(f.PlusMinus, now.PlusMinus, boundsOf(f)-pressingValue(f), boundsOf(now)-pressingValue(now))
				if math.Abs(now.Value-f.Value) > 1.05*reach+math.Pow10(-f.Decimals) {
					return fmt.Sprintf("%s was %s and is %s", partOf(f), shown(f), shown(now))
				}
			}
			return ""
		},
	}.keep(t)
}

// timedOrRead is a reading of the beer by chance, and its moment or its gravity.
func timedOrRead(c histories.Chance, h histories.History) (l histories.Line, key string, ok bool) {
	all := h.All(histories.Subject, "readings")
	if len(all) == 0 || namesAPackage(h) {
		return l, "", false // read inside a container, one digit tells whether it has begun again
	}
	l, key = all[c.IntN(len(all))], histories.Pick(c, "when", "gravity")
	return l, key, l.Has(key)
}

// nudged is a moment an hour later or earlier, or a gravity with another last digit.
func nudged(c histories.Chance, value string) string {
	if at, err := time.Parse("2006-01-02 15:04", value); err == nil {
		return at.Add(histories.Pick(c, -time.Hour, time.Hour)).Format("2006-01-02 15:04")
	}
	g, err := strconv.ParseFloat(value, 64)
	if err != nil || !strings.HasPrefix(value, "1.") && !strings.HasPrefix(value, "0.") {
		return ""
	}
	digits := len(value) - 2
	return strconv.FormatFloat(g+histories.Pick(c, -1.0, 1.0)*math.Pow10(-digits), 'f', digits, 64)
}

// sameGas tells which figure of some containers differs between two ways of saying the same.
func sameGas(before, after *Sheet, of func(Figure) bool) string {
	for _, f := range before.Figures {
		if !slices.Contains(gases, f.Kind) || !of(f) {
			continue
		}
		now, ok := after.Find(f.ID, f.Of)
		// Where no fill is noted two lines have a doubt each of what one line has one of.
		most := 1e-4 + 0.12*max(f.PlusMinus, math.Abs(boundsOf(f)-pressingValue(f)))
		if !ok || math.Abs(now.Value-f.Value) > most || math.Abs(now.PlusMinus-f.PlusMinus) > most || math.Abs(boundsOf(now)-boundsOf(f)) > most {
			return fmt.Sprintf("%s was %s and is %s", partOf(f), shown(f), shown(now))
		}
	}
	return ""
}

// TestTwoOfAKindAreOneOfTwo: a line with count: 2 and two lines say the same.
func TestTwoOfAKindAreOneOfTwo(t *testing.T) {
	law{
		change: func(c histories.Chance, h histories.History) *change {
			all := h.All(histories.Subject, "packages")
			if len(all) != 1 || namesAPackage(h) || all[0].Has("priming") || all[0].Has("broached") || putIntoPackages(h) {
				return nil // one of the two was broached, and nobody says what went into which
			}
			return &change{about: 0, says: "as two lines", do: func(h histories.History) histories.History {
				one, ok := h.Line(all[0].ID)
				if !ok {
					return h
				}
				one = one.Without("count")
				return h.Changed(one.ID, func(histories.Line) histories.Line { return one }).Added(one)
			}}
		},
		broken: func(before, after *Sheet, _ *change) string {
			if len(before.Gyle.Packages) != 1 || before.Gyle.Packages[0].Count.N != 2 {
				return ""
			}
			return sameGas(before, after, ofContainer(0))
		},
	}.keepOf(t, func(h histories.History) histories.History {
		for i, l := range h.All(histories.Subject, "packages") {
			h = h.Changed(l.ID, func(l histories.Line) histories.Line {
				return l.Without("broached").Without("priming").With("count", "2")
			})
			if i > 0 {
				h = h.Cut(l.ID)
			}
		}
		for _, l := range h.Lines {
			if l.Has("package") || l.Of == "served" || l.Of == "readings" && l.Has("pressure") {
				h = h.Cut(l.ID) // of two lines nobody says which it is about
			}
		}
		return h
	})
}

func putIntoPackages(h histories.History) bool {
	return slices.ContainsFunc(h.Lines, func(l histories.Line) bool { return l.Value("into") == "package" })
}

// namesAPackage tells whether any line counts containers.
func namesAPackage(h histories.History) bool {
	return slices.ContainsFunc(h.Lines, func(l histories.Line) bool { return l.Has("package") })
}

// TestEachIsItsShareOfTheWhole: so much in each container, and so much in all of them.
func TestEachIsItsShareOfTheWhole(t *testing.T) {
	law{
		change: func(c histories.Chance, h histories.History) *change {
			l, i, ok := onePackage(c, h)
			if !ok || !l.Has("priming.each") {
				return nil
			}
			each, unit, _ := strings.Cut(l.Value("priming.each"), " ")
			weight, err := strconv.ParseFloat(each, 64)
			count := 1
			if n, err := strconv.Atoi(l.Value("count")); err == nil {
				count = n
			}
			if err != nil || strings.Contains(unit, "±") {
				return nil
			}
			return rewritten(l, i, "in all of them", func(l histories.Line) histories.Line {
				return l.Without("priming.each").With("priming.weight", fmt.Sprintf("%.3f g", weight*float64(count)))
			})
		},
		broken: func(before, after *Sheet, done *change) string {
			for _, f := range before.Figures {
				now, ok := after.Find(f.ID, f.Of)
				if (f.Kind == kindPrimingCO2 || f.Kind == kindInAll) && f.Of == packageKey(done.about) && ok && math.Abs(now.Value-f.Value) > 0.001+0.002*f.Value {
					return fmt.Sprintf("%s was %s and is %s", partOf(f), shown(f), shown(now))
				}
			}
			return ""
		},
	}.keepOf(t, func(h histories.History) histories.History {
		for i, l := range h.All(histories.Subject, "packages") {
			h = h.Changed(l.ID, func(l histories.Line) histories.Line {
				return l.Without("priming").With("priming.sugar", "sucrose").With("priming.each", fmt.Sprintf("%d g", 2+i))
			})
		}
		return h
	})
}

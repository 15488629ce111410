package quantity

import (
	"math"
	"strconv"
	"strings"
)

// Measure is a number of a unit with its ±. A ± that is not a positive number is
// left out, and then decimals says how far to print. A value that is no number is
// the empty Spelt.
//
// A pressure that is converted is what a vessel comes to, and both its numbers are
// rounded upward, so that it is never understated; see Below for what must not be
// overstated.
func (s Spelling) Measure(value, plusMinus float64, unit string, decimals int) Spelt {
	if !finite(value) {
		return Spelt{}
	}
	c := s.of(value, unit)
	known, pressure := plusMinus > 0 && !math.IsInf(plusMinus, 0), unit == "bar" && c.Converts()
	places := max(0, decimals+c.gain)
	switch {
	case known && pressure:
		place := lastPlace(plusMinus * c.Factor)
		return Spelt{Value: upTo(c.Of(value), place), PlusMinus: upTo(plusMinus*c.Factor, place), Unit: c.Unit}
	case known:
		v, pm := Rounded(c.Of(value), plusMinus*c.Factor)
		return Spelt{Value: v, PlusMinus: pm, Unit: c.Unit}
	case pressure:
		return Spelt{Value: upTo(c.Of(value), -places), Unit: c.Unit}
	}
	return Spelt{Value: Fixed(c.Of(value), places), Unit: c.Unit}
}

// Below is Measure for a margin: a converted pressure is rounded downward.
func (s Spelling) Below(value, plusMinus float64, unit string, decimals int) Spelt {
	if unit != "bar" || !s.Into(unit).Converts() || !finite(value) {
		return s.Measure(value, plusMinus, unit, decimals)
	}
	m := s.Measure(-value, plusMinus, unit, decimals)
	switch rest, negative := strings.CutPrefix(m.Value, "−"); {
	case negative:
		m.Value = rest
	case strings.Trim(m.Value, "0.") != "":
		m.Value = "−" + m.Value
	}
	return m
}

// Bounded is a quantity as printed with a bound that it lies under, rounded upward to
// its own last digit: left out where value and ± reach as far.
func (s Spelling) Bounded(m Spelt, upper float64, unit string) Spelt {
	if most, differs := s.bound(m, upper, unit, 1); differs {
		m.AtMost = most
	}
	return m
}

// BoundedBelow is the same with a bound that it lies above, rounded downward.
func (s Spelling) BoundedBelow(m Spelt, lower float64, unit string) Spelt {
	if least, differs := s.bound(m, lower, unit, -1); differs {
		m.AtLeast = least
	}
	return m
}

// bound is a bound on one side of a printed quantity, and whether it lies farther off
// than the ± and a quarter of it.
func (s Spelling) bound(m Spelt, at float64, unit string, side float64) (text string, differs bool) {
	value, err := strconv.ParseFloat(strings.ReplaceAll(m.Value, "−", "-"), 64)
	if err != nil || !finite(at) {
		return "", false
	}
	plusMinus, _ := strconv.ParseFloat(m.PlusMinus, 64)
	_, decimals, _ := strings.Cut(m.Value, ".")
	place := -len(decimals)
	x := s.of(at, unit).Of(at)
	if side*x <= side*value+1.25*plusMinus+0.5*math.Pow10(place) {
		return "", false
	}
	if side < 0 {
		return downTo(x, place), true
	}
	return upTo(x, place), true
}

// upTo is a number rounded upward, with its last digit at the power of ten place.
func upTo(x float64, place int) string {
	unit := math.Pow10(place)
	return fixed(math.Ceil(x/unit-typedAs)*unit, place)
}

// downTo is the same, rounded downward.
func downTo(x float64, place int) string {
	unit := math.Pow10(place)
	return fixed(math.Floor(x/unit+typedAs)*unit, place)
}

// Exactly is a number as exactly as it was written; a converted one has three
// digits.
func (s Spelling) Exactly(value float64, unit string) Spelt {
	c := s.of(value, unit)
	if c.Converts() {
		return Spelt{Value: Plain(Digits(c.Of(value), 3)), Unit: c.Unit}
	}
	return Spelt{Value: Plain(value), Unit: c.Unit}
}

// Fixed is a number with so many decimals in the unit that it is held in; a
// converted one has as many as say as much.
func (s Spelling) Fixed(value float64, unit string, decimals int) Spelt {
	return s.Measure(value, 0, unit, decimals)
}

// AtMost is a limit that must not be passed, such as a rating. Converted, it is
// rounded downward: to a whole number from ten up, else to two digits. What was
// typed in the very unit, whole or to a tenth of a psi, stands as it was typed.
func (s Spelling) AtMost(limit float64, unit string) Spelt {
	return s.toSafety(limit, unit, math.Floor)
}

// AtLeast is what must not be understated, such as the pressure that a vessel
// comes to. Converted, it is rounded upward.
func (s Spelling) AtLeast(value float64, unit string) Spelt {
	return s.toSafety(value, unit, math.Ceil)
}

// typedAs is how near a converted number lies to a round one that was typed: far
// nearer than any that only happens to.
const typedAs = 1e-6

func (s Spelling) toSafety(value float64, unit string, round func(float64) float64) Spelt {
	c := s.of(value, unit)
	x, finest := c.Of(value), 1.0
	if unit == "bar" {
		finest = 0.1 // as fine as a gauge in psi is read
	}
	switch {
	case !c.Converts():
		return Spelt{Value: Plain(value), Unit: c.Unit}
	case math.Abs(x/finest-math.Round(x/finest)) < typedAs*math.Abs(x):
		return Spelt{Value: Plain(math.Round(x/finest) * finest), Unit: c.Unit}
	}
	place := math.Pow10(min(0, int(math.Floor(math.Log10(math.Max(math.Abs(x), typedAs))))-1))
	return Spelt{Value: Plain(round(x/place) * place), Unit: c.Unit}
}

// Digits rounds to so many significant digits.
func Digits(x float64, n int) float64 {
	if x == 0 || !finite(x) {
		return x
	}
	scale := math.Pow10(n - 1 - int(math.Floor(math.Log10(math.Abs(x)))))
	return math.Round(x*scale) / scale
}

// Between is a range of exact numbers, such as a card's: 14 to 24 °C. Converted
// ones are rounded as Text does.
func (s Spelling) Between(low, high float64, unit string) string {
	c := s.of(max(low, high), unit)
	if !c.Converts() {
		return Plain(low) + " to " + Spelt{Value: Plain(high), Unit: c.Unit}.String()
	}
	return advised(c, low) + " to " + advised(c, high) + " " + c.Unit
}

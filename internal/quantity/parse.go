package quantity

import (
	"fmt"
	"math"
	"strings"
)

// Amount is a quantity as typed: its value and the half-width within which the
// brewer is sure it lies.
type Amount[Q Quantity] struct {
	Value  Q
	Within Q // half-width in the same unit, 0 where none was typed
	// Typed says that a half-width was written, so that "± 0" is an exact
	// number and not an unknown doubt.
	Typed bool
	// Unit is the symbol of the (last) unit written, "" for a bare number.
	Unit string
}

// Range is two quantities of one kind, low to high, as on a card:
// 72 to 78 %. A single quantity is a range of no width.
type Range[Q Quantity] struct{ Low, High Q }

// Middle is halfway between the ends.
func (r Range[Q]) Middle() Q { return (r.Low + r.High) / 2 }

// HalfWidth is half the distance between the ends.
func (r Range[Q]) HalfWidth() Q { return (r.High - r.Low) / 2 }

// ParseError is what Parse found wrong with a text.
type ParseError struct {
	Offset   int    // where in the text, in bytes from its start
	Found    string // what stands there, or what is wrong with it
	Expected string // what should stand there
	Fix      string // the likely meaning, or ""
	// Unit says that the number itself is readable: its unit is missing, or is
	// none of this kind.
	Unit bool
	// NoUnit says that the unit is missing: what was typed is the number alone.
	NoUnit bool
}

// Error says it in one line.
func (e *ParseError) Error() string {
	text := e.Found + ": expected " + e.Expected
	if e.Fix != "" {
		text += " (" + e.Fix + "?)"
	}
	return text
}

// maxTyped bounds the length of one quantity, so that no input can stall the
// reader. The longest sensible one has some forty characters.
const maxTyped = 120

// Parse reads one quantity with an optional half-width. The error is always a
// *ParseError.
//
// In "20.5 ± 0.5 L" the unit comes last and serves both numbers. Where a bare
// value would have meant something by itself, as in "1.036 ± 1 P", the unit
// must be written twice, since the two readings of it are far apart.
func Parse[Q Quantity](text string) (Amount[Q], error) {
	s := scanner{text: text, kind: KindOf[Q]()}
	if len(text) > maxTyped {
		return Amount[Q]{}, &ParseError{Found: fmt.Sprintf("%d characters", len(text)), Expected: s.wanted()}
	}
	value, err := s.compound()
	if err != nil {
		return Amount[Q]{}, err
	}
	var width part
	typed := s.plusMinus()
	if typed {
		if width, err = s.halfWidth(&value); err != nil {
			return Amount[Q]{}, err
		}
	}
	if err := s.end(); err != nil {
		return Amount[Q]{}, err
	}
	if err := s.settleUnit(&value); err != nil {
		return Amount[Q]{}, err
	}
	amount := Amount[Q]{Value: Q(value.canonical()), Within: Q(width.asWidthOf(value)), Typed: typed}
	if !finite(float64(amount.Value)) || !finite(float64(amount.Within)) {
		return Amount[Q]{}, &ParseError{Found: found(text), Expected: "a number of ordinary size"}
	}
	if !value.bare {
		amount.Unit = value.unit.Symbol
	}
	return amount, nil
}

// finite tells whether x is a number at all: a huge one can leave the range of
// floating point on its way into the canonical unit.
func finite(x float64) bool { return !math.IsInf(x, 0) && !math.IsNaN(x) }

// ParseRange reads "LOW to HIGH UNIT", "LOW UNIT to HIGH UNIT" or one quantity.
func ParseRange[Q Quantity](text string) (Range[Q], error) {
	low, high, found := strings.Cut(text, " to ")
	if !found {
		one, err := Parse[Q](text)
		return Range[Q]{one.Value, one.Value}, err
	}
	top, err := Parse[Q](high)
	if err != nil {
		return Range[Q]{}, shift(err, len(low)+len(" to "))
	}
	bottom, err := Parse[Q](low)
	if top.Unit != "" && (err != nil || bottom.Unit == "") {
		bottom, err = Parse[Q](strings.TrimSpace(low) + " " + top.Unit)
	}
	if err == nil && bottom.Value > top.Value {
		err = &ParseError{Found: fmt.Sprintf("%q runs downward", text), Expected: "the lower end first"}
	}
	return Range[Q]{bottom.Value, top.Value}, err
}

// shift moves the place of an error to the right.
func shift(err error, by int) error {
	if e, ok := err.(*ParseError); ok {
		e.Offset += by
	}
	return err
}

// part is one number with its unit, which may not be known yet.
type part struct {
	number float64
	unit   *Unit
	bare   bool // no unit was written, and the kind's bare one was taken
}

// canonical is the part in its kind's canonical unit.
func (p part) canonical() float64 { return p.unit.In(p.number) }

// asWidthOf is the part as a half-width around value, in the canonical unit.
// On a scale with an offset or a bend it is half the distance between the two
// ends, so that ± 1 °F is ± 0.56 °C and not −17.
func (p part) asWidthOf(value part) float64 {
	switch {
	case p.number == 0:
		return 0
	case p.unit == nil || p.unit.Symbol == value.unit.Symbol:
		return math.Abs(value.unit.In(value.number+p.number)-value.unit.In(value.number-p.number)) / 2
	}
	return math.Abs(p.unit.In(p.number) - p.unit.In(0))
}

// compound reads "1 lb 4 oz": parts of falling size, added up in the first
// one's unit. Most texts have one part.
func (s *scanner) compound() (part, error) {
	sum, err := s.part()
	for last := sum; err == nil && last.unit != nil && s.startsNumber(); {
		start := s.at
		var next part
		if next, err = s.part(); err != nil {
			break
		}
		if next.unit == nil || !smaller(*next.unit, *last.unit) {
			return part{}, &ParseError{Offset: start,
				Found:    fmt.Sprintf("%q after %s", s.text[start:s.at], last.unit.Symbol),
				Expected: "one quantity, or parts that grow smaller, such as 1 lb 4 oz"}
		}
		sum.number += sum.unit.Out(next.canonical())
		last = next
	}
	return sum, err
}

// smaller tells whether a is a smaller unit than b, both plain multiples.
func smaller(a, b Unit) bool {
	return a.In(0) == 0 && b.In(0) == 0 && a.In(1) < b.In(1)
}

// part reads a number and, where one follows, its unit.
func (s *scanner) part() (part, error) {
	number, err := s.number()
	if err != nil {
		return part{}, err
	}
	u, err := s.unit()
	return part{number: number, unit: u}, err
}

// halfWidth reads what follows ±, and lends its unit to a value without one.
func (s *scanner) halfWidth(value *part) (part, error) {
	s.space()
	start := s.at
	width, err := s.part()
	if err != nil {
		return part{}, err
	}
	if width.number < 0 {
		return part{}, &ParseError{Offset: start, Found: "a half-width below nothing",
			Expected: "how far off it may be, as ± 0.5"}
	}
	if value.unit == nil && width.unit != nil {
		if bare := s.kind.Bare; bare != nil && bare.Symbol != width.unit.Symbol {
			return part{}, &ParseError{Offset: start, Unit: true, Found: "a unit after the half-width alone",
				Expected: "the unit after both numbers, as 10.2 P ± 0.1 P"}
		}
		value.unit = width.unit
	}
	return width, nil
}

// settleUnit gives a value without a unit its kind's bare one, or reports it.
func (s *scanner) settleUnit(value *part) error {
	if value.unit != nil {
		return nil
	}
	if s.kind.Bare == nil {
		return s.noUnit()
	}
	value.unit, value.bare = s.kind.Bare, true
	return nil
}

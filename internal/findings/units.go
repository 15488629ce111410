package findings

import (
	"fmt"
	"math"

	"gylebook/internal/figures"
	q "gylebook/internal/quantity"
)

// What is said of a gyle is written in the units of its journal's settings.
// Constant sentences have their quantities in braces, as quantity.Spelling.Text
// reads them; figures and readings go through the functions here. All tests are
// made in canonical units. What the brewer typed is quoted as it was typed.

// caseOf is a gyle to examine.
func caseOf(s *figures.Sheet) *Case {
	c := &Case{Sheet: s, Inquiry: s.Inquire(), Gyle: s.Gyle, Now: s.Now, limits: limitsOf(s.Settings)}
	if s.Settings != nil {
		c.units = s.Settings.Units.Spelling()
	}
	return c
}

// text is a constant sentence in the settings' units.
func (c *Case) text(sentence string) string { return c.units.Text(sentence) }

// sayf is a sentence with its numbers and names. Only what stands in the format
// itself follows the units: a name may hold whatever it likes.
func (c *Case) sayf(format string, with ...any) string {
	return fmt.Sprintf(c.units.Text(format), with...)
}

// measure is a figure as a sentence has it: 1.42 ± 0.15 vol.
func (c *Case) measure(f figures.Figure) string { return Spelt(f, c.units).String() }

// Spelt is a figure as printed in some units: as it prints itself, where it is held
// in one of them.
func Spelt(f figures.Figure, in q.Spelling) q.Spelt {
	into := in.Into(f.Unit)
	switch {
	case into.Converts() && f.ID == "pressure-margin":
		return in.Below(f.Value, f.ShownPlusMinus(), f.Unit, f.Decimals)
	case into.Converts():
		return in.Measure(f.Value, f.ShownPlusMinus(), f.Unit, f.Decimals)
	}
	value, plusMinus := f.Rounded()
	spelt := q.Spelt{Value: value, PlusMinus: plusMinus, Unit: f.Unit}
	if f.Unit == "K" {
		spelt.Unit = into.Unit
	}
	return spelt
}

// bare is a figure with its ±, without its unit.
func bare(f figures.Figure) string {
	value, plusMinus := f.Rounded()
	return q.Spelt{Value: value, PlusMinus: plusMinus}.String()
}

// about is a number cut to what its ± supports, without the ±.
func (c *Case) about(value, plusMinus float64, unit string) string {
	spelt := c.units.Measure(value, plusMinus, unit, 0)
	spelt.PlusMinus = ""
	return spelt.String()
}

// litres is a volume with its ±, exact where that is nought.
func (c *Case) litres(value, plusMinus float64) string {
	if plusMinus > 0 && !math.IsInf(plusMinus, 0) {
		return c.units.Measure(value, plusMinus, "L", 1).String()
	}
	return c.exactly(value, "L")
}

// exactly is a number as it was written.
func (c *Case) exactly(value float64, unit string) string {
	return c.units.Exactly(value, unit).String()
}

// heat is a temperature to the degree, in °C as it comes in.
func (c *Case) heat(celsius float64) string { return c.units.Fixed(celsius, "°C", 0).String() }

// degrees is heat without its unit, for the first of two.
func (c *Case) degrees(celsius float64) string { return c.units.Fixed(celsius, "°C", 0).Value }

// allows is a pressure that must not be passed, in bar as it comes in, never
// rounded upward; setTo is one that a vessel is held at, never rounded downward.
func (c *Case) allows(bar float64) string { return c.units.AtMost(bar, "bar").String() }
func (c *Case) setTo(bar float64) string  { return c.units.AtLeast(bar, "bar").String() }

// weight is a weight of what was added, in grams as it comes in.
func (c *Case) weight(grams float64) string {
	if c.units.Weight.IsMetric() || grams < float64(q.Pound) {
		return c.exactly(math.Round(grams), "g")
	}
	return c.exactly(grams/1000, "kg")
}

// pints is a number of UK pints in whole ones of the settings' kind.
func (c *Case) pints(uk float64) string { return c.units.Fixed(uk, "UK pints", 0).String() }

// pintCount is pints without the word.
func (c *Case) pintCount(uk float64) string { return c.units.Fixed(uk, "UK pints", 0).Value }

package assay

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

// Of is a gyle to examine.
func Of(s *figures.Sheet) *Case {
	c := &Case{Sheet: s, Inquiry: s.Inquire(), Gyle: s.Gyle, Now: s.Now, Habits: HabitsOf(s.Settings)}
	if s.Settings != nil {
		c.Units = s.Settings.Units.Spelling()
	}
	return c
}

// Text is a constant sentence in the settings' units.
func (c *Case) Text(sentence string) string { return c.Units.Text(sentence) }

// Sayf is a sentence with its numbers and names. Only what stands in the format
// itself follows the units, and a limit: a name may hold whatever it likes.
func (c *Case) Sayf(format string, with ...any) string {
	for i, w := range with {
		if limit, ok := w.(*Limit); ok && c.Units.Into(limit.Unit).Converts() {
			with[i] = c.Text("{" + limit.String() + "}")
		}
	}
	return fmt.Sprintf(c.Units.Text(format), with...)
}

// Measure is a figure as a sentence has it: 1.42 ± 0.15 vol.
func (c *Case) Measure(f figures.Figure) string { return f.Spelt(c.Units).String() }

// Bare is a figure with its ±, without its unit.
func Bare(f figures.Figure) string {
	value, plusMinus := f.Rounded()
	return q.Spelt{Value: value, PlusMinus: plusMinus}.String()
}

// Rough is a number cut to what its ± supports, without the ±.
func (c *Case) Rough(value, plusMinus float64, unit string) string {
	spelt := c.Units.Measure(value, plusMinus, unit, 0)
	spelt.PlusMinus = ""
	return spelt.String()
}

// Litres is a volume with its ±, exact where that is nought.
func (c *Case) Litres(value, plusMinus float64) string {
	if plusMinus > 0 && !math.IsInf(plusMinus, 0) {
		return c.Units.Measure(value, plusMinus, "L", 1).String()
	}
	return c.Exactly(value, "L")
}

// Exactly is a number as it was written.
func (c *Case) Exactly(value float64, unit string) string {
	return c.Units.Exactly(value, unit).String()
}

// Heat is a temperature to the degree, in °C as it comes in.
func (c *Case) Heat(celsius float64) string { return c.Units.Fixed(celsius, "°C", 0).String() }

// HeatNumber is heat without its unit, for the first of two.
func (c *Case) HeatNumber(celsius float64) string { return c.Units.Fixed(celsius, "°C", 0).Value }

// PressureAtMost is a pressure that must not be passed, in bar as it comes in, never
// rounded upward; setTo is one that a vessel is held at, never rounded downward.
func (c *Case) PressureAtMost(bar float64) string { return c.Units.AtMost(bar, "bar").String() }

func (c *Case) PressureAtLeast(bar float64) string { return c.Units.AtLeast(bar, "bar").String() }

// Weight is a weight of what was added, in grams as it comes in.
func (c *Case) Weight(grams float64) string {
	if c.Units.Weight.IsMetric() || grams < float64(q.Pound) {
		return c.Exactly(math.Round(grams), "g")
	}
	return c.Exactly(grams/1000, "kg")
}

// Pints is a number of UK pints in whole ones of the settings' kind.
func (c *Case) Pints(uk float64) string { return c.Units.Fixed(uk, "UK pints", 0).String() }

// PintCount is pints without the word.
func (c *Case) PintCount(uk float64) string { return c.Units.Fixed(uk, "UK pints", 0).Value }

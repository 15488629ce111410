package figures

import (
	"math"

	"gylebook/internal/quantity"
)

// Spelt is the figure as it is printed, in some journal's units: value, ± and unit.
// Whatever prints a figure (a page, the terminal, a working, a sentence) has it from
// here. What a figure cuts, as duty is reckoned, stays cut; a margin that is converted
// is never overstated. A date has no unit, and is as 2026-03-07. What is no number is
// the empty Spelt.
func (f Figure) Spelt(in quantity.Spelling) quantity.Spelt {
	into := in.Into(f.Unit)
	switch {
	case f.Unit != dateUnit && (math.IsNaN(f.Value) || math.IsInf(f.Value, 0)):
		return quantity.Spelt{}
	case into.Converts() && f.ID == kindMargin.ID:
		return in.Below(f.Value, f.ShownPlusMinus(), f.Unit, f.Decimals)
	case into.Converts():
		return in.Measure(f.Value, f.ShownPlusMinus(), f.Unit, f.Decimals)
	}
	value, plusMinus := f.Rounded()
	spelt := quantity.Spelt{Value: value, PlusMinus: plusMinus, Unit: f.Unit}
	switch f.Unit {
	case dateUnit:
		spelt.Unit = ""
	case "K":
		spelt.Unit = into.Unit
	}
	return spelt
}

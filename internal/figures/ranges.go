package figures

import (
	"math"

	"gylebook/internal/quantity"
)

// mostOfAnything is more, in any figure's unit, than a brewery of a couple of
// thousand litres has of it. What comes to more was worked from a slip.
const mostOfAnything = 1e5

// tooMuch is why such a figure is withheld.
const tooMuch = "it comes to more than any brewery has: a reading that it rests on must be a slip"

// likely tells whether a value and its ± are such as a brewery might have.
func likely(value, plusMinus float64) bool {
	return math.Abs(value) < mostOfAnything && plusMinus < mostOfAnything
}

// extrapolated says of a figure that it lies outside of its kind's range, where
// the formula still gives a number.
func extrapolated(f *Figure, outside bool) {
	if f == nil || !outside {
		return
	}
	said := "extrapolated: the formula is good for " + f.Valid
	if f.Note != "" {
		said = f.Note + "; " + said
	}
	f.Note = said
}

// How far a number is printed at most: so many significant digits, and so many
// decimals more than a figure without a ± has. A ± below that says nothing that
// a reader could use.
const (
	mostDigits   = 7
	moreDecimals = 3
)

// finest is the last place, as a power of ten, that a number of a kind is printed
// to.
func finest(value float64, decimals int) int {
	place := -decimals - moreDecimals
	if size := math.Abs(value); size > 0 {
		place = max(place, int(math.Floor(math.Log10(size)))-mostDigits+1)
	}
	return place
}

// tooFine tells whether a ± is below the last place that is printed.
func tooFine(value, plusMinus float64, decimals int) bool {
	return plusMinus < math.Pow10(finest(value, decimals))
}

// toFinest prints a number to the last place that is ever printed.
func toFinest(value float64, decimals int) string {
	return quantity.Fixed(value, max(0, -finest(value, decimals)))
}

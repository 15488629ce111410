package journal

import (
	"strconv"
	"strings"

	"gylebook/internal/quantity"
)

// withUnit is a number that was typed without a unit, with the one that it was
// likely to have; "" where another, a thousand times as much, may be meant. What
// is likely the field's example says: a hop addition is weighed in grams, a malt
// in kilograms.
func (f *field) withUnit(typed string) string {
	words := strings.Fields(typed)
	if len(words) == 0 {
		return ""
	}
	n, err := strconv.ParseFloat(words[len(words)-1], 64)
	if err != nil || n <= 0 {
		return ""
	}
	example := strings.Fields(f.example())
	usual, err := strconv.ParseFloat(example[0], 64)
	if unit := example[len(example)-1]; err == nil && len(example) > 1 {
		if u := likelyUnit(f.leaf.kind, usual, unit, n); u != "" {
			return typed + " " + u
		}
	}
	return ""
}

// The bounds within which a bare number is of the example's own size: a
// fifteenth of it to fifteen times as much; of litres and kilograms less far up,
// where the thousandth part begins to be as likely.
const (
	sameSize    = 15.0
	mostOfLarge = 5.0
)

// likelyUnit is the unit that a bare number has, where brewers write so many of
// such a unit there.
func likelyUnit(kind *quantity.Kind, usual float64, unit string, n float64) string {
	near := func(most float64) bool { return n >= usual/sameSize && n <= usual*most }
	switch kind {
	case quantity.KindOf[quantity.Temperature]():
		return likelyScale(usual, n)
	case quantity.KindOf[quantity.Mass](), quantity.KindOf[quantity.Volume]():
		return likelySize(unit, usual, n, near)
	case quantity.KindOf[quantity.Pressure]():
		if near(mostOfLarge) {
			return unit
		}
		return wordIf(n > 5, "psi")
	case quantity.KindOf[quantity.Height]():
		return "" // metres and feet are equally likely
	case quantity.KindOf[quantity.AirPressure]():
		return likelyBarometer(n)
	case quantity.KindOf[quantity.Extract]():
		if n <= 100 {
			return "%"
		}
	}
	return unit
}

// likelyBarometer is the unit of a barometer that shows so many: what is no
// pressure of the air in any other. Between 500 and 820 it may be millimetres of
// mercury at the sea, or hectopascals on a mountain.
func likelyBarometer(n float64) string {
	switch {
	case n >= 850 && n <= 1110:
		return "hPa"
	case n >= 50 && n <= 111:
		return "kPa"
	case n >= 20 && n <= 32:
		return "inHg"
	}
	return ""
}

// leastFill is what nothing holds that is filled with beer, in millilitres: fewer
// are litres.
const leastFill = 300.0

// likelySize is the larger of two units, a thousand apart, for numbers of its
// example's size, and the smaller for those that are too many of the larger.
func likelySize(unit string, usual, n float64, near func(most float64) bool) string {
	smaller, large := map[string]string{"kg": "g", "L": "mL"}[unit]
	switch {
	case unit == "mL" && usual >= leastFill && n < usual/sameSize:
		return "L"
	case !large:
		return wordIf(near(sameSize), unit)
	case near(mostOfLarge):
		return unit
	case unit == "kg":
		return wordIf(n >= 50 && n < 5000, smaller) // 25 may be a bag of malt, or a handful
	}
	return wordIf(n >= 250 && n < 5000, smaller)
}

// hottestCold is where a heat of beer, in °C, is surely one in °F, and
// hottestWort the same of wort and liquor.
const hottestCold, hottestWort = 45.0, 105.0

func likelyScale(usual, n float64) string {
	hottest := hottestWort
	if usual < hottestCold {
		hottest = hottestCold
	}
	if n > hottest {
		return "F"
	}
	return "C"
}

func wordIf(when bool, word string) string {
	if when {
		return word
	}
	return ""
}

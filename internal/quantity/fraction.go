package quantity

import (
	"strconv"
	"strings"
	"unicode/utf8"
)

// vulgar is the fractions that have a character of their own.
var vulgar = map[rune]float64{
	'¼': 1. / 4, '½': 1. / 2, '¾': 3. / 4, '⅓': 1. / 3, '⅔': 2. / 3,
	'⅛': 1. / 8, '⅜': 3. / 8, '⅝': 5. / 8, '⅞': 7. / 8,
}

// fraction is a number written with a fraction at the start of text, as ½, 2½,
// 1/2 or 2 1/2, and its length in bytes; 0 for none.
//
// A stroke is a fraction only where a unit must follow, so that a score of 7/10
// is not taken for 0.7.
func (k *Kind) fraction(text string) (value float64, length int) {
	whole := digitsLength(text)
	n := whole
	for n < len(text) && text[n] == ' ' {
		n++
	}
	if c, size := utf8.DecodeRuneInString(text[n:]); vulgar[c] > 0 && (whole > 0 || n == 0) {
		return wholePart(text[:whole]) + vulgar[c], n + size
	}
	if k.Bare != nil {
		return 0, 0
	}
	if whole > 0 && n > whole { // 2 1/2
		if part, size := stroke(text[n:]); size > 0 {
			return wholePart(text[:whole]) + part, n + size
		}
	}
	return stroke(text)
}

// stroke is a proper fraction with a stroke at the start of text.
func stroke(text string) (value float64, length int) {
	above := digitsLength(text)
	rest, found := strings.CutPrefix(text[above:], "/")
	below := digitsLength(rest)
	if !found || above == 0 || below == 0 {
		return 0, 0
	}
	top, bottom := wholePart(text[:above]), wholePart(rest[:below])
	if top <= 0 || top >= bottom {
		return 0, 0
	}
	return top / bottom, above + 1 + below
}

// wholePart is the number of some digits, 0 for none.
func wholePart(digits string) float64 {
	value, _ := strconv.ParseFloat(digits, 64)
	return value
}

package figures

import (
	"strings"
	"time"

	"gylebook/internal/quantity"
)

// symbol is one symbol of a formula with this gyle's number, which is printed
// only when the working is asked for.
type symbol struct {
	name  string
	words string  // instead of a number
	value float64 // of a date, its midnight in UTC
	place float64 // the ± to round by
	unit  string
	lack  bool // that the number is not known
}

// sym is a symbol of a formula with its number.
func sym[Q ~float64](name string, e Estimate[Q], unit string) symbol {
	return symbol{name: name, value: float64(e.Value), place: e.u / 5, unit: unit, lack: !e.known}
}

// inWords is a symbol that stands for words: a date, a count.
func inWords(name, words string) symbol { return symbol{name: name, words: words} }

// onDay is a symbol that stands for a date.
func onDay(name string, day time.Time) symbol {
	y, m, d := day.Date()
	return symbol{name: name, unit: dateUnit, value: float64(time.Date(y, m, d, 0, 0, 0, 0, time.UTC).Unix())}
}

// text is the number rounded as far as its doubt supports and one digit more, so
// that a reader can follow the sum.
func (s symbol) text() string {
	switch {
	case s.lack:
		return "unknown"
	case s.words != "":
		return s.words
	case s.unit == dateUnit:
		return time.Unix(int64(s.value), 0).UTC().Format(time.DateOnly)
	}
	text, _ := quantity.Rounded(s.value, s.place)
	if _, decimals, _ := strings.Cut(text, "."); len(decimals) > symbolDecimals+moreDecimals || s.place > 0 && tooFine(s.value, s.place, symbolDecimals) {
		text = toFinest(s.value, symbolDecimals)
	}
	if s.unit != "" {
		text += " " + s.unit
	}
	return text
}

// symbolDecimals is how many decimals a number in a working has before its doubt
// is too fine to follow: a gravity's.
const symbolDecimals = 4

// number0 prints a whole number.
func number0(x float64) string { return quantity.Fixed(x, 0) }

package scribe

import (
	"errors"
	"fmt"
	"strings"

	"gylebook/internal/journal"
	q "gylebook/internal/quantity"
)

// parses tells how a text reads as a quantity of a kind.
func parses(k *q.Kind, text string) (unit string, value float64, err error) {
	for _, try := range readers {
		if try.kind == k {
			return try.read(text)
		}
	}
	return "", 0, errors.New("no such kind")
}

// readers read a quantity of each kind that a jotting may have.
var readers = []struct {
	kind *q.Kind
	read func(text string) (unit string, value float64, err error)
}{
	{ofVolume, readAs[q.Volume]}, {ofWeight, readAs[q.Mass]}, {ofHeat, readAs[q.Temperature]},
	{ofGravity, readAs[q.Gravity]},
	{ofBrix, readAs[q.Brix]}, {ofPH, readAs[q.Acidity]}, {ofPressure, readAs[q.Pressure]}, {ofTime, readAs[q.Duration]},
	{q.KindOf[q.Percent](), readAs[q.Percent]}, {q.KindOf[q.Bitterness](), readAs[q.Bitterness]},
	{q.KindOf[q.Colour](), readAs[q.Colour]},
	{q.KindOf[q.Carbonation](), readAs[q.Carbonation]}, {q.KindOf[q.Concentration](), readAs[q.Concentration]},
	{q.KindOf[q.Cells](), readAs[q.Cells]},
	{q.KindOf[q.Extract](), readAs[q.Extract]},
}

func readAs[Q q.Quantity](text string) (unit string, value float64, err error) {
	amount, err := q.Parse[Q](text)
	return amount.Unit, float64(amount.Value), err
}

// beginsNumber tells whether a word begins as a number does.
func beginsNumber(word string) bool {
	bare := strings.TrimLeft(word, "-+−.")
	return bare != "" && bare[0] >= '0' && bare[0] <= '9'
}

// longestRun is how many words one quantity may have: 1 lb 4 oz ± 1 oz.
const longestRun = 7

// quantityRun is how many of the first words are one quantity, 0 for none: as
// many as any kind can read with a unit, else one number without.
func quantityRun(tokens []token) int {
	if !beginsNumber(tokens[0].text) {
		return 0
	}
	for n := min(longestRun, len(tokens)); n > 0; n-- {
		text := plainJoin(tokens[:n])
		for _, r := range readers {
			if unit, _, err := r.read(text); err == nil && (unit != "" || n == 1 || strings.ContainsAny(text, "±+")) {
				return n
			}
		}
	}
	return 0
}

// byUnit takes a quantity without a key to where its unit belongs.
func (l *listener) byUnit(run int) error {
	text := plainJoin(l.tokens[:run])
	var fits []string
	for _, u := range l.place.units {
		if unit, _, err := parses(u.kind, text); err == nil && unit != "" {
			fits = append(fits, u.key)
		}
	}
	if len(fits) > 1 {
		return fmt.Errorf("%s may be %s: say which before it", text, strings.Join(fits, " or "))
	}
	if len(fits) == 0 {
		if !hasUnit(text) {
			return l.bareNumber(text, run)
		}
		return fmt.Errorf("%s has no place of itself in %s: put one of its keys before it (%s)", text, l.place.called(),
			l.keyList())
	}
	l.tokens = l.tokens[run:]
	return l.take(Value{Key: fits[0], Text: text})
}

// hasUnit tells whether any kind reads a unit in the text.
func hasUnit(text string) bool {
	for _, r := range readers {
		if unit, _, err := r.read(text); err == nil && unit != "" {
			return true
		}
	}
	return false
}

// limits are what a value that is read can be, in the unit that a number without
// one has: from water and wort, and from what one household can lift. They are
// those beyond which figures takes a value for impossible and leaves it out.
var limits = []struct {
	kind      *q.Kind
	low, high float64
	tenfold   float64 // what a slip is most often off by
}{
	{ofGravity, lightest, heaviest, 1000},
	{ofPH, 1, 13, 10},
	{ofHeat, -10, 105, 10},
}

// The gravities that there are, from a dry cider's to the strongest wort's.
const lightest, heaviest = 0.985, 1.150

// impossible says why a quantity cannot be true, nil where it can.
func impossible(v Value, word journal.Word) error {
	for _, l := range limits {
		if len(word.Units) == 0 || word.Units[0] != l.kind.Canonical().Symbol {
			continue
		}
		_, value, err := parses(l.kind, v.Text)
		if err != nil || value >= l.low && value <= l.high {
			return nil // the reader says what it finds wrong
		}
		guess := ""
		if near := value / l.tenfold; near >= l.low && near <= l.high && value > l.high {
			guess = fmt.Sprintf(" (%s?)", strings.TrimSpace(q.Plain(near)+" "+unitOf(v.Text)))
		}
		return fmt.Errorf("%s %s cannot be: a %s lies between %s and %s%s", v.Key, v.Text, l.kind.Name, q.Plain(l.low),
			q.Plain(l.high), guess)
	}
	return nil
}

// unitOf is what a quantity has after its number.
func unitOf(text string) string { return strings.TrimLeft(text, "-−+.0123456789 ") }

// bareNumber takes a number without a unit, where the place leaves no doubt of
// what it is.
func (l *listener) bareNumber(text string, run int) error {
	word := l.known[l.place.bare]
	gravity := len(word.Units) > 0 && word.Units[0] == ofGravity.Canonical().Symbol
	_, value, err := parses(ofGravity, text)
	switch {
	case (l.place.bare == "" || value > heaviest) && l.strangeUnit():
		return l.unknownNumber()
	case l.place.bare == "" || err != nil:
		return fmt.Errorf("%s has no unit: say what it is by one (%s L, %s C) or by a key (%s)", text, text, text,
			l.keyList())
	case gravity && value >= 1000*lightest && value <= 1000*heaviest:
		return fmt.Errorf("%s is no gravity as this book writes it: %.3f?", text, value/1000)
	case gravity && (value < lightest || value > heaviest):
		return fmt.Errorf("%s has no unit and is no beer's gravity: say what it is by a unit (%s L, %s C) or by a "+
			"key (%s)", text, text, text, l.keyList())
	}
	l.tokens = l.tokens[run:]
	return l.take(Value{Key: l.place.bare, Text: text})
}

// strangeUnit tells whether the word after the next stands where a unit would
// and is nothing else that is known here.
func (l *listener) strangeUnit() bool {
	if len(l.tokens) < 2 || l.tokens[1].quoted || beginsNumber(l.tokens[1].text) || l.place.open {
		return false
	}
	_, _, is := keyAt(l.tokens[1:], l.known)
	return !is
}

package scribe

import (
	"errors"
	"fmt"
	"maps"
	"slices"
	"strings"

	"github.com/agnivade/levenshtein"

	q "gylebook/internal/quantity"
)

// words takes words that have no key: those in quotation marks by themselves,
// others together with those after them.
func (l *listener) words() error {
	t := l.tokens[0]
	l.tokens = l.tokens[1:]
	if t.quoted && l.place.loose == "found" {
		return l.take(Value{Key: "text", Text: t.text})
	}
	l.loose = append(l.loose, t.text)
	l.named = l.named || t.quoted
	return nil
}

// settleLoose puts the words that have no key under the place's.
func (l *listener) settleLoose() error {
	if len(l.loose) == 0 {
		return nil
	}
	text := strings.Join(l.loose, " ")
	if err := l.oneName(); err != nil {
		return err
	}
	if l.place.loose == "found" {
		return l.take(Value{Key: "found", Many: parted(text)})
	}
	if l.place.list == reading.list && len(l.loose) > 1 {
		return fmt.Errorf("%q and %q: put them between one pair of quotation marks", l.loose[0], l.loose[1])
	}
	return l.take(Value{Key: l.place.loose, Text: text})
}

// joining are words that a name does not have: they tell of a second thing, or of
// a rate.
var joining = strings.Fields("and then per each apiece to on but & + into after before while every plus")

// oneName refuses words for a name that tell of more than one thing.
func (l *listener) oneName() error {
	if l.named || !slices.Contains([]string{"sugar", "yeast", "hop", "vessel", "with"}, l.place.loose) {
		return nil
	}
	for _, word := range strings.Fields(strings.ToLower(strings.Join(l.loose, " "))) {
		_, used, err := placeOf(begun([]token{{text: word}}))
		if slices.Contains(joining, word) || err == nil && used > 0 {
			return fmt.Errorf("%q is more than the name of one thing: jot one thing at a time, and put a name in "+
				"quotation marks", strings.Join(l.loose, " "))
		}
	}
	return nil
}

// unknown says what is not understood of the next word, and what might be meant.
func (l *listener) unknown() error {
	word := l.tokens[0].text
	if beginsNumber(word) {
		return l.unknownNumber()
	}
	says := fmt.Sprintf("%q is no key of %s%s", word, l.place.called(),
		orNear(word, slices.Collect(maps.Keys(l.known))))
	if l.place.loose == "note" {
		return errors.New(says + "; words to note go in quotation marks, or after note")
	}
	return fmt.Errorf("%s; it has %s", says, l.keyList())
}

// unknownNumber says what a reader of quantities finds wrong with a number: the
// one that says most.
func (l *listener) unknownNumber() error {
	text := l.tokens[0].text
	tries := []string{text}
	if len(l.tokens) > 1 && !beginsNumber(l.tokens[1].text) {
		tries = append([]string{text + " " + l.tokens[1].text}, tries...)
	}
	for _, try := range tries {
		for _, u := range append(slices.Clone(l.place.units), unitKey{kind: ofVolume}) {
			_, _, err := parses(u.kind, try)
			var found *q.ParseError
			if errors.As(err, &found) && tells(found, try) {
				return fmt.Errorf("%s: %w", try, err)
			}
		}
	}
	return fmt.Errorf("%q is no quantity that can be read: write 20 L, 19.5 C, 1.022", tries[0])
}

// tells whether a fault says more than that something is wrong: a decimal comma,
// pints of no country, a unit that is nearly one. Of one or two letters
// everything is nearly one.
func tells(f *q.ParseError, text string) bool {
	unit := strings.TrimLeft(text[min(f.Offset, len(text)):], " ")
	return strings.Contains(f.Found, "UK") || f.Fix != "" && (!f.Unit || len(unit) > 2)
}

// called is the place as a sentence has it.
func (p Place) called() string {
	if p.Words == "" {
		return "a reading"
	}
	return p.Words
}

// keyList is the keys of the place.
func (l *listener) keyList() string {
	return strings.Join(slices.Sorted(maps.Keys(l.known)), ", ")
}

// orNear asks whether one of the known words was meant.
func orNear(word string, known []string) string {
	best, least := []string(nil), max(1, len(word)/3)+1
	if len(word) > 40 {
		return ""
	}
	for _, k := range slices.Sorted(slices.Values(known)) {
		switch d := levenshtein.ComputeDistance(strings.ToLower(word), k); {
		case d < least:
			best, least = []string{k}, d
		case d == least && best != nil:
			best = append(best, k)
		}
	}
	if len(best) == 0 {
		return ""
	}
	return " (did you mean " + strings.Join(best, " or ") + "?)"
}

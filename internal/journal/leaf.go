package journal

import (
	"errors"
	"fmt"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"go.yaml.in/yaml/v4"

	"gylebook/internal/notice"
	"gylebook/internal/quantity"
)

func (*Value[Q]) shape() leafShape {
	return leafShape{name: "quantity", kind: quantity.KindOf[Q]()}
}

func (v *Value[Q]) take(r *reading, s scalar, f *field) {
	if f.none != "" && s.text == "none" {
		*v = Value[Q]{None: true, Where: s.Where}
		return
	}
	amount, err := quantity.Parse[Q](s.text)
	var why *quantity.ParseError
	if errors.As(err, &why) {
		if meant := r.asSurelyMeant(s.text, s.Key, f, why); meant != "" {
			if surely, at := quantity.Parse[Q](meant); at == nil {
				amount, err = surely, nil
			}
		}
	}
	if err != nil {
		r.badQuantity(s, f, err)
		return
	}
	*v = Value[Q]{Amount: amount, Where: s.Where}
}

func (*RangeOf[Q]) shape() leafShape {
	return leafShape{name: "range", kind: quantity.KindOf[Q]()}
}

func (v *RangeOf[Q]) take(r *reading, s scalar, f *field) {
	span, err := quantity.ParseRange[Q](s.text)
	if err != nil {
		r.badQuantity(s, f, err)
		return
	}
	*v = RangeOf[Q]{Range: span, Where: s.Where}
}

// badQuantity reports what a quantity's parser found, at its character.
func (r *reading) badQuantity(s scalar, f *field, err error) {
	var found *quantity.ParseError
	if !errors.As(err, &found) {
		r.wrong(s.node, idNotANumber, s.Key, err.Error(), f.valueHint(s.text))
		return
	}
	id, expected, fix := idNotANumber, found.Expected, found.Fix
	if found.Unit {
		id = idWrongUnit
	} else if f.eg != "" {
		expected = strings.Replace(expected, "such as "+f.leaf.kind.Example, "such as "+f.eg, 1)
	}
	if found.NoUnit {
		fix = f.withUnit(s.text)
	}
	says := fmt.Sprintf("%s: %s: expected %s", s.Key, found.Found, expected)
	do := f.valueHint(s.text)
	if doubtful := withItsDoubt(s.text); doubtful != "" && r.wouldRead(doubtful, s, f) {
		do = writeIfMeant(doubtful)
	}
	if do == "" {
		do = writeIfMeant(fix)
	}
	r.report(r.inside(s, found.Offset), id, s.Key, says, do)
}

// wouldRead tells whether a text would be read in place of a value.
func (r *reading) wouldRead(text string, s scalar, f *field) bool {
	trial := &reading{file: r.file, source: r.source, settings: r.settings, zone: r.zone}
	s.text = text
	f.fresh().take(trial, s, f)
	return len(trial.errors) == 0
}

// inside is the place of a byte of a value's text, where the text stands in the
// file letter by letter; else the place of the value.
func (r *reading) inside(s scalar, offset int) notice.Place {
	place := s.Place
	if s.node.Line < 0 || s.node.Style&(yaml.LiteralStyle|yaml.FoldedStyle) != 0 || offset > len(s.text) {
		return place
	}
	if s.node.Style&(yaml.SingleQuotedStyle|yaml.DoubleQuotedStyle) != 0 {
		place.Column++
	}
	line := []rune(r.line(place))
	if place.Column > len(line) || !strings.HasPrefix(string(line[place.Column-1:]), s.text) {
		return s.Place
	}
	place.Column += utf8.RuneCountInString(s.text[:offset])
	return place
}

func (*Text) shape() leafShape { return leafShape{name: "words"} }

func (t *Text) take(r *reading, s scalar, _ *field) {
	if r.readable(s) {
		*t = Text{Text: s.text, Where: s.Where}
	}
}

func (*Name) shape() leafShape { return leafShape{name: "name"} }

func (n *Name) take(r *reading, s scalar, _ *field) {
	if r.readable(s) {
		*n = Name{Name: strings.Join(strings.Fields(s.text), " "), Where: s.Where}
	}
}

// readable refuses characters that are no words: those that stand for bytes
// that could not be read, and control characters, which YAML's quotes can
// smuggle in.
func (r *reading) readable(s scalar) bool {
	bad := strings.IndexFunc(s.text, func(c rune) bool {
		return unicode.IsControl(c) && c != '\n' && c != '\t' || unicode.Is(unicode.Bidi_Control, c) ||
			c == utf8.RuneError
	})
	if bad < 0 {
		return true
	}
	c, _ := utf8.DecodeRuneInString(s.text[bad:])
	found := fmt.Sprintf("the character U+%04X", c)
	if c == utf8.RuneError {
		found = "a byte that is no text"
	}
	r.wrong(s.node, idNotText, s.Key, found+": expected words", "Leave it out, or type it again.")
	return false
}

func (*Choice[W]) shape() leafShape { return leafShape{name: "choice"} }

func (c *Choice[W]) take(r *reading, s scalar, f *field) {
	for _, word := range f.choices {
		if s.text == word {
			*c = Choice[W]{Word: W(word), Where: s.Where}
			return
		}
	}
	if word := f.surelyChosen(s.text); word != "" {
		*c = Choice[W]{Word: W(word), Where: s.Where}
		return
	}
	says := fmt.Sprintf("%s is not a word for it: expected one of %s", quote(s.text), strings.Join(f.choices, ", "))
	do := f.choiceHint(s.text)
	if do == "" {
		do = writeIfMeant(nearest(s.text, f.choices))
	}
	r.wrong(s.node, idUnknownWord, s.Key, says, do)
}

func (*Flag) shape() leafShape { return leafShape{name: "flag"} }

// take reads yes and no beside true and false: to YAML they are plain words, and
// under a key that asks whether, plain words have a plain meaning.
func (f *Flag) take(r *reading, s scalar, in *field) {
	switch strings.ToLower(s.text) {
	case "true", "yes":
		*f = Flag{True: true, Where: s.Where}
		return
	case "false", "no":
		*f = Flag{Where: s.Where}
		return
	}
	fix := ""
	switch strings.ToLower(s.text) {
	case "y", "on", "1":
		fix = "yes"
	case "n", "off", "0", "none":
		fix = "no"
	}
	r.wrong(s.node, idNotAFlag, s.Key, quote(s.text)+": expected yes or no, true or false", writeIfMeant(fix))
	r.doubtfulFlag(f, s, in)
}

// doubtfulFlag sets a flag whose doubt has a side: what may be a draft is kept
// back.
func (r *reading) doubtfulFlag(v *Flag, s scalar, f *field) {
	if f.doubt {
		*v = Flag{True: true, Where: s.Where}
	}
}

func (*Whole) shape() leafShape { return leafShape{name: "whole number"} }

// take reads decimal digits and nothing else: YAML itself would take 042 for
// 34, and 0x2A, 1_000 and 1e3 for numbers.
func (w *Whole) take(r *reading, s scalar, f *field) {
	n, err := strconv.Atoi(s.text)
	digits := strings.Trim(s.text, "0123456789") == ""
	switch {
	case err != nil || !digits || len(s.text) > 9:
		r.wrong(s.node, idNotANumber, s.Key, quote(s.text)+": expected a whole number such as 14",
			writeIfMeant(wholeIn(s.text)))
	case n < f.least:
		r.wrong(s.node, idNotANumber, s.Key, fmt.Sprintf("%d: expected a whole number from %d upward", n, f.least), "")
	default:
		*w = Whole{N: n, Where: s.Where}
	}
}

// wholeIn is the whole number that a text was likely to mean: #14, 14th, 14.0.
func wholeIn(text string) string {
	trimmed := strings.TrimPrefix(strings.TrimPrefix(text, "#"), "+")
	digits := trimmed[:len(trimmed)-len(strings.TrimLeft(trimmed, "0123456789"))]
	rest := trimmed[len(digits):]
	if digits == "" || len(digits) > 9 ||
		!(rest == "" || strings.Trim(rest, ".0") == "" || len(rest) == 2 && strings.Contains("st nd rd th", rest)) {
		return ""
	}
	return digits
}

package quantity

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"github.com/agnivade/levenshtein"
)

// scanner reads one text from left to right.
type scanner struct {
	text string
	at   int
	kind *Kind
}

// number reads a decimal number with a point, an optional sign and exponent.
func (s *scanner) number() (float64, error) {
	s.space()
	start, rest := s.at, s.text[s.at:]
	if value, length := s.kind.fraction(rest); length > 0 {
		s.at += length
		return value, nil
	}
	digits := numberLength(rest)
	if digits == 0 {
		return 0, &ParseError{Offset: start, Found: found(rest), Expected: s.wanted()}
	}
	s.at += digits
	written := strings.Replace(rest[:digits], "−", "-", 1)
	if err := s.refuseComma(start); err != nil {
		return 0, err
	}
	value, err := strconv.ParseFloat(written, 64)
	if err != nil || math.IsInf(value, 0) {
		return 0, &ParseError{Offset: start, Found: strconv.Quote(written), Expected: "a number of ordinary size"}
	}
	return value, nil
}

// refuseComma reports 4,2 with its fix. Three digits after it are another
// matter: some brewers' comma is a decimal point and others' parts thousands, so
// of 1,000 g neither meaning is guessed. No gravity has thousands.
func (s *scanner) refuseComma(start int) error {
	rest := s.text[s.at:]
	if len(rest) < 2 || rest[0] != ',' || rest[1] < '0' || rest[1] > '9' {
		return nil
	}
	before, more := s.text[start:s.at], numberLength(rest[1:])
	e := &ParseError{Offset: start, Found: fmt.Sprintf("a comma in %q", s.text[start:s.at+1+more]),
		Expected: "a decimal point"}
	if s.kind != gravities && digitsLength(rest[1:]) == 3 && strings.Trim(before, "0") != "" {
		plain := strings.ReplaceAll(s.text[start:s.at+1+more], ",", "")
		e.Expected = fmt.Sprintf("%s or %s.%s, whichever is meant", plain, before, rest[1:1+more])
		return e
	}
	e.Fix = strings.TrimSpace(s.text[:s.at] + "." + rest[1:])
	return e
}

// numberLength is the length of the number at the start of text, 0 for none.
func numberLength(text string) int {
	n := 0
	for _, sign := range []string{"-", "−", "+"} {
		if strings.HasPrefix(text, sign) {
			n = len(sign)
		}
	}
	whole := digitsLength(text[n:])
	n += whole
	if n < len(text) && text[n] == '.' {
		part := digitsLength(text[n+1:])
		if whole+part == 0 {
			return 0
		}
		n += 1 + part
	} else if whole == 0 {
		return 0
	}
	return n + exponentLength(text[n:])
}

func digitsLength(text string) int {
	n := 0
	for n < len(text) && text[n] >= '0' && text[n] <= '9' {
		n++
	}
	return n
}

// exponentLength is the length of "e9", "E-3" at the start of text.
func exponentLength(text string) int {
	if len(text) < 2 || (text[0] != 'e' && text[0] != 'E') {
		return 0
	}
	n := 1
	if text[n] == '-' || text[n] == '+' {
		n++
	}
	digits := digitsLength(text[n:])
	if digits == 0 {
		return 0
	}
	return n + digits
}

// unit reads the unit word at the scanner's place, nil where none stands.
func (s *scanner) unit() (*Unit, error) {
	s.space()
	start := s.at
	word := s.word()
	if word == "" {
		return nil, nil
	}
	if u := s.kind.find(word); u != nil {
		return u, nil
	}
	return nil, s.unknownUnit(word, start)
}

// noUnit reports a number that needed a unit. Where the kind has but one, that
// is put in; between grams and kilograms nobody can choose here, who does not
// know of what it is the weight.
func (s *scanner) noUnit() error {
	typed := strings.TrimSpace(s.text)
	e := &ParseError{Unit: true, NoUnit: true, Found: "no unit after " + strconv.Quote(typed),
		Expected: s.unitsWanted()}
	if len(s.kind.Units) == 1 {
		e.Fix = typed + " " + s.kind.Units[0].Symbol
	}
	return e
}

// word takes the run of characters that can be a unit. "fl oz" is one word, so
// that it can be refused as such, and so is a unit of the kind that has two.
func (s *scanner) word() string {
	rest := s.text[s.at:]
	for _, two := range append(s.kind.twoWords(), "fl oz") {
		if len(rest) >= len(two) && strings.EqualFold(rest[:len(two)], two) {
			s.at += len(two)
			return rest[:len(two)]
		}
	}
	n := 0
	for n < len(rest) {
		r, size := utf8.DecodeRuneInString(rest[n:])
		if !isUnitRune(r) || unicode.IsDigit(r) && n == 0 {
			break
		}
		n += size
	}
	s.at += n
	return rest[:n]
}

// twoWords is the kind's spellings of two words.
func (k *Kind) twoWords() []string {
	var two []string
	for i := range k.Units {
		for _, spelling := range k.Units[i].Also {
			if strings.Contains(spelling, " ") {
				two = append(two, spelling)
			}
		}
	}
	return two
}

func isUnitRune(r rune) bool {
	return unicode.IsLetter(r) || unicode.IsDigit(r) || strings.ContainsRune("°%/-³€£$", r)
}

// find looks a unit up, first as spelt, then without case.
func (k *Kind) find(word string) *Unit {
	for _, same := range []func(a, b string) bool{equal, strings.EqualFold} {
		for i := range k.Units {
			if u := &k.Units[i]; u.Symbol != "" && u.spelt(word, same) {
				return u
			}
		}
	}
	return nil
}

func equal(a, b string) bool { return a == b }

func (u *Unit) spelt(word string, same func(a, b string) bool) bool {
	return same(u.Symbol, word) || slices.ContainsFunc(u.Also, func(also string) bool { return same(also, word) })
}

// ambiguous units differ between the UK and the US.
var ambiguous = map[string][2]string{
	"gal": {"gal-uk", "gal-us"}, "gallon": {"gal-uk", "gal-us"}, "gallons": {"gal-uk", "gal-us"},
	"pt": {"pt-uk", "pt-us"}, "pint": {"pt-uk", "pt-us"}, "pints": {"pt-uk", "pt-us"},
	"qt": {"qt-uk", "qt-us"}, "quart": {"qt-uk", "qt-us"}, "quarts": {"qt-uk", "qt-us"},
	"fl oz": {"fl-oz-uk", "fl-oz-us"}, "floz": {"fl-oz-uk", "fl-oz-us"}, "fl-oz": {"fl-oz-uk", "fl-oz-us"},
}

func (s *scanner) unknownUnit(word string, at int) error {
	if both, ok := ambiguous[strings.ToLower(word)]; ok && s.kind == volumes {
		return &ParseError{Offset: at, Unit: true,
			Found:    fmt.Sprintf("%q, which differs between the UK and the US", word),
			Expected: both[0] + " or " + both[1]}
	}
	e := &ParseError{Offset: at, Unit: true, Found: fmt.Sprintf("%q is no unit of %s", word, s.kind.Name),
		Expected: s.unitsWanted()}
	if near := s.kind.nearest(word); near != "" {
		e.Fix = strings.TrimSpace(s.text[:at]) + " " + near
	}
	return e
}

// nearest is the unit symbol closest to the word and of its first letter, ""
// where none is: from kg to mg is one letter, and a million.
func (k *Kind) nearest(word string) string {
	best, distance := "", max(1, len(word)/3)+1
	for _, u := range k.Units {
		for _, spelling := range append([]string{u.Symbol}, u.Also...) {
			if spelling == "" || !strings.EqualFold(spelling[:1], word[:1]) {
				continue
			}
			d := levenshtein.ComputeDistance(strings.ToLower(spelling), strings.ToLower(word))
			if d < distance && d < utf8.RuneCountInString(spelling) {
				best, distance = spelling, d
			}
		}
	}
	return best
}

// plusMinus takes ± or +/-.
func (s *scanner) plusMinus() bool {
	s.space()
	for _, sign := range []string{"±", "+/-", "+-"} {
		if strings.HasPrefix(s.text[s.at:], sign) {
			s.at += len(sign)
			return true
		}
	}
	return false
}

// startsNumber tells whether another part of a compound quantity follows.
func (s *scanner) startsNumber() bool {
	s.space()
	return digitsLength(s.text[s.at:]) > 0
}

// end reports whatever is left over.
func (s *scanner) end() error {
	s.space()
	if s.at == len(s.text) {
		return nil
	}
	return &ParseError{Offset: s.at, Found: found(s.text[s.at:]) + " left over", Expected: s.wanted()}
}

func (s *scanner) space() {
	for s.at < len(s.text) {
		r, size := utf8.DecodeRuneInString(s.text[s.at:])
		if !unicode.IsSpace(r) {
			return
		}
		s.at += size
	}
}

func (s *scanner) wanted() string {
	article := "a "
	if strings.ContainsRune("aeiou", rune(s.kind.Name[0])) {
		article = "an "
	}
	return article + s.kind.Name + " such as " + s.kind.Example
}

func (s *scanner) unitsWanted() string {
	if len(s.kind.Units) == 1 && s.kind.Units[0].Symbol == "" {
		return s.wanted() // nothing but the number
	}
	names := make([]string, len(s.kind.Units))
	for i, u := range s.kind.Units {
		names[i] = u.Symbol
	}
	if len(names) == 1 {
		return names[0]
	}
	return "one of " + strings.Join(names, ", ")
}

// found quotes what stands in the text, shortened.
func found(text string) string {
	text = strings.TrimSpace(text)
	if text == "" {
		return "nothing"
	}
	if runes := []rune(text); len(runes) > 24 {
		text = string(runes[:24]) + "…"
	}
	return strconv.Quote(text)
}

package quantity

import (
	"iter"
	"math"
	"strconv"
	"strings"
	"unicode/utf8"
)

// Text is a sentence in which each quantity that is to follow the Spelling stands
// in braces, as it reads in metric units:
//
//	Bring it to {20 or 21 °C}, {1 to 2 K} warmer, and stir in {L|a litre|a quart}.
//
// Numbers and a unit: every number in the braces is converted, and rounded to what
// advice needs: whole degrees, else two digits. K is a difference of temperature,
// printed °C or °F. The second form has words for both, and begins with the unit
// that decides between them. A sentence that follows a metric Spelling reads as it
// is written, without the braces. What is in braces and is neither form stays as
// it is.
func (s Spelling) Text(text string) string {
	if !strings.Contains(text, "{") {
		return text
	}
	var b strings.Builder
	for {
		before, rest, found := strings.Cut(text, "{")
		b.WriteString(before)
		inside, after, closed := strings.Cut(rest, "}")
		switch {
		case !found:
			return b.String()
		case !closed:
			b.WriteString("{" + rest)
			return b.String()
		}
		b.WriteString(s.marked(inside))
		text = after
	}
}

// marked is what stood in one pair of braces.
func (s Spelling) marked(inside string) string {
	if parts := strings.Split(inside, "|"); len(parts) == 3 {
		if s.Into(parts[0]).Converts() {
			return parts[2]
		}
		return parts[1]
	}
	numbers, unit, ok := cutUnit(inside)
	if !ok {
		return "{" + inside + "}"
	}
	c := s.of(largest(numbers), unit)
	switch {
	case !c.Converts() && unit == "K":
		return numbers + " " + c.Unit
	case !c.Converts():
		return inside
	}
	var b strings.Builder
	for word := range words(numbers) {
		if x, ok := numeral(word); ok {
			word = advised(c, x)
		}
		b.WriteString(word)
	}
	return b.String() + " " + c.Unit
}

// words are the words of a range such as 18–20 or 1 to 2, with what stands between
// them.
func words(numbers string) iter.Seq[string] {
	return func(yield func(string) bool) {
		for len(numbers) > 0 {
			end := strings.IndexAny(numbers, " –")
			switch {
			case end < 0:
				end = len(numbers)
			case end == 0:
				_, end = utf8.DecodeRuneInString(numbers)
			}
			if !yield(numbers[:end]) {
				return
			}
			numbers = numbers[end:]
		}
	}
}

// cutUnit cuts the unit off the numbers before it.
func cutUnit(inside string) (numbers, unit string, ok bool) {
	i := strings.LastIndexByte(inside, ' ')
	if i < 0 {
		return "", "", false
	}
	numbers, unit = inside[:i], inside[i+1:]
	return numbers, unit, largest(numbers) > math.Inf(-1)
}

// largest is the largest number of a range: small volumes have a unit of their own,
// and the numbers of one range have one unit.
func largest(numbers string) float64 {
	most := math.Inf(-1)
	for word := range words(numbers) {
		if x, ok := numeral(word); ok {
			most = max(most, x)
		}
	}
	return most
}

// numeral is the number that a word is, with a minus as it is printed.
func numeral(word string) (x float64, ok bool) {
	x, err := strconv.ParseFloat(strings.Replace(word, "−", "-", 1), 64)
	return x, err == nil
}

// advised is a number of a sentence converted.
func advised(c Conversion, x float64) string {
	converted := c.Of(x)
	if c.Unit == "°F" && math.Abs(converted) >= 1 {
		return Fixed(converted, 0)
	}
	return Plain(Digits(converted, 2))
}

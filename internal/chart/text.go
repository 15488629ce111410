package chart

import (
	"strings"
	"unicode"
)

// The fonts that a reader has are not known, so widths are bounds: those of
// DejaVu Sans, the widest of the usual sans-serifs, in thousandths of the
// text's size. Bold text of weight 600 is up to a tenth wider.
const (
	stacked = 200  // marks that stand on the letter before them: no width, but a label of many must end somewhere
	narrow  = 420  // i j l t f and most punctuation
	common  = 650  // the other small letters and the digits
	wide    = 800  // capitals
	widest  = 1050 // m w M W, and any script not Latin, Greek or Cyrillic
	bold    = 1.1
)

// breadth is a bound on the width of words set in 12 units.
func breadth(s string) float64 {
	sum := 0
	for _, r := range s {
		sum += advance(r)
	}
	return float64(sum) * textSize / 1000
}

// breadthStrong is the same for words that stand out.
func breadthStrong(s string) float64 { return bold * breadth(s) }

func advance(r rune) int {
	switch {
	case unicode.Is(unicode.Mn, r):
		return stacked
	case strings.ContainsRune(" .,:;'|!()[]-iIjltfr", r):
		return narrow
	case strings.ContainsRune("mwMW%@…+±−=<>~÷×—", r), r > 0x052f:
		return widest
	case unicode.IsUpper(r), r == '&':
		return wide
	}
	return common
}

// oneLine makes words fit to stand in XML and on one line: blanks are run
// together, and bytes and characters that XML does not allow are replaced.
func oneLine(s string) string {
	allowed := func(r rune) rune {
		switch {
		case unicode.IsSpace(r):
			return ' '
		case r < 0x20, r >= 0x7f && r < 0xa0, r == 0xfffe, r == 0xffff:
			return unicode.ReplacementChar
		case isDirection(r):
			return -1
		}
		return r
	}
	return strings.Join(strings.Fields(strings.Map(allowed, s)), " ")
}

// isDirection tells the invisible marks that turn the direction of the text
// after them: inside one label they would reach into its neighbours.
func isDirection(r rune) bool {
	return r == 0x200e || r == 0x200f || r >= 0x202a && r <= 0x202e || r >= 0x2066 && r <= 0x2069
}

// shorten cuts words to a width in units, ending them with an ellipsis.
// Where not even that fits, nothing is left.
func shorten(s string, room float64) string { return cut(oneLine(s), room, 1) }

// shortenStrong is the same for words that stand out.
func shortenStrong(s string, room float64) string { return cut(oneLine(s), room, bold) }

func cut(s string, room, weight float64) string {
	if weight*breadth(s) <= room {
		return s
	}
	room -= weight * breadth("…")
	used := 0.0
	for i, r := range s {
		used += weight * float64(advance(r)) * textSize / 1000
		if used <= room {
			continue
		}
		if kept := strings.TrimRight(s[:i], " ,;:-"); kept != "" {
			return kept + "…"
		}
		break
	}
	return ""
}

// clip cuts a description to about so many characters.
func clip(s string, most int) string {
	count := 0
	for i := range s {
		if count == most {
			return s[:i] + "…"
		}
		count++
	}
	return s
}

// listed joins words as a sentence does: "a, b and c".
func listed(parts []string) string {
	if len(parts) < 2 {
		return strings.Join(parts, "")
	}
	last := len(parts) - 1
	return strings.Join(parts[:last], ", ") + " and " + parts[last]
}

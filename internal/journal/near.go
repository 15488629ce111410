package journal

import (
	"strings"
	"unicode/utf8"

	"github.com/agnivade/levenshtein"
)

// longestWord bounds the words that are compared, since the comparison takes
// the product of two lengths.
const longestWord = 40

// nearest is the candidate that looks most like word, "" where none does: off
// by about a third of its letters at most, or the beginning of it.
func nearest(word string, candidates []string) string {
	word = strings.ToLower(strings.TrimSpace(word))
	if word == "" || len(word) > longestWord {
		return ""
	}
	best, least := "", max(1, utf8.RuneCountInString(word)/3)+1
	for _, candidate := range candidates {
		if d := distance(word, strings.ToLower(candidate)); d < least {
			best, least = candidate, d
		}
	}
	return best
}

// swapped tells whether two neighbouring letters of a have changed places in b.
func swapped(a, b string) bool {
	if len(a) != len(b) {
		return false
	}
	i := 0
	for i < len(a) && a[i] == b[i] {
		i++
	}
	return i+1 < len(a) && a[i] == b[i+1] && a[i+1] == b[i] && a[i+2:] == b[i+2:]
}

// distance is the number of letters to change, one where either word begins
// with the other or two letters have changed places.
func distance(a, b string) int {
	if a == b {
		return 0
	}
	if shorter := min(len(a), len(b)); shorter >= 3 && a[:shorter] == b[:shorter] {
		return 1
	}
	if swapped(a, b) {
		return 1
	}
	d := levenshtein.ComputeDistance(a, b)
	if d >= utf8.RuneCountInString(b) {
		return longestWord // nothing of it is left
	}
	return d
}

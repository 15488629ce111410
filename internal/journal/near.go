package journal

import (
	"strings"
	"unicode/utf8"
)

// longestWord bounds the words that are compared, since the comparison takes
// the product of two lengths.
const longestWord = 40

// nearest is the candidate that looks most like word, "" where none does: off
// by so many letters at most as slip in a word of its length, or the beginning
// of it.
func nearest(word string, candidates []string) string {
	best, _ := nearestOf(word, candidates, false)
	return best
}

// nearestOf is nearest with how far off it is. Where whole is wanted, that a
// word is the beginning of another tells little: batch_size is no batch.
func nearestOf(word string, candidates []string, whole bool) (best string, off int) {
	word = strings.ToLower(strings.TrimSpace(word))
	if word == "" || len(word) > longestWord {
		return "", 0
	}
	least := slipsIn(word) + 1
	for _, candidate := range candidates {
		if d := distance(word, strings.ToLower(candidate), whole, least); d < least {
			best, least = candidate, d
		}
	}
	return best, least
}

// slipsIn is how many slips of the keyboard are likely in a word: one in hops,
// none in og, which is one letter from fg.
func slipsIn(word string) int {
	switch n := utf8.RuneCountInString(word); {
	case n < 3:
		return 0
	case n < 7:
		return 1
	case n < 10:
		return 2
	}
	return 3
}

// longestEnding is how many letters a word may lack of another that begins with
// it, to be taken for it: pitch for pitched.
const longestEnding = 3

// distance is the number of slips that make b of a: a letter changed, left out,
// put in, or two neighbours in each other's place. It is one where either word
// begins with the other. From enough on it is not counted further.
func distance(a, b string, whole bool, enough int) int {
	if a == b {
		return 0
	}
	shorter, longer := len(a), len(b)
	if shorter > longer {
		shorter, longer = longer, shorter
	}
	switch {
	case longer > longestWord:
		return longestWord
	case shorter < 3 || a[:shorter] != b[:shorter]:
	case !whole, shorter > 3 && longer-shorter <= longestEnding:
		return 1
	}
	if off := utf8.RuneCountInString(a) - utf8.RuneCountInString(b); max(off, -off) >= enough {
		return longestWord // so many letters more, at the least
	}
	d := slips([]rune(a), []rune(b))
	if d >= utf8.RuneCountInString(b) {
		return longestWord // nothing of it is left
	}
	return d
}

// slips is the optimal string alignment distance (Damerau, Comm. ACM 7 (1964)
// 171): the least number of slips of those four kinds, no letter in two of them.
func slips(a, b []rune) int {
	before, last, row := make([]int, len(b)+1), make([]int, len(b)+1), make([]int, len(b)+1)
	for j := range last {
		last[j] = j
	}
	for i := 1; i <= len(a); i++ {
		row[0] = i
		for j := 1; j <= len(b); j++ {
			changed := last[j-1]
			if a[i-1] != b[j-1] {
				changed++
			}
			row[j] = min(changed, last[j]+1, row[j-1]+1)
			if i > 1 && j > 1 && a[i-1] == b[j-2] && a[i-2] == b[j-1] {
				row[j] = min(row[j], before[j-2]+1)
			}
		}
		before, last, row = last, row, before
	}
	return last[len(b)]
}

// Nearest is the candidate that looks most like word, off by so many slips at
// most as are likely in a word of its length, or the beginning of it; "" where
// none does.
func Nearest(word string, candidates []string) string { return nearest(word, candidates) }

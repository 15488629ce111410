package assay

import (
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"
)

// HasWord tells whether a text has one of the words, or a word that begins with
// it where it ends in a star.
func HasWord(text string, words ...string) bool {
	for _, in := range wordsOf(text) {
		for _, w := range words {
			stem, starred := strings.CutSuffix(w, "*")
			if in == w || starred && strings.HasPrefix(in, stem) {
				return true
			}
		}
	}
	return false
}

// wordsOf are the words of a text, in lower case.
func wordsOf(text string) []string {
	return strings.FieldsFunc(strings.ToLower(text), func(r rune) bool {
		return (r < 'a' || r > 'z') && (r < '0' || r > '9') && r < 128
	})
}

// thingWords are the words that name a thing, without the small ones between.
func thingWords(text string) []string {
	return slices.DeleteFunc(wordsOf(text), func(w string) bool {
		return len(w) < 3 || slices.Contains([]string{"and", "the", "its", "with", "for"}, w)
	})
}

// Capital is a name at the head of a sentence.
func Capital(name string) string {
	if name == "" {
		return ""
	}
	first, size := utf8.DecodeRuneInString(name)
	return string(unicode.ToUpper(first)) + name[size:]
}

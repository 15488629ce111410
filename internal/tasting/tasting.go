// Package tasting knows the words that tasters use of beer: which of them mean
// the same, how they are often misspelt, and which causes may lie behind each.
//
// The words stand in words.yaml. A word is found by its own name, by another
// word for the same thing or by a listed slip, without regard to case, hyphens,
// and words of degree before it: "a bit Watery" is thin. Nothing else is guessed
// at: "not sweet" is not sweet, and a word that is not listed stays as typed,
// with the nearest known word to ask about.
//
// Causes are named here and declared in package causes, which owns their tests.
package tasting

import (
	_ "embed"
	"fmt"
	"slices"
	"strings"
	"sync"
	"unicode"
	"unicode/utf8"

	"github.com/agnivade/levenshtein"
	"go.yaml.in/yaml/v4"
)

// Word is one thing that can be tasted, seen or smelt.
type Word struct {
	Word     string   `yaml:"word"`     // as pages say it
	About    string   `yaml:"about"`    // appearance, aroma, taste, body, finish or whole
	Also     []string `yaml:"also"`     // other words for it
	Misspelt []string `yaml:"misspelt"` // slips often made
	LeadsTo  []string `yaml:"leads_to"` // ids of the causes, the likeliest first; none for a description
	Ask      string   `yaml:"ask"`      // what tells the causes apart
}

// longest bounds, in characters, what is looked at: a word, not a story.
const longest = 60

//go:embed words.yaml
var source []byte

// book is the words as read, and each of them by every spelling.
type book struct {
	words     []Word
	bySpelt   map[string]int
	spellings []string // in order, those to suggest
}

// read is made at its first use, and never changed. A test holds the file to no
// error.
var read = sync.OnceValue(func() book {
	b, _ := parse(source)
	return b
})

// parse reads a file of words. Its error names the spelling that two words claim.
func parse(raw []byte) (book, error) {
	var b book
	if err := yaml.Load(raw, &b.words, yaml.WithKnownFields()); err != nil {
		return b, fmt.Errorf("reading the tasting words: %w", err)
	}
	b.bySpelt = make(map[string]int, 16*len(b.words))
	for i, w := range b.words {
		for _, spelt := range slices.Concat([]string{w.Word}, w.Also, w.Misspelt) {
			key := folded(spelt)
			if other, taken := b.bySpelt[key]; taken {
				return b, fmt.Errorf("reading the tasting words: %q is both %s and %s", spelt, b.words[other].Word, w.Word)
			}
			b.bySpelt[key] = i
		}
		for _, spelt := range slices.Concat([]string{w.Word}, w.Also) {
			b.spellings = append(b.spellings, folded(spelt))
		}
	}
	return b, nil
}

// Words lists all known words, in the order of the file. The list is the
// caller's own; what hangs from its words is shared and not to be changed.
func Words() []Word { return slices.Clone(read().words) }

// Known is the word that was meant by what a taster typed; ok is false where
// none is known.
func Known(typed string) (w Word, ok bool) {
	b := read()
	for key := folded(typed); key != ""; {
		if i, found := b.bySpelt[key]; found {
			return b.words[i], true
		}
		less := withoutDegree(key)
		if less == key {
			break
		}
		key = less
	}
	return Word{}, false
}

// Plain is what a taster typed, in lower case and with single spaces: how a word
// that is not known is kept and compared.
func Plain(typed string) string {
	return strings.ToLower(strings.Join(strings.Fields(typed), " "))
}

// folded is a spelling without case, hyphens, points and doubled spaces, "" for
// one that is too long to be a word.
func folded(typed string) string {
	if utf8.RuneCountInString(typed) > longest {
		return ""
	}
	return strings.Join(strings.FieldsFunc(strings.ToLower(typed), func(r rune) bool {
		return !unicode.IsLetter(r) && !unicode.IsDigit(r) && !unicode.IsMark(r) && r != '\'' && r != '’'
	}), " ")
}

// degrees are the words before a word that say how much of it there is.
var degrees = []string{
	"a bit", "a bit of", "a little", "a touch", "a touch of", "a hint of", "hint of", "hints of", "touch of", "a lot of",
	"very", "too", "rather", "quite", "slightly", "somewhat", "fairly", "faintly", "mildly", "overly", "really", "some", "distinctly", "just",
}

// withoutDegree is a folded spelling less its first word of degree.
func withoutDegree(key string) string {
	for _, d := range degrees {
		if rest, ok := strings.CutPrefix(key, d+" "); ok {
			return rest
		}
	}
	return key
}

// denials turn a word into its opposite: what follows them is no slip of the pen.
var denials = []string{"not ", "no ", "never ", "without ", "non "}

// Nearest is the known spelling that looks most like what was typed, and the
// word it stands for; "" where nothing is near. Near is the same first letter, and
// one slip in a short word or two in a long one; letters that changed places are
// one slip. So dusty is no slip of musty, nor strange of strong.
func Nearest(typed string) (spelt, word string) {
	b := read()
	key := folded(typed)
	for less := withoutDegree(key); less != key; less = withoutDegree(key) {
		key = less
	}
	letters := utf8.RuneCountInString(key)
	if letters < 4 || denied(key) {
		return "", ""
	}
	least := 2
	if letters >= longWord {
		least = 3
	}
	for _, candidate := range b.spellings {
		if denied(candidate) || candidate[0] != key[0] {
			continue
		}
		if d := slips(key, candidate); d < least {
			spelt, least = candidate, d
		}
	}
	if spelt == "" {
		return "", ""
	}
	return spelt, b.words[b.bySpelt[spelt]].Word
}

// longWord is from how many letters on a word may have two slips in it.
const longWord = 8

// slips is how many letters were changed, left out or put in, two neighbours that
// changed places counting once.
func slips(a, b string) int {
	x, y := []rune(a), []rune(b)
	if len(x) == len(y) {
		i := 0
		for i < len(x) && x[i] == y[i] {
			i++
		}
		if i+1 < len(x) && x[i] == y[i+1] && x[i+1] == y[i] && slices.Equal(x[i+2:], y[i+2:]) {
			return 1
		}
	}
	return levenshtein.ComputeDistance(a, b)
}

func denied(key string) bool {
	return slices.ContainsFunc(denials, func(d string) bool { return strings.HasPrefix(key, d) })
}

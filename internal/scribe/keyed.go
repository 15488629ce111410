package scribe

import (
	"fmt"
	"gylebook/internal/journal"
	"regexp"
	"slices"
	"strings"
)

// keyed takes the value of a key that was named.
func (l *listener) keyed(key string, used int) error {
	word := l.known[key]
	l.tokens = l.tokens[used:]
	if len(l.tokens) == 0 {
		return fmt.Errorf("%s: say what it is, such as %s %s", key, key, word.Example)
	}
	if slices.Contains([]string{"note", "text"}, key) {
		text := plainJoin(l.tokens)
		if len(l.tokens) == 1 || !l.tokens[0].quoted {
			l.tokens = nil
			return l.take(Value{Key: key, Text: text})
		}
	}
	n := l.valueLength(word)
	text := plainJoin(l.tokens[:n])
	l.tokens = l.tokens[n:]
	if word.Type == "quantity" && len(word.Units) > 0 && numberOnly.MatchString(text) && !readable(text, word) {
		return fmt.Errorf("%s %s has no unit: say which, as %s %s %s", key, text, key, text, word.Units[0])
	}
	if strings.HasPrefix(word.Type, "list of ") {
		return l.take(Value{Key: key, Many: parted(text)})
	}
	return l.take(Value{Key: key, Text: text})
}

var numberOnly = regexp.MustCompile(`^[0-9.]+$`)

// readable tells whether a quantity's own kind reads the text.
func readable(text string, word journal.Word) bool {
	for _, r := range readers {
		if r.kind.Canonical().Symbol == word.Units[0] {
			if _, _, err := r.read(text); err == nil {
				return true
			}
		}
	}
	return false
}

// valueLength is how many of the next words are the value of a key.
func (l *listener) valueLength(word journal.Word) int {
	switch {
	case word.Type == "quantity":
		return max(1, quantityRun(l.tokens))
	case word.Type == "name" && word.Card != "" && word.Card != string(journal.CardTaster):
		return nameLength(l.tokens, journal.CardKind(word.Card))
	case word.Type == "choice":
		return choiceLength(l.tokens, word.Choices)
	case word.Type == "moment" && len(l.tokens) > 1 && strings.Contains(l.tokens[1].text, ":"):
		return 2
	}
	return 1
}

// nameLength is how many words are the name of a card that is known.
func nameLength(tokens []token, kind journal.CardKind) int {
	for n := min(4, len(tokens)); n > 1; n-- {
		if said := joined(tokens[:n]); said != "" && journal.NewLarder(nil).Card(kind, said) != nil {
			return n
		}
	}
	return 1
}

// choiceLength is how many words name one of several.
func choiceLength(tokens []token, choices []string) int {
	for n := min(3, len(tokens)); n > 1; n-- {
		if slices.Contains(choices, joined(tokens[:n])) {
			return n
		}
	}
	return 1
}

// plainJoin is words as they were typed, with a blank between them.
func plainJoin(tokens []token) string {
	var all []string
	for _, t := range tokens {
		all = append(all, t.text)
	}
	return strings.Join(all, " ")
}

// parted is a list of words at its commas.
func parted(text string) []string {
	var all []string
	for part := range strings.SplitSeq(text, ",") {
		if part = strings.TrimSpace(part); part != "" {
			all = append(all, part)
		}
	}
	return all
}

package journal

import (
	"slices"
	"strings"
)

// mixedCulture is the built-in card of several cultures together.
const mixedCulture = "mixed culture"

// cultures are the built-in yeasts and bacteria that are known by one word among
// others, with those words, or their beginnings before a *. What goes on in a
// bottle must not be overlooked for its maker's name or number: "house brett 3",
// "B. bruxellensis, a Brettanomyces", "dregs of three lambics".
var cultures = []struct{ card, words string }{
	{mixedCulture, "mixed|dregs|lambic*|sour*"},
	{"wild yeast", "wild|spontaneous*|foraged"},
	{"brettanomyces", "brett|bretts|brettano*|dekkera"},
	{"diastatic yeast", "diastat*"},
	{"pediococcus", "pedio*"},
	{"lactobacillus", "lacto|lactobac*|lactiplanti*|levilacto*"},
	{"saison yeast", "saison*"},
	{"kveik", "kveik*"},
}

// cultureOf is a culture named by a word that tells what it is, with others
// beside it; nil for any other name. Of two that are named, the mixed culture
// answers, which goes as low as either. Each call makes a new card.
func cultureOf(name string) *Card {
	words := strings.Fields(spaced(name))
	called := ""
	for _, c := range cultures {
		switch {
		case !slices.ContainsFunc(words, func(word string) bool { return tellsOf(c.words, word) }):
		case called == "":
			called = c.card
		default:
			called = mixedCulture
		}
	}
	if called == "" {
		return nil
	}
	card := *builtIn().named[nameOf(CardYeast, called)]
	card.Name.Text, card.Also = strings.Join(strings.Fields(name), " "), nil
	return &card
}

// tellsOf tells whether a word is one of some, or begins as one with a * does.
func tellsOf(patterns, word string) bool {
	return slices.ContainsFunc(strings.Split(patterns, "|"), func(pattern string) bool {
		start, open := strings.CutSuffix(pattern, "*")
		return word == start || open && strings.HasPrefix(word, start)
	})
}

package rules

import (
	"fmt"

	"gylebook/internal/notice"
	"gylebook/internal/tasting"
)

// tastingRules are about the words of tastings.
func tastingRules() []Rule {
	return []Rule{
		{
			ID: "tasting-word-nearly", Watches: always, Worst: notice.Note, Source: "gylebook's own list of tasting words",
			When:    "a word found at a tasting is not known, and a letter or two off one that is",
			Example: Example{In: "pouring", Raises: []string{"tastings[0].found[+]=cardbaord"}, Spares: []string{"tastings[0].found[+]=wibbly"}, On: "2026-03-28"},
			look:    tastingWords,
		},
	}
}

// tastingWords names the nearest known word for each that is none. A word that is
// near to nothing is the taster's own, and left in peace.
func tastingWords(c *inspection) []Found {
	var found []Found
	for _, t := range c.Gyle.Tastings {
		for _, f := range t.Found {
			if _, known := tasting.Known(f.Text); known {
				continue
			}
			spelt, word := tasting.Nearest(f.Text)
			if spelt == "" {
				continue
			}
			meant := "“" + spelt + "”"
			if spelt != word {
				meant += " (which counts as " + word + ")"
			}
			found = append(found, Found{
				Severity: notice.Note, Where: f.Where,
				Says: fmt.Sprintf("“%s” is not among the known tasting words; the nearest is %s.", tasting.Plain(f.Text), meant),
				Why:  "A word that is not known stays as it is, but leads to no cause.",
				Do:   "If that was meant, write it so; if not, leave it.",
			})
		}
	}
	return found
}

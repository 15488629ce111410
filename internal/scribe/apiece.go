package scribe

import (
	"errors"
	"fmt"
	"slices"
	"strings"
)

// each hears of 3 g a bottle that it is not the weight in all.
func each(tokens []token) ([]token, error) {
	said := " " + strings.ToLower(plainJoin(tokens)) + " "
	for _, rate := range []string{"/l ", "/litre", "/liter", "/gal", "per l", "per gal", "a litre", "a " +
		"liter", "a gallon"} {
		if strings.Contains(said, rate) {
			return nil, errors.New("that is so much to the volume: say the weight in all, as primed 90 g sucrose, " +
				"or that in each container, as primed each 3 g sucrose")
		}
	}
	var rest []token
	apiece := false
	for i := 0; i < len(tokens); i++ {
		word := strings.ToLower(tokens[i].text)
		next := ""
		if i+1 < len(tokens) {
			next = strings.ToLower(tokens[i+1].text)
		}
		one := container(token{text: next})
		before := i > 0 && beginsNumber(next) && word == "each"
		switch {
		case before: // as the key is written
			rest = append(rest, tokens[i])
		case word == "each" || word == "apiece" || strings.HasPrefix(word, "/"):
			apiece = true
			if one {
				i++
			}
		case one && slices.Contains([]string{"a", "per", "every", "in", "the"}, word):
			apiece = true
			i++
		case slices.Contains([]string{"in", "per"}, word) && next == "each":
			apiece = true
		case container(tokens[i]):
			if apiece {
				continue
			}
			return nil, fmt.Errorf("%q: say whether the weight is for each, as primed each 3 g, or in all", word)
		default:
			if unit, _, found := strings.Cut(word, "/"); found && i > 0 {
				apiece = true
				tokens[i].text = unit
			}
			rest = append(rest, tokens[i])
		}
	}
	if !apiece {
		return rest, nil
	}
	for i, t := range rest {
		if run := quantityRun(rest[i:]); run > 0 && beginsNumber(t.text) && hasUnit(plainJoin(rest[i:i+run])) {
			return slices.Insert(rest, i, token{text: "each"}), nil
		}
	}
	return nil, errors.New("say how much in each, as primed each 3 g sucrose")
}

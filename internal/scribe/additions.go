package scribe

import (
	"errors"
	"fmt"
	"gylebook/internal/journal"
	"slices"
	"strings"
)

// added says what kind of thing went in, by the cards that are known.
func (e ear) added(rest []token) ([]token, error) {
	known := placeCalled("added").keys()
	var name []string
	for i := 0; i < len(rest); i++ {
		if key, _, is := keyAt(rest[i:], known); is && (len(name) == 0 || key != "juice") {
			if len(name) == 0 && i+1 < len(rest) {
				return append([]token{{text: "added"}}, rest...), nil
			}
			break
		}
		if run := quantityRun(rest[i:]); run > 0 {
			i += run - 1
			continue
		}
		name = append(name, rest[i].text)
	}
	thing := strings.Join(name, " ")
	amounts := slices.DeleteFunc(slices.Clone(rest), func(t token) bool { return slices.Contains(name, t.text) })
	as := func(place, key string) []token {
		out := tokensOf(strings.Fields(place))
		if key != "" {
			out = append(out, token{text: key})
		}
		return append(append(out, token{text: thing, quoted: true}), amounts...)
	}
	larder := journal.NewLarder(nil)
	lower := strings.ToLower(thing)
	switch {
	case thing == "":
		return nil, errors.New("added: say what, such as added fruit damson 2 kg")
	case strings.HasSuffix(lower, "juice"):
		return as("added", "juice"), nil
	case strings.HasSuffix(lower, "water") || strings.HasSuffix(lower, "liquor"):
		return as("added", "liquor"), nil
	case larder.Card(journal.CardFruit, thing) != nil || larder.Card(journal.CardFruit, singular(lower)) != nil:
		return as("added", "fruit"), nil
	case larder.Card(journal.CardFining, thing) != nil:
		return as("fined", ""), nil
	case larder.Card(journal.CardSugar, thing) != nil || strings.Contains(lower, "sugar") || strings.Contains(lower, "syrup"):
		if len(e.gyle.Yeast) == 0 || !e.gyle.Yeast[0].Pitched.Written() || e.gyle.Racked.On.Written() {
			return nil, fmt.Errorf("%s is a sugar: say where it went, as added sugar %q %s into fermenter, or "+
				"into copper",
				thing, thing, plainJoin(amounts))
		}
		return append(as("added sugar", ""), tokensOf([]string{"into", "fermenter"})...), nil
	case larder.Card(journal.CardHop, thing) != nil:
		return nil, fmt.Errorf("%s is a hop: into the beer it is dry-hopped %s %s", thing, thing, plainJoin(amounts))
	}
	return nil, fmt.Errorf("%q is not known: say what it is before it, as added fruit %s %s, or spice, juice, "+
		"wood, other",
		thing, thing, plainJoin(amounts))
}

// singular is a fruit by one of it.
func singular(word string) string {
	if stem, is := strings.CutSuffix(word, "ies"); is {
		return stem + "y"
	}
	return strings.TrimSuffix(word, "s")
}

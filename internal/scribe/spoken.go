package scribe

import (
	"errors"
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"time"

	"gylebook/internal/journal"
	q "gylebook/internal/quantity"
)

// ear makes of what people say the words that a jotting has. It changes how a
// thing is said, never a number, and what it cannot keep apart it refuses.
type ear struct {
	when     When
	gyle     *journal.Gyle
	spelling q.Spelling
}

// hear makes a jotting's words of what was said.
func (e ear) hear(tokens []token) ([]token, error) {
	first := strings.ToLower(strings.Trim(tokens[0].text, ":,"))
	if tokens[0].quoted || slices.Contains([]string{"next", "note"}, first) {
		return tokens, nil
	}
	if first == "spiled" || first == "spile" {
		return nil, errors.New("a soft spile lets gas out, and is vented; a hard one shuts the cask, and is a note")
	}
	if err := e.doubtful(tokens, first == "tasted" || first == "tasting"); err != nil {
		return nil, err
	}
	tokens = e.units(numbered(apart(tokens, first == "tasted" || first == "tasting")))
	if len(tokens) == 0 {
		return nil, errors.New("there is nothing to jot: say what was read or done, such as 1.022 19.5C")
	}
	if tokens = deedFirst(e.fermented(begun(tokens))); strings.EqualFold(tokens[0].text, "primed") {
		var err error
		if tokens, err = each(tokens); err != nil {
			return nil, err
		}
	}
	if slices.ContainsFunc(tokens, func(t token) bool { return isOne(t, elsewhere) }) && strings.EqualFold(tokens[0].text, "racked") {
		return nil, fmt.Errorf("racked is off the yeast for good: what goes on working elsewhere was moved, as "+
			"moved %q",
			"to "+tokens[len(tokens)-1].text)
	}
	if len(e.gyle.Packages) > 1 && first != "emptied" && len(tokens) == 1 && strings.EqualFold(tokens[0].text, "emptied") {
		return nil, fmt.Errorf("say which ran out, as emptied package 0: there are %d", len(e.gyle.Packages))
	}
	tokens = e.heat(tokens)
	if tokens = filled(tokens); len(tokens) == 0 {
		return nil, fmt.Errorf("%s: say what was read, such as 1.022 19.5C", first)
	}
	return e.deed(tokens)
}

// elsewhere are vessels that beer is moved to, to work on.
var elsewhere = strings.Fields("secondary carboy demijohn second tertiary fermenter bucket")

// spoons are amounts that nobody has weighed.
var spoons = strings.Fields("tsp tsps teaspoon teaspoons tbsp tbsps tablespoon tablespoons spoon spoons " +
	"spoonful tablet " +
	"tablets drop drops handful handfuls pinch cup cups packet packets pkt pkts sachet sachets pack packs " +
	"stick sticks")

// dated takes yesterday out of what was said, and is the moment that it means.
func (e ear) dated(tokens []token) ([]token, When) {
	said := func(t token) bool {
		return !t.quoted && strings.EqualFold(strings.TrimRight(t.text, ":,"), "yesterday")
	}
	first := strings.ToLower(strings.TrimRight(tokens[0].text, ":"))
	if len(tokens) < 2 || e.when.Chosen || slices.Contains([]string{"next", "note", "tasted", "tasting"}, first) ||
		!said(tokens[0]) && !said(tokens[len(tokens)-1]) {
		return tokens, e.when
	}
	day := e.dayBefore()
	return slices.DeleteFunc(slices.Clone(tokens), said), When{Text: day, Day: day, Chosen: true}
}

// doubtful refuses what was not done, not now, or not read for certain. What a
// taster said may have any words.
func (e ear) doubtful(tokens []token, tasted bool) error {
	for _, t := range tokens {
		word := strings.ToLower(strings.TrimRight(t.text, ",.;:!"))
		switch {
		case t.quoted || tasted:
		case word == "note" || word == "text":
			return nil
		case slices.Contains(notDone, word) || strings.HasSuffix(word, "n't") || strings.HasSuffix(word, "?"):
			return fmt.Errorf("%q tells of what has not been done, or may not have been: %s", t.text, keepIt(tokens))
		case slices.Contains(spoons, word):
			return fmt.Errorf("%q is no weight: weigh it, and say it in g or mL; %s", t.text, keepIt(tokens))
		case slices.Contains(roughly, word) || strings.HasPrefix(word, "~"):
			return fmt.Errorf("%q is no reading: say how far off it may be, as 20 L ± 1 L; "+
				"%s", t.text, keepIt(tokens))
		case slices.Contains(ago, word):
			return fmt.Errorf("%q: say when it was, as --when 16:10 or --when %q", t.text, e.dayBefore()+" 08:15")
		}
	}
	return nil
}

// keepIt is how to keep what was said as words.
func keepIt(tokens []token) string { return "to keep it as words, jot note " + plainJoin(tokens) }

var (
	unitAttached = regexp.MustCompile(`^([0-9][0-9.]*)([a-zA-Z]+)$`)
	endings      = ",;:!"
)

// apart takes marks off words, and words that are joined by = or @ apart.
func apart(tokens []token, tasted bool) []token {
	var all []token
	for _, t := range tokens {
		if t.quoted {
			all = append(all, t)
			continue
		}
		text := strings.TrimRight(t.text, ":=")
		if !tasted || beginsNumber(text) {
			text = strings.TrimRight(text, endings)
			if !beginsNumber(text) || !strings.Contains(text, "=") {
				text = strings.TrimRight(text, ".")
			}
			text = strings.NewReplacer("=", " ", "@", " ").Replace(text)
		}
		for _, part := range strings.Fields(text) {
			if part == "T" || part == "t" {
				part = "temp"
			}
			if len(all) > 0 || !slices.Contains(openings, strings.ToLower(part)) {
				all = append(all, token{text: part})
			}
		}
	}
	return all
}

// openings are words that a sentence may begin with before it says anything.
var openings = strings.Fields("i we it it's its is was has have been just today now then so ok the")

// begun puts the words of a place in front for what people say instead.
func begun(tokens []token) []token {
	if len(tokens) > 1 && container(tokens[0]) {
		if b := begun(tokens[1:]); strings.EqualFold(b[0].text, "emptied") { // keg kicked
			return slices.Insert(b, 1, tokens[0])
		}
	}
	for n := min(4, len(tokens)); n > 0; n-- {
		words := strings.ToLower(joined(tokens[:n]))
		for _, s := range saidFor {
			if words == "" || !slices.Contains(strings.Split(s.said, "|"), words) {
				continue
			}
			place := s.place
			if place == "boiled" && n == len(tokens) && words == "boil" {
				place = "boiling"
			}
			return append(tokensOf(strings.Fields(place)), tokens[n:]...)
		}
		if _, used, err := placeOf(tokens); err == nil && used == n && used > 0 {
			return tokens
		}
	}
	return tokens
}

// deedFirst puts what was done in front, where it is said after what was read:
// 20 L racked at 18C.
func deedFirst(tokens []token) []token {
	if _, used, err := placeOf(tokens); err == nil && used > 0 {
		return tokens
	}
	if _, _, key := keyAt(tokens, reading.keys()); !key && !beginsNumber(tokens[0].text) && len(tokens) < 3 {
		return tokens
	}
	for i := 1; i < len(tokens); i++ {
		if tokens[i].quoted || isOne(tokens[i], []string{"note", "text"}) {
			return tokens
		}
		for n := min(4, len(tokens)-i); n > 0; n-- {
			phrase := tokens[i : i+n]
			b := begun(phrase)
			_, used, err := placeOf(b)
			if err != nil || used == 0 || used != len(b) || n == 1 && isOne(phrase[0], reasonless) {
				continue
			}
			return slices.Concat(b, tokens[:i], tokens[i+n:])
		}
	}
	return tokens
}

// reasonless are words that begin a jotting, and may be anything behind others.
var reasonless = strings.Fields("next boil clean move top copper strike pitch add empty gone vent")

// fermented moves "in the fermenter" from the end to the front, where numbers
// alone would be a reading.
func (e ear) fermented(tokens []token) []token {
	if len(tokens) == 0 || !beginsNumber(tokens[0].text) {
		return tokens
	}
	for n := 1; n <= min(3, len(tokens)-1); n++ {
		end := tokens[len(tokens)-n:]
		if b := begun(end); b[0].text == "fermenter" && len(b) == 1 && n > 1 {
			return append(b, tokens[:len(tokens)-n]...)
		}
	}
	return tokens
}

// fillers say nothing before a number or a name.
var fillers = strings.Fields("down up a an the of is was were it now just today my our its in at to for with " +
	"on and it's")

var articles = strings.Fields("a an the one")

// filled leaves out the fillers that a place has no use for. Words that are
// kept as they were said lose none.
func filled(tokens []token) []token {
	place, used, err := placeOf(tokens)
	if err != nil || place.ofList || place.loose == "found" {
		return tokens
	}
	known, all := place.keys(), slices.Clone(tokens[:used])
	for i := used; i < len(tokens); i++ {
		t, rest := tokens[i], tokens[i:]
		before := len(rest) > 1 && beginsNumber(rest[1].text)
		_, n, key := keyAt(rest, known)
		if n > 1 {
			all, i = append(all, rest[:n]...), i+n-1
			continue
		}
		word := strings.ToLower(t.text)
		_, _, keyNext := keyAt(rest[min(1, len(rest)-1):], known)
		switch {
		case (word == "and" || word == "&") && keyNext || len(rest) > 1 && container(rest[1]) && slices.Contains(articles, word):
			continue
		case t.quoted || !slices.Contains(fillers, word):
		case before && (!key || known[word].Type != "quantity" && known[word].Type != "moment"):
			continue
		case !key && place.loose != "note" && place.loose != "what":
			if word == "and" || word == "to" || word == "on" || word == "in" && place.loose == "" {
				break // it may join two things, or say where
			}
			continue
		}
		all = append(all, t)
	}
	return all
}

// dayBefore is the day before that of the jotting.
func (e ear) dayBefore() string {
	day, err := time.Parse(time.DateOnly, e.when.Day)
	if err != nil {
		return "2026-03-07"
	}
	return day.AddDate(0, 0, -1).Format(time.DateOnly)
}

// heat gives a heat behind its key the journal's scale, where it cannot well be
// of the other: beer is between 1 and 40 °C, and between 45 and 104 °F.
func (e ear) heat(tokens []token) []token {
	for i := 1; i < len(tokens); i++ {
		key := strings.ToLower(tokens[i-1].text)
		degrees, err := strconv.ParseFloat(tokens[i].text, 64)
		next := tokens[min(i+1, len(tokens)-1):]
		if key != "temp" && key != "temperature" || err != nil || i+1 < len(tokens) && !beginsNumber(next[0].text) {
			continue
		}
		switch metric := e.spelling.Temperature != q.US; {
		case metric && degrees >= 1 && degrees <= 40:
			return slices.Insert(slices.Clone(tokens), i+1, token{text: "C"})
		case !metric && degrees >= 45 && degrees <= 104:
			return slices.Insert(slices.Clone(tokens), i+1, token{text: "F"})
		}
	}
	return tokens
}

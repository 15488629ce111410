package scribe

import (
	"fmt"
	"maps"
	"regexp"
	"slices"
	"strings"

	"gylebook/internal/journal"
)

// token is one of the words that were typed, or several in quotation marks.
type token struct {
	text   string
	quoted bool // it has blanks in it, which a shell leaves only in quotation marks
}

// tokensOf is what was typed, an argument each.
func tokensOf(words []string) []token {
	var all []token
	for _, w := range words {
		if w = strings.TrimSpace(w); w != "" {
			all = append(all, token{w, strings.ContainsAny(w, " \t\n")})
		}
	}
	return all
}

// Understand makes a jotting of what was typed after the gyle's number, at a
// moment, for an entry as it was read. The error is a *Refusal that says which
// word was not understood, and what might have been meant.
//
// What has no place of its own among what Places lists, but is what people say
// for it, is heard as that (see ear). Settings may be nil.
func Understand(words []string, when When, g *journal.Gyle, settings *journal.Settings) (Jotting, error) {
	tokens := tokensOf(words)
	if len(tokens) == 0 {
		return Jotting{}, &Refusal{Reason: "there is nothing to jot: say what was read or done, such as 1.022 19.5C"}
	}
	e := ear{when: when, gyle: g}
	if settings != nil {
		e.spelling = settings.Units.Spelling()
	}
	tokens, e.when = e.dated(tokens)
	heard, err := e.hear(tokens)
	if err != nil {
		return Jotting{}, &Refusal{Reason: err.Error()}
	}
	j, err := understand(heard, e.when, g)
	if err != nil {
		return Jotting{}, &Refusal{Reason: err.Error()}
	}
	if len(tokens) == 1 && tokens[0].quoted {
		apart := tokensOf(strings.Fields(tokens[0].text))
		if !strings.ContainsAny(apart[0].text[len(apart[0].text)-1:], endings) {
			if heard, hears := e.hear(apart); hears == nil {
				apart = heard
			}
		}
		if _, err := understand(apart, e.when, g); err == nil {
			return Jotting{}, &Refusal{Reason: fmt.Sprintf("%q may be a reading or words to note: take off the "+
				"quotation marks, or put note before them", tokens[0].text)}
		}
	}
	return j, nil
}

func understand(tokens []token, when When, g *journal.Gyle) (Jotting, error) {
	place, used, err := placeOf(tokens)
	if err != nil {
		return Jotting{}, err
	}
	l := &listener{place: place, known: place.keys(), tokens: tokens[used:], values: slices.Clone(place.fixed)}
	if err := l.all(); err != nil {
		return Jotting{}, err
	}
	return l.jotting(when, g)
}

// placeOf is the place that the first words name, and how many they are; a
// reading where they name none and could begin one.
func placeOf(tokens []token) (Place, int, error) {
	places := Places()
	for n := min(3, len(tokens)); n > 0; n-- {
		said := strings.ToLower(joined(tokens[:n]))
		for _, p := range places {
			if p.Words != "" && p.Words == said {
				return p, n, nil
			}
		}
	}
	first := tokens[0]
	if _, _, is := keyAt(tokens, reading.keys()); is || first.quoted || beginsNumber(first.text) {
		return reading, 0, nil
	}
	return Place{}, 0, unknownPlace(tokens, places)
}

// joined is words with a blank between them; none where one was quoted.
func joined(tokens []token) string {
	var all []string
	for _, t := range tokens {
		if t.quoted {
			return ""
		}
		all = append(all, t.text)
	}
	return strings.Join(all, " ")
}

// keyAt is the key that the first words name: sample_at, sample at, sample-at,
// or what brewers call it.
func keyAt(tokens []token, known map[string]journal.Word) (key string, used int, is bool) {
	for n := min(3, len(tokens)); n > 0; n-- {
		said := strings.NewReplacer(" ", "_", "-", "_").Replace(strings.ToLower(joined(tokens[:n])))
		if _, is := known[said]; is && said != "" {
			return said, n, true
		}
	}
	said := strings.ToLower(strings.ReplaceAll(joined(tokens[:1]), "-", "_"))
	for _, key := range slices.Sorted(maps.Keys(known)) {
		if slices.Contains(known[key].Also, said) && countryUnits[said] == "" && !container(tokens[0]) {
			return key, 1, true
		}
	}
	return "", 0, false
}

// unknownPlace says that a jotting cannot begin so.
func unknownPlace(tokens []token, places []Place) error {
	var known []string
	for _, p := range places {
		if p.Words != "" {
			known = append(known, p.Words)
		}
	}
	// copper alone names two places, and neither is guessed at.
	if begins := beginning(tokens[0].text, known); len(begins) > 1 {
		return fmt.Errorf("%q may be the beginning of %s: say which", tokens[0].text, strings.Join(begins, " or "))
	}
	known = append(known, slices.Sorted(maps.Keys(reading.keys()))...)
	return fmt.Errorf("%q is no word that a jotting begins with%s; words to note go in quotation marks, or after note: %s",
		tokens[0].text, orNear(tokens[0].text, known), keepIt(tokens))
}

// beginning is those of known that are several words and begin with this one.
func beginning(word string, known []string) []string {
	var all []string
	for _, k := range known {
		if strings.HasPrefix(k, strings.ToLower(word)+" ") {
			all = append(all, k)
		}
	}
	return all
}

// listener takes the words after a place one after another.
type listener struct {
	place  Place
	known  map[string]journal.Word
	tokens []token
	values []Value
	parcel int // packages[parcel] instead of the whole gyle, where apart
	loose  []string
	named  bool // some of loose stood in quotation marks, and is a name as it is
}

// all takes every word.
func (l *listener) all() error {
	if l.place.ofList {
		var said []string
		for _, t := range l.tokens {
			said = append(said, t.text)
		}
		if len(said) == 0 {
			return fmt.Errorf("%s: say what, such as %s", l.place.Words, l.place.Eg)
		}
		l.values = []Value{{Text: strings.Join(said, " ")}}
		return nil
	}
	l.parcel = -1
	for len(l.tokens) > 0 {
		if err := l.one(); err != nil {
			return err
		}
	}
	return l.settleLoose()
}

// one takes a key with its value, a value by its unit, or words.
func (l *listener) one() error {
	if l.place.apart && strings.EqualFold(l.tokens[0].text, "package") && len(l.tokens) > 1 {
		if _, err := fmt.Sscanf(l.tokens[1].text, "%d", &l.parcel); err != nil || l.parcel < 0 {
			return fmt.Errorf("package %s: say which, counted from 0", l.tokens[1].text)
		}
		l.tokens = l.tokens[2:]
		return nil
	}
	if key, used, is := keyAt(l.tokens, l.known); is {
		if key == l.place.loose && len(l.loose) > 0 { // table sugar, lager yeast
			return l.words()
		}
		return l.keyed(key, used)
	}
	if score := scored(l.tokens[0].text); score != nil && l.place.bare == "score" {
		l.tokens = l.tokens[1:]
		return l.take(Value{Key: "score", Text: score[1]}, Value{Key: "out_of", Text: score[2]})
	}
	if run := quantityRun(l.tokens); run > 0 {
		if key, is := l.keyAfter(run); is {
			text := plainJoin(l.tokens[:run])
			l.tokens = l.tokens[run+1:]
			return l.take(Value{Key: key, Text: text})
		}
		return l.byUnit(run)
	}
	if l.place.loose != "" && (l.tokens[0].quoted || l.bareWord(l.tokens[0].text)) {
		return l.words()
	}
	return l.unknown()
}

// keyAfter is the key that stands behind its number, as in 3.4 pH, where no other
// value follows that it could belong to.
func (l *listener) keyAfter(run int) (string, bool) {
	if run >= len(l.tokens) || hasUnit(plainJoin(l.tokens[:run])) {
		return "", false
	}
	key, used, is := keyAt(l.tokens[run:], l.known)
	word := l.known[key]
	if !is || used != 1 || word.Type != "quantity" || !slices.Contains([]string{"ph", "gravity", "brix"}, key) {
		return "", false
	}
	if rest := l.tokens[run+1:]; len(rest) > 0 && beginsNumber(rest[0].text) &&
		!hasUnit(plainJoin(rest[:max(1, quantityRun(rest))])) {
		return "", false
	}
	return key, true
}

// bareWord tells whether a word without quotation marks is words all the same:
// everywhere but in a reading, where it is more likely a slip, and unless it
// looks like a key. A shell takes the marks off a single word.
func (l *listener) bareWord(word string) bool {
	if l.place.list == reading.list || beginsNumber(word) {
		return false
	}
	return l.place.open || orNear(word, slices.Collect(maps.Keys(l.known))) == ""
}

var scorePattern = regexp.MustCompile(`^(\d+(?:\.\d+)?)/(\d+)$`)

// scored takes 34/50 apart, nil for anything else.
func scored(text string) []string { return scorePattern.FindStringSubmatch(text) }

// take adds values, each key once.
func (l *listener) take(values ...Value) error {
	for _, v := range values {
		if err := impossible(v, l.known[v.Key]); err != nil {
			return err
		}
		for _, old := range l.values {
			if old.Key == v.Key {
				return fmt.Errorf("%s is said twice, %s and %s: leave one out", v.Key, old.said(), v.said())
			}
		}
		l.values = append(l.values, v)
	}
	return nil
}

// said is the value as one would repeat it.
func (v Value) said() string {
	if v.Many != nil {
		return strings.Join(v.Many, ", ")
	}
	return v.Text
}

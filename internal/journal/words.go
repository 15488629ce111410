package journal

import (
	"slices"
	"strings"
	"sync"
	"unicode"

	"go.yaml.in/yaml/v4"
)

// Word is one key of the vocabulary.
type Word struct {
	File    string   // gyle, settings, note, or the kind of card: "malt card"
	Path    string   // such as mash.rests[].at
	Key     string   // its last part: at
	Type    string   // quantity, range, words, name, choice, flag, whole number, money, moment or map; "list of …"
	Units   []string // the units a quantity may have, the customary one first
	Choices []string // the words of a choice
	Card    string   // the kind of card that a name refers to
	Says    string   // its meaning
	Also    []string // what brewers may call it: the reader suggests from these
	Example string   // how one might be written
	Needed  bool     // whether its map must have it
}

// Words is the whole vocabulary in the order of its declaration.
func Words() []Word { return slices.Clone(vocabulary()) }

// vocabulary is every key of every kind of file.
var vocabulary = sync.OnceValue(func() []Word {
	set := plans()
	all := wordsOf(set.gyle, "gyle", "")
	all = append(all, wordsOf(set.settings, "settings", "")...)
	all = append(all, wordsOf(set.note, "note", "")...)
	for _, kind := range set.kinds {
		all = append(all, wordsOf(set.cards[kind], kind+" card", "")...)
	}
	return all
})

// wordsOf is the words of a plan and all below it.
func wordsOf(p *plan, file, path string) []Word {
	var all []Word
	for i := range p.fields {
		f := &p.fields[i]
		if f.key == "" {
			continue // the short form of a map is described with the map
		}
		at := join(path, f.key)
		all = append(all, f.word(file, at))
		if f.sub != nil {
			all = append(all, wordsOf(f.sub, file, at+listMark(f.list))...)
		}
	}
	return all
}

// word is the field as a word of the vocabulary.
func (f *field) word(file, path string) Word {
	w := Word{File: file, Path: path, Key: f.key, Type: "map", Choices: f.choices, Card: f.card, Says: f.says,
		Also: slices.Clone(f.also), Needed: f.needed}
	if f.sub == nil {
		w.Type = f.leaf.name
	}
	if f.none != "" {
		w.Choices = []string{"none"}
		w.Says += "; none: " + f.none
	}
	if f.leaf.kind != nil {
		for _, u := range f.leaf.kind.Units {
			if u.Symbol != "" {
				w.Units = append(w.Units, u.Symbol)
			}
		}
	}
	w.Example = f.example()
	if f.list {
		w.Type = "list of " + plural(w.Type)
		w.Example = "[" + w.Example + "]"
	}
	return w
}

func plural(kind string) string {
	if strings.HasSuffix(kind, "s") {
		return kind
	}
	return strings.Replace(kind+"s", "moneys", "sums of money", 1)
}

// example is how one value of the field might be written.
func (f *field) example() string {
	switch {
	case f.sub != nil:
		for i := range f.sub.fields {
			if first := &f.sub.fields[i]; first.key != "" {
				return "{" + first.key + ": " + first.example() + "}"
			}
		}
	case f.eg != "":
		return f.eg
	case len(f.choices) > 0:
		return f.choices[0]
	case f.leaf.kind != nil:
		return f.leaf.kind.Example
	}
	if f.leaf.name == "name" {
		return namedSo[f.card]
	}
	return map[string]string{
		"words": "any words", "flag": "yes", "whole number": "14",
		"moment": "2026-03-07 16:10", "money": "3.80 GBP",
	}[f.leaf.name]
}

// namedSo is how a name of each kind might be written.
var namedSo = map[string]string{
	"malt": "pale malt", "sugar": "sucrose", "hop": "goldings", "yeast": "house ale", "water": "tap water",
	"vessel":     "bottle 500 mL",
	"instrument": "glass hydrometer", "style": "best bitter", "taster": "the neighbour", "fruit": "raspberries",
	"salt":   "gypsum",
	"fining": "isinglass", "cleaner": "line cleaner",
}

// LookUp is the words of a key ("alpha") or a path ("hops[].alpha", and with
// numbers in it "hops[1].alpha"), in any case. If there are none, it is the words
// of the nearest key, and exact is false.
func LookUp(key string) (found []Word, exact bool) {
	key = unnumbered(key)
	if found = matching(key); len(found) > 0 {
		return found, true
	}
	var keys []string
	for _, w := range vocabulary() {
		keys = append(keys, w.Key)
	}
	last := key[strings.LastIndex(key, ".")+1:]
	if near := nearest(strings.TrimSuffix(last, "[]"), keys); near != "" {
		return matching(near), false
	}
	return nil, false
}

// matching is the words with this key or path.
func matching(key string) []Word {
	var found []Word
	for _, w := range vocabulary() {
		if strings.EqualFold(w.Key, key) || strings.EqualFold(w.Path, key) || strings.EqualFold(w.Path+"[]", key) {
			found = append(found, w)
		}
	}
	return found
}

// Find is the words of the vocabulary that speak of something: those that
// brewers may call so first, then those whose explanation or choices have the
// word, or one that begins with it.
func Find(text string) []Word {
	text = strings.TrimSpace(text)
	var called, speak []Word
	seen := map[string]bool{} // what every kind of card has is told once
	for _, w := range vocabulary() {
		switch same := w.Path + w.Says; {
		case text == "" || w.Key == "card" || seen[same]:
			continue
		default:
			seen[same] = true
		}
		switch {
		case slices.ContainsFunc(w.Also, func(also string) bool { return folded(also) == folded(text) }):
			called = append(called, w)
		case speaksOf(w.Says, text) || slices.ContainsFunc(w.Choices,
			func(choice string) bool { return speaksOf(choice, text) }):
			speak = append(speak, w)
		}
	}
	return append(called, speak...)
}

// speaksOf tells whether a text has a word that begins with another.
func speaksOf(text, word string) bool {
	return strings.Contains(" "+spaced(text), " "+spaced(word))
}

// spaced is a text in lower case with single blanks for all that is no letter
// or digit.
func spaced(text string) string {
	return strings.Join(strings.FieldsFunc(strings.ToLower(text),
		func(c rune) bool { return !unicode.IsLetter(c) && !unicode.IsDigit(c) }), " ")
}

// Meaning is what to do in an entry about something that brewers write there and
// this book has under another key, works out, or has no key for; "" where
// nothing is known of it.
func Meaning(word string) string {
	does, called := meaningOf(word, plans().gyle), sayingOf(word)
	if does == "" || called == "" {
		return does + called
	}
	return does + " " + called
}

// CardKinds is every kind of card.
func CardKinds() []string { return slices.Clone(plans().kinds) }

// unnumbered writes [] for every [n] in a path.
func unnumbered(path string) string {
	var b strings.Builder
	for path != "" {
		before, after, found := strings.Cut(path, "[")
		b.WriteString(before)
		if !found {
			break
		}
		_, rest, closed := strings.Cut(after, "]")
		if !closed {
			break
		}
		b.WriteString("[]")
		path = rest
	}
	return b.String()
}

// placesOf is the maps of a gyle that have a key, to tell where one belongs
// that stands elsewhere, and those of them where the value fits; none where it is
// a key of more than three.
func placesOf(key string, value *yaml.Node) (all, fitting []string) {
	for _, w := range vocabulary() {
		if w.Key != key || w.File != "gyle" {
			continue
		}
		parent, _, nested := cutLast(w.Path, ".")
		if !nested {
			parent = "a gyle"
		}
		all = append(all, parent)
		if w.fits(value) {
			fitting = append(fitting, parent)
		}
	}
	if len(all) > 3 {
		return nil, nil // it is everywhere
	}
	return all, fitting
}

// fits tells whether a value has the shape that the word's type demands.
func (w Word) fits(value *yaml.Node) bool {
	switch {
	case isNull(value):
		return true
	case value.Kind == yaml.MappingNode:
		return strings.HasSuffix(w.Type, "map") || strings.HasSuffix(w.Type, "maps")
	case value.Kind == yaml.SequenceNode:
		return strings.HasPrefix(w.Type, "list of")
	}
	return w.Type != "map" && !strings.HasPrefix(w.Type, "list of")
}

// cutLast cuts text at the last sep.
func cutLast(text, sep string) (before, after string, found bool) {
	if i := strings.LastIndex(text, sep); i >= 0 {
		return text[:i], text[i+len(sep):], true
	}
	return text, "", false
}

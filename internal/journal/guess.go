package journal

import (
	"fmt"
	"reflect"
	"slices"
	"strings"

	"go.yaml.in/yaml/v4"
)

// guess is what a key that is none was likely to mean.
type guess struct {
	do    string
	field *field // the one of this map that was surely meant, nil for none
}

// guessKey tells what a key was likely to mean: a looser spelling of a key of
// this map, a word that brewers use for something this book has elsewhere, a key
// of another map, or a slip of the keyboard. A key that what stands under it
// does not fit is not guessed at.
func guessKey(p *plan, key, value *yaml.Node) guess {
	word := key.Value
	if f := p.looser(word); f != nil && f.fits(value) {
		return guess{do: writeIfMeant(f.key), field: f}
	}
	if do := meaningOf(word, p); do != "" {
		return guess{do: do}
	}
	all, fitting := placesOf(word, value)
	if p.ofCard() {
		all, fitting = nil, nil // its keys are facts, and no part of an entry
	}
	if len(fitting) > 0 {
		return guess{do: moveTo(fitting)}
	}
	if f, off := p.slipOf(word, value); f != nil {
		g := guess{do: writeIfMeant(f.key)}
		if off == 1 && len(word) > 3 || f.sub != nil && off == 1 {
			g.field = f
		}
		return g
	}
	if len(all) > 0 {
		return guess{do: moveTo(all)}
	}
	return guess{}
}

// ofCard tells whether the plan is the top of a card, of the settings or of a
// note.
func (p *plan) ofCard() bool {
	return strings.HasSuffix(p.what, " card") || p.what == "the settings" || p.what == "a note"
}

func moveTo(places []string) string {
	return "Move it: it is a key of " + strings.Join(places, ", ") + "."
}

// folded is a key without case and the marks between its words.
func folded(key string) string {
	return strings.NewReplacer("_", "", "-", "", " ", "").Replace(strings.ToLower(key))
}

// looser is the field that has word as a looser spelling, nil for none.
func (p *plan) looser(word string) *field {
	for i := range p.fields {
		f := &p.fields[i]
		if f.key == "" {
			continue
		}
		if folded(f.key) == folded(word) ||
			slices.ContainsFunc(f.also, func(also string) bool { return folded(also) == folded(word) }) {
			return f
		}
	}
	return nil
}

// slipOf is the field whose key or looser spelling word is a slip of, and how
// far off it is. Of two as near, a key goes before a looser spelling: brewd is
// brewed, not the brew that some would call a gyle.
func (p *plan) slipOf(word string, value *yaml.Node) (f *field, off int) {
	var spellings []string
	var leads []*field
	for _, keys := range []bool{true, false} {
		for i := range p.fields {
			f := &p.fields[i]
			if f.key == "" || !f.fits(value) {
				continue
			}
			known := f.also
			if keys {
				known = []string{f.key}
			}
			for _, spelling := range known {
				spellings, leads = append(spellings, spelling), append(leads, f)
			}
		}
	}
	best, off := nearestOf(word, spellings, true)
	if i := slices.Index(spellings, best); best != "" {
		return leads[i], off
	}
	return nil, 0
}

// fits tells whether a value can stand under a key: a map where a map is
// wanted, or a list of them.
func (f *field) fits(value *yaml.Node) bool {
	switch {
	case value == nil || isNull(value):
		return true
	case value.Kind == yaml.MappingNode:
		return f.sub != nil
	case value.Kind == yaml.SequenceNode:
		return f.list
	}
	return f.sub == nil || f.sub.short >= 0
}

// readInside reads what stands under a key as if it were the one that it was
// surely meant to be, for its errors alone: so a brewer who mends the key finds
// no second row of them behind it. What is good in it is not taken.
func (r *reading) readInside(n, value *yaml.Node, f *field, t reflect.Type, path string) {
	for i := 0; i+1 < len(n.Content); i += 2 {
		if n.Content[i].Value == f.key {
			return // it stands there as well, and is read
		}
	}
	path = join(path, f.key)
	r.missed = append(r.missed, r.where(value, path))
	if value.Kind == yaml.MappingNode || value.Kind == yaml.SequenceNode {
		r.value(value, f, reflect.New(t.FieldByIndex(f.index).Type).Elem(), path)
	}
}

// cutByComma tells of a key in braces that has no value, and stands after words:
// it is the rest of them, after a comma.
func cutByComma(n *yaml.Node, i int, p *plan) string {
	if i < 2 || n.Style&yaml.FlowStyle == 0 || !isNull(n.Content[i+1]) || n.Content[i].Style != 0 {
		return ""
	}
	before, words := n.Content[i-2], n.Content[i-1]
	at, known := p.byKey[before.Value]
	if !known || words.Kind != yaml.ScalarNode || !oneOf(p.fields[at].leaf.name, "words", "name") ||
		words.Style&(yaml.SingleQuotedStyle|yaml.DoubleQuotedStyle) != 0 {
		return ""
	}
	whole := shorten(words.Value+", "+n.Content[i].Value, 2*longestWord)
	return fmt.Sprintf("Put quotation marks round words with a comma in them: %s: %q.", before.Value, whole)
}

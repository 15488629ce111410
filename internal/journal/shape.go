package journal

import (
	"fmt"
	"strings"
	"unicode/utf8"

	"go.yaml.in/yaml/v4"

	"gylebook/internal/quantity"
)

// shapeOf names the shape of a node.
func shapeOf(n *yaml.Node) string {
	switch {
	case n.Kind == yaml.MappingNode:
		return "map of keys"
	case n.Kind == yaml.SequenceNode:
		return "list"
	case isNull(n):
		return "blank"
	}
	return "single value"
}

// expected is the shape that a field wants.
func (f *field) expected() string {
	switch {
	case f.list && f.sub != nil:
		return "a list of maps, such as [{" + f.sub.firstKey() + ": …}]"
	case f.list:
		return "a list, such as [one, two]"
	case f.sub != nil:
		return "a map of keys, such as {" + f.sub.firstKey() + ": …}"
	}
	return "a single value"
}

// wrapped is what a single value was likely to mean where a list or a map is
// wanted: goldings for [{hop: goldings}], 18 C for {at: 18 C}.
func (r *reading) wrapped(f *field, n *yaml.Node) string {
	if n.Kind != yaml.ScalarNode || isNull(n) {
		return ""
	}
	text := shorten(strings.TrimSpace(n.Value), longestWord)
	if f.sub != nil {
		key := r.keyFor(f.sub, n)
		if key == "" {
			return ""
		}
		text = "{" + key + ": " + text + "}"
	}
	if f.list {
		text = "[" + text + "]"
	}
	return writeIfMeant(text)
}

// keyFor is the key of a map that a single value was likely to stand under: the
// only kind of number or word that it can be, else the name that comes first.
func (r *reading) keyFor(p *plan, n *yaml.Node) string {
	for i := range p.fields {
		f := &p.fields[i]
		if f.key == "" || f.list || !oneOf(f.leaf.name, "choice", "quantity", "range") ||
			f.leaf.kind != nil && f.leaf.kind.Bare != nil {
			continue
		}
		trial := &reading{file: r.file, source: r.source, offset: r.offset, sets: r.sets, settings: r.settings,
			zone: r.zone}
		f.fresh().take(trial, scalar{node: n, text: strings.TrimSpace(n.Value), Where: trial.where(n, f.key)}, f)
		if len(trial.errors) == 0 {
			return f.key
		}
	}
	first := p.firstKey()
	if name := p.fields[p.byKey[first]].leaf.name; name == "name" || name == "words" {
		return first
	}
	return ""
}

// severalOf is what to do about several values where one is wanted: of something
// that is in a list itself, another part for each.
func severalOf(n *yaml.Node, path string) string {
	switch {
	case n.Kind != yaml.SequenceNode:
		return ""
	case len(n.Content) == 1 && n.Content[0].Kind == yaml.ScalarNode:
		return writeIfMeant(shorten(n.Content[0].Value, longestWord))
	case strings.Contains(path, "]."):
		return "Write a part of the list for each of them."
	}
	return ""
}

// firstKey is an example of the keys of a map.
func (p *plan) firstKey() string {
	for _, f := range p.fields {
		if f.key != "" {
			return f.key
		}
	}
	return ""
}

// decimalComma reports 1,036 inside braces, where the comma ends the value and
// 036 is the next key: to read it as 1 would be worse than not to read it.
func (r *reading) decimalComma(n *yaml.Node, i int, f *field, path string) bool {
	if i+3 >= len(n.Content) || n.Style&yaml.FlowStyle == 0 {
		return false
	}
	value, next := n.Content[i+1], n.Content[i+2]
	after := value.Column + utf8.RuneCountInString(value.Value) + 1
	if value.Kind != yaml.ScalarNode || next.Kind != yaml.ScalarNode || value.Line != next.Line ||
		next.Column != after || !endsInDigit(value.Value) || !startsWithDigit(next.Value) || !isNull(n.Content[i+3]) {
		return false
	}
	whole, part := shorten(value.Value, longestWord), shorten(next.Value, longestWord)
	expected, do := "a decimal point", writeIfMeant(whole+"."+part)
	if inThousands(whole, part, f) {
		expected, do = fmt.Sprintf("%s%s or %s.%s, whichever is meant", whole, part, whole, part), ""
	}
	r.wrong(value, idNotANumber, path, fmt.Sprintf("a comma in %s: expected %s", quote(whole+","+part), expected), do)
	return true
}

// inThousands tells whether 1,000 g may be a thousand grams as well as one. No
// gravity has thousands.
func inThousands(whole, part string, f *field) bool {
	digits := len(part) - len(strings.TrimLeft(part, "0123456789"))
	return digits == 3 && strings.Trim(whole, "0") != "" && f.leaf.kind != quantity.KindOf[quantity.Gravity]()
}

func endsInDigit(text string) bool {
	return text != "" && text[len(text)-1] >= '0' && text[len(text)-1] <= '9'
}

func startsWithDigit(text string) bool { return text != "" && text[0] >= '0' && text[0] <= '9' }

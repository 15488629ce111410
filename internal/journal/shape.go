package journal

import (
	"fmt"
	"strings"
	"unicode/utf8"

	"go.yaml.in/yaml/v4"
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

// wrapped is what a single value was likely to mean where a list or a map of
// something with a name is wanted: goldings for [{hop: goldings}].
func (f *field) wrapped(n *yaml.Node) string {
	if n.Kind != yaml.ScalarNode || isNull(n) {
		return ""
	}
	text := shorten(strings.TrimSpace(n.Value), longestWord)
	if f.sub != nil {
		first := f.sub.firstKey()
		if f.sub.fields[f.sub.byKey[first]].leaf.name != "name" {
			return ""
		}
		text = "{" + first + ": " + text + "}"
	}
	if f.list {
		text = "[" + text + "]"
	}
	return meant(text)
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
func (r *reading) decimalComma(n *yaml.Node, i int, path string) bool {
	if i+3 >= len(n.Content) || n.Style&yaml.FlowStyle == 0 {
		return false
	}
	value, next := n.Content[i+1], n.Content[i+2]
	after := value.Column + utf8.RuneCountInString(value.Value) + 1
	if value.Kind != yaml.ScalarNode || next.Kind != yaml.ScalarNode || value.Line != next.Line || next.Column != after || !endsInDigit(value.Value) || !startsWithDigit(next.Value) || !isNull(n.Content[i+3]) {
		return false
	}
	r.wrong(value, idNotANumber, path, fmt.Sprintf("a comma in %s: expected a decimal point", quote(value.Value+","+next.Value)), meant(shorten(value.Value+"."+next.Value, longestWord)))
	return true
}

func endsInDigit(text string) bool {
	return text != "" && text[len(text)-1] >= '0' && text[len(text)-1] <= '9'
}

func startsWithDigit(text string) bool { return text != "" && text[0] >= '0' && text[0] <= '9' }

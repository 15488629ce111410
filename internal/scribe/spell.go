package scribe

import (
	"fmt"
	"strings"
	"unicode"

	"go.yaml.in/yaml/v4"
)

// spell is words as one YAML value that means the same in braces and out of
// them: as they stand where YAML lets them, else in quotation marks.
func spell(text string) string {
	if plain(text) {
		return text
	}
	return quoted(text)
}

// plain tells whether YAML would read the bare text as that text, wherever in a
// front matter it stands.
func plain(text string) bool {
	if text == "" || text != strings.TrimSpace(text) ||
		strings.ContainsFunc(text, func(c rune) bool { return unicode.IsControl(c) || c == 0x2028 || c == 0x2029 }) {
		return false
	}
	for _, in := range []string{"- %s\n", "- k: %s\n", "[%s, %[1]s]", "[{k: %s, l: %[1]s}]"} {
		if !reads(fmt.Sprintf(in, text), strings.Count(in, "%"), text) {
			return false
		}
	}
	return true
}

// reads tells whether a small piece of YAML holds so many values, each of them
// just this text.
func reads(piece string, many int, text string) bool {
	var document yaml.Node
	if yaml.Load([]byte(piece), &document) != nil {
		return false
	}
	values := valuesOf(&document)
	for _, v := range values {
		if v.Tag == "!!null" || v.Value != text || v.Anchor != "" || v.Kind == yaml.AliasNode ||
			v.Style&yaml.TaggedStyle != 0 {
			return false
		}
	}
	return len(values) == many
}

// valuesOf is every single value in a tree, keys left out.
func valuesOf(n *yaml.Node) []*yaml.Node {
	var all []*yaml.Node
	switch n.Kind {
	case yaml.MappingNode:
		for i := 1; i < len(n.Content); i += 2 {
			all = append(all, valuesOf(n.Content[i])...)
		}
	case yaml.DocumentNode, yaml.SequenceNode:
		for _, part := range n.Content {
			all = append(all, valuesOf(part)...)
		}
	default:
		all = append(all, n)
	}
	return all
}

// quoted is words in double quotation marks, in the escapes of YAML 1.2, 5.7.
func quoted(text string) string {
	var b strings.Builder
	b.WriteByte('"')
	for _, c := range text {
		switch {
		case c == '"' || c == '\\':
			b.WriteByte('\\')
			b.WriteRune(c)
		case c == '\n':
			b.WriteString(`\n`)
		case c == '\t':
			b.WriteString(`\t`)
		case unicode.IsControl(c) || c == 0x2028 || c == 0x2029 || c == 0xFEFF:
			fmt.Fprintf(&b, `\u%04x`, c)
		default:
			b.WriteRune(c)
		}
	}
	b.WriteByte('"')
	return b.String()
}

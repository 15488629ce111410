package journal

import (
	"bytes"
	"slices"

	"go.yaml.in/yaml/v4"
)

// Redact is an entry as it may be published: in its front matter comments and
// private values are blanked where they stand, so that every other line and
// column is where it was. A value under a key that is not in the vocabulary is
// blanked too, since it may be a private one mistyped. Where what is left does
// not read as before without what was blanked, or the front matter is no YAML,
// the whole of it is blanked: nothing is published for want of understanding.
// A byte-order mark and carriage returns are left out.
//
// Redact(Redact(x)) is Redact(x).
func Redact(raw []byte, private Private) []byte {
	if len(raw) > maxFile {
		return nil
	}
	r := &reading{settings: defaultSettings()}
	text := r.clean(raw)
	r.source = text
	f := r.split(text)
	switch {
	case f.open == 0 && f.ok:
		return text
	case f.close == 0:
		return blankLines(text, 0, bytes.Count(text, []byte("\n"))+1)
	case f.ok:
		front := linesBetween(text, f.open, f.close)
		if clean := redactFront(front, private); clean != nil {
			start := len(text) - len(linesBetween(text, f.open, bytes.Count(text, []byte("\n"))+2))
			return slices.Concat(text[:start], clean, text[start+len(front):])
		}
	}
	return blankLines(text, f.open, f.close-1)
}

// blankLines empties the lines after the first from ones, up to the last.
func blankLines(text []byte, from, last int) []byte {
	var out []byte
	for i, line := range bytes.SplitAfter(text, []byte("\n")) {
		switch {
		case i < from || i >= last:
			out = append(out, line...)
		case bytes.HasSuffix(line, []byte("\n")):
			out = append(out, '\n')
		}
	}
	return out
}

// redactFront blanks what is not to be published, nil if that cannot be done.
func redactFront(front []byte, private Private) []byte {
	if len(front) > maxFront {
		return nil
	}
	root, err := parseTree(front)
	if err != nil {
		return nil
	}
	s := newSpans(steadyLines(front))
	if root != nil {
		p := planFor(root, private)
		if root.Kind != yaml.MappingNode || p == nil {
			return nil
		}
		if _, ok := s.end(root, -1); !ok {
			return nil
		}
		s.hide(root, p, private)
	}
	clean := s.blanked()
	again, err := parseTree(clean)
	if err != nil || commented(again) || !sameTree(root, again, s.hidden) {
		return nil
	}
	return clean
}

// planFor is the plan of what the front matter is of, nil for what is never
// published.
func planFor(root *yaml.Node, private Private) *plan {
	set := plans()
	for i := 0; i+1 < len(root.Content); i += 2 {
		switch value := root.Content[i+1].Value; root.Content[i].Value {
		case "gyle":
			return set.gyle
		case "card":
			if value == "taster" && private.Tasters {
				return nil
			}
			return set.cards[value]
		case "journal":
			return set.settings
		}
	}
	return set.note
}

// hide marks every value of a map that is not to be published.
func (s *spans) hide(n *yaml.Node, p *plan, private Private) {
	for i := 0; i+1 < len(n.Content); i += 2 {
		value := n.Content[i+1]
		at, known := p.byKey[n.Content[i].Value]
		switch {
		case !known || n.Content[i].Kind != yaml.ScalarNode || private.hides(p.fields[at].private):
			s.hidden[value] = true
		case p.fields[at].sub != nil:
			s.hideIn(value, &p.fields[at], private)
		}
	}
}

// hideIn goes on in a map, or in each map of a list. What has another shape
// cannot be told to be harmless.
func (s *spans) hideIn(n *yaml.Node, f *field, private Private) {
	switch {
	case n.Kind == yaml.MappingNode:
		s.hide(n, f.sub, private)
	case n.Kind == yaml.SequenceNode && f.list:
		for _, part := range n.Content {
			s.hideIn(part, &field{sub: f.sub}, private)
		}
	case isNull(n) || f.sub.short >= 0:
	default:
		s.hidden[n] = true
	}
}

// commented tells whether a comment is left anywhere in a tree.
func commented(n *yaml.Node) bool {
	return n != nil && (n.HeadComment+n.LineComment+n.FootComment != "" || slices.ContainsFunc(n.Content, commented))
}

// sameTree tells whether b is a with its hidden nodes blank.
func sameTree(a, b *yaml.Node, hidden map[*yaml.Node]bool) bool {
	switch {
	case a == nil || b == nil:
		return a == b
	case hidden[a]:
		return isNull(b)
	case a.Kind != b.Kind || a.Tag != b.Tag || a.Value != b.Value || a.Anchor != b.Anchor || a.Line != b.Line ||
		a.Column != b.Column || len(a.Content) != len(b.Content):
		return false
	}
	for i := range a.Content {
		if !sameTree(a.Content[i], b.Content[i], hidden) {
			return false
		}
	}
	return true
}

package journal

import (
	"bytes"
	"unicode"
	"unicode/utf8"

	"go.yaml.in/yaml/v4"
)

// spans is where each value of a front matter stands in its text, from its
// first byte to its last. The YAML reader tells only where a value begins.
type spans struct {
	text   []byte
	starts []int // of each line
	// scalars is the bytes of every single value and key, marked, so that a #
	// inside one is not taken for a comment.
	scalars []bool
	ends    map[*yaml.Node]int
	hidden  map[*yaml.Node]bool
	last    position // the one that was looked for last
}

func newSpans(text []byte) *spans {
	s := &spans{text: text, starts: []int{0}, scalars: make([]bool, len(text)), ends: map[*yaml.Node]int{},
		hidden: map[*yaml.Node]bool{}}
	for i, c := range text {
		if c == '\n' {
			s.starts = append(s.starts, i+1)
		}
	}
	return s
}

// start is the byte that a node begins at.
func (s *spans) start(n *yaml.Node) (int, bool) {
	if n.Line < 1 || n.Line > len(s.starts) {
		return 0, false
	}
	column, at := 1, s.starts[n.Line-1]
	if n.Line == s.last.line && n.Column >= s.last.column {
		column, at = s.last.column, s.last.at // a long line is gone along only once
	}
	for ; column < n.Column; column++ {
		if at >= len(s.text) {
			return at, isNull(n)
		}
		_, size := utf8.DecodeRune(s.text[at:])
		at += size
	}
	s.last = position{n.Line, n.Column, at}
	return at, true
}

// position is a character of the text and the byte it begins at.
type position struct{ line, column, at int }

// end is the byte after a node, whose map or list is indented by so much. It is
// not ok for what is not understood.
func (s *spans) end(n *yaml.Node, indent int) (end int, ok bool) {
	at, ok := s.start(n)
	if !ok {
		return 0, false
	}
	if n.Style&yaml.TaggedStyle != 0 || n.Anchor != "" || n.Kind == yaml.AliasNode {
		return 0, false // these are errors, and their entry shows none of its front matter
	}
	switch {
	case n.Kind == yaml.ScalarNode:
		end, ok = s.scalar(n, at, indent)
	case n.Style&yaml.FlowStyle != 0:
		end, ok = s.flow(n, at)
	default:
		end, ok = s.block(n, at)
	}
	s.ends[n] = end
	return end, ok
}

// block is a map or list by indentation: it ends where its last part does.
func (s *spans) block(n *yaml.Node, at int) (end int, ok bool) {
	end = at
	for _, part := range n.Content {
		e, ok := s.end(part, n.Column-1)
		if !ok {
			return 0, false
		}
		end = max(end, e)
	}
	return end, true
}

// flow is a map or list in brackets: after its last part only a comma, space
// and comments may stand before the bracket that closes it.
func (s *spans) flow(n *yaml.Node, at int) (end int, ok bool) {
	if end, ok = s.block(n, at); !ok {
		return 0, false
	}
	if len(n.Content) == 0 {
		end = at + 1
	}
	for end < len(s.text) {
		switch s.text[end] {
		case ']', '}':
			return end + 1, true
		case '#':
			end += lineEnd(s.text[end:])
		case ' ', '\t', '\n', ',', ':': // a colon before a blank value
			end++
		default:
			return 0, false
		}
	}
	return 0, false
}

func lineEnd(text []byte) int {
	if i := bytes.IndexByte(text, '\n'); i >= 0 {
		return i
	}
	return len(text)
}

// scalar is a single value in one of YAML's five spellings.
func (s *spans) scalar(n *yaml.Node, at, indent int) (end int, ok bool) {
	from := at
	switch {
	case n.Style&yaml.DoubleQuotedStyle != 0:
		end, ok = quoted(s.text, at, '"')
	case n.Style&yaml.SingleQuotedStyle != 0:
		end, ok = quoted(s.text, at, '\'')
	case n.Style&(yaml.LiteralStyle|yaml.FoldedStyle) != 0:
		from = at + lineEnd(s.text[at:])
		end, ok = s.indented(at, indent)
	default:
		end, ok = plainEnd(s.text, at, n.Value)
	}
	for i := from; ok && i < end; i++ {
		s.scalars[i] = true
	}
	return end, ok
}

// quoted finds the closing quotation mark: a backslash escapes in double ones,
// a second mark in single ones.
func quoted(text []byte, at int, mark byte) (end int, ok bool) {
	if at >= len(text) || text[at] != mark {
		return 0, false
	}
	for i := at + 1; i < len(text); i++ {
		switch {
		case text[i] == '\\' && mark == '"':
			i++
		case text[i] != mark:
		case mark == '\'' && i+1 < len(text) && text[i+1] == mark:
			i++
		default:
			return i + 1, true
		}
	}
	return 0, false
}

// plainEnd finds the end of a value without quotes, which may go over several
// lines: its letters stand in the text in their order.
func plainEnd(text []byte, at int, value string) (end int, ok bool) {
	for _, c := range value {
		if unicode.IsSpace(c) {
			continue
		}
		for at < len(text) && (text[at] == ' ' || text[at] == '\t' || text[at] == '\n') {
			at++
		}
		found, size := utf8.DecodeRune(text[at:])
		for size > 0 && found != c && unicode.IsSpace(found) {
			at += size
			found, size = utf8.DecodeRune(text[at:])
		}
		if found != c || size == 0 {
			return 0, false
		}
		at += size
	}
	return at, true
}

// indented finds the end of a block of words after | or >: the lines that are
// blank or indented at least as far as its first.
func (s *spans) indented(at, indent int) (end int, ok bool) {
	header := s.text[at : at+lineEnd(s.text[at:])]
	deep := 0
	for _, c := range bytes.TrimRight(bytes.SplitN(header, []byte("#"), 2)[0], " \t") {
		if c >= '1' && c <= '9' {
			deep = max(indent, 0) + int(c-'0')
		}
	}
	end = at + len(header)
	for next := end + 1; next <= len(s.text); {
		line := s.text[next : next+lineEnd(s.text[next:])]
		words := bytes.TrimLeft(line, " ")
		if len(bytes.TrimSpace(words)) > 0 {
			in := len(line) - len(words)
			if deep == 0 && in > indent {
				deep = in
			}
			if deep == 0 || in < deep {
				break
			}
			end = next + len(line)
		}
		next += len(line) + 1
	}
	return end, true
}

// blanked is the text without comments and hidden values. Spaces take their
// place, and none where nothing follows on the line.
func (s *spans) blanked() []byte {
	out := bytes.Clone(s.text)
	for n := range s.hidden {
		at, ok := s.start(n)
		if end := s.ends[n]; ok {
			blank(out[at:max(at, end)])
		}
	}
	for i := 0; i < len(out); i++ {
		if out[i] == '#' && !s.scalars[i] {
			end := i + lineEnd(out[i:])
			blank(out[i:end])
			i = end
		}
	}
	return s.trimmed(out)
}

// blank puts a space for every character but the ends of lines. A character of
// several bytes becomes one space, and the rest of its bytes are taken out by
// trimmed.
func blank(text []byte) {
	for i, c := range text {
		switch {
		case c == '\n':
		case c >= utf8.RuneSelf && !utf8.RuneStart(c):
			text[i] = takenOut
		default:
			text[i] = ' '
		}
	}
}

// takenOut marks a byte to take out; it stands in no text.
const takenOut = 0

// trimmed takes out the bytes marked gone, and the spaces before the end of a
// line that was changed.
func (s *spans) trimmed(text []byte) []byte {
	var out []byte
	for i, start := range s.starts {
		end := len(text)
		if i+1 < len(s.starts) {
			end = s.starts[i+1] - 1
		}
		line := text[start:end]
		if !bytes.Equal(line, s.text[start:end]) {
			line = bytes.ReplaceAll(line, []byte{takenOut}, nil)
			line = bytes.TrimRight(line, " ")
		}
		out = append(out, line...)
		if i+1 < len(s.starts) {
			out = append(out, '\n')
		}
	}
	return out
}

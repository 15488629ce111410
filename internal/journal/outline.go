package journal

import (
	"bytes"
	"errors"
	"fmt"
	"slices"
	"unicode/utf8"

	"go.yaml.in/yaml/v4"
)

// Outline is where every key and value of a front matter stands in the bytes of
// its file, for whoever writes into it without touching the rest. It says
// nothing of what the values mean.
type Outline struct {
	Root *Part // the map of all keys
}

// Shape is the shape of a Part.
type Shape int

// The shapes.
const (
	Single Shape = iota // one value, blank or not
	Map
	List
)

// Part is one value: single, a map or a list. Start and End are bytes of the
// file, End being the one after the last; a value that is blank has Start and
// End at the same place.
type Part struct {
	Shape      Shape
	Flow       bool   // a map or list in brackets, and not by indentation
	Text       string // of a single value, without its quotes; "" for a blank
	Blank      bool   // nothing stands there, or ~ or null
	Start, End int
	Column     int     // the characters before it on its line
	Keys       []Key   // of a map
	Parts      []*Part // of a list
}

// Key is one key of a map. Start and End are the bytes of its name, After the
// byte after its colon, or -1 for a key in braces that has none.
type Key struct {
	Name              string
	Start, End, After int
	Value             *Part
}

// Key is the first key of that name, nil for none: the one that the reader uses.
func (p *Part) Key(name string) *Key {
	for i := range p.Keys {
		if p.Keys[i].Name == name {
			return &p.Keys[i]
		}
	}
	return nil
}

// errNoOutline is what is said of a front matter that the reader takes and whose
// every byte could still not be told.
var errNoOutline = errors.New("it cannot be told for certain where each of its values ends")

// OutlineOf is the outline of a file. It is an error where there is no front
// matter, where the reader would not read it (ReadFile says why), and where it
// has anchors, aliases or tags.
func OutlineOf(raw []byte) (*Outline, error) {
	if len(raw) > maxFile {
		return nil, errTooBig
	}
	r := &reading{settings: defaultSettings()}
	text := r.clean(raw)
	r.source = text
	f := r.split(text)
	if !f.ok || f.open == 0 {
		return nil, errors.New("it has no front matter between two lines of ---")
	}
	front := linesBetween(text, f.open, f.close)
	if len(front) > maxFront {
		return nil, errTooBig
	}
	root, err := parseTree(front)
	switch {
	case err != nil:
		return nil, fmt.Errorf("its front matter is not YAML: %s", faultOf(err).says)
	case root == nil || root.Kind != yaml.MappingNode:
		return nil, errors.New("its front matter is no map of keys")
	}
	if hasShorthand(root) {
		return nil, errors.New("its front matter has anchors, aliases or tags (&, *, !), and what stands where is " +
			"in doubt")
	}
	start := len(text) - len(linesBetween(text, f.open, bytes.Count(text, []byte("\n"))+2))
	at, ok := bytesOf(raw, text[:start+len(front)], start)
	if !ok {
		return nil, errors.New("its front matter has a byte that is no text")
	}
	o := &outliner{spans: newSpans(steadyLines(front)), raw: raw, at: at}
	if _, ok := o.spans.end(root, -1); !ok || len(o.spans.text)+1 != len(at) {
		return nil, errNoOutline
	}
	whole := o.part(root, -1)
	if o.failed {
		return nil, errNoOutline
	}
	return &Outline{Root: whole}, nil
}

// hasShorthand tells whether a tree has anchors, aliases or tags.
func hasShorthand(n *yaml.Node) bool {
	return n.Anchor != "" || n.Kind == yaml.AliasNode || n.Style&yaml.TaggedStyle != 0 ||
		slices.ContainsFunc(n.Content, hasShorthand)
}

// bytesOf is, for every byte of the front matter with steady lines and for its
// end, the byte of the file. The cleaned text up to the end of the front matter
// has no byte-order mark and one kind of line end; start is where the front
// matter begins in it. It is not ok where the cleaned text has other characters
// than the file.
func bytesOf(raw, text []byte, start int) (at []int, ok bool) {
	i := len(raw) - len(bytes.TrimPrefix(raw, []byte("\uFEFF")))
	for j := 0; j < len(text); {
		c, size := utf8.DecodeRune(text[j:])
		was, length := utf8.DecodeRune(raw[i:])
		width := size
		switch {
		case was == '\r' && c == '\n':
			if i+1 < len(raw) && raw[i+1] == '\n' {
				length++
			}
		case was != c || length != size:
			return nil, false
		case c == 0x85 || c == 0x2028 || c == 0x2029:
			width = 1 // a space stands for it
		}
		for k := 0; j >= start && k < width; k++ {
			at = append(at, i+min(k, length-1))
		}
		i, j = i+length, j+size
	}
	return append(at, i), true
}

// outliner makes parts of nodes.
type outliner struct {
	spans  *spans
	raw    []byte
	at     []int
	failed bool
}

// part is the part of a node; after is the byte of the file after its key's
// colon, or -1.
func (o *outliner) part(n *yaml.Node, after int) *Part {
	p := &Part{Flow: n.Style&yaml.FlowStyle != 0, Column: n.Column - 1}
	p.Blank = isNull(n)
	start, ok := o.spans.start(n)
	if n.Kind == yaml.ScalarNode && n.Value == "" && p.Blank && after >= 0 {
		p.Start, p.End = after, after // the YAML reader has no place for what is not there
		return p
	}
	if !ok || start >= len(o.at) || o.spans.ends[n] >= len(o.at) {
		o.failed = true
		return p
	}
	p.Start, p.End = o.at[start], o.at[o.spans.ends[n]]
	switch n.Kind {
	case yaml.MappingNode:
		p.Shape = Map
		o.keys(p, n)
	case yaml.SequenceNode:
		p.Shape = List
		for _, part := range n.Content {
			p.Parts = append(p.Parts, o.part(part, -1))
		}
	default:
		p.Text = n.Value
	}
	return p
}

// keys are the keys of a map.
func (o *outliner) keys(p *Part, n *yaml.Node) {
	for i := 0; i+1 < len(n.Content); i += 2 {
		name := o.part(n.Content[i], -1)
		k := Key{Name: name.Text, Start: name.Start, End: name.End, After: -1}
		colon := name.End + len(o.raw[name.End:]) - len(bytes.TrimLeft(o.raw[name.End:], " \t"))
		if colon < len(o.raw) && o.raw[colon] == ':' {
			k.After = colon + 1
		}
		k.Value = o.part(n.Content[i+1], k.After)
		p.Keys = append(p.Keys, k)
	}
}

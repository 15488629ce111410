package journal

import (
	"bytes"
	"errors"
	"fmt"
	"strings"

	"go.yaml.in/yaml/v4"
	"go.yaml.in/yaml/v4/plugin/loaderlimits"
)

// yamlTree is a front matter as YAML nodes, each with its line and column.
type yamlTree struct {
	text []byte
	root *yaml.Node // nil where there is nothing in it
}

var (
	errTooBig   = fmt.Errorf("the front matter has more than %d KiB", maxFront>>10)
	errDocument = errors.New("a line of ... ends the YAML before the front matter ends")
)

// unmarshalTree is the one format of front matter: YAML, kept as a tree so that
// every value has its place, bounded in size and depth.
func unmarshalTree(data []byte, into any) error {
	t, ok := into.(*yamlTree)
	if !ok {
		return errors.New("front matter is read into a tree alone")
	}
	t.text = data
	if len(data) > maxFront {
		return errTooBig
	}
	root, err := parseTree(data)
	t.root = root
	return err
}

// parseTree makes nodes of YAML; nil for YAML with nothing in it.
func parseTree(data []byte) (*yaml.Node, error) {
	var document yaml.Node
	limits := yaml.WithPlugin(loaderlimits.New(loaderlimits.DepthValue(maxDepth), loaderlimits.AliasValue(0)))
	err := yaml.Load(steadyLines(data), &document, limits)
	switch {
	case err != nil && document.Kind == 0 && strings.HasSuffix(err.Error(), "no documents in stream"):
		return nil, nil
	case err != nil && strings.HasSuffix(err.Error(), "found multiple"):
		return nil, errDocument
	case err != nil:
		return nil, err
	case len(document.Content) == 0 || isNull(document.Content[0]):
		return nil, nil
	}
	return document.Content[0], nil
}

// steadyLines puts a space for the three other characters that YAML counts as
// the end of a line, since editors do not.
func steadyLines(data []byte) []byte {
	for _, breaks := range []string{"\u0085", "\u2028", "\u2029"} {
		if bytes.Contains(data, []byte(breaks)) {
			data = bytes.ReplaceAll(data, []byte(breaks), []byte(" "))
		}
	}
	return data
}

// yamlFault is why a text is not YAML, in the words of this book.
type yamlFault struct {
	line, column int
	says, do     string
	alias        bool
}

// faultOf words an error of the YAML reader, whose own words are for those who
// write YAML readers.
func faultOf(err error) yamlFault {
	f := yamlFault{says: err.Error()}
	var load *yaml.LoadError
	switch {
	case errors.Is(err, errTooBig):
		f.do = "Move long records into a CSV file and name it in readings_from."
		return f
	case errors.Is(err, errDocument):
		f.do = "Leave the line of ... out."
		return f
	case !errors.As(err, &load):
		return f
	}
	f.line, f.column = load.Mark.Line, load.Mark.Column
	message := load.Message
	for _, w := range faultWords {
		if strings.Contains(message, w.has) || strings.Contains(load.ContextMsg, w.has) {
			f.says, f.do = w.says, w.do
			f.alias = strings.Contains(w.has, "anchor")
			if start := load.ContextMark; w.atStart && start.Line > 0 {
				f.line, f.column = start.Line, start.Column
			}
			return f
		}
	}
	f.says = "not YAML: " + message
	return f
}

// faultWords is the commonest slips, by a part of the YAML reader's message.
var faultWords = []struct {
	has, says, do string
	atStart       bool // point at where the thing began and not where it was missed
}{
	{has: "exceeded max depth", says: fmt.Sprintf("nested more than %d deep", maxDepth),
		do: "Close the brackets that were opened."},
	{has: "unknown anchor", says: "an alias (*) to nothing: expected the value itself",
		do: "Put quotes around words that begin with *."},
	{has: "mapping values are not allowed", says: "a second colon, or a key that is further in than the one above",
		do: "Put quotes around words with a colon in them, and line the keys up."},
	{has: "cannot start any token", says: "a character that no value may begin with",
		do: "Put quotes around the words, and indent with spaces, not tabs."},
	{has: "scanning a quoted scalar", says: "a quotation mark without its partner", do: "Close the quotation mark.",
		atStart: true},
	{has: "parsing a flow mapping", says: "a { without its }, or parts without a comma between them",
		do: "Close the bracket, or put the comma in.", atStart: true},
	{has: "parsing a flow sequence", says: "a [ without its ], or parts without a comma between them",
		do: "Close the bracket, or put the comma in.", atStart: true},
	{has: "parsing a flow node", says: "a bracket without its partner, or a comma with nothing after it",
		do: "Close the bracket."},
	{has: "parsing a block mapping", says: "a line that is no key", do: "Write key: value, and line the keys up."},
	{has: "could not find expected ':'", says: "a line without a colon: expected key: value",
		do: "Put a colon and a space after the key.", atStart: true},
	{has: "parsing a block collection", says: "a line that is no part of the list",
		do: "Begin each part with - and line them up."},
	{has: "did not find expected <document start>", says: "more after the end of the value",
		do: "Write key: value, one on a line."},
	{has: "tab character", says: "a tab where the line is indented", do: "Indent with spaces."},
}

// standaloneLines is a map of the lines of a text that stand by themselves as key: value,
// the first of each key.
func (r *reading) standaloneLines(text []byte) *yaml.Node {
	root := &yaml.Node{Kind: yaml.MappingNode, Line: 1, Column: 1}
	for i, line := range bytes.Split(text, []byte("\n")) {
		if len(line) == 0 || line[0] == ' ' || line[0] == '#' || line[0] == '-' || len(line) > maxLine ||
			len(root.Content) > 2*maxErrors {
			continue
		}
		one, err := parseTree(line)
		if err != nil || one == nil || one.Kind != yaml.MappingNode || len(one.Content) < 2 {
			continue
		}
		for _, n := range one.Content {
			n.Line += i
		}
		root.Content = append(root.Content, one.Content[:2]...)
	}
	return root
}

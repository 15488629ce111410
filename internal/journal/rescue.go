package journal

import (
	"bytes"

	"go.yaml.in/yaml/v4"
)

// lines is a map of the lines of a text that stand by themselves as key: value,
// the first of each key.
func (r *reading) lines(text []byte) *yaml.Node {
	root := &yaml.Node{Kind: yaml.MappingNode, Line: 1, Column: 1}
	for i, line := range bytes.Split(text, []byte("\n")) {
		if len(line) == 0 || line[0] == ' ' || line[0] == '#' || line[0] == '-' || len(line) > maxLine || len(root.Content) > 2*maxErrors {
			continue
		}
		one, err := parseTree(line)
		if err != nil || one == nil || one.Kind != yaml.MappingNode {
			continue
		}
		for _, n := range one.Content {
			n.Line += i
		}
		root.Content = append(root.Content, one.Content[:2]...)
	}
	return root
}

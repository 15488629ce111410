package journal

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"go.yaml.in/yaml/v4"

	"gylebook/internal/notice"
)

// setFile stands in place of a file's name for values that a what-if supplied.
const setFile = "--set"

// pathStep is one part of a set's path: a key, or the number of a part of a list.
type pathStep struct {
	key    string
	index  int // of a list where key is ""
	append bool
}

// apply puts every set into the tree, in their order, and returns its root.
func (r *reading) apply(root *yaml.Node) *yaml.Node {
	for i, set := range r.sets {
		line := -(i + 1)
		if root == nil {
			root = &yaml.Node{Kind: yaml.MappingNode, Line: line, Column: 1}
		}
		path, value, found := strings.Cut(set, "=")
		steps, fault := stepsOf(strings.TrimSpace(path))
		if !found {
			fault = "no =: expected KEY=VALUE"
		}
		if fault == "" {
			fault = setValue(root, steps, strings.TrimSpace(value), line)
		}
		if fault != "" {
			place := notice.Place{File: setFile, Line: i + 1, Column: 1}
			r.report(place, idBadSet, path, fmt.Sprintf("%s: %s", shorten(path, longestWord), fault),
				"Write it as racked.volume=20 L, hops[0].weight=30 g or next[+]=words.")
		}
	}
	return root
}

// stepsOf takes a path apart; fault says what is wrong with it.
func stepsOf(path string) (steps []pathStep, fault string) {
	for part := range strings.SplitSeq(path, ".") {
		key, numbers, _ := strings.Cut(part, "[")
		if key == "" {
			return nil, "a path with nothing between its dots"
		}
		steps = append(steps, pathStep{key: key})
		if numbers == "" && !strings.HasSuffix(part, "[") {
			continue
		}
		for number := range strings.SplitSeq(numbers, "[") {
			s, ok := numbered(number)
			if !ok {
				return nil, fmt.Sprintf("[%s: expected [0], [1] … or [+]", number)
			}
			steps = append(steps, s)
		}
	}
	if len(steps) > maxDepth {
		return nil, "a path deeper than any value"
	}
	return steps, ""
}

// numbered reads "0]" or "+]".
func numbered(text string) (pathStep, bool) {
	inner, ok := strings.CutSuffix(text, "]")
	if !ok {
		return pathStep{}, false
	}
	if inner == "+" {
		return pathStep{append: true}, true
	}
	n, err := strconv.Atoi(inner)
	return pathStep{index: n}, err == nil && n >= 0
}

// setValue walks to the last step, making what is absent, and puts the value
// there, or takes away what is there where the value is empty.
func setValue(root *yaml.Node, steps []pathStep, value string, line int) (fault string) {
	node, fault := valueNode(value, line)
	if fault != "" {
		return fault
	}
	at := root
	for i, s := range steps[:len(steps)-1] {
		next, fault := s.follow(at, steps[i+1], line)
		if fault != "" {
			return fault
		}
		at = next
	}
	return steps[len(steps)-1].put(at, node)
}

// valueNode is the node of a typed value, nil for an empty one. Brackets and
// quotes are YAML; anything else is the words as they stand.
func valueNode(value string, line int) (node *yaml.Node, fault string) {
	if value == "" {
		return nil, ""
	}
	if !strings.ContainsRune(`[{"'`, rune(value[0])) {
		return &yaml.Node{Kind: yaml.ScalarNode, Tag: "!!str", Value: value, Line: line, Column: 1}, ""
	}
	node, err := parseTree([]byte(value))
	if err != nil {
		return nil, faultOf(err).says
	}
	relocate(node, line)
	return node, ""
}

// relocate gives a node and all below it the line of a set.
func relocate(n *yaml.Node, line int) {
	n.Line, n.Column = line, 1
	for _, part := range n.Content {
		relocate(part, line)
	}
}

// follow is the node that a step leads to, made in the shape that the next step
// needs where it is absent.
func (s pathStep) follow(at *yaml.Node, next pathStep, line int) (node *yaml.Node, fault string) {
	slot, fault := s.slot(at)
	if fault != "" {
		return nil, fault
	}
	if slot != nil && !isNull(*slot) {
		return *slot, ""
	}
	made := &yaml.Node{Kind: yaml.MappingNode, Line: line, Column: 1}
	if next.key == "" {
		made.Kind = yaml.SequenceNode
	}
	return made, s.put(at, made)
}

// slot is where the step's node is kept, nil where it is absent.
func (s pathStep) slot(at *yaml.Node) (slot **yaml.Node, fault string) {
	switch {
	case s.key != "" && at.Kind == yaml.MappingNode:
		for i := 0; i+1 < len(at.Content); i += 2 {
			if at.Content[i].Value == s.key {
				return &at.Content[i+1], ""
			}
		}
		return nil, ""
	case s.key != "":
		return nil, fmt.Sprintf("no place for %s: it is in a %s", s.key, shapeOf(at))
	case at.Kind == yaml.MappingNode && s.index == 0 && !s.append:
		return &at, "" // a single map stands for a list of one
	case at.Kind != yaml.SequenceNode:
		return nil, "a number in brackets after a " + shapeOf(at)
	case s.append:
		return nil, ""
	case s.index >= len(at.Content):
		return nil, fmt.Sprintf("[%d]: the list has %d, counted from 0; [+] adds one", s.index, len(at.Content))
	}
	return &at.Content[s.index], ""
}

// put sets, adds or takes away the step's node.
func (s pathStep) put(at, node *yaml.Node) (fault string) {
	slot, fault := s.slot(at)
	switch {
	case fault != "":
		return fault
	case slot != nil && node != nil && *slot != at:
		*slot = node
	case slot != nil && node != nil:
		*at = *node
	case slot != nil && s.key != "":
		i := slices.Index(at.Content, *slot)
		at.Content = slices.Delete(at.Content, i-1, i+1)
	case slot != nil && *slot != at:
		at.Content = slices.Delete(at.Content, s.index, s.index+1)
	case node == nil: // nothing there to take away
	case s.key != "":
		key := &yaml.Node{Kind: yaml.ScalarNode, Tag: "!!str", Value: s.key, Line: node.Line, Column: 1}
		at.Content = append(at.Content, key, node)
	default:
		at.Content = append(at.Content, node)
	}
	return ""
}

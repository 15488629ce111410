package scribe

import (
	"fmt"
	"strconv"
	"strings"
	"unicode/utf8"

	"gylebook/internal/journal"
)

// put sets one value at its path, making what the path lacks. It refuses to
// touch what is there.
func (p *page) put(v Value) error {
	o, err := journal.OutlineOf(p.raw)
	if err != nil {
		return err
	}
	steps := stepsOf(v.Key)
	at, part := "", o.Root
	for i, step := range steps {
		if step.key == "" {
			if part, err = p.numbered(part, step.n, at); err != nil {
				return err
			}
			at += fmt.Sprintf("[%d]", step.n)
			continue
		}
		if part.Shape != journal.Map {
			return p.already(at, part)
		}
		key := part.Key(step.key)
		if at != "" {
			at += "."
		}
		at += step.key
		if key == nil {
			return p.addKey(o.Root, part, step.key, nested(steps[i+1:], v.yaml()))
		}
		if key.Value.Blank {
			return p.fill(key, at, nested(steps[i+1:], v.yaml()))
		}
		part = key.Value
	}
	if v.Instead && (part.Shape == journal.Single || v.Many != nil && part.Flow) {
		p.insert(insertion{at: part.Start, text: v.yaml(), gone: string(p.raw[part.Start:part.End])})
		return nil
	}
	return p.already(at, part)
}

// step is one step of a path: a key, or where that is "" the number of a part.
type step struct {
	key string
	n   int
}

// stepsOf takes a path such as yeast[0].pitched apart.
func stepsOf(path string) []step {
	var steps []step
	for part := range strings.SplitSeq(path, ".") {
		key, rest, _ := strings.Cut(part, "[")
		steps = append(steps, step{key: key})
		for rest != "" {
			number, after, _ := strings.Cut(rest, "]")
			n, err := strconv.Atoi(number)
			if err != nil {
				break
			}
			steps = append(steps, step{n: n})
			rest = strings.TrimPrefix(after, "[")
		}
	}
	return steps
}

// nested is a value under the steps that lead to it, in brackets.
func nested(steps []step, value string) string {
	if len(steps) == 0 {
		return value
	}
	inner := nested(steps[1:], value)
	if steps[0].key == "" {
		return "[" + inner + "]"
	}
	return "{" + steps[0].key + ": " + inner + "}"
}

// numbered is the nth part of a list; a single map stands for a list of one.
func (p *page) numbered(part *journal.Part, n int, at string) (*journal.Part, error) {
	switch {
	case part.Shape == journal.Map && n == 0:
		return part, nil
	case part.Shape == journal.List && n < len(part.Parts):
		return part.Parts[n], nil
	case part.Shape == journal.List:
		return nil, fmt.Errorf("%s[%d] is not there: the list on line %d has %d, counted from 0", at, n,
			p.line(part.Start), len(part.Parts))
	}
	return nil, p.already(at, part)
}

// already says that something stands where a value should go.
func (p *page) already(at string, part *journal.Part) error {
	return fmt.Errorf("%s already says %s, on line %d; if it is wrong, jot the same with "+
		"--instead, or correct it in the file", at, p.excerpt(part),
		p.line(part.Start))
}

// excerpt is what stands in a part, on one line and shortened.
func (p *page) excerpt(part *journal.Part) string {
	text := strings.Join(strings.Fields(string(p.raw[part.Start:part.End])), " ")
	if utf8.RuneCountInString(text) > 60 {
		text = string([]rune(text)[:60]) + "…"
	}
	return text
}

// line is the line of the file that has the byte at.
func (p *page) line(at int) int { return len(linesOf(append(p.raw[:at:at], '.'))) }

// fill puts a value after the colon of a key that has none.
func (p *page) fill(key *journal.Key, at, value string) error {
	if key.Value.Text != "" || key.Value.End > key.After || key.After < 0 {
		return fmt.Errorf("%s says %s on line %d, which stands for nothing; take it out first", at,
			p.excerpt(key.Value), p.line(key.Start))
	}
	p.insert(insertion{at: key.After, text: " " + value})
	return nil
}

// addKey puts a new key into a map: into the braces of one in braces; at the
// place that the vocabulary gives it among the keys of the whole entry; last in
// any other.
func (p *page) addKey(root, part *journal.Part, key, value string) error {
	text := key + ": " + value
	switch {
	case part.Flow:
		return p.appendFlow(part, text)
	case len(part.Keys) == 0:
		return fmt.Errorf("there is no telling where %s would go", key)
	}
	above := &part.Keys[len(part.Keys)-1]
	if part == root {
		above = keyAbove(part, key)
	}
	indent := strings.Repeat(" ", part.Column)
	if above == nil {
		p.insert(insertion{at: p.lineStart(part.Start), text: indent + text + p.lineEnd()})
		return nil
	}
	p.insert(insertion{at: p.below(above.Value.End, part.Column+1), text: indent + text + p.lineEnd()})
	return nil
}

// keyAbove is the key that a new one goes below: the last of those that stand
// before it in the vocabulary; nil where there is none.
func keyAbove(part *journal.Part, key string) *journal.Key {
	order, at := rank(), -1
	for i, k := range part.Keys {
		if place, known := order[k.Name]; known && place < order[key] &&
			(at < 0 || place >= order[part.Keys[at].Name]) {
			at = i
		}
	}
	if at < 0 {
		return nil
	}
	return &part.Keys[at]
}

// below is the start of the line below a value, past the comments that belong to
// it.
func (p *page) below(end, deep int) int { return p.pastComments(p.nextLine(end), deep) }

package scribe

import (
	"bytes"
	"fmt"
	"strings"

	"gylebook/internal/journal"
)

// add puts a new part at the end of a list, making the list where there is none.
func (p *page) add(j Jotting) error {
	o, err := journal.OutlineOf(p.raw)
	if err != nil {
		return err
	}
	key := o.Root.Key(j.List)
	switch {
	case key == nil && o.Root.Flow:
		return p.appendFlow(o.Root, j.List+": ["+j.flow(false)+"]")
	case key == nil:
		return p.newList(o.Root, j)
	case key.Value.Blank && (key.Value.Text != "" || key.Value.End > key.After):
		return p.fill(key, j.List, "")
	case key.Value.Blank && o.Root.Flow:
		return p.fill(key, j.List, "["+j.flow(false)+"]")
	case key.Value.Blank:
		p.insert(insertion{at: p.below(key.After, o.Root.Column+1), text: p.dashed(o.Root, j)})
		return nil
	case key.Value.Shape != journal.List:
		return p.already(j.List, key.Value)
	case key.Value.Flow:
		return p.appendFlow(key.Value, j.flow(p.padded(key.Value)))
	}
	return p.appendBlock(key.Value, j)
}

// flow is the new part in braces, with or without a blank inside them.
func (j Jotting) flow(padded bool) string {
	if j.Values[0].Key == "" {
		return j.Values[0].yaml()
	}
	text := strings.Join(j.lines(), ", ")
	if padded {
		return "{ " + text + " }"
	}
	return "{" + text + "}"
}

// lines is each key of the new part with its value.
func (j Jotting) lines() []string {
	var lines []string
	for _, v := range j.Values {
		lines = append(lines, v.Key+": "+v.yaml())
	}
	return lines
}

// padded tells whether the last map of a list has a blank inside its braces.
func (p *page) padded(list *journal.Part) bool {
	if len(list.Parts) == 0 {
		return false
	}
	last := list.Parts[len(list.Parts)-1]
	return last.Flow && last.Shape == journal.Map && last.End-last.Start > 3 && p.raw[last.Start+1] == ' '
}

// newList puts a list with one part into the entry, by indentation.
func (p *page) newList(root *journal.Part, j Jotting) error {
	text := strings.Repeat(" ", root.Column) + j.List + ":" + p.lineEnd() + p.dashed(root, j)
	if above := keyAbove(root, j.List); above != nil {
		p.insert(insertion{at: p.below(above.Value.End, root.Column+1), text: text})
		return nil
	}
	p.insert(insertion{at: p.lineStart(root.Start), text: text})
	return nil
}

// dashed is the first part of a list as a line, indented as the entry indents
// its other lists, else by two.
func (p *page) dashed(root *journal.Part, j Jotting) string {
	indent := strings.Repeat(" ", root.Column+2)
	for _, k := range root.Keys {
		if v := k.Value; v.Shape == journal.List && !v.Flow && len(v.Parts) > 0 {
			if before, _, ok := p.dash(v.Parts[0]); ok {
				indent = before
				break
			}
		}
	}
	return indent + "- " + j.flow(false) + p.lineEnd()
}

// dash is what stands before and after the dash of a part of a list.
func (p *page) dash(part *journal.Part) (indent, gap string, ok bool) {
	start := p.lineStart(part.Start)
	before := p.raw[start:part.Start]
	bare := bytes.TrimRight(before, " \t")
	if len(bare) == 0 || bare[len(bare)-1] != '-' || len(bytes.TrimLeft(bare[:len(bare)-1], " ")) > 0 {
		return "", "", false
	}
	return string(bare[:len(bare)-1]), string(before[len(bare):]), true
}

// appendBlock puts a new part below the last one of a list by indentation, in
// that one's manner.
func (p *page) appendBlock(list *journal.Part, j Jotting) error {
	last := list.Parts[len(list.Parts)-1]
	indent, gap, ok := p.dash(last)
	if !ok {
		return fmt.Errorf("the last part of %s, on line %d, does not stand beside its dash, and there is no telling "+
			"how to go on", j.List, p.line(last.Start))
	}
	text := j.flow(p.padded(list))
	if last.Shape == journal.Map && !last.Flow && j.Values[0].Key != "" {
		text = strings.Join(j.lines(), p.lineEnd()+indent+" "+strings.Repeat(" ", len(gap)))
	}
	p.insert(insertion{at: p.below(last.End, max(1, len(indent))), text: indent + "-" + gap + text + p.lineEnd()})
	return nil
}

// oneMap says that a list is written as the one map that may stand for it.
func (p *page) oneMap(key *journal.Key) error {
	return fmt.Errorf("%s is written as one map, on line %d, and there is no adding to that; make it a list first, "+
		"with a dash before it", key.Name, p.line(key.Start))
}

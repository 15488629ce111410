package scribe

import (
	"bytes"
	"fmt"

	"gylebook/internal/journal"
)

// appendFlow puts text before the bracket that closes a map or list, with the
// commas it needs: on the line of what stands last, or on one of its own where
// that has one.
func (p *page) appendFlow(part *journal.Part, text string) error {
	start, end, any := lastOf(part)
	closing := part.End - 1
	if end < 0 || closing < end {
		return fmt.Errorf("there is no telling what stands before the bracket on line %d", p.line(part.Start))
	}
	if !any {
		p.insert(insertion{at: part.Start + 1, text: text})
		return nil
	}
	rest := p.raw[end:closing]
	comma := commaIn(rest)
	own := p.beginsLine(start) && p.lineStart(start) > part.Start
	switch {
	case bytes.ContainsAny(rest, "\r\n"):
		p.appendLine(part, start, end, closing, comma, text)
	case own && comma >= 0:
		p.insert(insertion{at: end + comma + 1, text: p.lineEnd() + p.indentOf(start) + text + ","})
	case own:
		p.insert(insertion{at: end, text: "," + p.lineEnd() + p.indentOf(start) + text})
	case comma >= 0:
		p.insert(insertion{at: end + comma + 1, text: " " + text})
	default:
		p.insert(insertion{at: end, text: ", " + text})
	}
	return nil
}

// lastOf is where the last part of a map or list stands, and whether there is
// one; end is -1 where that cannot be told.
func lastOf(part *journal.Part) (start, end int, any bool) {
	switch {
	case part.Shape == journal.Map && len(part.Keys) > 0:
		k := part.Keys[len(part.Keys)-1]
		if k.After < 0 {
			return k.Start, k.End, true
		}
		return k.Start, max(k.After, k.Value.End), true
	case part.Shape == journal.List && len(part.Parts) > 0:
		last := part.Parts[len(part.Parts)-1]
		return last.Start, last.End, true
	}
	return part.Start, part.Start + 1, false
}

// commaIn is where a comma stands in what follows the last part, comments left
// out; -1 for none.
func commaIn(rest []byte) int {
	comment := false
	for i, c := range rest {
		switch {
		case c == '\n' || c == '\r':
			comment = false
		case c == '#':
			comment = true
		case c == ',' && !comment:
			return i
		}
	}
	return -1
}

// appendLine puts text on a line of its own, where the closing bracket has one:
// below what stands last and the comments after that.
func (p *page) appendLine(part *journal.Part, start, end, closing, comma int, text string) {
	indent := p.indentOf(start)
	if p.lineStart(start) <= part.Start {
		indent += "  "
	}
	last := end + len(bytes.TrimRight(p.raw[end:closing], " \t\r\n"))
	line := insertion{at: p.textEnd(last), text: p.lineEnd() + indent + text}
	if comma >= 0 {
		line.text += ","
		p.insert(line)
		return
	}
	p.insert(insertion{at: end, text: ","}, line)
}

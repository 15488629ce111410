package scribe

import (
	"bytes"
	"fmt"
	"slices"
	"strings"
)

// Edit is a file before and after something was added to it.
type Edit struct {
	File          string // slash path in the journal
	Before, After []byte
	// Remarks say what was left as it is, for whoever typed it.
	Remarks []string

	steps [][]insertion
}

// insertion is text put before the byte at of the file as it was.
type insertion struct {
	at   int
	text string
}

// Undo takes out of After what was added, by where it was added.
func (e *Edit) Undo() []byte {
	raw := slices.Clone(e.After)
	for _, step := range slices.Backward(e.steps) {
		for _, in := range step { // from the left: what stands before is out already
			if in.at+len(in.text) > len(raw) {
				return nil
			}
			raw = slices.Delete(raw, in.at, in.at+len(in.text))
		}
	}
	return raw
}

// Added is how many bytes were added.
func (e *Edit) Added() int { return len(e.After) - len(e.Before) }

// around is how many unchanged lines a Diff shows on both sides.
const around = 2

// Diff is the change as lines: those taken away after -, those put in their
// place after +, and a few around them. An edit in a line is both.
func (e *Edit) Diff() string {
	before, after := linesOf(e.Before), linesOf(e.After)
	same, tail := unchanged(before, after)
	first := max(0, same-around)
	var b strings.Builder
	fmt.Fprintf(&b, "@@ line %d @@\n", first+1)
	show := func(mark string, lines []string) {
		for _, line := range lines {
			b.WriteString(strings.TrimRight(mark+line, " ") + "\n")
		}
	}
	show("  ", before[first:same])
	show("- ", before[same:len(before)-tail])
	show("+ ", after[same:len(after)-tail])
	show("  ", before[len(before)-tail:min(len(before), len(before)-tail+around)])
	return b.String()
}

// Lines is the lines that are new or changed, and the number of the first.
func (e *Edit) Lines() (first int, lines []string) {
	after := linesOf(e.After)
	same, tail := unchanged(linesOf(e.Before), after)
	return same + 1, after[same : len(after)-tail]
}

// unchanged is how many lines two files have alike at their start and end.
func unchanged(before, after []string) (start, end int) {
	short := min(len(before), len(after))
	for start < short && before[start] == after[start] {
		start++
	}
	for end < short-start && before[len(before)-1-end] == after[len(after)-1-end] {
		end++
	}
	return start, end
}

// linesOf is a file's lines without their ends.
func linesOf(raw []byte) []string {
	text := strings.ReplaceAll(string(bytes.TrimPrefix(raw, []byte("\uFEFF"))), "\r\n", "\n")
	return strings.Split(strings.TrimSuffix(strings.ReplaceAll(text, "\r", "\n"), "\n"), "\n")
}

// page is a file that is being written into. Its outline is of the bytes as they
// are now.
type page struct {
	raw   []byte
	steps [][]insertion
}

// insert puts texts into the page, all places being of the bytes before.
func (p *page) insert(step ...insertion) {
	slices.SortStableFunc(step, func(a, b insertion) int { return a.at - b.at })
	var out []byte
	from := 0
	for _, in := range step {
		out = append(out, p.raw[from:in.at]...)
		out = append(out, in.text...)
		from = in.at
	}
	p.raw = append(out, p.raw[from:]...)
	p.steps = append(p.steps, step)
}

// lineEnd is the end of line that the file has: of its first line.
func (p *page) lineEnd() string {
	i := bytes.IndexAny(p.raw, "\r\n")
	switch {
	case i < 0 || p.raw[i] == '\n':
		return "\n"
	case i+1 < len(p.raw) && p.raw[i+1] == '\n':
		return "\r\n"
	}
	return "\r"
}

// lineStart is the first byte of the line that has the byte at.
func (p *page) lineStart(at int) int { return bytes.LastIndexAny(p.raw[:at], "\r\n") + 1 }

// textEnd is the byte after the text of the line that has the byte at, before
// its end of line.
func (p *page) textEnd(at int) int {
	if i := bytes.IndexAny(p.raw[at:], "\r\n"); i >= 0 {
		return at + i
	}
	return len(p.raw)
}

// nextLine is the first byte of the line after the one that has the byte at.
func (p *page) nextLine(at int) int {
	end := p.textEnd(at)
	if end+1 < len(p.raw) && p.raw[end] == '\r' && p.raw[end+1] == '\n' {
		return end + 2
	}
	return min(end+1, len(p.raw))
}

// indentOf is the blanks that the line of the byte at begins with.
func (p *page) indentOf(at int) string {
	start := p.lineStart(at)
	line := p.raw[start:p.textEnd(start)]
	return string(line[:len(line)-len(bytes.TrimLeft(line, " \t"))])
}

// beginsLine tells whether nothing but blanks stands before the byte at.
func (p *page) beginsLine(at int) bool {
	return len(bytes.Trim(p.raw[p.lineStart(at):at], " \t\uFEFF")) == 0
}

// pastComments is the line after those that are comments indented by so much or
// more, which belong to what stands above them. It begins at a line's start.
func (p *page) pastComments(line, deep int) int {
	for line < len(p.raw) {
		text := p.raw[line:p.textEnd(line)]
		bare := bytes.TrimLeft(text, " ")
		if len(bare) == 0 || bare[0] != '#' || len(text)-len(bare) < deep {
			break
		}
		line = p.nextLine(line)
	}
	return line
}

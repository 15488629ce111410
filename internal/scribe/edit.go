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

// insertion is text put before the byte at of the file as it was, in the place
// of what stood there where something is gone.
type insertion struct {
	at   int
	text string
	gone string
}

// Undo takes out of After what was added, by where it was added.
func (e *Edit) Undo() []byte {
	raw := slices.Clone(e.After)
	for _, step := range slices.Backward(e.steps) {
		for _, in := range step { // from the left: what stands before is out already
			if in.at+len(in.text) > len(raw) {
				return nil
			}
			raw = slices.Replace(raw, in.at, in.at+len(in.text), []byte(in.gone)...)
		}
	}
	return raw
}

// Line is a line of a file that something was added to, or that is new.
type Line struct {
	Number int // in the file as it is after
	Text   string
	Was    string // as it was before; "" for a new line
}

// Lines are the lines that are new or changed, in order.
func (e *Edit) Lines() []Line {
	var all []Line
	start, number := 0, 1
	raw, added, gone := e.marked()
	for start < len(raw) {
		end, next := lineAt(raw, start)
		var was []byte
		changed := false
		for i := start; i < end; i++ {
			was = append(was, gone[i]...)
			if added[i] {
				changed = true
			} else {
				was = append(was, raw[i])
			}
		}
		if changed {
			all = append(all, Line{number, string(raw[start:end]), string(was)})
		}
		start, number = next, number+1
	}
	return all
}

// marked is the file after, with a mark on every byte that was added, and what
// is gone before it.
func (e *Edit) marked() (raw []byte, added []bool, gone []string) {
	added, gone = make([]bool, len(e.Before)), make([]string, len(e.Before))
	for _, step := range e.steps {
		for _, in := range slices.Backward(step) { // from the right: what stands before keeps its place
			end := in.at + len(in.gone)
			added = slices.Replace(added, in.at, end, slices.Repeat([]bool{true}, len(in.text))...)
			texts := make([]string, len(in.text))
			if in.gone != "" {
				texts[0] = in.gone
			}
			gone = slices.Replace(gone, in.at, end, texts...)
		}
	}
	return e.After, added, gone
}

// lineAt is where the text of the line that begins at start ends, and where the
// next begins.
func lineAt(raw []byte, start int) (end, next int) {
	i := bytes.IndexAny(raw[start:], "\r\n")
	if i < 0 {
		return len(raw), len(raw)
	}
	end = start + i
	if bytes.HasPrefix(raw[end:], []byte("\r\n")) {
		return end, end + 2
	}
	return end, end + 1
}

// around is how many unchanged lines a Diff shows on both sides.
const around = 2

// Diff is the change as lines: those that something is added to, as they were
// after - and as they will be after +, new ones after +, and a few around them.
func (e *Edit) Diff() string {
	all, changed := linesOf(e.After), map[int]Line{}
	for _, l := range e.Lines() {
		changed[l.Number-1] = l
	}
	near := func(i int) bool {
		for d := -around; d <= around; d++ {
			if _, is := changed[i+d]; is {
				return true
			}
		}
		return false
	}
	var b strings.Builder
	for i, text := range all {
		switch l, is := changed[i]; {
		case !near(i):
			continue
		case i == 0 || !near(i-1):
			fmt.Fprintf(&b, "@@ line %d @@\n", i+1)
			fallthrough
		default:
			if is && l.Was != "" {
				b.WriteString("- " + l.Was + "\n")
			}
			mark := "  "
			if is {
				mark = "+ "
			}
			b.WriteString(strings.TrimRight(mark+text, " ") + "\n")
		}
	}
	return b.String()
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
		from = in.at + len(in.gone)
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

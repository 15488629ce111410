package main

import (
	"fmt"
	"io"
	"math"
	"os"
	"strings"
	"sync"
	"unicode/utf8"

	"golang.org/x/term"

	"gylebook/internal/notice"
	"gylebook/internal/quantity"
)

// paper is what is written on: how wide it is and whether it takes colour.
type paper struct {
	io.Writer
	width    int // in characters
	colour   bool
	terminal bool
}

// usual is the width to write for where nothing tells another, and the most
// that is pleasant to read.
const (
	usual    = 80
	narrow   = 30
	broadest = 100
)

// paper is w as this call may use it.
func (c *call) paper(w io.Writer) paper {
	p := paper{Writer: w, width: usual}
	file, is := w.(*os.File)
	if !is || !term.IsTerminal(int(file.Fd())) {
		return p
	}
	p.terminal = true
	p.colour = !c.NoColor && c.getenv("NO_COLOR") == "" && c.getenv("TERM") != "dumb"
	if width, _, err := term.GetSize(int(file.Fd())); err == nil && width > 0 {
		p.width = min(max(width, narrow), broadest)
	}
	return p
}

// The colours are the terminal's own, so that they suit its ground.
const (
	red    = "\x1b[1;31m"
	yellow = "\x1b[33m"
	faint  = "\x1b[2m"
	bold   = "\x1b[1m"
	plain  = "\x1b[0m"
)

func (p paper) ink(colour, text string) string {
	if !p.colour || colour == "" {
		return text
	}
	return colour + text + plain
}

// heading writes a heading, with a blank line before it.
func (p paper) heading(text string) { fmt.Fprintf(p, "\n%s\n", p.ink(bold, text)) }

// severity is a severity's word in its colour.
func (p paper) severity(s notice.Severity) string {
	switch s {
	case notice.Unreadable, notice.Danger:
		return p.ink(red, s.String())
	case notice.Mend:
		return p.ink(yellow, s.String())
	case notice.Note:
		return p.ink(faint, s.String())
	}
	return p.ink(bold, s.String())
}

// wrap breaks text into lines that are at most width characters, between words
// and never between a number and its unit. A word that is longer has a line of
// its own. Breaks in the text stay.
func wrap(text string, width int) []string {
	var lines []string
	for paragraph := range strings.SplitSeq(text, "\n") {
		line, length := "", 0
		for _, word := range phrases(paragraph) {
			n := utf8.RuneCountInString(word)
			if length > 0 && length+1+n > width {
				lines = append(lines, line)
				line, length = "", 0
			}
			if length > 0 {
				line += " "
				length++
			}
			line += word
			length += n
		}
		lines = append(lines, line)
	}
	return lines
}

// phrases is the words of a text, a number together with its ± and its unit.
func phrases(text string) []string {
	var all []string
	for word := range strings.FieldsSeq(text) {
		last := len(all) - 1
		bare := strings.TrimRight(word, ".,;:)]")
		switch {
		case last >= 0 && strings.HasSuffix(all[last], "±"), last >= 0 && bare == "±",
			last >= 0 && endsInDigit(all[last]) && unitSymbols()[bare]:
			all[last] += " " + word
		default:
			all = append(all, word)
		}
	}
	return all
}

func endsInDigit(word string) bool {
	return word != "" && word[len(word)-1] >= '0' && word[len(word)-1] <= '9'
}

// unitSymbols is every unit as it is printed.
var unitSymbols = sync.OnceValue(func() map[string]bool {
	all := map[string]bool{}
	for _, kind := range quantity.AllKinds() {
		for _, unit := range kind.Units {
			all[unit.Symbol] = unit.Symbol != ""
		}
	}
	return all
})

// indented writes text wrapped, each line after an indent.
func (p paper) indented(indent, text string) {
	p.hanging(indent, indent, text)
}

// answer writes text of one line: wrapped on a screen, whole in a pipe.
func (p paper) answer(text string) {
	if !p.terminal {
		p.width = math.MaxInt
	}
	p.hanging("", "", text)
}

// hanging writes text wrapped, the first line after one indent and the rest
// after another.
func (p paper) hanging(first, rest, text string) {
	for _, line := range wrap(text, p.width-utf8.RuneCountInString(rest)) {
		io.WriteString(p, strings.TrimRight(first+line, " ")+"\n")
		first = rest
	}
}

// pad fills text with spaces on its right up to width characters.
func pad(text string, width int) string {
	return text + strings.Repeat(" ", max(0, width-utf8.RuneCountInString(text)))
}

// padLeft fills text with spaces on its left.
func padLeft(text string, width int) string {
	return strings.Repeat(" ", max(0, width-utf8.RuneCountInString(text))) + text
}

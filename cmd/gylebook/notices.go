package main

import (
	"fmt"
	"strings"
	"unicode/utf8"

	"gylebook/internal/notice"
)

// printNotice writes a notice: its line, and below it the line of the entry that
// could not be read, why it matters, and what to do.
func (p paper) printNotice(o *opened, n notice.Notice) {
	p.printHeadline(o, n)
	if n.Line != "" {
		p.printLine(n)
	}
	if n.Why != "" && n.Place.File != setFile { // a bad set is refused, and has no consequences
		p.indented("    ", n.Why)
	}
	if n.Do != "" {
		p.indented("    ", n.Do)
	}
}

// printHeadline writes file:line:col: severity: text [id]. It stays on one line
// where no one reads it on a screen, since editors follow it.
func (p paper) printHeadline(o *opened, n notice.Notice) {
	place := n.Place
	if place.File != setFile {
		place.File = o.shown(place.File)
	}
	text := fmt.Sprintf("%s: %s: %s", place, n.Severity, n.Says)
	if n.ID != "" {
		text += " [" + n.ID + "]"
	}
	if p.terminal {
		text = strings.Join(wrap(text, p.width), "\n")
	}
	at := len(place.String())
	fmt.Fprintln(p, text[:at]+strings.Replace(text[at:], n.Severity.String(), p.severity(n.Severity), 1))
}

// setFile stands where a notice is about a value that --set supplied.
const setFile = "--set"

// printLine writes the line of the file with a mark under the place, where it
// fits; a longer one is cut around the place.
func (p paper) printLine(n notice.Notice) {
	const indent = "    | "
	line := []rune(strings.ReplaceAll(n.Line, "\t", " "))
	at, room := n.Place.Column-1, p.width-utf8.RuneCountInString(indent)
	if cut := at - room/2; cut > 0 && len(line) > room {
		cut = min(cut, len(line)-room)
		line, at = append([]rune("…"), line[cut+1:]...), at-cut
	}
	if len(line) > room {
		line = append(line[:room-1], '…')
	}
	fmt.Fprintf(p, "%s%s\n", indent, p.ink(faint, string(line)))
	if at >= 0 && at < len(line) && n.Place.File != setFile {
		fmt.Fprintf(p, "%s%s%s\n", indent, strings.Repeat(" ", at), p.ink(red, "^"))
	}
}

// count says how many there are, in words: "1 error", "3 errors".
func count(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %s", n, many)
}

// severityCounts says how many notices there are of each severity, the gravest
// first: "2 errors, 1 danger, 3 to mend". It is "" for none.
func severityCounts(counts map[notice.Severity]int) string {
	var says []string
	for _, s := range []struct {
		severity  notice.Severity
		one, many string
	}{
		{notice.Unreadable, "error", "errors"},
		{notice.Danger, "danger", "dangers"},
		{notice.Mend, "to mend", "to mend"},
		{notice.Look, "to look at", "to look at"},
		{notice.Note, "note", "notes"},
	} {
		if n := counts[s.severity]; n > 0 {
			says = append(says, count(n, s.one, s.many))
		}
	}
	return strings.Join(says, ", ")
}

// Package notice is one message about the journal: where it points, how grave
// it is, what it says, why that matters and what to do about it.
//
// Reading errors and findings have this one shape, so that the terminal, the
// pages and the JSON all say the same words. A notice is a value: it is never
// an error of the machine (those are Go errors) and never a reason to stop.
//
// # How notices are worded
//
// Says is one sentence of what is the case, with the figure and its ± in it.
// Why is one sentence of what follows from it. Do begins with a verb and can be
// done with wet hands. No blame, no exclamation marks, "may" where the figures
// cannot tell. Nothing in it has more digits than its uncertainty supports.
package notice

import (
	"cmp"
	"fmt"
	"strings"
)

// Severity is how grave a notice is, in rising order.
type Severity int

// The severities. Unreadable is not a finding: something typed could not be
// read, and counts as absent.
const (
	Note       Severity = iota // worth knowing
	Look                       // check this
	Mend                       // act now and it can be put right
	Danger                     // someone or something may be hurt
	Unreadable                 // an error in the entry
)

var severityWords = [...]string{"note", "look", "mend", "danger", "error"}

// String is the severity's word as printed: note, look, mend, danger, error.
func (s Severity) String() string {
	if s < Note || s > Unreadable {
		return fmt.Sprintf("severity(%d)", int(s))
	}
	return severityWords[s]
}

// MarshalText gives the word, for JSON.
func (s Severity) MarshalText() ([]byte, error) { return []byte(s.String()), nil }

// ParseSeverity is the severity of a word; ok is false for none of them.
func ParseSeverity(word string) (s Severity, ok bool) {
	for i, w := range severityWords {
		if strings.EqualFold(w, word) {
			return Severity(i), true
		}
	}
	return 0, false
}

// Place is a position in a file of the journal. Lines and columns count from 1,
// columns in characters; a zero Line is the file as a whole.
type Place struct {
	File   string // slash path relative to the journal
	Line   int
	Column int
}

// String is file:line:col, as compilers print it and editors follow it.
func (p Place) String() string {
	switch {
	case p.Line == 0:
		return p.File
	case p.Column == 0:
		return fmt.Sprintf("%s:%d", p.File, p.Line)
	}
	return fmt.Sprintf("%s:%d:%d", p.File, p.Line, p.Column)
}

// Compare orders places by file, line and column.
func (p Place) Compare(q Place) int {
	return cmp.Or(strings.Compare(p.File, q.File), cmp.Compare(p.Line, q.Line), cmp.Compare(p.Column, q.Column))
}

// Notice is one message.
type Notice struct {
	Place    Place
	Severity Severity
	ID       string // names the rule: lower case words with hyphens
	Of       string // the part of the entry it is about, such as packages[1], or ""
	Also     string // other parts that it tells the same of, with spaces between
	Says     string
	Why      string
	Do       string
	Source   string // the publication it rests on, or "common practice, no source"
	Line     string // the line of the file itself, for errors
	// Accepted is the brewer's reason for living with it, or "".
	Accepted string
}

// String is the one-line form: file:line:col: severity: text [id].
func (n Notice) String() string {
	text := fmt.Sprintf("%s: %s: %s", n.Place, n.Severity, n.Says)
	if n.ID != "" {
		text += " [" + n.ID + "]"
	}
	return text
}

// Compare orders notices by place, then the graver first, then by id.
func Compare(a, b Notice) int {
	return cmp.Or(a.Place.Compare(b.Place), cmp.Compare(b.Severity, a.Severity), strings.Compare(a.ID, b.ID), strings.Compare(a.Of, b.Of))
}

// Graver orders notices by severity, the gravest first, then by place.
func Graver(a, b Notice) int {
	return cmp.Or(cmp.Compare(b.Severity, a.Severity), Compare(a, b))
}

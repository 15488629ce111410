package scribe

import (
	"fmt"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"gylebook/internal/journal"
)

// Plan is what a new entry begins with.
type Plan struct {
	Number int
	Beer   string
	// After is the entry whose recipe it carries, nil for none.
	After *Recipe
	// Notes stand as comments at the top, a paragraph each: what the gyle that it
	// comes after taught.
	Notes []string
	// Grist stands as a comment above the grist: what was scaled, and why.
	Grist string
}

// comment is how wide a line of comment may be, in characters.
const comment = 78

// Draft is the text of a new entry: every key of the vocabulary, in its order,
// with what the recipe says or nothing after it, and its meaning as a comment.
// Keys with nothing after them count as not written.
func Draft(p Plan) []byte {
	var b strings.Builder
	b.WriteString("---\n")
	remark(&b, "", "A key with nothing after it is not written yet: fill in what you know. gylebook words KEY tells "+
		"all about one; gylebook jot "+
		fmt.Sprint(p.Number)+" 1.022 19.5C writes readings in for you. Whatever stays empty may be taken out.")
	if len(p.Notes) > 0 && p.After != nil {
		b.WriteString("#\n")
		remark(&b, "", fmt.Sprintf("For this one, from gyle %d:", p.After.Number))
	}
	for _, note := range p.Notes {
		remark(&b, "", "- "+note)
	}
	b.WriteString("\n")
	words := journal.Words()
	for _, w := range words {
		if w.File == "gyle" && w.Path == w.Key {
			p.key(&b, w, below(words, "gyle", w))
		}
	}
	b.WriteString("---\n\n")
	if p.After != nil {
		fmt.Fprintf(&b, "After [gyle %d](gyle:%d).\n", p.After.Number, p.After.Number)
	} else {
		b.WriteString("What I mean to brew, and why.\n")
	}
	return []byte(b.String())
}

// below is the keys of a map, or of the maps of a list.
func below(words []journal.Word, file string, of journal.Word) []journal.Word {
	prefix := of.Path + "."
	if of.Type == "list of maps" {
		prefix = of.Path + "[]."
	}
	var all []journal.Word
	for _, w := range words {
		if w.File == file && w.Path == prefix+w.Key {
			all = append(all, w)
		}
	}
	return all
}

// open are the maps that a brewer fills in beforehand, a line for each key.
var open = []string{"aim", "liquor", "mash", "sparge", "copper"}

// key writes one key with its comment.
func (p Plan) key(b *strings.Builder, w journal.Word, parts []journal.Word) {
	switch {
	case w.Key == "gyle":
		line(b, "", w, fmt.Sprint(p.Number))
	case w.Key == "beer":
		line(b, "", w, spell(p.Beer))
	case w.Key == "follows" && p.After != nil:
		line(b, "", w, fmt.Sprint(p.After.Number))
	case len(parts) == 0:
		line(b, "", w, p.After.value(w.Key))
	case slices.Contains(open, w.Key):
		b.WriteString("\n")
		remark(b, "", w.Says)
		b.WriteString(w.Key + ":\n")
		for _, part := range parts {
			line(b, "  ", part, p.After.value(w.Key+"."+part.Key))
		}
	default:
		p.closed(b, w, parts)
	}
}

// closed writes a map or list of maps that is filled in as a whole, with its
// keys as a comment above it.
func (p Plan) closed(b *strings.Builder, w journal.Word, parts []journal.Word) {
	b.WriteString("\n")
	remark(b, "", w.Says)
	form := "{" + strings.Join(keysOf(parts), ", ") + "}"
	if w.Type == "list of maps" {
		form = "- " + form
	}
	remark(b, "  ", form)
	items := p.After.parts(w.Key)
	if w.Key == "grist" && len(items) > 0 && p.Grist != "" {
		remark(b, "", p.Grist)
	}
	b.WriteString(w.Key + ":\n")
	for _, item := range items {
		b.WriteString("  - " + item + "\n")
	}
}

func keysOf(words []journal.Word) []string {
	var all []string
	for _, w := range words {
		all = append(all, w.Key)
	}
	return all
}

// line writes a key, its value and its meaning.
func line(b *strings.Builder, indent string, w journal.Word, value string) {
	text := strings.TrimRight(indent+w.Key+": "+value, " ")
	if utf8.RuneCountInString(meaning(w)) > comment {
		remark(b, indent, w.Key+": "+meaning(w))
		b.WriteString(text + "\n")
		return
	}
	const column = 26
	gap := max(2, column-utf8.RuneCountInString(text))
	b.WriteString(text + strings.Repeat(" ", gap) + "# " + meaning(w) + "\n")
}

// meaning is what a key means and how it is written, in a line.
func meaning(w journal.Word) string {
	says := w.Says
	switch {
	case len(w.Choices) > 0 && w.Type == "choice":
		says += " (" + strings.Join(w.Choices, ", ") + ")"
	case w.Type == "quantity" || w.Type == "range" || w.Type == "moment":
		says += ", as " + w.Example
	case w.Type == "flag":
		says += " (true or false)"
	case (strings.HasPrefix(w.Type, "list of ") || w.Type == "map") && !strings.Contains(says, "such as"):
		says += ", as " + w.Example
	}
	return says
}

// remark writes a paragraph of comment.
func remark(b *strings.Builder, indent, text string) {
	line := "#" + indent
	for _, word := range strings.Fields(strings.Map(oneLine, text)) {
		if line != "#"+indent && utf8.RuneCountInString(line)+1+utf8.RuneCountInString(word) > comment {
			b.WriteString(line + "\n")
			line = "#" + indent + "  "
		}
		line += " " + word
	}
	b.WriteString(line + "\n")
}

// oneLine makes blanks of what would end a comment or is no text.
func oneLine(c rune) rune {
	if unicode.IsControl(c) || c == 0x2028 || c == 0x2029 || c == utf8.RuneError {
		return ' '
	}
	return c
}

// FileName is the name of an entry's file: its number and the beer's name.
func FileName(number int, beer string) string {
	var b strings.Builder
	fmt.Fprint(&b, number)
	gap := true
	for _, c := range strings.ToLower(beer) {
		switch {
		case b.Len() > 60:
		case unicode.IsLetter(c) || unicode.IsDigit(c):
			if gap {
				b.WriteByte('-')
			}
			b.WriteRune(c)
			gap = false
		case c != '\'' && c != '’':
			gap = true
		}
	}
	return b.String() + ".md"
}

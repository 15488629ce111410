package site

import (
	"strings"

	"gylebook/internal/journal"
	"gylebook/internal/site/view"
)

// ruled builds a table: columns first, then rows. Columns without anything in
// any row are left out at the end, since a half-filled entry is the normal case.
// A column that begins with # is of numbers, one with ~ says its head on a narrow
// screen too.
type ruled struct {
	view.Table
	spell speller
}

func (s *Site) newTable(id, title string, columns ...string) *ruled {
	t := &ruled{view.Table{ID: id, Title: title}, s.spell}
	for _, c := range columns {
		name, number := strings.CutPrefix(c, "#")
		name, said := strings.CutPrefix(name, "~")
		t.Columns = append(t.Columns, view.Column{Head: name, Number: number, Said: said})
	}
	return t
}

// row adds a row. A cell may be a view.Link, or whatever a speller can put as text.
func (t *ruled) row(cells ...any) {
	row := make([]view.Cell, len(cells))
	for i, c := range cells {
		if link, is := c.(view.Link); is {
			row[i] = view.Cell(link)
		} else {
			row[i] = view.Cell{Text: t.spell.text(c)}
		}
	}
	t.Rows = append(t.Rows, row)
}

// done is the table without its empty columns; the zero table where it has no
// rows.
func (t *ruled) done() view.Table {
	if len(t.Rows) == 0 {
		return view.Table{}
	}
	var keep []int
	for i := range t.Columns {
		for _, row := range t.Rows {
			if row[i].Text != "" {
				keep = append(keep, i)
				break
			}
		}
	}
	out := t.Table
	out.Columns, out.Rows = nil, nil
	for _, i := range keep {
		out.Columns = append(out.Columns, t.Columns[i])
	}
	for _, row := range t.Rows {
		var cells []view.Cell
		for _, i := range keep {
			cells = append(cells, row[i])
		}
		out.Rows = append(out.Rows, cells)
	}
	return out
}

// put adds tables that have rows.
func put(to *[]view.Table, tables ...view.Table) {
	for _, t := range tables {
		if len(t.Rows) > 0 {
			*to = append(*to, t)
		}
	}
}

// texts is the words of a list.
func texts(list []journal.Text) []string {
	var words []string
	for _, t := range list {
		words = append(words, t.Text)
	}
	return words
}

// phrase joins what there is of its parts with a separator.
func phrase(by string, parts ...string) string {
	var kept []string
	for _, p := range parts {
		if p != "" {
			kept = append(kept, p)
		}
	}
	return strings.Join(kept, by)
}

// with is a word before a text, "" where there is no text.
func with(word, text string) string {
	if text == "" {
		return ""
	}
	return word + " " + text
}

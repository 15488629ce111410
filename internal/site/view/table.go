package view

import (
	"html"
	"html/template"
	"strings"
	"unicode/utf8"
)

// Cell is one cell of a Table.
type Cell struct {
	Text string
	Href string
}

// Column is the head of one column. Number columns are set to the right; those
// that are Said, and numbers, carry their head with them on a narrow screen.
type Column struct {
	Head   string
	Number bool
	Said   bool
}

// Table is a ruled table. A row has a cell for each column.
type Table struct {
	ID, Title string
	Columns   []Column
	Rows      [][]Cell
	Note      string
}

// Head is the table's head as HTML, a row of header cells.
func (t Table) Head() template.HTML {
	var b strings.Builder
	b.WriteString("<tr>")
	for _, c := range t.Columns {
		if c.Number {
			b.WriteString(`<th scope="col" class="n">`)
		} else {
			b.WriteString(`<th scope="col">`)
		}
		b.WriteString(html.EscapeString(c.Head))
		b.WriteString("</th>")
	}
	b.WriteString("</tr>")
	return template.HTML(b.String())
}

// Body is the table's rows as HTML. A page has some two hundred cells, and a
// template takes ten times as long over them; one that wants them otherwise can
// range over Rows.
func (t Table) Body() template.HTML {
	var b strings.Builder
	for _, row := range t.Rows {
		b.WriteString("<tr>")
		for i, c := range row {
			b.WriteString("<td")
			if i < len(t.Columns) {
				t.Columns[i].attributes(&b, i, c)
			}
			b.WriteByte('>')
			c.write(&b)
			b.WriteString("</td>")
		}
		b.WriteString("</tr>\n")
	}
	return template.HTML(b.String())
}

// attributes are those of a cell in this column. On a narrow screen a row is a
// few lines without its head, so that a number says what it is of.
func (c Column) attributes(b *strings.Builder, i int, cell Cell) {
	if c.Number {
		b.WriteString(` class="n"`)
	}
	if i > 0 && (c.Number || c.Said) && cell.Text != "" {
		b.WriteString(` data-of="`)
		b.WriteString(html.EscapeString(strings.ToLower(c.Head[:1]) + c.Head[1:]))
		b.WriteByte('"')
	}
}

// roomForTwo is how many letters a row may have for two tables to stand beside
// each other, and betweenColumns what the ruled gap takes. Found by looking.
const (
	roomForTwo     = 59
	betweenColumns = 3
)

// mostText is how many letters a column of text is counted with, since it may
// wrap: the more columns, the less well. Found by looking.
func mostText(columns int) int {
	if columns > 5 {
		return 20
	}
	return 14
}

// Wide tells a table that needs the width of the page: two that do not may stand
// beside each other.
func (t Table) Wide() bool {
	room := 0
	for i, c := range t.Columns {
		widest := utf8.RuneCountInString(c.Head)
		for _, row := range t.Rows {
			if i < len(row) {
				widest = max(widest, utf8.RuneCountInString(row[i].Text))
			}
		}
		if !c.Number {
			widest = min(widest, mostText(len(t.Columns)))
		}
		room += widest + betweenColumns
	}
	return room > roomForTwo
}

// write writes the cell's text, linked where it leads somewhere. Addresses are
// the site's own.
func (c Cell) write(b *strings.Builder) {
	if c.Href == "" {
		b.WriteString(html.EscapeString(c.Text))
		return
	}
	b.WriteString(`<a href="`)
	b.WriteString(html.EscapeString(c.Href))
	b.WriteString(`">`)
	b.WriteString(html.EscapeString(c.Text))
	b.WriteString("</a>")
}

package view

import (
	"html"
	"html/template"
	"strings"
)

// Cell is one cell of a Table.
type Cell struct {
	Text string
	Href string
}

// Column is the head of one column. Number columns are set to the right.
type Column struct {
	Head   string
	Number bool
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
			if i < len(t.Columns) && t.Columns[i].Number {
				b.WriteString(`<td class="n">`)
			} else {
				b.WriteString("<td>")
			}
			c.write(&b)
			b.WriteString("</td>")
		}
		b.WriteString("</tr>\n")
	}
	return template.HTML(b.String())
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

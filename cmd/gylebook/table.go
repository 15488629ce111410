package main

import (
	"fmt"
	"html"
	"html/template"
	"strings"
	"unicode/utf8"

	"gylebook/internal/site/view"
)

// row is one figure of a table, or the label of several that follow.
type row struct {
	family, label   string
	part            bool       // one of several figures of a kind, named by what it is of
	figure          *view.Case // nil for a row that is only a label
	formula, source string
}

// rowsOf is a gyle's figures as a table has them: one row for a kind, or a label and a
// row for each part.
func rowsOf(workings []view.Working) []row {
	var rows []row
	for _, w := range workings {
		labelled := false
		for i := range w.Cases {
			c := &w.Cases[i]
			r := row{
				family: w.Family, label: w.Label, figure: c, formula: plainText(w.Formula), source: w.Source,
			}
			if c.Of != "" && !labelled {
				rows = append(rows, row{family: w.Family, label: w.Label})
			}
			if c.Of != "" {
				r.label, r.part = c.Of, true
			}
			labelled = true
			rows = append(rows, r)
		}
	}
	return rows
}

// plainText is what stands in HTML that is only escaped text.
func plainText(h template.HTML) string { return html.UnescapeString(string(h)) }

// columns are how wide the columns of a table are.
type columns struct{ label, value, plusMinus, unit int }

// columnsOf measures the rows and leaves the labels what remains of the width. Dates,
// which are wider than any number, do not count.
func columnsOf(rows []row, width int) columns {
	var c columns
	for _, r := range rows {
		c.label = max(c.label, utf8.RuneCountInString(r.label)+len(r.indent()))
		if r.figure == nil || r.figure.Date {
			continue
		}
		c.value = max(c.value, utf8.RuneCountInString(r.figure.Got.Value))
		c.plusMinus = max(c.plusMinus, utf8.RuneCountInString(r.figure.Got.PlusMinus))
		c.unit = max(c.unit, utf8.RuneCountInString(r.figure.Got.Unit))
	}
	c.label = min(c.label, max(12, width-c.value-c.plusMinus-c.unit-len("   ±  ")))
	return c
}

func (r row) indent() string {
	if r.part {
		return "    "
	}
	return "  "
}

// printFigures writes the table of a gyle's figures, family by family: values
// right-aligned before the ±, so that the digits stand under each other as far as a
// phone's width lets them. Worked says to write below each how it was come by.
func printFigures(out paper, g view.Gyle, worked bool) {
	rows := rowsOf(g.Workings)
	c := columnsOf(rows, out.width)
	for i, r := range rows {
		if i == 0 || r.family != rows[i-1].family {
			out.heading(r.family)
		}
		r.print(out, c)
		if r.figure == nil {
			continue
		}
		r.printBelow(out)
		if worked {
			r.printWorking(out)
			fmt.Fprintln(out)
		}
	}
}

// print writes one row; a label that is too long has lines of its own before it.
func (r row) print(out paper, c columns) {
	lines := wrap(r.label, c.label-len(r.indent()))
	for _, line := range lines[:len(lines)-1] {
		fmt.Fprintln(out, r.indent()+line)
	}
	label := r.indent() + lines[len(lines)-1]
	if r.figure != nil {
		label = strings.TrimRight(pad(label, c.label)+" "+amount(r.figure.Got, c), " ")
	}
	fmt.Fprintln(out, label)
}

// amount is the value, its ± and the unit, each in its column.
func amount(m view.Measure, c columns) string {
	mark := "   "
	if m.PlusMinus != "" {
		mark = " ± "
	}
	return padLeft(m.Value, c.value) + mark + pad(m.PlusMinus, c.plusMinus) + " " + m.Unit
}

// printBelow says under a row what qualifies it.
func (r row) printBelow(out paper) {
	var notes []string
	switch m := r.figure.Got; {
	case m.AtMost != "":
		notes = append(notes, "at most "+m.AtMost+" "+m.Unit)
	case m.AtLeast != "":
		notes = append(notes, "at least "+m.AtLeast+" "+m.Unit)
	}
	if r.figure.Provisional {
		notes = append(notes, "provisional")
	}
	if r.figure.Note != "" {
		notes = append(notes, r.figure.Note)
	}
	if len(notes) > 0 {
		out.indented(r.indent()+"  ", strings.Join(notes, "; "))
	}
}

// printWorking writes the formula, the same with this gyle's numbers, its source, and
// what the figure's uncertainty comes from with the lines of that.
func (r row) printWorking(out paper) {
	indent := r.indent() + "  "
	for line := range strings.SplitSeq(r.formula+"\n"+plainText(r.figure.Numbers), "\n") {
		if line != "" {
			out.hanging(indent, indent+"  ", line)
		}
	}
	if r.source != "" {
		out.hanging(indent, indent+"  ", "Source: "+r.source)
	}
	var doubts []string
	for _, d := range r.figure.Doubts {
		place := ""
		if d.Place != "" {
			place = " (" + d.Place + ")"
		}
		if strings.HasPrefix(d.Place, setFile) {
			place = " (as --set says)"
		}
		doubts = append(doubts, d.What+place+", "+d.Share)
	}
	if len(doubts) > 0 {
		out.hanging(indent, indent+"  ", "The ± comes from: "+strings.Join(doubts, "; "))
	}
}

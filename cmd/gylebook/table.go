package main

import (
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"

	"gylebook/internal/figures"
	"gylebook/internal/quantity"
)

// headings are what the table is divided by: each stands before the first
// figure of its family, in the order of figures.Kinds. A figure that is new has
// its place by that order alone.
var headings = map[string]string{
	"ion": "Liquor", "og-expected": "Mash", "og": "Gravity", "apparent-attenuation": "Alcohol", "abw": "Label",
	"boil-off": "Copper", "pitching-rate": "Yeast", "residual-co2": "Condition", "headspace": "Containers", "losses": "Volume", "ready-on": "Dates",
}

// table is a gyle's figures, family by family.
type table []family

type family struct {
	heading string
	rows    []row
}

// row is one figure, or the label of several that follow.
type row struct {
	label string
	part  bool // one of several figures of a kind, named by what it is of
	figure
}

// figure is a figure as printed; the zero one is of a row that is only a label.
type figure struct {
	*figures.Figure
	value, plusMinus, unit string
}

// tableOf puts a sheet's figures in the order in which they are declared.
func tableOf(s *figures.Sheet) table {
	var t table
	var f family
	for _, kind := range figures.Kinds() {
		if heading, begins := headings[kind.ID]; begins {
			t = t.with(f)
			f = family{heading: heading}
		}
		f.rows = append(f.rows, rowsOf(s, kind)...)
	}
	return t.with(f)
}

func (t table) with(f family) table {
	if len(f.rows) == 0 {
		return t
	}
	return append(t, f)
}

// rowsOf is the rows of one kind: one, or a label and a row for each part.
func rowsOf(s *figures.Sheet, kind *figures.Kind) []row {
	var rows []row
	for i := range s.Figures {
		f := &s.Figures[i]
		switch {
		case f.ID != kind.ID:
			continue
		case f.Of == "":
			rows = append(rows, row{label: f.Label, figure: printed(s, f)})
			continue
		case len(rows) == 0:
			rows = append(rows, row{label: f.Label})
		}
		rows = append(rows, row{label: named(s, f.Of), part: true, figure: printed(s, f)})
	}
	return rows
}

// printed is a figure of a sheet in the units of the journal's settings.
func printed(s *figures.Sheet, f *figures.Figure) figure {
	spelt := f.Spelt(unitsOf(s))
	return figure{Figure: f, value: spelt.Value, plusMinus: spelt.PlusMinus, unit: spelt.Unit}
}

// unitsOf are the units of a sheet's journal.
func unitsOf(s *figures.Sheet) quantity.Spelling {
	if s.Settings == nil {
		return quantity.Spelling{}
	}
	return s.Settings.Units.Spelling()
}

func (f figure) isDate() bool { return f.Unit == "date" }

// named is a part of an entry as a brewer calls it: soft bag 10 L, not
// packages[0]. Several that would be called alike are numbered.
func named(s *figures.Sheet, of string) string {
	alike, seen := map[string]int{}, map[string]int{}
	for _, p := range s.Gyle.Packages {
		alike[p.Vessel.Name]++
	}
	var pairs []string
	for i, p := range s.Gyle.Packages {
		name := p.Vessel.Name
		if name == "" {
			continue // it is its place in the list that it is known by
		}
		seen[name]++
		called := name
		if alike[name] > 1 {
			called = fmt.Sprintf("%s no. %d", name, seen[name])
		}
		if p.Count.N > 1 {
			called = fmt.Sprintf("%d × %s", p.Count.N, called)
		}
		pairs = append(pairs, fmt.Sprintf("packages[%d]", i), called)
	}
	return strings.NewReplacer(pairs...).Replace(of)
}

// midSentence is a label as it stands within a sentence.
func midSentence(label string) string {
	first, size := utf8.DecodeRuneInString(label)
	second, _ := utf8.DecodeRuneInString(label[size:])
	if unicode.IsUpper(second) {
		return label
	}
	return string(unicode.ToLower(first)) + label[size:]
}

// columns are how wide the columns of a table are.
type columns struct{ label, value, plusMinus, unit int }

// columns measures the table and leaves the labels what remains of the width.
// Dates, which are wider than any number, do not count.
func (t table) columns(width int) columns {
	var c columns
	for _, f := range t {
		for _, r := range f.rows {
			c.label = max(c.label, utf8.RuneCountInString(r.label)+len(r.indent()))
			if r.Figure == nil || r.isDate() {
				continue
			}
			c.value = max(c.value, utf8.RuneCountInString(r.value))
			c.plusMinus = max(c.plusMinus, utf8.RuneCountInString(r.plusMinus))
			c.unit = max(c.unit, utf8.RuneCountInString(r.unit))
		}
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

// print writes the table: values right-aligned before the ±, so that the
// digits stand under each other as far as a phone's width lets them.
func (t table) print(out paper) {
	c := t.columns(out.width)
	for _, f := range t {
		fmt.Fprintf(out, "\n%s\n", out.ink(bold, f.heading))
		for _, r := range f.rows {
			r.print(out, c)
			r.printBelow(out)
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
	if r.Figure == nil {
		fmt.Fprintln(out, label)
		return
	}
	fmt.Fprintln(out, strings.TrimRight(pad(label, c.label)+" "+r.amount(c), " "))
}

// amount is the value, its ± and the unit, each in its column.
func (r row) amount(c columns) string {
	text := padLeft(r.value, c.value)
	if r.plusMinus != "" {
		text += " ± " + pad(r.plusMinus, c.plusMinus)
	} else {
		text += "   " + pad("", c.plusMinus)
	}
	return text + " " + r.unit
}

// printBelow says under a row what qualifies it.
func (r row) printBelow(out paper) {
	if r.Figure == nil {
		return
	}
	var says []string
	if r.Provisional {
		says = append(says, "provisional")
	}
	if r.Note != "" {
		says = append(says, r.Note)
	}
	if len(says) > 0 {
		out.indented(r.indent()+"  ", strings.Join(says, "; "))
	}
}

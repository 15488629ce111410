package main

import (
	"fmt"
	"strings"

	"gylebook/internal/book"
	"gylebook/internal/figures"
)

// formulaUnits says why workings do not follow the units of the settings.
const formulaUnits = "Workings stay in litres, kilograms, °C, bar and EBC: a formula holds only in the units of its constants."

// printWorkings writes each figure with how it was come by.
func (t table) printWorkings(out paper, g *book.Gyle) {
	c := t.columns(out.width)
	if unitsOf(g.Sheet).Converts() {
		fmt.Fprintln(out)
		out.hanging("", "", formulaUnits)
	}
	for _, f := range t {
		fmt.Fprintf(out, "\n%s\n", out.ink(bold, f.heading))
		for _, r := range f.rows {
			r.print(out, c)
			r.printBelow(out)
			if r.Figure != nil {
				r.printWorking(out, g)
				fmt.Fprintln(out)
			}
		}
	}
}

// printWorking writes the formula, the same with this gyle's numbers, its
// source, the lines it rests on and what its uncertainty comes from.
func (r row) printWorking(out paper, g *book.Gyle) {
	indent := r.indent() + "  "
	for line := range strings.SplitSeq(r.Working(), "\n") {
		if line != "" {
			out.hanging(indent, indent+"  ", line)
		}
	}
	if r.Source != "" {
		out.hanging(indent, indent+"  ", "Source: "+r.Source)
	}
	if doubt := doubtOf(r.Budget(), g); doubt != "" {
		out.hanging(indent, indent+"  ", "The ± comes from: "+doubt)
	}
}

// Told is what contributes at least a fiftieth of the variance, and never more
// than a few inputs.
const (
	mostInputs = 4
	leastShare = 0.02
)

// doubtOf names what contributes most to an uncertainty, with its share of the
// variance and its line.
func doubtOf(budget []figures.Contribution, g *book.Gyle) string {
	var says []string
	for i, b := range budget {
		if i == mostInputs || b.Share < leastShare {
			break
		}
		where := ""
		switch {
		case b.Where.Written() && b.Where.File == g.File:
			where = fmt.Sprintf(" (line %d)", b.Where.Line)
		case b.Where.Written() && b.Where.File == setFile:
			where = " (as --set says)"
		case b.Where.Written():
			where = fmt.Sprintf(" (%s)", b.Where.Place)
		}
		says = append(says, fmt.Sprintf("%s%s, %.0f %%", b.What, where, 100*b.Share))
	}
	return strings.Join(says, "; ")
}

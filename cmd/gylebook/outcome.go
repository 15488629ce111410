package main

import (
	"fmt"

	"gylebook/internal/book"
	"gylebook/internal/notice"
)

// telling are the figures that a jotting is looked at for, the first the most.
// The others are a command away.
var telling = []string{
	"gravity-now", "apparent-attenuation", "forecast-fg", "forecast-finish", "fg", "abv", "og", "strike-temperature", "mash-yield", "boil-off",
	"liquor-back", "boil-on", "brewhouse-yield", "pitching-rate", "condition", "priming-sugar", "pressure-warmest", "bag-slack", "pints", "pints-left", "ready-on",
}

// mostRows is how many figures are shown after a jotting.
const mostRows = 8

// printOutcome tells what changed between two states of one gyle: its stage, the
// figures that tell most, and the findings that came and went.
func printOutcome(out paper, o *opened, before, after *book.Gyle) {
	if before == nil || after == nil {
		return
	}
	if before.Sheet.Stage != after.Sheet.Stage {
		fmt.Fprintf(out, "\nGyle %d is now %s.\n", after.Number.N, out.ink(bold, after.Sheet.Stage.String()))
	}
	printChanged(out, before, after)
	came, went := missingFrom(before.Notices, after.Notices), missingFrom(after.Notices, before.Notices)
	for i, n := range came {
		if i == 0 {
			fmt.Fprintf(out, "\n%s\n", out.ink(bold, "New:"))
		}
		out.printNotice(o, n)
	}
	for i, n := range went {
		if i == 0 {
			fmt.Fprintf(out, "\n%s\n", out.ink(bold, "No longer:"))
		}
		out.hanging("  ", "    ", fmt.Sprintf("%s: %s [%s]", n.Severity, n.Says, n.ID))
	}
}

// printChanged lists the telling figures that are new or print otherwise.
func printChanged(out paper, before, after *book.Gyle) {
	was := map[string]string{}
	for _, r := range rowsOfAll(before) {
		was[r.ID+" "+r.Of] = r.short()
	}
	var changed []string
	rest := 0
	for _, r := range rowsOfAll(after) {
		old, had := was[r.ID+" "+r.Of]
		if had && old == r.short() {
			continue
		}
		if len(changed) == mostRows {
			rest++
			continue
		}
		text := r.label + ": " + r.short()
		if had {
			text += " (was " + old + ")"
		}
		changed = append(changed, text)
	}
	if len(changed) == 0 {
		return
	}
	fmt.Fprintln(out)
	for _, text := range changed {
		out.hanging("  ", "    ", text)
	}
	if rest > 0 {
		fmt.Fprintf(out, "  and %s more: gylebook figures %d\n", count(rest, "figure", "figures"), after.Number.N)
	}
}

// rowsOfAll is the rows of the telling figures of a gyle, in their order.
func rowsOfAll(g *book.Gyle) []row {
	var rows []row
	for _, id := range telling {
		for i := range g.Sheet.Figures {
			f := &g.Sheet.Figures[i]
			if f.ID != id || id == "fg" && f.Provisional || id == "priming-sugar" && f.Of != "sucrose" {
				continue // a final gravity that is none yet is the gravity now, and one sugar stands for all
			}
			label := f.Label
			if f.Of != "" {
				label += ", " + named(g.Sheet, f.Of)
			}
			rows = append(rows, row{label: label, figure: printed(g.Sheet, f)})
		}
	}
	return rows
}

// short is a figure in a line: value, ± and unit.
func (f figure) short() string {
	text := f.value
	if f.plusMinus != "" {
		text += " ± " + f.plusMinus
	}
	if f.unit != "" {
		text += " " + f.unit
	}
	if f.Provisional {
		text += ", provisional"
	}
	return text
}

// missingFrom is those of all that are not in some, told apart by what they are
// and what they are about, and without those that are accepted.
func missingFrom(some, all []notice.Notice) []notice.Notice {
	type about struct{ id, of string }
	known := map[about]bool{}
	for _, n := range some {
		known[about{n.ID, n.Of}] = n.Accepted == "" || known[about{n.ID, n.Of}]
	}
	var missing []notice.Notice
	for _, n := range all {
		if n.Accepted == "" && !known[about{n.ID, n.Of}] {
			missing = append(missing, n)
		}
	}
	return missing
}

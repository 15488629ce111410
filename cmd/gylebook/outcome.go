package main

import (
	"fmt"

	"gylebook/internal/book"
	"gylebook/internal/notice"
	"gylebook/internal/site"
	"gylebook/internal/site/view"
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
func printOutcome(out paper, o *opened, file string, was, is *book.Book) {
	before, after := was.GyleIn(file), is.GyleIn(file)
	if before == nil || after == nil {
		return
	}
	if before.Sheet.Stage != after.Sheet.Stage {
		fmt.Fprintf(out, "\nGyle %d is now %s.\n", after.Number.N, out.ink(bold, after.Sheet.Stage.String()))
	}
	printChanged(out, after.Number.N, site.Report(was, before), site.Report(is, after))
	came, went := missingFrom(before.Notices, after.Notices), missingFrom(after.Notices, before.Notices)
	for i, n := range came {
		if i == 0 {
			out.heading("New:")
		}
		out.printNotice(o, n)
	}
	for i, n := range went {
		if i == 0 {
			out.heading("No longer:")
		}
		out.hanging("  ", "    ", fmt.Sprintf("%s: %s [%s]", n.Severity, n.Says, n.ID))
	}
}

// printChanged lists the telling figures that are new or print otherwise.
func printChanged(out paper, number int, before, after view.Gyle) {
	was := map[string]string{}
	for _, f := range tellingOf(before) {
		was[f.label] = f.got
	}
	var changed []string
	for _, f := range tellingOf(after) {
		old, had := was[f.label]
		if had && old == f.got {
			continue
		}
		text := f.label + ": " + f.got
		if had {
			text += " (was " + old + ")"
		}
		changed = append(changed, text)
	}
	if len(changed) == 0 {
		return
	}
	fmt.Fprintln(out)
	for _, text := range changed[:min(len(changed), mostRows)] {
		out.hanging("  ", "    ", text)
	}
	if more := len(changed) - mostRows; more > 0 {
		fmt.Fprintf(out, "  and %s more: gylebook figures %d\n", count(more, "figure", "figures"), number)
	}
}

// labelled is a figure in a line.
type labelled struct{ label, got string }

// tellingOf is the telling figures of a gyle, in their order.
func tellingOf(g view.Gyle) []labelled {
	var all []labelled
	for _, id := range telling {
		for _, w := range g.Workings {
			for _, c := range w.Cases {
				if w.ID != id || id == "fg" && c.Provisional || id == "priming-sugar" && c.Of != "sucrose" {
					continue // a final gravity that is none yet is the gravity now, and one sugar stands for all
				}
				f := labelled{w.Label, c.Got.String()}
				if c.Of != "" {
					f.label += ", " + c.Of
				}
				if c.Provisional {
					f.got += ", provisional"
				}
				all = append(all, f)
			}
		}
	}
	return all
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

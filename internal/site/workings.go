package site

import (
	"cmp"
	"fmt"
	"html"
	"html/template"
	"math"
	"slices"
	"strings"

	"gylebook/internal/book"
	"gylebook/internal/figures"
	"gylebook/internal/journal"
	"gylebook/internal/quantity"
	"gylebook/internal/site/view"
)

// budgetParts is how many inputs of a figure's doubt are named, and leastShare
// the smallest worth naming.
const (
	budgetParts = 4
	leastShare  = 0.02
)

// mostFrom is how many lines a working names.
const mostFrom = 8

// workings are a gyle's figures, those of one kind together: each with its
// formula, this gyle's numbers, its readings and what its doubt is made of. Of
// says of which kinds; nil is all of them. The table is of the doubts they name.
func (w pageWriter) workings(g *book.Gyle, of []figures.ID) ([]view.Working, view.Table) {
	doubts := &doubtTable{w: w, known: map[string]bool{}, at: map[[2]string]int{}}
	at := map[figures.ID]int{}
	var all []view.Working
	for _, f := range g.Sheet.Figures {
		if of != nil && !slices.Contains(of, f.ID) {
			continue
		}
		formula, numbers, _ := strings.Cut(f.Working(), "\n")
		i, ok := at[f.ID]
		if !ok {
			i = len(all)
			at[f.ID] = i
			all = append(all, view.Working{
				ID: string(f.ID), Family: familyOf()[f.ID], Label: f.Label, Formula: plainHTML(formula), Source: f.Source,
			})
		}
		if numbers == formula {
			numbers = ""
		}
		all[i].Cases = append(all[i].Cases, w.workingCase(g, f, numbers, doubts))
	}
	for i := range all {
		tidy(&all[i])
	}
	return all, doubts.done()
}

// plainHTML is text as HTML. It is escaped here because html/template writes a
// plus sign as five characters, and formulas are full of them.
func plainHTML(text string) template.HTML { return template.HTML(html.EscapeString(text)) }

func (w pageWriter) workingCase(g *book.Gyle, f figures.Figure, numbers string, doubts *doubtTable) view.Case {
	c := view.Case{
		ID: workingID(f), Of: w.partName(g, f.Of), Got: w.spell.figure(f), Date: f.Unit == "date", Provisional: f.Provisional,
		Note: f.Note, Basis: basis(g.Sheet, f.ID), Numbers: plainHTML(numbers),
	}
	var parts []string
	for i, part := range f.Budget() {
		if i == budgetParts || part.Share < leastShare {
			break
		}
		doubt := view.Doubt{What: part.What, Share: quantity.Fixed(part.Share*100, 0) + "\u00a0%"}
		if part.Where.Written() {
			doubt.Place = placeIn(g, part.Where)
		}
		c.Doubts = append(c.Doubts, doubt)
		parts = append(parts, doubt.What+" "+doubt.Share)
		doubts.add(part.Input)
	}
	c.Rests = phrase(" ", stated("Its doubt: ", strings.Join(parts, ", ")), stated("From ", lineNames(g, f.From())))
	return c
}

// stated is a sentence that begins with some words, "" where nothing follows.
func stated(words, text string) string {
	if text == "" {
		return ""
	}
	return words + text + "."
}

// tidy says the results in the heading, and what cases share only once.
func tidy(w *view.Working) {
	var got []string
	for _, c := range w.Cases {
		text := c.Got.String()
		if c.Provisional {
			text += ", so far"
		}
		if len(got) == 0 || got[len(got)-1] != text {
			got = append(got, text)
		}
	}
	if len(got) > 3 {
		got = append(got[:2], fmt.Sprintf("%d more", len(got)-2))
	}
	w.Got = strings.Join(got, "; ")
	for i := len(w.Cases) - 1; i > 0; i-- {
		if w.Cases[i].Rests == w.Cases[i-1].Rests {
			w.Cases[i].Rests = ""
		}
	}
}

// doubtTable is what the readings and formulas that matter are doubted by. Those
// doubted alike stand together.
type doubtTable struct {
	w     pageWriter
	known map[string]bool
	at    map[[2]string]int
	rows  [][]view.Cell
}

func (d *doubtTable) add(in figures.Input) {
	if d.known[in.What] {
		return
	}
	d.known[in.What] = true
	c := d.w.spell.Into(in.Unit)
	u := view.Measure{Value: quantity.Plain(quantity.Digits(in.Uncertainty*c.Factor, 2)), Unit: c.Unit}.String()
	if strings.HasPrefix(in.Unit, "cells") {
		u = cells(quantity.Digits(in.Uncertainty, 2), in.Unit).String() // as the recipe has them
	}
	reason := strings.TrimSuffix(in.Reason, " (common practice, no source)")
	if i, ok := d.at[[2]string{u, reason}]; ok {
		d.rows[i][0].Text += ", " + in.What
		return
	}
	d.at[[2]string{u, reason}] = len(d.rows)
	d.rows = append(d.rows, []view.Cell{{Text: in.What}, {Text: u}, {Text: reason}})
}

func (d *doubtTable) done() view.Table {
	return view.Table{
		Title: "The doubts behind them", Rows: d.rows,
		Columns: []view.Column{{Head: "Reading or formula"}, {Head: "Standard uncertainty", Number: true}, {Head: "Why"}},
		Note:    "What makes the largest part of a figure’s doubt is what is worth reading better next time. Reasons without a source are common practice.",
	}
}

// partName is the part of an entry that a figure is about, in words.
func (w pageWriter) partName(g *book.Gyle, of string) string {
	var i int
	if n, err := fmt.Sscanf(of, "packages[%d]", &i); n == 1 && err == nil && i >= 0 && i < len(g.Packages) {
		if w.spell.forTerminal {
			return cmp.Or(containerInFull(g, i), of)
		}
		return w.packageName(g, i)
	}
	return of
}

// containerInFull is a container as plain text has it: how many there are, and which of
// several alike.
func containerInFull(g *book.Gyle, i int) string {
	p := g.Packages[i]
	name, alike, nth := p.Vessel.Name, 0, 0
	for j, other := range g.Packages {
		if other.Vessel.Name == name {
			alike++
			if j <= i {
				nth++
			}
		}
	}
	if alike > 1 && name != "" {
		name = fmt.Sprintf("%s no. %d", name, nth)
	}
	if p.Count.N > 1 && name != "" {
		name = fmt.Sprintf("%d × %s", p.Count.N, name)
	}
	return name
}

// placeIn is a line as whoever reads a gyle's entry finds it: by its number alone
// where it is in that.
func placeIn(g *book.Gyle, where journal.Where) string {
	if where.File == g.File {
		return "line\u00a0" + itoa(where.Line)
	}
	return where.Place.String()
}

// lineNames are the lines that a figure rests on: those of the entry itself by
// number alone, those of other files by name. Which reading is on each is in the
// doubts beside it and in the source.
func lineNames(g *book.Gyle, from []journal.Where) string {
	var own, others []string
	for _, w := range from {
		if w.File != g.File {
			if name := fmt.Sprintf("%s:%d", w.File, w.Line); !slices.Contains(others, name) {
				others = append(others, name)
			}
		} else if line := itoa(w.Line); !slices.Contains(own, line) {
			own = append(own, line)
		}
	}
	if more := len(own) - mostFrom; more > 0 {
		own = append(own[:mostFrom], fmt.Sprintf("%d more", more))
	}
	if more := len(others) - mostFrom; more > 0 {
		others = append(others[:mostFrom], fmt.Sprintf("%d more", more))
	}
	text := ""
	switch len(own) {
	case 0:
	case 1:
		text = "line\u00a0" + own[0]
	default:
		text = "lines\u00a0" + strings.Join(own, ", ")
	}
	return phrase(", ", append([]string{text}, others...)...)
}

func (w pageWriter) lacking(g *book.Gyle, m figures.Missing) view.Missing {
	return view.Missing{
		Label: cmp.Or(figureLabels()[m.Figure], string(m.Figure)), Of: w.partName(g, m.Of), Because: m.Because, Needs: m.Needs,
	}
}

// plusMinusOf is a figure's ±, NaN for none.
func plusMinusOf(f figures.Figure) float64 {
	if f.HasPlusMinus() {
		return f.PlusMinus
	}
	return math.NaN()
}

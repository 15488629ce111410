package site

import (
	"math"
	"strings"

	"gylebook/internal/book"
	"gylebook/internal/chart"
	"gylebook/internal/figures"
	"gylebook/internal/journal"
	"gylebook/internal/quantity"
	"gylebook/internal/site/view"
)

// Aim is one line of aims and results.
type Aim struct {
	ID, Label string
	Aim       view.Measure
	Got       view.Measure
	Off       string
	Tell      string // whether the readings can tell the two apart
	Href      string // of the working
	Note      string
}

// aimed is one thing that is aimed at and worked out.
type aimed struct {
	id, label string
	aim       float64 // NaN where there is none
	aimText   view.Measure
	got       figures.Figure
	known     bool
}

// results are aims and results, their chart, the workings of both, and what is
// missing. All other workings have a page of their own.
func (w pageWriter) results(v *GylePage, g *book.Gyle) {
	var drawn []chart.Aim
	for _, t := range w.aims(g) {
		row := Aim{ID: t.id, Label: t.label, Aim: t.aimText}
		if t.known {
			row.Got, row.Note = w.spell.figure(t.got), t.got.Note
			if t.id != "volume" {
				row.Href = "#" + workingID(t.got)
			}
			if t.got.Provisional {
				row.Got.Unit = join(row.Got.Unit, "so far")
			}
			row.Off, row.Tell = w.off(t)
			if !math.IsNaN(t.aim) && t.id != "volume" {
				drawn = append(drawn, chart.Aim{Name: strings.TrimSuffix(t.label, " before priming"), Aim: t.aim, Got: t.got.Value, PlusMinus: t.got.PlusMinus, AimWords: t.aimText.String(), GotWords: w.spell.figure(t.got).String()})
			}
		}
		if t.known || t.aimText.Value != "" {
			v.Aims = append(v.Aims, row)
		}
	}
	if len(drawn) > 1 {
		v.AimsChart = chart.Aims(chart.AimsInput{Frame: chart.Frame{Prefix: "c-aims"}, Aims: drawn})
	}
	v.WorkingsHref, v.OtherWorkings = w.to(workingsPath(g)), otherWorkings(g, len(v.Workings))
}

// headlines are the figures whose workings stand on the gyle's own page, under
// its aims.
var headlines = []string{"og", "fg", "abv", "bitterness", "colour", "condition"}

func join(a, b string) string {
	if a == "" {
		return b
	}
	return a + ", " + b
}

// aims are the things that are aimed at, in the order of a gyle's life.
func (w pageWriter) aims(g *book.Gyle) []aimed {
	aim := g.Aim
	list := []aimed{
		{id: "og", label: "Original gravity", aim: number(aim.OG), aimText: value(w.spell, aim.OG)},
		{id: "fg", label: "Final gravity", aim: number(aim.FG), aimText: value(w.spell, aim.FG)},
		{id: "abv", label: "Alcohol", aim: number(aim.ABV), aimText: ofVolume(value(w.spell, aim.ABV))},
		{id: "bitterness", label: "Bitterness", aim: number(aim.Bitterness), aimText: value(w.spell, aim.Bitterness)},
		{id: "colour", label: "Colour", aim: number(aim.Colour), aimText: value(w.spell, aim.Colour)},
		{id: "condition", label: "Condition", aim: number(aim.Condition), aimText: value(w.spell, aim.Condition)},
	}
	for i := range list {
		list[i].got, list[i].known = g.Sheet.First(list[i].id)
	}
	if primed(g) {
		list[2].label = "Alcohol before priming"
	}
	volume := aimed{id: "volume", label: "In the fermenter", aim: number(aim.Volume), aimText: value(w.spell, aim.Volume)}
	if g.Fermenter.Volume.Written() {
		kind := &figures.Kind{ID: "volume", Unit: "L", Decimals: 1}
		volume.got, volume.known = figures.Figure{Kind: kind, Value: float64(g.Fermenter.Volume.Value), PlusMinus: doubt(g.Fermenter.Volume.Amount)}, true
	}
	return append([]aimed{volume}, list...)
}

// primed tells whether the strength as drunk is another than that of the aim.
func primed(g *book.Gyle) bool {
	before, ok := g.Sheet.First("abv")
	drunk, also := g.Sheet.First("abv-conditioned")
	return ok && also && drunk.Value-before.Value > 0.05
}

// ofVolume is a strength with its unit as the figures have it.
func ofVolume(m view.Measure) view.Measure {
	if m.Unit == "%" {
		m.Unit = "% vol"
	}
	return m
}

// doubt is the ± of a typed half-width: U = 2 a/√3, as for every figure.
func doubt[Q quantity.Quantity](a quantity.Amount[Q]) float64 {
	if !a.Typed {
		return math.NaN()
	}
	return 2 * float64(a.Within) / math.Sqrt(3)
}

// off is by how much a result misses its aim, and whether the readings can tell.
func (w pageWriter) off(t aimed) (off, tell string) {
	if math.IsNaN(t.aim) {
		return "", ""
	}
	by := t.got.Value - t.aim
	pm := t.got.PlusMinus
	unit, decimals, shown, shownPM := t.got.Unit, 1, by, pm
	if unit == "SG" {
		unit, shown, shownPM = "points", by*1000, pm*1000
	} else if unit == "vol" {
		decimals = 2
	}
	m := w.difference(shown, shownPM, unit, decimals)
	switch {
	case math.IsNaN(pm):
		return m, ""
	case math.Abs(by) <= pm && math.Abs(by) <= pm/4:
		return m, "on the aim"
	case math.Abs(by) <= pm:
		return m, "no: within the readings’ own doubt"
	case by > 0:
		return m, "yes: above the aim"
	}
	return m, "yes: below the aim"
}

// difference is a signed difference, as far as its ± supports.
func (w pageWriter) difference(by, pm float64, unit string, decimals int) string {
	c := w.spell.Into(unit)
	by, pm = by*c.Factor, pm*c.Factor
	text := quantity.Fixed(by, decimals)
	if pm > 0 && !math.IsInf(pm, 0) {
		text, _ = quantity.Rounded(by, pm)
	}
	if by > 0 && strings.Trim(text, "0.") != "" {
		text = "+" + text
	}
	if c.Unit == "" {
		return text
	}
	return text + "\u00a0" + c.Unit
}

// number is a value in its canonical unit, NaN where it was not written.
func number[Q quantity.Quantity](v journal.Value[Q]) float64 {
	if !v.Written() || v.None {
		return math.NaN()
	}
	return float64(v.Value)
}

package site

import (
	"html/template"
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
	Drawn     template.HTML // the interval of what was got, and the aim in it
	Off       string
	Tell      string // on the aim, too close to tell, above, below; "" without an aim
	Note      string
	Working   *view.Working // how it was worked out, nil for what was only read
}

// aimed is one thing that is aimed at and worked out.
type aimed struct {
	id, label string
	aim       float64 // NaN where there is none
	aimText   view.Measure
	got       figures.Figure
	known     bool
}

// results are aims and results with their workings. All other workings have a page of
// their own.
func (w pageWriter) results(v *GylePage, g *book.Gyle) {
	for _, t := range w.aims(g) {
		row := Aim{ID: t.id, Label: t.label, Aim: t.aimText}
		if t.known {
			w.come(&row, t)
		}
		for i := range v.Workings {
			if v.Workings[i].ID == t.id {
				row.Working = &v.Workings[i]
			}
		}
		if t.known || t.aimText.Value != "" {
			v.Aims = append(v.Aims, row)
		}
	}
	v.WorkingsHref, v.OtherWorkings = w.to(workingsPath(g)), otherWorkings(g, len(v.Workings))
}

// come is what came of an aim.
func (w pageWriter) come(row *Aim, t aimed) {
	row.Got, row.Note = w.spell.figure(t.got), t.got.Note
	if t.got.PlusMinus > 0 {
		row.Drawn = chart.Interval(chart.Aim{
			Frame: chart.Frame{Prefix: "c-aim-" + t.id, Width: intervalWidth}, Name: t.label, AimWords: t.aimText.String(),
			GotWords: row.Got.String(), Aim: t.aim, Got: t.got.Value, PlusMinus: t.got.PlusMinus,
		})
	}
	if t.got.Provisional {
		row.Got.Unit = phrase(", ", row.Got.Unit, "so far")
	}
	row.Off, row.Tell = w.off(t)
}

// intervalWidth is that of a row's drawing, in units of which two make a pixel.
const intervalWidth = 320

// headlines are the figures whose workings stand on the gyle's own page, under its
// aims: those that are aimed at.
func headlines() []figures.ID {
	var ids []figures.ID
	for _, f := range (journal.Aim{}).Facts() {
		ids = append(ids, figures.ID(f.Key))
	}
	return ids
}

// aims are the things that may be aimed at, in the order of the vocabulary, each with
// the figure that has its key.
func (w pageWriter) aims(g *book.Gyle) []aimed {
	var all []aimed
	for _, f := range g.Aim.Facts() {
		t := aimed{id: f.Key, label: sentenceHead(f.Label), aim: math.NaN()}
		if v := f.Value.(journal.Quantified); v.Given() {
			_, t.aim, _, _ = v.Canonical()
			t.aimText = w.spell.amount(v.Canonical())
		}
		t.got, t.known = g.Sheet.First(figures.ID(f.Key))
		switch f.Key {
		case "volume":
			t.got, t.known = inFermenter(g.Fermenter.Volume)
		case "abv":
			t.aimText = ofVolume(t.aimText)
			if primed(g) {
				t.label += beforePriming
			}
		}
		all = append(all, t)
	}
	return all
}

// beforePriming qualifies a strength where the one that is drunk is another.
const beforePriming = " before priming"

// primed tells whether the strength as drunk is another than that of the aim.
func primed(g *book.Gyle) bool {
	before, ok := g.Sheet.First(figures.IDABV)
	drunk, also := g.Sheet.First(figures.IDABVConditioned)
	return ok && also && drunk.Value-before.Value > 0.05
}

// ofVolume is a strength with its unit as the figures have it.
func ofVolume(m view.Measure) view.Measure {
	if m.Unit == "%" {
		m.Unit = "% vol"
	}
	return m
}

// inFermenter is a volume as read, with the ± of what was typed after it: U = 2 a/√3,
// as for every figure.
func inFermenter(v journal.Value[quantity.Volume]) (f figures.Figure, known bool) {
	f = figures.Figure{Kind: &figures.Kind{ID: "volume", Unit: "L", Decimals: 1}, Value: v.Value.Litres(), PlusMinus: math.NaN()}
	if v.Typed {
		f.PlusMinus = 2 * float64(v.Within) / math.Sqrt(3)
	}
	return f, v.Written()
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
		return m, "On the aim"
	case math.Abs(by) <= pm:
		return m, "Too close to tell"
	case by > 0:
		return m, "Above"
	}
	return m, "Below"
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

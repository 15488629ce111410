package site

import (
	"strings"

	"gylebook/internal/book"
	"gylebook/internal/causes"
	"gylebook/internal/figures"
	"gylebook/internal/journal"
	"gylebook/internal/rules"
	"gylebook/internal/site/view"
	"gylebook/internal/tasting"
)

// WorkingsPage is workings.html: how everything is worked out, told from the
// declarations that the figures and the findings are themselves made from.
type WorkingsPage struct {
	view.Frame
	Kinds  []KindRow
	Units  string // in what units formulas and limits are, "" where in those of all pages
	Rules  []RuleRow
	Causes []CauseRow
	Doubts view.Table
	Limits view.Table // what figures are held against
	Words  []WordGroup
	Colour string // how the ribbon's colour is made
}

// KindRow is one figure as declared.
type KindRow struct {
	ID, Label, Unit, Says, Formula, Valid, Source, Checked string
	Symbols                                                []string
}

// RuleRow is one finding as declared.
type RuleRow struct{ ID, When, Watches, Worst, Source string }

// CauseRow is one cause as declared.
type CauseRow struct {
	ID, Name, For, Against, Source string
	Words                          string // the tasting words that lead to it
}

// WordGroup is the vocabulary of one kind of file.
type WordGroup struct {
	ID, Title string
	Words     []WordRow
}

// WordRow is one key.
type WordRow struct{ Path, Type, Says, Example string }

var _ = declare(pagesOf[*Site, WorkingsPage]{
	path: "workings/index.html", template: "workings.html", menu: menu{7, "Workings"}, fill: pageWriter.allWorkings,
})

func (w pageWriter) allWorkings(v *WorkingsPage, _ *Site) {
	v.Title, v.Description = "Workings", "How every figure and every warning is worked out, with its source."
	v.Units = limitUnits(w)
	for _, k := range figures.Kinds() {
		unit := k.Unit
		if unit == "SG" {
			unit = "specific gravity at 20 °C"
		}
		v.Kinds = append(v.Kinds, KindRow{
			ID: "w-" + string(k.ID), Label: k.Label, Unit: unit, Says: k.Says, Formula: strings.NewReplacer("{", "", "}", "").Replace(k.Formula),
			Valid: k.Valid, Source: k.Source, Checked: k.Checked, Symbols: k.Symbols,
		})
	}
	for _, r := range rules.Rules() {
		var stages []string
		for _, stage := range r.Watches {
			stages = append(stages, stage.String())
		}
		watches := strings.Join(stages, ", ")
		if len(stages) == len(figures.Stages()) {
			watches = "always"
		}
		v.Rules = append(v.Rules, RuleRow{ID: r.ID, When: r.When, Watches: watches, Worst: r.Worst.String(), Source: r.Source})
	}
	v.Doubts, v.Limits = w.doubtsTable(), w.limitsTable()
	v.Causes = causeRows()
	v.Words = vocabulary()
	v.Colour = "EBC is 25 times the absorbance of 1 cm of beer at 430 nm (EBC Analytica 9.6). The ribbon is daylight (CIE D65) through 5 cm of that beer by Beer–Lambert, " +
		"with the mean shape of beer’s spectrum (A. J. deLange, Journal of the ASBC; coefficients from memory), seen by the CIE 1931 observer (fit of Wyman, Sloan and Shirley, 2013) and shown as sRGB. " +
		"It is right about hue and order, not about one glass: beers differ in their red, haze scatters, and the window decides the rest."
}

// limitUnits says in what units formulas and limits are, where the settings ask for
// others.
func limitUnits(w pageWriter) string {
	if !w.spell.Converts() {
		return ""
	}
	return "Formulas and limits stay in litres, kilograms, °C, bar and EBC, in which they hold; what they come to is told in your own units."
}

// doubtsTable is what a reading is doubted by where neither the brewer nor an
// instrument's card says, from the figures' own declaration.
func (w pageWriter) doubtsTable() view.Table {
	t := w.newTable("p-doubts", "The doubt of a reading that says nothing of it", "Reading", "~Within", "~Why")
	for _, d := range figures.Doubts() {
		t.row(d.Reading, d.HalfWidth, strings.TrimSuffix(d.Reason, " (common practice, no source)"))
	}
	t.Note = "Half-widths: the reading is sure to lie within, and counts as evenly spread over that. All of them are common practice, without a source. What is typed after ± stands instead."
	return t.done()
}

// limitsTable is what figures are held against, from the limits' own declarations.
func (w pageWriter) limitsTable() view.Table {
	t := w.newTable("p-limits", "What figures are held against", "Name", "~Limit", "~What it is", "~Source", "~Holds for")
	for _, group := range book.Limits() {
		for _, l := range group.Limits {
			t.row(l.Name, l.String(), l.Says, l.Origin(), group.Title)
		}
	}
	return t.done()
}

// vocabulary is every key, by the kind of file it may stand in.
func vocabulary() []WordGroup {
	var groups []WordGroup
	for _, w := range journal.Words() {
		if len(groups) == 0 || groups[len(groups)-1].Title != w.File {
			groups = append(groups, WordGroup{ID: "p-words-" + plainSlug(w.File), Title: w.File})
		}
		kind := w.Type
		if len(w.Choices) > 0 {
			kind = strings.Join(w.Choices, " | ")
		} else if w.Card != "" {
			kind += ", of a " + w.Card
		}
		last := &groups[len(groups)-1]
		last.Words = append(last.Words, WordRow{Path: w.Path, Type: kind, Says: w.Says, Example: w.Example})
	}
	return groups
}

// causeRows are the causes as declared, with the words that lead to each.
func causeRows() []CauseRow {
	words := map[string][]string{}
	for _, w := range tasting.Words() {
		for _, id := range w.LeadsTo {
			words[id] = append(words[id], w.Word)
		}
	}
	var rows []CauseRow
	for _, c := range causes.Causes() {
		row := CauseRow{ID: "c-" + c.ID, Name: c.Name, Source: c.Source, Words: strings.Join(words[c.ID], ", ")}
		var pro, con []string
		for _, t := range c.Tests {
			if t.For != "" {
				pro = append(pro, t.For)
			}
			if t.Against != "" {
				con = append(con, t.Against)
			}
		}
		row.For, row.Against = strings.Join(pro, "; "), strings.Join(con, "; ")
		rows = append(rows, row)
	}
	return rows
}

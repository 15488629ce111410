package site

import (
	"fmt"
	"html/template"
	"math"
	"slices"

	"gylebook/internal/book"
	"gylebook/internal/figures"
	"gylebook/internal/quantity"
	"gylebook/internal/site/view"
)

// TrendsPage is trends.html: aims against results across the journal.
type TrendsPage struct {
	view.Frame
	Trends []Trend
}

// Trend is one figure across the journal.
type Trend struct {
	ID, Title, Says string
	Chart           template.HTML
	Table           view.Table
}

var _ = declare(pagesOf[*Site, TrendsPage]{
	path: "trends/index.html", template: "trends.html", menu: menu{5, "Trends"}, fill: pageWriter.trends,
})

func (w pageWriter) trends(v *TrendsPage, _ *Site) {
	v.Title, v.Description = "Trends", "Aims against results across the journal: yield, losses, attenuation."
	t := w.book.Trends()
	all := slices.Concat([]book.Series{t.BrewhouseYield, t.MashYield, t.BoilOff}, t.Losses, t.Attenuation)
	for i, series := range all {
		w.trend(v, series, "c-trend-"+itoa(i), false)
	}
	for i, series := range t.Aims {
		w.trend(v, series, "c-off-"+itoa(i), true)
	}
}

// trend is one series; off says that it is what results are off their aims by.
func (w pageWriter) trend(v *TrendsPage, s book.Series, prefix string, off bool) {
	table := w.newTable("", "", "Gyle", "#Result", "#Aim", "#Off by")
	shown := 0
	for i := len(s.Points) - 1; i >= 0; i-- {
		p := s.Points[i]
		if !w.published(p.Gyle) {
			continue
		}
		shown++
		if shown > 12 {
			continue
		}
		result := w.spell.measure(p.Value, p.PlusMinus, s.Unit, 1)
		aim, by := view.Measure{}, ""
		if off {
			aim = w.spell.measure(p.Aim, math.NaN(), s.Unit, aimDecimals(s.Unit))
			by = result.String()
			result = w.spell.measure(p.Got, p.PlusMinus, s.Unit, aimDecimals(s.Unit))
		}
		table.row(w.numbered(p.Gyle), result, aim, by)
	}
	if shown == 0 {
		return
	}
	title := s.Label
	if s.Of != "" {
		title += ", " + s.Of
	}
	if off {
		title += ", off its aim"
	}
	trend := Trend{ID: "p-" + prefix[2:], Title: title, Table: table.done(), Chart: w.seriesChart(prefix, s, 0, 0, "")}
	if s.Learned.Enough() {
		trend.Says = "Of the latest " + itoa(s.Learned.Gyles) + " settled gyles the middle one " + w.middle(s, off)
	}
	trend.Says = phrase(" ", trend.Says, plannedBy(s, off))
	if shown > 12 {
		trend.Table.Note = "The latest 12 of " + itoa(shown) + " gyles."
	}
	v.Trends = append(v.Trends, trend)
}

func aimDecimals(unit string) int {
	if unit == "SG" {
		return 3
	}
	return 1
}

// middle is the median of a series and how far most lie from it. That is no ±, which
// on these pages holds nineteen in twenty.
func (w pageWriter) middle(s book.Series, off bool) string {
	verb := "has "
	switch {
	case off:
		verb = "is off by "
	case s.ID == figures.IDApparentAttenuation:
		verb = "attenuated "
	}
	median, spread, unit := s.Learned.Median, s.Learned.HalfWidth, s.Unit
	if off && unit == "SG" {
		median, spread, unit = 1000*median, 1000*spread, "points"
	}
	m := w.spell.measure(median, spread, unit, 1)
	around := view.Measure{Value: m.PlusMinus, Unit: m.Unit}
	m.PlusMinus = ""
	text := verb + m.String()
	if around.Value != "" {
		text += ", and two in three lie within " + around.String() + " of that"
	}
	return text + "."
}

// plannedBy says what the next gyle is planned by: what was learnt, or what is taken
// until three gyles are known.
func plannedBy(s book.Series, off bool) string {
	if off {
		return ""
	}
	enough := s.Learned.Enough()
	switch {
	case s.ID == figures.IDApparentAttenuation && s.Subject != nil:
		return learntOfYeast(s)
	case s.ID == figures.IDBrewhouseYield && !enough:
		return "Until three gyles have settled, the next one is planned by 72\u00a0±\u00a08\u00a0%, which is common practice."
	case s.ID == figures.IDBrewhouseYield, enough && s.ID == figures.IDBoilOff, enough && s.ID == figures.IDLosses && s.Of != "dumped":
		return "The next gyle is planned by it."
	case s.ID == figures.IDBoilOff, s.ID == figures.IDLosses && s.Of != "dumped":
		return "Until three gyles have settled, the next one is planned by the usual figure."
	}
	return ""
}

// learntOfYeast says what the next gyle with a yeast is expected by: its card, else
// this brewer's own gyles with it once there are three.
func learntOfYeast(s book.Series) string {
	card := s.Subject.Card
	switch {
	case card != nil && card.Yeast != nil && card.Yeast.Attenuates.Written():
		a := card.Yeast.Attenuates
		return fmt.Sprintf("The next gyle is expected by the yeast’s card, %s to %s\u00a0%%.", quantity.Plain(float64(a.Low)), quantity.Plain(float64(a.High)))
	case s.Learned.Enough():
		return "The next gyle with it is expected by that."
	}
	return "Until three gyles with it have settled, and without a card, nobody says where the next one will end."
}

// learnt is what this brewer's gyles taught about a yeast, as its page says it.
func (w pageWriter) learnt(s book.Series) string {
	text := ""
	if s.Learned.Enough() {
		text = "Of your own " + counted(s.Learned.Gyles, "settled gyle") + " with it the middle one " + w.middle(s, false)
	}
	return phrase(" ", text, learntOfYeast(s))
}

package site

import (
	"html/template"
	"math"
	"slices"
	"strconv"
	"time"

	"gylebook/internal/book"
	"gylebook/internal/chart"
	"gylebook/internal/figures"
	"gylebook/internal/journal"
	"gylebook/internal/rules"
)

// fermentationChart is gravity and temperature against time, with the forecast.
// Gravities are drawn as the figures use them: corrected, and the logger's set
// right by what was read by hand.
func (w pageWriter) fermentationChart(g *book.Gyle) template.HTML {
	in := chart.FermentationInput{Frame: chart.Frame{Prefix: "c-ferment"}, Zone: w.spell.zone}
	for _, r := range g.Sheet.GravityReadings() {
		in.Gravity = append(in.Gravity, chart.Point{At: r.When, Value: float64(r.Gravity.Value), PlusMinus: float64(r.Gravity.PlusMinus())})
	}
	in.Logged, in.Temperature = traced(g)
	in.Temperature = append(in.Temperature, heatsOutside(g, in.Temperature)...)
	in.Heat = w.converted(in.Temperature, "°C")
	if len(in.Gravity)+len(in.Logged) < 2 {
		return ""
	}
	in.Forecast = forecast(g)
	in.Events = w.course(g)
	return chart.Fermentation(in)
}

// tracePoints is about how many points of a logger's trace the chart is given.
const tracePoints = 50_000

// traced is a logger's trace. Of one that is very long, the lowest and the highest
// of every few rows are enough: the chart thins it further, and no peak is lost.
func traced(g *book.Gyle) (gravity, heat []chart.Point) {
	if g.Log == nil {
		return nil, nil
	}
	every := 1 + 2*g.Log.Rows()/tracePoints
	gravities, heats := peaks{every: every}, peaks{every: every}
	for p := range g.Sheet.Inquire().LogTrace() {
		gravities.take(p.When, p.Gravity)
		heats.take(p.When, p.Temp)
	}
	return gravities.all(), heats.all()
}

// peaks keeps the lowest and the highest of every few points.
type peaks struct {
	every, seen int
	low, high   chart.Point
	kept        []chart.Point
}

func (p *peaks) take(at time.Time, value float64) {
	if math.IsNaN(value) {
		return
	}
	point := chart.Point{At: at, Value: value}
	if p.seen == 0 || value < p.low.Value {
		p.low = point
	}
	if p.seen == 0 || value > p.high.Value {
		p.high = point
	}
	if p.seen++; p.seen == p.every {
		p.kept, p.seen = p.all(), 0
	}
}

// all are the points kept, those of the last few with them.
func (p *peaks) all() []chart.Point {
	switch {
	case p.seen == 0:
		return p.kept
	case p.low.Value == p.high.Value:
		return append(p.kept, p.low)
	case p.low.At.Before(p.high.At):
		return append(p.kept, p.low, p.high)
	}
	return append(p.kept, p.high, p.low)
}

// heatsOutside are the heats read by hand before the logger's and after them: two
// thermometers drawn as one line would make a jagged one.
func heatsOutside(g *book.Gyle, logged []chart.Point) (heats []chart.Point) {
	for _, r := range g.Readings {
		at := r.When.Middle()
		if !r.Temp.Written() || !r.When.Written() || r.Package.Written() {
			continue
		}
		if len(logged) == 0 || at.Before(logged[0].At) || at.After(logged[len(logged)-1].At) {
			heats = append(heats, chart.Point{At: at, Value: float64(r.Temp.Value)})
		}
	}
	return heats
}

// forecastSteps is in how many steps the course still expected is drawn.
const forecastSteps = 24

// forecast is the course still expected while the beer works: from the last
// sighting until the curve has come to its end.
func forecast(g *book.Gyle) []chart.Expected {
	if g.Sheet.Stage != figures.Working {
		return nil
	}
	end, ok := g.Sheet.First(figures.IDForecastFinish)
	f := g.Sheet.Forecast()
	if !ok || f == nil || !end.Date.After(f.From()) {
		return nil
	}
	var course []chart.Expected
	for i := range forecastSteps + 1 {
		at := f.From().Add(end.Date.Sub(f.From()) * time.Duration(i) / forecastSteps)
		value, plusMinus := f.At(at)
		course = append(course, chart.Expected{At: at, Value: value.SG(), Low: value.SG() - plusMinus, High: value.SG() + plusMinus})
	}
	return course
}

// courseOf are the events that belong beside a fermentation.
var courseOf = []book.Happening{book.Pitching, book.HopsIn, book.Racking}

func (w pageWriter) course(g *book.Gyle) []chart.Event {
	var events []chart.Event
	for _, e := range w.book.Events(g) {
		if !e.Planned && slices.Contains(courseOf, e.What) {
			events = append(events, chart.Event{At: e.At, Label: happened(e.What)})
		}
	}
	for _, d := range g.Done {
		switch d.Did.Word {
		case journal.Roused, journal.Chilled, journal.Warmed, journal.Skimmed:
			events = append(events, chart.Event{At: d.When.Middle(), Label: d.Did.String()})
		}
	}
	slices.SortStableFunc(events, func(x, y chart.Event) int { return x.At.Compare(y.At) })
	return events
}

func happened(what book.Happening) string {
	switch what {
	case book.Pitching:
		return "pitched"
	case book.HopsIn:
		return "dry hops"
	case book.Racking:
		return "racked"
	}
	return string(what)
}

// conditionChart is where the carbon dioxide of the first container comes from.
func (w pageWriter) conditionChart(g *book.Gyle) template.HTML {
	total, ok := g.Sheet.First(figures.IDCondition)
	if !ok {
		return ""
	}
	part := func(id figures.ID) float64 {
		f, ok := g.Sheet.Find(id, total.Of)
		if !ok {
			f, ok = g.Sheet.Find(id, "")
		}
		if !ok {
			return 0
		}
		return f.Value
	}
	in := chart.ConditionInput{
		Frame: chart.Frame{Prefix: "c-condition"}, Residual: part("residual-co2"), Priming: part("priming-co2"), ToCome: part("co2-to-come"),
		PlusMinus: plusMinusOf(total),
	}
	if k, ok := w.containerOf(g, total.Of); ok {
		if k.Forced() {
			in.Priming, in.ToCome, in.PrimingWords = max(0, total.Value-in.Residual), 0, "from the cylinder"
		}
		if takes, known := rules.Takes(g.Sheet, k); known {
			in.Takes = float64(takes)
		}
	}
	// What is not in the total was let out again.
	if lost := in.Residual + in.Priming + in.ToCome - total.Value; lost > 0.005 {
		in.Vented = lost
	}
	if g.Aim.Condition.Written() {
		in.Aim = float64(g.Aim.Condition.Value)
	}
	return chart.Condition(in)
}

// containerOf is the container that a figure is about; the first of a gyle for a
// figure of the whole.
func (w pageWriter) containerOf(g *book.Gyle, of string) (figures.Container, bool) {
	all := g.Sheet.Containers()
	for _, k := range all {
		if k.Key == of || of == "" {
			return k, true
		}
	}
	return figures.Container{}, false
}

// leftChart is the pints left over time, where some have gone.
func (w pageWriter) leftChart(g *book.Gyle) template.HTML {
	course := g.Sheet.LeftOverTime()
	if !slices.ContainsFunc(course, func(l figures.Left) bool { return l.What == "poured" || l.What == "dumped" || l.What == "drawn off" }) {
		return ""
	}
	in := chart.LeftInput{Frame: chart.Frame{Prefix: "c-left"}, Zone: w.spell.zone}
	for _, l := range course {
		in.Left = append(in.Left, chart.Point{At: l.When, Value: l.Volume.UKPints()})
		if l.What == "dumped" || l.What == "drawn off" {
			in.Events = append(in.Events, chart.Event{At: l.When, Label: l.What})
		}
	}
	in.Pints = w.converted(in.Left, "UK pints")
	if g.Sheet.Stage < figures.Empty {
		in.Until = w.book.Now
	}
	for _, c := range g.Sheet.Containers() {
		if b := g.Sheet.Broached(c); b.Written() && !b.Time.After(w.book.Now) {
			in.Events = append(in.Events, chart.Event{At: b.Middle(), Label: "broached"})
			break
		}
	}
	return chart.Left(in)
}

// converted brings points into the unit that pages are written in, and names it.
func (w pageWriter) converted(points []chart.Point, unit string) string {
	c := w.spell.Into(unit)
	for i := range points {
		points[i].Value = c.Of(points[i].Value)
	}
	return c.Unit
}

// lineageChart is a family's gyles, the one whose page it is marked.
func (w pageWriter) lineageChart(gyles []*book.Gyle, here *book.Gyle) template.HTML {
	in := chart.LineageInput{Frame: chart.Frame{Prefix: "c-lineage"}}
	for _, g := range gyles {
		n := chart.Gyle{Number: numberOf(g), Name: beer(g), Href: w.gyle(g).Href, Here: g == here}
		if w.published(g.Follows) {
			n.Follows = append(n.Follows, numberOf(g.Follows))
		}
		for _, d := range w.publishedOf(g.Drawn) {
			n.Follows = append(n.Follows, numberOf(d))
		}
		in.Gyles = append(in.Gyles, n)
	}
	return chart.Lineage(in)
}

func numberOf(g *book.Gyle) int {
	if n, err := strconv.Atoi(g.Slug); err == nil {
		return n
	}
	return g.Number.N
}

// seriesChart is one figure across gyles.
func (w pageWriter) seriesChart(prefix string, s book.Series, low, high float64, what string) template.HTML {
	in := chart.DotsInput{Frame: chart.Frame{Prefix: prefix}, Name: s.Label, Low: low, High: high, Range: what}
	if s.Unit != "" {
		in.Name += ", " + s.Unit
	}
	for _, p := range s.Points {
		if w.published(p.Gyle) {
			in.Results = append(in.Results, chart.Result{Gyle: numberOf(p.Gyle), Value: p.Value, PlusMinus: p.PlusMinus, Href: w.gyle(p.Gyle).Href})
		}
	}
	if s.Learned.Enough() {
		in.Median = s.Learned.Median
	}
	if len(in.Results) < 2 {
		return ""
	}
	return chart.Dots(in)
}

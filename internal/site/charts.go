package site

import (
	"html/template"
	"math"
	"path"
	"slices"
	"strconv"

	"gylebook/internal/book"
	"gylebook/internal/chart"
	"gylebook/internal/figures"
	"gylebook/internal/journal"
)

// fermentationChart is gravity and temperature against time, with the forecast.
func (a at) fermentationChart(g *book.Gyle) template.HTML {
	in := chart.FermentationInput{Frame: chart.Frame{Prefix: "c-ferment"}, Zone: a.spell.zone}
	for _, r := range g.Sheet.GravityReadings() {
		in.Gravity = append(in.Gravity, chart.Point{At: r.When, Value: float64(r.Gravity.Value), PlusMinus: float64(r.Gravity.PlusMinus())})
	}
	if len(in.Gravity) < 2 {
		return ""
	}
	for _, r := range g.Readings {
		if r.Temp.Written() && r.When.Written() && !r.Package.Written() {
			in.Temperature = append(in.Temperature, chart.Point{At: r.When.Middle(), Value: float64(r.Temp.Value)})
		}
	}
	for _, l := range a.logged(g) {
		if !math.IsNaN(l.Gravity) {
			in.Logged = append(in.Logged, chart.Point{At: l.When, Value: l.Gravity})
		}
		if !math.IsNaN(l.Temp) {
			in.Temperature = append(in.Temperature, chart.Point{At: l.When, Value: l.Temp})
		}
	}
	in.Forecast = forecast(g)
	in.Events = a.course(g)
	return chart.Fermentation(in)
}

// logged is the rows of a gyle's logger file, read when its chart is drawn: it
// may have a hundred thousand.
func (a at) logged(g *book.Gyle) []journal.LogRow {
	if g.Logger.Text == "" || a.options.Files == nil {
		return nil
	}
	name := path.Join(path.Dir(g.File), g.Logger.Text)
	if _, listed := a.files[name]; !listed {
		return nil
	}
	file, err := a.options.Files.Open(name)
	if err != nil {
		return nil
	}
	defer file.Close()
	log, _ := journal.ReadLog(name, file, a.spell.zone)
	if log == nil {
		return nil
	}
	return log.Rows
}

// forecast is a straight line from the last reading to the forecast end: the
// figures tell the end, not the course.
func forecast(g *book.Gyle) []chart.Expected {
	end, ok := g.Sheet.First("forecast-finish")
	fg, known := g.Sheet.First("forecast-fg")
	readings := g.Sheet.GravityReadings()
	if !ok || !known || len(readings) == 0 || g.Sheet.Stage != figures.Working {
		return nil
	}
	last := readings[len(readings)-1]
	if !end.Date.After(last.When) {
		return nil
	}
	pm := plusMinusOf(fg)
	if math.IsNaN(pm) {
		pm = 0
	}
	now := float64(last.Gravity.Value)
	return []chart.Expected{{At: last.When, Value: now, Low: now, High: now}, {At: end.Date, Value: fg.Value, Low: fg.Value - pm, High: fg.Value + pm}}
}

// courseOf are the events that belong beside a fermentation.
var courseOf = []book.Happening{book.Pitching, book.HopsIn, book.Racking}

func (a at) course(g *book.Gyle) []chart.Event {
	var events []chart.Event
	for _, e := range a.book.Events(g) {
		if !e.Planned && slices.Contains(courseOf, e.What) {
			events = append(events, chart.Event{At: e.At, Label: happened(e.What)})
		}
	}
	for _, d := range g.Done {
		switch d.Did.Word {
		case "roused", "chilled", "warmed", "skimmed":
			events = append(events, chart.Event{At: d.When.Middle(), Label: d.Did.Word})
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
func (a at) conditionChart(g *book.Gyle) template.HTML {
	total, ok := g.Sheet.First("condition")
	if !ok {
		return ""
	}
	part := func(id string) float64 {
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
	// What is not in the total was let out again.
	if lost := in.Residual + in.Priming + in.ToCome - total.Value; lost > 0.005 {
		in.Vented = lost
	}
	if g.Aim.Condition.Written() {
		in.Aim = float64(g.Aim.Condition.Value)
	}
	return chart.Condition(in)
}

// leftChart is the pints left over time, where some were poured.
func (a at) leftChart(g *book.Gyle) template.HTML {
	pints, ok := g.Sheet.First("pints")
	if !ok || len(g.Poured) == 0 {
		return ""
	}
	left := pints.Value
	begun := g.Racked.On.Middle()
	for _, c := range g.Sheet.Containers() {
		if filled := g.Sheet.Filled(c); filled.Written() && begun.IsZero() {
			begun = filled.Middle()
		}
	}
	if begun.IsZero() || begun.Year() < 2 {
		begun = g.Poured[0].When.Middle()
	}
	in := chart.LeftInput{Frame: chart.Frame{Prefix: "c-left"}, Zone: a.spell.zone, Left: []chart.Point{{At: begun, Value: left}}}
	poured := slices.Clone(g.Poured)
	slices.SortStableFunc(poured, func(x, y journal.Poured) int { return x.When.Time.Compare(y.When.Time) })
	for _, p := range poured {
		if !p.Volume.Written() || p.When.Time.After(a.book.Now) {
			continue
		}
		left = max(0, left-p.Volume.Value.UKPints())
		in.Left = append(in.Left, chart.Point{At: p.When.Middle(), Value: left})
	}
	if g.Sheet.Stage < figures.Empty {
		in.Until = a.book.Now
	}
	for _, c := range g.Sheet.Containers() {
		if b := g.Sheet.Broached(c); b.Written() && !b.Time.After(a.book.Now) {
			in.Events = append(in.Events, chart.Event{At: b.Middle(), Label: "broached"})
			break
		}
	}
	return chart.Left(in)
}

// lineageChart is a family's gyles, the one whose page it is marked.
func (a at) lineageChart(gyles []*book.Gyle, here *book.Gyle) template.HTML {
	in := chart.LineageInput{Frame: chart.Frame{Prefix: "c-lineage"}}
	for _, g := range gyles {
		n := chart.Gyle{Number: numberOf(g), Name: beer(g), Href: a.gyle(g).Href, Here: g == here}
		if a.published(g.Follows) {
			n.Follows = append(n.Follows, numberOf(g.Follows))
		}
		for _, d := range a.publishedOf(g.Drawn) {
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
func (a at) seriesChart(prefix string, s book.Series, low, high float64, what string) template.HTML {
	in := chart.DotsInput{Frame: chart.Frame{Prefix: prefix}, Name: s.Label, Low: low, High: high, Range: what}
	if s.Unit != "" {
		in.Name += ", " + s.Unit
	}
	for _, p := range s.Points {
		if a.published(p.Gyle) {
			in.Results = append(in.Results, chart.Result{Gyle: numberOf(p.Gyle), Value: p.Value, PlusMinus: p.PlusMinus})
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

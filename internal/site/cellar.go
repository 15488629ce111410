package site

import (
	"fmt"
	"slices"

	"gylebook/internal/book"
	"gylebook/internal/figures"
	"gylebook/internal/journal"
	"gylebook/internal/site/view"
)

// cellar is the tables of what was read and where the beer went, with the charts.
func (w pageWriter) cellar(v *GylePage, g *book.Gyle) {
	put(&v.Tables, w.readingTable(g), w.rackedTable(g), w.packageTable(g), w.gasTable(g), w.pouredTable(g), w.deedTable(g))
	v.Ferment, v.Condition, v.Left = w.fermentationChart(g), w.conditionChart(g), w.leftChart(g)
}

// mostReadings is how many readings a page lists; all are in the source.
const mostReadings = 40

func (w pageWriter) readingTable(g *book.Gyle) view.Table {
	t := newTable("p-readings", "Readings", "When", "#Gravity", "#Brix", "#Beer at", "#Sample at", "#pH", "#Pressure", "Notes")
	readings := g.Readings
	if left := len(readings) - mostReadings; left > 0 {
		readings = readings[left:]
		t.Note = fmt.Sprintf("The last %d of %d readings; all are in the source.", mostReadings, len(g.Readings))
	}
	for _, r := range readings {
		of := ""
		if r.Package.Written() {
			of = "of " + w.packageName(g, r.Package.N)
		}
		t.row(w.spell.tableMoment(r.When), value(w.spell, r.Gravity), value(w.spell, r.Brix), value(w.spell, r.Temp), value(w.spell, r.SampleAt), value(w.spell, r.PH), value(w.spell, r.Pressure),
			phrase("; ", r.Note.Text, with("with", r.With.Name), of))
	}
	return t.done()
}

func (w pageWriter) rackedTable(g *book.Gyle) view.Table {
	t := newTable("p-racked", "Racked and primed", "What", "#How much", "~When", "Notes")
	r := g.Racked
	if r.Where.Written() {
		early := ""
		if r.Early.Yes() {
			early = "early on purpose"
		}
		t.row("racked", value(w.spell, r.Volume), w.spell.tableMoment(r.On), phrase("; ", with("at", value(w.spell, r.Temp).String()), with("warmest since it slowed", value(w.spell, r.Warmest).String()), with("moved", r.Moved.String()), early))
	}
	p := g.Priming
	if p.Where.Written() {
		link := w.named("sugar", p.Sugar)
		if link.Text == "" {
			link.Text = "priming wort"
		}
		much := phrase(", ", value(w.spell, p.Weight).String(), value(w.spell, p.Wort).String())
		if p.Each.Written() {
			much = phrase(", ", much, value(w.spell, p.Each).String()+" each")
		}
		t.row(link, much, w.spell.tableMoment(p.On), with("worked out for", value(w.spell, p.Worked).String()))
	}
	return t.done()
}

// packageName is a container of the gyle in words.
func (w pageWriter) packageName(g *book.Gyle, i int) string {
	for _, c := range g.Sheet.Containers() {
		if c.Index == i {
			name := c.Name()
			if alike := len(g.Sheet.Containers()); alike > 1 {
				name += fmt.Sprintf(" (%d)", i+1)
			}
			return name
		}
	}
	return fmt.Sprintf("container %d", i+1)
}

func (w pageWriter) packageTable(g *book.Gyle) view.Table {
	t := newTable("p-packages", "In the cellar", "Container", "#Count", "#Fill", "~Filled", "~Broached", "~Empty", "~Best by")
	for _, c := range g.Sheet.Containers() {
		count := ""
		if c.Count() != 1 {
			count = itoa(c.Count())
		}
		best := ""
		if f, ok := g.Sheet.Find("drink-by", c.Key); ok {
			best = w.spell.tableDay(f.Date)
		}
		t.row(w.container(g, c), count, value(w.spell, c.Package.Fill), w.spell.tableMoment(g.Sheet.Filled(c)), w.spell.tableMoment(g.Sheet.Broached(c)), w.spell.tableMoment(g.Sheet.Emptied(c)), best)
	}
	return t.done()
}

// container is a link to what a container is.
func (w pageWriter) container(g *book.Gyle, c figures.Container) view.Link {
	link := w.named("vessel", c.Package.Vessel)
	link.Text = w.packageName(g, c.Index)
	return link
}

func (w pageWriter) gasTable(g *book.Gyle) view.Table {
	t := newTable("p-pressure", "Gas and pressure", "Container", "#Condition", "#At the warmest", "#In the cellar", "#Margin")
	for _, c := range g.Sheet.Containers() {
		margin := w.of(g, "pressure-margin", c.Key)
		if margin.Value == "" {
			margin = w.of(g, "bag-slack", c.Key)
		}
		cells := []view.Measure{w.of(g, "condition", c.Key), w.of(g, "pressure-warmest", c.Key), w.of(g, "pressure-cellar", c.Key), margin}
		if slices.ContainsFunc(cells, func(m view.Measure) bool { return m.Value != "" }) {
			t.row(w.container(g, c), cells[0], cells[1], cells[2], cells[3])
		}
	}
	t.Note = "Pressures are above the atmosphere. The margin is what is left to the maker’s rating or, in a soft bag, before it goes tight."
	return t.done()
}

// of is a figure of a container, else the same of the whole gyle.
func (w pageWriter) of(g *book.Gyle, id, key string) view.Measure {
	f, ok := g.Sheet.Find(id, key)
	if !ok && id == "condition" {
		f, ok = g.Sheet.Find(id, "")
	}
	if !ok {
		return view.Measure{}
	}
	return w.spell.figure(f)
}

func (w pageWriter) pouredTable(g *book.Gyle) view.Table {
	t := newTable("p-poured", "Poured", "When", "#How much", "~From")
	for _, p := range g.Poured {
		from := ""
		if p.Package.Written() {
			from = w.packageName(g, p.Package.N)
		}
		t.row(w.spell.tableMoment(p.When), value(w.spell, p.Volume), from)
	}
	s := g.Served
	if s.Where.Written() {
		sparkler := ""
		if s.Sparkler.Written() {
			sparkler = "sparkler off"
			if s.Sparkler.Yes() {
				sparkler = "sparkler on"
			}
		}
		t.Note = sentence(phrase(", ", with("served through", s.Through.String()), sparkler, with("at", value(w.spell, s.At).String())))
	}
	return t.done()
}

// ventedFor says how long a container was vented.
func ventedFor(length journal.VentLength) string {
	switch length {
	case journal.UntilQuiet:
		return "until quiet"
	case journal.ForAMoment:
		return "for a moment"
	}
	return ""
}

func (w pageWriter) deedTable(g *book.Gyle) view.Table {
	t := newTable("p-done", "Done", "When", "What", "#At", "#How much", "Notes")
	for _, d := range g.Done {
		to := d.What.Text
		if d.Package.Written() {
			to = phrase(", ", to, w.packageName(g, d.Package.N))
		}
		t.row(w.spell.tableMoment(d.When), phrase(" ", d.Did.String(), to), value(w.spell, d.At), value(w.spell, d.Volume),
			phrase("; ", with("with", d.With.Name), ventedFor(d.Until.Word), d.Note.Text))
	}
	return t.done()
}

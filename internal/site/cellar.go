package site

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"gylebook/internal/book"
	"gylebook/internal/figures"
	"gylebook/internal/journal"
	"gylebook/internal/site/view"
)

// cellar is the tables of where the beer went, with the charts.
func (w pageWriter) cellar(v *GylePage, g *book.Gyle) {
	put(&v.Cellar, w.rackedTable(g), w.packageTable(g), w.cylinderTable(g), w.gasTable(g), w.pouredTable(g), w.deedTable(g))
	v.Ferment, v.Condition, v.Left = w.fermentationChart(g), w.conditionChart(g), w.leftChart(g)
}

// mostReadings is how many readings a page lists; all are in the source.
const mostReadings = 40

func (w pageWriter) readingTable(g *book.Gyle) view.Table {
	t := w.newTable("p-readings", "Readings",
		"When", "#Gravity", "#Brix", "#Beer at", "#Sample at", "#pH", "#Pressure", "Notes")
	readings := g.Readings
	if left := len(readings) - mostReadings; left > 0 {
		readings = readings[left:]
		t.Note = fmt.Sprintf("The last %d of %d readings; all are in the source.", mostReadings, len(g.Readings))
	}
	for _, r := range readings {
		notes := w.phrase("; ", r.Note, w.with("with", r.With), with("of", w.packageNamed(g, r.Package)))
		t.row(r.When, r.Gravity, r.Brix, r.Temp, r.SampleAt, r.PH, r.Pressure, notes)
	}
	return t.done()
}

func (w pageWriter) rackedTable(g *book.Gyle) view.Table {
	t := w.newTable("p-racked", "Racked and primed", "What", "#How much", "~When", "Notes")
	r := g.Racked
	if r.Where.Written() {
		early := ""
		if r.Early.Yes() {
			early = "early on purpose"
		}
		warmest := w.with("warmest since it slowed", r.Warmest)
		t.row("racked", r.Volume, r.On, w.phrase("; ", w.with("at", r.Temp), warmest, w.with("moved", r.Moved), early))
	}
	p := g.Priming
	if p.Where.Written() {
		link := w.named("sugar", p.Sugar)
		if link.Text == "" {
			link.Text = "priming wort"
		}
		much := w.phrase(", ", p.Weight, p.Wort)
		if p.Each.Written() {
			much = w.phrase(", ", much, w.text(p.Each)+" each")
		}
		t.row(link, much, p.On, w.with("worked out for", p.Worked))
	}
	return t.done()
}

// packageNamed is the container that an entry names by its place, "" for none.
func (w pageWriter) packageNamed(g *book.Gyle, place journal.Whole) string {
	if !place.Written() {
		return ""
	}
	return w.packageName(g, place.N)
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
	t := w.newTable("p-packages", "In the cellar", "Container", "#Count", "#Fill", "~Filled", "~Broached", "~Empty", "~Best by")
	for _, c := range g.Sheet.Containers() {
		count := ""
		if c.Count() != 1 {
			count = itoa(c.Count())
		}
		best := ""
		if f, ok := g.Sheet.Find(figures.IDDrinkBy, c.Key); ok {
			best = w.spell.tableDay(f.Date)
		}
		t.row(w.container(g, c), count, c.Package.Fill, g.Sheet.Filled(c), g.Sheet.Broached(c), g.Sheet.Emptied(c), best)
	}
	return t.done()
}

// cylinderTable is what presses on the beer by a brewer's hand: cylinders and relief
// valves.
func (w pageWriter) cylinderTable(g *book.Gyle) view.Table {
	t := w.newTable("p-cylinders", "Cylinders and valves", "On", "~What", "#Set", "#At", "~From", "~To", "Notes")
	if v := g.Fermenter.Spunding; v.Set.Written() {
		t.row("the fermenter", "relief valve", v.Set, "", v.From, v.To, "")
	}
	for _, c := range g.Sheet.Containers() {
		p := c.Package
		notes := w.phrase("; ", purgedOr(p.Purged), w.with("as it is drawn comes in", p.Replaced))
		if gas := p.Gas; gas.Where.Written() {
			t.row(w.container(g, c), w.phrase(", ", gas.With, w.with("of it carbon dioxide", gas.Share)), gas.Set, gas.At, gas.From, gas.To, notes)
			notes = ""
		}
		if v := p.Spunding; v.Set.Written() {
			t.row(w.container(g, c), "relief valve", v.Set, "", v.From, v.To, notes)
		} else if notes != "" {
			t.row(w.container(g, c), "", "", "", "", "", notes)
		}
	}
	return t.done()
}

// purgedOr says whether the air was driven out, "" where nobody says.
func purgedOr(purged journal.Flag) string {
	return map[bool]string{purged.Yes(): "purged of air", purged.No(): "sealed with air"}[true]
}

// container is a link to what a container is.
func (w pageWriter) container(g *book.Gyle, c figures.Container) view.Link {
	link := w.named("vessel", c.Package.Vessel)
	link.Text = w.packageName(g, c.Index)
	return link
}

func (w pageWriter) gasTable(g *book.Gyle) view.Table {
	t := w.newTable("p-pressure", "Gas and pressure", "Container", "#Condition", "#At the warmest", "#In the cellar", "#Margin")
	for _, c := range g.Sheet.Containers() {
		condition := w.of(g, c.Key, figures.IDCondition)
		if f, ok := g.Sheet.Find(figures.IDCondition, ""); ok && condition.Value == "" {
			condition = w.spell.figure(f) // of the whole gyle
		}
		warmest, cellar := w.of(g, c.Key, figures.IDPressureWarmest), w.of(g, c.Key, figures.IDPressureCellar)
		margin := w.of(g, c.Key, figures.IDPressureMargin, figures.IDBagSlack)
		if cmp.Or(condition.Value, warmest.Value, cellar.Value, margin.Value) != "" {
			t.row(w.container(g, c), condition, warmest, cellar, margin)
		}
	}
	t.Note = "Pressures are above the atmosphere. The margin is what is left to the maker’s rating or, in a soft bag, before it goes tight."
	return t.done()
}

// of is the first of these figures that a container has.
func (w pageWriter) of(g *book.Gyle, key string, ids ...figures.ID) view.Measure {
	for _, id := range ids {
		if f, ok := g.Sheet.Find(id, key); ok {
			return w.spell.figure(f)
		}
	}
	return view.Measure{}
}

func (w pageWriter) pouredTable(g *book.Gyle) view.Table {
	t := w.newTable("p-poured", "Poured", "When", "#How much", "~From")
	for _, p := range g.Poured {
		t.row(p.When, p.Volume, w.packageNamed(g, p.Package))
	}
	s := g.Served
	t.Note = sentence(w.phrase(", ", w.with("served through", s.Through), sparkler(s.Sparkler), w.with("at", s.At)))
	return t.done()
}

// sparkler says whether there was one, "" where that was not noted.
func sparkler(f journal.Flag) string {
	return map[bool]string{f.Yes(): "sparkler on", f.No(): "sparkler off"}[true]
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
	t := w.newTable("p-done", "Done", "When", "What", "#At", "#How much", "Notes")
	for _, d := range g.Done {
		what := w.phrase(" ", d.Did, w.phrase(", ", d.What, w.packageNamed(g, d.Package)))
		t.row(d.When, what, d.At, d.Volume, w.phrase("; ", w.with("with", d.With), ventedFor(d.Until.Word), d.Note))
	}
	return t.done()
}

// vesselHistory is what has been in a vessel: each filling with what it was
// filled with, for how long, the pressure it came to, and when it was last
// cleaned for it; the latest gyle first.
func (w pageWriter) vesselHistory(subject *book.Subject, uses []book.Use) view.Table {
	t := w.newTable("p-history", "History",
		"Gyle", "#Held", "#Times", "~Filled", "~Empty", "#At the warmest", "#Margin", "~Cleaned")
	seen := map[*book.Gyle]bool{}
	for _, u := range uses {
		g := u.Gyle
		if seen[g] || len(seen) == mostUses {
			continue
		}
		seen[g] = true
		for _, c := range g.Sheet.Containers() {
			if w.book.Subject("vessel", c.Package.Vessel.Name) != subject {
				continue
			}
			times := ""
			if c.Count() > 1 {
				times = itoa(c.Count())
			}
			warmest, margin := w.of(g, c.Key, figures.IDPressureWarmest), w.of(g, c.Key, figures.IDPressureMargin, figures.IDBagSlack)
			cleaned := w.cleaned(g, subject, c.Index)
			t.row(w.numbered(g), c.Package.Fill, times, g.Sheet.Filled(c), g.Sheet.Emptied(c), warmest, margin, cleaned)
		}
		if w.book.Subject("vessel", g.Fermenter.Vessel.Name) == subject && g.Fermenter.Vessel.Name != "" {
			begun, cleaned := w.spell.tableDay(g.Begun), w.cleaned(g, subject, -1)
			t.row(w.numbered(g), g.Fermenter.Volume, "", begun, g.Racked.On, "", "", cleaned)
		}
	}
	t.Note = "Cleaned is the latest cleaning that the gyle’s entry tells of and that names this vessel or container. " +
		"Pressures are above the atmosphere; the margin is what is left to the maker’s rating or, in a soft bag, " +
		"before it goes tight."
	return t.done()
}

// cleaned is the latest cleaning of a container, or of a vessel by its name.
func (w pageWriter) cleaned(g *book.Gyle, vessel *book.Subject, container int) string {
	var latest *journal.Deed
	for i, d := range g.Done {
		names := d.Package.Written() && d.Package.N == container || !d.Package.Written() && namesVessel(d.What.Text, vessel.Name)
		if d.Did.Word == journal.Cleaned && names && (latest == nil || d.When.Time.After(latest.When.Time)) {
			latest = &g.Done[i]
		}
	}
	if latest == nil {
		return ""
	}
	return w.phrase(" ", w.spell.tableDay(latest.When.Time), w.with("with", latest.With))
}

// namesVessel tells whether a text is about a vessel of this name: whether a
// word of the name, in the singular or the plural, stands in it. Words of less
// than three letters and numbers do not count: those are sizes.
func namesVessel(text, name string) bool {
	said := strings.FieldsFunc(strings.ToLower(text), func(r rune) bool { return r != '-' && (r < 'a' || r > 'z') })
	for _, w := range strings.Fields(strings.ToLower(name)) {
		if len(w) < 3 || w == "soft" || w == "steel" || w == "pressure" || strings.ContainsAny(w, "0123456789") {
			continue
		}
		if slices.Contains(said, w) || slices.Contains(said, w+"s") {
			return true
		}
	}
	return false
}

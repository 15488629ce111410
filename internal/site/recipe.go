package site

import (
	"gylebook/internal/book"
	"gylebook/internal/journal"
	"gylebook/internal/quantity"
	"gylebook/internal/site/view"
)

// recipe is the tables of what went in, which a reader may want at a glance, and of the
// rest of brew day, in its order.
func (w pageWriter) recipe(v *GylePage, g *book.Gyle) {
	put(&v.WentIn, w.gristTable(g), w.hopTable(g), w.addedTable(g), w.yeastTable(g))
	put(&v.Brewed, w.liquorTable(g), w.mashTable(g), w.copperTable(g), w.finingTable(g), w.readingTable(g))
}

func (w pageWriter) liquorTable(g *book.Gyle) view.Table {
	t := w.newTable("p-liquor", "Liquor", "What", "#How much", "~Into", "Notes")
	l := g.Liquor
	if l.Water.Name != "" || l.Volume.Written() {
		name := w.named("water", l.Water)
		if name.Text == "" {
			name.Text = "liquor"
		}
		t.row(name, l.Volume, "", chlorine(l.Chlorine))
	} else if l.Chlorine.Written() {
		t.row("liquor", "", "", chlorine(l.Chlorine))
	}
	for _, s := range l.Salts {
		t.row(w.named("salt", s.Salt), s.Weight, s.Into, "")
	}
	for _, acid := range l.Acids {
		t.row(w.text(acid.Acid)+" acid", acid.Volume, acid.Into, acid.Strength)
	}
	return t.done()
}

func chlorine(c journal.Choice[journal.ChlorineRemoval]) string {
	switch c.Word {
	case "":
		return ""
	case journal.NoChlorine:
		return "no chlorine in it"
	case journal.ChlorineSulphite:
		return "chlorine taken out with sulphite"
	case journal.ChlorineCarbon:
		return "chlorine taken out through carbon"
	}
	return "chlorine let go: " + c.String()
}

// gristTable has each share of the grist's weight; a syrup or sugar counts too.
func (w pageWriter) gristTable(g *book.Gyle) view.Table {
	t := w.newTable("p-grist", "Grist", "What", "#Weight", "#Share", "#Colour", "#Extract", "~Into")
	total := 0.0
	for _, grain := range g.Grist {
		if grain.Weight.Written() && grain.Weight.Value > 0 {
			total += float64(grain.Weight.Value)
		}
	}
	for _, grain := range g.Grist {
		share := ""
		if grain.Weight.Written() && total > 0 && len(g.Grist) > 1 {
			share = quantity.Fixed(100*float64(grain.Weight.Value)/total, 1) + "\u00a0%"
		}
		t.row(w.grain(grain), grain.Weight, share, grain.Colour, grain.Extract, w.phrase(", ", grain.Into, grain.When))
	}
	return t.done()
}

// grain is the name of a line of the grist, whichever of its keys has it.
func (w pageWriter) grain(g journal.Grain) view.Link {
	for _, n := range []struct {
		kind string
		name journal.Name
	}{{"malt", g.Malt}, {"malt", g.Adjunct}, {"sugar", g.Sugar}, {"sugar", g.Syrup}} {
		if n.name.Name != "" {
			return w.named(n.kind, n.name)
		}
	}
	return view.Link{}
}

func (w pageWriter) mashTable(g *book.Gyle) view.Table {
	t := w.newTable("p-mash", "Mash and sparge", "What", "#Heat", "#Time", "#Liquor", "#pH", "Notes")
	m := g.Mash
	if m.Strike.Written() || m.Liquor.Written() || m.Started.Written() {
		tun := w.phrase(" ", w.with("in", w.named("vessel", m.Vessel).Text), w.with("at", m.VesselAt))
		notes := w.phrase("; ", w.with("grist at", m.GrainAt), tun, w.with("mashed in", m.Started))
		t.row("strike", m.Strike, "", m.Liquor, "", notes)
	}
	for i, r := range m.Rests {
		ph := ""
		if i == 0 {
			ph = w.text(m.PH)
		}
		t.row("rest", r.At, r.For, r.Liquor, ph, w.phrase(" ", w.with("by", r.By), w.with("at", r.LiquorAt)))
	}
	if len(m.Rests) == 0 && m.PH.Written() {
		t.row("mash", "", "", "", m.PH, "")
	}
	s := g.Sparge
	if s.Written() {
		t.row("sparge", s.At, "", s.Liquor, s.PH, w.with("last runnings", s.LastRunnings))
	}
	return t.done()
}

func (w pageWriter) copperTable(g *book.Gyle) view.Table {
	t := w.newTable("p-copper", "Copper and fermenter", "When", "#Volume", "#Gravity", "Notes")
	measured := func(when string, m journal.Measured) {
		if m.Volume.Written() || m.Gravity.Written() {
			t.row(when, m.Volume, m.Gravity, w.with("read at", m.Temp))
		}
	}
	c := g.Copper
	measured("before the boil", c.Before)
	switch {
	case c.Boiled.None:
		t.row("not boiled", "", "", "raw ale")
	case c.Boiled.Written():
		t.row("boiled", "", "", w.phrase(", ", c.Boiled, w.with("from", c.Started), w.with("over", c.Fuel)))
	}
	measured("after the boil", c.After)
	f := g.Fermenter
	if f.Volume.Written() || f.Gravity.Written() {
		t.row("in the fermenter", f.Volume, f.Gravity, w.phrase(", ", w.named("vessel", f.Vessel).Text, w.with("liquored back with", f.Topped)))
	}
	return t.done()
}

func (w pageWriter) hopTable(g *book.Gyle) view.Table {
	t := w.newTable("p-hops", "Hops", "What", "#Weight", "#Alpha", "#Time", "How", "~Crop")
	for _, h := range g.Hops {
		time, how := hopTime(h)
		how = w.phrase(", ", w.phrase(" ", how, w.with("at", h.At)), h.Form, h.When)
		t.row(w.named("hop", h.Hop), h.Weight, h.Alpha, time, how, h.Crop)
	}
	return t.done()
}

// hopTime is how long a hop was in, and in what way.
func hopTime(h journal.Hop) (time journal.Value[quantity.Duration], how string) {
	switch {
	case h.Boiled.Written():
		return h.Boiled, "boiled"
	case h.Steeped.Written():
		return h.Steeped, "steeped"
	case h.Dry.Written():
		return h.Dry, "dry"
	}
	return time, h.Into.String()
}

func (w pageWriter) addedTable(g *book.Gyle) view.Table {
	t := w.newTable("p-added", "Also added", "What", "#How much", "~Into", "~When")
	for _, x := range g.Added {
		what := w.named("fruit", x.Fruit)
		if x.Juice.Name != "" {
			what = w.named("fruit", x.Juice)
		}
		if what.Text == "" {
			what.Text = x.Called()
		}
		t.row(what, w.phrase(", ", x.Weight, x.Volume), x.Into, x.When)
	}
	return t.done()
}

func (w pageWriter) finingTable(g *book.Gyle) view.Table {
	t := w.newTable("p-finings", "Finings", "What", "#How much", "~Into", "~When")
	for _, f := range g.Finings {
		t.row(w.named("fining", f.With), w.phrase(", ", f.Weight, f.Volume), f.Into,
			w.phrase(", ", f.When, w.with("at", f.At)))
	}
	return t.done()
}

func (w pageWriter) yeastTable(g *book.Gyle) view.Table {
	t := w.newTable("p-yeast", "Yeast", "What", "#How much", "Sold as", "~Pitched", "#At", "Notes")
	for _, y := range g.Yeast {
		starter := ""
		if y.Starter.Written() {
			starter = w.phrase(" ", "starter of", y.Starter.Volume, w.with("at", y.Starter.Gravity))
		}
		notes := w.phrase("; ", w.with("from gyle", y.FromGyle), w.with("packed", y.Packed), w.with("best by", y.BestBy), starter)
		t.row(w.named("yeast", y.Yeast), w.phrase(", ", y.Weight, y.Volume, y.Cells), y.Sold, y.Pitched, y.At, notes)
	}
	return t.done()
}

package site

import (
	"gylebook/internal/book"
	"gylebook/internal/journal"
	"gylebook/internal/quantity"
	"gylebook/internal/site/view"
)

// recipe is the tables of what went in, in the order of a brew day.
func (w pageWriter) recipe(v *GylePage, g *book.Gyle) {
	put(&v.Tables, w.liquorTable(g), w.gristTable(g), w.mashTable(g), w.copperTable(g), w.hopTable(g), w.addedTable(g), w.finingTable(g), w.yeastTable(g))
}

func (w pageWriter) liquorTable(g *book.Gyle) view.Table {
	t := newTable("p-liquor", "Liquor", "What", "#How much", "~Into", "Notes")
	l := g.Liquor
	if l.Water.Name != "" || l.Volume.Written() {
		name := w.named("water", l.Water)
		if name.Text == "" {
			name.Text = "liquor"
		}
		t.row(name, value(w.spell, l.Volume), "", chlorine(l.Chlorine))
	} else if l.Chlorine.Written() {
		t.row("liquor", "", "", chlorine(l.Chlorine))
	}
	for _, s := range l.Salts {
		t.row(w.named("salt", s.Salt), value(w.spell, s.Weight), s.Into.String(), "")
	}
	for _, acid := range l.Acids {
		t.row(acid.Acid.String()+" acid", value(w.spell, acid.Volume), acid.Into.String(), value(w.spell, acid.Strength).String())
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
	t := newTable("p-grist", "Grist", "What", "#Weight", "#Share", "#Colour", "#Extract", "~Into")
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
		into := grain.Into.String()
		if grain.When.Written() {
			into = phrase(", ", into, w.spell.tableMoment(grain.When))
		}
		t.row(w.grain(grain), value(w.spell, grain.Weight), share, value(w.spell, grain.Colour), value(w.spell, grain.Extract), into)
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
	t := newTable("p-mash", "Mash and sparge", "What", "#Heat", "#Time", "#Liquor", "#pH", "Notes")
	m := g.Mash
	if m.Strike.Written() || m.Liquor.Written() || m.Started.Written() {
		tun := phrase(" ", with("in", w.named("vessel", m.Vessel).Text), with("at", value(w.spell, m.VesselAt).String()))
		t.row("strike", value(w.spell, m.Strike), "", value(w.spell, m.Liquor), "", phrase("; ", with("grist at", value(w.spell, m.GrainAt).String()), tun, with("mashed in", w.spell.tableMoment(m.Started))))
	}
	for i, r := range m.Rests {
		ph := view.Measure{}
		if i == 0 {
			ph = value(w.spell, m.PH)
		}
		t.row("rest", value(w.spell, r.At), value(w.spell, r.For), value(w.spell, r.Liquor), ph, phrase(" ", with("by", r.By.String()), with("at", value(w.spell, r.LiquorAt).String())))
	}
	if len(m.Rests) == 0 && m.PH.Written() {
		t.row("mash", "", "", "", value(w.spell, m.PH), "")
	}
	s := g.Sparge
	if s.Written() {
		t.row("sparge", value(w.spell, s.At), "", value(w.spell, s.Liquor), value(w.spell, s.PH), with("last runnings", value(w.spell, s.LastRunnings).String()))
	}
	return t.done()
}

func (w pageWriter) copperTable(g *book.Gyle) view.Table {
	t := newTable("p-copper", "Copper and fermenter", "When", "#Volume", "#Gravity", "Notes")
	measured := func(when string, m journal.Measured) {
		if m.Volume.Written() || m.Gravity.Written() {
			t.row(when, value(w.spell, m.Volume), value(w.spell, m.Gravity), with("read at", value(w.spell, m.Temp).String()))
		}
	}
	c := g.Copper
	measured("before the boil", c.Before)
	switch {
	case c.Boiled.None:
		t.row("not boiled", "", "", "raw ale")
	case c.Boiled.Written():
		t.row("boiled", "", "", phrase(", ", value(w.spell, c.Boiled).String(), with("from", w.spell.tableMoment(c.Started)), with("over", c.Fuel.String())))
	}
	measured("after the boil", c.After)
	f := g.Fermenter
	if f.Volume.Written() || f.Gravity.Written() {
		t.row("in the fermenter", value(w.spell, f.Volume), value(w.spell, f.Gravity), phrase(", ", w.named("vessel", f.Vessel).Text, with("liquored back with", value(w.spell, f.Topped).String())))
	}
	return t.done()
}

func (w pageWriter) hopTable(g *book.Gyle) view.Table {
	t := newTable("p-hops", "Hops", "What", "#Weight", "#Alpha", "#Time", "How", "~Crop")
	for _, h := range g.Hops {
		time, how := hopTime(w.spell, h)
		crop := ""
		if h.Crop.Written() {
			crop = itoa(h.Crop.N)
		}
		t.row(w.named("hop", h.Hop), value(w.spell, h.Weight), value(w.spell, h.Alpha), time,
			phrase(", ", phrase(" ", how, with("at", value(w.spell, h.At).String())), h.Form.String(), w.spell.tableMoment(h.When)), crop)
	}
	return t.done()
}

// hopTime is how long a hop was in, and in what way.
func hopTime(s speller, h journal.Hop) (view.Measure, string) {
	switch {
	case h.Boiled.Written():
		return value(s, h.Boiled), "boiled"
	case h.Steeped.Written():
		return value(s, h.Steeped), "steeped"
	case h.Dry.Written():
		return value(s, h.Dry), "dry"
	}
	return view.Measure{}, h.Into.String()
}

func (w pageWriter) addedTable(g *book.Gyle) view.Table {
	t := newTable("p-added", "Also added", "What", "#How much", "~Into", "~When")
	for _, x := range g.Added {
		what := w.named("fruit", x.Fruit)
		if x.Juice.Name != "" {
			what = w.named("fruit", x.Juice)
		}
		if what.Text == "" {
			what.Text = x.Called()
		}
		t.row(what, phrase(", ", value(w.spell, x.Weight).String(), value(w.spell, x.Volume).String()), x.Into.String(), w.spell.tableMoment(x.When))
	}
	return t.done()
}

func (w pageWriter) finingTable(g *book.Gyle) view.Table {
	t := newTable("p-finings", "Finings", "What", "#How much", "~Into", "~When")
	for _, f := range g.Finings {
		t.row(w.named("fining", f.With), phrase(", ", value(w.spell, f.Weight).String(), value(w.spell, f.Volume).String()), f.Into.String(),
			phrase(", ", w.spell.tableMoment(f.When), with("at", value(w.spell, f.At).String())))
	}
	return t.done()
}

func (w pageWriter) yeastTable(g *book.Gyle) view.Table {
	t := newTable("p-yeast", "Yeast", "What", "#How much", "Sold as", "~Pitched", "#At", "Notes")
	for _, y := range g.Yeast {
		from := ""
		if y.FromGyle.Written() {
			from = "from gyle " + itoa(y.FromGyle.N)
		}
		starter := ""
		if y.Starter.Written() {
			starter = phrase(" ", "starter of", value(w.spell, y.Starter.Volume).String(), with("at", value(w.spell, y.Starter.Gravity).String()))
		}
		t.row(w.named("yeast", y.Yeast), phrase(", ", value(w.spell, y.Weight).String(), value(w.spell, y.Volume).String(), value(w.spell, y.Cells).String()),
			y.Sold.String(), w.spell.tableMoment(y.Pitched), value(w.spell, y.At), phrase("; ", from, with("packed", w.spell.tableMoment(y.Packed)), with("best by", w.spell.tableMoment(y.BestBy)), starter))
	}
	return t.done()
}

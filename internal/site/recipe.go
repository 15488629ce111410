package site

import (
	"gylebook/internal/book"
	"gylebook/internal/journal"
	"gylebook/internal/quantity"
	"gylebook/internal/site/view"
)

// recipe is the tables of what went in, in the order of a brew day.
func (a at) recipe(v *view.Gyle, g *book.Gyle) {
	put(&v.Tables, a.liquorTable(g), a.gristTable(g), a.mashTable(g), a.copperTable(g), a.hopTable(g), a.addedTable(g), a.finingTable(g), a.yeastTable(g))
}

func (a at) liquorTable(g *book.Gyle) view.Table {
	t := newTable("p-liquor", "Liquor", "What", "#How much", "~Into", "Notes")
	l := g.Liquor
	if l.Water.Name != "" || l.Volume.Written() {
		name := a.named("water", l.Water)
		if name.Text == "" {
			name.Text = "liquor"
		}
		t.row(name, value(a.spell, l.Volume), "", chlorine(l.Chlorine))
	} else if l.Chlorine.Written() {
		t.row("liquor", "", "", chlorine(l.Chlorine))
	}
	for _, s := range l.Salts {
		t.row(a.named("salt", s.Salt), value(a.spell, s.Weight), s.Into.String(), "")
	}
	for _, acid := range l.Acids {
		t.row(acid.Acid.String()+" acid", value(a.spell, acid.Volume), acid.Into.String(), value(a.spell, acid.Strength).String())
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
func (a at) gristTable(g *book.Gyle) view.Table {
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
			into = phrase(", ", into, a.spell.tableMoment(grain.When))
		}
		t.row(a.grain(grain), value(a.spell, grain.Weight), share, value(a.spell, grain.Colour), value(a.spell, grain.Extract), into)
	}
	return t.done()
}

// grain is the name of a line of the grist, whichever of its keys has it.
func (a at) grain(g journal.Grain) view.Link {
	for _, n := range []struct {
		kind string
		name journal.Name
	}{{"malt", g.Malt}, {"malt", g.Adjunct}, {"sugar", g.Sugar}, {"sugar", g.Syrup}} {
		if n.name.Name != "" {
			return a.named(n.kind, n.name)
		}
	}
	return view.Link{}
}

func (a at) mashTable(g *book.Gyle) view.Table {
	t := newTable("p-mash", "Mash and sparge", "What", "#Heat", "#Time", "#Liquor", "#pH", "Notes")
	m := g.Mash
	if m.Strike.Written() || m.Liquor.Written() || m.Started.Written() {
		tun := phrase(" ", with("in", a.named("vessel", m.Vessel).Text), with("at", value(a.spell, m.VesselAt).String()))
		t.row("strike", value(a.spell, m.Strike), "", value(a.spell, m.Liquor), "", phrase("; ", with("grist at", value(a.spell, m.GrainAt).String()), tun, with("mashed in", a.spell.tableMoment(m.Started))))
	}
	for i, r := range m.Rests {
		ph := view.Measure{}
		if i == 0 {
			ph = value(a.spell, m.PH)
		}
		t.row("rest", value(a.spell, r.At), value(a.spell, r.For), value(a.spell, r.Liquor), ph, phrase(" ", with("by", r.By.String()), with("at", value(a.spell, r.LiquorAt).String())))
	}
	if len(m.Rests) == 0 && m.PH.Written() {
		t.row("mash", "", "", "", value(a.spell, m.PH), "")
	}
	s := g.Sparge
	if s.Written() {
		t.row("sparge", value(a.spell, s.At), "", value(a.spell, s.Liquor), value(a.spell, s.PH), with("last runnings", value(a.spell, s.LastRunnings).String()))
	}
	return t.done()
}

func (a at) copperTable(g *book.Gyle) view.Table {
	t := newTable("p-copper", "Copper and fermenter", "When", "#Volume", "#Gravity", "Notes")
	measured := func(when string, m journal.Measured) {
		if m.Volume.Written() || m.Gravity.Written() {
			t.row(when, value(a.spell, m.Volume), value(a.spell, m.Gravity), with("read at", value(a.spell, m.Temp).String()))
		}
	}
	c := g.Copper
	measured("before the boil", c.Before)
	switch {
	case c.Boiled.None:
		t.row("not boiled", "", "", "raw ale")
	case c.Boiled.Written():
		t.row("boiled", "", "", phrase(", ", value(a.spell, c.Boiled).String(), with("from", a.spell.tableMoment(c.Started)), with("over", c.Fuel.String())))
	}
	measured("after the boil", c.After)
	f := g.Fermenter
	if f.Volume.Written() || f.Gravity.Written() {
		t.row("in the fermenter", value(a.spell, f.Volume), value(a.spell, f.Gravity), phrase(", ", a.named("vessel", f.Vessel).Text, with("liquored back with", value(a.spell, f.Topped).String())))
	}
	return t.done()
}

func (a at) hopTable(g *book.Gyle) view.Table {
	t := newTable("p-hops", "Hops", "What", "#Weight", "#Alpha", "#Time", "How", "~Crop")
	for _, h := range g.Hops {
		time, how := hopTime(a.spell, h)
		crop := ""
		if h.Crop.Written() {
			crop = itoa(h.Crop.N)
		}
		t.row(a.named("hop", h.Hop), value(a.spell, h.Weight), value(a.spell, h.Alpha), time,
			phrase(", ", phrase(" ", how, with("at", value(a.spell, h.At).String())), h.Form.String(), a.spell.tableMoment(h.When)), crop)
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

func (a at) addedTable(g *book.Gyle) view.Table {
	t := newTable("p-added", "Also added", "What", "#How much", "~Into", "~When")
	for _, x := range g.Added {
		what := a.named("fruit", x.Fruit)
		if x.Juice.Name != "" {
			what = a.named("fruit", x.Juice)
		}
		if what.Text == "" {
			what.Text = x.Called()
		}
		t.row(what, phrase(", ", value(a.spell, x.Weight).String(), value(a.spell, x.Volume).String()), x.Into.String(), a.spell.tableMoment(x.When))
	}
	return t.done()
}

func (a at) finingTable(g *book.Gyle) view.Table {
	t := newTable("p-finings", "Finings", "What", "#How much", "~Into", "~When")
	for _, f := range g.Finings {
		t.row(a.named("fining", f.With), phrase(", ", value(a.spell, f.Weight).String(), value(a.spell, f.Volume).String()), f.Into.String(),
			phrase(", ", a.spell.tableMoment(f.When), with("at", value(a.spell, f.At).String())))
	}
	return t.done()
}

func (a at) yeastTable(g *book.Gyle) view.Table {
	t := newTable("p-yeast", "Yeast", "What", "#How much", "Sold as", "~Pitched", "#At", "Notes")
	for _, y := range g.Yeast {
		from := ""
		if y.FromGyle.Written() {
			from = "from gyle " + itoa(y.FromGyle.N)
		}
		starter := ""
		if y.Starter.Written() {
			starter = phrase(" ", "starter of", value(a.spell, y.Starter.Volume).String(), with("at", value(a.spell, y.Starter.Gravity).String()))
		}
		t.row(a.named("yeast", y.Yeast), phrase(", ", value(a.spell, y.Weight).String(), value(a.spell, y.Volume).String(), value(a.spell, y.Cells).String()),
			y.Sold.String(), a.spell.tableMoment(y.Pitched), value(a.spell, y.At), phrase("; ", from, with("packed", a.spell.tableMoment(y.Packed)), with("best by", a.spell.tableMoment(y.BestBy)), starter))
	}
	return t.done()
}

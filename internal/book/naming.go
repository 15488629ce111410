package book

import (
	"fmt"
	"unique"

	"gylebook/internal/journal"
	"gylebook/internal/quantity"
)

// nameReader goes through what one gyle names, in the order of the entry.
type nameReader struct {
	*journal.Gyle
	settings *journal.Settings
	found    []naming
}

// namingsIn are all uses of subjects in an entry.
func namingsIn(g *journal.Gyle, settings *journal.Settings) []naming {
	n := &nameReader{Gyle: g, settings: settings}
	n.all()
	return n.found
}

// says takes one use: the kind of card, the name as typed, how much.
func (n *nameReader) says(kind string, name journal.Name, amount string) {
	if folded(name.Name) != "" {
		n.found = append(n.found, naming{unique.Make(called{kind, name.Name}), name.Where, amount})
	}
}

func (n *nameReader) all() {
	g := n.Gyle
	n.says("style", g.Style, "")
	n.liquor(g.Liquor)
	n.grist(g.Grist)
	for _, h := range g.Hops {
		n.says("hop", h.Hop, hopAmount(h))
	}
	for _, a := range g.Added {
		amount := listed(phrase(first(spoken(a.Weight), spoken(a.Volume)), into(a.Into)))
		n.says("fruit", a.Fruit, amount)
		n.says("fruit", a.Juice, amount)
	}
	for _, f := range g.Finings {
		n.says("fining", f.With, phrase(first(spoken(f.Weight), spoken(f.Volume)), into(f.Into)))
	}
	for _, p := range g.Yeast {
		n.says("yeast", p.Yeast, listed(pitchAmount(p), with("pitched at", spoken(p.At))))
	}
	n.says("vessel", g.Mash.Vessel, phrase(spoken(g.Mash.Liquor), "to mash in"))
	n.says("vessel", g.Fermenter.Vessel, fermenterAmount(g.Fermenter))
	n.instruments()
	n.priming(g.Priming, 1)
	n.packages(g.Packages)
	for _, d := range g.Done {
		n.says("cleaner", d.With, phrase(d.Did.String(), d.What.Text))
	}
	for _, t := range g.Tastings {
		n.says("taster", t.By, scoreAmount(t))
	}
}

func (n *nameReader) liquor(l journal.Liquor) {
	n.says("water", l.Water, spoken(l.Volume))
	for _, s := range l.Salts {
		n.says("salt", s.Salt, phrase(spoken(s.Weight), into(s.Into)))
	}
}

// grist tells each line's weight and its share of all that was weighed, where
// every line has a weight.
func (n *nameReader) grist(grist []journal.Grain) {
	shares := gristShares(grist)
	for i, g := range grist {
		amount := listed(spoken(g.Weight), shares[i])
		n.says("malt", g.Malt, amount)
		n.says("malt", g.Adjunct, amount)
		n.says("sugar", g.Sugar, amount)
		n.says("sugar", g.Syrup, amount)
	}
}

// gristShares is each line's share of the weight, as 78 % of the grist; ""
// throughout where a line has no weight.
func gristShares(grist []journal.Grain) []string {
	total := quantity.Mass(0)
	shares := make([]string, len(grist))
	for _, g := range grist {
		if !g.Weight.Written() || g.Weight.Value <= 0 {
			return shares
		}
		total += g.Weight.Value
	}
	for i, g := range grist {
		shares[i] = share(100*float64(g.Weight.Value/total)) + " of the grist"
	}
	return shares
}

// share is a percentage as weighing supports it: whole, or to a tenth below
// ten.
func share(percent float64) string {
	decimals := 0
	if percent < 9.95 {
		decimals = 1
	}
	return quantity.Fixed(percent, decimals) + " %"
}

// hopAmount is 25 g at 60 min, 15 g steeped 20 min at 80 °C, 15 g dry for
// 3 days.
func hopAmount(h journal.Hop) string {
	weight := spoken(h.Weight)
	switch {
	case h.Boiled.Written():
		return phrase(weight, with("at", spoken(h.Boiled)))
	case h.Steeped.Written():
		return phrase(weight, with("steeped", spoken(h.Steeped)), with("at", spoken(h.At)))
	case h.Dry.Written():
		return phrase(weight, with("dry for", spoken(h.Dry)), with("at", spoken(h.At)))
	}
	return phrase(weight, into(h.Into))
}

func pitchAmount(p journal.Pitch) string {
	from := ""
	if p.FromGyle.Written() {
		from = fmt.Sprintf("from gyle %d", p.FromGyle.N)
	}
	return phrase(first(spoken(p.Weight), spoken(p.Volume), spoken(p.Cells)), p.Sold.String(), from)
}

func fermenterAmount(f journal.Fermenter) string {
	if !f.Volume.Written() {
		return "to work in"
	}
	return spoken(f.Volume) + " to work in"
}

// priming is the sugar of the gyle or of a package, which may be several alike.
func (n *nameReader) priming(p journal.Priming, count int) {
	amount := ""
	switch {
	case p.Each.Written() && count != 1:
		amount = fmt.Sprintf("%s in each of %d", spoken(p.Each), count)
	case p.Each.Written():
		amount = spoken(p.Each)
	default:
		amount = spoken(p.Weight)
	}
	n.says("sugar", p.Sugar, phrase(amount, "to prime"))
}

func (n *nameReader) packages(packages []journal.Package) {
	for _, p := range packages {
		amount, count := spoken(p.Fill), 1
		if p.Count.Written() {
			count = p.Count.N
			amount = fmt.Sprint(count) + " " + first(with("of", amount), "filled")
		}
		n.says("vessel", p.Vessel, amount)
		n.priming(p.Priming, count)
	}
}

func scoreAmount(t journal.Tasting) string {
	if !t.Score.Written() {
		return ""
	}
	return fmt.Sprintf("%s of %s", quantity.Plain(float64(t.Score.Value)), quantity.Plain(outOf(t)))
}

func into(c journal.Choice[journal.Place]) string {
	switch c.Word {
	case "":
		return ""
	case journal.IntoPackage:
		return "into the container"
	}
	return "into the " + c.String()
}

// first is the first text that says something.
func first(texts ...string) string {
	for _, t := range texts {
		if t != "" {
			return t
		}
	}
	return ""
}

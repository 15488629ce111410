package book

import (
	"fmt"
	"strings"
	"unique"

	"gylebook/internal/journal"
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
		amount := listed(phrase(firstOf(spoken(a.Weight), spoken(a.Volume)), into(a.Into)))
		n.says("fruit", a.Fruit, amount)
		n.says("fruit", a.Juice, amount)
	}
	for _, f := range g.Finings {
		n.says("fining", f.With, phrase(firstOf(spoken(f.Weight), spoken(f.Volume)), into(f.Into)))
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
			amount = fmt.Sprint(count) + " " + firstOf(with("of", amount), "filled")
		}
		n.says("vessel", p.Vessel, amount)
		n.priming(p.Priming, count)
	}
}

// reliance is how a gyle leaned on one instrument.
type reliance struct {
	name  journal.Name // with the place of its first reading
	what  []string     // what it read, in order of first use
	count map[string]int
}

// instruments tells each instrument once, with how many readings it gave: the
// one that a reading names, else the journal's usual one for that kind.
func (n *nameReader) instruments() {
	var all []*reliance
	relied := func(named journal.Name, usual, what string, where journal.Where) {
		if named.Name == "" {
			named = journal.Name{Name: usual, Where: where}
		}
		if named.Name == "" || !where.Written() {
			return
		}
		all = rely(all, named, what)
	}
	g, usual := n.Gyle, n.settings.Instruments
	relied(g.Copper.Before.With, usual.Gravity.Name, "gravity", g.Copper.Before.Gravity.Where)
	relied(g.Copper.After.With, usual.Gravity.Name, "gravity", g.Copper.After.Gravity.Where)
	relied(g.Fermenter.With, usual.Gravity.Name, "gravity", g.Fermenter.Gravity.Where)
	for _, r := range g.Readings {
		relied(r.With, usual.Gravity.Name, "gravity", r.Gravity.Where)
		relied(r.With, usual.Brix.Name, "Brix", r.Brix.Where)
		// An instrument named for a gravity is seldom the thermometer too.
		with := r.With
		if r.Gravity.Written() || r.Brix.Written() {
			with = journal.Name{}
		}
		relied(with, usual.Temperature.Name, "temperature", r.Temp.Where)
		relied(with, usual.PH.Name, "pH", r.PH.Where)
		relied(with, usual.Pressure.Name, "pressure", r.Pressure.Where)
	}
	for _, r := range all {
		n.says("instrument", r.name, r.amount())
	}
}

func rely(all []*reliance, name journal.Name, what string) []*reliance {
	var on *reliance
	for _, r := range all {
		if folded(r.name.Name) == folded(name.Name) {
			on = r
		}
	}
	if on == nil {
		on = &reliance{name: name, count: map[string]int{}}
		all = append(all, on)
	}
	if on.count[what] == 0 {
		on.what = append(on.what, what)
	}
	on.count[what]++
	return all
}

// amount is 1 reading of gravity, 6 readings of pH.
func (r *reliance) amount() string {
	parts := make([]string, len(r.what))
	for i, what := range r.what {
		word := "readings"
		if r.count[what] == 1 {
			word = "reading"
		}
		parts[i] = fmt.Sprintf("%d %s of %s", r.count[what], word, what)
	}
	return strings.Join(parts, ", ")
}

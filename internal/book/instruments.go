package book

import (
	"fmt"
	"strings"

	"gylebook/internal/journal"
)

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

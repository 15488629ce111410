package book

import (
	"fmt"
	"math"
	"slices"

	"gylebook/internal/figures"
	"gylebook/internal/journal"
	"gylebook/internal/quantity"
)

// linesOf is a gyle's recipe and results, as far as they are written down. What
// was used without saying how much was used all the same.
func linesOf(g *Gyle) []line {
	var all []line
	all = append(all, aimLines(g.Aim)...)
	all = append(all, gristLines(g)...)
	all = append(all, mashLines(g)...)
	all = append(all, hopLines(g)...)
	all = append(all, yeastLines(g)...)
	all = append(all, resultLines(g)...)
	for i, l := range all {
		if l.used && !l.cell.Known {
			all[i].cell = Cell{Known: true, Value: math.NaN(), PlusMinus: math.NaN(), Share: math.NaN(), Text: "some"}
		}
	}
	return slices.DeleteFunc(all, func(l line) bool { return !l.cell.Known })
}

func aimLines(a journal.Aim) []line {
	return []line{
		valued(OfAim, "volume", "Volume aimed at", "", a.Volume),
		valued(OfAim, "og", "Original gravity aimed at", "og", a.OG),
		valued(OfAim, "fg", "Final gravity aimed at", "fg", a.FG),
		valued(OfAim, "abv", "Alcohol aimed at", "abv", a.ABV),
		valued(OfAim, "bitterness", "Bitterness aimed at", "bitterness", a.Bitterness),
		valued(OfAim, "colour", "Colour aimed at", "colour", a.Colour),
		valued(OfAim, "condition", "Condition aimed at", "condition", a.Condition),
	}
}

// valued is a line of a value as typed.
func valued[Q quantity.Quantity](part Part, key, label string, figure figures.ID, v journal.Value[Q]) line {
	return line{part: part, key: key, label: label, figure: figure, cell: typedCell(v)}
}

func typedCell[Q quantity.Quantity](v journal.Value[Q]) Cell {
	if !v.Written() || v.None {
		return Cell{}
	}
	c := Cell{
		Known: true, Value: float64(v.Value), PlusMinus: math.NaN(), Unit: v.Value.Kind().Canonical().Symbol,
		Share: math.NaN(), Text: spoken(v),
	}
	if v.Typed {
		c.PlusMinus = 2 * float64(v.Within) / math.Sqrt(3)
	}
	return c
}

func gristLines(g *Gyle) []line {
	var all []line
	shares := gristShares(g.Grist)
	total := quantity.Mass(0)
	for _, grain := range g.Grist {
		total += grain.Weight.Value
	}
	for i, grain := range g.Grist {
		name, subject := g.subjectOf("malt", "sugar", grain.Malt, grain.Adjunct, grain.Sugar, grain.Syrup)
		if name == "" {
			continue
		}
		cell := typedCell(grain.Weight)
		if cell.Known && shares[i] != "" {
			cell.Share = 100 * float64(grain.Weight.Value/total)
			cell.Text = listed(cell.Text, share(cell.Share))
		}
		all = append(all, line{part: OfGrist, key: folded(name), label: name, subject: subject, used: true, cell: cell})
	}
	return all
}

func mashLines(g *Gyle) []line {
	var all []line
	for i, r := range g.Mash.Rests {
		label := fmt.Sprintf("Rest %d", i+1)
		cell := typedCell(r.At)
		cell.Text = phrase(cell.Text, with("for", spoken(r.For)))
		cell.Known = cell.Text != ""
		cell.manner = quantity.Plain(r.For.Value.Minutes())
		all = append(all, line{part: OfMash, key: label, label: label, cell: cell})
	}
	boil := valued(OfCopper, "boiled", "Boil", "", g.Copper.Boiled)
	if g.Copper.Boiled.None {
		boil.cell = Cell{Known: true, Unit: "min", PlusMinus: math.NaN(), Share: math.NaN(), Text: "not boiled"}
	}
	return append(all, boil)
}

func hopLines(g *Gyle) []line {
	var all []line
	for _, h := range g.Hops {
		name, subject := g.subjectOf("hop", "", h.Hop)
		if name == "" {
			continue
		}
		how := manner(h)
		cell := typedCell(h.Weight)
		if h.Alpha.Written() {
			cell.Text = phrase(cell.Text, "of", spoken(h.Alpha), "alpha")
			cell.Known = true
			cell.manner = quantity.Plain(float64(h.Alpha.Value))
		}
		all = append(all, line{
			part: OfHops, key: folded(name) + " " + how, label: phrase(name, how), subject: subject, used: true,
			cell: cell,
		})
	}
	return all
}

// manner is how a hop was used, by the time in minutes so that 1 h and 60 min
// are one.
func manner(h journal.Hop) string {
	switch {
	case h.Boiled.Written():
		return "at " + quantity.Plain(h.Boiled.Value.Minutes()) + " min"
	case h.Steeped.Written():
		return "steeped " + quantity.Plain(h.Steeped.Value.Minutes()) + " min"
	case h.Dry.Written():
		return "dry"
	}
	return into(h.Into)
}

func yeastLines(g *Gyle) []line {
	var all []line
	for _, p := range g.Yeast {
		name, subject := g.subjectOf("yeast", "", p.Yeast)
		if name == "" {
			continue
		}
		amount := typedCell(p.Weight)
		if !amount.Known {
			amount = typedCell(p.Volume)
		}
		amount.Known, amount.Text = true, pitchAmount(p)
		amount.manner = phrase(p.Sold.String(), number(p.FromGyle))
		if amount.Unit == "" {
			amount.Share, amount.PlusMinus = math.NaN(), math.NaN()
		}
		all = append(all, line{
			part: OfYeast, key: folded(name), label: name, subject: subject, used: true, cell: amount,
		})
		all = append(all, valued(OfYeast, folded(name)+" at", name+" pitched at", "", p.At))
	}
	return all
}

// subjectOf is the proper name of the first name written, and its subject. The
// first two of four names are of the first kind, the others of the second.
func (g *Gyle) subjectOf(kind, other string, names ...journal.Name) (string, *Subject) {
	for i, n := range names {
		if n.Name == "" {
			continue
		}
		if i >= 2 {
			kind = other
		}
		for _, u := range g.Uses() {
			if u.Where == n.Where && u.Subject.Kind == kind {
				return u.Subject.Name, u.Subject
			}
		}
		return n.Name, nil
	}
	return "", nil
}

package book

import (
	"fmt"
	"strconv"

	"gylebook/internal/journal"
	"gylebook/internal/notice"
	q "gylebook/internal/quantity"
	"gylebook/internal/rules"
)

// other is the gyle that a number leads to, nil where it is not written or leads
// nowhere.
func (b *Book) other(n journal.Whole) *Gyle {
	if !n.Written() {
		return nil
	}
	return b.Gyle(n.N)
}

func number(n journal.Whole) string { return strconv.Itoa(n.N) }

func noSuchGyle(b *Book, g *Gyle) []rules.Found {
	var found []rules.Found
	for _, m := range mentions(g.Gyle) {
		if b.other(m.number) == nil {
			found = append(found, rules.Found{
				Severity: notice.Look, Where: m.number.Where, Of: m.number.Key,
				Says: fmt.Sprintf("This gyle %s gyle %d, and the journal has no such gyle.", m.verb, m.number.N),
				Why:  "What was learnt there cannot be set beside this one.",
				Do:   "Correct the number, or take the line out if that gyle was never written down.",
			})
		}
	}
	return found
}

// revisionRing looks where following leads. A gyle that is not on a ring itself
// is not to blame for one further up.
func revisionRing(_ *Book, g *Gyle) []rules.Found {
	if g.revisionRing == 0 {
		return nil
	}
	return []rules.Found{{
		Severity: notice.Look, Where: g.Gyle.Follows.Where, Of: "follows",
		Says: fmt.Sprintf("Following gyle %d leads back to this gyle.", g.Gyle.Follows.N),
		Why:  "A gyle cannot revise one that revises it, so this step of the lineage is left out.",
		Do:   "Correct follows in the one that was brewed first.",
	}}
}

func drawnRing(b *Book, g *Gyle) []rules.Found {
	var found []rules.Found
	for _, d := range g.DrawnFrom {
		from := b.other(d.Gyle)
		if from == nil || from.drawnRing == 0 || from.drawnRing != g.drawnRing {
			continue
		}
		found = append(found, rules.Found{
			Severity: notice.Mend, Where: d.Gyle.Where, Of: d.Gyle.Key,
			Says: fmt.Sprintf("Beer drawn from gyle %d leads back to this gyle.", d.Gyle.N),
			Why:  "A beer cannot be made of itself, so its gravities are not worked out from there.",
			Do:   "Correct the number in drawn_from.",
		})
	}
	return found
}

func laterGyle(b *Book, g *Gyle) []rules.Found {
	var found []rules.Found
	for _, m := range mentions(g.Gyle) {
		from := b.other(m.number)
		if from == nil || from == g || g.Begun.IsZero() || from.Begun.IsZero() || !day(from.Begun).After(day(g.Begun)) {
			continue
		}
		found = append(found, rules.Found{
			Severity: notice.Look, Where: m.number.Where, Of: m.number.Key,
			Says: fmt.Sprintf(
				"This gyle %s gyle %d, which was brewed later: %s against %s.", m.verb, m.number.N,
				from.Begun.Format("2006-01-02"), g.Begun.Format("2006-01-02"),
			),
			Why: "One of the dates or the number is wrong, and the lineage and what was learnt go by them.",
			Do:  "Correct the number, or the day of brewing in one of the two.",
		})
	}
	return found
}

func numberInUse(b *Book, g *Gyle) []rules.Found {
	var found []rules.Found
	for _, f := range g.Formerly {
		if has := b.Gyle(f.N); has != nil && has != g || f.N == g.Number.N {
			does := fmt.Sprintf("Number %d is given as this gyle's old one, and another gyle has it too.", f.N)
			if f.N == g.Number.N {
				does = fmt.Sprintf("Number %d is given as this gyle's old one, and it is its number now.", f.N)
			}
			found = append(found, rules.Found{
				Severity: notice.Look, Where: f.Where, Of: f.Key, Says: does,
				Why: "Its old address cannot lead here while another page stands at it.",
				Do:  "Take the number out of formerly, or give the other gyle another one.",
			})
		}
	}
	return found
}

// overdrawnBy is by how much the volumes of two gyles may disagree before it is
// said: what two dip-stick readings are off by.
const overdrawnBy q.Volume = 1

// overdrawn looks at the gyle that was drawn from, and says it there.
func overdrawn(b *Book, g *Gyle) []rules.Found {
	held := g.Racked.Volume
	if !held.Written() {
		held = g.Fermenter.Volume
	}
	if len(g.Parted) == 0 || !held.Written() {
		return nil
	}
	drawn := q.Volume(0)
	for _, part := range g.Parted {
		for _, d := range part.DrawnFrom {
			if d.Volume.Written() && d.Gyle.N == g.Number.N {
				drawn += d.Volume.Value
			}
		}
	}
	if drawn <= held.Value+held.Within+overdrawnBy {
		return nil
	}
	units := b.settings().Units.Spelling()
	return []rules.Found{{
		Severity: notice.Look, Where: held.Where, Of: held.Key,
		Says: fmt.Sprintf(
			"%s was drawn from this gyle for others, and it held %s.", units.Fixed(drawn.Litres(), "L", 1),
			units.Fixed(held.Value.Litres(), "L", 1),
		),
		Why: "One of the volumes is wrong, and the blends and the pints left go by them.",
		Do:  "Correct the volume here, or in drawn_from of the gyles that took it.",
	}}
}

package figures

import (
	"slices"
	"time"

	"gylebook/internal/brewing"
	"gylebook/internal/journal"
	q "gylebook/internal/quantity"
)

// culture is a yeast or bacteria in the beer, and what it takes of the extract: an
// apparent attenuation between the least and the most that it is known for.
type culture struct {
	name        string
	pitched     journal.Moment
	into        int // the container it was put into, allOf for the beer as a whole
	least, most q.Percent
	where       journal.Where // the line that the range stands on, a card's where it has one
	// goesOn says that it works on for months where a beer yeast has stopped.
	goesOn bool
	known  bool // that a card, or this brewer's past, says what it takes
	own    bool // put into this gyle's beer, not into one that it was drawn from
}

// second tells whether a culture was put into beer that already had one.
func (c culture) second(b *bench) bool {
	if !c.own || !c.pitched.Written() || !b.past(c.pitched) {
		return false
	}
	return b.begunAsBeer() || c.pitched.Middle().After(b.pitchedAt().Add(aDayApart))
}

// aDayApart is how long after the first yeast another still counts as of one pitching.
const aDayApart = 12 * time.Hour

// allOf is the index of no container in particular: the beer as a whole.
const allOf = -1

// What a yeast takes that no card and no past speaks of, in % apparent (common
// practice, no source): ale yeasts take 67 to 83 %.
const (
	anyYeastLeast = q.Percent(67)
	anyYeastMost  = q.Percent(83)
)

// cultures are all that were put into the beer, those of the gyles that it was drawn
// from among them.
func (b *bench) cultures() []culture {
	return b.memoCultures.once(func() []culture { return b.culturesOf(b.Gyle, 0) })
}

func (b *bench) culturesOf(g *journal.Gyle, depth int) []culture {
	var all []culture
	for i := range g.Yeast {
		all = append(all, b.culture(&g.Yeast[i], depth))
	}
	const farEnough = 4 // generations of blends: beyond it the yeasts are those of every gyle
	for i := range g.DrawnFrom {
		if b.Other == nil || depth > farEnough {
			break
		}
		if other := b.Other(g.DrawnFrom[i].Gyle.N); other != nil && other.Gyle != b.Gyle {
			all = append(all, b.culturesOf(other.Gyle, depth+1)...)
		}
	}
	return all
}

func (b *bench) culture(p *journal.Pitch, depth int) culture {
	c := culture{name: p.Yeast.Name, pitched: p.Pitched, into: allOf, least: anyYeastLeast, most: anyYeastMost, where: p.Where, own: depth == 0}
	if p.Into.Is(journal.IntoPackage) && depth == 0 {
		c.into = 0
		if p.Package.Written() {
			c.into = p.Package.N
		} else if len(b.containers) > 1 {
			c.into = allOf
		}
	}
	card := b.card("yeast", p.Yeast)
	if card == nil || card.Yeast == nil {
		return b.bornOut(c)
	}
	c.goesOn = card.Yeast.Superattenuates.Yes() || card.Yeast.Diastatic.Yes()
	if past := b.Past.Attenuation[c.name]; card.BuiltIn && past.Enough() {
		return b.bornOut(c)
	}
	if a := card.Yeast.Attenuates; a.Written() {
		c.least, c.most, c.where, c.known = a.Low, a.High, a.Where, true
		return c
	}
	return b.bornOut(c)
}

// bornOut is a culture without a card, by what this brewer's earlier gyles showed.
func (b *bench) bornOut(c culture) culture {
	if past := b.Past.Attenuation[c.name]; past.Enough() {
		spread := q.Percent(2 * past.HalfWidth)
		c.least, c.most, c.known = q.Percent(past.Median)-spread, q.Percent(past.Median)+spread, true
	}
	return c
}

// attenuationLimits are the least and the most that the cultures of a container's
// beer take: with several, what the keenest of them does. Where none was noted, any
// yeast's.
func (b *bench) attenuationLimits(of int) (least, most q.Percent, goesOn bool) {
	for _, c := range b.cultures() {
		if c.into == allOf || of == allOf || c.into == of {
			least, most, goesOn = max(least, c.least), max(most, c.most), goesOn || c.goesOn
		}
	}
	if most == 0 {
		return anyYeastLeast, anyYeastMost, false
	}
	return least, most, goesOn
}

// yeastKnown tells whether a card or the past says what any culture in the beer takes.
func (b *bench) yeastKnown() bool {
	return slices.ContainsFunc(b.cultures(), func(c culture) bool { return c.known })
}

// simpleShare is the share of the original extract that is plain sugar, which
// ferments right out: sugars of the grist that all of it ferments, and fruit, juice
// and honey. A gyle without malt that names any of these is plain sugar throughout:
// cider, mead and wine.
func (b *bench) simpleShare() Estimate[q.Number] {
	return b.memoSimple.once(func() Estimate[q.Number] {
		simple := b.potential(func(g *journal.Grain) bool { return b.plainSugar(g) && !b.joinedLate(g) })
		if !b.malty() {
			if b.fruity() || simple.known && simple.Value > 0 {
				return exactly(q.Number(1))
			}
			return exactly(q.Number(0))
		}
		if simple.known && simple.Value == 0 {
			return exactly(q.Number(0))
		}
		return first(from3(b, func(degrees q.Number, og q.Gravity, v q.Volume) (q.Number, error) {
			all, err := litreDegrees(v, og)
			return min(max(degrees/max(all, 1), 0), 1), err
		}, simple, b.ogToFerment(), b.workingVolume()), exactly(q.Number(0)))
	})
}

// plainSugar tells whether a line of the grist is a sugar that ferments right out.
func (b *bench) plainSugar(g *journal.Grain) bool {
	if g.Sugar.Name == "" && g.Syrup.Name == "" || g.Into.Is(journal.IntoPackage) {
		return false
	}
	card := b.cardOfGrain(g)
	if card == nil || card.Sugar == nil || !card.Sugar.Fermentable.Written() {
		return g.Sugar.Name != ""
	}
	return card.Sugar.Fermentable.Value >= rightOut
}

// joinedLate tells whether a line of the grist went into the beer after its last
// gravity, so that neither that gravity nor the original one knows of it.
func (b *bench) joinedLate(g *journal.Grain) bool {
	if !b.joined(g) {
		return false
	}
	at, _ := b.entered(addition{when: g.When})
	return b.afterLastGravity(at)
}

// rightOut is the fermentable share, in %, from which a sugar counts as one that
// nothing is left of.
const rightOut = 95

func (b *bench) malty() bool {
	if b.begunAsBeer() {
		return true
	}
	for i := range b.Gyle.Grist {
		g := &b.Gyle.Grist[i]
		if g.Malt.Name != "" || g.Adjunct.Name != "" || g.Syrup.Name != "" && !b.plainSugar(g) {
			return true
		}
	}
	return len(b.Gyle.Grist) == 0 && !b.fruity()
}

// fruity tells whether fruit or juice is in it.
func (b *bench) fruity() bool {
	for i := range b.Gyle.Added {
		if a := &b.Gyle.Added[i]; a.Fruit.Name != "" || a.Juice.Name != "" {
			return true
		}
	}
	return false
}

// endsAt is where a beer stops that takes so much of its malt's extract, all of its
// plain sugar, and none of what no yeast can use.
func (b *bench) endsAt(og Estimate[q.Gravity], attenuation Estimate[q.Percent]) Estimate[q.Gravity] {
	simple, stays := b.simpleShare(), b.unfermentable()
	return from4(b, func(og q.Gravity, a q.Percent, simple, stays q.Number) (q.Gravity, error) {
		over := q.Gravity(stays) * q.Point
		fg, err := brewing.FinalGravityWithSugar(og-over, a, simple)
		return fg + over, err
	}, og, attenuation, simple, stays)
}

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
	if depth == 0 {
		c.into, _ = b.intoWhich(p.Into, p.Package)
	}
	card := b.card(journal.CardYeast, p.Yeast)
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

// mustOf is what the yeast has to work on: a gravity, the share of its extract that is
// plain sugar and ferments right out, and the points of it that no yeast can use.
type mustOf struct {
	og            Estimate[q.Gravity]
	simple, stays Estimate[q.Number]
}

// musts are the beer's must as it was at its last gravity, with all that had joined it
// by then; without the wort and syrup that was stronger; with only its sugar; with only the sugar that
// was stronger; and as it was pitched.
type musts struct {
	joined, lighter, sweetened, sugared, pitched mustOf
	alone                                        bool // nothing joined it, and all five are one
}

func (m *musts) all() []mustOf {
	if m.alone {
		return []mustOf{m.pitched}
	}
	return []mustOf{m.joined, m.lighter, m.sweetened, m.sugared, m.pitched}
}

func (b *bench) musts() musts {
	return b.memoMusts.once(func() musts {
		all, pitched := b.joinedBefore(), b.mustWith(nil)
		if len(all) == 0 {
			return musts{pitched, pitched, pitched, pitched, pitched, true}
		}
		stronger := func(a addition) bool {
			return float64(a.raises.Value) > a.liquid.Value.Litres()*pitched.og.Value.Points()
		}
		lighter := slices.DeleteFunc(slices.Clone(all), func(a addition) bool { return !a.sugar && stronger(a) })
		sweetened := slices.DeleteFunc(slices.Clone(all), func(a addition) bool { return !a.sugar })
		sugared := slices.DeleteFunc(slices.Clone(all), func(a addition) bool { return !a.sugar || !stronger(a) })
		return musts{b.mustWith(all), b.mustWith(lighter), b.mustWith(sweetened), b.mustWith(sugared), pitched, false}
	})
}

// mustWith is the must with some of what joined it, or what to expect of it on paper.
// What would make it stronger than the sums go is left out.
func (b *bench) mustWith(joined []addition) mustOf {
	og, volume := b.ogOrExpected(), b.batchToReckon()
	for _, a := range joined {
		if with := b.withAddition(og, volume, a); with.known && with.Value <= strongestWort {
			og = with
		}
		volume = sum(b, volume, a.liquid)
	}
	counts := b.inWort
	if len(joined) > 0 {
		counts = b.inGravities
	}
	stays := b.unfermentable(counts)
	if b.maltless() {
		stays = sum(b, stays, b.dryExtract(og))
	}
	return mustOf{og, b.simpleShare(joined, og, volume), stays}
}

// simpleShare is the share of a must's extract that is plain sugar: sugars of the grist
// that all of it ferments, and fruit, juice and honey that joined it. A gyle without malt
// that names any of these is plain sugar throughout: cider, mead and wine.
func (b *bench) simpleShare(joined []addition, og Estimate[q.Gravity], volume Estimate[q.Volume]) Estimate[q.Number] {
	switch {
	case b.maltless():
		return exactly(q.Number(1))
	case !b.malty():
		return exactly(q.Number(0))
	}
	simple := b.sugarDegrees(b.plainSugar)
	for i := range joined {
		if joined[i].sugar {
			simple = sum(b, simple, joined[i].raises)
		}
	}
	switch {
	case simple.known && simple.Value == 0:
		return exactly(q.Number(0))
	case !simple.known:
		return customary(b, q.Number(0.1), 0.1, "", "how much of the extract is plain sugar",
			"its weight is not written: taken as nothing to a fifth (common practice, no source)")
	}
	return first(from3(b, func(degrees q.Number, og q.Gravity, v q.Volume) (q.Number, error) {
		all, err := litreDegrees(v, og)
		return min(max(degrees/max(all, 1), 0), 1), err
	}, simple, og, volume), exactly(q.Number(0)))
}

// sugarDegrees is the litre-degrees in a part of the wort's sugars and syrups, those that
// no card knows taken as what such things have.
func (b *bench) sugarDegrees(part func(*journal.Grain) bool) Estimate[q.Number] {
	total := exactly(q.Number(0))
	for i := range b.Gyle.Grist {
		if g := &b.Gyle.Grist[i]; b.inWort(g) && part(g) {
			weight := read(b, g.Weight, keyOf(g.Weight.Where, "grist", i, "weight"), ofWeight)
			total = sum(b, total, from2(b, brewing.LitreDegrees, weight, b.extractOr(i, g)))
		}
	}
	return total
}

// plainSugar tells whether a line of the grist is a sugar that ferments right out.
func (b *bench) plainSugar(g *journal.Grain) bool {
	if g.Sugar.Name == "" && g.Syrup.Name == "" || bottled(g) {
		return false
	}
	card := b.cardOfGrain(g)
	if card == nil || card.Sugar == nil || !card.Sugar.Fermentable.Written() {
		return g.Sugar.Name != ""
	}
	return card.Sugar.Fermentable.Value >= rightOut
}

// inGravities tells whether a line of the grist is in the beer's gravities: not what went
// into it after the last of them, into a container, or is yet to go in.
func (b *bench) inGravities(g *journal.Grain) bool {
	if b.inWort(g) || !b.joined(g) {
		return b.inWort(g)
	}
	at, _ := b.entered(addition{when: g.When})
	return !b.afterLastGravity(at)
}

// rightOut is the fermentable share, in %, from which a sugar counts as one that
// nothing is left of.
const rightOut = 95

// malty tells whether the wort was of malt, as far as its grist says. A grist that names
// nothing of the wort says nothing.
func (b *bench) malty() bool {
	if b.begunAsBeer() {
		return true
	}
	told := false
	for i := range b.Gyle.Grist {
		g := &b.Gyle.Grist[i]
		if !b.inWort(g) {
			continue
		}
		if told = true; g.Malt.Name != "" || g.Adjunct.Name != "" || g.Syrup.Name != "" && !b.plainSugar(g) {
			return true
		}
	}
	return !told && !b.fruity() && !b.madeOfAdded()
}

// maltless tells whether the must was of fruit, honey or sugar alone.
func (b *bench) maltless() bool {
	return !b.malty() && (b.fruity() || b.sugary() || b.madeOfAdded())
}

// sugary tells whether the wort had plain sugar in it.
func (b *bench) sugary() bool {
	return slices.ContainsFunc(b.Gyle.Grist, func(g journal.Grain) bool { return b.inWort(&g) && b.plainSugar(&g) })
}

// fruity tells whether the wort may have been of fruit or juice: any that is not dated
// after the yeast.
func (b *bench) fruity() bool {
	return slices.ContainsFunc(b.Gyle.Added, func(a journal.Addition) bool {
		return (a.Fruit.Name != "" || a.Juice.Name != "") && !(a.When.Written() && b.afterYeast(&a)) && !a.Into.Is(journal.IntoPackage) && !a.Package.Written()
	})
}

// endsAt is where a beer stops that takes so much of its malt's extract, all of its
// plain sugar, and none of what no yeast can use.
func (b *bench) endsAt(must mustOf, attenuation Estimate[q.Percent]) Estimate[q.Gravity] {
	return from4(b, func(og q.Gravity, a q.Percent, simple, stays q.Number) (q.Gravity, error) {
		over := q.Gravity(stays) * q.Point
		fg, err := brewing.FinalGravityWithSugar(og-over, a, simple)
		return fg + over, err
	}, must.og, attenuation, must.simple, must.stays)
}

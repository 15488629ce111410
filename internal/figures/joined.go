package figures

import (
	"slices"

	"gylebook/internal/brewing"
	"gylebook/internal/journal"
	q "gylebook/internal/quantity"
)

// Extract that joins the beer while it works is in no reading of the original
// gravity, and makes alcohol all the same.

// fermentedOG is the original gravity of all extract over all liquor that were in the
// beer at its last gravity: what went into the fermenter since the original one was read
// is reckoned in by mass, in order. What went in later is still to ferment.
func (b *bench) fermentedOG() Estimate[q.Gravity] {
	return b.memoFermentedOG.once(func() Estimate[q.Gravity] {
		og, volume := b.og(), b.workingVolume()
		for _, a := range b.joinedBefore() {
			og = b.withAddition(og, volume, a)
			volume = sum(b, volume, a.liquid)
		}
		return og
	})
}

// joinedBefore is what went into the fermenter before the last gravity, in order.
func (b *bench) joinedBefore() []addition {
	var joined []addition
	for _, a := range b.additions() {
		at, _ := b.entered(a)
		if !a.bottled() && !a.creeps && !b.afterLastGravity(at) {
			joined = append(joined, a)
		}
	}
	slices.SortStableFunc(joined, func(x, y addition) int { return x.when.Time.Compare(y.when.Time) })
	return joined
}

// withAddition is a gravity once something has joined the beer. Extract by weight is
// conserved.
func (b *bench) withAddition(og Estimate[q.Gravity], volume Estimate[q.Volume], a addition) Estimate[q.Gravity] {
	switch {
	case a.beer:
		return og
	case a.worty():
		return from4(b, brewing.BlendedGravity, volume, og, a.liquid, a.wort)
	case a.water:
		return from4(b, brewing.BlendedGravity, volume, og, a.liquid, exactly(q.Gravity(1)))
	case a.weight.known:
		return from4(b, brewing.GravityWithExtract, volume, og, a.weight, a.raises)
	}
	return from3(b, func(v q.Volume, og q.Gravity, liquid q.Volume) (q.Gravity, error) { // beer, which changes nothing
		return og, nil
	}, volume, og, a.liquid)
}

// ogToFerment is the same, or what to expect of it on paper.
func (b *bench) ogToFerment() Estimate[q.Gravity] {
	return first(b.fermentedOG(), b.ogOrExpected())
}

// workingVolume is the beer that joins with what is added: wort in the fermenter,
// or what was drawn from other gyles.
func (b *bench) workingVolume() Estimate[q.Volume] {
	if !b.begunAsBeer() {
		return b.fermenterVolume()
	}
	total := exactly(q.Volume(0))
	for i := range b.Gyle.DrawnFrom {
		d := &b.Gyle.DrawnFrom[i]
		total = sum(b, total, read(b, d.Volume, keyOf(d.Volume.Where, "drawn_from", i, "volume"), ofVolume))
	}
	return total
}

// joined tells whether a line of the grist went into the fermenter after the
// original gravity was read: later than the yeast, and by now. What stands in the grist
// of beer that was drawn from another gyle went into that beer.
func (b *bench) joined(g *journal.Grain) bool {
	if b.begunAsBeer() && !bottled(g) {
		return !g.When.Written() || b.past(g.When)
	}
	return intoOf(g) == journal.IntoFermenter && b.duringWork(g.When)
}

// inWort tells whether a line of the grist was in the wort whose original gravity was
// read: not what went in later than the yeast, or is to.
func (b *bench) inWort(g *journal.Grain) bool {
	if bottled(g) || b.begunAsBeer() {
		return false
	}
	return intoOf(g) != journal.IntoFermenter || !g.When.Written() || !g.When.Middle().After(b.pitchedAt())
}

func (b *bench) anyJoined() bool {
	for i := range b.Gyle.Grist {
		g := &b.Gyle.Grist[i]
		if b.joined(g) {
			return true
		}
	}
	return false
}

// duringWork tells whether a moment lies after the yeast and has come. Beer drawn
// from another gyle had its yeast long before.
func (b *bench) duringWork(m journal.Moment) bool {
	return b.past(m) && (b.begunAsBeer() || m.Middle().After(b.pitchedAt()))
}

// fruitSugar is the sugar in a fruit or juice: as written, else by its card.
func (b *bench) fruitSugar(a *journal.Addition) journal.Value[q.Percent] {
	if a.Sugar.Written() {
		return a.Sugar
	}
	name := a.Fruit
	if name.Name == "" {
		name = a.Juice
	}
	if card := b.card(journal.CardFruit, name); card != nil && card.Fruit != nil {
		return card.Fruit.Sugar
	}
	return journal.Value[q.Percent]{}
}

// unreckoned are the additions whose sugar nobody wrote, as keys.
func (b *bench) unreckoned() []string {
	var keys []string
	for i := range b.Gyle.Added {
		a := &b.Gyle.Added[i]
		if sugar := b.fruitSugar(a); (a.Fruit.Name != "" || a.Juice.Name != "") && b.afterYeast(a) && !b.ofMust(a) && !sugar.Written() {
			keys = append(keys, key("added", i, "sugar"))
		}
	}
	return keys
}

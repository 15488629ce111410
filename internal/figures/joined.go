package figures

import (
	"gylebook/internal/brewing"
	"gylebook/internal/journal"
	q "gylebook/internal/quantity"
)

// Extract that joins the beer while it works is in no reading of the original
// gravity, and makes alcohol all the same.

// fermentedOG is the original gravity with all reckoned in that went into the
// fermenter after it was read: sugars, fruit, juice. It is what there was to
// ferment.
func (b *bench) fermentedOG() Estimate[q.Gravity] {
	return b.memoFermentedOG.once(func() Estimate[q.Gravity] {
		og := b.og()
		if b.anyJoined() {
			og = from3(b, func(og q.Gravity, degrees q.Number, v q.Volume) (q.Gravity, error) {
				return brewing.GravityOf(q.Number(og.Points()*v.Litres())+degrees, v)
			}, og, b.potential(b.joined), b.workingVolume())
		}
		for i := range b.Gyle.Added {
			a := &b.Gyle.Added[i]
			if sugar := b.fruitSugar(a); b.fruitJoined(a) && sugar.Written() {
				og = b.withFruit(og, i, a, sugar)
			}
		}
		return og
	})
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
// original gravity was read: later than the yeast, and by now.
func (b *bench) joined(g *journal.Grain) bool {
	return intoOf(g) == journal.IntoFermenter && b.duringWork(g.When)
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

// fruitJoined tells whether fruit or juice went into the beer while it worked.
func (b *bench) fruitJoined(a *journal.Addition) bool {
	return (a.Fruit.Name != "" || a.Juice.Name != "") && (a.Into.Is(journal.IntoFermenter) || !a.Into.Written()) && b.duringWork(a.When)
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
	if card := b.card("fruit", name); card != nil && card.Fruit != nil {
		return card.Fruit.Sugar
	}
	return journal.Value[q.Percent]{}
}

// withFruit is a gravity once fruit has joined it: the juice brings its sugar and
// its water, the skins and stones stay out. Extract by weight is conserved.
func (b *bench) withFruit(og Estimate[q.Gravity], i int, a *journal.Addition, sugar journal.Value[q.Percent]) Estimate[q.Gravity] {
	sweet := read(b, sugar, keyOf(sugar.Where, "added", i, "sugar"), ofFruitSugar)
	liquid := read(b, a.Volume, keyOf(a.Volume.Where, "added", i, "volume"), ofFill)
	if a.Fruit.Name != "" && !a.Volume.Written() {
		juice := customary(b, q.Number(0.85), 0.1, "", "how much of the fruit turns to juice", "the rest is skin, stone and pulp (common practice, no source)")
		liquid = from3(b, func(m q.Mass, juice q.Number, sweet q.Percent) (q.Volume, error) {
			return q.Volume(m.Kilograms() * float64(juice) / q.Plato(float64(sweet)).SG()), nil
		}, read(b, a.Weight, keyOf(a.Weight.Where, "added", i, "weight"), ofWeight), juice, sweet)
	}
	return from4(b, func(v q.Volume, og q.Gravity, liquid q.Volume, sweet q.Percent) (q.Gravity, error) {
		return brewing.BlendedGravity(v, og, liquid, q.Plato(float64(sweet)))
	}, b.workingVolume(), og, liquid, sweet)
}

// unreckoned are the additions whose sugar nobody wrote, as keys.
func (b *bench) unreckoned() []string {
	var keys []string
	for i := range b.Gyle.Added {
		a := &b.Gyle.Added[i]
		if sugar := b.fruitSugar(a); b.fruitJoined(a) && !sugar.Written() {
			keys = append(keys, key("added", i, "sugar"))
		}
	}
	return keys
}

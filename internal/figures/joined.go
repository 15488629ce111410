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
func (s *Sheet) fermentedOG() Estimate[q.Gravity] {
	return s.memoFermentedOG.once(func() Estimate[q.Gravity] {
		og := s.og()
		if s.anyJoined() {
			og = from3(s, func(og q.Gravity, degrees q.Number, v q.Volume) (q.Gravity, error) {
				return brewing.GravityOf(q.Number(og.Points()*v.Litres())+degrees, v)
			}, og, s.potential(s.joined), s.workingVolume())
		}
		for i := range s.Gyle.Added {
			a := &s.Gyle.Added[i]
			if sugar := s.fruitSugar(a); s.fruitJoined(a) && sugar.Written() {
				og = s.withFruit(og, i, a, sugar)
			}
		}
		return og
	})
}

// ogToFerment is the same, or what to expect of it on paper.
func (s *Sheet) ogToFerment() Estimate[q.Gravity] {
	return first(s.fermentedOG(), s.ogOrExpected())
}

// workingVolume is the beer that joins with what is added: wort in the fermenter,
// or what was drawn from other gyles.
func (s *Sheet) workingVolume() Estimate[q.Volume] {
	if !s.begunAsBeer() {
		return s.fermenterVolume()
	}
	total := exactly(q.Volume(0))
	for i := range s.Gyle.DrawnFrom {
		d := &s.Gyle.DrawnFrom[i]
		total = sum(s, total, read(s, d.Volume, keyOf(d.Volume.Where, "drawn_from", i, "volume"), ofVolume))
	}
	return total
}

// joined tells whether a line of the grist went into the fermenter after the
// original gravity was read: later than the yeast, and by now.
func (s *Sheet) joined(g *journal.Grain) bool {
	return intoOf(g) == "fermenter" && s.duringWork(g.When)
}

func (s *Sheet) anyJoined() bool {
	for i := range s.Gyle.Grist {
		g := &s.Gyle.Grist[i]
		if s.joined(g) {
			return true
		}
	}
	return false
}

// duringWork tells whether a moment lies after the yeast and has come. Beer drawn
// from another gyle had its yeast long before.
func (s *Sheet) duringWork(m journal.Moment) bool {
	return s.past(m) && (s.begunAsBeer() || m.Middle().After(s.pitchedAt()))
}

// fruitJoined tells whether fruit or juice went into the beer while it worked.
func (s *Sheet) fruitJoined(a *journal.Addition) bool {
	return (a.Fruit.Name != "" || a.Juice.Name != "") && (a.Into.Is("fermenter") || !a.Into.Written()) && s.duringWork(a.When)
}

// fruitSugar is the sugar in a fruit or juice: as written, else by its card.
func (s *Sheet) fruitSugar(a *journal.Addition) journal.Value[q.Percent] {
	if a.Sugar.Written() {
		return a.Sugar
	}
	name := a.Fruit
	if name.Name == "" {
		name = a.Juice
	}
	if card := s.card("fruit", name); card != nil && card.Fruit != nil {
		return card.Fruit.Sugar
	}
	return journal.Value[q.Percent]{}
}

// withFruit is a gravity once fruit has joined it: the juice brings its sugar and
// its water, the skins and stones stay out. Extract by weight is conserved.
func (s *Sheet) withFruit(og Estimate[q.Gravity], i int, a *journal.Addition, sugar journal.Value[q.Percent]) Estimate[q.Gravity] {
	sweet := read(s, sugar, keyOf(sugar.Where, "added", i, "sugar"), ofFruitSugar)
	liquid := read(s, a.Volume, keyOf(a.Volume.Where, "added", i, "volume"), ofFill)
	if a.Fruit.Name != "" && !a.Volume.Written() {
		juice := customary(s, q.Number(0.85), 0.1, "", "how much of the fruit turns to juice", "the rest is skin, stone and pulp (common practice, no source)")
		liquid = from3(s, func(m q.Mass, juice q.Number, sweet q.Percent) (q.Volume, error) {
			return q.Volume(m.Kilograms() * float64(juice) / q.Plato(float64(sweet)).SG()), nil
		}, read(s, a.Weight, keyOf(a.Weight.Where, "added", i, "weight"), ofWeight), juice, sweet)
	}
	return from4(s, func(v q.Volume, og q.Gravity, liquid q.Volume, sweet q.Percent) (q.Gravity, error) {
		return brewing.BlendedGravity(v, og, liquid, q.Plato(float64(sweet)))
	}, s.workingVolume(), og, liquid, sweet)
}

// unreckoned are the additions whose sugar nobody wrote, as keys.
func (s *Sheet) unreckoned() []string {
	var keys []string
	for i := range s.Gyle.Added {
		a := &s.Gyle.Added[i]
		if sugar := s.fruitSugar(a); s.fruitJoined(a) && !sugar.Written() {
			keys = append(keys, key("added", i, "sugar"))
		}
	}
	return keys
}

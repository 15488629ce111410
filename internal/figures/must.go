package figures

import (
	"slices"

	"gylebook/internal/journal"
	q "gylebook/internal/quantity"
)

// A must without malt: cider, mead and wine.

// How much of the gravity of a must without malt stays, whatever its yeast does: acids and
// glycerol, and what of fruit and honey is no sugar. Dry ciders end at 0.994 to 1.002, dry
// wines and meads at 0.988 to 1.000 (common practice, no source; 15 to 30 g/L of dry
// extract that is no sugar, from memory, is six to twelve points).
const (
	staysInMust    = 0.11
	staysInMustOff = 0.06
)

// dryExtract is the points of a must without malt that no yeast takes.
func (b *bench) dryExtract(og Estimate[q.Gravity]) Estimate[q.Number] {
	share := customary(b, q.Number(staysInMust), staysInMustOff, "", "how much of a must of fruit or honey is no sugar",
		"not known: taken as 5 to 17 % of its gravity (common practice, no source)")
	return from2(b, func(og q.Gravity, share q.Number) (q.Number, error) {
		return q.Number(og.Points()) * max(share, 0), nil
	}, og, share)
}

// madeOfAdded tells whether the must itself is of what the entry names under added: there
// is no malt, and what is undated there explains at least half of the gravity that it had.
func (b *bench) madeOfAdded() bool {
	return b.memoMadeOf.once(func() bool {
		f := b.Gyle.Fermenter
		if b.begunAsBeer() || b.namesMalt() || !f.Volume.Written() || !f.Gravity.Written() {
			return false
		}
		sum := 0.0
		for i := range b.Gyle.Added {
			if a := &b.Gyle.Added[i]; undated(a) {
				sum += b.sugarAbout(a) * sucroseExtract / 1000
			}
		}
		return sum >= 0.5*f.Gravity.Value.Points()*f.Volume.Value.Litres()
	})
}

// ofMust tells whether an addition is part of the must, not put into what works.
func (b *bench) ofMust(a *journal.Addition) bool { return undated(a) && b.madeOfAdded() }

func undated(a *journal.Addition) bool {
	return !a.When.Written() && !a.Into.Is(journal.IntoPackage) && !a.Package.Written()
}

func (b *bench) namesMalt() bool {
	return slices.ContainsFunc(b.Gyle.Grist, func(g journal.Grain) bool { return g.Malt.Name != "" || g.Adjunct.Name != "" })
}

// sugarAbout is about how much sugar fruit, juice or honey brings, in g: enough to tell a
// must from what was put into one.
func (b *bench) sugarAbout(a *journal.Addition) float64 {
	weight := a.Weight.Value.Grams() + 1050*a.Volume.Value.Litres()
	sugar := b.fruitSugar(a)
	switch {
	case sugar.Written():
		return weight * sugar.Value.Fraction()
	case a.Fruit.Name != "" || a.Juice.Name != "":
		return weight * usualFruitSugar / 100
	case sweet(a):
		return weight * usualHoneySugar / 100
	}
	return 0
}

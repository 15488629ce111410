package figures

import (
	"regexp"
	"slices"
	"time"

	"gylebook/internal/brewing"
	"gylebook/internal/journal"
	q "gylebook/internal/quantity"
)

// addition is one thing put into the beer after the yeast that bears on its gas,
// strength or volume, however the entry says it.
type addition struct {
	what  string
	where journal.Where
	when  journal.Moment // not written where nobody says
	// into is the container it went into, allOf for the beer before it was shared
	// out; shared says that it went into all containers together.
	into   int
	shared bool
	gas    func() Estimate[q.Mass] // carbon dioxide that it can give in all, g
	most   func() Estimate[q.Mass] // the same at worst; nil where it is no more
	liquid Estimate[q.Volume]      // that the beer grows by
	raises Estimate[q.Number]      // litre-degrees of gravity
	wort   Estimate[q.Gravity]
	sugar  bool             // plain sugar, which ferments right out
	water  bool             // nothing but water
	beer   bool             // beer like it
	creeps bool             // hops, which may free extract
	weight Estimate[q.Mass] // of sugar, juice or hops
	stood  time.Duration    // how long hops were in it
}

// bottled tells whether an addition went into containers and not into the fermenter.
func (a addition) bottled() bool { return a.shared || a.into != allOf }

// gasAtMost is the carbon dioxide that it gives at the worst that the entry leaves open.
func (a addition) gasAtMost() Estimate[q.Mass] {
	if a.most != nil {
		return a.most()
	}
	return a.gas()
}

// none of a kind, exactly.
func noGas() Estimate[q.Mass]      { return exactly(q.Mass(0)) }
func noLiquid() Estimate[q.Volume] { return exactly(q.Volume(0)) }
func noRise() Estimate[q.Number]   { return exactly(q.Number(0)) }

// additions are all of them but priming, in the order of the entry.
func (b *bench) additions() []addition {
	return b.memoAdditions.once(func() []addition {
		return slices.Concat(b.sugarsAdded(), b.fruitAdded(), b.toppings(), b.dryHops(), b.notRead())
	})
}

// intoOf is where an addition went: into a container that is named, into all of
// them, or into the beer before it was shared out.
func (b *bench) intoWhich(into journal.Choice[journal.Place], of journal.Whole) (index int, shared bool) {
	switch {
	case of.Written() && of.N < len(b.containers):
		return of.N, false
	case into.Is(journal.IntoPackage) && len(b.containers) == 1:
		return 0, false
	case into.Is(journal.IntoPackage):
		return allOf, true
	}
	return allOf, false
}

// sugarsAdded are lines of the grist that went in after the yeast, or into a
// container.
func (b *bench) sugarsAdded() []addition {
	var all []addition
	for i := range b.Gyle.Grist {
		g := &b.Gyle.Grist[i]
		if !bottled(g) && !b.joined(g) || g.When.Written() && !b.past(g.When) {
			continue
		}
		a := addition{what: b.grainName(g), where: g.Where, when: g.When, sugar: b.plainSugar(g)}
		a.into, a.shared = b.intoWhich(g.Into, g.Package)
		weight := b.weightOr(read(b, g.Weight, keyOf(g.Weight.Where, "grist", i, "weight"), ofWeight), a, usualSugar)
		a.weight = weight
		a.gas = func() Estimate[q.Mass] { return b.gasOfSugar(weight, b.cardOfGrain(g), a.what) }
		a.raises = from2(b, brewing.LitreDegrees, weight, b.extractOr(i, g))
		a.liquid = times[q.Volume](b, weight, sugarsOwnVolume)
		all = append(all, a)
	}
	return all
}

// What is put in of which nobody says how much: nothing to twice so many grams in a litre
// of beer (common practice, no source).
const (
	usualSugar  = 10.0
	usualFruit  = 100.0
	usualLiquid = 50.0
)

// weightOr is a weight, or where it is not known what may have been put in.
func (b *bench) weightOr(weight Estimate[q.Mass], a addition, usual float64) Estimate[q.Mass] {
	if weight.known {
		return weight
	}
	dose := customary(b, q.Number(usual), usual, "g/L", "how much of "+a.what+" was put in "+a.where.Key,
		"not written: taken as anything from nothing to twice what is usual (common practice, no source)")
	return from2(b, func(dose q.Number, v q.Volume) (q.Mass, error) {
		return q.Mass(max(float64(dose), 0) * v.Litres()), nil
	}, dose, b.beerToReckon(a))
}

// volumeOr is the same of a liquid.
func (b *bench) volumeOr(volume Estimate[q.Volume], a addition) Estimate[q.Volume] {
	if volume.known {
		return volume
	}
	return as[q.Volume](times[q.Number](b, b.weightOr(Estimate[q.Mass]{}, a, usualLiquid), 0.001))
}

// sugarsOwnVolume is how much a gram of sugar swells what it is stirred into, in L:
// 0.62 mL (density of sucrose solutions, NBS Circular C440, below 20 %).
const sugarsOwnVolume = 0.00062

// extractOr is what a line of the grist can give, plain sugar's where nobody says.
func (b *bench) extractOr(i int, g *journal.Grain) Estimate[q.Extract] {
	return first(b.extractOf(i, g), customary(b, q.Extract(350), 35, "Ldeg/kg", "the extract of "+b.grainName(g),
		"no card says: taken as a sugar's or syrup's, 315 to 385 Ldeg/kg"))
}

func (b *bench) grainName(g *journal.Grain) string {
	for _, n := range []journal.Name{g.Sugar, g.Syrup, g.Malt, g.Adjunct} {
		if n.Name != "" {
			return n.Name
		}
	}
	return "sugar"
}

// gasOfSugar is the carbon dioxide from a weight of sugar, in all.
func (b *bench) gasOfSugar(weight Estimate[q.Mass], card *journal.Card, name string) Estimate[q.Mass] {
	return from2(b, func(m q.Mass, y q.Number) (q.Mass, error) { return m * q.Mass(y), nil }, weight, b.yieldOf(card, name))
}

// fruitAdded are fruit, juice, wort, water and whatever else is said to hold sugar.
func (b *bench) fruitAdded() []addition {
	var all []addition
	for i := range b.Gyle.Added {
		a := &b.Gyle.Added[i]
		if a.When.Written() && !b.past(a.When) || !b.afterYeast(a) || b.ofMust(a) {
			continue
		}
		switch {
		case a.Wort.Text != "" || a.Gravity.Written():
			all = append(all, b.wortAdded(i, a))
		case a.Liquor.Text != "":
			out := b.placed(a, addition{what: a.Liquor.Text, gas: noGas, raises: noRise(), water: true})
			out.liquid = b.volumeOr(read(b, a.Volume, keyOf(a.Volume.Where, "added", i, "volume"), ofVolume), out)
			all = append(all, out)
		case a.Fruit.Name != "" || a.Juice.Name != "" || a.Sugar.Written() || sweet(a):
			all = append(all, b.sweetened(i, a))
		}
	}
	return all
}

// notRead are the lines about what went into the beer that could not be read, or name
// nothing that could be: what they put in, nobody knows.
func (b *bench) notRead() []addition {
	var all []addition
	unknown := func(where journal.Where, out addition) {
		out.what, out.liquid, out.raises = "what "+where.Key+" says", noLiquid(), missing[q.Number](where.Key)
		out.gas = func() Estimate[q.Mass] { return missing[q.Mass](where.Key) }
		all = append(all, out)
	}
	for i := range b.Gyle.Added {
		a := &b.Gyle.Added[i]
		if a.Where.Written() && a.NamesNothing() && (!a.When.Written() || b.past(a.When)) && b.afterYeast(a) {
			unknown(a.Where, b.placed(a, addition{}))
		}
	}
	for _, w := range b.Gyle.NotRead {
		if wholeLine.MatchString(w.Key) {
			unknown(w, addition{where: w, into: allOf})
		}
	}
	return all
}

// wholeLine is the key of a line, or of the list of them, that may have put something into
// the beer that ferments.
var wholeLine = regexp.MustCompile(`^(added|yeast)(\[\d+\])?$`)

// afterYeast tells whether an addition went into the beer, not into the wort.
func (b *bench) afterYeast(a *journal.Addition) bool {
	if a.Into.Is(journal.IntoMash, journal.IntoCopper) {
		return false
	}
	return !a.When.Written() || a.Into.Is(journal.IntoPackage) || a.Package.Written() || b.duringWork(a.When)
}

func (b *bench) placed(a *journal.Addition, out addition) addition {
	out.where, out.when = a.Where, a.When
	out.into, out.shared = b.intoWhich(a.Into, a.Package)
	return out
}

// dryHops are hops in the beer: they may free extract from dextrins.
func (b *bench) dryHops() []addition {
	var all []addition
	for i := range b.Gyle.Hops {
		h := &b.Gyle.Hops[i]
		dry := h.Dry.Written() || h.Into.Is(journal.IntoPackage) || h.Package.Written() || h.Into.Is(journal.IntoFermenter)
		if !dry || h.When.Written() && !b.past(h.When) {
			continue
		}
		a := addition{what: h.Hop.Name, where: h.Where, when: h.When, gas: noGas, liquid: noLiquid(), raises: noRise(), creeps: true}
		a.into, a.shared = b.intoWhich(h.Into, h.Package)
		if h.Dry.Written() {
			a.stood = h.Dry.Value.Span()
		}
		a.weight = read(b, h.Weight, keyOf(h.Weight.Where, "hops", i, "weight"), ofSmall)
		all = append(all, a)
	}
	return all
}

// entered is when an addition is taken to have gone in. One that nobody dates stands
// at the latest moment that the rest allows: when the beer was closed in, or now, less
// the time that hops are said to have been in it.
func (b *bench) entered(a addition) (at time.Time, dated bool) {
	if a.when.Written() {
		return a.when.Middle(), true
	}
	sealed, is := b.sealedAt()
	if !is {
		sealed = b.Now
	}
	return sealed.Add(-time.Second - a.stood), false
}

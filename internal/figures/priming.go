package figures

import (
	"errors"
	"strings"

	"gylebook/internal/brewing"
	"gylebook/internal/journal"
	q "gylebook/internal/quantity"
)

// primed is one priming: the sugar or wort, the beer it went into, and what it gives.
type primed struct {
	sugar  Estimate[q.Mass]
	volume Estimate[q.Volume] // of beer and what was stirred in
	yield  Estimate[q.Number] // grams of CO2 a gram
	co2    Estimate[q.Carbonation]
	worst  Estimate[q.Carbonation] // where it is more
	wort   *addition               // instead of sugar
	mixed  bool                    // more than one thing
	where  journal.Where
	says   string
}

// most is what it gives at the worst that the entry leaves open.
func (p primed) most() Estimate[q.Carbonation] {
	if p.worst.known && p.worst.Value+p.worst.PlusMinus() > p.co2.Value+p.co2.PlusMinus() {
		return p.worst
	}
	return p.co2
}

func unprimed(volume Estimate[q.Volume]) primed {
	return primed{sugar: exactly(q.Mass(0)), volume: volume, yield: exactly(q.Number(0)), co2: exactly(q.Carbonation(0))}
}

// gylePriming is the gyle-wide priming, stirred into what was racked less what went
// into containers with a priming of their own. Where it is so much for each container,
// it is that of the first that takes it.
func (b *bench) gylePriming() primed {
	return b.memoGylePriming.once(func() primed {
		if b.Gyle.Priming.Each.Written() {
			for _, c := range b.containers {
				if _, own := b.priming(c); !own {
					return b.primingOf(c)
				}
			}
		}
		return b.prime(&b.Gyle.Priming, "priming", b.sharedWithWort())
	})
}

// sharedWithWort is the beer that takes the gyle-wide priming, with the wort that was
// stirred into what was racked.
func (b *bench) sharedWithWort() Estimate[q.Volume] {
	shared, wort := b.sharedVolume(), b.Gyle.Priming.Wort
	if !wort.Written() || !b.rackedVolume().known {
		return shared
	}
	return sum(b, shared, read(b, wort, keyUnder(wort.Where, "priming", "wort"), ofVolume))
}

// primingOf is the priming that a container's beer got.
func (b *bench) primingOf(c Container) primed {
	p, own := b.priming(c)
	if !own && !p.Each.Written() {
		return b.gylePriming()
	}
	return b.ofContainer[c.Index].priming.once(func() primed {
		key := firstName(p.Where.Key, c.Key+".priming")
		if p.Each.Written() {
			return b.prime(p, key, b.fillToReckon(c))
		}
		return b.prime(p, key, b.contentsToReckon(c))
	})
}

// stirredIn is all that was put into a container to ferment there, whatever the entry
// calls it: its priming, and what went into it besides.
func (b *bench) stirredIn(c Container) primed {
	all := b.primingOf(c)
	for _, a := range b.intoContainer(c) {
		all.co2 = sum(b, all.co2, b.perLitre(a.gas(), b.beerOf(a)))
		all.sugar = sum(b, all.sugar, b.extractIn(a))
		all.mixed = true
	}
	if all.wort != nil {
		all.sugar = sum(b, all.sugar, b.extractIn(*all.wort))
	}
	if all.mixed || all.wort != nil {
		all.yield = from3(b, func(c q.Carbonation, v q.Volume, m q.Mass) (q.Number, error) {
			return q.Number(c.GramsPerLitre() * v.Litres() / max(m.Grams(), 0.01)), nil
		}, all.co2, all.volume, all.sugar)
	}
	return all
}

// intoContainer is what was put into a container, or into all of them, that ferments.
func (b *bench) intoContainer(c Container) []addition {
	var all []addition
	for _, a := range b.additions() {
		if a.bottled() && (a.shared || a.into == c.Index) && !a.creeps && !a.water && !a.beer {
			all = append(all, a)
		}
	}
	return all
}

// extractIn is the sugar that an addition brings, or its extract reckoned as sugar.
func (b *bench) extractIn(a addition) Estimate[q.Mass] {
	if a.weight.known {
		return a.weight
	}
	return times[q.Mass](b, a.raises, 1000.0/sucroseExtract)
}

// prime works out one priming of a volume of beer, what was stirred in counted. No sugar
// gives exactly nothing; a sugar whose weight is left out is what the aim asks for.
func (b *bench) prime(p *journal.Priming, k string, volume Estimate[q.Volume]) primed {
	switch {
	case !p.Written() && b.unreadKey(k):
		out := unprimed(volume)
		out.sugar, out.co2 = missing[q.Mass](k), missing[q.Carbonation](k)
		return out
	case !p.Written():
		return unprimed(volume)
	case p.Wort.Written() || b.unreadKey(k+".wort"):
		return b.primeWithWort(p, k, volume)
	}
	out := primed{volume: volume, yield: b.sugarYield(p.Sugar), where: p.Where, says: firstName(p.Sugar.Name, "priming sugar")}
	weight, key := p.Weight, keyUnder(p.Weight.Where, k, "weight")
	if p.Each.Written() {
		weight, key = p.Each, keyUnder(p.Each.Where, k, "each")
	}
	if !weight.Written() && !b.unreadKey(k+".weight") && !b.unreadKey(k+".each") {
		return b.primedForAim(out)
	}
	out.sugar = read(b, weight, key, ofSmall)
	out.co2 = from3(b, brewing.PrimingCO2, out.sugar, out.yield, volume)
	return out
}

// unreadKey tells whether something stands at a key, or below it, that could not be
// read.
func (b *bench) unreadKey(key string) bool {
	for _, w := range b.Gyle.NotRead {
		if strings.HasPrefix(w.Key, key) {
			return true
		}
	}
	return false
}

func firstName(names ...string) string {
	for _, n := range names {
		if n != "" {
			return n
		}
	}
	return ""
}

// What a brewer weighs who says neither how much nor for which aim, in g/L (common
// practice, no source): 2 to 8. Who names an aim has weighed for it to about a third.
const (
	unsaidPriming    = 5.0
	unsaidPrimingOff = 3.0
	leastPriming     = 2.0
	weighedForAim    = 0.3
)

// primedForAim is a priming whose weight nobody wrote: about what the aim asks for, else
// what is usual. It is no less than anybody primes with, since some was put in; how much,
// nobody says, and that is a doubt of its own. At worst it was weighed by somebody who
// reckoned with nothing still to come.
func (b *bench) primedForAim(out primed) primed {
	out.sugar = b.weighedFor(b.sugarForAim(out.yield, out.volume, b.stillToCome()), out.volume)
	out.co2 = from3(b, brewing.PrimingCO2, out.sugar, out.yield, out.volume)
	nothing := exactly(q.Carbonation(0))
	most := b.weighedFor(b.sugarForAim(out.yield, out.volume, nothing), out.volume)
	out.worst = from3(b, brewing.PrimingCO2, most, out.yield, out.volume)
	return out
}

// weighedFor is what somebody weighed who was to weigh so much for an aim.
func (b *bench) weighedFor(aimed Estimate[q.Mass], volume Estimate[q.Volume]) Estimate[q.Mass] {
	rate, off := unsaidPriming, unsaidPrimingOff
	reason := "its weight is not written: taken as 2 to 8 g/L (common practice, no source)"
	if aimed.known && volume.Value > 0 {
		rate = max(aimed.Value.Grams()/volume.Value.Litres(), leastPriming)
		off = max(weighedForAim*rate, 1)
		reason = "its weight is not written: taken as what the aim asks for, to a third (common practice, no source)"
	}
	usual := customary(b, q.Number(rate), off, "g/L", "the priming sugar", reason)
	return from2(b, func(g q.Number, v q.Volume) (q.Mass, error) {
		return q.Mass(float64(max(g, 0)) * v.Litres()), nil
	}, usual, volume)
}

func (b *bench) primeWithWort(p *journal.Priming, k string, volume Estimate[q.Volume]) primed {
	wort := read(b, p.Wort, keyUnder(p.Wort.Where, k, "wort"), ofVolume)
	gravity := read(b, p.Gravity, keyUnder(p.Gravity.Where, k, "gravity"), ofHydrometer)
	a := b.wort("priming wort", wort, gravity)
	if !gravity.known && !b.unreadKey(k+".gravity") {
		a = b.wortUnread("priming wort", wort)
	}
	out := unprimed(volume)
	out.wort, out.where, out.says = &a, p.Where, "priming wort"
	out.co2, out.worst = b.perLitre(a.gas(), out.volume), b.perLitre(a.gasAtMost(), out.volume)
	return out
}

// perLitre is so much carbon dioxide in so much beer.
func (b *bench) perLitre(gas Estimate[q.Mass], volume Estimate[q.Volume]) Estimate[q.Carbonation] {
	return from2(b, func(m q.Mass, v q.Volume) (q.Carbonation, error) {
		if v <= 0 {
			return 0, errNoBeer
		}
		return q.Carbonation(m.Grams() / q.GramsPerVolume / v.Litres()), nil
	}, gas, volume)
}

var errNoBeer = errors.New("there is no beer for it to go into")

// sharedVolume is the beer that takes the gyle-wide priming.
func (b *bench) sharedVolume() Estimate[q.Volume] {
	return b.memoSharedVolume.once(func() Estimate[q.Volume] {
		volume := b.rackedVolume()
		if !volume.known {
			return first(b.sharing(), b.workingVolume(), volume)
		}
		for _, c := range b.containers {
			if _, own := b.priming(c); own {
				volume = from2(b, less, volume, b.contentsToReckon(c))
			}
		}
		return first(volume, b.sharing())
	})
}

func less(a, c q.Volume) (q.Volume, error) {
	if a <= c {
		return 0, errors.New("the containers that are primed apart hold all that was racked")
	}
	return a - c, nil
}

// sugarYield is the CO2 from a gram of a sugar: its chemistry, by its card, less
// the share that goes into yeast. Plain sugar where none is named, and where no
// card knows the one that is: that gives the most gas of those that brewers
// prime with, and how much less another gives is its doubt. So a sugar that
// nobody knows never hides a danger.
func (b *bench) sugarYield(name journal.Name) Estimate[q.Number] {
	typed := name.Name
	if name.Name == "" {
		name.Name = "sucrose"
	}
	return b.yieldOf(b.card(journal.CardSugar, name), typed)
}

// yieldOf is the CO2 from a gram of what a card describes.
func (b *bench) yieldOf(card *journal.Card, name string) Estimate[q.Number] {
	share := customary(b, q.Number(brewing.YeastShareFactor), 0.025, "", "the sugar that goes into yeast",
		"Balling's 0.463 against the chemical 0.489; with little growth in the container it is less")
	var chemical Estimate[q.Percent]
	if card == nil || card.Sugar == nil || !card.Sugar.CO2.Written() {
		chemical = customary(b, sucroseCO2, unknownSugar, "%", "the gas that "+name+" gives",
			"no card says: taken as plain sugar, the most, with the 25 to 51 % that sugars and syrups give as its doubt")
	} else {
		chemical = read(b, card.Sugar.CO2, "co2", doubt{})
	}
	return from2(b, func(p q.Percent, share q.Number) (q.Number, error) {
		return q.Number(p.Fraction()) * share, nil
	}, chemical, share)
}

// sucroseCO2 is what sucrose gives by stoichiometry, in % of its weight (IUPAC
// 2021 abridged atomic masses), and unknownSugar how far another may be from it:
// liquid malt extract gives about 25 % (the larder's cards).
const (
	sucroseCO2   = q.Percent(51.428)
	unknownSugar = 26.0
)

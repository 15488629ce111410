package figures

import (
	"slices"
	"strings"

	"gylebook/internal/brewing"
	q "gylebook/internal/quantity"
)

const balling = "C. J. N. Balling's proportions, with q = 0.22 + 0.001 P, which reproduces his own 31 factors"

var (
	kindApparent = &Kind{
		ID: IDApparentAttenuation, Label: "Apparent attenuation", Unit: "%", Decimals: 0,
		Says:    "The share of the extract that seems gone, in Plato terms; in points it is within 1 % of that.",
		Formula: "{A} = 100 × (P₀ − P) ÷ P₀, P₀ from {OG}, P from {FG}",
		Symbols: []string{"A: apparent attenuation, %", "OG: original gravity", "FG: gravity now"},
		Valid:   "original gravity above 1.004", Source: "ASBC Beer-6", Checked: "both ways of reckoning at two gravities",
	}
	kindReal = &Kind{
		ID: IDRealAttenuation, Label: "Real attenuation", Unit: "%", Decimals: 0,
		Says:    "The share of the extract that is really gone: alcohol makes the beer look drier than it is.",
		Formula: "{A} = 100 × (P₀ − {E}) ÷ P₀, P₀ from {OG}",
		Symbols: []string{"A: real attenuation, %", "E: real extract, °P", "OG: original gravity"},
		Valid:   "original gravity above 1.004", Source: balling, Checked: "532 brews in five sets (Cutaia et al., J. Inst. Brew. 115 (2009) 318), real extract within 0.25 °P",
	}
	kindRealExtract = &Kind{
		ID: IDRealExtract, Label: "Real extract", Unit: "°P", Decimals: 1,
		Says:    "What is still dissolved once the alcohol is reckoned out.",
		Formula: "{E} = (q P₀ + P) ÷ (1 + q), q = 0.22 + 0.001 P₀, P₀ from {OG}, P from {FG}",
		Symbols: []string{"E: real extract, °P", "OG: original gravity", "FG: final gravity"},
		Valid:   "1.000 to 1.130", Source: balling, Checked: kindReal.Checked,
	}
	kindABV = &Kind{
		ID: IDABV, Label: "Alcohol", Unit: "% vol", Decimals: 1,
		Says:    "Alcohol by volume, before any priming sugar. Sugar, fruit and juice that joined the working beer are reckoned into OG: extract by weight is conserved. The method is off by 0.18 % about measured beers, part of it always too high, and the ± owns up to that.",
		Formula: "{A} = (P₀ − P) ÷ [(2.0665 − 0.010665 P₀)(1 + q)] × {FG} × 998.2 ÷ 789.24, q = 0.22 + 0.001 P₀, P₀ from {OG}, P from {FG}",
		Symbols: []string{"A: alcohol, % vol", "OG: original gravity", "FG: final gravity"},
		Valid:   "1.000 to 1.130",
		Source:  balling + "; density of alcohol: OIML R 22",
		Checked: "22 measured beers and the worts they came from (USDA Bulletin 493, 1917): mean error within 0.25 % vol, each within 0.6",
	}
	kindConditioned = &Kind{
		ID: IDABVConditioned, Label: "Alcohol when conditioned", Unit: "% vol", Decimals: 1,
		Says:    "With what the priming sugar, the gravity still to fall and all that joined the beer since its last gravity add or thin: what is drunk, and what a label states.",
		Formula: "{B} = {A} + from {m} g sugar in {V} L + from the points still to fall",
		Symbols: []string{"B: alcohol, % vol", "A: alcohol before priming", "m: priming sugar, g", "V: beer it went into, L"},
		Valid:   "1.000 to 1.130", Source: "stoichiometry, less the yeast's share", Checked: "3 g/L of sucrose adds about 0.2 % vol",
	}
	kindDuty = &Kind{
		ID: IDABVDuty, Label: "Alcohol by the duty factors", Unit: "% vol", Decimals: 1, Cut: true,
		Says:    "By the factor table of HM Revenue and Customs, as a cross-check. It is printed cut, not rounded, to one decimal, as duty is reckoned; its ± is about that of the strength.",
		Formula: "{A} = ({OG} − {FG}) × 1000 × factor",
		Symbols: []string{"A: alcohol, % vol", "OG: original gravity", "FG: final gravity"},
		Valid:   "a drop of 0 to 100.7 points", Source: "HM Revenue and Customs, Excise Notice 226, para 30.2 and 30.3", Checked: "the printed table, exactly",
	}
	kindUnits = &Kind{
		ID: IDUnitsPerPint, Label: "Units in a pint", Unit: "UK units", Decimals: 1,
		Says:    "UK units of alcohol, of 10 mL each, in a pint of 568.26 mL.",
		Formula: "{u} = {A} × 568.26 ÷ 1000",
		Symbols: []string{"u: UK units", "A: alcohol when conditioned, % vol"},
		Valid:   "any strength", Source: "UK Chief Medical Officers' guidelines, 2016", Checked: "two published worked values",
	}
	kindABVExpected = &Kind{
		ID: IDABVExpected, Label: "Alcohol to expect", Unit: "% vol", Decimals: 1,
		Says:    "On paper and on brew day: what the gravity to expect leaves once the yeast has done what it is known for. No priming is in it.",
		Formula: "{A} from {OG} and {FG}, as alcohol",
		Symbols: []string{"A: alcohol to expect, % vol", "OG: original gravity, or the one to expect", "FG: final gravity to expect"},
		Valid:   "1.000 to 1.130", Source: balling, Checked: "the alcohol of the same gravities read",
	}
	alcoholKinds = []*Kind{kindABVExpected, kindApparent, kindReal, kindRealExtract, kindABV, kindConditioned, kindDuty, kindUnits}
)

// alcohol is what the yeast made of it.
func alcohol(b *bench) {
	if b.Stage < Working {
		b.strengthToExpect()
		return
	}
	og, fg := b.fermentedOG(), b.fg()
	provisional := !b.standing().AtLeast()
	qualify := func(f *Figure) {
		if f != nil {
			f.Provisional = provisional
		}
	}
	pair := func(name string, value symbol) []symbol { return []symbol{value, sym("OG", og, ""), sym("FG", fg, "")} }

	apparent := from2(b, brewing.ApparentAttenuation, og, fg)
	qualify(add(b, kindApparent, "", apparent, pair("A", sym("A", apparent, "%"))...))
	extract := from2(b, brewing.RealExtract, og, fg)
	attenuated := from2(b, brewing.RealAttenuation, og, fg)
	qualify(add(b, kindReal, "", attenuated, sym("A", attenuated, "%"), sym("E", extract, ""), sym("OG", og, "")))
	qualify(add(b, kindRealExtract, "", extract, pair("E", sym("E", extract, "°P"))...))
	abv := b.abv()
	strength := add(b, kindABV, "", abv, pair("A", sym("A", abv, "%"))...)
	qualify(strength)
	if lacking := b.unreckoned(); strength != nil && len(lacking) > 0 {
		strength.Note = "the fruit's sugar is taken as 5 to 17 %: " + strings.Join(lacking, " and ") + " is not written"
	}
	duty := from3(b, thinned(brewing.DutyStrength), og, fg, b.shareRead())
	qualify(add(b, kindDuty, "", duty, pair("A", sym("A", duty, "%"))...))
	b.conditioned(qualify)
}

// strengthToExpect is the alcohol of what is still to be brewed, or not fermented yet.
func (b *bench) strengthToExpect() {
	if b.begunAsBeer() {
		return
	}
	og, fg := b.ogToFerment(), b.expectedFG()
	abv := scattered(b, from2(b, brewing.AlcoholByVolume, og, fg), float64(brewing.AlcoholScatter), "% vol", "Balling's method", "it is off so about 34 measured beers (USDA Bulletin 493)")
	add(b, kindABVExpected, "", abv, sym("A", abv, "%"), sym("OG", og, ""), sym("FG", fg, ""))
}

// abv is alcohol by volume before priming: as the last gravity has it, thinned by the
// liquor that went in since.
func (b *bench) abv() Estimate[q.Percent] {
	strength, volume := b.abvAsRead(), b.beerRead()
	for _, a := range b.thinningSince() {
		strength, volume = b.joinedBy(strength, volume, a)
	}
	return strength
}

// thinningSince is the liquor that went into the fermenter after the last gravity.
func (b *bench) thinningSince() []addition {
	return slices.DeleteFunc(b.addedLate(allOf), func(a addition) bool { return !a.water || a.shared })
}

// beerRead is the beer that the last gravity is of.
func (b *bench) beerRead() Estimate[q.Volume] { return first(b.workingVolume(), b.beerJoined()) }

func (b *bench) abvAsRead() Estimate[q.Percent] {
	return b.memoABV.once(func() Estimate[q.Percent] {
		abv := from2(b, brewing.AlcoholByVolume, b.fermentedOG(), b.fg())
		return scattered(b, abv, float64(brewing.AlcoholScatter), "% vol", "Balling's method", "it is off so about 34 measured beers (USDA Bulletin 493)")
	})
}

// conditioned is the strength as drunk, for the gyle as a whole and for each
// container that is primed apart from it.
func (b *bench) conditioned(qualify func(*Figure)) {
	conditioned := b.strength("", allOf, b.usualPriming(), qualify)
	apart := b.sharedPriming() || b.primedUnlike()
	for _, c := range b.containers {
		if b.primedApart(c) && apart || b.putInto(c.Index) {
			b.strength(c.Key, c.Index, b.primingOf(c), qualify)
		}
	}
	units := from1(b, func(p q.Percent) (q.Number, error) { return brewing.UnitsOfAlcohol(p, q.UKPint) }, conditioned)
	qualify(add(b, kindUnits, "", units, sym("u", units, ""), sym("A", conditioned, "%")))
}

// primedApart tells whether a container's priming is not of the beer as a whole.
func (b *bench) primedApart(c Container) bool {
	p, own := b.priming(c)
	return own || p.Each.Written()
}

// primedUnlike tells whether containers got more or less priming than others.
func (b *bench) primedUnlike() bool {
	return slices.ContainsFunc(b.containers, func(c Container) bool {
		return b.primingOf(c).co2.Value != b.primingOf(b.containers[0]).co2.Value
	})
}

// putInto tells whether anything but priming went into one container alone.
func (b *bench) putInto(of int) bool {
	for _, a := range b.additions() {
		if a.into == of && !a.creeps {
			return true
		}
	}
	return false
}

// usualPriming is the priming of the gyle as a whole; where each container is
// primed apart, the first one's.
func (b *bench) usualPriming() primed {
	if !b.sharedPriming() && len(b.containers) > 0 {
		return b.primingOf(b.containers[0])
	}
	return b.gylePriming()
}

// strength adds the strength that a beer comes to in the end.
func (b *bench) strength(of string, index int, priming primed, qualify func(*Figure)) Estimate[q.Percent] {
	conditioned := b.strengthInTheEnd(index, priming)
	qualify(add(b, kindConditioned, of, conditioned, sym("B", conditioned, "%"), sym("A", b.abv(), "%"), sym("m", priming.sugar, ""), sym("V", priming.volume, "")))
	return conditioned
}

// strengthInTheEnd is the strength once all has fermented that was put in, by mass:
// alcohol from the gravity still to fall, and from what joined the beer after its last
// gravity, whose room thins it: in the fermenter, in all containers together, in this one.
func (b *bench) strengthInTheEnd(index int, priming primed) Estimate[q.Percent] {
	strength, volume := from2(b, brewing.StrengthConditioned, b.abvAsRead(), b.fallOf(index).value), b.beerRead()
	for _, a := range b.addedLate(index) {
		if a.bottled() {
			volume = b.without(b.beerOf(a), a.liquid)
		}
		strength, volume = b.joinedBy(strength, volume, a)
	}
	if priming.wort != nil {
		strength, _ = b.joinedBy(strength, b.without(priming.volume, priming.wort.liquid), *priming.wort)
		return strength
	}
	return from2(b, brewing.StrengthConditioned, strength, priming.co2)
}

// without is so much beer before something was stirred in.
func (b *bench) without(volume, stirredIn Estimate[q.Volume]) Estimate[q.Volume] {
	return from2(b, func(v, in q.Volume) (q.Volume, error) { return max(v-in, 0), nil }, volume, stirredIn)
}

// addedLate is what joined the beer after its last gravity, hops apart: in the fermenter,
// then in the containers.
func (b *bench) addedLate(index int) []addition {
	var late, bottled []addition
	for _, a := range b.additions() {
		switch at, _ := b.entered(a); {
		case a.creeps:
		case !a.bottled() && b.afterLastGravity(at):
			late = append(late, a)
		case a.shared || a.bottled() && a.into == index:
			bottled = append(bottled, a)
		}
	}
	return append(late, bottled...)
}

// worty tells whether an addition is wort of a gravity of its own.
func (a addition) worty() bool { return a.wort.known }

// joinedBy is the strength of so much beer once something joined it and has fermented,
// and how much beer that makes: wort brings the alcohol that it makes, sugar what its
// gas tells of, and their room thins the rest.
func (b *bench) joinedBy(beer Estimate[q.Percent], volume Estimate[q.Volume], a addition) (Estimate[q.Percent], Estimate[q.Volume]) {
	total := sum(b, volume, a.liquid)
	switch {
	case a.beer:
		return beer, total
	case a.worty():
		end := from2(b, brewing.FinalGravityFromAttenuation, a.wort, b.attenuationOfWort())
		brings := from2(b, brewing.AlcoholByVolume, a.wort, end)
		return from4(b, byVolume[q.Percent], volume, beer, a.liquid, brings), total
	}
	thinned := from4(b, byVolume[q.Percent], volume, beer, a.liquid, exactly(q.Percent(0)))
	if a.water {
		return thinned, total
	}
	return from2(b, brewing.StrengthConditioned, thinned, b.perLitre(a.gas(), total)), total
}

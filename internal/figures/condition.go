package figures

import (
	"gylebook/internal/brewing"
	"gylebook/internal/journal"
	q "gylebook/internal/quantity"
)

var (
	kindResidual = &Kind{
		ID: IDResidualCO2, Label: "Gas left from fermentation", Unit: "vol", Decimals: 2,
		Says:    "What the beer still holds of its own carbon dioxide: what it can dissolve at the warmest it has been since it slowed, or under the pressure that a valve held or a gauge showed. An open or much stirred bucket holds less.",
		Formula: "{C} = 0.936 × solubility in water at {T}, under the air's pressure and what a valve held, less the vapour of water",
		Symbols: []string{"C: carbon dioxide, vol", "T: warmest since it slowed, °C"},
		Valid:   "0 to 40 °C",
		Source:  "R. F. Weiss, Mar. Chem. 2 (1974) 203; 0.936 for beer is the mean over 291 printed points of a brewers' chart (D. Miller, Brewing Techniques 2(1), 1994)",
		Checked: "published residual gas by M. Hibbard (1995), within 0.1 vol from 10 °C up and 0.13 below",
	}
	kindPrimingCO2 = &Kind{
		ID: IDPrimingCO2, Label: "Gas from priming", Unit: "vol", Decimals: 2,
		Says:    "What the priming gives, less the share that goes into yeast: sugar or wort, stirred in at racking or put into the container.",
		Formula: "{C} = {m} × {y} ÷ ({V} × 1.977)",
		Symbols: []string{"C: carbon dioxide, vol", "m: sugar, or extract of wort and fruit, g", "y: grams of CO2 from a gram of it", "V: beer that it is in, L"},
		Valid:   "sugars that yeast can use",
		Source:  "stoichiometry from IUPAC atomic masses; the yeast's share from Balling's 0.463 in 0.489",
		Checked: "sugar for one volume by atomic masses",
	}
	kindToCome = &Kind{
		ID: IDCO2ToCome, Label: "Gas still to come", Unit: "vol", Decimals: 2,
		Says:    "What the gravity still to fall will give: about half a volume for a point of apparent gravity. Not the same point as one raised by sugar. Its bound is the smaller of what the yeast could still do and of what gravities that stood so long level leave open.",
		Formula: "{C} = max(0, ({PG} − {FG}) × 1000) × 0.504",
		Symbols: []string{"C: carbon dioxide, vol", "PG: gravity when sealed", "FG: gravity to expect in the end"},
		Valid:   "0 to 40 points", Source: "Balling's proportions, worked", Checked: "a fermentation wiki's half volume a point",
	}
	kindInAll = &Kind{
		ID: IDGasInAll, Label: "Gas in all", Unit: "vol", Decimals: 2,
		Says:    "All the carbon dioxide that a container comes to, as volumes of its beer: what was left, what was put in and is still to come, what a cylinder fed, less what was let out or drawn. Part of it stands above the beer or fills a bag; what is in the beer is the condition.",
		Formula: "{N} = {R} + {P} + {F}, and what came in or went out since",
		Symbols: []string{"N: carbon dioxide, vol", "R: left from fermentation", "P: from priming", "F: still to come"},
		Valid:   "0 to 12 vol", Source: "mass balance of carbon dioxide", Checked: "whole stories worked by pencil and paper",
	}
	kindCondition = &Kind{
		ID: IDCondition, Label: "Condition", Unit: "vol", Decimals: 2,
		Says:    "The carbon dioxide that will be dissolved in the beer, at the heat of its cellar, once all that was put in has fermented and come to rest. What stands above the beer, or swells a bag, is not in the glass.",
		Formula: "{C} = 0.936 × solubility at {T} × the pressure of carbon dioxide that {N} comes to",
		Symbols: []string{"C: carbon dioxide dissolved, vol", "N: carbon dioxide in all, vol", "T: cellar, °C"},
		Valid:   "0 to 5 vol", Source: kindResidual.Source + "; mass balance of carbon dioxide", Checked: "mass balance in a sealed container; whole stories worked by pencil and paper",
	}
	kindPrimingSugar = &Kind{
		ID: IDPrimingSugar, Label: "Priming sugar for the aim", Unit: "g", Decimals: 0,
		Says:    "What to weigh, in all, for the condition aimed at in the volume really racked. One row for each sugar.",
		Formula: "{m} = max(0, {A} × {h} − {R} − {F}) × {V} × 1.977 ÷ {y}",
		Symbols: []string{"m: sugar, g", "A: condition aimed at, vol", "h: all the gas over what is dissolved, for the room above the beer", "R: left from fermentation, vol", "F: still to come, vol", "V: beer to prime, L", "y: grams of CO2 from a gram of the sugar"},
		Valid:   "aims of 0 to 5 vol", Source: kindPrimingCO2.Source, Checked: "fed back, it meets the aim",
	}
	conditionKinds = []*Kind{kindResidual, kindPrimingCO2, kindToCome, kindInAll, kindCondition, kindPrimingSugar}
)

// primingSugars are the sugars that the advice is worked out for.
var primingSugars = []string{"sucrose", "dextrose", "glucose", "invert syrup", "malt extract", "honey"}

// conditioning is where the carbon dioxide comes from and what it comes to.
func conditioning(b *bench) {
	if b.Stage < Working {
		return
	}
	residual, toCome, warmest := b.residual(), b.fallOf(allOf), b.warmestSinceSlowed()
	f := add(b, kindResidual, "", residual.likely, sym("C", residual.likely, "vol"), sym("T", warmest, "°C"))
	extrapolated(f, warmest.Value < 0 || warmest.Value > 40)
	bound(f, residual.worst)
	b.addToCome(toCome)
	if b.Gyle.Priming.Written() {
		b.addPriming("", b.gylePriming())
	}
	for _, c := range b.containers {
		if b.primedApart(c) || len(b.intoContainer(c)) > 0 {
			b.addPriming(c.Key, b.stirredIn(c))
		}
	}
	if b.closing() {
		b.addConditions()
	}
	b.advise()
}

// bound gives a figure its upper bound: a value at its worst and twice its own doubt,
// never less than the figure's own.
func bound[Q ~float64](f *Figure, worst Estimate[Q]) {
	if f != nil && worst.known {
		f.bounded(float64(worst.Value) + 2*worst.u)
	}
}

// addToCome adds the gas still to come: of the beer's own fall, and of what was put
// into it after its last gravity.
func (b *bench) addToCome(of fall) {
	late := b.lateInFermenter()
	value, worst := sum(b, of.value, late.likely), sum(b, of.bound, late.worst)
	f := add(b, kindToCome, "", value, sym("C", value, "vol"), sym("PG", b.gravityAtSealing(), ""), sym("FG", b.expectedFG(), ""))
	if f == nil {
		return
	}
	bound(f, worst)
	f.Provisional = b.Stage == Working
	if late.worst.known && late.worst.Value > 0 {
		f.Note = "with what went in after the last gravity"
	}
	extrapolated(f, value.Value > mostToCome)
}

// lateInFermenter is what went into the fermenter after the last gravity and is still
// to ferment, per litre.
func (b *bench) lateInFermenter() likelyAndWorst[q.Carbonation] {
	total := surely(exactly(q.Carbonation(0)))
	for _, a := range b.additions() {
		at, dated := b.entered(a)
		if a.creeps || a.water || a.into != allOf || a.shared || !b.afterLastGravity(at) {
			continue
		}
		gas, most := b.gasPut(a)
		left := b.leftOfLate(a, at, dated)
		total.likely, total.worst = sum(b, total.likely, from2(b, scaledGas, gas, left)), sum(b, total.worst, most)
	}
	return total
}

// closing tells whether the beer is closed in or about to be: before that, its
// condition is nobody's question.
func (b *bench) closing() bool {
	return b.Stage >= Maturing || b.Gyle.Priming.Written() || b.Gyle.Racked.Written() || len(b.containers) > 0
}

func (b *bench) addPriming(of string, p primed) {
	add(b, kindPrimingCO2, of, p.co2, sym("C", p.co2, "vol"), sym("m", p.sugar, "g"), sym("y", p.yield, ""), sym("V", p.volume, "L"))
}

// addConditions gives the condition of the gyle as a whole, unless each of its
// containers has priming of its own, and of each container.
func (b *bench) addConditions() {
	if b.sharedPriming() {
		late, toCome, priming := b.lateInFermenter(), b.fallOf(allOf), b.gylePriming()
		all := sum(b, b.residual().likely, priming.co2, toCome.value, late.likely)
		most := sum(b, b.residual().worst, priming.most(), toCome.bound, late.worst)
		reached := from2(b, dissolvedOf, all, b.overDissolved())
		f := add(b, kindCondition, "", reached, sym("C", reached, "vol"), sym("N", all, "vol"), sym("T", b.cellarHeat(Container{Package: &journal.Package{}}), "°C"))
		bound(f, from2(b, dissolvedOf, most, b.overDissolved()))
		extrapolated(f, reached.Value > mostCondition)
	}
	for _, c := range b.containers {
		b.addCondition(c)
	}
}

// dissolvedOf is what of all the gas is in the beer.
func dissolvedOf(all q.Carbonation, over q.Number) (q.Carbonation, error) {
	return all / q.Carbonation(over), nil
}

func (b *bench) addCondition(c Container) {
	r := b.reckon(c)
	all, condition := value[q.Carbonation](r, inAll), value[q.Carbonation](r, dissolved)
	priming, fall := b.stirredIn(c).co2, b.fallOf(c.Index).value
	if left := value[q.Volume](r, beerNow); left.known && left.Value <= left.PlusMinus() {
		all = withheld[q.Carbonation]("by what was drawn, perhaps no beer is left in it")
	}
	f := add(b, kindInAll, c.Key, all, sym("N", all, "vol"), sym("R", b.residual().likely, ""), sym("P", priming, ""), sym("F", fall, ""))
	f.bounded(r.upper(inAll))
	f = add(b, kindCondition, c.Key, condition, sym("C", condition, "vol"), sym("N", all, "vol"), sym("T", b.cellarHeat(c), "°C"))
	f.bounded(r.upper(dissolved))
	extrapolated(f, condition.Value > mostCondition)
}

// Where the sums of gas end: 40 points still to fall, and the 5 vol up to which
// Henry's law is near enough in beer.
const (
	mostToCome    = q.Carbonation(40 * brewing.CO2PerPoint)
	mostCondition = q.Carbonation(5)
)

// sharedPriming tells whether any beer takes the gyle-wide priming.
func (b *bench) sharedPriming() bool {
	for _, c := range b.containers {
		if _, own := b.priming(c); !own && !c.Forced() {
			return true
		}
	}
	return len(b.containers) == 0
}

// Forced tells whether a container's gas comes from a cylinder.
func (c Container) Forced() bool {
	return c.Package.Gas.Set.Written() && !c.Package.Gas.With.Is(journal.Nitrogen)
}

// gravityAtSealing is the gravity that falls on in the container. Beer that was
// closed in without a reading may have had all of its fall behind it or none:
// that is not known, where in the fermenter it is still the original gravity.
func (b *bench) gravityAtSealing() Estimate[q.Gravity] {
	if _, sealed := b.sealedAt(); sealed {
		return b.fg()
	}
	return first(b.fg(), b.gravityNow())
}

// advise gives the sugar to weigh for the aim.
func (b *bench) advise() {
	volume := b.sharedVolume()
	switch racked := b.rackedVolume(); {
	case !b.sharedPriming():
		volume = racked // each was primed apart: what it would have taken in all
	case !racked.known:
		volume = b.sharing() // what the fermenter holds is not what will be racked
	}
	aim := read(b, b.Gyle.Aim.Condition, "aim.condition", asWished)
	for _, sugar := range primingSugars {
		yield := b.sugarYield(journal.Name{Name: sugar})
		if !yield.known {
			continue
		}
		weight := b.sugarForAim(yield, volume, b.stillToCome())
		f := add(b, kindPrimingSugar, sugar, weight, sym("m", weight, "g"), sym("A", aim, ""), sym("h", b.overDissolved(), ""), sym("R", b.residual().likely, ""), sym("F", b.stillToCome(), ""), sym("V", volume, ""), sym("y", yield, ""))
		extrapolated(f, aim.Value > mostCondition)
	}
}

func (b *bench) stillToCome() Estimate[q.Carbonation] {
	return sum(b, b.fallOf(allOf).value, b.lateInFermenter().likely)
}

// sugarForAim is the sugar for the condition aimed at, in so much beer that has so much
// still to come. What of the gas will stand above the beer comes on top.
func (b *bench) sugarForAim(yield Estimate[q.Number], volume Estimate[q.Volume], toCome Estimate[q.Carbonation]) Estimate[q.Mass] {
	aim := read(b, b.Gyle.Aim.Condition, "aim.condition", asWished)
	lacking := from4(b, func(aim, residual, toCome q.Carbonation, over q.Number) (q.Carbonation, error) {
		return aim*q.Carbonation(over) - residual - toCome, nil
	}, aim, b.residual().likely, toCome, b.overDissolved())
	return from3(b, brewing.SugarFor, floored(b, lacking), yield, volume)
}

// overDissolved is all the gas over what is dissolved of it, in the containers that
// take the gyle-wide priming. A bag's is 1: it swells before any stands above.
func (b *bench) overDissolved() Estimate[q.Number] {
	return b.memoOver.once(func() Estimate[q.Number] {
		beer, gas := exactly(q.Volume(0)), exactly(q.Volume(0))
		for _, c := range b.containers {
			fill := b.fillToReckon(c)
			if _, own := b.priming(c); own || c.Forced() || !fill.known || c.Is(journal.Bucket) {
				continue
			}
			over := exactly(q.Number(1))
			if c.Rigid() {
				over = from3(b, brewing.GasOverDissolved, fill, b.roomToReckon(c, fill), b.cellarHeat(c))
			}
			contents := times[q.Volume](b, fill, float64(c.Count()))
			beer, gas = sum(b, beer, contents), sum(b, gas, from2(b, func(v q.Volume, o q.Number) (q.Volume, error) { return v * q.Volume(o), nil }, contents, over))
		}
		if !beer.known || beer.Value <= 0 || !gas.known {
			return exactly(q.Number(1))
		}
		return from2(b, func(gas, beer q.Volume) (q.Number, error) { return q.Number(gas / beer), nil }, gas, beer)
	})
}

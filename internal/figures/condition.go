package figures

import (
	"errors"
	"time"

	"gylebook/internal/brewing"
	"gylebook/internal/journal"
	q "gylebook/internal/quantity"
)

var (
	kindResidual = &Kind{
		ID: "residual-co2", Label: "Gas left from fermentation", Unit: "vol", Decimals: 2,
		Says:    "What the beer still holds of its own carbon dioxide: what it can dissolve at the warmest it has been since it slowed. An open or much stirred bucket holds less.",
		Formula: "{C} = 0.936 × solubility in water at {T}, under 1 atm less the vapour of water",
		Symbols: []string{"C: carbon dioxide, vol", "T: warmest since it slowed, °C"},
		Valid:   "0 to 40 °C",
		Source:  "R. F. Weiss, Mar. Chem. 2 (1974) 203; 0.936 for beer is the mean over 291 printed points of a brewers' chart (D. Miller, Brewing Techniques 2(1), 1994)",
		Checked: "published residual gas by M. Hibbard (1995), within 0.1 vol from 10 °C up and 0.13 below",
	}
	kindPrimingCO2 = &Kind{
		ID: "priming-co2", Label: "Gas from priming", Unit: "vol", Decimals: 2,
		Says:    "What the priming sugar gives, less the share that goes into yeast.",
		Formula: "{C} = {m} × {y} ÷ ({V} × 1.977)",
		Symbols: []string{"C: carbon dioxide, vol", "m: sugar, g", "y: grams of CO2 from a gram of it", "V: beer it was stirred into, L"},
		Valid:   "sugars that yeast can use",
		Source:  "stoichiometry from IUPAC atomic masses; the yeast's share from Balling's 0.463 in 0.489",
		Checked: "sugar for one volume by atomic masses",
	}
	kindToCome = &Kind{
		ID: "co2-to-come", Label: "Gas still to come", Unit: "vol", Decimals: 2,
		Says:    "What the gravity still to fall will give: about half a volume for a point of apparent gravity. Not the same point as one raised by sugar.",
		Formula: "{C} = max(0, ({PG} − {FG}) × 1000) × 0.504",
		Symbols: []string{"C: carbon dioxide, vol", "PG: gravity when sealed", "FG: gravity to expect in the end"},
		Valid:   "0 to 40 points", Source: "Balling's proportions, worked", Checked: "a fermentation wiki's half volume a point",
	}
	kindCondition = &Kind{
		ID: "condition", Label: "Condition", Unit: "vol", Decimals: 2,
		Says:    "The carbon dioxide it will reach: what is left, what the sugar gives, what is still to come, less what was vented.",
		Formula: "{C} = {R} + {P} + {F} − vented",
		Symbols: []string{"C: carbon dioxide, vol", "R: left from fermentation", "P: from priming", "F: still to come"},
		Valid:   "0 to 5 vol", Source: "mass balance of carbon dioxide", Checked: "mass balance in a sealed container",
	}
	kindPrimingSugar = &Kind{
		ID: "priming-sugar", Label: "Priming sugar for the aim", Unit: "g", Decimals: 0,
		Says:    "What to weigh, in all, for the condition aimed at in the volume really racked. One row for each sugar.",
		Formula: "{m} = max(0, {A} − {R} − {F}) × {V} × 1.977 ÷ {y}",
		Symbols: []string{"m: sugar, g", "A: condition aimed at, vol", "R: left from fermentation, vol", "F: still to come, vol", "V: beer to prime, L", "y: grams of CO2 from a gram of the sugar"},
		Valid:   "aims of 0 to 5 vol", Source: kindPrimingCO2.Source, Checked: "fed back, it meets the aim",
	}
	conditionKinds = []*Kind{kindResidual, kindPrimingCO2, kindToCome, kindCondition, kindPrimingSugar}
)

// primingSugars are the sugars that the advice is worked out for.
var primingSugars = []string{"sucrose", "dextrose", "glucose", "invert syrup", "malt extract", "honey"}

// conditioning is where the carbon dioxide comes from and what it comes to.
func conditioning(b *bench) {
	if b.Stage < Working {
		return
	}
	residual, toCome := b.residualCO2(), b.co2ToCome()
	warmest := b.warmestSinceSlowed()
	extrapolated(add(b, kindResidual, "", residual, sym("C", residual, "vol"), sym("T", warmest, "°C")), warmest.Value < 0 || warmest.Value > 40)
	if f := add(b, kindToCome, "", toCome, sym("C", toCome, "vol"), sym("PG", b.gravityAtSealing(), ""), sym("FG", b.expectedFG(), "")); f != nil {
		f.Provisional = b.Stage == Working
		extrapolated(f, toCome.Value > mostToCome)
	}
	if b.Gyle.Priming.Written() {
		b.addPriming("", b.gylePriming())
	}
	for _, c := range b.Containers() {
		if _, own := b.priming(c); own {
			b.addPriming(c.Key, b.primingOf(c))
		}
	}
	if b.closing() {
		b.addConditions()
	}
	b.advise()
}

// closing tells whether the beer is closed in or about to be: before that, its
// condition is nobody's question.
func (b *bench) closing() bool {
	return b.Stage >= Maturing || b.Gyle.Priming.Written() || b.Gyle.Racked.Written()
}

func (b *bench) addPriming(of string, p primed) {
	add(b, kindPrimingCO2, of, p.co2, sym("C", p.co2, "vol"), sym("m", p.sugar, "g"), sym("y", p.yield, ""), sym("V", p.volume, "L"))
}

// addConditions gives the condition of the gyle as a whole, unless each of its
// containers has priming of its own, and of each container.
func (b *bench) addConditions() {
	if b.sharedPriming() {
		priming := b.gylePriming().co2
		b.addCondition("", b.reached(priming), priming)
	}
	for _, c := range b.Containers() {
		b.addCondition(c.Key, b.conditionOf(c), b.primingOf(c).co2)
	}
}

func (b *bench) addCondition(of string, e, priming Estimate[q.Carbonation]) {
	f := add(b, kindCondition, of, e, sym("C", e, "vol"), sym("R", b.residualCO2(), ""), sym("P", priming, ""), sym("F", b.co2ToCome(), ""))
	extrapolated(f, e.Value > mostCondition)
}

// Where the sums of gas end: 40 points still to fall, and the 5 vol up to which
// Henry's law is near enough in beer.
const (
	mostToCome    = q.Carbonation(40 * brewing.CO2PerPoint)
	mostCondition = q.Carbonation(5)
)

// sharedPriming tells whether any beer takes the gyle-wide priming.
func (b *bench) sharedPriming() bool {
	for _, c := range b.Containers() {
		if _, own := b.priming(c); !own && !c.forced() {
			return true
		}
	}
	return len(b.Containers()) == 0
}

// forced tells whether its gas comes from a cylinder.
func (c Container) forced() bool {
	return c.Package.Gas.Set.Written() && (c.Package.Gas.With.Word == journal.CarbonDioxide || !c.Package.Gas.With.Written())
}

// residualCO2 is what the beer still holds of its own.
func (b *bench) residualCO2() Estimate[q.Carbonation] {
	return b.memoResidual.once(func() Estimate[q.Carbonation] {
		held := from1(b, brewing.ResidualCO2, b.warmestSinceSlowed())
		return scattered(b, held, residualScatter, "vol", "how much of its gas the beer held on to", "published values for one temperature differ by ± 0.1 vol")
	})
}

// residualScatter is half of the ± 0.1 vol by which published residual gas
// differs at one temperature.
const residualScatter = 0.05

// slowed is how near its last gravity a fermentation has slowed down.
const slowed = 4.0 // points

// warmestSinceSlowed is the heat that decides what gas is left: as written, else
// the warmest reading since the gravity came near its last, else the heat when
// racked.
func (b *bench) warmestSinceSlowed() Estimate[q.Temperature] {
	racked := &b.Gyle.Racked
	if racked.Warmest.Written() {
		return read(b, racked.Warmest, "racked.warmest", ofHeat)
	}
	if t, ok := b.warmestReading(); ok {
		return read(b, t, t.Key, ofHeat)
	}
	return first(read(b, racked.Temp, "racked.warmest", ofHeat), missing[q.Temperature]("racked.warmest"))
}

func (b *bench) warmestReading() (hottest journal.Value[q.Temperature], ok bool) {
	all := byTime(b.beforeSealing(), b.sightings())
	if len(all) == 0 {
		return hottest, false
	}
	last := all[len(all)-1].Gravity.Value.Points()
	for _, r := range all {
		if r.Gravity.Value.Points() > last+slowed || !r.Temp.Written() {
			continue
		}
		if !ok || r.Temp.Value > hottest.Value {
			hottest, ok = r.Temp, true
		}
	}
	return hottest, ok
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

// co2ToCome is what the gravity still to fall will give. Where it has stood
// still, the gravity is the one to expect, and there is exactly none: the fall
// of less than a point that the test of standing still cannot see is left out
// of the ±.
func (b *bench) co2ToCome() Estimate[q.Carbonation] {
	return b.memoToCome.once(func() Estimate[q.Carbonation] {
		return from2(b, brewing.CO2ToCome, b.gravityAtSealing(), b.expectedFG())
	})
}

// primed is one priming: the sugar, the beer it went into, and what it gives.
type primed struct {
	sugar  Estimate[q.Mass]
	volume Estimate[q.Volume]
	yield  Estimate[q.Number] // grams of CO2 a gram
	co2    Estimate[q.Carbonation]
}

// gylePriming is the gyle-wide priming, stirred into what was racked less what
// went into containers with a priming of their own.
func (b *bench) gylePriming() primed {
	return b.memoGylePriming.once(func() primed { return b.prime(&b.Gyle.Priming, "priming", b.sharedVolume()) })
}

// primingOf is the priming that a container's beer got.
func (b *bench) primingOf(c Container) primed {
	p, own := b.priming(c)
	if !own {
		return b.gylePriming()
	}
	return b.ofContainer[c.Index].priming.once(func() primed {
		if p.Each.Written() {
			return b.prime(p, p.Where.Key, b.fillToReckon(c))
		}
		return b.prime(p, p.Where.Key, b.contentsToReckon(c))
	})
}

// sharedVolume is the beer that takes the gyle-wide priming.
func (b *bench) sharedVolume() Estimate[q.Volume] {
	return b.memoSharedVolume.once(func() Estimate[q.Volume] {
		volume := b.rackedVolume()
		if !volume.known {
			return first(volume, b.sharing())
		}
		for _, c := range b.Containers() {
			if _, own := b.priming(c); own {
				volume = from2(b, less, volume, b.contentsToReckon(c))
			}
		}
		return volume
	})
}

func less(a, b q.Volume) (q.Volume, error) {
	if a <= b {
		return 0, errors.New("the containers that are primed apart hold all that was racked")
	}
	return a - b, nil
}

// prime works out one priming. No sugar gives exactly nothing; a sugar without a
// weight waits for it.
func (b *bench) prime(p *journal.Priming, k string, volume Estimate[q.Volume]) primed {
	if !p.Written() {
		return primed{sugar: exactly(q.Mass(0)), volume: volume, yield: exactly(q.Number(0)), co2: exactly(q.Carbonation(0))}
	}
	if p.Wort.Written() {
		return b.primeWithWort(p, k, volume)
	}
	weight, wk := p.Weight, keyUnder(p.Weight.Where, k, "weight")
	if p.Each.Written() {
		weight, wk = p.Each, p.Each.Key
	}
	out := primed{sugar: read(b, weight, wk, ofSmall), volume: volume, yield: b.sugarYield(p.Sugar)}
	out.co2 = from3(b, brewing.PrimingCO2, out.sugar, out.yield, volume)
	return out
}

func (b *bench) primeWithWort(p *journal.Priming, k string, volume Estimate[q.Volume]) primed {
	wort, gravity := read(b, p.Wort, keyUnder(p.Wort.Where, k, "wort"), ofVolume), read(b, p.Gravity, keyUnder(p.Gravity.Where, k, "gravity"), ofHydrometer)
	out := primed{sugar: exactly(q.Mass(0)), volume: volume, yield: exactly(q.Number(0))}
	attenuation := first(b.expectedAttenuation(), customary(b, q.Percent(75), 8, "%", "how far the priming wort ferments", "ale yeasts, 67 to 83 % (common practice, no source)"))
	out.co2 = from4(b, brewing.CO2FromWort, wort, gravity, attenuation, volume)
	return out
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
	card := b.card("sugar", name)
	share := customary(b, q.Number(brewing.YeastShareFactor), 0.025, "", "the sugar that goes into yeast", "Balling's 0.463 against the chemical 0.489; with little growth in the container it is less")
	var chemical Estimate[q.Percent]
	if card == nil || card.Sugar == nil || !card.Sugar.CO2.Written() {
		chemical = customary(b, sucroseCO2, unknownSugar, "%", "the gas that "+typed+" gives", "no card says: taken as plain sugar, the most, with the 25 to 51 % that sugars and syrups give as its doubt")
	} else {
		chemical = read(b, card.Sugar.CO2, "co2", doubt{})
	}
	return from2(b, func(p q.Percent, share q.Number) (q.Number, error) { return q.Number(p.Fraction()) * share, nil }, chemical, share)
}

// sucroseCO2 is what sucrose gives by stoichiometry, in % of its weight (IUPAC
// 2021 abridged atomic masses), and unknownSugar how far another may be from it:
// liquid malt extract gives about 25 % (the larder's cards).
const (
	sucroseCO2   = q.Percent(51.428)
	unknownSugar = 26.0
)

// reached is the condition from all its sources, before any venting.
func (b *bench) reached(priming Estimate[q.Carbonation]) Estimate[q.Carbonation] {
	return sum(b, b.residualCO2(), priming, b.co2ToCome())
}

// conditionOf is the condition that a container's beer reaches: by its gas
// cylinder, else by what ferments in it, less what was vented.
func (b *bench) conditionOf(c Container) Estimate[q.Carbonation] {
	return b.ofContainer[c.Index].condition.once(func() Estimate[q.Carbonation] {
		if c.forced() {
			return from2(b, brewing.CarbonationAt, read(b, c.Package.Gas.Set, keyUnder(c.Package.Gas.Set.Where, c.Key, "gas.set"), ofPressure), b.gasHeat(c))
		}
		return b.vented(c, b.primingOf(c).co2)
	})
}

func (b *bench) gasHeat(c Container) Estimate[q.Temperature] {
	if c.Package.Gas.At.Written() {
		return read(b, c.Package.Gas.At, c.Package.Gas.At.Key, ofHeat)
	}
	return b.cellarHeat(c)
}

// How fast gas comes after sealing: three quarters of it in the first week at
// cellar-to-room heat, the rest by the second (common practice, no source). It
// matters only for what was vented on the way.
const conditioningDays = 5.0

// vented follows the ventings in order. Each lets the beer fall to what it can
// dissolve at that heat under the atmosphere: all of the excess from a bag, an
// unknown part of it from a rigid container, which is opened for a moment.
func (b *bench) vented(c Container, priming Estimate[q.Carbonation]) Estimate[q.Carbonation] {
	total := b.reached(priming)
	lost := exactly(q.Carbonation(0))
	filled := b.Filled(c)
	for i := range b.Gyle.Done {
		d := &b.Gyle.Done[i]
		if !d.Did.Is(journal.Vented, journal.Burped) || !aboutPackage(d, c) || !b.past(d.When) || !filled.Written() {
			continue
		}
		heat := b.cellarHeat(c)
		if d.At.Written() {
			heat = read(b, d.At, keyOf(d.At.Where, "done", i, "at"), ofHeat)
		}
		lost = sum(b, lost, b.ventedOff(c, total, lost, heat, d.When.Middle().Sub(filled.Middle())))
	}
	return from2(b, func(a, b q.Carbonation) (q.Carbonation, error) { return max(a-b, 0), nil }, total, lost)
}

func (b *bench) ventedOff(c Container, total, lost Estimate[q.Carbonation], heat Estimate[q.Temperature], since time.Duration) Estimate[q.Carbonation] {
	escapes := exactly(q.Number(1))
	if c.Rigid() {
		escapes = customary(b, q.Number(0.5), 0.5, "", "what a venting lets out of "+c.Name(), "a moment's venting loses the headspace, a long one all the excess")
	}
	come := customary(b, q.Number(min(since.Hours()/24/conditioningDays, 1)), 0.2, "", "how far conditioning had come when vented", "three quarters in the first week (common practice, no source)")
	residual := b.residualCO2()
	saturated := from1(b, brewing.ResidualCO2, heat)
	return b.excess(residual, total, lost, saturated, escapes, come)
}

func (b *bench) excess(residual, total, lost, saturated Estimate[q.Carbonation], escapes, come Estimate[q.Number]) Estimate[q.Carbonation] {
	return result[q.Carbonation](b.evaluate(func(x *point) (float64, error) {
		residual, total, lost, saturated := x[0], x[1], x[2], x[3]
		there := residual + (total-residual)*min(max(x[5], 0), 1) - lost
		return max(there-saturated, 0) * min(max(x[4], 0), 1), nil
	}, arg(residual), arg(total), arg(lost), arg(saturated), arg(escapes), arg(come)))
}

// advise gives the sugar to weigh for the aim.
func (b *bench) advise() {
	aim := read(b, b.Gyle.Aim.Condition, "aim.condition", asWished)
	volume := b.sharedVolume()
	if !b.sharedPriming() {
		volume = b.rackedVolume() // each was primed apart: what it would have taken in all
	}
	for _, sugar := range primingSugars {
		yield := b.sugarYield(journal.Name{Name: sugar})
		if !yield.known {
			continue
		}
		weight := result[q.Mass](b.evaluate(func(x *point) (float64, error) {
			wanted := max(0, x[0]-x[1]-x[2])
			m, err := brewing.SugarFor(q.Carbonation(wanted), q.Number(x[4]), q.Volume(x[3]))
			return float64(m), err
		}, arg(aim), arg(b.residualCO2()), arg(b.co2ToCome()), arg(volume), arg(yield)))
		f := add(b, kindPrimingSugar, sugar, weight, sym("m", weight, "g"), sym("A", aim, ""), sym("R", b.residualCO2(), ""), sym("F", b.co2ToCome(), ""), sym("V", volume, ""), sym("y", yield, ""))
		extrapolated(f, aim.Value > mostCondition)
	}
}

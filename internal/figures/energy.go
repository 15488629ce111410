package figures

import (
	"gylebook/internal/brewing"
	q "gylebook/internal/quantity"
)

const annexXIV = "Regulation (EU) 1169/2011, Annex XIV; ash 0.1 % by weight (G. Fix, 1992); protein 0.07 of real extract (common practice, no source)"

var (
	kindABW = &Kind{
		ID: IDAbw, Label: "Alcohol by weight", Unit: "%", Decimals: 1,
		Says:    "Alcohol in a hundred parts of the beer by weight, before any priming sugar.",
		Formula: "{W} = {A} × 789.24 ÷ ({FG} × 998.2)",
		Symbols: []string{"W: alcohol, % by weight", "A: alcohol, % vol", "FG: final gravity"},
		Valid:   kindABV.Valid, Source: kindABV.Source, Checked: "Balling's own 31 factors",
	}
	kindEnergy = &Kind{
		ID: IDEnergy, Label: "Energy", Unit: "per 100 mL", Decimals: 0,
		Says:    "What 100 mL gives, as food labels reckon it, before any priming sugar. Real beers lie within about 5 % of it.",
		Formula: "{E} = 0.9982 × {FG} × ({a} × {W} + {c} × ({RE} − 0.1))",
		Symbols: []string{"E: energy, kJ or kcal", "FG: final gravity", "a: of a gram of alcohol, 29 kJ or 7 kcal", "c: of a gram of extract, 17 kJ or 4 kcal", "W: alcohol, % by weight", "RE: real extract, °P"},
		Valid:   kindABV.Valid, Source: annexXIV, Checked: "H. Rudolph's worked half litre, within 1 kcal, and two gyles worked by hand",
	}
	kindEnergyConditioned = &Kind{
		ID: IDEnergyConditioned, Label: "Energy when conditioned", Unit: "per 100 mL", Decimals: 0,
		Says:    "With the alcohol that priming and the gravity still to fall add: what a label states. Sugar that has fermented counts as its alcohol alone.",
		Formula: "{C} = {E} + {a} × 0.20695 × ({P} + {F}) − {c} × 0.42712 × {F}",
		Symbols: []string{"C: energy as drunk, kJ or kcal", "E: energy before priming", "a, c: of a gram of alcohol and of extract", "P: gas from priming, vol", "F: gas still to come, vol"},
		Valid:   kindABV.Valid, Source: annexXIV + "; stoichiometry and Balling's proportions", Checked: "the alcohol of 3 g/L of sucrose by its molar mass",
	}
	kindCarbohydrate = &Kind{
		ID: IDCarbohydrate, Label: "Carbohydrate", Unit: "g per 100 mL", Decimals: 1,
		Says:    "Real extract less ash and protein. Priming sugar ferments away and leaves none. Without a laboratory it is good to a tenth.",
		Formula: "{K} = 0.9982 × {FG} × ({RE} − 0.1) × (1 − 0.07)",
		Symbols: []string{"K: carbohydrate, g in 100 mL", "FG: final gravity", "RE: real extract, °P"},
		Valid:   kindABV.Valid, Source: annexXIV, Checked: "two gyles worked by hand",
	}
	energyKinds = []*Kind{kindABW, kindEnergy, kindEnergyConditioned, kindCarbohydrate}
)

// How far the label's formulas lie from real beers, as standard uncertainties,
// shares of the value: energy within 5 %, carbohydrate without a laboratory a
// tenth (common practice, no source).
const (
	energyScatter       = 0.025
	carbohydrateScatter = 0.05
)

// energies are what a label states beside the strength.
func energies(b *bench) {
	if b.Stage < Working {
		return
	}
	og, fg, abv, share := b.fermentedOG(), b.fg(), b.abv(), b.shareRead()
	extract := from2(b, brewing.RealExtract, og, fg)
	weight := from2(b, brewing.ByWeight, abv, fg) // so that the two share one method's scatter
	b.labelled(add(b, kindABW, "", weight, sym("W", weight, "%"), sym("A", abv, "%"), sym("FG", fg, "")))
	for _, row := range []struct {
		of    string
		a, c  string
		beer  func(og, fg q.Gravity) (q.Number, error)
		added func(priming, toCome q.Carbonation) (q.Number, error)
	}{
		{"kJ", "29", "17", brewing.EnergyKilojoules, brewing.ConditioningKilojoules},
		{"kcal", "7", "4", brewing.EnergyKilocalories, brewing.ConditioningKilocalories},
	} {
		energy := b.likeBeers(from3(b, thinned(row.beer), og, fg, share), energyScatter, "the energy formula", "real beers lie within about 5 % of it (common practice, no source)")
		b.labelled(add(b, kindEnergy, row.of, energy, sym("E", energy, row.of), sym("FG", fg, ""), inWords("a", row.a), inWords("c", row.c), sym("W", weight, ""), sym("RE", extract, "")))
		priming, toCome := b.usualPriming().co2, b.stillToCome()
		drunk := sum(b, energy, from2(b, row.added, priming, toCome))
		b.labelled(add(b, kindEnergyConditioned, row.of, drunk, sym("C", drunk, row.of), sym("E", energy, ""), inWords("a", row.a), inWords("c", row.c), sym("P", priming, ""), sym("F", toCome, "")))
	}
	grams := times[q.Number](b, from3(b, thinned(brewing.Carbohydrate), og, fg, share), 1e-4)
	grams = b.likeBeers(grams, carbohydrateScatter, "the carbohydrate formula", "without a laboratory it is good to a tenth (common practice, no source)")
	b.labelled(add(b, kindCarbohydrate, "", grams, sym("K", grams, "g"), sym("FG", fg, ""), sym("RE", extract, "")))
}

// shareRead is the part of the beer that was in it at its last gravity; the rest is
// liquor.
func (b *bench) shareRead() Estimate[q.Number] {
	read := b.beerRead()
	whole := read
	for _, a := range b.thinningSince() {
		whole = sum(b, whole, a.liquid)
	}
	if whole.Value == read.Value {
		return exactly(q.Number(1))
	}
	return from2(b, func(read, whole q.Volume) (q.Number, error) { return q.Number(read / whole), nil }, read, whole)
}

// thinned is what a formula gives for the beer that was read, of which liquor has left a
// share.
func thinned[Q ~float64](f func(og, fg q.Gravity) (Q, error)) func(og, fg q.Gravity, share q.Number) (Q, error) {
	return func(og, fg q.Gravity, share q.Number) (Q, error) {
		all, err := f(og, fg)
		return all * Q(share), err
	}
}

// labelled says of a figure that a later reading may still change it.
func (b *bench) labelled(f *Figure) {
	if f != nil {
		f.Provisional = !b.standing().AtLeast()
	}
}

// likeBeers adds the scatter of a formula about real beers, a share of the value.
func (b *bench) likeBeers(e Estimate[q.Number], share float64, what, reason string) Estimate[q.Number] {
	if !e.known {
		return e
	}
	return scattered(b, e, float64(e.Value)*share, "", what, reason)
}

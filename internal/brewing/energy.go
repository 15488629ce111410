package brewing

import q "gylebook/internal/quantity"

// Energy from a gram, as food labels reckon it; protein counts as carbohydrate
// does.
//
// Source: Regulation (EU) 1169/2011, Annex XIV.
const (
	alcoholKilojoules, carbohydrateKilojoules     = 29, 17
	alcoholKilocalories, carbohydrateKilocalories = 7, 4
)

// What of real extract is not carbohydrate: ash, 0.1 % by weight of the beer (G.
// Fix, 1992), which has no energy, and protein, 0.07 of the extract (from memory;
// common practice, no source).
const (
	beerAsh      = 0.1
	proteinShare = 0.07
)

// made is what is in a beer, in g per 100 mL.
type made struct{ alcohol, extract float64 }

// madeOf weighs a beer's alcohol and its extract less the ash.
func madeOf(og, fg q.Gravity) (made, error) {
	alcohol, err := AlcoholByWeight(og, fg)
	if err != nil {
		return made{}, err
	}
	extract, err := RealExtract(og, fg)
	gramsPerMillilitre := fg.SG() * waterDensity20 / 1000
	return made{float64(alcohol) * gramsPerMillilitre, max(0, extract-beerAsh) * gramsPerMillilitre}, err
}

// Carbohydrate is what of a beer's real extract is neither ash nor protein, in
// mg/L (10 000 are 1 g in 100 mL). Alcohol is not carbohydrate. Range as
// AlcoholByWeight; without a laboratory it is good to a tenth.
//
// Source: real extract by Balling; ash as G. Fix (1992) has it; protein common
// practice, no source.
func Carbohydrate(og, fg q.Gravity) (q.Concentration, error) {
	m, err := madeOf(og, fg)
	const perLitre = 10000
	protein := proteinShare * m.extract
	return ifGood(q.Concentration((m.extract-protein)*perLitre), err)
}

// EnergyKilojoules is the energy in 100 mL of beer, in kJ: alcohol at 29 kJ/g and
// real extract less its ash at 17. Since protein counts as carbohydrate does, how
// much of the extract is protein does not matter; the organic acids (13 kJ/g) and
// glycerol (10) among it are a few kJ at most and are counted as the rest. The
// alcohol of priming is not in it. Range as AlcoholByWeight; real beers lie within
// about 5 %.
//
// Source: Regulation (EU) 1169/2011, Annex XIV.
func EnergyKilojoules(og, fg q.Gravity) (q.Number, error) {
	m, err := madeOf(og, fg)
	return ifGood(q.Number(alcoholKilojoules*m.alcohol+carbohydrateKilojoules*m.extract), err)
}

// EnergyKilocalories is the same in kcal, with the Annex's own factors of 7 and 4
// and not by dividing: labels print both, and they are 1 % apart. ASBC's 6.9 for
// alcohol gives 1 % less in an ordinary beer; it is not taken, since labels are by
// the Annex.
//
// Source: Regulation (EU) 1169/2011, Annex XIV.
func EnergyKilocalories(og, fg q.Gravity) (q.Number, error) {
	m, err := madeOf(og, fg)
	return ifGood(q.Number(alcoholKilocalories*m.alcohol+carbohydrateKilocalories*m.extract), err)
}

// extractPerCO2 is the grams of extract fermented for a gram of carbon dioxide,
// by Balling's proportions.
const extractPerCO2 = 2.0665 / 0.9565

// conditioning is what a container adds to 100 mL of beer: the alcohol of the gas
// that its sugar gives and of the gas still to come, less the extract that the
// latter is made from.
func conditioning(priming, toCome q.Carbonation) (made, error) {
	const name = "energy from conditioning"
	if err := firstOf(within(name, "the gas from priming", priming, 0, 10, "vol"), within(name, "the gas to come", toCome, 0, 30, "vol")); err != nil {
		return made{}, err
	}
	alcohol := (priming + toCome).GramsPerLitre() / 10 * ethanolMolarMass / co2MolarMass
	return made{alcohol: alcohol, extract: -toCome.GramsPerLitre() / 10 * extractPerCO2}, nil
}

// ConditioningKilojoules is the energy, in kJ, that conditioning adds to 100 mL of
// beer: the alcohol that goes with so much gas from priming sugar, all of which
// ferments, and with the gas still to come from the beer's own extract, less that
// extract. Range 0 to 10 vol from priming, 0 to 30 to come.
//
// Source: stoichiometry and Balling's proportions; Regulation (EU) 1169/2011,
// Annex XIV.
func ConditioningKilojoules(priming, toCome q.Carbonation) (q.Number, error) {
	m, err := conditioning(priming, toCome)
	return ifGood(q.Number(alcoholKilojoules*m.alcohol+carbohydrateKilojoules*m.extract), err)
}

// ConditioningKilocalories is the same in kcal.
//
// Source: as ConditioningKilojoules.
func ConditioningKilocalories(priming, toCome q.Carbonation) (q.Number, error) {
	m, err := conditioning(priming, toCome)
	return ifGood(q.Number(alcoholKilocalories*m.alcohol+carbohydrateKilocalories*m.extract), err)
}

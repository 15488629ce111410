package brewing

import (
	"math"

	q "gylebook/internal/quantity"
)

// Acid is an acid with which brewers take off alkalinity.
type Acid int

// The acids.
const (
	LacticAcid Acid = iota
	PhosphoricAcid
	HydrochloricAcid
	SulphuricAcid
	CitricAcid
)

// strongAcid stands for the acidity constant of a step that is complete in any
// liquor.
const strongAcid = -3

// acids are by Acid: molar mass in g/mol (IUPAC 2021 atomic masses) and the pKa of
// each proton that it can give.
//
// Source of the pKa: handbook values at 25 °C and no ionic strength (CRC Handbook
// of Chemistry and Physics; from memory).
var acids = [...]struct {
	molarMass float64
	protons   int
	pKa       [3]float64
}{
	LacticAcid:       {90.078, 1, [3]float64{3.86}},
	PhosphoricAcid:   {97.994, 3, [3]float64{2.16, 7.21, 12.32}},
	HydrochloricAcid: {36.458, 1, [3]float64{strongAcid}},
	SulphuricAcid:    {98.072, 2, [3]float64{strongAcid, 1.99}},
	CitricAcid:       {192.123, 3, [3]float64{3.13, 4.76, 6.40}},
}

// protonsGiven is how many protons a molecule of the acid has given at a pH, on
// average.
func protonsGiven(a Acid, at q.Acidity) float64 {
	weight, sum, mean := 1.0, 1.0, 0.0
	for step := range acids[a].protons {
		weight *= math.Pow(10, float64(at)-acids[a].pKa[step])
		sum += weight
		mean += weight * float64(step+1)
	}
	return mean / sum
}

// AcidStrength is what a millilitre of an acid, of a strength by weight and a
// specific gravity as the bottle has them, neutralises down to a pH, in mEq. A
// mash ends at 5.2 to 5.6: there lactic acid has given 97 % of its proton,
// phosphoric one of its three, citric 1.9. Range: 0 to 100 %, 0.9 to
// 2, pH 3 to 8.
//
// Source: acid-base equilibrium with the constants at acids.
func AcidStrength(a Acid, strength q.Percent, density q.Gravity, at q.Acidity) (q.Number, error) {
	const name = "an acid's strength"
	err := firstOf(
		within(name, "the acid", float64(a), 0, float64(len(acids)-1), ""), within(name, "the strength", strength, 0, 100, "%"),
		within(name, "the specific gravity", density, 0.9, 2, gravitySG), within(name, "the pH", at, 3, 8, ""),
	)
	if err != nil {
		return 0, err
	}
	milligrams := density.SG() * waterDensity20 * strength.Fraction()
	return q.Number(milligrams / acids[a].molarMass * protonsGiven(a, at)), nil
}

// AlkalinityNeutralised is the alkalinity, in mg/L as calcium carbonate, that a
// volume of acid of so many mEq/mL takes off liquor. Range 0 to 50 mEq/mL. It is
// counted in full, though a tenth of the bicarbonate is still there at pH 5.4.
//
// Source: equivalents; an mEq/L is 50.04 mg/L of calcium carbonate.
func AlkalinityNeutralised(acid q.Volume, perMillilitre q.Number, liquor q.Volume) (q.Concentration, error) {
	const name = "alkalinity neutralised"
	err := firstOf(none(name, "the acid", acid, "L"), within(name, "the acid's strength", perMillilitre, 0, 50, "mEq/mL"), some(name, "the liquor", liquor, "L"))
	if err != nil {
		return 0, err
	}
	return q.Concentration(acid.Litres() * 1000 * float64(perMillilitre) / liquor.Litres() * chalkEquivalent), nil
}

// AcidFor is the acid that takes so much alkalinity off liquor: the inverse of
// AlkalinityNeutralised. Range 0 to 100 000 mg/L, 0.01 to 50 mEq/mL.
func AcidFor(alkalinity q.Concentration, perMillilitre q.Number, liquor q.Volume) (q.Volume, error) {
	const name = "acid needed"
	err := firstOf(within(name, "the alkalinity", alkalinity, 0, brine, "mg/L"), within(name, "the acid's strength", perMillilitre, 0.01, 50, "mEq/mL"), none(name, "the liquor", liquor, "L"))
	if err != nil {
		return 0, err
	}
	return q.Volume(float64(alkalinity) / chalkEquivalent * liquor.Litres() / float64(perMillilitre) / 1000), nil
}

// acidDensities are by Acid: specific gravities at strengths in % by weight, in
// order; between two of them the line is straight.
//
// Source: handbook tables at 20 °C, lactic acid's two as bottles state them (all
// from memory, to ± 0.01).
var acidDensities = [...][]struct{ strength, gravity float64 }{
	LacticAcid:       {{0, 1}, {50, 1.12}, {80, 1.19}, {90, 1.21}, {100, 1.225}},
	PhosphoricAcid:   {{0, 1}, {10, 1.053}, {30, 1.181}, {50, 1.335}, {75, 1.579}, {85, 1.689}, {100, 1.87}},
	HydrochloricAcid: {{0, 1}, {10, 1.048}, {20, 1.098}, {30, 1.149}, {38, 1.189}},
	SulphuricAcid:    {{0, 1}, {10, 1.066}, {30, 1.219}, {50, 1.395}, {70, 1.611}, {90, 1.814}, {98, 1.836}, {100, 1.831}},
	CitricAcid:       {{0, 1}, {10, 1.039}, {30, 1.124}, {50, 1.222}, {60, 1.275}},
}

// AcidDensity is the specific gravity of an acid of a strength by weight, where
// its bottle does not say. Range: from 0 % to as strong as it is sold, 38 % for
// hydrochloric, 60 % for citric and 100 % for the others.
//
// Source: as at acidDensities.
func AcidDensity(a Acid, strength q.Percent) (q.Gravity, error) {
	const name = "an acid's density"
	if err := within(name, "the acid", float64(a), 0, float64(len(acids)-1), ""); err != nil {
		return 0, err
	}
	points := acidDensities[a]
	if err := within(name, "the strength", strength, 0, points[len(points)-1].strength, "%"); err != nil {
		return 0, err
	}
	i := 1
	for float64(strength) > points[i].strength {
		i++
	}
	low, high := points[i-1], points[i]
	along := (float64(strength) - low.strength) / (high.strength - low.strength)
	return q.SG(low.gravity + along*(high.gravity-low.gravity)), nil
}

// What an acid leaves of itself in the liquor, where that is one of the ions of a
// water report: the share by weight of the pure acid.
const (
	HydrochloricChloride q.Percent = 100 * chlorideMolarMass / 36.458
	SulphuricSulphate    q.Percent = 100 * sulphateMolarMass / 98.072
)

// PureAcid is the weight of the acid itself in a volume of a strength by weight
// and a specific gravity. Range 0 to 100 %, 0.9 to 2.
//
// Source: definition.
func PureAcid(v q.Volume, strength q.Percent, density q.Gravity) (q.Mass, error) {
	const name = "the acid in a bottle"
	err := firstOf(none(name, "the acid", v, "L"), within(name, "the strength", strength, 0, 100, "%"), within(name, "the specific gravity", density, 0.9, 2, gravitySG))
	if err != nil {
		return 0, err
	}
	return q.Mass(v.Litres() * density.SG() * waterDensity20 * strength.Fraction()), nil
}

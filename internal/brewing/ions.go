package brewing

import q "gylebook/internal/quantity"

// Molar masses in g/mol of what is dissolved in liquor (IUPAC 2021 abridged atomic
// masses).
const (
	calciumMolarMass     = 40.078
	magnesiumMolarMass   = 24.305
	sodiumMolarMass      = 22.990
	chlorideMolarMass    = 35.45
	sulphateMolarMass    = 96.056
	bicarbonateMolarMass = 61.016
	chalkMolarMass       = 100.086
)

// chalkEquivalent is the mg/L of calcium carbonate in 1 mEq/L.
const chalkEquivalent = chalkMolarMass / 2

// brine is the strongest water that these sums take, in mg/L.
const brine = 100000

// Ions are the six ions of a brewing water report. Potassium and nitrate, a few
// mg/L in most waters, are not among them.
type Ions struct {
	Calcium, Magnesium, Sodium, Chloride, Sulphate, Bicarbonate q.Concentration
}

// IonFromSalt is what one ion gains when a salt is dissolved in liquor, for the
// ion's share of the salt by weight. Range 0 to 200 %: lime and chalk give more
// bicarbonate than they weigh, with carbon dioxide from the air. Chalk dissolves
// poorly, so much less may arrive.
//
// Source: definition; shares from molar masses.
func IonFromSalt(salt q.Mass, share q.Percent, v q.Volume) (q.Concentration, error) {
	const name = "ions from a salt"
	err := firstOf(none(name, "the salt", salt, "g"), within(name, "the ion's share", share, 0, 200, "%"), some(name, "the liquor", v, "L"))
	if err != nil {
		return 0, err
	}
	return q.Concentration(salt.Grams() * 1000 * share.Fraction() / v.Litres()), nil
}

// AlkalinityOf is the alkalinity, in mg/L as calcium carbonate, of so much
// bicarbonate: 0.820 of it, there being hardly any carbonate below pH 8.5. Range 0
// to 100 000 mg/L.
//
// Source: atomic masses.
func AlkalinityOf(bicarbonate q.Concentration) (q.Concentration, error) {
	if err := within("alkalinity", "the bicarbonate", bicarbonate, 0, brine, "mg/L"); err != nil {
		return 0, err
	}
	return bicarbonate * (chalkEquivalent / bicarbonateMolarMass), nil
}

// BicarbonateOf is the bicarbonate of so much alkalinity: the inverse of
// AlkalinityOf.
func BicarbonateOf(alkalinity q.Concentration) (q.Concentration, error) {
	if err := within("bicarbonate", "the alkalinity", alkalinity, 0, brine, "mg/L"); err != nil {
		return 0, err
	}
	return alkalinity * (bicarbonateMolarMass / chalkEquivalent), nil
}

// ResidualAlkalinity is what of the alkalinity calcium and magnesium leave, all
// in mg/L as calcium carbonate but the two metals, which are as themselves: an
// equivalent of calcium takes up 1/3.5 of one of alkalinity, of magnesium 1/7. It
// may be below nothing, and so may the alkalinity where there is more acid than it
// takes up. Range −100 000 to 100 000 mg/L of alkalinity, 0 to 100 000 of the
// metals. Kolbach's shift of pH was of wort at knock-out, not of the mash (K.
// Troester, 2009), so that this compares waters and does not foretell a mash's
// pH.
//
// J. Palmer, How to Brew, prints the divisors 1.4 and 1.7 for mg/L of the metals;
// 1.4015 and 1.6999 follow from the atomic masses and are used.
//
// Source: P. Kolbach, Monatsschr. Brauerei 6(5) (1953) 49 (divisors from memory,
// confirmed by a worked example).
func ResidualAlkalinity(alkalinity, calcium, magnesium q.Concentration) (q.Concentration, error) {
	const name = "residual alkalinity"
	err := firstOf(
		within(name, "the alkalinity", alkalinity, -brine, brine, "mg/L"), within(name, "the calcium", calcium, 0, brine, "mg/L"),
		within(name, "the magnesium", magnesium, 0, brine, "mg/L"),
	)
	if err != nil {
		return 0, err
	}
	return alkalinity - calcium*(chalkMolarMass/calciumMolarMass/3.5) - magnesium*(chalkMolarMass/magnesiumMolarMass/7), nil
}

// SulphateToChloride is the ratio of the two by weight: a habit of the trade for
// how dry or full a water makes beer (common practice, no source). Range: sulphate
// 0 to 100 000 mg/L, chloride 0.1 to 100 000; there is no ratio to no chloride.
//
// Source: definition.
func SulphateToChloride(sulphate, chloride q.Concentration) (q.Number, error) {
	const name = "sulphate to chloride"
	err := firstOf(within(name, "the sulphate", sulphate, 0, brine, "mg/L"), within(name, "the chloride", chloride, 0.1, brine, "mg/L"))
	if err != nil {
		return 0, err
	}
	return q.Number(sulphate / chloride), nil
}

// IonBalance is what the metals' charge exceeds the others' by, in mEq/L: nothing
// in a true water. More than 0.5 either way (common practice, no source) says that
// a report is a mean of several days, in other units, or lacks an ion. Range 0 to
// 100 000 mg/L each.
//
// Source: electroneutrality; atomic masses.
func IonBalance(w Ions) (q.Number, error) {
	const name = "the balance of ions"
	err := firstOf(
		within(name, "the calcium", w.Calcium, 0, brine, "mg/L"), within(name, "the magnesium", w.Magnesium, 0, brine, "mg/L"),
		within(name, "the sodium", w.Sodium, 0, brine, "mg/L"), within(name, "the chloride", w.Chloride, 0, brine, "mg/L"),
		within(name, "the sulphate", w.Sulphate, 0, brine, "mg/L"), within(name, "the bicarbonate", w.Bicarbonate, 0, brine, "mg/L"),
	)
	if err != nil {
		return 0, err
	}
	metals := w.Calcium*2/calciumMolarMass + w.Magnesium*2/magnesiumMolarMass + w.Sodium/sodiumMolarMass
	others := w.Chloride/chlorideMolarMass + w.Sulphate*2/sulphateMolarMass + w.Bicarbonate/bicarbonateMolarMass
	return q.Number(metals - others), nil
}

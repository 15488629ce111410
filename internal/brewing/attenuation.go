package brewing

import q "gylebook/internal/quantity"

// wortNotWater checks that there is extract to attenuate: below 1 °P a share of
// it means nothing.
func wortNotWater(og q.Gravity) error {
	return within("attenuation", "the original gravity", og, 1.0039, 1.150, gravitySG)
}

// ApparentAttenuation is the share of the extract that seems gone, in %, by
// Plato: 100 (P₀ − P) ÷ P₀. By points it is up to 1.5 % higher in strong beer.
// Range: original gravity 1.004 to 1.150, gravity 0.985 to 1.150.
//
// Source: ASBC Beer-6, as quoted by A. Speers, Brewing Calculations (2015).
func ApparentAttenuation(og, fg q.Gravity) (q.Percent, error) {
	if err := firstOf(wortNotWater(og), within("attenuation", "the gravity", fg, 0.985, 1.150, gravitySG)); err != nil {
		return 0, err
	}
	return q.Percent(100 * (og.Plato() - fg.Plato()) / og.Plato()), nil
}

// RealAttenuation is the share of the extract that is really gone, in %, by
// Plato: 100 (P₀ − E) ÷ P₀ with Balling's real extract E. Range: original
// gravity 1.004 to 1.130, gravity 0.985 to 1.130.
//
// ASBC Beer-6 divides this by 1 − 0.005161 E, which reckons in the extract that
// left with the gas and the yeast, and gives a degree of fermentation of 62.7
// for 61.4 at 1.042 to 1.010. The plain form is taken since it
// stands beside the apparent one with the same divisor.
//
// Source: Balling's proportions as in J. De Clerck, A Textbook of Brewing; the
// other form as quoted by A. Speers, Brewing Calculations (2015).
func RealAttenuation(og, fg q.Gravity) (q.Percent, error) {
	if err := wortNotWater(og); err != nil {
		return 0, err
	}
	extract, err := RealExtract(og, fg)
	if err != nil {
		return 0, err
	}
	return q.Percent(100 * (og.Plato() - extract) / og.Plato()), nil
}

// FinalGravityFromAttenuation is the gravity that a wort comes to at an apparent
// attenuation by Plato: the inverse of ApparentAttenuation. Range: original
// gravity 1.004 to 1.150, attenuation 0 to 110 %; a beer of alcohol and no
// extract is apparently attenuated by more than 100 %.
func FinalGravityFromAttenuation(og q.Gravity, apparent q.Percent) (q.Gravity, error) {
	if err := firstOf(wortNotWater(og), within("the gravity to come", "the attenuation", apparent, 0, 110, "%")); err != nil {
		return 0, err
	}
	return q.Plato(og.Plato() * (1 - apparent.Fraction())), nil
}

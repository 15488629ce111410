package brewing

import q "gylebook/internal/quantity"

// wortNotWater checks that there is extract to attenuate: below 1 °P a share of
// it means nothing.
func wortNotWater(og q.Gravity) error {
	return within("attenuation", "original gravity", og, 1.0039, 1.150, "")
}

// ApparentAttenuation is the share of the extract that seems gone, in %, by
// Plato: 100 (P₀ − P) ÷ P₀. By points it is up to 1.5 % higher in strong beer.
// Range: original gravity 1.004 to 1.150.
//
// Source: ASBC Beer-6, as quoted by A. Speers, Brewing Calculations (2015).
func ApparentAttenuation(og, fg q.Gravity) (q.Percent, error) {
	if err := firstOf(wortNotWater(og), within("attenuation", "gravity", fg, 0.985, 1.150, "")); err != nil {
		return 0, err
	}
	return q.Percent(100 * (og.Plato() - fg.Plato()) / og.Plato()), nil
}

// RealAttenuation is the share of the extract that is really gone, in %, by
// Plato: 100 (P₀ − E) ÷ P₀ with Balling's real extract E. Range: original
// gravity 1.004 to 1.130.
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
// gravity 1.004 to 1.150, attenuation 0 to 110 %.
func FinalGravityFromAttenuation(og q.Gravity, apparent q.Percent) (q.Gravity, error) {
	if err := firstOf(wortNotWater(og), within("attenuation", "attenuation", apparent, 0, 110, "%")); err != nil {
		return 0, err
	}
	return q.Plato(og.Plato() * (1 - apparent.Fraction())), nil
}

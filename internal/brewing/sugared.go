package brewing

import q "gylebook/internal/quantity"

// FinalGravityWithSugar is the gravity that is left where an apparent attenuation
// holds for the malt's part of the extract, and a share of it is plain sugar, of
// which nothing is left: its alcohol makes the beer lighter than water by Balling's
// q for each degree of it. Range: original gravity 1.000 to 1.150, attenuation −10
// to 120 %, below nothing and above 110 only for the doubt of what a card says, share
// 0 to 1.
//
// Source: definition of apparent attenuation (ASBC Beer-6); real extract nought in
// (q P₀ + P) ÷ (1 + q) for the sugar's part.
func FinalGravityWithSugar(og q.Gravity, malts q.Percent, share q.Number) (q.Gravity, error) {
	const name = "the gravity left"
	err := firstOf(within(name, "the original gravity", og, 1, 1.150, gravitySG),
		within(name, "the attenuation", malts, -10, 120, "%"), within(name, "the share of sugar", share, 0, 1, ""))
	if err != nil {
		return 0, err
	}
	p := og.Plato()
	sugar := p * float64(share)
	left := (p-sugar)*(1-malts.Fraction()) - attenuationQuotient(p)*sugar
	return q.Plato(left), nil
}

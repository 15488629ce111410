package brewing

import q "gylebook/internal/quantity"

// WortFactor is a refractometer's reading of wort over its true extract: wort
// holds other things than sucrose. 1.02 ± 0.02 covers what brewers find (common
// practice, no source).
const WortFactor q.Number = 1.02

// RefractometerScatter is the standard uncertainty, in SG, of a gravity worked
// out from Brix and the original gravity. Published comparisons speak of two to
// three points either way.
const RefractometerScatter q.Gravity = 0.0015

// ethanolAsBrix is what a refractometer shows for 1 % by weight of ethanol, in
// °Bx: the refractive index rises by 0.0006 for it and by 0.00146 for 1 % of
// sucrose (handbook tables, from memory), which makes 0.41. A published study of
// beers at 1.010 from 1.042 shows 5.3 °Bx, which asks for 0.40, or 0.36 with a
// WortFactor of 1.02. The choice moves the gravity by 0.0006 at most there.
const ethanolAsBrix = 0.40

// WortGravityByRefractometer is the gravity of unfermented wort from its Brix.
// Range: 0 to 35 °Bx, factor 0.9 to 1.1.
//
// Source: definition of Brix; the factor is common practice, no source.
func WortGravityByRefractometer(reading q.Brix, factor float64) (q.Gravity, error) {
	const name = "a refractometer's reading of wort"
	if err := firstOf(within(name, "the Brix", reading, 0, 35, "°Bx"), within(name, "the wort factor", factor, 0.9, 1.1, "")); err != nil {
		return 0, err
	}
	return q.Plato(float64(reading) / factor), nil
}

// GravityByRefractometer is the gravity of beer from its original gravity and
// the Brix it shows: what it shows is real extract and alcohol, which Balling's
// proportions tie together. It is good to RefractometerScatter at best. Range:
// original gravity 1.010 to 1.130; the Brix not more than a tenth and one degree
// above the wort's, and such that the answer is 0.985 to 1.140; factor 0.9 to 1.1.
//
// Source: Balling's proportions; the share of alcohol as at ethanolAsBrix.
func GravityByRefractometer(og q.Gravity, reading q.Brix, factor float64) (q.Gravity, error) {
	const name = "a refractometer's reading of beer"
	err := firstOf(
		within(name, "the original gravity", og, 1.010, 1.130, gravitySG),
		within(name, "the Brix", reading, 0, og.Plato()*1.1+1, "°Bx"),
		within(name, "the wort factor", factor, 0.9, 1.1, ""),
	)
	if err != nil {
		return 0, err
	}
	p0, shown := og.Plato(), float64(reading)/factor
	perExtract := extractPerAlcohol(p0)
	extract := (shown - ethanolAsBrix*p0/perExtract) / (1 - ethanolAsBrix/perExtract)
	quotient := attenuationQuotient(p0)
	g := q.Plato(extract*(1+quotient) - quotient*p0)
	return ifGood(g, within(name, "the gravity that it gives", g, 0.985, 1.140, gravitySG))
}

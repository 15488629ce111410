package brewing

import q "gylebook/internal/quantity"

// glassExpansion is the cubic expansion of a hydrometer's glass per °C (soda
// glass, from memory: 25e-6). It takes 0.0005 off a correction at 40 °C.
const glassExpansion = 25e-6

// HydrometerCorrected is the gravity at 20/20 °C of a sample read at another
// heat than the hydrometer is marked for: the wort is taken to expand like
// water, and the glass as glass. Range: sample 0 to 60 °C, calibration 0 to
// 40 °C, reading 0.900 to 1.200.
//
// Source: density of water after Kell (1975); the same ratio of densities is
// behind published tables, which leave the glass out.
func HydrometerCorrected(reading q.Gravity, sample, calibrated q.Temperature) (q.Gravity, error) {
	const name = "a hydrometer's correction"
	err := firstOf(
		within(name, "a sample's heat", sample, 0, 60, "°C"),
		within(name, "the calibration", calibrated, 0, 40, "°C"),
		within(name, "a reading", reading, 0.900, 1.200, ""),
	)
	if err != nil {
		return 0, err
	}
	ratio := waterDensity(calibrated) / waterDensity(sample)
	return reading * q.Gravity(ratio/(1+glassExpansion*float64(sample-calibrated))), nil
}

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
// beers at 1.010 from 1.042 shows 5.3 °Bx, which asks for 0.38; 0.40 is between.
const ethanolAsBrix = 0.40

// WortGravityByRefractometer is the gravity of unfermented wort from its Brix.
// Range: 0 to 35 °Bx, factor 0.9 to 1.1.
func WortGravityByRefractometer(reading q.Brix, factor float64) (q.Gravity, error) {
	const name = "a refractometer's reading of wort"
	if err := firstOf(within(name, "Brix", reading, 0, 35, "°Bx"), within(name, "the wort factor", factor, 0.9, 1.1, "")); err != nil {
		return 0, err
	}
	return q.Plato(float64(reading) / factor), nil
}

// GravityByRefractometer is the gravity of beer from its original gravity and
// the Brix it shows: what it shows is real extract and alcohol, which Balling's
// proportions tie together. It is good to RefractometerScatter at best. Range:
// original gravity 1.010 to 1.130, 0 to 30 °Bx and not above the wort's.
func GravityByRefractometer(og q.Gravity, reading q.Brix) (q.Gravity, error) {
	const name = "a refractometer's reading of beer"
	err := firstOf(
		within(name, "original gravity", og, 1.010, 1.130, ""),
		within(name, "Brix", reading, 0, og.Plato()*1.1+1, "°Bx"),
	)
	if err != nil {
		return 0, err
	}
	p0, shown := og.Plato(), float64(reading)/float64(WortFactor)
	perExtract := 2.0665 - 0.010665*p0 // grams of extract for a gram of alcohol
	extract := (shown - ethanolAsBrix*p0/perExtract) / (1 - ethanolAsBrix/perExtract)
	quotient := attenuationQuotient(p0)
	return q.Plato(extract*(1+quotient) - quotient*p0), nil
}

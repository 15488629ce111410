package brewing

import (
	"math"

	q "gylebook/internal/quantity"
)

// BoilOff is the litres that a copper loses in an hour, both volumes at 20 °C.
// Range: 1 min to 12 h.
func BoilOff(before, after q.Volume, boiled q.Duration) (q.Number, error) {
	const name = "boil-off"
	err := firstOf(none(name, "the volume before", before, "L"), none(name, "the volume after", after, "L"), within(name, "the boil", boiled, 1, 720, "min"))
	if err != nil {
		return 0, err
	}
	return q.Number((before - after).Litres() / boiled.Hours()), nil
}

// UtilisationTinseth is the share of the alpha acids that a boil of so long in
// wort of this gravity turns into bitterness: 1.65 × 0.000125^(G−1) × (1 −
// e^(−0.04 t)) ÷ 4.15. Range: 0 to 240 min, gravity 0.990 to 1.150.
//
// Source: G. Tinseth (1997), printed as table 7 in J. Palmer, How to Brew, ch. 5.
func UtilisationTinseth(boiled q.Duration, g q.Gravity) (float64, error) {
	const name = "Tinseth's utilisation"
	if err := firstOf(within(name, "the boil", boiled, 0, 240, "min"), within(name, "gravity", g, 0.990, 1.150, "")); err != nil {
		return 0, err
	}
	return 1.65 * math.Pow(0.000125, g.SG()-1) * (1 - math.Exp(-0.04*boiled.Minutes())) / 4.15, nil
}

// BitternessTinseth is the bitterness from one boiled addition. Range as
// UtilisationTinseth, alpha 0 to 30 %.
func BitternessTinseth(m q.Mass, alpha q.Percent, boiled q.Duration, g q.Gravity, v q.Volume) (q.Bitterness, error) {
	const name = "bitterness"
	err := firstOf(none(name, "hops", m, "g"), within(name, "alpha", alpha, 0, 30, "%"), some(name, "volume", v, "L"))
	if err != nil {
		return 0, err
	}
	utilisation, err := UtilisationTinseth(boiled, g)
	if err != nil {
		return 0, err
	}
	return q.Bitterness(utilisation * alpha.Fraction() * m.Grams() * 1000 / v.Litres()), nil
}

// isomerisation is the rate, per minute, at which alpha acids turn into iso-alpha
// acids in wort: 7.9e11 × e^(−11858 ÷ T).
//
// Source: M. G. Malowicki and T. H. Shellhammer, J. Agric. Food Chem. 53 (2005)
// 4434 (constants from memory).
func isomerisation(t q.Temperature) float64 { return 7.9e11 * math.Exp(-11858/t.Kelvin()) }

// BitternessSteeped is the bitterness from an addition to hot wort off the boil:
// a minute at its heat counts for as much of a boiled minute as the rates of
// isomerisation stand to each other (a sixth at 80 °C), so that at the boil it
// is Tinseth's. Range: 0 to 105 °C, 0 to 240 min.
func BitternessSteeped(m q.Mass, alpha q.Percent, steeped q.Duration, heat q.Temperature, g q.Gravity, v q.Volume) (q.Bitterness, error) {
	const name = "steeping"
	if err := firstOf(within(name, "heat", heat, 0, 105, "°C"), within(name, "time", steeped, 0, 240, "min")); err != nil {
		return 0, err
	}
	asBoiled := steeped * q.Duration(isomerisation(heat)/isomerisation(100))
	return BitternessTinseth(m, alpha, min(asBoiled, 240), g, v)
}

// ColourUnits is the malt colour units that one line of the grist brings: lb
// times °L over US gallons, with °L = EBC ÷ 1.97.
func ColourUnits(m q.Mass, c q.Colour, v q.Volume) (q.Number, error) {
	const name = "malt colour"
	err := firstOf(none(name, "weight", m, "g"), within(name, "colour", c, 0, 5000, "EBC"), some(name, "volume", v, "L"))
	if err != nil {
		return 0, err
	}
	pounds, gallons := float64(m/q.Pound), float64(v/q.USGallon)
	return q.Number(pounds * c.SRM() / gallons), nil
}

// ColourMorey is a beer's colour from its malt colour units: SRM = 1.4922 ×
// MCU^0.6859. Range: to 250 MCU, where it gives 66 SRM; real beers lie within
// about 15 % of it.
//
// Source: D. Morey, Approximating SRM beer color of homemade beer, Brewing
// Techniques (coefficients from memory; a misprinted exponent 0.65896859 is in
// circulation).
func ColourMorey(mcu q.Number) (q.Colour, error) {
	if err := within("Morey's colour", "malt colour", mcu, 0, 250, "lb °L/US gal"); err != nil {
		return 0, err
	}
	return q.Colour(1.4922*math.Pow(float64(mcu), 0.6859)) * q.SRM, nil
}

package brewing

import (
	"math"

	q "gylebook/internal/quantity"
)

// ColourUnits is the malt colour units that one line of the grist brings: lb
// times °L over US gallons, with °L = EBC ÷ 1.97. Range 0 to 5000 EBC.
//
// Source: definition of the unit, as in J. Palmer, How to Brew.
func ColourUnits(m q.Mass, c q.Colour, v q.Volume) (q.Number, error) {
	const name = "malt colour"
	err := firstOf(none(name, "the weight", m, "g"), within(name, "the colour", c, 0, 5000, "EBC"), some(name, "the volume", v, "L"))
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
// R. Mosher's 0.3 MCU + 4.7 and R. Daniels's 0.2 MCU + 8.4 are straight lines
// through the middle of the same beers (from memory): at 25 MCU all three are
// within 1.4 SRM, below 10 the lines colour water.
//
// Source: D. Morey, Approximating SRM beer color of homemade beer, Brewing
// Techniques (coefficients from memory; a misprinted exponent 0.65896859 is in
// circulation).
func ColourMorey(mcu q.Number) (q.Colour, error) {
	if err := within("Morey's colour", "the malt colour", mcu, 0, 250, "lb °L/US gal"); err != nil {
		return 0, err
	}
	return q.Colour(1.4922*math.Pow(float64(mcu), 0.6859)) * q.SRM, nil
}

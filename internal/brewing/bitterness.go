package brewing

import (
	"math"

	q "gylebook/internal/quantity"
)

// UtilisationTinseth is the share of the alpha acids that a boil of so long in
// wort of this gravity turns into bitterness: 1.65 × 0.000125^(G−1) × (1 −
// e^(−0.04 t)) ÷ 4.15. Range: 0 to 240 min, gravity 0.990 to 1.150.
//
// Source: G. Tinseth (1997), printed as table 7 in J. Palmer, How to Brew, ch. 5.
func UtilisationTinseth(boiled q.Duration, g q.Gravity) (float64, error) {
	const name = "Tinseth's utilisation"
	if err := firstOf(within(name, "the boil", boiled, 0, 240, "min"), within(name, "the gravity", g, 0.990, 1.150, gravitySG)); err != nil {
		return 0, err
	}
	return 1.65 * math.Pow(0.000125, g.SG()-1) * (1 - math.Exp(-0.04*boiled.Minutes())) / 4.15, nil
}

// BitternessTinseth is the bitterness from one boiled addition: mg of alpha acids
// in a litre × utilisation. Range as UtilisationTinseth, alpha 0 to 30 %.
//
// J. Rager's table (1990) gives 30 % more at 60 min and 1.050, and neither is a
// laboratory's value. Tinseth is taken since it is smooth in time and gravity;
// what matters is that every gyle is reckoned alike.
//
// Source: as UtilisationTinseth.
func BitternessTinseth(m q.Mass, alpha q.Percent, boiled q.Duration, g q.Gravity, v q.Volume) (q.Bitterness, error) {
	const name = "bitterness"
	err := firstOf(none(name, "the hops", m, "g"), within(name, "the alpha", alpha, 0, 30, "%"), some(name, "the volume", v, "L"))
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
// is Tinseth's. Range: 0 to 105 °C, 0 to 240 min. What a hop stand leaves behind
// beyond that, whole oils and oxidised acids, is not bitterness by this reckoning.
//
// Source: as UtilisationTinseth, with Malowicki and Shellhammer's rate.
func BitternessSteeped(m q.Mass, alpha q.Percent, steeped q.Duration, heat q.Temperature, g q.Gravity, v q.Volume) (q.Bitterness, error) {
	const name = "steeping"
	if err := firstOf(within(name, "the heat", heat, 0, 105, "°C"), within(name, "the time", steeped, 0, 240, "min")); err != nil {
		return 0, err
	}
	asBoiled := steeped * q.Duration(isomerisation(heat)/isomerisation(100))
	return BitternessTinseth(m, alpha, min(asBoiled, 240), g, v)
}

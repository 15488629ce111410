package brewing

import q "gylebook/internal/quantity"

// maltHeat is the heat that a kilogram of grist takes up, as a share of what a
// litre of liquor does. Malt of 2 to 6 % moisture is 0.39 to 0.42 by weight.
//
// Source: Pauls & Whites Brewing Room Book 1984/85, reproduced by Murphy & Son,
// appendix 4.
const maltHeat = 0.41

// StrikeTemperature is how hot the strike liquor must be so that liquor and
// grist settle at the rest: a heat balance. The tun is given as the litres of
// liquor that would take as much heat, 0 for one that was warmed; it starts at
// the grist's heat. Slaking heat, worth 1 to 3 °C with very dry malt, is left
// out. Range: rest 30 to 80 °C, grist −10 to 40 °C; an answer above 100 °C says
// that there is too little liquor.
func StrikeTemperature(rest, grist q.Temperature, m q.Mass, liquor, tun q.Volume) (q.Temperature, error) {
	const name = "a strike temperature"
	err := firstOf(
		within(name, "the rest", rest, 30, 80, "°C"), within(name, "the grist's heat", grist, -10, 40, "°C"),
		none(name, "grist", m, "g"), some(name, "liquor", liquor, "L"), none(name, "the tun", tun, "L"),
	)
	if err != nil {
		return 0, err
	}
	taken := (maltHeat*m.Kilograms() + tun.Litres()) * float64(rest-grist)
	strike := rest + q.Temperature(taken/liquor.Litres())
	return strike, within(name, "strike", strike, 0, 100, "°C")
}

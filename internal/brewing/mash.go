package brewing

import q "gylebook/internal/quantity"

// MaltHeat is the heat that a kilogram of grist takes up, as a share of what a
// litre of liquor does. Malt of 2 to 6 % moisture is 0.39 to 0.41 by weight, of
// 8 % 0.42; J. Palmer, How to Brew, ch. 16, has 0.2 in pounds, quarts and °F,
// which is 0.417. Between these a strike temperature differs by 0.2 °C or so.
//
// Source: Pauls & Whites Brewing Room Book 1984/85, reproduced by Murphy & Son,
// appendix 4.
const MaltHeat = 0.41

// heat is how much a body takes up for each °C, in what a litre of liquor does,
// and the heat at which it is.
type heat struct {
	litres float64
	at     q.Temperature
}

// settled is where bodies of several heats come to rest together.
func settled(bodies ...heat) q.Temperature {
	var litres, sum float64
	for _, b := range bodies {
		litres += b.litres
		sum += b.litres * b.at.Celsius()
	}
	return q.Celsius(sum / litres)
}

// struck is the heat that so many litres must have to bring bodies to a rest.
func struck(rest q.Temperature, liquor q.Volume, bodies ...heat) q.Temperature {
	taken := 0.0
	for _, b := range bodies {
		taken += b.litres * float64(rest-b.at)
	}
	return rest + q.Temperature(taken/liquor.Litres())
}

// StrikeTemperature is how hot the strike liquor must be so that liquor and
// grist settle at the rest: a heat balance. The tun is given as the litres of
// liquor that would take as much heat, 0 for one that was warmed; it starts at
// the grist's heat. Slaking heat, worth 1 to 3 °C with very dry malt, is left
// out. Range: rest 30 to 80 °C, grist −10 to 40 °C; an answer above 100 °C says
// that there is too little liquor.
//
// Source: heat balance, as in J. Palmer, How to Brew, ch. 16.
func StrikeTemperature(rest, grist q.Temperature, m q.Mass, liquor, tun q.Volume) (q.Temperature, error) {
	return StrikeTemperatureInTun(rest, grist, m, liquor, tun, grist)
}

// StrikeTemperatureInTun is the same where the tun stands at a heat of its own,
// cold or warmed a little: the heat balance of three bodies, liquor, grist and tun.
// Range: the tun −10 to 100 °C, and as StrikeTemperature.
//
// Source: heat balance, as in J. Palmer, How to Brew, ch. 16.
func StrikeTemperatureInTun(rest, grist q.Temperature, m q.Mass, liquor, tun q.Volume, tunAt q.Temperature) (q.Temperature, error) {
	const name = "a strike temperature"
	err := firstOf(
		within(name, "the rest", rest, 30, 80, "°C"), within(name, "the grist's heat", grist, -10, 40, "°C"),
		none(name, "the grist", m, "g"), some(name, "the liquor", liquor, "L"), none(name, "the tun", tun, "L"),
		within(name, "the tun's heat", tunAt, -10, 100, "°C"),
	)
	if err != nil {
		return 0, err
	}
	strike := struck(rest, liquor, heat{MaltHeat * m.Kilograms(), grist}, heat{tun.Litres(), tunAt})
	return ifGood(strike, within(name, "the strike", strike, -10, 100, "°C"))
}

// SettledAt is where liquor at a strike temperature, grist and tun come to rest: the balance
// of StrikeTemperatureInTun turned round. Range: the strike −10 to 100 °C, and as there.
//
// Source: heat balance, as in J. Palmer, How to Brew, ch. 16.
func SettledAt(strike, grist q.Temperature, m q.Mass, liquor, tun q.Volume, tunAt q.Temperature) (q.Temperature, error) {
	const name = "where a mash settles"
	err := firstOf(
		within(name, "the strike", strike, -10, 100, "°C"), within(name, "the grist's heat", grist, -10, 40, "°C"),
		none(name, "the grist", m, "g"), some(name, "the liquor", liquor, "L"), none(name, "the tun", tun, "L"),
		within(name, "the tun's heat", tunAt, -10, 100, "°C"),
	)
	if err != nil {
		return 0, err
	}
	return settled(heat{liquor.Litres(), strike}, heat{MaltHeat * m.Kilograms(), grist}, heat{tun.Litres(), tunAt}), nil
}

// InfusionTemperature is where a mash comes to rest when hot liquor is let in:
// the grist, the liquor that is in it and the tun (in litres of liquor, as
// StrikeTemperature has it), all at the mash's heat, and the hot liquor. With
// nothing in the mash but the grist it is the initial heat of a mash. Range: mash
// −10 to 100 °C, liquor 0 to 100 °C.
//
// Source: heat balance, as in J. Palmer, How to Brew, ch. 16.
func InfusionTemperature(mash q.Temperature, grist q.Mass, inMash, tun, hot q.Volume, at q.Temperature) (q.Temperature, error) {
	const name = "an infusion"
	err := firstOf(
		within(name, "the mash's heat", mash, -10, 100, "°C"), within(name, "the liquor's heat", at, 0, 100, "°C"),
		none(name, "the grist", grist, "g"), none(name, "the liquor in the mash", inMash, "L"),
		none(name, "the tun", tun, "L"), some(name, "the hot liquor", hot, "L"),
	)
	if err != nil {
		return 0, err
	}
	return settled(heat{mashed(grist, inMash, tun), mash}, heat{hot.Litres(), at}), nil
}

// InfusionVolume is the hot liquor that lifts a mash from one heat to another:
// the inverse of InfusionTemperature. Range: mash −10 to 100 °C, the next rest not
// below it and half a degree at least below the liquor, which is up to 100 °C.
func InfusionVolume(mash, rest q.Temperature, grist q.Mass, inMash, tun q.Volume, at q.Temperature) (q.Volume, error) {
	const name = "an infusion"
	err := firstOf(
		within(name, "the mash's heat", mash, -10, 100, "°C"), within(name, "the liquor's heat", at, 0, 100, "°C"),
		none(name, "the grist", grist, "g"), none(name, "the liquor in the mash", inMash, "L"), none(name, "the tun", tun, "L"),
	)
	if err != nil {
		return 0, err
	}
	if err := within(name, "the next rest", rest, mash.Celsius(), at.Celsius()-0.5, "°C"); err != nil {
		return 0, err
	}
	return q.Volume(mashed(grist, inMash, tun) * float64(rest-mash) / float64(at-rest)), nil
}

// mashed is how much heat a mash takes up for each °C, in litres of liquor.
func mashed(grist q.Mass, inMash, tun q.Volume) float64 {
	return MaltHeat*grist.Kilograms() + (inMash + tun).Litres()
}

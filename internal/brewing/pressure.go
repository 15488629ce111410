package brewing

import q "gylebook/internal/quantity"

// Sealed is beer in a container that keeps its shape.
type Sealed struct {
	CO2       q.Carbonation // in all, as volumes of the beer
	Beer      q.Volume
	Headspace q.Volume
	SealedAt  q.Temperature // the heat at which it was closed
	// Purged says that the headspace began as carbon dioxide at atmospheric
	// pressure, and not as air.
	Purged bool
}

// moles is the carbon dioxide in a volume of beer.
func moles(c q.Carbonation, beer q.Volume) float64 {
	return c.GramsPerLitre() * beer.Litres() / co2MolarMass
}

// Headspace is the room above the beer. Range: fill not above the capacity.
//
// Source: definition.
func Headspace(capacity, fill q.Volume) (q.Volume, error) {
	const name = "headspace"
	if err := none(name, "the capacity", capacity, "L"); err != nil {
		return 0, err
	}
	if err := within(name, "the beer in it", fill, 0, capacity.Litres(), "L"); err != nil {
		return 0, err
	}
	return capacity - fill, nil
}

// RigidPressure is the gauge pressure in a container that keeps its shape, once
// all of its gas has been made and shared between beer and headspace at a
// temperature. Air sealed in stays in the headspace and warms with it: up to a
// little over one atmosphere on top, however small the headspace, and none of it
// without one. Beer would take up some of that air and yeast its oxygen: leaving
// both out errs to the higher pressure. The beer's own expansion, which squeezes a
// 5 % headspace by a twentieth between 20 and 30 °C, is left out. Range: −2 to
// 50 °C, 0 to 10 vol.
//
// Source: Henry's law with Weiss's solubility × 0.936; ideal gas in the
// headspace, 0.5 % off at 1 bar. Pure water, without the 0.936, gives 0.4 bar less
// at 4 vol and 30 °C, and the chart's circulated quadratic 1.0 bar less.
func RigidPressure(s Sealed, t q.Temperature) (q.Pressure, error) {
	const name = "pressure"
	err := firstOf(warmth(t), warmth(s.SealedAt), gas(s.CO2), some(name, "the beer", s.Beer, "L"), none(name, "the headspace", s.Headspace, "L"))
	if err != nil {
		return 0, err
	}
	n, air := moles(s.CO2, s.Beer), 0.0
	dry := openPressure(s.SealedAt) // what is not vapour when it is closed
	if s.Purged {
		n += dry * s.Headspace.Litres() / (gasConstant * s.SealedAt.Kelvin())
	} else if s.Headspace > 0 {
		air = dry * t.Kelvin() / s.SealedAt.Kelvin()
	}
	total := sharedPressure(n, s.Beer, s.Headspace, t) + air + vapourPressure(t)/atmosphereKPa
	return q.Pressure((total - 1) * atmosphereBar), nil
}

// sharedPressure is the partial pressure, in atm, of so many moles of CO2 shared
// between beer and gas.
func sharedPressure(n float64, beer, room q.Volume, t q.Temperature) float64 {
	return n / (solubility(t)*beer.Litres() + room.Litres()/(gasConstant*t.Kelvin()))
}

// BagFreeGas is the gas that a soft bag's beer cannot hold at a temperature, in
// litres at the pressure of the atmosphere: how far the bag swells, if it has
// the room. Nothing where the beer can hold it all. Range as RigidPressure.
//
// Source: as RigidPressure.
func BagFreeGas(c q.Carbonation, beer q.Volume, t q.Temperature) (q.Volume, error) {
	if err := firstOf(warmth(t), gas(c), some("a bag's swelling", "the beer", beer, "L")); err != nil {
		return 0, err
	}
	open := openPressure(t)
	held := dissolvedAt(open, t)
	if c <= held {
		return 0, nil
	}
	free := moles(c-held, beer)
	return q.Volume(free * gasConstant * t.Kelvin() / open), nil
}

// BagPressure is the gauge pressure in a soft bag: nothing until beer and free
// gas fill it, and from there as in a container that keeps its shape; the two
// meet at nothing. Range as RigidPressure, and beer not above the capacity.
//
// Source: as RigidPressure.
func BagPressure(c q.Carbonation, beer, capacity q.Volume, t q.Temperature) (q.Pressure, error) {
	free, err := BagFreeGas(c, beer, t)
	if err != nil {
		return 0, err
	}
	room, err := Headspace(capacity, beer)
	if err != nil {
		return 0, err
	}
	if free <= room {
		return 0, nil
	}
	total := sharedPressure(moles(c, beer), beer, room, t) + vapourPressure(t)/atmosphereKPa
	return q.Pressure(max(0, (total-1)*atmosphereBar)), nil
}

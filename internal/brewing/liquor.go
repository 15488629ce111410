package brewing

import q "gylebook/internal/quantity"

// LiquorAbsorbed is what a drained grist keeps, for so many litres a kilogram;
// 0.8 to 1.2 L/kg is found (common practice, no source). Range 0 to 3 L/kg.
//
// Source: definition.
func LiquorAbsorbed(grist q.Mass, perKilogram q.Number) (q.Volume, error) {
	const name = "liquor kept by the grist"
	if err := firstOf(none(name, "the grist", grist, "g"), within(name, "what a kilogram keeps", perKilogram, 0, 3, "L/kg")); err != nil {
		return 0, err
	}
	return q.Volume(grist.Kilograms() * float64(perKilogram)), nil
}

// LiquorNeeded is the liquor for a whole brewing: the volume wanted, what the
// grist keeps, what boils off, and what stays behind in vessels and hops. All at
// 20 °C, so that nothing is allowed for cooling: hot wort measured 4 % bigger is
// to be brought to 20 °C first. Range as LiquorAbsorbed; boil-off 0 to 100 L/h,
// boil 0 to 12 h.
//
// Source: conservation of volume.
func LiquorNeeded(wanted q.Volume, grist q.Mass, perKilogram, boilOff q.Number, boiled q.Duration, losses q.Volume) (q.Volume, error) {
	const name = "liquor needed"
	err := firstOf(
		none(name, "the volume wanted", wanted, "L"), within(name, "the boil-off", boilOff, 0, 100, "L/h"),
		within(name, "the boil", boiled, 0, 720, "min"), none(name, "the losses", losses, "L"),
	)
	if err != nil {
		return 0, err
	}
	kept, err := LiquorAbsorbed(grist, perKilogram)
	return ifGood(wanted+kept+q.Volume(float64(boilOff)*boiled.Hours())+losses, err)
}

// aims checks a gravity to be changed and the gravity wanted; wort thinner than
// 1.002 cannot be aimed at by adding water.
func aims(name string, v q.Volume, g, aim q.Gravity) error {
	return firstOf(
		none(name, "the volume", v, "L"), within(name, "the gravity", g, 1, 1.150, gravitySG),
		within(name, "the gravity wanted", aim, 1.002, 1.150, gravitySG),
	)
}

// VolumeAtGravity is the volume that a wort has once liquor or the boil has
// brought it to a gravity. The extract in it, by weight, is the same before and
// after. Range: gravity 1.000 to 1.150, gravity wanted 1.002 to 1.150.
//
// Source: conservation of extract.
func VolumeAtGravity(v q.Volume, g, aim q.Gravity) (q.Volume, error) {
	if err := aims("a volume at a gravity", v, g, aim); err != nil {
		return 0, err
	}
	return v * q.Volume(extractIn(g)/extractIn(aim)), nil
}

// LiquorBack is the liquor that brings a wort to a gravity: litres to add, or,
// below nothing, litres to boil away. Range as VolumeAtGravity. It is reckoned by
// weight, so that it is up to 0.1 % of the wort apart from the difference of the
// two volumes, which do not quite add up when mixed.
//
// Source: conservation of extract and of mass.
func LiquorBack(v q.Volume, g, aim q.Gravity) (q.Volume, error) {
	if err := aims("liquor back", v, g, aim); err != nil {
		return 0, err
	}
	after := v.Litres() * extractIn(g) / extractIn(aim)
	return q.Volume(after*aim.SG() - v.Litres()*g.SG()), nil
}

// extractIn is the extract of a litre of wort, in hundredths of the weight of a
// litre of water.
func extractIn(g q.Gravity) float64 { return g.SG() * max(0, g.Plato()) }

// PointsRaised is how many points sugar raises a beer or wort that it is stirred
// into. These are not points still to fall: a point that sucrose raises gives
// about 0.68 vol of CO2, one still to fall CO2PerPoint. Range 0 to 400 Ldeg/kg.
// The sugar's own volume, 0.6 mL a gram, is left out.
//
// Source: definition of the litre-degree.
func PointsRaised(sugar q.Mass, e q.Extract, v q.Volume) (q.Number, error) {
	total, err := LitreDegrees(sugar, e)
	if err != nil {
		return 0, err
	}
	if err := some("points raised", "the volume", v, "L"); err != nil {
		return 0, err
	}
	return total / q.Number(v), nil
}

package brewing

import q "gylebook/internal/quantity"

// VentedToQuiet is what it holds once the gas has been let out at a heat until no
// more came: the beer saturated under the air's pressure, its own gas above it, no
// air. Beer that holds less than that loses the air that was too much; one that sucks
// stays as it is. Range −2 to 50 °C.
func (h Held) VentedToQuiet(t q.Temperature) (Held, error) {
	if h.Soft {
		return h.squeezed(t)
	}
	return h.HeldUnder(0, t)
}

// squeezed is a bag that all free gas was let out of.
func (h Held) squeezed(t q.Temperature) (Held, error) {
	if err := warmth(t); err != nil {
		return Held{}, err
	}
	h.CO2, h.Inert = min(h.CO2, MolesOf(dissolvedAt(h.dry(t), t), h.Beer)), 0
	return h, nil
}

// HeldUnder is what it holds under a valve that lets out what stands above its
// setting, at a heat: all it has where it stands below it, else beer at rest under its
// own gas, which has driven out the air. Where its gas is too little for that, the
// air that was too much is gone. Range −2 to 50 °C, a setting of −1 to 20 bar.
func (h Held) HeldUnder(set q.Pressure, t q.Temperature) (Held, error) {
	if err := firstOf(warmth(t), aGauge("a valve", set)); err != nil {
		return Held{}, err
	}
	if h.at(t).Gauge <= set {
		return h, nil
	}
	total := h.totalAt(set, t)
	if kept := h.under(total, t); h.CO2 > kept {
		h.CO2, h.Inert = kept, 0
		return h, nil
	}
	co2, _ := h.partials(t)
	h.Inert = h.gasIn(total-co2, t)
	return h, nil
}

// totalAt is the pressure, in atm, of the gases over beer at a gauge pressure.
func (h Held) totalAt(gauge q.Pressure, t q.Temperature) float64 {
	return max(gauge.Bar()/atmosphereBar+h.dry(t), 0)
}

// VentedForAMoment is what it holds once it was opened and shut at a heat: the room
// at the pressure of the air, gases gone in proportion, the beer as it was. A bag is
// squeezed. Range −2 to 50 °C.
func (h Held) VentedForAMoment(t q.Temperature) (Held, error) {
	if h.Soft {
		return h.squeezed(t)
	}
	if err := warmth(t); err != nil {
		return Held{}, err
	}
	co2, inert := h.partials(t)
	if stays := h.dry(t); co2+inert > stays {
		stays /= co2 + inert
		h.CO2 -= Moles(1-stays) * h.gasIn(co2, t)
		h.Inert *= Moles(stays)
	}
	return h, nil
}

// Between is what it holds where one of two things happened and nobody says which:
// the other's share lies between nought and 1.
func (h Held) Between(other Held, share float64) Held {
	part := Moles(min(max(share, 0), 1))
	h.CO2 += part * (other.CO2 - h.CO2)
	h.Inert += part * (other.Inert - h.Inert)
	return h
}

// Behind is what comes in as beer is drawn.
type Behind int

// Air and CO2 come in at the pressure of the air outside, CO2 through a breather;
// from a Cylinder it comes in at the pressure that stands; Nothing comes in where
// beer is driven out by its own gas, or a bag falls in.
const (
	Nothing Behind = iota
	Air
	Breather
	Cylinder
)

// Drawn is what it holds once so much beer has been drawn off at a heat, with the gas
// that was dissolved in it. No more than all but a hundredth is taken, so that what is
// left can still be asked about. Range −2 to 50 °C.
func (h Held) Drawn(beer q.Volume, t q.Temperature, in Behind) (Held, error) {
	if err := firstOf(warmth(t), none("drawing", "the beer", beer, "L")); err != nil {
		return Held{}, err
	}
	beer = min(beer, max(h.Beer-(h.Beer+h.Room)/100, 0))
	before := h.at(t)
	h.CO2 -= min(MolesOf(before.Dissolved, beer), h.CO2)
	h.Beer -= beer
	h.Room += beer
	if h.Soft {
		return h, nil
	}
	grown := h
	grown.Room = beer
	switch in {
	case Air:
		h.Inert += grown.gasIn(h.dry(t), t)
	case Breather:
		h.CO2 += grown.gasIn(h.dry(t), t)
	case Cylinder:
		h.CO2 += grown.gasIn(h.totalAt(before.Gauge, t), t)
	}
	return h, nil
}

// Regulator is a cylinder put on: its gauge pressure, and the share of carbon dioxide
// in its gas, 0 to 1.
type Regulator struct {
	Set   q.Pressure
	Share float64
	// Fresh is the part of the beer's own gas that had not come out of it when the
	// cylinder was put on, 1 as it was filled, 0 at rest: it comes on top of a gas
	// that the beer does not take up.
	Fresh float64
}

// Fed is what it holds after it stood under a cylinder at a heat, having gone a part
// of the way to equilibrium with it: 0 at once, 1 in the end. A cylinder feeds and
// never takes back: the room is at its setting at once, the beer takes up what it
// lacks, and a container that already stands above the setting keeps all it has.
// What the beer takes up in the end drives out as much of the air, since the
// regulator holds the sum of both. Range −2 to 50 °C, a setting of −1 to 20 bar.
func (h Held) Fed(by Regulator, t q.Temperature, part float64) (Held, error) {
	const name = "a cylinder"
	err := firstOf(warmth(t), aGauge(name, by.Set), within(name, "the share of carbon dioxide", by.Share, 0, 1, ""),
		within(name, "the part of the beer's own gas", by.Fresh, 0, 1, ""),
		within(name, "the part of the way", part, 0, 1, ""))
	if err != nil {
		return Held{}, err
	}
	total := h.totalAt(by.Set, t)
	co2, inert := h.partials(t)
	atOnce := co2 + by.Share*max(total-co2-inert, 0)
	inTheEnd := max(by.Share*total, co2)
	beer, above := co2+(inTheEnd-co2)*part, atOnce+(inTheEnd-atOnce)*part
	h.CO2 = MolesOf(dissolvedAt(beer, t), h.Beer) + h.gasIn(above, t)
	comes := by.Fresh * (1 - by.Share) * min(max(co2-by.Share*total, 0), max(total-inert, 0))
	h.Inert = h.gasIn(max(total, co2+inert)-above+comes, t)
	return h, nil
}

// Gauged is what it holds by a gauge that was read at a heat, with the air that the
// account has above it. Range −2 to 50 °C, −1 to 20 bar.
func (h Held) Gauged(p q.Pressure, t q.Temperature) (Held, error) {
	if err := firstOf(warmth(t), aGauge("a gauge", p)); err != nil {
		return Held{}, err
	}
	_, inert := h.partials(t)
	h.CO2 = h.under(max(h.totalAt(p, t)-inert, 0), t)
	return h, nil
}

// LeakedTo is what it still holds where a gauge shows less than it should: some of what was
// above the beer has gone, of each gas its part. Range as of Gauged.
func (h Held) LeakedTo(p q.Pressure, t q.Temperature) (Held, error) {
	if err := firstOf(warmth(t), aGauge("a gauge", p)); err != nil {
		return Held{}, err
	}
	co2, inert := h.partials(t)
	if left := h.totalAt(p, t) / max(co2+inert, 1e-9); left < 1 {
		h.CO2, h.Inert = h.under(co2*left, t), h.Inert*Moles(left)
	}
	return h, nil
}

// aGauge checks a pressure that a gauge, a valve or a regulator shows.
func aGauge(formula string, p q.Pressure) error {
	return within(formula, "the pressure", p, -1, 20, "bar")
}

package brewing

import (
	"math"

	q "gylebook/internal/quantity"
)

// Held is what a closed container holds: beer, its gas, and the room above it. Its
// methods are what may happen to it, each giving what it holds afterwards; none
// looks at a clock. Carbon dioxide is shared between beer and room so that Henry's
// law and the gas law both hold: N = s p V + p H ÷ (R T).
//
// Beer would take up a little of the air above it, and yeast its oxygen; beer that
// warms swells, which squeezes a 5 % headspace by a twentieth between 20 and 30 °C.
// Both are left out: the first errs to the higher pressure, the second to the lower.
//
// Source: R. F. Weiss, Mar. Chem. 2 (1974) 203, × 0.936; ideal gas in the room,
// 0.5 % off at 1 bar. Pure water, without the 0.936, gives 0.4 bar less at 4 vol and
// 30 °C, and the chart's circulated quadratic 1.0 bar less.
type Held struct {
	Beer q.Volume
	// Room is above the beer; of a soft bag, what it can still swell by.
	Room    q.Volume
	CO2     Moles // in beer and room together
	Inert   Moles // air or nitrogen, all of it above the beer
	Soft    bool  // swells at no pressure before it goes tight
	Outside q.AirPressure
}

// Moles is an amount of gas in mol.
type Moles float64

// molesPerLitre is a volume of carbon dioxide in mol for each litre of beer.
const molesPerLitre = q.GramsPerVolume / co2MolarMass

// Volumes is the amount as volumes of carbon dioxide in so much beer.
func (n Moles) Volumes(beer q.Volume) q.Carbonation {
	return q.Carbonation(float64(n) / molesPerLitre / beer.Litres())
}

// Mass is the weight of so much carbon dioxide, in g.
func (n Moles) Mass() q.Mass { return q.Mass(float64(n) * co2MolarMass) }

// MolesOf is the amount of carbon dioxide in so much beer.
func MolesOf(c q.Carbonation, beer q.Volume) Moles {
	return Moles(float64(c) * molesPerLitre * beer.Litres())
}

// Standing is how what is held stands at one heat, at rest.
type Standing struct {
	Gauge     q.Pressure    // above the air outside
	Dissolved q.Carbonation // in the beer
	Free      q.Volume      // of a soft bag: gas beside the beer, at the pressure of the air
}

// Filled is a container as it was filled: beer with so much gas dissolved in it, at
// a heat, and above it air, or carbon dioxide where it was purged, at the pressure
// of the air outside. A soft bag is squeezed and holds no air. Range: −2 to 50 °C, 0
// to 12 vol, some beer, no room below nothing, the air at 40 to 110 kPa.
//
// Source: definition.
func Filled(h Held, dissolved q.Carbonation, at q.Temperature, purged bool) (Held, error) {
	const name = "filling"
	err := firstOf(warmth(at), within(name, "the gas in it", dissolved, 0, 12, "vol"), some(name, "the beer", h.Beer, "L"),
		none(name, "the room above it", h.Room, "L"), theAir(h.Outside))
	if err != nil {
		return Held{}, err
	}
	h.CO2 = MolesOf(dissolved, h.Beer)
	above := h.gasIn(h.dry(at), at)
	switch {
	case h.Soft:
	case purged:
		h.CO2 += above
	default:
		h.Inert += above
	}
	return h, nil
}

// Headspace is the room above the beer. Range: fill not above the capacity.
//
// Source: definition.
func Headspace(capacity, fill q.Volume) (q.Volume, error) {
	const name = "headspace"
	err := firstOf(none(name, "the capacity", capacity, "L"),
		within(name, "the beer in it", fill, 0, capacity.Litres(), "L"))
	if err != nil {
		return 0, err
	}
	return capacity - fill, nil
}

// outside is the air's pressure in atm.
func (h Held) outside() float64 { return float64(h.Outside) / atmosphereKPa }

// dry is what is left of the air's pressure, in atm, for gases over beer at a heat.
func (h Held) dry(t q.Temperature) float64 { return h.outside() - vapourPressure(t)/atmosphereKPa }

// gasIn is the gas that fills the room at a partial pressure in atm.
func (h Held) gasIn(partial float64, t q.Temperature) Moles {
	return Moles(partial * h.Room.Litres() / (gasConstant * t.Kelvin()))
}

// under is the carbon dioxide in beer and room together under a partial pressure of
// it in atm.
func (h Held) under(partial float64, t q.Temperature) Moles {
	return MolesOf(dissolvedAt(partial, t), h.Beer) + h.gasIn(partial, t)
}

// partials are the partial pressures in atm at a heat.
func (h Held) partials(t q.Temperature) (co2, inert float64) {
	molar := h.Room.Litres() / (gasConstant * t.Kelvin())
	co2 = float64(h.CO2) / (solubility(t)*h.Beer.Litres() + molar)
	if molar > 0 {
		inert = float64(h.Inert) / molar
	}
	return co2, inert
}

// At is how it stands at a heat once it has come to rest. Range −2 to 50 °C.
func (h Held) At(t q.Temperature) (Standing, error) {
	if err := warmth(t); err != nil {
		return Standing{}, err
	}
	return h.at(t), nil
}

func (h Held) at(t q.Temperature) Standing {
	if h.Soft {
		return h.softAt(t)
	}
	co2, inert := h.partials(t)
	total := co2 + inert + vapourPressure(t)/atmosphereKPa
	gauge := q.Pressure((total - h.outside()) * atmosphereBar)
	return Standing{Gauge: gauge, Dissolved: dissolvedAt(co2, t)}
}

// softAt is a bag, which swells at no pressure until it is full, and from there is as
// a container that keeps its shape; the two meet at nothing.
func (h Held) softAt(t q.Temperature) Standing {
	dry := h.dry(t)
	free := h.setFree(MolesOf(dissolvedAt(dry, t), h.Beer))
	size := q.Volume(float64(free+h.Inert) * gasConstant * t.Kelvin() / dry)
	if size > h.Room {
		h.Soft = false
		tight := h.at(t)
		tight.Gauge, tight.Free = max(tight.Gauge, 0), size
		return tight
	}
	return Standing{Dissolved: (h.CO2 - free).Volumes(h.Beer), Free: size}
}

// setFree is the carbon dioxide that a slack bag's beer gives off, which holds so much
// of it at most, under nothing but carbon dioxide. Air in the bag takes part of the
// pressure, so that more is given off: (N − f)(f + i) = most × f.
func (h Held) setFree(most Moles) Moles {
	half := float64(h.CO2-most-h.Inert) / 2
	return Moles(half + math.Sqrt(half*half+float64(h.CO2*h.Inert)))
}

// InAll is all of its carbon dioxide, as volumes of the beer.
func (h Held) InAll() q.Carbonation { return h.CO2.Volumes(h.Beer) }

package brewing

import (
	"math"

	q "gylebook/internal/quantity"
)

// Held is what a closed container holds: beer, its gas, and the room above it. Its
// methods are what may happen to it, each giving what it holds afterwards; none
// looks at a clock. Carbon dioxide is shared between beer and room so that Henry's
// law and the gas law both hold.
//
// Source: R. F. Weiss, Mar. Chem. 2 (1974) 203, × 0.936; ideal gas in the room,
// 0.5 % off at 1 bar.
type Held struct {
	Beer q.Volume
	// Room is above the beer; of a soft bag, what it can still swell by.
	Room q.Volume
	CO2  Moles // in beer and room together
	// Inert is air or nitrogen, all of it above the beer. Beer would take up a little
	// of it, and yeast its oxygen: leaving that out errs to the higher pressure.
	Inert   Moles
	Soft    bool          // swells at no pressure before it goes tight
	Outside q.AirPressure // of the air where it stands
}

// Moles is an amount of gas in mol.
type Moles float64

// molesPerLitre is a volume of carbon dioxide in mol for each litre of beer.
const molesPerLitre = q.GramsPerVolume / co2MolarMass

// Volumes is the amount as volumes of carbon dioxide in so much beer.
func (n Moles) Volumes(beer q.Volume) q.Carbonation {
	return q.Carbonation(float64(n) / molesPerLitre / beer.Litres())
}

// Grams is the amount as grams of carbon dioxide.
func (n Moles) Grams() float64 { return float64(n) * co2MolarMass }

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

// StandardAir is the pressure of the air at sea level, 101.325 kPa (ISO 2533).
const StandardAir q.AirPressure = atmosphereKPa

// Filled is a container as it was filled: beer with so much gas dissolved in it, at
// a heat, and above it air, or carbon dioxide where it was purged, at the pressure
// of the air outside. A soft bag is squeezed and holds no air. Range: −2 to 50 °C, 0
// to 12 vol, some beer, no room below nothing.
//
// Source: definition.
func Filled(h Held, dissolved q.Carbonation, at q.Temperature, purged bool) (Held, error) {
	const name = "filling"
	err := firstOf(warmth(at), within(name, "the gas in it", dissolved, 0, 12, "vol"), some(name, "the beer", h.Beer, "L"),
		none(name, "the room above it", h.Room, "L"), within(name, "the air's pressure", h.Outside, 40, 110, "kPa"))
	if err != nil {
		return h, err
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

// outside is the air's pressure in atm.
func (h Held) outside() float64 { return float64(h.Outside) / atmosphereKPa }

// dry is what is left of the air's pressure, in atm, for gases over beer at a heat.
func (h Held) dry(t q.Temperature) float64 { return h.outside() - vapourPressure(t)/atmosphereKPa }

// gasIn is the gas that fills the room at a partial pressure in atm.
func (h Held) gasIn(partial float64, t q.Temperature) Moles {
	return Moles(partial * h.Room.Litres() / (gasConstant * t.Kelvin()))
}

// partials are the partial pressures in atm at a heat, with a room of the given
// size.
func (h Held) partials(t q.Temperature, room q.Volume) (co2, inert float64) {
	molar := room.Litres() / (gasConstant * t.Kelvin())
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
	co2, inert := h.partials(t, h.Room)
	total := co2 + inert + vapourPressure(t)/atmosphereKPa
	return Standing{Gauge: q.Pressure((total - h.outside()) * atmosphereBar), Dissolved: dissolvedAt(co2, t)}
}

// softAt is a bag, which swells at no pressure until it is full.
func (h Held) softAt(t q.Temperature) Standing {
	dry := h.dry(t)
	most := MolesOf(dissolvedAt(dry, t), h.Beer)
	free := max(h.CO2-most, 0) + h.Inert
	size := q.Volume(float64(free) * gasConstant * t.Kelvin() / dry)
	if size > h.Room {
		stiff := h
		stiff.Soft = false
		tight := stiff.at(t)
		tight.Gauge, tight.Free = max(tight.Gauge, 0), size
		return tight
	}
	return Standing{Dissolved: min(h.CO2, most).Volumes(h.Beer), Free: size}
}

// InAll is all of its carbon dioxide, as volumes of the beer.
func (h Held) InAll() q.Carbonation { return h.CO2.Volumes(h.Beer) }

// VentedToQuiet is what it holds once the gas has been let out at a heat until no
// more came: the beer saturated under the air's pressure, its own gas above it, no
// air. Beer that holds less than that loses the air that was too much.
func (h Held) VentedToQuiet(t q.Temperature) Held {
	if h.at(t).Gauge < 0 {
		return h
	}
	dry := h.dry(t)
	kept := MolesOf(dissolvedAt(dry, t), h.Beer)
	if !h.Soft {
		kept += h.gasIn(dry, t)
	}
	if h.CO2 > kept {
		h.CO2, h.Inert = kept, 0
		return h
	}
	// Too little gas of its own to drive out all of the air.
	co2, _ := h.partials(t, h.Room)
	h.Inert = h.gasIn(dry-co2, t)
	return h
}

// VentedForAMoment is what it holds once it was opened and shut at a heat: the room
// at the pressure of the air, gases gone in proportion, the beer as it was.
func (h Held) VentedForAMoment(t q.Temperature) Held {
	if h.Soft {
		return h.VentedToQuiet(t)
	}
	co2, inert := h.partials(t, h.Room)
	if co2+inert <= 0 {
		return h
	}
	stays := h.dry(t) / (co2 + inert)
	if stays >= 1 {
		return h
	}
	h.CO2 -= Moles((1 - stays)) * h.gasIn(co2, t)
	h.Inert *= Moles(stays)
	return h
}

// Between is what it holds where one of two things happened and nobody says which:
// the other's share lies between nought and 1.
func (h Held) Between(other Held, share float64) Held {
	share = min(max(share, 0), 1)
	h.CO2 += Moles(share) * (other.CO2 - h.CO2)
	h.Inert += Moles(share) * (other.Inert - h.Inert)
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

// Drawn is what it holds once so much beer has been drawn off at a heat. No more
// than all but a hundredth is taken, so that what is left can still be asked about.
func (h Held) Drawn(beer q.Volume, t q.Temperature, in Behind) Held {
	beer = min(max(beer, 0), h.Beer*0.99)
	before := h.at(t)
	h.CO2 -= min(MolesOf(before.Dissolved, beer), h.CO2)
	h.Beer -= beer
	h.Room += beer
	if h.Soft {
		return h
	}
	grown := h
	grown.Room = beer
	switch in {
	case Air:
		h.Inert += grown.gasIn(h.dry(t), t)
	case Breather:
		h.CO2 += grown.gasIn(h.dry(t), t)
	case Cylinder:
		h.CO2 += grown.gasIn(max(before.Gauge.Bar()/atmosphereBar+h.dry(t), 0), t)
	}
	return h
}

// Regulator is a cylinder's setting: a gauge pressure, and the share of carbon
// dioxide in its gas.
type Regulator struct {
	Set   q.Pressure
	Share float64
}

// Fed is what it holds after it stood under a cylinder at a heat, having gone a part
// of the way to equilibrium with it: 0 at once, 1 in the end. A cylinder feeds and
// never takes back: the room is at its setting at once, the beer takes up what it
// lacks, and a container that already stands above the setting keeps all it has.
// What the beer takes up in the end drives out as much of the air, since the
// regulator holds the sum of both.
func (h Held) Fed(by Regulator, t q.Temperature, part float64) Held {
	total := by.Set.Bar()/atmosphereBar + h.dry(t)
	co2, inert := h.partials(t, h.Room)
	beer := co2 + max(by.Share*total-co2, 0)*min(max(part, 0), 1)
	fed := max(total-co2-inert, 0)
	above := max(beer, co2+by.Share*fed)
	stays := min(inert+(1-by.Share)*fed, max(total, co2+inert)-above)
	h.CO2 = max(h.CO2, MolesOf(dissolvedAt(beer, t), h.Beer)+h.gasIn(above, t))
	h.Inert = h.gasIn(max(stays, 0), t)
	return h
}

// Gauged is what it holds by a gauge that was read at a heat, with the air that the
// account has above it.
func (h Held) Gauged(p q.Pressure, t q.Temperature) Held {
	_, inert := h.partials(t, h.Room)
	co2 := max(p.Bar()/atmosphereBar+h.dry(t)-inert, 0)
	h.CO2 = MolesOf(dissolvedAt(co2, t), h.Beer) + h.gasIn(co2, t)
	return h
}

// HeldUnder is what it holds under a valve that lets out what stands above its
// setting, at a heat: all it has where it stands below it. What leaves is what is
// above the beer, as it comes.
func (h Held) HeldUnder(set q.Pressure, t q.Temperature) Held {
	if h.at(t).Gauge <= set {
		return h
	}
	total := set.Bar()/atmosphereBar + h.dry(t)
	co2, inert := h.partials(t, h.Room)
	share := co2 / (co2 + inert)
	part := total * share
	h.CO2 = MolesOf(dissolvedAt(part, t), h.Beer) + h.gasIn(part, t)
	h.Inert = h.gasIn(total-part, t)
	return h
}

// Joined is what it holds with so much liquid, without gas, put into it. Room below
// nothing says that it does not fit.
func (h Held) Joined(liquid q.Volume) Held {
	h.Beer += liquid
	h.Room -= liquid
	return h
}

// UnderGauge is what beer holds that came to rest under its own gas at a gauge
// pressure, as under a relief valve: ResidualCO2 is that of no pressure. Range −2 to
// 50 °C, −0.5 to 6 bar, the air at 40 to 110 kPa.
//
// Source: Henry's law with Weiss's solubility × 0.936.
func UnderGauge(p q.Pressure, t q.Temperature, outside q.AirPressure) (q.Carbonation, error) {
	const name = "gas under a valve"
	err := firstOf(warmth(t), within(name, "the pressure", p, -0.5, 6, "bar"), within(name, "the air's pressure", outside, 40, 110, "kPa"))
	if err != nil {
		return 0, err
	}
	h := Held{Outside: outside}
	return dissolvedAt(max(h.dry(t)+p.Bar()/atmosphereBar, 0), t), nil
}

// AirAt is the pressure of the air at a height above the sea, in kPa. Range −500 to
// 5000 m; weather moves it by ± 3 kPa.
//
// Source: ISO 2533:1975, the standard atmosphere.
func AirAt(height q.Height) (q.AirPressure, error) {
	if err := within("the air's pressure", "the height", height, -500, 5000, "m"); err != nil {
		return 0, err
	}
	return StandardAir * q.AirPressure(math.Pow(1-0.0065*float64(height)/288.15, 5.25588)), nil
}

// GasOverDissolved is all of a container's carbon dioxide over what of it is dissolved
// in the beer, at rest at a heat: 1 without room above it. Range −2 to 50 °C, some
// beer.
//
// Source: Henry's law with Weiss's solubility × 0.936; ideal gas in the room.
func GasOverDissolved(beer, room q.Volume, t q.Temperature) (q.Number, error) {
	const name = "the gas above the beer"
	if err := firstOf(warmth(t), some(name, "the beer", beer, "L"), none(name, "the room", room, "L")); err != nil {
		return 0, err
	}
	return q.Number(1 + room.Litres()/(gasConstant*t.Kelvin()*solubility(t)*beer.Litres())), nil
}

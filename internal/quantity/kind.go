package quantity

// Kind is one kind of quantity: its name in a message, and the units it may be
// written in, the canonical one first.
type Kind struct {
	Name  string
	Units []Unit
	// Bare is the unit that a number without one has, nil where a unit must
	// be written.
	Bare *Unit
	// Example is how a brewer might write one.
	Example string
}

// Unit is one unit of a Kind.
type Unit struct {
	// Symbol is how the unit is printed; Also are other accepted spellings.
	// Spelling is compared without case except where two units would clash.
	Symbol string
	Also   []string
	// In turns a number of this unit into the canonical one, Out back again.
	In, Out func(float64) float64
}

// Canonical is the unit in which values of this kind are held.
func (k *Kind) Canonical() Unit { return k.Units[0] }

// unit is a unit proportional to the canonical one.
func unit(factor float64, symbol string, also ...string) Unit {
	return Unit{
		Symbol: symbol, Also: also,
		In:  func(x float64) float64 { return x * factor },
		Out: func(x float64) float64 { return x / factor },
	}
}

// scale is a unit whose conversion is not a plain factor.
func scale(in, out func(float64) float64, symbol string, also ...string) Unit {
	return Unit{Symbol: symbol, Also: also, In: in, Out: out}
}

// kind makes a Kind; bare says whether its first unit may be left out.
func kind(name, example string, bare bool, units ...Unit) *Kind {
	k := &Kind{Name: name, Example: example, Units: units}
	if bare {
		k.Bare = &k.Units[0]
	}
	return k
}

// Kelvin differences and ratios have no unit of their own here: they are never
// typed by a brewer.
var (
	volumes = kind("volume", "20.5 L", false,
		unit(1, "L", "litre", "litres", "liter", "liters", "ltr", "ltrs", "dm3", "dm³"),
		unit(0.001, "mL", "millilitre", "millilitres", "milliliter", "milliliters", "mls", "cm3", "cm³", "cc"),
		unit(0.01, "cL", "centilitre", "centilitres"),
		unit(100, "hL", "hectolitre", "hectolitres"),
		unit(float64(UKGallon), "gal-uk"),
		unit(float64(UKGallon)/4, "qt-uk"),
		unit(float64(UKPint), "pt-uk", "pints-uk"),
		unit(float64(UKPint)/20, "fl-oz-uk"),
		unit(float64(USGallon), "gal-us"),
		unit(float64(USGallon)/4, "qt-us"),
		unit(float64(USPint), "pt-us", "pints-us"),
		unit(float64(USPint)/16, "fl-oz-us"),
		unit(1000, "m3", "m³"))
	masses = kind("weight", "4.2 kg", false,
		// the grain of an old pound is not read at all
		unit(1, "g", "gram", "grams", "gramme", "grammes", "gm", "gms", "gr"),
		unit(1000, "kg", "kgs", "kilo", "kilos", "kilogram", "kilograms", "kilogramme", "kilogrammes"),
		unit(0.001, "mg"),
		unit(float64(Pound), "lb", "lbs", "pound", "pounds"),
		unit(float64(Ounce), "oz", "ounce", "ounces"))
	temperatures = kind("temperature", "66 C", false,
		unit(1, "°C", "C", "degC", "Celsius"),
		scale(func(x float64) float64 { return (x - 32) / 1.8 }, func(x float64) float64 { return x*1.8 + 32 }, "°F",
			"F", "degF", "Fahrenheit"))
	gravities = kind("gravity", "1.041", true,
		unit(1, "SG"),
		scale(func(x float64) float64 { return float64(Plato(x)) },
			func(x float64) float64 { return Gravity(x).Plato() }, "°P", "P", "Plato", "Bx", "°Bx", "Brix"))
	durations = kind("length of time", "60 min", false,
		unit(1, "min", "mins", "minute", "minutes"),
		unit(60, "h", "hour", "hours", "hr", "hrs"),
		unit(1440, "days", "day", "d"),
		unit(10080, "weeks", "week"),
		unit(1440*365.25/12, "months", "month"),
		unit(1.0/60, "s", "sec", "secs", "second", "seconds"))
	percents     = kind("percentage", "4.9 %", false, unit(1, "%", "percent"))
	bitternesses = kind("bitterness", "32 IBU", false, unit(1, "IBU", "EBU"))
	colours      = kind("colour", "22 EBC", false,
		unit(1, "EBC"),
		unit(float64(SRM), "SRM"),
		unit(float64(SRM), "degL", "°L"))
	extracts = kind("extract", "300 Ldeg/kg", false,
		unit(1, "Ldeg/kg", "L°/kg"),
		unit(float64(PureSugar)/100, "%"))
	carbonations = kind("amount of carbon dioxide", "1.3 vol", false,
		unit(1, "vol", "vols", "volumes"),
		unit(1/GramsPerVolume, "g/L"))
	pressures = kind("pressure", "0.4 bar", false,
		unit(1, "bar"),
		unit(0.001, "mbar"),
		unit(float64(PSI), "psi"),
		unit(0.01, "kPa"))
	heights = kind("height", "450 m", false,
		unit(1, "m", "metre", "metres", "meter", "meters"),
		unit(1000, "km"),
		unit(float64(Foot), "ft", "foot", "feet"))
	// No bar and no psi: in those a gauge is read, from the air's pressure upward.
	airPressures = kind("pressure of the air", "95 kPa", false,
		unit(1, "kPa"),
		unit(0.1, "hPa", "mbar", "mb", "millibar", "millibars"),
		unit(float64(MillimetreOfMercury), "mmHg"),
		unit(float64(InchOfMercury), "inHg"))
	concentrations = kind("concentration", "40 ppm", false,
		unit(1, "mg/L", "ppm"),
		unit(1000, "g/L"))
	cells = kind("count of cells", "200e9 cells", false, unit(1, "cells", "cell"),
		unit(1e9, "billion", "billion cells", "bn"))
	cellDensities = kind("density of cells", "6e9 cells/g", false,
		unit(1, "cells/g", "cells/mL"))
	acidities = kind("pH", "5.4", true, unit(1, "pH"))
	brixes    = kind("refractometer reading", "6.1", true, unit(1, "°Bx", "Bx", "Brix"))
	numbers   = kind("number", "12", true, unit(1, ""))
)

// Kind is volume.
func (Volume) Kind() *Kind { return volumes }

// Kind is weight.
func (Mass) Kind() *Kind { return masses }

// Kind is temperature.
func (Temperature) Kind() *Kind { return temperatures }

// Kind is gravity.
func (Gravity) Kind() *Kind { return gravities }

// Kind is length of time.
func (Duration) Kind() *Kind { return durations }

// Kind is percentage.
func (Percent) Kind() *Kind { return percents }

// Kind is bitterness.
func (Bitterness) Kind() *Kind { return bitternesses }

// Kind is colour.
func (Colour) Kind() *Kind { return colours }

// Kind is extract.
func (Extract) Kind() *Kind { return extracts }

// Kind is amount of carbon dioxide.
func (Carbonation) Kind() *Kind { return carbonations }

// Kind is pressure.
func (Pressure) Kind() *Kind { return pressures }

// Kind is height.
func (Height) Kind() *Kind { return heights }

// Kind is pressure of the air.
func (AirPressure) Kind() *Kind { return airPressures }

// Kind is concentration.
func (Concentration) Kind() *Kind { return concentrations }

// Kind is count of cells.
func (Cells) Kind() *Kind { return cells }

// Kind is density of cells.
func (CellDensity) Kind() *Kind { return cellDensities }

// Kind is pH.
func (Acidity) Kind() *Kind { return acidities }

// Kind is refractometer reading.
func (Brix) Kind() *Kind { return brixes }

// Kind is number.
func (Number) Kind() *Kind { return numbers }

// KindOf is the Kind of the quantity type Q.
func KindOf[Q Quantity]() *Kind {
	var zero Q
	return zero.Kind()
}

// AllKinds lists every kind, for the vocabulary's help and for tests.
func AllKinds() []*Kind {
	return []*Kind{
		volumes, masses, temperatures, gravities, durations, percents, bitternesses, colours, extracts,
		carbonations, pressures, heights, airPressures, concentrations, cells, cellDensities, acidities, brixes,
		numbers,
	}
}

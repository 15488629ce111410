package quantity

import (
	"math"
	"strings"
)

// System is a choice of units for one kind of quantity: Metric, UK or US. The
// empty one is Metric.
type System string

// Metric is litres, kilograms and grams, °C, bar and EBC. UK is UK gallons and
// pints, pounds and ounces, °C, psi and EBC; US is US gallons and pints, pounds
// and ounces, °F, psi and SRM.
const (
	Metric System = "metric"
	UK     System = "uk"
	US     System = "us"
)

// IsMetric tells of the metric units, which stand where no others were chosen.
func (s System) IsMetric() bool { return s != UK && s != US }

// Spelling is how one journal writes quantities: the units of each kind. What it
// has no say in (gravity, strength, bitterness, volumes of carbon dioxide, pH and
// ions) is written the same everywhere. The zero Spelling is metric.
//
// It only prints: what is held, compared and worked out stays in canonical units.
type Spelling struct {
	Volume, Weight, Temperature, Pressure, Colour System
}

// Converts tells that any of the units are not metric.
func (s Spelling) Converts() bool {
	return !s.Volume.IsMetric() || !s.Weight.IsMetric() || !s.Temperature.IsMetric() || !s.Pressure.IsMetric() ||
		!s.Colour.IsMetric()
}

// Spelt is a quantity as printed; all but Value may be empty. AtMost is a bound that
// it lies under, in the same unit, and AtLeast one that it lies above.
type Spelt struct{ Value, PlusMinus, Unit, AtMost, AtLeast string }

// String is the quantity as a sentence has it: 1.42 ± 0.15 vol, at most 2.1.
func (s Spelt) String() string {
	text := s.Value
	if s.PlusMinus != "" {
		text += " ± " + s.PlusMinus
	}
	if s.Unit != "" {
		text += " " + s.Unit
	}
	if s.AtMost != "" {
		text += ", at most " + s.AtMost
	}
	if s.AtLeast != "" {
		text += ", at least " + s.AtLeast
	}
	return text
}

// Conversion turns a number in a unit that values are held in into the one that a
// Spelling asks for. A difference, as a ± is, takes the factor without the offset.
type Conversion struct {
	Factor, Offset float64
	Unit           string
	// gain is decimals won by the conversion where a number has no ±: a gallon
	// needs one more than a litre.
	gain int
}

// Of is a number converted.
func (c Conversion) Of(x float64) float64 { return x*c.Factor + c.Offset }

// Converts tells that a number changes on the way.
func (c Conversion) Converts() bool { return c.Factor != 1 || c.Offset != 0 }

// Into is the conversion of a unit. K is for differences of temperature, which are
// printed in °C or °F. A unit that the Spelling has no say in stays.
func (s Spelling) Into(unit string) Conversion {
	if above, below, rate := strings.Cut(unit, "/"); rate && below != "kg" &&
		(above == "L" || below == "L" && above == "g") {
		return s.rate(above, below)
	}
	switch unit {
	case "L":
		return byUnits(s.Volume, Conversion{Unit: "L"},
			Conversion{Unit: "UK gal", Factor: 1 / float64(UKGallon), gain: 1},
			Conversion{Unit: "US gal", Factor: 1 / float64(USGallon), gain: 1})
	case "L/kg":
		perPound := Pound.Kilograms()
		return byUnits(s.Volume, Conversion{Unit: unit},
			Conversion{Unit: "UK pt/lb", Factor: perPound / float64(UKPint)},
			Conversion{Unit: "US qt/lb", Factor: perPound * 4 / float64(USGallon)})
	case "UK pints":
		return byUnits(s.Volume, Conversion{Unit: "pints"}, Conversion{Unit: "pints"},
			Conversion{Unit: "US pints", Factor: float64(UKPint / USPint)})
	case "g":
		ounces := Conversion{Unit: "oz", Factor: 1 / float64(Ounce), gain: 1}
		return byUnits(s.Weight, Conversion{Unit: unit}, ounces, ounces)
	case "kg":
		pounds := Conversion{Unit: "lb", Factor: 1000 / float64(Pound)}
		return byUnits(s.Weight, Conversion{Unit: unit}, pounds, pounds)
	case "°C":
		return byUnits(s.Temperature, Conversion{Unit: unit}, Conversion{Unit: unit},
			Conversion{Unit: "°F", Factor: 1.8, Offset: 32})
	case "K":
		return byUnits(s.Temperature, Conversion{Unit: "°C"}, Conversion{Unit: "°C"},
			Conversion{Unit: "°F", Factor: 1.8})
	case "bar":
		psi := Conversion{Unit: "psi", Factor: 1 / float64(PSI), gain: -1}
		return byUnits(s.Pressure, Conversion{Unit: unit}, psi, psi)
	case "EBC":
		return byUnits(s.Colour, Conversion{Unit: unit}, Conversion{Unit: unit},
			Conversion{Unit: "SRM", Factor: 1 / float64(SRM)})
	case "SG":
		return Conversion{Factor: 1}
	}
	return Conversion{Factor: 1, Unit: unit}
}

// rate is the conversion of so much an hour, or of grams in a litre.
func (s Spelling) rate(above, below string) Conversion {
	a, b := s.Into(above), s.Into(below)
	return Conversion{Factor: a.Factor / b.Factor, Unit: a.Unit + "/" + b.Unit, gain: a.gain}
}

func byUnits(system System, metric, uk, us Conversion) Conversion {
	c := metric
	switch system {
	case UK:
		c = uk
	case US:
		c = us
	}
	if c.Factor == 0 {
		c.Factor = 1
	}
	return c
}

// smallLitres is below how many litres a volume is read in pints by those who use
// gallons.
const smallLitres = 2.0

// of is the conversion of one number: that of its unit, but for small volumes.
func (s Spelling) of(value float64, unit string) Conversion {
	c := s.Into(unit)
	if unit == "L" && math.Abs(value) < smallLitres {
		return byUnits(s.Volume, c, Conversion{Unit: "UK pt", Factor: 1 / float64(UKPint)},
			Conversion{Unit: "US pt", Factor: 1 / float64(USPint)})
	}
	return c
}

// halfAnOunce is below what weight, in grams, kitchen ounces are too coarse: doses
// of yeast, salts and sugar are weighed in grams by everybody.
const halfAnOunce = float64(Ounce) / 2

// Offered is the unit, by a symbol that Parse accepts, in which a number of a kind
// is offered to be typed into an entry: the one it was typed in, unless that is a
// metric one and another system was chosen. Volumes of some millilitres and doses
// of some grams stay as they were typed.
func (s Spelling) Offered(k *Kind, typed string, canonical float64) string {
	switch {
	case k == volumes && !s.Volume.IsMetric() && !strings.Contains(typed, "-") && canonical >= fewMillilitres:
		measure := "gal-"
		if canonical < smallLitres {
			measure = "pt-"
		}
		return measure + string(s.Volume)
	case k == masses && !s.Weight.IsMetric() && typed != "lb" && typed != "oz" && canonical >= float64(Pound):
		return "lb"
	case k == masses && !s.Weight.IsMetric() && typed != "lb" && canonical >= halfAnOunce:
		return "oz"
	case k == temperatures && s.Temperature == US:
		return "°F"
	case k == pressures && !s.Pressure.IsMetric():
		return "psi"
	}
	return typed
}

// fewMillilitres is below how many litres a volume is measured in millilitres by
// everybody: acid, finings.
const fewMillilitres = 0.05

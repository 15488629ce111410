package site

import (
	"math"
	"strings"
	"time"

	"gylebook/internal/figures"
	"gylebook/internal/journal"
	"gylebook/internal/quantity"
	"gylebook/internal/site/view"
)

// speller writes numbers and dates as the journal's settings ask: its units and
// its zone.
type speller struct {
	volume, weight, temperature, pressure, colour string // metric, uk or us
	zone                                          *time.Location
}

func newSpeller(s *journal.Settings) speller {
	choose := func(one journal.Choice) string {
		switch {
		case one.Word != "":
			return one.Word
		case s.Units.All.Word != "":
			return s.Units.All.Word
		}
		return "metric"
	}
	zone := s.Zone
	if zone == nil {
		zone = time.UTC
	}
	u := s.Units
	return speller{choose(u.Volume), choose(u.Weight), choose(u.Temperature), choose(u.Pressure), choose(u.Colour), zone}
}

// conversion turns a number in a unit that figures and entries have into the one
// the settings ask for. A difference (a ±) takes the factor without the offset.
type conversion struct {
	factor, offset float64
	unit           string
	// gain is decimals won by the conversion where a number has no ±: a gallon
	// needs one more than a litre.
	gain int
}

// into is the conversion of a unit. What the settings have no say in stays.
//
// uk means gallons, pounds and ounces, °C, psi and EBC; us means US gallons,
// pounds and ounces, °F, psi and SRM.
func (s speller) into(unit string) conversion {
	switch unit {
	case "L":
		return byUnits(s.volume, conversion{unit: "L"}, conversion{unit: "UK gal", factor: 1 / float64(quantity.UKGallon), gain: 1}, conversion{unit: "US gal", factor: 1 / float64(quantity.USGallon), gain: 1})
	case "L/h":
		return byUnits(s.volume, conversion{unit: unit}, conversion{unit: "UK gal/h", factor: 1 / float64(quantity.UKGallon), gain: 1}, conversion{unit: "US gal/h", factor: 1 / float64(quantity.USGallon), gain: 1})
	case "L/kg":
		perPound := quantity.Pound.Kilograms()
		return byUnits(s.volume, conversion{unit: unit}, conversion{unit: "UK pt/lb", factor: perPound / float64(quantity.UKPint)}, conversion{unit: "US qt/lb", factor: perPound * 4 / float64(quantity.USGallon)})
	case "UK pints":
		return byUnits(s.volume, conversion{unit: "pints"}, conversion{unit: "pints"}, conversion{unit: "US pints", factor: float64(quantity.UKPint / quantity.USPint)})
	case "g":
		ounces := conversion{unit: "oz", factor: 1 / float64(quantity.Ounce), gain: 1}
		return byUnits(s.weight, conversion{unit: unit}, ounces, ounces)
	case "kg":
		pounds := conversion{unit: "lb", factor: 1000 / float64(quantity.Pound)}
		return byUnits(s.weight, conversion{unit: unit}, pounds, pounds)
	case "°C":
		return byUnits(s.temperature, conversion{unit: unit}, conversion{unit: unit}, conversion{unit: "°F", factor: 1.8, offset: 32})
	case "bar":
		psi := conversion{unit: "psi", factor: 1 / float64(quantity.PSI), gain: -1}
		return byUnits(s.pressure, conversion{unit: unit}, psi, psi)
	case "EBC":
		return byUnits(s.colour, conversion{unit: unit}, conversion{unit: unit}, conversion{unit: "SRM", factor: 1 / float64(quantity.SRM)})
	case "SG":
		return conversion{factor: 1}
	}
	return conversion{factor: 1, unit: unit}
}

func byUnits(system string, metric, uk, us conversion) conversion {
	c := metric
	switch system {
	case "uk":
		c = uk
	case "us":
		c = us
	}
	if c.factor == 0 {
		c.factor = 1
	}
	return c
}

func (c conversion) of(x float64) float64 { return x*c.factor + c.offset }

// measure is a number of a unit with its ±, as printed. A ± that is not a
// positive number is left out, and then decimals says how far to print.
func (s speller) measure(value, plusMinus float64, unit string, decimals int) view.Measure {
	if math.IsNaN(value) || math.IsInf(value, 0) {
		return view.Measure{}
	}
	c := s.into(unit)
	if unit == "L" && math.Abs(value) < smallLitres {
		c = byUnits(s.volume, c, conversion{unit: "UK pt", factor: 1 / float64(quantity.UKPint)}, conversion{unit: "US pt", factor: 1 / float64(quantity.USPint)})
	}
	if plusMinus > 0 && !math.IsInf(plusMinus, 0) {
		v, pm := quantity.Rounded(c.of(value), plusMinus*c.factor)
		return view.Measure{Value: v, PlusMinus: pm, Unit: c.unit}
	}
	return view.Measure{Value: quantity.Fixed(c.of(value), max(0, decimals+c.gain)), Unit: c.unit}
}

// figure is a figure as printed. The duty strength is cut, not rounded, to one
// decimal: that is how duty is reckoned.
func (s speller) figure(f figures.Figure) view.Measure {
	switch {
	case f.Unit == "date":
		return view.Measure{Value: s.day(f.Date), PlusMinus: dayCount(f.PlusMinus)}
	case f.ID == "abv-duty":
		return view.Measure{Value: quantity.Fixed(math.Floor(f.Value*10+1e-9)/10, 1), Unit: f.Unit}
	}
	decimals := f.Decimals
	if f.Unit == "SG" {
		decimals = 3
	}
	return s.measure(f.Value, f.ShownPlusMinus(), f.Unit, decimals)
}

func dayCount(days float64) string {
	switch {
	case math.IsNaN(days) || days <= 0 || math.IsInf(days, 0):
		return ""
	case days < 1.5:
		return "1 day"
	}
	return quantity.Fixed(days, 0) + " days"
}

// value is what an entry says, in the settings' units, as exactly as it was
// written.
func value[Q quantity.Quantity](s speller, v journal.Value[Q]) view.Measure {
	if !v.Written() || v.None {
		return view.Measure{}
	}
	return amount(s, v.Amount)
}

// amount is a quantity in the settings' units.
func amount[Q quantity.Quantity](s speller, a quantity.Amount[Q]) view.Measure {
	kind := quantity.KindOf[Q]()
	unit, canonical := kind.Canonical().Symbol, float64(a.Value)
	within := float64(a.Within)
	switch kind.Name {
	case "length of time":
		return duration(canonical)
	case "gravity":
		m := s.measure(canonical, within, "SG", 3)
		if within == 0 {
			m.Value = gravityText(canonical)
		}
		return m
	case "weight":
		if canonical < float64(quantity.Ounce) && !strings.HasSuffix(a.Unit, "oz") {
			return inGrams(canonical, within) // yeast and salts, which are sold by the gram everywhere
		}
		return s.mass(canonical, within)
	case "volume":
		return s.liquid(canonical, within)
	case "count of cells", "density of cells":
		return cells(canonical, unit)
	case "pH", "number":
		return s.plain(canonical, within, "")
	}
	return s.plain(canonical, within, unit)
}

// plain is a number as exactly as it was written, in the settings' unit; a
// converted one has four digits.
func (s speller) plain(value, within float64, unit string) view.Measure {
	c := s.into(unit)
	if within > 0 {
		v, pm := quantity.Rounded(c.of(value), within*c.factor)
		return view.Measure{Value: v, PlusMinus: pm, Unit: c.unit}
	}
	x := c.of(value)
	switch {
	case c.factor != 1 || c.offset != 0:
		x = digits(x, 3)
	case math.Abs(x*100-math.Round(x*100)) > 1e-6:
		x = digits(x, 4) // typed in another unit: nobody wrote 73.8889
	}
	return view.Measure{Value: quantity.Plain(x), Unit: c.unit}
}

// inGrams is a weight in grams whatever the settings say.
func inGrams(grams, within float64) view.Measure {
	return speller{weight: "metric"}.plain(grams, within, "g")
}

// smallLitres is below how many litres a volume is read in pints by those who
// use gallons.
const smallLitres = 2.0

// cells is a count of yeast cells, or how thickly they stand.
func cells(n float64, unit string) view.Measure {
	switch {
	case n >= 1e9:
		return view.Measure{Value: quantity.Plain(digits(n/1e9, 3)), Unit: "thousand million " + unit}
	case n >= 1e6:
		return view.Measure{Value: quantity.Plain(digits(n/1e6, 3)), Unit: "million " + unit}
	}
	return view.Measure{Value: quantity.Plain(digits(n, 3)), Unit: unit}
}

// digits rounds to so many significant digits.
func digits(x float64, n int) float64 {
	if x == 0 {
		return 0
	}
	scale := math.Pow10(n - 1 - int(math.Floor(math.Log10(math.Abs(x)))))
	return math.Round(x*scale) / scale
}

// gravityText is a gravity with at least three decimals.
func gravityText(sg float64) string {
	text := quantity.Plain(sg)
	switch _, decimals, _ := strings.Cut(text, "."); {
	case len(decimals) < 3:
		return quantity.Fixed(sg, 3)
	case len(decimals) > 4: // typed as Plato
		return quantity.Fixed(sg, 4)
	}
	return text
}

// mass is a weight in grams, or from a kilogram up in kilograms; in pounds and
// ounces for who wants those.
func (s speller) mass(grams, within float64) view.Measure {
	if s.weight == "metric" {
		if grams >= 1000 {
			return s.plain(grams/1000, within/1000, "kg")
		}
		return s.plain(grams, within, "g")
	}
	if grams >= float64(quantity.Pound) {
		if within == 0 {
			return poundsAndOunces(grams)
		}
		return s.plain(grams/1000, within/1000, "kg")
	}
	return s.plain(grams, within, "g")
}

// poundsAndOunces is a weight as the trade writes it, to a tenth of an ounce.
func poundsAndOunces(grams float64) view.Measure {
	ounces := math.Round(grams/float64(quantity.Ounce)*10) / 10
	pounds := math.Floor(ounces / 16)
	rest := ounces - 16*pounds
	if rest < 0.05 {
		return view.Measure{Value: quantity.Plain(pounds), Unit: "lb"}
	}
	return view.Measure{Value: quantity.Plain(pounds) + " lb " + quantity.Fixed(rest, places(rest)), Unit: "oz"}
}

func places(x float64) int {
	if math.Abs(x-math.Round(x)) < 0.05 {
		return 0
	}
	return 1
}

// liquid is a volume in litres, or in millilitres below a twentieth of one.
func (s speller) liquid(litres, within float64) view.Measure {
	small := math.Abs(litres) < 0.05 && litres != 0
	switch {
	case s.volume == "metric" && small:
		return view.Measure{Value: quantity.Plain(digits(litres*1000, 4)), Unit: "mL"}
	case s.volume == "metric":
		if cents := litres * 100; math.Abs(cents-math.Round(cents)) > 1e-6 {
			litres = digits(litres, 3) // of pints
		}
		return s.plain(litres, within, "L")
	case small:
		return view.Measure{Value: quantity.Plain(digits(litres*1000, 3)), Unit: "mL"}
	case litres < 2 && s.volume == "uk":
		return view.Measure{Value: quantity.Plain(digits(litres/float64(quantity.UKPint), 3)), Unit: "UK pt"}
	case litres < 2:
		return view.Measure{Value: quantity.Plain(digits(litres/float64(quantity.USPint), 3)), Unit: "US pt"}
	}
	return s.plain(litres, within, "L")
}

// duration is a length of time in the units that suit it.
func duration(minutes float64) view.Measure {
	switch {
	case minutes < 0:
		return view.Measure{Value: quantity.Plain(minutes), Unit: "min"}
	case minutes >= 2880:
		return view.Measure{Value: quantity.Plain(digits(minutes/1440, 3)), Unit: "days"}
	case minutes == 1440:
		return view.Measure{Value: "1", Unit: "day"}
	case minutes > 180:
		return view.Measure{Value: quantity.Plain(digits(minutes/60, 3)), Unit: "h"}
	}
	return view.Measure{Value: quantity.Plain(minutes), Unit: "min"}
}

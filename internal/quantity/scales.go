package quantity

import (
	"math"
	"time"
)

// Quantity is what every scale in this package satisfies: a float64 in a
// canonical unit, which knows the kind of number it is.
type Quantity interface {
	~float64
	Kind() *Kind
}

// Volume is in litres at 20 °C. It catches the litre that was meant as a
// kilogram of grist, and 5 US gallons added to 5 UK ones.
type Volume float64

// Volumes in other units: 5 * UKGallon is a Volume. Definitions: Units of
// Measurement Regulations 1995 (UK), NIST SP 811 (US).
const (
	Litre      Volume = 1
	Millilitre Volume = 0.001
	UKGallon   Volume = 4.54609
	UKPint     Volume = UKGallon / 8
	USGallon   Volume = 3.785411784
	USPint     Volume = USGallon / 8
)

// Litres is the volume in litres.
func (v Volume) Litres() float64 { return float64(v) }

// UKPints is the volume in UK pints of 568.26125 mL.
func (v Volume) UKPints() float64 { return float64(v / UKPint) }

// Mass is in grams. It catches priming sugar in ounces read as grams.
type Mass float64

// Masses in other units; the pound is exactly 453.59237 g.
const (
	Gram     Mass = 1
	Kilogram Mass = 1000
	Pound    Mass = 453.59237
	Ounce    Mass = Pound / 16
)

// Grams is the mass in grams.
func (m Mass) Grams() float64 { return float64(m) }

// Kilograms is the mass in kilograms.
func (m Mass) Kilograms() float64 { return float64(m) / 1000 }

// Temperature is in degrees Celsius. Since the scale has an offset, make one
// with Celsius or Fahrenheit; the difference of two is a number of kelvins.
type Temperature float64

// Celsius makes a Temperature from degrees Celsius.
func Celsius(degrees float64) Temperature { return Temperature(degrees) }

// Fahrenheit makes a Temperature from degrees Fahrenheit.
func Fahrenheit(degrees float64) Temperature { return Temperature((degrees - 32) / 1.8) }

// Celsius is the temperature in degrees Celsius.
func (t Temperature) Celsius() float64 { return float64(t) }

// Fahrenheit is the temperature in degrees Fahrenheit.
func (t Temperature) Fahrenheit() float64 { return float64(t)*1.8 + 32 }

// Kelvin is the absolute temperature in kelvins.
func (t Temperature) Kelvin() float64 { return float64(t) + 273.15 }

// Percent is a share in hundredths, as written before a % sign: 4.9 % is 4.9.
// It catches the 0.049 that was meant as a percentage.
type Percent float64

// Fraction is the share of one: 4.9 % is 0.049.
func (p Percent) Fraction() float64 { return float64(p) / 100 }

// Duration is in minutes; half-widths and hours past a day are common, so it is
// a number and not a time.Duration.
type Duration float64

// Durations in other units.
const (
	Minute Duration = 1
	Hour   Duration = 60
	Day    Duration = 24 * Hour
)

// Minutes is the duration in minutes.
func (d Duration) Minutes() float64 { return float64(d) }

// Hours is the duration in hours.
func (d Duration) Hours() float64 { return float64(d / Hour) }

// Span is the length of time as Go counts it, in whole seconds and 100 years at most.
func (d Duration) Span() time.Duration {
	const most = 100 * 366 * Day
	return time.Duration(math.Round(float64(min(max(d, -most), most))*60)) * time.Second
}

// Days is the duration in days of 24 hours.
func (d Duration) Days() float64 { return float64(d / Day) }

// Bitterness is in international bitterness units, about milligrams of
// iso-alpha acids in a litre of beer.
type Bitterness float64

// IBU is the bitterness in international bitterness units.
func (b Bitterness) IBU() float64 { return float64(b) }

// Colour is in EBC units. US brewers write SRM (1 SRM = 1.97 EBC) and degrees
// Lovibond, which for malt are taken as equal to SRM (common practice, good to
// about half a degree above 5).
type Colour float64

// SRM is a Colour of one unit by the US method, 1.97 EBC: 25 ÷ 12.7, from the
// factors by which EBC Analytica 9.6 and ASBC Beer-10 multiply the same
// absorbance.
const SRM Colour = 1.97

// EBC is the colour in EBC units.
func (c Colour) EBC() float64 { return float64(c) }

// SRM is the colour in SRM units.
func (c Colour) SRM() float64 { return float64(c / SRM) }

// Extract is what a kilogram of an ingredient gives, in litre-degrees per
// kilogram: points of gravity in one litre of wort.
type Extract float64

// PureSugar is the extract of pure sucrose, the 100 % of an extract written as
// a percentage. 385 Ldeg/kg follows from the density of sucrose solutions
// (NBS Circular C440) at brewing strength.
const PureSugar Extract = 385

// Carbonation is carbon dioxide in volumes: litres of gas at 0 °C and
// 101.325 kPa held by a litre of beer.
type Carbonation float64

// GramsPerVolume is the density of CO2 at 0 °C and 101.325 kPa as a real gas,
// g/L: the grams per litre of beer that make one volume. Handbook values are
// 1.9769 to 1.9770 (from memory; the ideal gas would give 1.9635).
const GramsPerVolume = 1.977

// Volumes is the carbonation in volumes.
func (c Carbonation) Volumes() float64 { return float64(c) }

// GramsPerLitre is the carbonation in grams of CO2 per litre of beer.
func (c Carbonation) GramsPerLitre() float64 { return float64(c) * GramsPerVolume }

// Pressure is in bar above the atmosphere (gauge), as makers stamp it.
type Pressure float64

// Pressures in other units, all gauge.
const (
	Bar Pressure = 1
	PSI Pressure = 0.06894757293168
)

// Bar is the pressure in bar gauge.
func (p Pressure) Bar() float64 { return float64(p) }

// AirPressure is the absolute pressure of the air at a place, in kilopascals, as
// a barometer there shows it. It catches the gauge that was read as a barometer:
// none of its units is one that a gauge on a vessel has, and it adds to a
// Pressure only where somebody says so.
type AirPressure float64

// Pressures of the air in other units. The atmosphere is exact; the millimetre
// of mercury is 133.322 387 415 Pa, that of 13 595.1 kg/m³ under standard
// gravity (BS 350:1974, conversion factors), and the inch 25.4 of them.
const (
	Kilopascal          AirPressure = 1
	Atmosphere          AirPressure = 101.325
	MillimetreOfMercury AirPressure = 0.133322387415
	InchOfMercury       AirPressure = 25.4 * MillimetreOfMercury
)

// Kilopascals is the absolute pressure in kPa.
func (p AirPressure) Kilopascals() float64 { return float64(p) }

// Bar is the absolute pressure in bar.
func (p AirPressure) Bar() float64 { return float64(p) / 100 }

// Height is in metres above the sea. It catches feet read as metres.
type Height float64

// Heights in other units; the foot is exactly 0.3048 m.
const (
	Metre Height = 1
	Foot  Height = 0.3048
)

// Metres is the height in metres.
func (h Height) Metres() float64 { return float64(h) }

// Concentration is in milligrams per litre, which a water report calls ppm.
type Concentration float64

// MilligramsPerLitre is the concentration in mg/L.
func (c Concentration) MilligramsPerLitre() float64 { return float64(c) }

// Cells is a count of yeast cells.
type Cells float64

// CellDensity is yeast cells per gram of dried yeast, or per millilitre of
// slurry or liquid yeast: which of the two, the way it is sold decides.
type CellDensity float64

// Acidity is pH, at the temperature of a cooled sample.
type Acidity float64

// Brix is a refractometer's or saccharometer's reading in degrees Brix: grams
// of sucrose in 100 g for a pure solution, and only a reading for anything
// with alcohol in it.
type Brix float64

// Number is a bare count or score.
type Number float64

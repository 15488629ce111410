package quantity

import (
	"math"
	"testing"
	"time"

	"pgregory.net/rapid"
)

// TestSpan: a length of time as Go counts it, bounded where Go's own would overflow.
func TestSpan(t *testing.T) {
	for d, want := range map[Duration]time.Duration{
		0: 0, Minute: time.Minute, 90 * Minute: 90 * time.Minute, 2 * Day: 48 * time.Hour,
		-Hour: -time.Hour, Minute / 60: time.Second, 1e12: 100 * 366 * 24 * time.Hour,
		-1e12: -100 * 366 * 24 * time.Hour,
	} {
		if got := d.Span(); got != want {
			t.Errorf("%g minutes: %s, want %s", float64(d), got, want)
		}
	}
}

// TestScales reads a value as a brewer writes it and asks for it in every other unit
// that the package offers. What is expected is from the definitions: the pint of
// 568.26125 mL (Weights and Measures Act 1985), the pound of 453.59237 g, the ice
// point of 273.15 K, 1.97 EBC to the SRM (EBC Analytica 9.6 and ASBC Beer-10 by the
// same absorbance), 1.977 g of carbon dioxide to a litre of gas (handbooks, from
// memory), 100 kPa to the bar.
func TestScales(t *testing.T) {
	for _, c := range []struct {
		what      string
		got, want float64
	}{
		{"litres of 2 UK pints", must[Volume](t, "2 pt-uk").Litres(), 1.1365225},
		{"UK pints of a pin", must[Volume](t, "4.5 gal-uk").UKPints(), 36},
		{"litres of a US quart", must[Volume](t, "1 qt-us").Litres(), 0.946352946},
		{"millilitres", float64(250 * Millilitre), 0.25},
		{"grams of a pound", must[Mass](t, "1 lb").Grams(), 453.59237},
		{"kilograms of a stone", must[Mass](t, "14 lb").Kilograms(), 6.35029318},
		{"ounces of a pound", float64(Pound / Ounce), 16},
		{"grams of a kilogram", float64(Kilogram / Gram), 1000},
		{"boiling in Celsius", Fahrenheit(212).Celsius(), 100},
		{"boiling in Fahrenheit", Celsius(100).Fahrenheit(), 212},
		{"boiling in kelvins", Celsius(100).Kelvin(), 373.15},
		{"where both scales meet", Fahrenheit(-40).Celsius(), -40},
		{"absolute nought", must[Temperature](t, "-459.67 F").Kelvin(), 0},
		{"a share", must[Percent](t, "4.9 %").Fraction(), 0.049},
		{"minutes of a week", must[Duration](t, "1 week").Minutes(), 10080},
		{"hours of two days", must[Duration](t, "2 days").Hours(), 48},
		{"days of 36 hours", must[Duration](t, "36 h").Days(), 1.5},
		{"days of twelve months", must[Duration](t, "12 months").Days(), 365.25},
		{"an IBU", must[Bitterness](t, "32 IBU").IBU(), 32},
		{"EBC of 10 SRM", must[Colour](t, "10 SRM").EBC(), 19.7},
		{"SRM of 19.7 EBC", must[Colour](t, "19.7 EBC").SRM(), 10},
		{"pure sugar", float64(must[Extract](t, "100 %")), 385},
		{"volumes of 1.977 g/L", must[Carbonation](t, "1.977 g/L").Volumes(), 1},
		{"grams in a litre of 2 volumes", must[Carbonation](t, "2 vol").GramsPerLitre(), 3.954},
		{"bar of an atmosphere's psi", must[Pressure](t, "14.695948776 psi").Bar(), 1.01325},
		{"bar of a kilopascal", must[Pressure](t, "1 kPa").Bar(), 0.01},
		{"kilopascals of an atmosphere", float64(Atmosphere), 101.325},
		{"kilopascals of 760 mm of mercury", must[AirPressure](t, "760 mmHg").Kilopascals(), 101.325014},
		{"bar of 950 hPa", must[AirPressure](t, "950 hPa").Bar(), 0.95},
		{"metres of 1000 feet", must[Height](t, "1000 ft").Metres(), 304.8},
		{"metres of a kilometre", must[Height](t, "1 km").Metres(), 1000},
		{"milligrams in a litre of 2 g/L", must[Concentration](t, "2 g/L").MilligramsPerLitre(), 2000},
		{"cells of 2 bn", float64(must[Cells](t, "2 bn")), 2e9},
	} {
		if math.Abs(c.got-c.want) > exact*max(1, math.Abs(c.want))*1000 { // 760 mm are given to nine digits
			t.Errorf("%s: %v, want %v", c.what, c.got, c.want)
		}
	}
}

// must is a quantity that reads.
func must[Q Quantity](t *testing.T, text string) Q {
	t.Helper()
	a, err := Parse[Q](text)
	if err != nil {
		t.Fatal(err)
	}
	return a.Value
}

// TestTemperaturesTurnBack: a temperature is the same from either scale, and a
// degree of one is 1.8 of the other.
func TestTemperaturesTurnBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		x := rapid.Float64Range(-50, 250).Draw(t, "degrees")
		if got := Fahrenheit(x).Fahrenheit(); math.Abs(got-x) > 1e-9 {
			t.Fatalf("%v °F come back as %v", x, got)
		}
		if got := Celsius(x+1).Fahrenheit() - Celsius(x).Fahrenheit(); math.Abs(got-1.8) > 1e-9 {
			t.Fatalf("a degree Celsius at %v is %v °F", x, got)
		}
	})
}

package quantity

import (
	"encoding/csv"
	"math"
	"os"
	"slices"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// exact is how far a conversion may be from a published unit, relatively: the
// rounding of floating point, since the units are exact by definition.
const exact = 1e-9

// value reads text as Q and gives the canonical number.
func value[Q Quantity](text string) (float64, error) {
	a, err := Parse[Q](text)
	return float64(a.Value), err
}

// TestPublishedUnits holds each unit to the published definitions.
func TestPublishedUnits(t *testing.T) {
	published := publishedUnits(t)
	for _, c := range []struct {
		text   string
		read   func(string) (float64, error)
		row    string
		factor float64 // of the row's unit in the canonical one, and of the text in the row's
	}{
		{"1 gal-uk", value[Volume], "UK gallon", 1}, {"1 qt-uk", value[Volume], "UK quart", 1},
		{"1 pt-uk", value[Volume], "UK pint", 1},
		{"1 fl-oz-uk", value[Volume], "UK fluid ounce", 0.001}, {"36 gal-uk", value[Volume], "UK beer barrel", 1},
		{"1 gal-us", value[Volume], "US gallon (231 cubic inches)", 1}, {"1 qt-us", value[Volume], "US quart", 1},
		{"1 fl-oz-us", value[Volume], "US fluid ounce", 0.001},
		{"31 gal-us", value[Volume], "US beer barrel", 1}, {"2 pt-us", value[Volume], "US quart", 1},
		{"1 lb", value[Mass], "pound", 1000}, {"1 oz", value[Mass], "ounce", 1}, {"14 lb", value[Mass], "stone", 1000},
		{"1 psi", value[Pressure], "psi", 0.01}, {"1000 mbar", value[Pressure], "bar", 0.01},
		{"1 kPa", value[Pressure], "", 0.01},
		{"1 bar", value[Pressure], "bar", 0.01},
	} {
		want := c.factor
		if c.row != "" {
			want *= published(c.row)
		}
		got, err := c.read(c.text)
		if err != nil || math.Abs(got-want) > exact*want {
			t.Errorf("%s is %v, want %v (%v)", c.text, got, want, err)
		}
	}
	if degree := float64(Fahrenheit(1) - Fahrenheit(0)); math.Abs(degree-published("degree Fahrenheit")) > exact {
		t.Errorf("a degree Fahrenheit is %v K", degree)
	}
}

// publishedUnits is the table of published units, by name.
func publishedUnits(t *testing.T) func(name string) float64 {
	t.Helper()
	file, err := os.Open("../../testdata/reference/15_units.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	rows, err := csv.NewReader(file).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	return func(name string) float64 {
		for _, row := range rows {
			if row[0] == name {
				x, err := strconv.ParseFloat(row[2], 64)
				if err != nil {
					t.Fatal(err)
				}
				return x
			}
		}
		t.Fatalf("no unit %q in the table", name)
		return 0
	}
}

// TestEveryUnit reads every unit of every kind in each of its spellings.
func TestEveryUnit(t *testing.T) {
	for _, c := range []struct {
		read func(string) (float64, error)
		want map[string]float64 // of 2 units
	}{
		{value[Volume], map[string]float64{"L": 2, "litre": 2, "liters": 2, "mL": 0.002, "millilitres": 0.002,
			"hL": 200, "m3": 2000, "m³": 2000, "gal-uk": 9.09218, "GAL-US": 7.570823568, "pints-uk": 1.1365225,
			"fl-oz-us": 0.0591470591}},
		{value[Mass], map[string]float64{"g": 2, "grams": 2, "kg": 2000, "KG": 2000, "mg": 0.002, "lb": 907.18474,
			"lbs": 907.18474, "oz": 56.69904625}},
		{value[Temperature], map[string]float64{"C": 2, "°C": 2, "degC": 2, "c": 2, "F": -16.666666667,
			"°F": -16.666666667, "degf": -16.666666667}},
		{value[Gravity], map[string]float64{"": 2, "SG": 2, "P": 1.00778, "°P": 1.00778, "Plato": 1.00778,
			"Bx": 1.00778, "°Bx": 1.00778}},
		{value[Duration], map[string]float64{"min": 2, "mins": 2, "minutes": 2, "h": 120, "hours": 120, "day": 2880,
			"days": 2880, "d": 2880, "weeks": 20160, "months": 87660, "s": 2.0 / 60, "sec": 2.0 / 60}},
		{value[Percent], map[string]float64{"%": 2, "percent": 2}},
		{value[Bitterness], map[string]float64{"IBU": 2, "EBU": 2, "ibu": 2}},
		{value[Colour], map[string]float64{"EBC": 2, "SRM": 3.94, "degL": 3.94, "°L": 3.94}},
		{value[Extract], map[string]float64{"Ldeg/kg": 2, "L°/kg": 2, "%": 7.7}},
		{value[Carbonation], map[string]float64{"vol": 2, "vols": 2, "volumes": 2, "g/L": 1.011633789}},
		{value[Pressure], map[string]float64{"bar": 2, "mbar": 0.002, "psi": 0.137895146, "kPa": 0.02}},
		{value[Height], map[string]float64{"m": 2, "metres": 2, "km": 2000, "ft": 0.6096, "feet": 0.6096}},
		{value[AirPressure], map[string]float64{"kPa": 2, "hPa": 0.2, "mbar": 0.2, "millibars": 0.2, "mmHg": 0.26664477,
			"inHg": 6.7727776}},
		{value[Concentration], map[string]float64{"mg/L": 2, "ppm": 2, "g/L": 2000}},
		{value[Cells], map[string]float64{"cells": 2, "cell": 2}},
		{value[CellDensity], map[string]float64{"cells/g": 2, "cells/mL": 2}},
		{value[Acidity], map[string]float64{"": 2, "pH": 2}},
		{value[Brix], map[string]float64{"": 2, "Bx": 2, "°Bx": 2, "Brix": 2}},
		{value[Number], map[string]float64{"": 2}},
	} {
		for unit, want := range c.want {
			for _, text := range []string{"2 " + unit, "2" + unit, " 2.0  " + unit + " ", "+2 " + unit, "2e0 " + unit} {
				got, err := c.read(text)
				// Plato is from the published table, which has five decimals.
				if err != nil || math.Abs(got-want) > 1e-5*max(1, math.Abs(want)) {
					t.Errorf("%q is %v, want %v (%v)", text, got, want, err)
				}
			}
		}
	}
}

// TestUnitsRoundTrip: into the canonical unit and out again is the same number,
// for every unit of every kind.
func TestUnitsRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		k := rapid.SampledFrom(AllKinds()).Draw(t, "kind")
		u := rapid.SampledFrom(k.Units).Draw(t, "unit")
		x := rapid.Float64Range(0.1, 30).Draw(t, "x")
		if again := u.Out(u.In(x)); math.Abs(again-x) > exact*x {
			t.Fatalf("%v %s comes back as %v", x, u.Symbol, again)
		}
	})
}

// TestParseReadsWhatIsPrinted: a number printed with any unit of its kind is
// read as that number, and so is its half-width.
func TestParseReadsWhatIsPrinted(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		printedAndRead[Volume](t)
		printedAndRead[Mass](t)
		printedAndRead[Temperature](t)
		printedAndRead[Gravity](t)
		printedAndRead[Duration](t)
		printedAndRead[Pressure](t)
	})
}

func printedAndRead[Q Quantity](t *rapid.T) {
	u := rapid.SampledFrom(KindOf[Q]().Units).Draw(t, "unit")
	x := float64(rapid.IntRange(500, 40_000).Draw(t, "thousandths")) / 1000
	width := float64(rapid.IntRange(0, 400).Draw(t, "width in thousandths")) / 1000
	number := func(x float64) string { return strconv.FormatFloat(x, 'f', -1, 64) }
	for _, text := range []string{
		number(x) + " " + u.Symbol, number(x) + u.Symbol + " ± " + number(width) + " " + u.Symbol,
		number(x) + " " + u.Symbol + " +/- " + number(width),
	} {
		a, err := Parse[Q](text)
		if err != nil {
			t.Fatal(err)
		}
		if want := u.In(x); math.Abs(float64(a.Value)-want) > exact*max(1, math.Abs(want)) {
			t.Fatalf("%q is %v, want %v", text, a.Value, want)
		}
		if a.Typed != strings.Contains(text, " ± ") && !strings.Contains(text, "+/-") {
			t.Fatalf("%q: Typed is %v", text, a.Typed)
		}
		if want := math.Abs(u.In(x+width)-u.In(x-width)) / 2; a.Typed &&
			math.Abs(float64(a.Within)-want) > exact*max(1, want) {
			t.Fatalf("%q: within %v, want %v", text, a.Within, want)
		}
	}
}

func TestParseRange(t *testing.T) {
	for _, c := range []struct {
		text      string
		low, high float64
		wrong     string
		offset    int
	}{
		{"72 to 78 %", 72, 78, "", 0}, {"72 % to 78 %", 72, 78, "", 0}, {"75 %", 75, 75, "", 0},
		{"72% to 78%", 72, 78, "", 0}, {"72 to 72 %", 72, 72, "", 0},
		{"78 to 72 %", 0, 0, `"78 to 72 %" runs downward: expected the lower end first`, 0},
		{"72 to 78", 0, 0, `no unit after "78": expected % (78 %?)`, 6},
		{"72 to", 0, 0, `"to" is no unit of percentage: expected %`, 3},
		{"72 to high %", 0, 0, `"high %": expected a percentage such as 4.9 %`, 6},
		{"low to 78 %", 0, 0, `"low %": expected a percentage such as 4.9 %`, 0},
		{"72,5 to 78 %", 0, 0, `a comma in "72,5": expected a decimal point (72.5 %?)`, 0},
		{"72 to 78,5 %", 0, 0, `a comma in "78,5": expected a decimal point (78.5 %?)`, 6},
		{"72 - 78 %", 0, 0, `"-" is no unit of percentage: expected %`, 3},
		{"", 0, 0, `nothing: expected a percentage such as 4.9 %`, 0},
	} {
		r, err := ParseRange[Percent](c.text)
		if c.wrong != "" {
			e, ok := err.(*ParseError)
			if !ok || e.Error() != c.wrong || e.Offset != c.offset {
				t.Errorf("%q: %v at %+v\nwant %s at %d", c.text, err, e, c.wrong, c.offset)
			}
			continue
		}
		if err != nil || float64(r.Low) != c.low || float64(r.High) != c.high {
			t.Errorf("%q = %v, %v", c.text, r, err)
		}
	}
	mixed, err := ParseRange[Temperature]("64 F to 22 C")
	if err != nil || math.Abs(float64(mixed.Low)-17.7778) > 1e-4 || mixed.High != 22 {
		t.Errorf("64 F to 22 C = %v, %v", mixed, err)
	}
	bare, err := ParseRange[Gravity]("1.030 to 1.039")
	if err != nil || bare.Low != 1.030 || bare.High != 1.039 || math.Abs(float64(bare.Middle())-1.0345) > exact ||
		math.Abs(float64(bare.HalfWidth())-0.0045) > exact {
		t.Errorf("1.030 to 1.039 = %v, %v", bare, err)
	}
	plato, err := ParseRange[Gravity]("8 to 12 P")
	if err != nil || math.Abs(plato.Low.Plato()-8) > exact || math.Abs(plato.High.Plato()-12) > exact {
		t.Errorf("8 to 12 P = %v, %v", plato, err)
	}
}

// TestParseErrors: where the error stands, and whether the number itself was
// readable.
func TestParseErrors(t *testing.T) {
	for _, c := range []struct {
		text, want string
		offset     int
		unit       bool
	}{
		{"20 gal", `"gal", which differs between the UK and the US: expected gal-uk or gal-us`, 3, true},
		{"20 pints", `"pints", which differs between the UK and the US: expected pt-uk or pt-us`, 3, true},
		{"20 kg", `"kg" is no unit of volume: expected one of L, mL, cL, hL, gal-uk, qt-uk, pt-uk, fl-oz-uk, gal-us, qt-us, pt-us, fl-oz-us, m3`, 3, true},
		{"20", `no unit after "20": expected one of L, mL, cL, hL, gal-uk, qt-uk, pt-uk, fl-oz-uk, gal-us, qt-us, pt-us, fl-oz-us, m3`, 0, true},
		{"2O L", `"O" is no unit of volume: expected one of L, mL, cL, hL, gal-uk, qt-uk, pt-uk, fl-oz-uk, gal-us, qt-us, pt-us, fl-oz-us, m3`, 1, true},
		{"about 20 L", `"about 20 L": expected a volume such as 20.5 L`, 0, false},
		{"1,000 L", `a comma in "1,000": expected 1000 or 1.000, whichever is meant`, 0, false},
		{"20 L ±", `nothing: expected a volume such as 20.5 L`, 7, false},
		{"20 L ± -1 L", `a half-width below nothing: expected how far off it may be, as ± 0.5`, 8, false},
		{"1e400 L", `"1e400": expected a number of ordinary size`, 0, false},
		{"1e308 m3", `"1e308 m3": expected a number of ordinary size`, 0, false},
		{"1 L ± 1e308 m3", `"1 L ± 1e308 m3": expected a number of ordinary size`, 0, false},
		{"20 — L", `"— L" left over: expected a volume such as 20.5 L`, 3, false},
		{strings.Repeat("1", 121), `121 characters: expected a volume such as 20.5 L`, 0, false},
	} {
		_, err := Parse[Volume](c.text)
		e, ok := err.(*ParseError)
		if !ok || e.Error() != c.want || e.Offset != c.offset || e.Unit != c.unit {
			t.Errorf("%.40q: %v at %+v\nwant %s at %d, unit %v", c.text, err, e, c.want, c.offset, c.unit)
		}
	}
}

// TestKinds: every kind has an example that it reads, and a unit has one
// meaning within its kind.
func TestKinds(t *testing.T) {
	for _, k := range AllKinds() {
		var seen []string
		for _, u := range k.Units {
			for _, spelling := range append([]string{u.Symbol}, u.Also...) {
				if slices.Contains(seen, strings.ToLower(spelling)) {
					t.Errorf("%s: %q stands for two units", k.Name, spelling)
				}
				seen = append(seen, strings.ToLower(spelling))
			}
		}
		if k.Name == "" || k.Example == "" || k.Canonical().In(7) != 7 {
			t.Errorf("%+v", k)
		}
	}
}

// FuzzParse: any text gives a finite number or an error with a place in it, and
// never a half-width below nothing.
func FuzzParse(f *testing.F) {
	for _, text := range []string{
		"20.5 L", "1 lb 4 oz", "66 °C", "10.2 P", "2 h 30 min", "20.5 ± 0.5 L", "1.041 +/- 0.001", "1.036 ± 1 P",
		"20,5 L", "−2 °C", "20e9 cells", "5 gal", "20 fl oz", "72 to 78 %", "± 1", "1 L 1", "1e308 P",
	} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		fuzzed[Volume](t, text)
		fuzzed[Mass](t, text)
		fuzzed[Temperature](t, text)
		fuzzed[Gravity](t, text)
		fuzzed[Duration](t, text)
		fuzzed[Number](t, text)
	})
}

func fuzzed[Q Quantity](t *testing.T, text string) {
	a, err := Parse[Q](text)
	if err != nil {
		if e, ok := err.(*ParseError); !ok || e.Offset < 0 || e.Offset > len(text) || e.Found == "" ||
			e.Expected == "" {
			t.Errorf("%q: %+v", text, err)
		}
	} else if !finite(float64(a.Value)) || !finite(float64(a.Within)) || a.Within < 0 {
		t.Errorf("%q = %+v", text, a)
	}
	r, err := ParseRange[Q](text)
	if err == nil && !(r.Low <= r.High) {
		t.Errorf("%q = %+v", text, r)
	}
}

// BenchmarkParse is one quantity with its half-width.
func BenchmarkParse(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		if _, err := Parse[Volume]("20.5 ± 0.5 L"); err != nil {
			b.Fatal(err)
		}
	}
}

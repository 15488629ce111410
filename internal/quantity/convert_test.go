package quantity

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// asTyped writes a printed unit as Parse reads it.
var asTyped = strings.NewReplacer("UK gal", "gal-uk", "US gal", "gal-us", "UK pt", "pt-uk", "US pt", "pt-us",
	"US pints", "pt-us", "pints", "pt-uk", "US qt", "qt-us")

// TestIntoAgainstTheReader holds every unit that a Spelling converts to what the
// reader makes of the same unit: two tables written apart.
func TestIntoAgainstTheReader(t *testing.T) {
	read := map[string]func(string) (float64, error){
		"L": value[Volume], "UK pints": value[Volume], "g": value[Mass], "kg": value[Mass], "°C": value[Temperature],
		"bar": value[Pressure], "EBC": value[Colour],
	}
	canonicalIn := map[string]float64{"UK pints": float64(UKPint), "kg": 1000}
	for unit, reader := range read {
		for _, s := range []Spelling{inMetric, inUK, inUS} {
			c := s.Into(unit)
			for _, x := range []float64{0, 1, 2.5, 40} {
				got, err := reader(strings.Replace(Plain(c.Of(x)), "−", "-", 1) + " " + asTyped.Replace(c.Unit))
				factor := canonicalIn[unit]
				if factor == 0 {
					factor = 1
				}
				// Plain prints six digits.
				if want := x * factor; err != nil || math.Abs(got-want) > 1e-5*max(1, want) {
					t.Errorf("%v %s is %v %s, which is read as %v (%v)", x, unit, c.Of(x), c.Unit, got, err)
				}
			}
		}
	}
}

// TestIntoRates: rates take the factors of both their units. Expected by the
// definitions: 4.54609 L, 3.785411784 L, 453.59237 g.
func TestIntoRates(t *testing.T) {
	for _, c := range []struct {
		unit   string
		s      Spelling
		x      float64
		want   float64
		printd string
	}{
		{"L/kg", inUK, 1, 0.45359237 / 0.56826125, "UK pt/lb"}, {"L/kg", inUS, 1, 0.45359237 / 0.946352946, "US qt/lb"},
		{"L/kg", inMetric, 1, 1, "L/kg"},
		{"L/h", inUK, 4.54609, 1, "UK gal/h"}, {"L/h", inMetric, 1, 1, "L/h"},
		{"g/L", inUK, 1, 4.54609 / 28.349523125, "oz/UK gal"},
		{"g/L", inUS, 1, 3.785411784 / 28.349523125, "oz/US gal"}, {"g/L", inMetric, 3, 3, "g/L"},
		{"g/L", Spelling{Weight: US}, 28.349523125, 1, "oz/L"},
		{"mg/L", inUS, 7, 7, "mg/L"}, {"cells/mL", inUK, 7, 7, "cells/mL"}, {"Ldeg/kg", inUK, 7, 7, "Ldeg/kg"},
		{"SG", inUS, 1.04, 1.04, ""}, {"", inUS, 3, 3, ""}, {"vol", inUS, 2, 2, "vol"},
		{"K", inUS, 10, 18, "°F"}, {"K", inUK, 10, 10, "°C"}, {"K", inMetric, 10, 10, "°C"},
	} {
		got := c.s.Into(c.unit)
		if math.Abs(got.Of(c.x)-c.want) > 1e-7 || got.Unit != c.printd {
			t.Errorf("%v %s is %v %s, want %v %s", c.x, c.unit, got.Of(c.x), got.Unit, c.want, c.printd)
		}
		if got.Converts() != (math.Abs(c.want-c.x) > 1e-9) {
			t.Errorf("%s: a number changes on the way: %v", c.unit, got.Converts())
		}
	}
}

// TestConverts: a journal converts where any of its kinds does.
func TestConverts(t *testing.T) {
	for _, s := range []Spelling{{}, {Metric, Metric, Metric, Metric, Metric}, {Volume: "nonsense"}} {
		if s.Converts() {
			t.Errorf("%+v converts", s)
		}
	}
	for _, s := range []Spelling{{Volume: UK}, {Weight: US}, {Temperature: US}, {Pressure: UK}, {Colour: US}} {
		if !s.Converts() {
			t.Errorf("%+v does not convert", s)
		}
	}
}

func TestBetween(t *testing.T) {
	for _, c := range []struct {
		low, high      float64
		unit           string
		metric, uk, us string
	}{
		{14, 24, "°C", "14 to 24 °C", "14 to 24 °C", "57 to 75 °F"},
		{1, 2.5, "L", "1 to 2.5 L", "0.22 to 0.55 UK gal", "0.26 to 0.66 US gal"},
		{0.5, 1.5, "L", "0.5 to 1.5 L", "0.88 to 2.6 UK pt", "1.1 to 3.2 US pt"},
		{1.03, 1.039, "SG", "1.03 to 1.039", "1.03 to 1.039", "1.03 to 1.039"},
		{16, 28, "EBC", "16 to 28 EBC", "16 to 28 EBC", "8.1 to 14 SRM"},
	} {
		for i, s := range []Spelling{inMetric, inUK, inUS} {
			if got, want := s.Between(c.low, c.high, c.unit), []string{c.metric, c.uk, c.us}[i]; got != want {
				t.Errorf("%v to %v %s is %q, want %q", c.low, c.high, c.unit, got, want)
			}
		}
	}
}

func TestExactly(t *testing.T) {
	for _, c := range []struct {
		value          float64
		unit           string
		metric, uk, us string
	}{
		{20.512345, "L", "20.5123 L", "4.51 UK gal", "5.42 US gal"}, {1.999, "L", "1.999 L", "3.52 UK pt", "4.22 US pt"},
		{2, "L", "2 L", "0.44 UK gal", "0.528 US gal"},
		{-1.5, "L", "−1.5 L", "−2.64 UK pt", "−3.17 US pt"}, {66, "°C", "66 °C", "66 °C", "151 °F"},
		{1.041, "SG", "1.041", "1.041", "1.041"}, {3, "g", "3 g", "0.106 oz", "0.106 oz"},
	} {
		for i, s := range []Spelling{inMetric, inUK, inUS} {
			if got, want := s.Exactly(c.value, c.unit).String(), []string{c.metric, c.uk, c.us}[i]; got != want {
				t.Errorf("%v %s is %q, want %q", c.value, c.unit, got, want)
			}
		}
	}
}

// TestSpelt: a quantity as a sentence has it, with what there is of it.
func TestSpelt(t *testing.T) {
	for want, s := range map[string]Spelt{
		"1": {Value: "1"}, "1 ± 2": {Value: "1", PlusMinus: "2"}, "1 L": {Value: "1", Unit: "L"},
		"1 ± 2 L":            {Value: "1", PlusMinus: "2", Unit: "L"},
		"1 ± 2 L, at most 4": {Value: "1", PlusMinus: "2", Unit: "L", AtMost: "4"},
		"1 vol, at least 0":  {Value: "1", Unit: "vol", AtLeast: "0"}, "": {},
	} {
		if got := s.String(); got != want {
			t.Errorf("%+v is %q", s, got)
		}
	}
}

// TestBounds: a bound is printed where value and ± do not reach as far, to the last
// digit of the value and never nearer to it than it is.
func TestBounds(t *testing.T) {
	for _, c := range []struct {
		value, plusMinus string
		upper            float64
		atMost           string
		lower            float64
		atLeast          string
	}{
		{"1.42", "0.15", 2.0301, "2.04", 0.8399, "0.83"}, {"1.42", "0.15", 2.03, "2.03", 0.84, "0.84"},
		{"1.42", "0.15", 1.6, "", 1.24, ""}, {"1.42", "0.15", 1.62, "1.62", 1.22, "1.22"}, {"5", "1", 7, "7", 0.3, "0"},
		{"5", "1", 6.5, "", 3.5, ""}, {"0.3", "0.1", 0.5, "0.5", -0.04, "−0.1"}, {"−3", "1", 2.1, "3", -9.5, "−10"},
		{"−3", "1", -0.5, "0", -6, "−6"}, {"0.50", "0.10", 1, "1.00", 0.004, "0.00"}, {"2", "", 2.4, "", 1.6, ""},
		{"2", "", 2.6, "3", 1.4, "1"}, {"", "", 3, "", 1, ""}, {"1", "", math.Inf(1), "", math.Inf(-1), ""},
	} {
		printed := Spelt{Value: c.value, PlusMinus: c.plusMinus, Unit: "vol"}
		if got := inUS.Bounded(printed, c.upper, "vol"); got.AtMost != c.atMost || got.AtLeast != "" {
			t.Errorf("%s under %v: at most %q, want %q", printed, c.upper, got.AtMost, c.atMost)
		}
		if got := inUS.BoundedBelow(printed, c.lower, "vol"); got.AtLeast != c.atLeast || got.AtMost != "" {
			t.Errorf("%s above %v: at least %q, want %q", printed, c.lower, got.AtLeast, c.atLeast)
		}
	}
	inGallons := inUS.Measure(20, 1, "L", 1)
	if got := inUS.Bounded(inGallons, 25, "L").String(); got != "5.3 ± 0.3 US gal, at most 6.7" { // 6.604
		t.Error(got)
	}
	if got := inUS.BoundedBelow(inGallons, 15, "L").String(); got != "5.3 ± 0.3 US gal, at least 3.9" { // 3.963
		t.Error(got)
	}
	if got := inUS.BoundedBelow(inUS.Measure(20, 0, "°C", 0), 15.8, "°C").AtLeast; got != "60" { // 60.44 °F
		t.Error(got)
	}
}

// TestPressuresToTheSafeSide, at the numbers where rounding turns: what is typed in
// a tenth of a psi stands, and everything else goes up for what is reached and down
// for what is allowed and left.
func TestPressuresToTheSafeSide(t *testing.T) {
	bar := func(psi float64) float64 { return psi * float64(PSI) }
	for _, c := range []struct{ got, want string }{
		{inUK.AtLeast(bar(30.01), "bar").String(), "31 psi"}, {inUK.AtMost(bar(30.99), "bar").String(), "30 psi"},
		{inUK.AtLeast(bar(30), "bar").String(), "30 psi"},
		{inUK.AtMost(bar(30), "bar").String(), "30 psi"}, {inUK.AtMost(bar(30.1), "bar").String(), "30.1 psi"},
		{inUK.AtMost(bar(9.99), "bar").String(), "9.9 psi"},
		{inUK.AtLeast(bar(9.91), "bar").String(), "10 psi"}, {inUK.AtMost(bar(0.0123), "bar").String(), "0.012 psi"},
		{inUK.AtLeast(bar(0.0123), "bar").String(), "0.013 psi"},
		{inUS.AtMost(20, "L").String(), "5.2 US gal"}, {inUS.AtLeast(20, "L").String(), "5.3 US gal"},
		{inUS.AtMost(20, "°C").String(), "68 °F"}, {inUS.AtLeast(20.1, "°C").String(), "69 °F"},
		{inUS.AtLeast(4, "vol").String(), "4 vol"}, {inUS.Measure(bar(12.3), 0, "bar", 1).String(), "13 psi"},
		{inUS.Measure(bar(12.3), 0, "bar", 2).String(), "12.3 psi"},
		{inUS.Measure(bar(12.3), bar(1.13), "bar", 2).String(), "12.3 ± 1.2 psi"},
		{inUS.Below(bar(12.39), bar(1.13), "bar", 2).String(), "12.3 ± 1.2 psi"},
		{inUS.Below(bar(12.39), 0, "bar", 1).String(), "12 psi"},
		{inUS.Below(0, 0, "bar", 1).String(), "0 psi"}, {inUS.Below(20, 1, "L", 1).String(), "5.3 ± 0.3 US gal"},
		{inUS.Below(math.NaN(), 1, "bar", 1).String(), ""},
		{inUS.Measure(math.Inf(1), 1, "bar", 1).String(), ""},
		{inUS.Measure(bar(12.3), math.Inf(1), "bar", 2).String(), "12.3 psi"},
		{inMetric.Measure(1.234, 0, "bar", 1).String(), "1.2 bar"},
		{inMetric.Below(1.26, 0, "bar", 1).String(), "1.3 bar"},
		{inUK.AtMost(bar(128.44), "bar").String(), "128 psi"}, {inUK.AtLeast(bar(128.44), "bar").String(), "129 psi"},
		{inUS.Fixed(20.5, "L", 1).String(), "5.42 US gal"}, {inMetric.Fixed(20.5, "L", 1).String(), "20.5 L"},
	} {
		if c.got != c.want {
			t.Errorf("%q, want %q", c.got, c.want)
		}
	}
	rapid.Check(t, func(t *rapid.T) {
		x := rapid.Float64Range(0.001, 12).Draw(t, "bar")
		least, most := inUS.AtLeast(x, "bar"), inUS.AtMost(x, "bar")
		if low, high := readable(t, most.Value), readable(t, least.Value); low > x/float64(PSI)+1e-5 ||
			high < x/float64(PSI)-1e-5 {
			t.Fatalf("%v bar is at least %s and at most %s", x, least, most)
		}
		if margin := readable(t, inUS.Below(x, 0, "bar", 1).Value); margin > x/float64(PSI)+1e-5 ||
			margin < x/float64(PSI)-1.01 {
			t.Fatalf("a margin of %v bar reads as %v psi", x, margin)
		}
	})
}

// TestTypedInWholeStands: a limit typed in whole degrees or in tenths of a psi is
// printed as it was typed, on whichever side of it the conversion comes out.
func TestTypedInWholeStands(t *testing.T) {
	for n := 33; n <= 212; n++ {
		heat := float64(must[Temperature](t, fmt.Sprint(n, " F")))
		for _, got := range []Spelt{inUS.AtMost(heat, "°C"), inUS.AtLeast(heat, "°C")} {
			if want := fmt.Sprint(n, " °F"); got.String() != want {
				t.Errorf("%s is printed %s", want, got)
			}
		}
	}
	for n := 1; n <= 600; n++ {
		typed := Plain(float64(n)/10) + " psi"
		pressure := float64(must[Pressure](t, typed))
		for _, got := range []Spelt{inUK.AtMost(pressure, "bar"), inUK.AtLeast(pressure, "bar")} {
			if got.String() != typed {
				t.Errorf("%s is printed %s", typed, got)
			}
		}
	}
}

// TestOfferedAtTheTurns: which unit is offered at the volume and the weight where it
// changes.
func TestOfferedAtTheTurns(t *testing.T) {
	for _, c := range []struct {
		kind      *Kind
		typed     string
		canonical float64
		want      string
	}{
		{volumes, "L", 2, "gal-uk"}, {volumes, "L", 1.99, "pt-uk"}, {volumes, "mL", 0.05, "pt-uk"},
		{volumes, "mL", 0.049, "mL"}, {volumes, "pt-us", 20, "pt-us"},
		{masses, "g", float64(Pound), "lb"}, {masses, "g", 453, "oz"}, {masses, "g", float64(Ounce) / 2, "oz"},
		{masses, "g", 14, "g"}, {masses, "lb", 14, "lb"}, {masses, "lb", 300, "lb"}, {masses, "lb", 2000, "lb"},
		{masses, "lb", 20, "lb"}, {masses, "oz", 2000, "oz"}, {temperatures, "°F", 20, "°F"}, {temperatures, "°C", 20, "°C"},
		{pressures, "bar", 1, "psi"}, {pressures, "kPa", 1, "psi"},
		{colours, "SRM", 20, "SRM"}, {gravities, "°P", 1.04, "°P"}, {durations, "h", 90, "h"},
	} {
		if got := inUK.Offered(c.kind, c.typed, c.canonical); got != c.want {
			t.Errorf("%v of %s typed in %s is offered in %s, want %s", c.canonical, c.kind.Name, c.typed, got, c.want)
		}
	}
}

// TestTextLeavesTheRest: braces that are no quantity stay, and so does what stands
// between the numbers of one.
func TestTextLeavesTheRest(t *testing.T) {
	for text, want := range map[string]string{
		"": "", "no braces": "no braces", "{": "{", "}": "}", "a } b {20 °C}": "a } b 68 °F",
		"{20 °C} and {30 °C}": "68 °F and 86 °F", "{L|a}": "{L|a}", "{L|a|b|c}": "{L|a|b|c}",
		"{g|a|b}{SG|a|b}": "ba", "{L||a quart}": "a quart", "{20}": "{20}", "{ °C}": "{ °C}", "{about °C}": "{about °C}",
		"{about 20 °C}": "about 68 °F", "{20 to 25 °C}": "68 to 77 °F", "{20–25 °C}": "68–77 °F",
		"{0.3 K}": "0.54 °F", "{0.5 K}": "0.9 °F", "{1 K}": "2 °F", "{−18 °C}": "−0.4 °F", "{−17 °C}": "1 °F",
		"{0.5 to 3 L}": "0.13 to 0.79 US gal", "{0.5 to 1.9 L}": "1.1 to 4 US pt", "{5 vol}": "5 vol", "{1.04 SG}": "1.04 SG",
	} {
		if got := inUS.Text(text); got != want {
			t.Errorf("%q is %q, want %q", text, got, want)
		}
	}
	rapid.Check(t, func(t *rapid.T) {
		text := rapid.String().Draw(t, "text")
		if strings.ContainsAny(text, "{}|") {
			return
		}
		if got := inUS.Text(text); got != text {
			t.Fatalf("%q is %q", text, got)
		}
	})
}

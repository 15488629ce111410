package quantity

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

var (
	inMetric = Spelling{}
	inUK     = Spelling{UK, UK, UK, UK, UK}
	inUS     = Spelling{US, US, US, US, US}
)

// TestMeasureFollowsTheSettings: a half-width takes the factor without the offset,
// and no more digits than it supports. Expected by the definitions of the units:
// 4.54609 L, 3.785411784 L, 453.59237 g, 6.894757 kPa, 1.97 EBC.
func TestMeasureFollowsTheSettings(t *testing.T) {
	for _, c := range []struct {
		value, pm      float64
		unit           string
		decimals       int
		metric, uk, us string
	}{
		{20.5, 0.5, "L", 1, "20.5 ± 0.5 L", "4.51 ± 0.11 UK gal", "5.42 ± 0.13 US gal"},
		{20.5, 0, "L", 1, "20.5 L", "4.51 UK gal", "5.42 US gal"},
		{1.2, 0.2, "L", 1, "1.2 ± 0.2 L", "2.1 ± 0.4 UK pt", "2.5 ± 0.4 US pt"},
		{3.6, 0.3, "L/h", 1, "3.6 ± 0.3 L/h", "0.79 ± 0.07 UK gal/h", "0.95 ± 0.08 US gal/h"},
		{1, 0, "g/L", 1, "1.0 g/L", "0.16 oz/UK gal", "0.13 oz/US gal"},
		{3, 0.2, "L/kg", 1, "3.0 ± 0.2 L/kg", "2.39 ± 0.16 UK pt/lb", "1.44 ± 0.10 US qt/lb"},
		{36, 1, "UK pints", 0, "36.0 ± 1.0 pints", "36.0 ± 1.0 pints", "43.2 ± 1.2 US pints"},
		{114, 5, "g", 0, "114 ± 5 g", "4.02 ± 0.18 oz", "4.02 ± 0.18 oz"},
		{4.2, 0, "kg", 2, "4.20 kg", "9.26 lb", "9.26 lb"},
		{66, 0.5, "°C", 1, "66.0 ± 0.5 °C", "66.0 ± 0.5 °C", "150.8 ± 0.9 °F"},
		{3, 0.5, "K", 1, "3.0 ± 0.5 °C", "3.0 ± 0.5 °C", "5.4 ± 0.9 °F"},
		{2.5, 0.2, "bar", 1, "2.5 ± 0.2 bar", "37 ± 3 psi", "37 ± 3 psi"},
		{22, 4, "EBC", 0, "22 ± 4 EBC", "22 ± 4 EBC", "11 ± 2 SRM"},
		{1.0412, 0.001, "SG", 3, "1.0412 ± 0.0010", "1.0412 ± 0.0010", "1.0412 ± 0.0010"},
		{2.2, 0.2, "vol", 1, "2.2 ± 0.2 vol", "2.2 ± 0.2 vol", "2.2 ± 0.2 vol"},
		{32, 0, "IBU", 0, "32 IBU", "32 IBU", "32 IBU"},
		{150, 10, "mg/L", 0, "150 ± 10 mg/L", "150 ± 10 mg/L", "150 ± 10 mg/L"},
		{math.NaN(), 1, "L", 1, "", "", ""},
	} {
		for i, s := range []Spelling{inMetric, inUK, inUS} {
			want := []string{c.metric, c.uk, c.us}[i]
			if got := s.Measure(c.value, c.pm, c.unit, c.decimals).String(); got != want {
				t.Errorf("%v ± %v %s is %q, want %q", c.value, c.pm, c.unit, got, want)
			}
		}
	}
}

// TestTextInBraces: what stands in braces follows the settings, and nothing else.
func TestTextInBraces(t *testing.T) {
	for _, c := range []struct{ text, metric, uk, us string }{
		{"Bring it to {20 or 21 °C}, and wait.", "Bring it to 20 or 21 °C, and wait.",
			"Bring it to 20 or 21 °C, and wait.", "Bring it to 68 or 70 °F, and wait."},
		{"From {18–20 °C} to the cool", "From 18–20 °C to the cool", "From 18–20 °C to the cool",
			"From 64–68 °F to the cool"},
		{"{1 to 2 K} warmer", "1 to 2 °C warmer", "1 to 2 °C warmer", "2 to 4 °F warmer"},
		{"{1 to 2 L} is usual", "1 to 2 L is usual", "0.22 to 0.44 UK gal is usual", "0.26 to 0.53 US gal is usual"},
		{"{10 g} in {20 L}", "10 g in 20 L", "0.35 oz in 4.4 UK gal", "0.35 oz in 5.3 US gal"},
		{"{−10 to 105 °C}", "−10 to 105 °C", "−10 to 105 °C", "14 to 221 °F"},
		{"{0.7 bar}", "0.7 bar", "10 psi", "10 psi"},
		{"{2 g/L} of sugar", "2 g/L of sugar", "0.32 oz/UK gal of sugar", "0.27 oz/US gal of sugar"},
		{"{L|a litre|a quart} at a time", "a litre at a time", "a quart at a time", "a quart at a time"},
		{"{K|a degree|two degrees}", "a degree", "a degree", "two degrees"},
		{"20 °C without braces, {a name} and {} and {20", "20 °C without braces, {a name} and {} and {20",
			"20 °C without braces, {a name} and {} and {20", "20 °C without braces, {a name} and {} and {20"},
	} {
		for i, s := range []Spelling{inMetric, inUK, inUS} {
			want := []string{c.metric, c.uk, c.us}[i]
			if got := s.Text(c.text); got != want {
				t.Errorf("%q is %q, want %q", c.text, got, want)
			}
		}
	}
}

// TestEachKindByItself: a journal may choose for one kind alone, and a rate follows
// both of its kinds.
func TestEachKindByItself(t *testing.T) {
	for _, c := range []struct {
		units      Spelling
		text, want string
	}{
		{Spelling{Volume: US}, "{2 g/L}", "7.6 g/US gal"},
		{Spelling{Weight: UK}, "{2 g/L}", "0.071 oz/L"},
		{Spelling{Temperature: US}, "{20 L} at {20 °C}", "20 L at 68 °F"},
		{Spelling{Pressure: UK, Temperature: Metric}, "{1 bar} at {20 °C}", "15 psi at 20 °C"},
		{Spelling{Colour: US}, "{4 EBC} in {20 L}", "2 SRM in 20 L"},
	} {
		if got := c.units.Text(c.text); got != c.want || !c.units.Converts() {
			t.Errorf("%+v: %q, want %q", c.units, got, c.want)
		}
	}
}

// TestSafeSides: a limit is never printed above what it is, and a pressure never
// below; what was typed in psi stands as typed.
func TestSafeSides(t *testing.T) {
	for _, c := range []struct{ got, want string }{
		{inUS.AtMost(2.5, "bar").String(), "36 psi"}, // 36.26
		{inUS.AtLeast(2.5, "bar").String(), "37 psi"},
		{inUK.AtMost(0.3, "bar").String(), "4.3 psi"}, // 4.351
		{inUS.AtMost(float64(40*PSI), "bar").String(), "40 psi"},
		{inUS.AtMost(float64(36.5*PSI), "bar").String(), "36.5 psi"},
		{inMetric.AtMost(2.5, "bar").String(), "2.5 bar"},
		{inUS.AtMost(12, "°C").String(), "53 °F"}, // 53.6
		{inUS.AtMost(0, "bar").String(), "0 psi"},
		{inUS.Below(0.42, 0.15, "bar", 1).String(), "6 ± 3 psi"}, // 6.09 ± 2.2
		{inUS.Below(-0.42, 0.15, "bar", 1).String(), "−7 ± 3 psi"},
		{inMetric.Below(0.42, 0.15, "bar", 1).String(), "0.42 ± 0.15 bar"},
	} {
		if c.got != c.want {
			t.Errorf("%q, want %q", c.got, c.want)
		}
	}
}

// TestNoPressureIsRoundedToTheUnsafeSide, on random ones.
func TestNoPressureIsRoundedToTheUnsafeSide(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		limit := rapid.Float64Range(0.01, 12).Draw(t, "limit, bar")
		reached := limit + rapid.Float64Range(1e-5, 3).Draw(t, "over it by")
		pm := rapid.Float64Range(0.01, 1).Draw(t, "±")
		shown := func(s Spelt) float64 {
			a, err := Parse[Pressure](s.Value + " " + s.Unit)
			if err != nil {
				t.Fatal(err)
			}
			return float64(a.Value)
		}
		if most := shown(inUS.AtMost(limit, "bar")); most > limit+1e-5 {
			t.Fatalf("a limit of %v bar reads as %v", limit, most)
		}
		m := inUS.Measure(reached, pm, "bar", 1)
		if got := shown(m); got < reached-1e-5 {
			t.Fatalf("%v bar reads as %v", reached, got)
		}
		if got := shown(inUS.Fixed(reached, "bar", 1)); got < reached-1e-5 {
			t.Fatalf("%v bar without a ± reads as %v", reached, got)
		}
		if got := shown(Spelt{Value: m.PlusMinus, Unit: m.Unit}); got < pm-1e-5 {
			t.Fatalf("± %v bar reads as %v", pm, got)
		}
	})
}

// TestOfferedIsReadAgain: a unit that a value is offered in is one of its kind that
// Parse takes, of the system that was chosen.
func TestOfferedIsReadAgain(t *testing.T) {
	for _, c := range []struct {
		kind      *Kind
		typed     string
		canonical float64
		uk, us    string
	}{
		{volumes, "L", 20, "gal-uk", "gal-us"},
		{volumes, "L", 1.5, "pt-uk", "pt-us"},
		{volumes, "mL", 0.004, "mL", "mL"},
		{volumes, "qt-us", 20, "qt-us", "qt-us"},
		{masses, "kg", 4200, "lb", "lb"},
		{masses, "g", 40, "oz", "oz"},
		{masses, "g", 11, "g", "g"},
		{masses, "oz", 11, "oz", "oz"},
		{temperatures, "°C", 66, "°C", "°F"},
		{pressures, "bar", 1, "psi", "psi"},
		{gravities, "°P", 1.04, "°P", "°P"},
		{durations, "h", 60, "h", "h"},
	} {
		for i, s := range []Spelling{inUK, inUS} {
			got, want := s.Offered(c.kind, c.typed, c.canonical), []string{c.uk, c.us}[i]
			if got != want {
				t.Errorf("%s typed in %s is offered in %s, want %s", c.kind.Name, c.typed, got, want)
			}
		}
		if got := inMetric.Offered(c.kind, c.typed, c.canonical); got != c.typed {
			t.Errorf("%s typed in %s is offered in %s to who set nothing", c.kind.Name, c.typed, got)
		}
	}
	rapid.Check(t, func(t *rapid.T) {
		k := rapid.SampledFrom(AllKinds()).Draw(t, "kind")
		typed := rapid.SampledFrom(k.Units).Draw(t, "typed in").Symbol
		s := rapid.SampledFrom([]Spelling{inMetric, inUK, inUS}).Draw(t, "units")
		offered := s.Offered(k, typed, rapid.Float64Range(0, 1e4).Draw(t, "value"))
		for _, u := range k.Units {
			if u.Symbol == offered {
				return
			}
		}
		t.Fatalf("%s is no unit of %s", offered, k.Name)
	})
}

// TestConversionsAgreeWithTheReader: what is printed for a number is read as that
// number, as far as its digits go.
func TestConversionsAgreeWithTheReader(t *testing.T) {
	typed := strings.NewReplacer("UK gal", "gal-uk", "US gal", "gal-us", "UK pt", "pt-uk", "US pt", "pt-us")
	rapid.Check(t, func(t *rapid.T) {
		x := rapid.Float64Range(0.1, 90).Draw(t, "x")
		s := rapid.SampledFrom([]Spelling{inMetric, inUK, inUS}).Draw(t, "units")
		within := func(got, want float64, err error) {
			if err != nil || math.Abs(got-want) > 0.006*want {
				t.Fatalf("%v is read as %v (%v)", want, got, err)
			}
		}
		volume, err := Parse[Volume](typed.Replace(s.Exactly(x, "L").String()))
		within(float64(volume.Value), x, err)
		mass, err := Parse[Mass](s.Exactly(x, "g").String())
		within(float64(mass.Value), x, err)
		colour, err := Parse[Colour](s.Exactly(x, "EBC").String())
		within(float64(colour.Value), x, err)
		heat, err := Parse[Temperature](s.Exactly(x, "°C").String())
		within(float64(heat.Value)+300, x+300, err)
	})
}

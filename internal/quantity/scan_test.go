package quantity

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// failed is the error of a text that does not read.
func failed[Q Quantity](t *testing.T, text string) *ParseError {
	t.Helper()
	a, err := Parse[Q](text)
	e, ok := err.(*ParseError)
	if !ok {
		t.Errorf("%q is read as %+v (%v)", text, a, err)
		return &ParseError{}
	}
	return e
}

func TestNumbers(t *testing.T) {
	for text, want := range map[string]float64{
		"1": 1, "1.": 1, ".5": 0.5, "1.50": 1.5, "007": 7, "-3": -3, "−3": -3, "+3": 3, "1e3": 1000, "1E3": 1000,
		"1e+3": 1000, "2.5e-1": 0.25, "-.5": -0.5, " 12 ": 12, "\u00a012\u00a0": 12, "\t1\n": 1, "0": 0,
	} {
		a, err := Parse[Number](text)
		if err != nil || float64(a.Value) != want || a.Unit != "" || a.Typed || a.Within != 0 {
			t.Errorf("%q is %+v, want %v (%v)", text, a, want, err)
		}
	}
	for _, text := range []string{"", ".", "-", "+", "--1", "1-", "e3", "1e", "1e+", "1.2.3", "½ ½", "1/2", "0x10",
		"1_000", "NaN", "Inf", "infinity", "١"} {
		if e := failed[Number](t, text); e.Expected != "a number such as 12" {
			t.Errorf("%q: %v", text, e)
		}
	}
}

// TestFractions: each fraction that has a character of its own, by itself and after
// a whole number, beside the same written with a stroke.
func TestFractions(t *testing.T) {
	for character, stroke := range map[string]string{
		"¼": "1/4", "½": "1/2", "¾": "3/4", "⅓": "1/3", "⅔": "2/3", "⅛": "1/8", "⅜": "3/8", "⅝": "5/8", "⅞": "7/8",
	} {
		var top, bottom float64
		if _, err := fmt.Sscanf(stroke, "%f/%f", &top, &bottom); err != nil {
			t.Fatal(err)
		}
		for text, want := range map[string]float64{
			character + " oz": top / bottom, character + "oz": top / bottom, "2" + character + " oz": 2 + top/bottom,
			"2 " + character + "oz": 2 + top/bottom, stroke + " oz": top / bottom, "2 " + stroke + " oz": 2 + top/bottom,
			"12  " + stroke + "oz": 12 + top/bottom,
		} {
			if got := must[Mass](t, text); math.Abs(float64(got/Ounce)-want) > exact {
				t.Errorf("%q is %v oz, want %v", text, float64(got/Ounce), want)
			}
		}
	}
	if got := must[Number](t, "2½"); got != 2.5 {
		t.Errorf("2½ is %v", got)
	}
	if got := must[Mass](t, "1 lb 2½ oz"); math.Abs(float64(got-Pound-2.5*Ounce)) > exact {
		t.Errorf("1 lb 2½ oz is %v", got)
	}
}

// TestNoFractions: what is a score, a date or a slip is not read as a fraction.
func TestNoFractions(t *testing.T) {
	for _, text := range []string{"7/10 oz ½", "0/2 oz", "4/4 oz", "5/4 oz", "1/ oz", "/2 oz", "1//2 oz", "1/2/3 oz",
		"2 ½ ½ oz", "1 1 1/2 oz", " / oz", "1/0 oz", "½½ oz"} {
		if a, err := Parse[Mass](text); err == nil {
			t.Errorf("%q is read as %v g", text, a.Value)
		}
	}
	for _, text := range []string{"1/2", "2 1/2", "7/10"} {
		if a, err := Parse[Gravity](text); err == nil {
			t.Errorf("%q is read as the gravity %v", text, a.Value)
		}
	}
}

// TestAmbiguousUnits: each measure that differs between the UK and the US is
// refused, however it is written, with the two that it may be.
func TestAmbiguousUnits(t *testing.T) {
	for measure, words := range map[string][]string{
		"gal": {"gal", "gallon", "gallons", "GAL", "Gallons"}, "pt": {"pt", "pint", "pints", "Pints"},
		"qt": {"qt", "quart", "quarts"}, "fl-oz": {"fl oz", "floz", "fl-oz", "FL OZ"},
	} {
		for _, word := range words {
			e := failed[Volume](t, "12 "+word)
			if e.Found != fmt.Sprintf("%q, which differs between the UK and the US", word) ||
				e.Expected != measure+"-uk or "+measure+"-us" || e.Offset != 3 || !e.Unit || e.NoUnit {
				t.Errorf("%s: %+v", word, e)
			}
			for _, land := range []string{"-uk", "-us"} {
				if _, err := Parse[Volume]("12 " + measure + land); err != nil {
					t.Errorf("what is expected is not read: %v", err)
				}
			}
			if e := failed[Mass](t, "12 "+word); !strings.HasSuffix(e.Found, "is no unit of weight") {
				t.Errorf("%s of malt: %v", word, e)
			}
		}
	}
}

// TestLikelyUnits: what a unit was likely to mean is spelt like it and begins like
// it, and what is offered reads.
func TestLikelyUnits(t *testing.T) {
	for _, c := range []struct {
		fix  string
		says func(*testing.T, string) *ParseError
		text string
	}{
		{"20 litres", failed[Volume], "20 litrres"}, {"20 milliliter", failed[Volume], "20 millliter"},
		{"4 kilo", failed[Mass], "4 kiloz"},
		{"4 gram", failed[Mass], "4 gramm"}, {"66 Celsius", failed[Temperature], "66 celcius"},
		{"150 Fahrenheit", failed[Temperature], "150 farenheit"},
		{"60 minute", failed[Duration], "60 minuts"}, {"2 hours", failed[Duration], "2 houres"},
		{"30 EBC", failed[Colour], "30 EBU"},
		{"", failed[Mass], "4 tons"}, {"4 kg", failed[Mass], "4 k"}, {"", failed[Volume], "4 x"}, {"", failed[Mass], "4 €"},
		{"4.2 %", failed[Percent], "4.2"}, {"30 IBU", failed[Bitterness], "30"}, {"", failed[Mass], "30"},
		{"", failed[Volume], "20 lots"}, {"", failed[Volume], "20 lq"}, {"66 Celsius", failed[Temperature], "66 celcus"},
	} {
		if e := c.says(t, c.text); e.Fix != c.fix {
			t.Errorf("%q was likely to mean %q, want %q", c.text, e.Fix, c.fix)
		}
	}
}

// TestUnitsOfTwoWords: a unit that has a blank in it is read before its first word
// is.
func TestUnitsOfTwoWords(t *testing.T) {
	for text, want := range map[string]Cells{"200 billion cells": 200e9, "200 Billion Cells": 200e9, "200 billion": 200e9,
		"200e9 cells": 200e9, "1 bn ± 1 bn": 1e9} {
		if got := must[Cells](t, text); got != want {
			t.Errorf("%q is %v", text, got)
		}
	}
}

// TestWhatIsFound: a long text is quoted as far as one reads it, by letters and not
// by bytes.
func TestWhatIsFound(t *testing.T) {
	for text, want := range map[string]string{
		"ä": `"ä": `, strings.Repeat("ä", 24): `"` + strings.Repeat("ä", 24) + `": `,
		strings.Repeat("ä", 25): `"` + strings.Repeat("ä", 24) + `…": `,
		"  x ":                  `"x": `, `a"b`: `"a\"b": `,
	} {
		if e := failed[Number](t, text); !strings.HasPrefix(e.Error(), want) {
			t.Errorf("%q: %v, want %s", text, e, want)
		}
	}
	if e := failed[Number](t, strings.Repeat(" ", 118)+"12 "+"x"); e.Found != "122 characters" {
		t.Errorf("a text that is too long: %v", e)
	}
	if got := must[Number](t, strings.Repeat(" ", 118)+"12"); got != 12 {
		t.Errorf("a text that just is not: %v", got)
	}
}

// TestArticles: what is expected is English.
func TestArticles(t *testing.T) {
	for _, k := range AllKinds() {
		s := scanner{kind: k}
		want := "a " + k.Name
		if slices.Contains([]string{"extract", "amount of carbon dioxide"}, k.Name) {
			want = "an " + k.Name
		}
		if got := s.wanted(); got != want+" such as "+k.Example {
			t.Errorf("%s", got)
		}
	}
}

// TestOffsets: an error stands where a brewer would put a finger, in bytes from the
// text's start.
func TestOffsets(t *testing.T) {
	for text, want := range map[string]int{
		"20 x": 3, "20  x": 4, " 20 x": 4, "20 L x": 5, "20 L 5 L": 5, "20 L 5 mL x": 10, "20 L ± x": 8, "20 L ± 1 x": 10,
		"20 L ± 1 L x": 12,
		"20 L ±":       7, "20,5 L": 0, "20 L ± 0,5 L": 8, "± 1 L": 0, "½ x": 3, "12:30 L": 2, "20 L 5 x": 7, "20 L x 5 mL": 5, "½ L ± −1 L": 8,
	} {
		if e := failed[Volume](t, text); e.Offset != want {
			t.Errorf("%q: at %d, want %d: %v", text, e.Offset, want, e)
		}
	}
}

// TestCommas: a decimal comma is refused with what was meant, a comma that may part
// thousands with both.
func TestCommas(t *testing.T) {
	for _, c := range []struct {
		text, expected, fix string
		says                func(*testing.T, string) *ParseError
	}{
		{"4,2 kg", "a decimal point", "4.2 kg", failed[Mass]}, {"4,25 kg", "a decimal point", "4.25 kg", failed[Mass]},
		{"4,2500 kg", "a decimal point", "4.2500 kg", failed[Mass]},
		{"4,250 kg", "4250 or 4.250, whichever is meant", "", failed[Mass]},
		{"12,250 kg", "12250 or 12.250, whichever is meant", "", failed[Mass]},
		{"0,250 kg", "a decimal point", "0.250 kg", failed[Mass]},
		{"00,250 kg", "a decimal point", "00.250 kg", failed[Mass]}, {"1,041", "a decimal point", "1.041", failed[Gravity]},
		{"4,2 ± 0.1 kg", "a decimal point", "4.2 ± 0.1 kg", failed[Mass]},
		{"4,250.5 kg", "4250.5 or 4.250.5, whichever is meant", "", failed[Mass]},
		{"-4,2 C", "a decimal point", "-4.2 C", failed[Temperature]},
		{"5,4", "a decimal point", "5.4", failed[Acidity]}, {"4,9 kg", "a decimal point", "4.9 kg", failed[Mass]},
	} {
		e := c.says(t, c.text)
		if e.Expected != c.expected || e.Fix != c.fix || !strings.HasPrefix(e.Found, "a comma in ") || e.Unit {
			t.Errorf("%q: %+v", c.text, e)
		}
	}
	for _, text := range []string{"4, kg", "4,x kg", ",5 kg"} {
		if e := failed[Mass](t, text); strings.HasPrefix(e.Found, "a comma") {
			t.Errorf("%q: %v", text, e)
		}
	}
}

// TestParseErrorInOneLine: the fix is a question, and where there is none nothing is
// asked.
func TestParseErrorInOneLine(t *testing.T) {
	e := &ParseError{Found: "this", Expected: "that"}
	if got := e.Error(); got != "this: expected that" {
		t.Error(got)
	}
	e.Fix = "those"
	if got := e.Error(); got != "this: expected that (those?)" {
		t.Error(got)
	}
}

// TestCompounds: parts of falling size are added up, whatever they are; parts that
// do not fall, and those of scales with an offset, are refused.
func TestCompounds(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		k := rapid.SampledFrom([]*Kind{volumes, masses, durations}).Draw(t, "kind")
		first, second := rapid.SampledFrom(k.Units).Draw(t, "first"), rapid.SampledFrom(k.Units).Draw(t, "second")
		x, y := rapid.IntRange(1, 40).Draw(t, "x"), rapid.IntRange(0, 40).Draw(t, "y")
		text := fmt.Sprintf("%d %s %d %s", x, first.Symbol, y, second.Symbol)
		got, err := canonical(k, text)
		if first.In(1) <= second.In(1) {
			if err == nil || !strings.Contains(err.Error(), "parts that grow smaller") {
				t.Fatalf("%q is read as %v (%v)", text, got, err)
			}
			return
		}
		if want := first.In(float64(x)) + second.In(float64(y)); err != nil || math.Abs(got-want) > exact*want {
			t.Fatalf("%q is %v, want %v (%v)", text, got, want, err)
		}
	})
	for _, text := range []string{"60 C 5 F", "60 F 5 C", "60 C 5 C"} {
		if e := failed[Temperature](t, text); e.Offset != 5 || !strings.Contains(e.Expected, "parts that grow smaller") {
			t.Errorf("%q: %+v", text, e)
		}
	}
	// An extract and a gravity are two scales, and so no parts of one; an ounce
	// after a gram is no part, though it would be one of the kilogram before.
	for text, want := range map[string]string{"12 P 1.05 SG": `"1.05 SG" after °P`, "1.05 SG 12 P": `"12 P" after SG`} {
		if e := failed[Gravity](t, text); e.Found != want {
			t.Errorf("%q: %v", text, e)
		}
	}
	if e := failed[Mass](t, "1 kg 5 g 1 oz"); e.Found != `"1 oz" after g` {
		t.Errorf("parts that fall and rise: %v", e)
	}
	if e := failed[Mass](t, "1 lb 4 x"); e.Found != `"x" is no unit of weight` || !e.Unit {
		t.Errorf("a part of another unit: %v", e)
	}
	if e := failed[Mass](t, "1 lb 4"); e.Offset != 5 || !strings.HasPrefix(e.Found, `"4" after lb`) {
		t.Errorf("a part without a unit: %+v", e)
	}
	if got := must[Duration](t, "1 day 2 h 30 min 15 s"); math.Abs(float64(got)-(1440+150.25)) > exact*1600 {
		t.Errorf("four parts are %v min", got)
	}
}

// canonical is a text read as a quantity of a kind.
func canonical(k *Kind, text string) (float64, error) {
	switch k {
	case volumes:
		return value[Volume](text)
	case masses:
		return value[Mass](text)
	}
	return value[Duration](text)
}

// TestWhatMayBeBare: a number by itself is a gravity, a pH, a refractometer's reading
// or a count. Everything else wants its unit, and is told that only this is missing.
func TestWhatMayBeBare(t *testing.T) {
	for _, c := range []struct {
		kind *Kind
		read func(string) error
	}{
		{volumes, wrong[Volume]}, {masses, wrong[Mass]}, {temperatures, wrong[Temperature]}, {durations, wrong[Duration]},
		{percents, wrong[Percent]}, {bitternesses, wrong[Bitterness]}, {colours, wrong[Colour]},
		{extracts, wrong[Extract]}, {carbonations, wrong[Carbonation]}, {pressures, wrong[Pressure]},
		{heights, wrong[Height]}, {airPressures, wrong[AirPressure]}, {concentrations, wrong[Concentration]},
		{cells, wrong[Cells]}, {cellDensities, wrong[CellDensity]},
		{gravities, wrong[Gravity]}, {acidities, wrong[Acidity]}, {brixes, wrong[Brix]}, {numbers, wrong[Number]},
	} {
		mayBeBare := slices.Contains([]*Kind{gravities, acidities, brixes, numbers}, c.kind)
		err := c.read("1.05")
		e, refused := err.(*ParseError)
		switch {
		case refused == mayBeBare:
			t.Errorf("a %s without a unit: %v", c.kind.Name, err)
		case refused && (!e.Unit || !e.NoUnit):
			t.Errorf("a %s without a unit is not told so: %+v", c.kind.Name, e)
		}
	}
	e := failed[Gravity](t, "1.036 ± 1 P")
	if !e.Unit || e.NoUnit || e.Offset != 9 {
		t.Errorf("a unit after the half-width alone: %+v", e)
	}
}

// wrong is what is wrong with a text.
func wrong[Q Quantity](text string) error {
	_, err := Parse[Q](text)
	return err
}

// TestRangesThatAreRefused: the lower end is judged as it was typed.
func TestRangesThatAreRefused(t *testing.T) {
	for text, want := range map[string]string{
		"x to −5 C": `"x °C": expected a temperature such as 66 C`,
		"5 to −5 C": `"5 to −5 C" runs downward: expected the lower end first`,
		"5 C to x":  `"x": expected a temperature such as 66 C`,
		"5 to 10":   `no unit after "10": expected one of °C, °F`,
	} {
		if r, err := ParseRange[Temperature](text); err == nil || err.Error() != want {
			t.Errorf("%q is %+v: %v", text, r, err)
		}
	}
}

// TestHalfWidths: which unit a half-width has, and that none is not nought.
func TestHalfWidths(t *testing.T) {
	for _, c := range []struct {
		text          string
		value, within float64
		typed         bool
		unit          string
	}{
		{"20 L", 20, 0, false, "L"}, {"20 L ± 0", 20, 0, true, "L"}, {"20 ± 0.5 L", 20, 0.5, true, "L"},
		{"20 L ± 0.5", 20, 0.5, true, "L"},
		{"20 L ± 500 mL", 20, 0.5, true, "L"}, {"2000 mL ± 0.1 L", 2, 0.1, true, "mL"}, {"20L+-0.5L", 20, 0.5, true, "L"},
		{"20 L+/-½ L", 20, 0.5, true, "L"},
		{"1 L 500 mL ± 10 mL", 1.5, 0.01, true, "L"},
	} {
		a, err := Parse[Volume](c.text)
		if err != nil || math.Abs(float64(a.Value)-c.value) > exact || math.Abs(float64(a.Within)-c.within) > exact ||
			a.Typed != c.typed || a.Unit != c.unit {
			t.Errorf("%q is %+v (%v)", c.text, a, err)
		}
	}
	// Half the distance between both ends, on a scale that bends.
	grid := rows(t, "02_sucrose_plato_sg_grid.csv")
	want := (number(t, grid[13]["sg_20_20_apparent_in_air"]) - number(t, grid[11]["sg_20_20_apparent_in_air"])) / 2
	plato, err := Parse[Gravity]("12 P ± 1 P")
	if err != nil || math.Abs(float64(plato.Within)-want) > 0.00002 || plato.Unit != "°P" {
		t.Errorf("12 P ± 1 P is %+v (%v)", plato, err)
	}
	offset, err := Parse[Temperature]("66 C ± 1 F")
	if err != nil || math.Abs(float64(offset.Within)-5./9) > exact {
		t.Errorf("66 C ± 1 F is %+v (%v)", offset, err)
	}
	bare, err := Parse[Gravity]("1.041 ± 0.001 SG")
	if err != nil || bare.Unit != "SG" || math.Abs(float64(bare.Within)-0.001) > exact {
		t.Errorf("1.041 ± 0.001 SG is %+v (%v)", bare, err)
	}
}

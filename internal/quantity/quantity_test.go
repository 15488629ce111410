package quantity

import "testing"

func TestRounded(t *testing.T) {
	for _, c := range []struct {
		value, plusMinus float64
		want, pm         string
	}{
		{3.2967, 0.28, "3.3", "0.3"},
		{1.03621, 0.00117, "1.0362", "0.0012"},
		{20.5, 0.577, "20.5", "0.6"},
		{12345, 1940, "12300", "1900"},
		{12345, 1960, "12000", "2000"},
		{0.98, 0.096, "0.98", "0.10"},
		{-0.0004, 0.02, "0.00", "0.02"},
		{-3.26, 0.4, "−3.3", "0.4"},
		{7, 0, "7", ""},
		{33.333333333, 0, "33.3333", ""},
		{2.8e9, 0, "2.8e9", ""},
		{-31e9, 0, "−31e9", ""},
		{123456789, 0, "123.45679e6", ""},
		{9999999, 0, "9999999", ""},
		{117.4e9, 23e9, "117e9", "23e9"},
		{12345678, 40, "12.34568e6", "0.00004e6"},
		{98765432, 2e6, "99e6", "2e6"},
	} {
		got, pm := Rounded(c.value, c.plusMinus)
		if got != c.want || pm != c.pm {
			t.Errorf("Rounded(%v, %v) = %q ± %q, want %q ± %q", c.value, c.plusMinus, got, pm, c.want, c.pm)
		}
	}
}

func TestParse(t *testing.T) {
	volume := func(text string) (float64, float64, error) {
		a, err := Parse[Volume](text)
		return float64(a.Value), float64(a.Within), err
	}
	gravity := func(text string) (float64, float64, error) {
		a, err := Parse[Gravity](text)
		return float64(a.Value), float64(a.Within), err
	}
	mass := func(text string) (float64, float64, error) {
		a, err := Parse[Mass](text)
		return float64(a.Value), float64(a.Within), err
	}
	heat := func(text string) (float64, float64, error) {
		a, err := Parse[Temperature](text)
		return float64(a.Value), float64(a.Within), err
	}
	// A stroke is a fraction where a unit follows, and no score.
	if _, err := Parse[Number]("7/10"); err == nil {
		t.Error("7/10 is read as a number")
	}
	if a, err := Parse[Cells]("100 billion cells"); err != nil || a.Value != 100e9 {
		t.Errorf("100 billion cells = %v, %v", a, err)
	}
	for _, c := range []struct {
		read          func(string) (float64, float64, error)
		text          string
		value, within float64
		wrong         string
	}{
		{volume, "20.5 L", 20.5, 0, ""},
		{volume, "20.5L", 20.5, 0, ""},
		{volume, "20.5 ± 0.5 L", 20.5, 0.5, ""},
		{volume, "20.5 L +/- 500 mL", 20.5, 0.5, ""},
		{volume, "5 gal-us", 18.92705892, 0, ""},
		{volume, "5 gal", 0, 0, `"gal", which differs between the UK and the US: expected gal-uk or gal-us`},
		{volume, "20 fl oz", 0, 0, `"fl oz", which differs between the UK and the US: expected fl-oz-uk or fl-oz-us`},
		{volume, "20", 0, 0, `no unit after "20": expected one of L, mL, cL, hL, gal-uk, qt-uk, pt-uk, fl-oz-uk, gal-us, qt-us, pt-us, fl-oz-us, m3`},
		{volume, "20,5 L", 0, 0, `a comma in "20,5": expected a decimal point (20.5 L?)`},
		{volume, "20 litrs", 0, 0, `"litrs" is no unit of volume: expected one of L, mL, cL, hL, gal-uk, qt-uk, pt-uk, fl-oz-uk, gal-us, qt-us, pt-us, fl-oz-us, m3 (20 litre?)`},
		{volume, "33 cL", 0.33, 0, ""},
		{volume, "20 dm3", 20, 0, ""},
		{volume, "½ L", 0.5, 0, ""},
		{volume, "1 ½ L", 1.5, 0, ""},
		{volume, "3/4 L ± 1/8 L", 0.75, 0.125, ""},
		{volume, "4/3 L", 0, 0, `"/3" is no unit of volume: expected one of L, mL, cL, hL, gal-uk, qt-uk, pt-uk, fl-oz-uk, gal-us, qt-us, pt-us, fl-oz-us, m3`},
		{volume, "1,000 L", 0, 0, `a comma in "1,000": expected 1000 or 1.000, whichever is meant`},
		{volume, "0,500 L", 0, 0, `a comma in "0,500": expected a decimal point (0.500 L?)`},
		{mass, "2½ oz", 70.8738, 0, ""},
		{mass, "1 lb 2 1/2 oz", 524.4662, 0, ""},
		{mass, "1,500 kg", 0, 0, `a comma in "1,500": expected 1500 or 1.500, whichever is meant`},
		{mass, "1,000,000 g", 0, 0, `a comma in "1,000": expected 1000 or 1.000, whichever is meant`},
		{mass, "250 gr", 250, 0, ""},
		{mass, "90", 0, 0, `no unit after "90": expected one of g, kg, mg, lb, oz`},
		{gravity, "1,048", 0, 0, `a comma in "1,048": expected a decimal point (1.048?)`},
		{gravity, "12.4 brix", 1.05009, 0, ""},
		{heat, "19 celsius", 19, 0, ""},
		{volume, "", 0, 0, `nothing: expected a volume such as 20.5 L`},
		{volume, "20 L or so", 0, 0, `"or so" left over: expected a volume such as 20.5 L`},
		{gravity, "1.041", 1.041, 0, ""},
		{gravity, "1.041 ± 0.001", 1.041, 0.001, ""},
		{gravity, "1.036 ± 1 P", 0, 0, `a unit after the half-width alone: expected the unit after both numbers, as 10.2 P ± 0.1 P`},
		{mass, "1 lb 4 oz", 566.9904625, 0, ""},
		{mass, "4 oz 1 lb", 0, 0, `"1 lb" after oz: expected one quantity, or parts that grow smaller, such as 1 lb 4 oz`},
		{heat, "151 ± 1 F", 66.1111, 0.5556, ""},
		{heat, "−2 °C", -2, 0, ""},
	} {
		value, within, err := c.read(c.text)
		switch {
		case c.wrong != "":
			if err == nil || err.Error() != c.wrong {
				t.Errorf("%q: error %v\nwant %s", c.text, err, c.wrong)
			}
		case err != nil:
			t.Errorf("%q: %v", c.text, err)
		case abs(value-c.value) > 1e-4 || abs(within-c.within) > 1e-4:
			t.Errorf("%q = %v ± %v, want %v ± %v", c.text, value, within, c.value, c.within)
		}
	}
}

func abs(x float64) float64 { return max(x, -x) }

package quantity

import (
	"math"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// readable is a printed number as one.
func readable(t interface{ Fatalf(string, ...any) }, text string) float64 {
	x, err := strconv.ParseFloat(strings.Replace(text, "−", "-", 1), 64)
	if err != nil {
		t.Fatalf("%q is no number: %v", text, err)
	}
	return x
}

// decimals is how many a printed number has.
func decimals(text string) int {
	_, after, _ := strings.Cut(text, ".")
	return len(after)
}

// TestRoundedKeepsTheRule: JCGM 100:2008, 7.2.6, in its usual reading. The ± has one
// significant digit, two where it begins with 1; the value ends at the same place;
// neither is further from the number than half of its last digit.
func TestRoundedKeepsTheRule(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		pm := math.Pow(10, rapid.Float64Range(-5, 4).Draw(t, "power of the ±"))
		value := rapid.Float64Range(-9e6, 9e6).Draw(t, "value")
		v, p := Rounded(value, pm)
		digits := strings.TrimRight(strings.TrimLeft(strings.ReplaceAll(p, ".", ""), "0"), "0")
		if strings.Contains(p, ".") {
			digits = strings.TrimLeft(strings.ReplaceAll(p, ".", ""), "0")
		}
		if len(digits) > 2 || len(digits) == 2 && digits[0] != '1' || len(digits) == 1 && digits[0] == '1' &&
			strings.Contains(p, ".") {
			t.Fatalf("± %v is printed %s", pm, p)
		}
		if decimals(v) != decimals(p) {
			t.Fatalf("%v ± %v is printed %s ± %s, which end at different places", value, pm, v, p)
		}
		last := math.Pow10(-decimals(p))
		if !strings.Contains(p, ".") {
			last = math.Pow10(len(p) - len(digits))
		}
		if math.Abs(readable(t, p)-pm) > last*0.51 || math.Abs(readable(t, v)-value) > last*0.51 {
			t.Fatalf("%v ± %v is printed %s ± %s", value, pm, v, p)
		}
	})
}

// TestRoundedAtTheTurns: where a ± goes from two digits to one, and from 9 to 1.
func TestRoundedAtTheTurns(t *testing.T) {
	for _, c := range []struct {
		plusMinus float64
		want, pm  string
	}{
		{0.1949, "4.00", "0.19"}, {0.1951, "4.0", "0.2"}, {0.9499, "4.0", "0.9"}, {0.9501, "4.0", "1.0"},
		{0.0951, "4.00", "0.10"}, {0.1, "4.00", "0.10"}, {1, "4.0", "1.0"}, {19.4, "4", "19"}, {19.6, "0", "20"},
		{94, "0", "90"}, {96, "0", "100"}, {950, "0", "1000"}, {194, "0", "190"},
	} {
		if got, pm := Rounded(4, c.plusMinus); got != c.want || pm != c.pm {
			t.Errorf("4 ± %v is printed %s ± %s, want %s ± %s", c.plusMinus, got, pm, c.want, c.pm)
		}
	}
}

// TestRoundedWithoutADoubt: what is no ± leaves the value as it is.
func TestRoundedWithoutADoubt(t *testing.T) {
	for _, pm := range []float64{0, -1, math.NaN(), math.Inf(1), math.Inf(-1)} {
		if got, none := Rounded(1.23456789, pm); got != "1.23457" || none != "" {
			t.Errorf("± %v: %q ± %q", pm, got, none)
		}
	}
}

func TestPlain(t *testing.T) {
	for x, want := range map[float64]string{
		0: "0", math.Inf(1): "0", math.Inf(-1): "0", 1: "1", -1: "−1", 0.1: "0.1", 1.041: "1.041", 20.50: "20.5",
		1234567: "1234567", 123456.7: "123457", 12345.67: "12345.7", 9999999: "9999999", 1e7: "10e6", 1.5e7: "15e6",
		-2e10: "−20e9", 3e12: "3e12", 9.99e11: "999e9", 1e-5: "0.00001", 1e-12: "0.000000000001", 1e-14: "0",
		0.00123456789: "0.00123457", 0.05: "0.05", -0.25: "−0.25", 100: "100", 1e6: "1000000",
	} {
		if got := Plain(x); got != want {
			t.Errorf("%v is printed %s, want %s", x, got, want)
		}
	}
	if got := Plain(math.NaN()); got != "0" {
		t.Errorf("what is no number is printed %s", got)
	}
}

// TestPlainIsTheNumber: six digits, and no nought that says nothing.
func TestPlainIsTheNumber(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		x := rapid.Float64Range(-1e15, 1e15).Draw(t, "x")
		if rapid.Bool().Draw(t, "small") {
			x /= 1e14
		}
		text := Plain(x)
		if got := readable(t, text); math.Abs(got-x) > 5.1e-6*math.Abs(x)+5e-13 {
			t.Fatalf("%v is printed %s", x, text)
		}
		number, _, _ := strings.Cut(text, "e")
		if strings.Contains(number, ".") && strings.HasSuffix(number, "0") || strings.HasSuffix(number, ".") {
			t.Fatalf("%v is printed %s, with noughts that say nothing", x, text)
		}
	})
}

func TestFixed(t *testing.T) {
	for _, c := range []struct {
		x        float64
		decimals int
		want     string
	}{
		{1.5, 0, "2"}, {2.4, 0, "2"}, {1.25, 1, "1.2"}, {1.0405, 3, "1.040"}, {20, 2, "20.00"}, {-0.04, 1, "0.0"},
		{-0.06, 1, "−0.1"},
		{1234, -2, "1200"}, {1250, -2, "1300"}, {-1250, -2, "−1300"}, {49, -2, "0"}, {12345678, 0, "12.34568e6"},
		{0, 1, "0.0"}, {0, 0, "0"},
	} {
		if got := Fixed(c.x, c.decimals); got != c.want {
			t.Errorf("%v with %d decimals is %s, want %s", c.x, c.decimals, got, c.want)
		}
	}
}

func TestDigits(t *testing.T) {
	for _, c := range []struct {
		x    float64
		n    int
		want float64
	}{
		{0, 2, 0}, {1234, 2, 1200}, {1250, 2, 1300}, {0.012345, 3, 0.0123}, {-9.96, 2, -10}, {99.6, 2, 100}, {7, 3, 7},
		{1.05, 1, 1}, {0.05, 1, 0.05}, {math.Inf(1), 2, math.Inf(1)},
	} {
		if got := Digits(c.x, c.n); !(math.Abs(got-c.want) <= 1e-12) && got != c.want {
			t.Errorf("%v to %d digits is %v, want %v", c.x, c.n, got, c.want)
		}
	}
	if !math.IsNaN(Digits(math.NaN(), 2)) {
		t.Error("what is no number has digits")
	}
	rapid.Check(t, func(t *rapid.T) {
		x := rapid.Float64Range(-1e6, 1e6).Draw(t, "x")
		n := rapid.IntRange(1, 6).Draw(t, "digits")
		if got := Digits(x, n); math.Abs(got-x) > 0.51*math.Abs(x)*math.Pow10(1-n) {
			t.Fatalf("%v to %d digits is %v", x, n, got)
		}
	})
}

package quantity

import (
	"math"
	"strconv"
	"strings"
)

// Rounded prints a value and its ± as far as the ± supports: the ± to one
// significant digit (two where it begins with 1), the value to the same place.
// This is the rule of JCGM 100:2008, 7.2.6, with its usual reading.
//
// A ± that is zero, NaN or infinite counts as unknown: the second result is
// empty and the value has at most six significant digits.
func Rounded(value, plusMinus float64) (string, string) {
	if plusMinus <= 0 || math.IsNaN(plusMinus) || math.IsInf(plusMinus, 0) {
		return Plain(value), ""
	}
	place := lastPlace(plusMinus)
	if power := millions(value); power > 0 {
		return scaled(value, place, power), scaled(plusMinus, place, power)
	}
	return fixed(value, place), fixed(plusMinus, place)
}

// lastPlace is the power of ten of the last digit that a ± supports.
func lastPlace(plusMinus float64) int {
	place := int(math.Floor(math.Log10(plusMinus)))
	lead := plusMinus / math.Pow10(place)
	if lead < 1.95 { // begins with 1 once rounded: 1.0 to 1.9
		return place - 1
	}
	return place // and so does what is rounded to 10, which has two digits there
}

// fixed prints x with its last digit at the power of ten place.
func fixed(x float64, place int) string {
	if power := millions(x); power > 0 {
		return scaled(x, place, power)
	}
	if place > 0 {
		unit := math.Pow10(place)
		return unsigned(strconv.FormatFloat(math.Round(x/unit)*unit, 'f', 0, 64))
	}
	return unsigned(strconv.FormatFloat(x, 'f', -place, 64))
}

// Plain prints x shortly: at most six significant digits, no trailing noughts, and
// in millions from ten of them on.
func Plain(x float64) string {
	if x == 0 || math.IsNaN(x) || math.IsInf(x, 0) {
		return "0"
	}
	places := max(0, 5-int(math.Floor(math.Log10(math.Abs(x)))))
	if power := millions(x); power > 0 {
		return scaled(x, 0, power)
	}
	text := strconv.FormatFloat(x, 'f', min(places, 12), 64)
	if strings.Contains(text, ".") {
		text = strings.TrimRight(strings.TrimRight(text, "0"), ".")
	}
	return unsigned(text)
}

// manyDigits is from where on a number has more digits than anybody counts: cells
// are written 20e9, as in an entry.
const manyDigits = 1e7

// millions is the power of ten, in steps of three, that a number of many digits is
// printed with; 0 for any other.
func millions(x float64) int {
	if math.IsNaN(x) || math.IsInf(x, 0) || math.Abs(x) < manyDigits {
		return 0
	}
	first := int(math.Floor(math.Log10(math.Abs(x))))
	return first - first%3
}

// scaled prints x times a power of ten, with its last digit at the power of ten
// place or the fifth after its first, without trailing noughts.
func scaled(x float64, place, power int) string {
	text := strconv.FormatFloat(x/math.Pow10(power), 'f', min(max(0, power-place), 5), 64)
	if strings.Contains(text, ".") {
		text = strings.TrimRight(strings.TrimRight(text, "0"), ".")
	}
	return unsigned(text) + "e" + strconv.Itoa(power)
}

// Fixed prints x with so many decimals.
func Fixed(x float64, decimals int) string { return fixed(x, -decimals) }

// unsigned writes a real minus sign, and none before a nought.
func unsigned(text string) string {
	if !strings.HasPrefix(text, "-") {
		return text
	}
	if strings.Trim(text, "-0.") == "" {
		return text[1:]
	}
	return "−" + text[1:]
}

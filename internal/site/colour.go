package site

import (
	"fmt"
	"math"
	"strings"
)

// The beer's colour on a screen is worked out from its EBC by a physical path:
//
//  1. EBC is 25 times the absorbance at 430 nm in 10 mm (EBC Analytica 9.6), so
//     absorbance per centimetre is EBC/25.
//  2. Beer's absorbance falls with wavelength in a way that is nearly the same
//     for all beers, A(λ)/A(430) = 0.018747 exp(−(λ−430)/13.374) +
//     0.98226 exp(−(λ−430)/80.514): the mean spectrum published by A. J. deLange
//     in the Journal of the ASBC (2008, 2016). Its coefficients stand from
//     memory.
//  3. Light that went through 5 cm of it, about a glass, keeps 10^(−5 A)
//     (Beer–Lambert).
//  4. Daylight D65 (CIE 15, table T.1, every 20 nm, from memory) seen by the CIE
//     1931 observer, by the fit of Wyman, Sloan and Shirley, Simple Analytic
//     Approximations to the CIE XYZ Color Matching Functions, JCGT 2(2), 2013.
//  5. XYZ to sRGB by IEC 61966-2-1, what is out of its range cut off.
//
// It is honest about hue and order, not about one glass: real beers differ by
// their red, haze scatters light, and the glass and the window decide the rest.
// The figure's own ± is not shown in it.

// glassDepth is the way through the glass, in centimetres.
const glassDepth = 5.0

// daylight is the relative power of CIE D65 from 380 to 780 nm by 20.
var daylight = [...]float64{49.98, 82.75, 93.43, 104.86, 117.81, 115.92, 109.35, 104.79, 104.41, 100.00, 95.79, 90.01, 87.70, 83.29, 80.21, 78.28, 71.61, 61.60, 75.09, 46.42, 63.38}

// lobe is one piece of a fitted colour matching function.
func lobe(wavelength, peak, left, right float64) float64 {
	spread := right
	if wavelength < peak {
		spread = left
	}
	t := (wavelength - peak) / spread
	return math.Exp(-t * t / 2)
}

func observer(wavelength float64) (x, y, z float64) {
	l := wavelength
	return 1.056*lobe(l, 599.8, 37.9, 31.0) + 0.362*lobe(l, 442.0, 16.0, 26.7) - 0.065*lobe(l, 501.1, 20.4, 26.2),
		0.821*lobe(l, 568.8, 46.9, 40.5) + 0.286*lobe(l, 530.9, 16.3, 31.1),
		1.217*lobe(l, 437.0, 11.8, 36.0) + 0.681*lobe(l, 459.0, 26.0, 13.8)
}

// d65 is the white that sRGB is made for, IEC 61966-2-1.
var d65 = [3]float64{0.9505, 1, 1.089}

// screenColour is the colour of a beer of so many EBC, as sRGB.
func screenColour(ebc float64) (r, g, b uint8) {
	var seen, white [3]float64
	for i, power := range daylight {
		wavelength := 380 + 20*float64(i)
		shape := 0.018747*math.Exp((430-wavelength)/13.374) + 0.98226*math.Exp((430-wavelength)/80.514)
		through := math.Pow(10, -max(ebc, 0)/25*shape*glassDepth)
		x, y, z := observer(wavelength)
		for k, c := range [3]float64{x, y, z} {
			white[k] += c * power
			seen[k] += c * power * through
		}
	}
	for k := range seen {
		seen[k] *= d65[k] / white[k]
	}
	return toSRGB(seen)
}

// toSRGB is IEC 61966-2-1.
func toSRGB(xyz [3]float64) (r, g, b uint8) {
	x, y, z := xyz[0], xyz[1], xyz[2]
	encode := func(linear float64) uint8 {
		linear = min(max(linear, 0), 1)
		if linear <= 0.0031308 {
			return uint8(math.Round(255 * 12.92 * linear))
		}
		return uint8(math.Round(255 * (1.055*math.Pow(linear, 1/2.4) - 0.055)))
	}
	return encode(3.2406*x - 1.5372*y - 0.4986*z), encode(-0.9689*x + 1.8758*y + 0.0415*z), encode(0.0557*x - 0.2040*y + 1.0570*z)
}

// shades are the EBC that have a class of their own: every step is about a
// twelfth, less than the doubt of a colour. One stylesheet of them serves every
// page, so that no page needs a style of its own and a strict content security
// policy holds.
var shades = [...]int{2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14, 15, 16, 18, 20, 22, 24, 26, 28, 30, 33, 36, 39, 42, 46, 50, 55, 60, 65, 70, 76, 83, 90, 100, 115, 130, 150}

// shade is the class of a beer's colour, "" for one that is not known.
func shade(ebc float64) string {
	if math.IsNaN(ebc) || ebc <= 0 {
		return ""
	}
	nearest := shades[0]
	for _, s := range shades {
		if math.Abs(float64(s)-ebc) < math.Abs(float64(nearest)-ebc) {
			nearest = s
		}
	}
	return fmt.Sprintf("ebc-%d", nearest)
}

var _ = declare(filesOf[*Site]{
	path: "colours.css", render: func(*Site, string, *Site) ([]byte, error) { return coloursCSS(), nil },
})

// coloursCSS is the stylesheet of all shades. Scripts, tables and ribbons read
// --beer; an SVG may take it as fill.
func coloursCSS() []byte {
	var b strings.Builder
	b.WriteString("/* The colour of beer by EBC: made from its absorbance, see the Workings page. */\n")
	for _, s := range shades {
		red, green, blue := screenColour(float64(s))
		fmt.Fprintf(&b, ".ebc-%d{--beer:#%02x%02x%02x}\n", s, red, green, blue)
	}
	return []byte(b.String())
}

// colourWords is what has such a colour, to be said after "the colour of". The
// borders are common practice, no source.
func colourWords(ebc float64) string {
	for _, c := range []struct {
		below float64
		words string
	}{{6, "pale straw"}, {10, "straw"}, {15, "honey"}, {20, "amber"}, {27, "old copper"}, {35, "strong tea"}, {45, "chestnuts"}, {60, "black coffee held to a window"}, {85, "black coffee"}} {
		if ebc < c.below {
			return c.words
		}
	}
	return "black treacle"
}

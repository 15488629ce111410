package site

import (
	"math"
	"strings"
	"testing"
)

// TestScreenColours holds the path to what anybody sees: water is white, beer
// darkens and never turns blue, a pale beer is yellow, a brown one red-brown, a
// stout nearly black.
func TestScreenColours(t *testing.T) {
	if r, g, b := screenColour(0); r < 253 || g < 253 || b < 253 {
		t.Errorf("water is %d %d %d", r, g, b)
	}
	brightness := func(r, g, b uint8) float64 { return 0.2126*float64(r) + 0.7152*float64(g) + 0.0722*float64(b) }
	last := math.Inf(1)
	for ebc := 1.0; ebc <= 150; ebc++ {
		r, g, b := screenColour(ebc)
		if r < g || g < b {
			t.Errorf("%v EBC is %d %d %d", ebc, r, g, b)
		}
		if now := brightness(r, g, b); now > last+0.5 {
			t.Errorf("%v EBC is lighter than %v", ebc, ebc-1)
		} else {
			last = now
		}
	}
	if r, g, b := screenColour(6); r < 200 || g < 150 || b > 140 {
		t.Errorf("a pale beer is %d %d %d", r, g, b)
	}
	if r, g, b := screenColour(40); r < 80 || g > 70 || b > 30 {
		t.Errorf("a brown beer is %d %d %d", r, g, b)
	}
	if r, g, b := screenColour(130); brightness(r, g, b) > 15 {
		t.Errorf("a stout is %d %d %d", r, g, b)
	}
}

// TestTheObserverIsTheStandardOne: the fit of the colour matching functions
// peaks where the CIE 1931 tables do, y at 555 nm with 1.0 (Wyman and others
// state errors of some 2 %).
func TestTheObserverIsTheStandardOne(t *testing.T) {
	for _, c := range []struct{ wavelength, x, y, z float64 }{
		// CIE 015:2018, table of the 1931 observer.
		{450, 0.3362, 0.0380, 1.7721}, {555, 0.5121, 1.0000, 0.0057}, {600, 1.0622, 0.6310, 0.0008}, {650, 0.2835, 0.1070, 0.0000},
	} {
		x, y, z := observer(c.wavelength)
		const tolerance = 0.05 // of the peak, about the fit's own
		if math.Abs(x-c.x) > tolerance || math.Abs(y-c.y) > tolerance || math.Abs(z-c.z) > 2*tolerance {
			t.Errorf("%v nm: %.3f %.3f %.3f, want %v %v %v", c.wavelength, x, y, z, c.x, c.y, c.z)
		}
	}
}

func TestShades(t *testing.T) {
	css := string(coloursCSS())
	for _, c := range []struct {
		ebc  float64
		want string
	}{{0, ""}, {-3, ""}, {math.NaN(), ""}, {0.5, "ebc-2"}, {7.4, "ebc-7"}, {52, "ebc-50"}, {400, "ebc-150"}} {
		got := shade(c.ebc)
		if got != c.want || got != "" && !strings.Contains(css, "."+got+"{") {
			t.Errorf("%v EBC: %q, want %q", c.ebc, got, c.want)
		}
	}
	if colourWords(4) != "pale straw" || colourWords(300) != "black treacle" {
		t.Error("the words for colours")
	}
}

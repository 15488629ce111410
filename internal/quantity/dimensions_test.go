package quantity

import (
	"math"
	"testing"

	si "gonum.org/v1/gonum/unit"
	"gonum.org/v1/gonum/unit/constant"
)

// A library of dimensions has a second opinion on units that are made of others:
// it refuses what is not a pressure or a volume, and knows the constants. The
// inch, the pound and the pint are those of the Weights and Measures Act 1985.

const inch = si.Length(0.0254)

func TestPSIByDimensions(t *testing.T) {
	pound := si.Mass(float64(Pound)) * si.Gram
	area := inch.Unit().Mul(inch)
	pressure := pound.Unit().Mul(constant.StandardGravity).Div(area)
	var of si.Pressure
	if err := of.From(pressure); err != nil {
		t.Fatal(err)
	}
	if got := float64(of) / 1e5; math.Abs(got/float64(PSI)-1) > 1e-12 {
		t.Errorf("a pound on a square inch is %.14g bar, held as %.14g", got, float64(PSI))
	}
}

// TestGallonsByDimensions: the US gallon is 231 cubic inches, by definition.
func TestGallonsByDimensions(t *testing.T) {
	cubicInch := inch.Unit().Mul(inch).Mul(inch)
	if !si.DimensionsMatch(cubicInch, si.New(1, si.Dimensions{si.LengthDim: 3})) {
		t.Fatal("a cubic inch is no volume")
	}
	litres := 231 * cubicInch.Value() * 1000
	if math.Abs(litres/float64(USGallon)-1) > 1e-12 {
		t.Errorf("231 cubic inches are %.14g L, a US gallon is held as %.14g", litres, float64(USGallon))
	}
}

// TestMercuryByDimensions: a millimetre of mercury is what a column of 13595.1 kg/m³
// presses with under standard gravity, by convention; an inch has 25.4 of them.
func TestMercuryByDimensions(t *testing.T) {
	for name, c := range map[string]struct {
		column si.Length
		held   AirPressure
	}{"millimetre": {0.001, MillimetreOfMercury}, "inch": {inch, InchOfMercury}} {
		density := si.New(13595.1, si.Dimensions{si.MassDim: 1, si.LengthDim: -3})
		var of si.Pressure
		if err := of.From(density.Mul(constant.StandardGravity).Mul(c.column)); err != nil {
			t.Fatal(err)
		}
		if math.Abs(float64(of)/1000/float64(c.held)-1) > 1e-10 {
			t.Errorf("a %s of mercury is %.12g kPa, held as %.12g", name, float64(of)/1000, float64(c.held))
		}
	}
	if got := float64(12 * inch); math.Abs(got-float64(Foot)) > 1e-15 {
		t.Errorf("twelve inches are %v m, a foot is held as %v", got, Foot)
	}
}

// TestNoGaugeIsABarometer: what a gauge's unit is written with is no pressure of
// the air, and an absolute pressure of the air in kPa is said to be one.
func TestNoGaugeIsABarometer(t *testing.T) {
	for _, text := range []string{"0.95 bar", "1 bar", "14.7 psi", "95", "1 atm"} {
		if p, err := Parse[AirPressure](text); err == nil {
			t.Errorf("%q is read as %v kPa of air", text, p.Value)
		}
	}
}

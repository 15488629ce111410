package quantity

// Gravity is specific gravity: density relative to water, both at 20 °C and
// weighed in air. One point is a thousandth: 1.041 is 41 points.
type Gravity float64

// Point is a difference in gravity of one thousandth.
const Point Gravity = 0.001

// SG makes a Gravity from a specific gravity such as 1.041.
func SG(gravity float64) Gravity { return Gravity(gravity) }

// SG is the specific gravity, such as 1.041.
func (g Gravity) SG() float64 { return float64(g) }

// Points is the gravity above water in thousandths: 1.041 is 41.
func (g Gravity) Points() float64 { return (float64(g) - 1) * 1000 }

// Plato is the extract in grams of sucrose per 100 g of solution that has this
// gravity. It is the cubic through the ASBC Tables Related to Determinations on
// Wort and Beer, P = −616.868 + 1111.14 S − 630.272 S² + 135.997 S³, good to
// 0.02 °P for 0 to 33 °P. Its constant is moved by −0.003 so that water is 0 °P
// and weak worts are not negative; that is within the table's own rounding.
// Below water it is continued as it stands, since a dry beer's apparent extract
// is negative.
func (g Gravity) Plato() float64 {
	s := float64(g)
	return platoConstant + s*(1111.14+s*(-630.272+s*135.997))
}

// platoConstant makes the cubic zero at S = 1: −(1111.14 − 630.272 + 135.997).
const platoConstant = -(1111.14 - 630.272 + 135.997)

// platoSlope is dP/dS of the same cubic.
func platoSlope(s float64) float64 { return 1111.14 + s*(-2*630.272+s*3*135.997) }

// Plato makes a Gravity from degrees Plato by solving the same cubic, so that
// Plato(g.Plato()) is g to the last digits. Range as there; the cubic rises
// everywhere, so any degrees have one answer.
func Plato(degrees float64) Gravity {
	s := 1 + degrees/258.6 // a straight line that starts close enough
	for range 30 {
		step := (Gravity(s).Plato() - degrees) / platoSlope(s)
		s -= step
		if step < 1e-15 && step > -1e-15 {
			break
		}
	}
	return Gravity(s)
}

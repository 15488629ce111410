package brewing

import (
	"testing"

	"pgregory.net/rapid"

	q "gylebook/internal/quantity"
)

// TestFinalGravityWithSugar: without sugar it is the attenuation's; sugar alone leaves
// no real extract; and more sugar in a wort leaves less.
func TestFinalGravityWithSugar(t *testing.T) {
	malt := good[q.Gravity](t)(FinalGravityFromAttenuation(1.060, 76))
	near(t, "malt alone", good[q.Gravity](t)(FinalGravityWithSugar(1.060, 76, 0)), malt, 1e-9)
	for _, og := range []q.Gravity{1.030, 1.040, 1.055} {
		fg := good[q.Gravity](t)(FinalGravityWithSugar(og, 76, 1))
		near(t, "real extract of sugar alone", good[float64](t)(RealExtract(og, fg)), 0.0, 0.005)
	}
	rapid.Check(t, func(t *rapid.T) {
		og, attenuation := between[q.Gravity](t, "og", 1.010, 1.120), between[q.Percent](t, "attenuation", 40, 90)
		share := between[q.Number](t, "share", 0, 0.9)
		less := must[q.Gravity](t)(FinalGravityWithSugar(og, attenuation, share))
		if more := must[q.Gravity](t)(FinalGravityWithSugar(og, attenuation, share+0.1)); more >= less {
			t.Fatalf("more sugar leaves %v, less %v", more, less)
		}
	})
}

// TestGravityWithExtract: by hand, 400 g of sucrose in 20 L of 1.050. The wort weighs
// 20 × 1.050 × 0.9982 = 20.963 kg and holds 12.39 %, 2.597 kg; 2.997 kg in 21.363 is
// 14.03 °P, 1.0570 (NBS Circular C440), where points over 20 L would say 1.0577.
func TestGravityWithExtract(t *testing.T) {
	near(t, "with 400 g", good[q.Gravity](t)(GravityWithExtract(20, 1.050, 400, 154)), 1.0570, 0.0001)
	near(t, "with nothing", good[q.Gravity](t)(GravityWithExtract(20, 1.050, 0, 0)), 1.050, 1e-9)
}

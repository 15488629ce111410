package brewing

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	q "gylebook/internal/quantity"
)

// between draws a quantity.
func between[Q ~float64](t *rapid.T, name string, low, high float64) Q {
	return Q(rapid.Float64Range(low, high).Draw(t, name))
}

// must is a result that the property's own ranges promise.
func must[Q any](t *rapid.T) func(Q, error) Q {
	return func(x Q, err error) Q {
		if err != nil {
			t.Fatal(err)
		}
		return x
	}
}

// same reports two numbers that differ by more than a share of the larger.
func same[A, B ~float64](t *rapid.T, what string, a A, b B, share float64) {
	x, y := float64(a), float64(b)
	if !(math.Abs(x-y) <= share*math.Max(1, math.Max(math.Abs(x), math.Abs(y)))) {
		t.Fatalf("%s: %v and %v", what, x, y)
	}
}

const (
	roundTrip = 1e-9  // shares: arithmetic alone
	noise     = 1e-12 // in any unit: the last digits of a float64
)

func TestPrimingRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		wanted, yield := between[q.Carbonation](t, "wanted", 0, 10), between[q.Number](t, "yield", 0.01, 0.6)
		v := between[q.Volume](t, "beer", 0.1, 1000)
		sugar := must[q.Mass](t)(SugarFor(wanted, yield, v))
		same(t, "condition", must[q.Carbonation](t)(PrimingCO2(sugar, yield, v)), wanted, roundTrip)
	})
}

func TestMoreSugarNeverLessGas(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		yield, v := between[q.Number](t, "yield", 0, 0.6), between[q.Volume](t, "beer", 0.1, 1000)
		less := between[q.Mass](t, "sugar", 0, 5000)
		more := less + between[q.Mass](t, "more", 0, 5000)
		if must[q.Carbonation](t)(PrimingCO2(more, yield, v)) < must[q.Carbonation](t)(PrimingCO2(less, yield, v))-noise {
			t.Fatal("more sugar, less gas")
		}
	})
}

func TestAttenuationRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		og, apparent := between[q.Gravity](t, "og", 1.004, 1.150), between[q.Percent](t, "attenuation", 0, 110)
		fg := must[q.Gravity](t)(FinalGravityFromAttenuation(og, apparent))
		same(t, "attenuation", must[q.Percent](t)(ApparentAttenuation(og, fg)), apparent, roundTrip)
	})
}

// TestFermentationMakesAlcohol: the lower it falls the stronger it is, with less
// extract left, and what is really gone is less than what seems gone.
func TestFermentationMakesAlcohol(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		og := between[q.Gravity](t, "og", 1.004, 1.130)
		fg := between[q.Gravity](t, "fg", 0.990, float64(og))
		lower := fg - between[q.Gravity](t, "fall", 0, 0.005)
		if must[q.Percent](t)(AlcoholByVolume(og, lower)) < must[q.Percent](t)(AlcoholByVolume(og, fg))-1e-9 {
			t.Fatal("a lower gravity, less alcohol")
		}
		if must[float64](t)(RealExtract(og, lower)) > must[float64](t)(RealExtract(og, fg))+1e-9 {
			t.Fatal("a lower gravity, more extract")
		}
		if must[q.Percent](t)(RealAttenuation(og, fg)) > must[q.Percent](t)(ApparentAttenuation(og, fg))+1e-9 {
			t.Fatal("more is gone than seems gone")
		}
	})
}

// TestBallingBalances: extract before is extract after and what the alcohol took.
func TestBallingBalances(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		og := between[q.Gravity](t, "og", 1.004, 1.130)
		fg := between[q.Gravity](t, "fg", 0.990, float64(og))
		alcohol, extract := must[q.Percent](t)(AlcoholByWeight(og, fg)), must[float64](t)(RealExtract(og, fg))
		same(t, "original extract", extract+float64(alcohol)*extractPerAlcohol(og.Plato()), og.Plato(), roundTrip)
	})
}

// TestBlendConservesExtract: the extract by weight after is that before, and the
// blend lies between its parts.
func TestBlendConservesExtract(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		v1, v2 := between[q.Volume](t, "one", 0.1, 100), between[q.Volume](t, "other", 0, 100)
		g1, g2 := between[q.Gravity](t, "its gravity", 0.985, 1.150), between[q.Gravity](t, "the other's", 0.985, 1.150)
		blend := must[q.Gravity](t)(BlendedGravity(v1, g1, v2, g2))
		m1, m2 := float64(v1)*float64(g1), float64(v2)*float64(g2)
		same(t, "extract", (m1+m2)*blend.Plato(), m1*g1.Plato()+m2*g2.Plato(), 1e-7)
		const hair = 1e-9
		if blend < min(g1, g2)-hair || blend > max(g1, g2)+hair {
			t.Fatalf("%v and %v make %v", g1, g2, blend)
		}
		same(t, "the other way round", must[q.Gravity](t)(BlendedGravity(v2, g2, v1, g1)), blend, roundTrip)
	})
}

// TestExtractRoundTrip: what a grist could give, in a volume, is its gravity's
// litre-degrees again.
func TestExtractRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m, e := between[q.Mass](t, "grist", 0, 8000), between[q.Extract](t, "extract", 0, 400)
		v := between[q.Volume](t, "wort", 17, 100)
		total := must[q.Number](t)(LitreDegrees(m, e))
		g := must[q.Gravity](t)(GravityOf(total, v))
		same(t, "litre-degrees", g.Points()*v.Litres(), total, 1e-8)
		same(t, "yield", must[q.Percent](t)(Yield(total, total+1)), 100*total/(total+1), roundTrip)
	})
}

// TestHotterSampleIsCorrectedUp: the hotter the sample that shows a reading, the
// denser it is when cooled; at the mark nothing is corrected.
func TestHotterSampleIsCorrectedUp(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		g, mark := between[q.Gravity](t, "reading", 0.990, 1.120), between[q.Temperature](t, "mark", 15, 25)
		cool := between[q.Temperature](t, "sample", 12, 55)
		hot := cool + between[q.Temperature](t, "hotter by", 0, 5)
		corrected := must[q.Gravity](t)
		if corrected(HydrometerCorrected(g, hot, mark)) < corrected(HydrometerCorrected(g, cool, mark))-noise {
			t.Fatal("a hotter sample is corrected less")
		}
		same(t, "at the mark", must[q.Gravity](t)(HydrometerCorrected(g, mark, mark)), g, roundTrip)
	})
}

// TestStrikeRoundTrip: liquor at the strike heat, grist and tun settle at the
// rest; and a hotter rest asks for hotter liquor.
func TestStrikeRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		rest, grist := between[q.Temperature](t, "rest", 30, 70), between[q.Temperature](t, "grist", 0, 30)
		m, tun := between[q.Mass](t, "malt", 0, 5000), between[q.Volume](t, "tun", 0, 2)
		liquor := between[q.Volume](t, "liquor", 12, 40)
		strike := must[q.Temperature](t)(StrikeTemperature(rest, grist, m, liquor, tun))
		back := settled(heat{liquor.Litres(), strike}, heat{MaltHeat * m.Kilograms(), grist}, heat{tun.Litres(), grist})
		same(t, "the rest", back, rest, roundTrip)
		if rest > grist && strike < rest {
			t.Fatal("liquor cooler than the rest that it makes")
		}
	})
}

// TestBitternessGrows with time, weight and heat of steeping, and falls with
// gravity.
func TestBitternessGrows(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m, alpha := between[q.Mass](t, "hops", 0, 300), between[q.Percent](t, "alpha", 0, 30)
		v := between[q.Volume](t, "wort", 1, 100)
		time, g := between[q.Duration](t, "time", 0, 200), between[q.Gravity](t, "gravity", 1, 1.12)
		at := between[q.Temperature](t, "heat", 0, 100)
		ibu := must[q.Bitterness](t)(BitternessTinseth(m, alpha, time, g, v))
		steeped := must[q.Bitterness](t)(BitternessSteeped(m, alpha, time, at, g, v))
		for what, more := range map[string]q.Bitterness{
			"longer":  must[q.Bitterness](t)(BitternessTinseth(m, alpha, time+20, g, v)),
			"heavier": must[q.Bitterness](t)(BitternessTinseth(m+10, alpha, time, g, v)),
			"thinner": must[q.Bitterness](t)(BitternessTinseth(m, alpha, time, g-0.005, v)),
		} {
			if more < ibu-1e-9 {
				t.Fatalf("%s: %v after %v", what, more, ibu)
			}
		}
		if steeped > ibu+1e-9 || steeped > must[q.Bitterness](t)(BitternessSteeped(m, alpha, time, at+5, g, v))+1e-9 {
			t.Fatalf("steeped at %v °C %v, boiled %v", at, steeped, ibu)
		}
	})
}

// TestMoreMaltMoreColour: colour never falls as malt is added.
func TestMoreMaltMoreColour(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		mcu := between[q.Number](t, "MCU", 0, 240)
		more := mcu + between[q.Number](t, "more", 0, 10)
		if must[q.Colour](t)(ColourMorey(more)) < must[q.Colour](t)(ColourMorey(mcu))-noise {
			t.Fatal("more malt, less colour")
		}
	})
}

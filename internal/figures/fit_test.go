package figures

import (
	"math"
	"math/rand/v2"
	"testing"
)

// younger is a brewery's record of 6 August 1941 (William Younger XXX, Scottish
// Brewing Archive WY/6/1/2/78, published by R. Pattinson): points of gravity at
// every half-day.
var younger = []float64{36, 30, 27, 20, 18, 15.5, 15.5, 15, 15}

func sightingsOf(points []float64) []sighting {
	var all []sighting
	for i, p := range points {
		all = append(all, sighting{float64(i) * 12, p, math.Hypot(0.5, offCurve)})
	}
	return all
}

func unknownYeast(og float64) belief {
	return belief{mean: curve{og / 4, og, math.Log(0.07), 36}, u: curve{og / 10, 1.5, 0.7, 24}}
}

// TestForecastOwnsUp: the published record ended at 15.0, and forecasts from its
// first readings must hold that within their ±.
func TestForecastOwnsUp(t *testing.T) {
	const truth = 15.0
	for n := 5; n <= len(younger); n++ {
		f, err := fit(sightingsOf(younger[:n]), unknownYeast(36))
		if err != nil {
			t.Fatalf("%d readings: %v", n, err)
		}
		toFall := math.Max(0, younger[n-1]-f.curve[lower])
		u := math.Hypot(f.u(curve{lower: 1}), tailDoubt*toFall)
		if off := math.Abs(f.curve[lower] - truth); off > 2*u {
			t.Errorf("%d readings: %.2f ± %.2f points, but it ended at %.1f", n, f.curve[lower], 2*u, truth)
		}
		t.Logf("%d readings: %.2f ± %.2f", n, f.curve[lower], 2*u)
	}
}

// TestForecastCoversSimulatedFerments: over simulated fermentations, of the
// curve's own form and of one with a longer tail, as far off the curve as real
// ones are, the interval must hold the
// truth about 95 times in 100.
func TestForecastCoversSimulatedFerments(t *testing.T) {
	const runs = 2000
	random := rand.New(rand.NewPCG(20260601, 14))
	held, given := 0, 0
	for range runs {
		og := 34 + 26*random.Float64()
		end := og * (0.25 + 0.1*random.NormFloat64()) // as widely as an unknown yeast is believed to
		if end < 2 || end > og-10 {
			continue
		}
		rate, mid := 0.05*math.Exp(0.4*random.NormFloat64()), 26+14*random.Float64()
		tail := 1.0
		if random.IntN(2) == 0 {
			tail = 0.6 + 0.4*random.Float64() // slower at the end than the curve
		}
		var seen []sighting
		count, last := 4+random.IntN(5), 0.0
		for i := range count {
			hour := float64(i) * (20 + 8*random.Float64())
			last = end + (og-end)/math.Pow(1+math.Exp(rate*(hour-mid)), tail) + math.Hypot(0.5, offCurve)*random.NormFloat64()
			seen = append(seen, sighting{hour, last, math.Hypot(0.5, offCurve)})
		}
		f, err := fit(seen, unknownYeast(og))
		if err != nil || seen[count-1].hour < f.curve[middle] || og-last < leastFall {
			continue // no forecast is given
		}
		given++
		u := math.Hypot(f.u(curve{lower: 1}), tailDoubt*math.Max(0, last-f.curve[lower]))
		if math.Abs(f.curve[lower]-end) <= 2*u {
			held++
		}
	}
	share := float64(held) / float64(given)
	t.Logf("%d forecasts, %.1f %% held the truth", given, 100*share)
	if share < 0.92 || share > 0.995 {
		t.Errorf("the intervals hold the truth in %.1f %% of %d fermentations; about 95 is claimed", 100*share, given)
	}
	if given < runs/2 {
		t.Errorf("only %d of %d fermentations had a forecast", given, runs)
	}
}

// TestFitPassesOverFoam: one reading thrown off by foam hardly moves the end.
func TestFitPassesOverFoam(t *testing.T) {
	truth := curve{10, 42, math.Log(0.07), 30}
	var clean []sighting
	for hour := 0.0; hour <= 120; hour += 12 {
		clean = append(clean, sighting{hour, truth.at(hour), 0.6})
	}
	foamed := append([]sighting{}, clean...)
	foamed[6].points += 12
	a, errA := fit(clean, unknownYeast(42))
	b, errB := fit(foamed, unknownYeast(42))
	if errA != nil || errB != nil {
		t.Fatal(errA, errB)
	}
	if off := math.Abs(a.curve[lower] - b.curve[lower]); off > 0.5 {
		t.Errorf("a spike of 12 points moved the end by %.2f points", off)
	}
	if b.outliers != 1 {
		t.Errorf("%d outliers counted, want 1", b.outliers)
	}
}

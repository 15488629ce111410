package figures

import (
	"errors"
	"math"
	"testing"

	q "gylebook/internal/quantity"
)

// gumH2 is the raw readings of JCGM 100:2008, Annex H.2, table H.2: five
// simultaneous observations of voltage in V, current in A and phase in radians
// (recalled; their means and deviations are those that the annex prints).
var gumH2 = [5][3]float64{
	{5.007, 19.663e-3, 1.0456},
	{4.994, 19.639e-3, 1.0438},
	{5.005, 19.640e-3, 1.0468},
	{4.990, 19.685e-3, 1.0428},
	{4.999, 19.678e-3, 1.0433},
}

// observed makes estimates of the means. Each set of observations is an input
// of its own, which moves all three means at once: by its deviation over
// √(n(n−1)), so that the shares make the variance and covariance of means that
// the annex uses (equations 4 and 17). The readings are correlated only
// through these shared inputs.
func observed(s *bench) [3]Estimate[q.Number] {
	const n = float64(len(gumH2))
	var means [3]Estimate[q.Number]
	for i := range means {
		mean := 0.0
		for _, set := range gumH2 {
			mean += set[i] / n
		}
		e := exactly(q.Number(mean))
		for k, set := range gumH2 {
			u := (set[i] - mean) / math.Sqrt(n*(n-1))
			e.shares = append(e.shares, shareOf(k, u, -u))
		}
		e.u = combined(e.shares)
		means[i] = e
	}
	return means
}

// correlation is r of two estimates, from what each input does to both, the mean
// of the two sides.
func correlation(a, b Estimate[q.Number]) float64 {
	return covariance(a, b) / math.Sqrt(covariance(a, a)*covariance(b, b))
}

func covariance(a, b Estimate[q.Number]) float64 {
	total := 0.0
	for _, x := range a.shares {
		for _, y := range b.shares {
			if x.input == y.input {
				total += float64(x.up-x.down) / 2 * float64(y.up-y.down) / 2
			}
		}
	}
	return total
}

// TestCorrelatedInputs reproduces JCGM 100:2008, Annex H.2, table H.3 to its
// last printed digit.
func TestCorrelatedInputs(t *testing.T) {
	s := &bench{Sheet: &Sheet{}}
	m := observed(s)
	of := func(f func(v, i, phi float64) float64) Estimate[q.Number] {
		return from3(s, func(v, i, phi q.Number) (q.Number, error) {
			return q.Number(f(float64(v), float64(i), float64(phi))), nil
		}, m[0], m[1], m[2])
	}
	r := of(func(v, i, phi float64) float64 { return v / i * math.Cos(phi) })
	x := of(func(v, i, phi float64) float64 { return v / i * math.Sin(phi) })
	z := of(func(v, i, _ float64) float64 { return v / i })
	for _, c := range []struct {
		name           string
		got, want, off float64 // off is half of the last printed digit
	}{
		{"u(V)", m[0].Uncertainty(), 0.0032, 5e-5},
		{"u(I)", m[1].Uncertainty(), 9.5e-6, 5e-8},
		{"u(phi)", m[2].Uncertainty(), 0.00075, 5e-6},
		{"r(V, I)", correlation(m[0], m[1]), -0.36, 0.005},
		{"r(V, phi)", correlation(m[0], m[2]), 0.86, 0.005},
		{"r(I, phi)", correlation(m[1], m[2]), -0.65, 0.005},
		{"R", float64(r.Value), 127.732, 5e-4},
		{"u(R)", r.Uncertainty(), 0.071, 5e-4},
		{"X", float64(x.Value), 219.847, 5e-4},
		{"u(X)", x.Uncertainty(), 0.295, 7e-4}, // 0.2956 from the readings, printed from rounded ones
		{"Z", float64(z.Value), 254.260, 5e-4},
		{"u(Z)", z.Uncertainty(), 0.236, 5e-4},
		{"r(R, X)", correlation(r, x), -0.588, 5e-4},
		{"r(R, Z)", correlation(r, z), -0.485, 5e-4},
		{"r(X, Z)", correlation(x, z), 0.993, 6e-4}, // 0.9925
	} {
		if math.Abs(c.got-c.want) > c.off {
			t.Errorf("%s = %.6g, published %g", c.name, c.got, c.want)
		}
	}
}

// gauge makes an input of a standard uncertainty.
func gauge(s *bench, name string, value q.Number, u float64) Estimate[q.Number] {
	return input(s, value, Input{What: name, Uncertainty: u})
}

// sharePrecision is how near an uncertainty comes to the true one, relatively: shares
// are float32, which is good to 6e-8.
const sharePrecision = 1e-7

func TestPropagation(t *testing.T) {
	s := &bench{Sheet: &Sheet{}}
	bias := gauge(s, "bias", 0, 0.3)
	a, b := gauge(s, "a", 10, 0.3), gauge(s, "b", 4, 0.4)
	aBiased, bBiased := sum(s, a, bias), sum(s, b, bias)
	minus := func(x, y q.Number) (q.Number, error) { return x - y, nil }
	times := func(x, y q.Number) (q.Number, error) { return x * y, nil }
	floor := func(x q.Number) (q.Number, error) { return max(0, x), nil }
	zero := gauge(s, "c", 0, 0.2)
	for _, c := range []struct {
		name     string
		got      Estimate[q.Number]
		value, u float64
	}{
		{"a sum of two readings", sum(s, a, b), 14, 0.5},
		{"a sum of nothing", sum[q.Number](s), 0, 0},
		{"a sum with a shared bias doubles it", sum(s, aBiased, bBiased), 14, math.Hypot(0.5, 0.6)},
		{"a difference cancels a shared bias", from2(s, minus, aBiased, bBiased), 6, 0.5},
		{"a reading less itself is sure", from2(s, minus, a, a), 0, 0},
		{"a reading and itself is one reading", sum(s, a, a), 20, 0.6},
		{"a product", from2(s, times, a, b), 40, math.Hypot(10*0.4, 4*0.3)},
		{"a square is of one reading", from2(s, times, a, a), 100, 6.09}, // (10.3² − 10²), the larger side
		{"at a kink the larger side counts", from1(s, floor, zero), 0, 0.2},
		{"a kink just out of reach", from1(s, floor, gauge(s, "d", -1, 0.2)), 0, 0},
		{"an exact number", exactly(q.Number(3)), 3, 0},
	} {
		if !near(float64(c.got.Value), c.value, 1e-12) || !near(c.got.Uncertainty(), c.u, sharePrecision) {
			t.Errorf("%s: %g, u %g; want %g, u %g", c.name, c.got.Value, c.got.Uncertainty(), c.value, c.u)
		}
	}
}

// TestRangeEnds: where a formula ends, the side that it has stands for both;
// where it has neither, the input is taken as doing nothing.
func TestRangeEnds(t *testing.T) {
	errEnds := errors.New("not beyond 10")
	s := &bench{Sheet: &Sheet{}}
	upTo10 := func(x q.Number) (q.Number, error) {
		if x > 10 {
			return 0, errEnds
		}
		return 2 * x, nil
	}
	at := from1(s, upTo10, gauge(s, "at the end", 10, 0.5))
	if len(at.shares) != 1 || at.shares[0].up != 1 || at.shares[0].down != -1 {
		t.Errorf("at the end of the range the shares are %+v, want ± 1", at.shares)
	}
	beyond := from1(s, upTo10, gauge(s, "beyond", 11, 0.5))
	if beyond.known || beyond.lack.Because != errEnds.Error() {
		t.Errorf("beyond the range it is %+v with %+v", beyond, beyond.lack)
	}
	if nothing := from1(s, func(x q.Number) (q.Number, error) { return q.Number(math.Log(float64(x))), nil }, exactly(q.Number(0))); nothing.known {
		t.Errorf("log 0 is known as %g", nothing.Value)
	}
}

// TestLacks: what several unknown arguments lack is asked for together, and the
// first of several estimates asks for the fewest readings.
func TestLacks(t *testing.T) {
	s := &bench{Sheet: &Sheet{}}
	plus := func(x, y q.Number) (q.Number, error) { return x + y, nil }
	both := from2(s, plus, missing[q.Number]("og", "fg"), missing[q.Number]("fg", "volume"))
	if both.known || len(both.lack.Needs) != 3 {
		t.Errorf("it lacks %+v, want og, fg and volume", both.lack)
	}
	summed := sum(s, exactly(q.Number(1)), missing[q.Number]("og"))
	if summed.known || len(summed.lack.Needs) != 1 || summed.lack.Needs[0] != "og" {
		t.Errorf("a sum with an unknown part is %+v", summed.lack)
	}
	fewest := first(missing[q.Number]("a", "b"), missing[q.Number]("c"), missing[q.Number]("d"))
	if fewest.lack.Needs[0] != "c" {
		t.Errorf("it asks for %v, want c", fewest.lack.Needs)
	}
}

// TestSumIsLinear holds sum to what trying the formula gives.
func TestSumIsLinear(t *testing.T) {
	s := &bench{Sheet: &Sheet{}}
	a, b, c := gauge(s, "a", 1, 0.1), gauge(s, "b", 2, 0.2), gauge(s, "c", 3, 0.3)
	square := func(x, y q.Number) (q.Number, error) { return x * x * y, nil }
	left, right := from2(s, square, a, b), from2(s, square, b, c)
	merged := sum(s, left, right)
	tried := from2(s, func(x, y q.Number) (q.Number, error) { return x + y, nil }, left, right)
	if !near(merged.Uncertainty(), tried.Uncertainty(), sharePrecision) || !near(float64(merged.Value), float64(tried.Value), 1e-15) || len(merged.shares) != len(tried.shares) {
		t.Errorf("merged %g u %g, tried %g u %g", merged.Value, merged.Uncertainty(), tried.Value, tried.Uncertainty())
	}
}

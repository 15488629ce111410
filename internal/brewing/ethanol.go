package brewing

import q "gylebook/internal/quantity"

// The general formula for ethanol and water, in powers of p, the share of ethanol
// by weight, and of the temperature's distance from 20 °C.
//
// Source: OIML International Recommendation R 22 (1975), also Directive
// 76/766/EEC, annex. A1 to A5 were read, the others are from memory; published
// tables prove the whole.
var (
	oimlA = [12]float64{
		9.982012300e2, -1.929769495e2, 3.891238958e2, -1.668103923e3, 1.352215441e4, -8.829278388e4,
		3.062874042e5, -6.138381234e5, 7.470172998e5, -5.478461354e5, 2.234460334e5, -3.903285426e4,
	}
	oimlB = [6]float64{-2.0618513e-1, -5.2682542e-3, 3.6130013e-5, -3.8957702e-7, 7.1693540e-9, -9.9739231e-11}
	// oimlC is by the power of the distance, each row from p to p¹¹.
	oimlC = [5][11]float64{
		{
			1.693443461530087e-1, -1.046914743455169e1, 7.196353469546523e1, -7.047478054272792e2,
			3.924090430035045e3, -1.210164659068747e4, 2.248646550400788e4, -2.605562982188164e4,
			1.852373922069467e4, -7.420201433430137e3, 1.285617841998974e3,
		},
		{
			-1.193013005057010e-2, 2.517399633803461e-1, -2.170575700536993, 1.353034988843029e1,
			-5.029988758547014e1, 1.096355666577570e2, -1.422753946421155e2, 1.080435942856230e2,
			-4.414153236817392e1, 7.442971530188783,
		},
		{
			-6.802995733503803e-4, 1.876837790289664e-2, -2.002561813734156e-1, 1.022992966719220,
			-2.895696483903638, 4.810060584300675, -4.672147440794683, 2.458043105903461, -5.411227621436812e-1,
		},
		{4.075376675622027e-6, -8.763058573471110e-6, 6.515031360099368e-6, -1.515784836987210e-6},
		{-2.788074354782409e-8, 1.345612883493354e-8},
	}
)

// polynomial is the sum of the coefficients times rising powers of x, from x⁰.
func polynomial(coefficients []float64, x float64) float64 {
	sum := 0.0
	for i := len(coefficients) - 1; i >= 0; i-- {
		sum = sum*x + coefficients[i]
	}
	return sum
}

func ethanolWaterDensity(p float64, t q.Temperature) float64 {
	from20 := float64(t - 20)
	warmth := polynomial(oimlB[:], from20)
	power := 1.0
	for i := range oimlC {
		warmth += p * polynomial(oimlC[i][:], p) * power
		power *= from20
	}
	return polynomial(oimlA[:], p) + warmth*from20
}

// EthanolWaterDensity is the density, in kg/m³ in vacuo, of a mixture of ethanol
// and water with so much ethanol by weight. Range 0 to 100 %, 0 to 40 °C; good to
// 0.02 kg/m³. Beer's extract makes it denser than this.
//
// Source: OIML R 22 (1975).
func EthanolWaterDensity(byWeight q.Percent, t q.Temperature) (float64, error) {
	const name = "the density of ethanol and water"
	if err := firstOf(within(name, "the ethanol", byWeight, 0, 100, "% by weight"), within(name, "the temperature", t, 0, 40, "°C")); err != nil {
		return 0, err
	}
	return ethanolWaterDensity(byWeight.Fraction(), t), nil
}

// EthanolByVolume is the % by volume at 20 °C of a mixture of ethanol and water
// with so much ethanol by weight. Range 0 to 100 %.
//
// Source: OIML R 22 (1975).
func EthanolByVolume(byWeight q.Percent) (q.Percent, error) {
	if err := within("ethanol by volume", "the ethanol", byWeight, 0, 100, "% by weight"); err != nil {
		return 0, err
	}
	return ethanolByVolume(byWeight), nil
}

func ethanolByVolume(byWeight q.Percent) q.Percent {
	return byWeight * q.Percent(ethanolWaterDensity(byWeight.Fraction(), 20)/ethanolWaterDensity(1, 20))
}

// EthanolByWeight is the inverse of EthanolByVolume. Range 0 to 100 %.
func EthanolByWeight(byVolume q.Percent) (q.Percent, error) {
	if err := within("ethanol by weight", "the ethanol", byVolume, 0, 100, "% vol"); err != nil {
		return 0, err
	}
	// Halving always closes in, since volume rises with weight all the way.
	low, high := q.Percent(0), q.Percent(100)
	for range 50 {
		middle := (low + high) / 2
		if ethanolByVolume(middle) < byVolume {
			low = middle
		} else {
			high = middle
		}
	}
	return (low + high) / 2, nil
}

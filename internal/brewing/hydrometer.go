package brewing

import q "gylebook/internal/quantity"

// glassExpansion is the cubic expansion of a hydrometer's glass per °C (soda
// glass, from memory: 25e-6). It takes 0.0005 off a correction at 40 °C.
const glassExpansion = 25e-6

// HydrometerCorrected is the gravity at 20/20 °C of a sample read at another
// heat than the hydrometer is marked for: the wort is taken to expand like
// water, and the glass as glass. Range: sample 0 to 60 °C, calibration 0 to
// 40 °C, reading 0.900 to 1.200.
//
// Source: density of water after Kell (1975); the same ratio of densities is
// behind published tables, which leave the glass out.
func HydrometerCorrected(reading q.Gravity, sample, calibrated q.Temperature) (q.Gravity, error) {
	const name = "a hydrometer's correction"
	err := firstOf(
		within(name, "a sample's heat", sample, 0, 60, "°C"),
		within(name, "the calibration", calibrated, 0, 40, "°C"),
		within(name, "a reading", reading, 0.900, 1.200, gravitySG),
	)
	if err != nil {
		return 0, err
	}
	ratio := waterDensity(calibrated) / waterDensity(sample)
	return reading * q.Gravity(ratio/(1+glassExpansion*float64(sample-calibrated))), nil
}

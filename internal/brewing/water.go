package brewing

import (
	"math"

	q "gylebook/internal/quantity"
)

// WaterDensity is the density of air-free water in kg/m³ at 1 atm. Range 0 to
// 110 °C, to about 0.02 kg/m³.
//
// Source: G. S. Kell, J. Chem. Eng. Data 20 (1975) 97 (coefficients from memory;
// one journal's reprint has 16.897850e-3 in the denominator, which is 0.27 kg/m³
// low at 20 °C). Tanaka et al. (2001) and IAPWS-IF97 agree within 0.012 kg/m³.
func WaterDensity(t q.Temperature) (float64, error) {
	if err := within("the density of water", "the temperature", t, 0, 110, "°C"); err != nil {
		return 0, err
	}
	return waterDensity(t), nil
}

func waterDensity(t q.Temperature) float64 {
	c := t.Celsius()
	polynomial := 999.83952 + c*(16.945176+c*(-7.9870401e-3+c*(-46.170461e-6+c*(105.56302e-9-c*280.54253e-12))))
	return polynomial / (1 + 16.879850e-3*c)
}

// VolumeAt20 is what a volume of wort read hot comes to at 20 °C, expanding like
// water. Boiling wort is 4 % bigger. Range 0 to 105 °C.
//
// Source: as WaterDensity.
func VolumeAt20(v q.Volume, t q.Temperature) (q.Volume, error) {
	if err := firstOf(within("the expansion of wort", "the temperature", t, 0, 105, "°C"), none("the expansion of wort", "the volume", v, "L")); err != nil {
		return 0, err
	}
	return v * q.Volume(waterDensity(t)/waterDensity(20)), nil
}

// vapourPressure is the pressure of water vapour above water, in kPa.
//
// Source: A. L. Buck, J. Appl. Meteorol. 20 (1981) 1527, with the coefficients
// of his 1996 revision (from memory; 2.339 kPa at 20 °C as in steam tables).
func vapourPressure(t q.Temperature) float64 {
	c := t.Celsius()
	return 0.61121 * math.Exp((18.678-c/234.5)*(c/(257.14+c)))
}

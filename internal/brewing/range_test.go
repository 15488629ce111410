package brewing

import (
	"errors"
	"math"
	"testing"

	"pgregory.net/rapid"

	q "gylebook/internal/quantity"
)

// formula is an exported function laid flat: so many numbers in, one out. The
// good arguments are an ordinary brewing, inside every range.
type formula struct {
	name string
	good []float64
	of   func(x []float64) (float64, error)
}

// flat1 to flat6 lay functions of quantities flat.
func flat1[A, R ~float64](name string, f func(A) (R, error), good ...float64) formula {
	return formula{name, good, func(x []float64) (float64, error) { r, err := f(A(x[0])); return float64(r), err }}
}

func flat2[A, B, R ~float64](name string, f func(A, B) (R, error), good ...float64) formula {
	return formula{name, good, func(x []float64) (float64, error) {
		r, err := f(A(x[0]), B(x[1]))
		return float64(r), err
	}}
}

func flat3[A, B, C, R ~float64](name string, f func(A, B, C) (R, error), good ...float64) formula {
	return formula{name, good, func(x []float64) (float64, error) {
		r, err := f(A(x[0]), B(x[1]), C(x[2]))
		return float64(r), err
	}}
}

func flat4[A, B, C, D, R ~float64](name string, f func(A, B, C, D) (R, error), good ...float64) formula {
	return formula{name, good, func(x []float64) (float64, error) {
		r, err := f(A(x[0]), B(x[1]), C(x[2]), D(x[3]))
		return float64(r), err
	}}
}

func flat5[A, B, C, D, E, R ~float64](name string, f func(A, B, C, D, E) (R, error), good ...float64) formula {
	return formula{name, good, func(x []float64) (float64, error) {
		r, err := f(A(x[0]), B(x[1]), C(x[2]), D(x[3]), E(x[4]))
		return float64(r), err
	}}
}

func flat6[A, B, C, D, E, F, R ~float64](name string, f func(A, B, C, D, E, F) (R, error), good ...float64) formula {
	return formula{name, good, func(x []float64) (float64, error) {
		r, err := f(A(x[0]), B(x[1]), C(x[2]), D(x[3]), E(x[4]), F(x[5]))
		return float64(r), err
	}}
}

// ofHeld lays what may happen to a container flat: how it was filled, a number, and
// the heat at which it happens and is looked at. What comes out is its gauge.
func ofHeld[X ~float64](name string, soft bool, f func(Held, X, q.Temperature) (Held, error), good float64) formula {
	return formula{name, []float64{1.8, 20, 1, 101.325, 18, good, 22}, func(x []float64) (float64, error) {
		h := Held{Beer: q.Volume(x[1]), Room: q.Volume(x[2]), Outside: q.AirPressure(x[3]), Soft: soft}
		h, err := Filled(h, q.Carbonation(x[0]), q.Celsius(x[4]), false)
		if err != nil {
			return float64(h.CO2), err
		}
		if h, err = f(h, X(x[5]), q.Celsius(x[6])); err != nil {
			return float64(h.CO2), err
		}
		s, err := h.At(q.Celsius(x[6]))
		return float64(s.Gauge), err
	}}
}

func byHeat(f func(Held, q.Temperature) (Held, error)) func(Held, float64, q.Temperature) (Held, error) {
	return func(h Held, _ float64, t q.Temperature) (Held, error) { return f(h, t) }
}

func unchanged(h Held, _ q.Temperature) (Held, error) { return h, nil }

func drawnForAir(h Held, beer q.Volume, t q.Temperature) (Held, error) { return h.Drawn(beer, t, Air) }

func fedHalfway(h Held, set q.Pressure, t q.Temperature) (Held, error) {
	return h.Fed(Regulator{Set: set, Share: 0.6, Fresh: 1}, t, 0.5)
}

// formulas are all the exported functions; TestEveryFormulaIsListed sees to it.
func formulas() []formula {
	return []formula{
		flat1("AlcoholFactor", AlcoholFactor, 12),
		flat2("AlcoholByWeight", AlcoholByWeight, 1.042, 1.010),
		flat2("AlcoholByVolume", AlcoholByVolume, 1.042, 1.010),
		flat2("ByWeight", ByWeight, 4.2, 1.010),
		flat2("RealExtract", RealExtract, 1.042, 1.010),
		flat2("StrengthConditioned", StrengthConditioned, 4.2, 1.1),
		flat2("DutyStrength", DutyStrength, 1.042, 1.010),
		flat1("CutDuty", CutDuty, 4.19),
		flat2("UnitsOfAlcohol", UnitsOfAlcohol, 4.2, 0.568),
		flat2("ApparentAttenuation", ApparentAttenuation, 1.042, 1.010),
		flat2("RealAttenuation", RealAttenuation, 1.042, 1.010),
		flat2("FinalGravityFromAttenuation", FinalGravityFromAttenuation, 1.042, 76),
		flat3("BoilOff", BoilOff, 28, 24, 75),
		flat2("UtilisationTinseth", UtilisationTinseth, 60, 1.045),
		flat5("BitternessTinseth", BitternessTinseth, 30, 5.5, 60, 1.045, 20),
		flat6("BitternessSteeped", BitternessSteeped, 30, 5.5, 30, 80, 1.045, 20),
		flat3("ColourUnits", ColourUnits, 4500, 5, 20),
		flat1("ColourMorey", ColourMorey, 12),
		flat1("SolubilityInWater", SolubilityInWater, 18),
		flat3("UnderGauge", UnderGauge, 0.7, 8, 101.325),
		flat1("AirAt", AirAt, 500),
		flat3("GasOverDissolved", GasOverDissolved, 9, 10, 12),
		flat2("CO2ToCome", CO2ToCome, 1.014, 1.010),
		flat3("PrimingCO2", PrimingCO2, 60, 0.514, 20),
		flat3("SugarFor", SugarFor, 1.2, 0.514, 20),
		flat3("GasOfWort", GasOfWort, 1, 1.040, 75),
		flat2("LitreDegrees", LitreDegrees, 4500, 300),
		flat2("GravityOf", GravityOf, 900, 20),
		flat2("Yield", Yield, 900, 1250),
		flat4("BlendedGravity", BlendedGravity, 18, 1.050, 2, 1.000),
		flat3("HydrometerCorrected", HydrometerCorrected, 1.042, 26, 20),
		flat2("WortGravityByRefractometer", WortGravityByRefractometer, 10.5, 1.02),
		flat3("GravityByRefractometer", GravityByRefractometer, 1.042, 5.4, 1.02),
		flat5("StrikeTemperature", StrikeTemperature, 66, 18, 4500, 11.25, 1),
		flat6("StrikeTemperatureInTun", StrikeTemperatureInTun, 66, 18, 4500, 11.25, 1, 45),
		flat6("SettledAt", SettledAt, 72, 18, 4500, 11.25, 1, 45),
		flat2("Headspace", Headspace, 23, 20),
		ofHeld("Filled", false, byHeat(unchanged), 0),
		ofHeld("At", true, byHeat(unchanged), 0),
		ofHeld("VentedToQuiet", false, byHeat(Held.VentedToQuiet), 0),
		ofHeld("VentedForAMoment", true, byHeat(Held.VentedForAMoment), 0),
		ofHeld("HeldUnder", false, Held.HeldUnder, 1),
		ofHeld("Gauged", false, Held.Gauged, 0.8),
		ofHeld("LeakedTo", false, Held.LeakedTo, 0.8),
		ofHeld("Drawn", false, drawnForAir, 9),
		ofHeld("Fed", false, fedHalfway, 0.8),
		flat1("WaterDensity", WaterDensity, 20),
		flat2("Carbohydrate", Carbohydrate, 1.042, 1.010),
		flat2("EnergyKilojoules", EnergyKilojoules, 1.042, 1.010),
		flat2("EnergyKilocalories", EnergyKilocalories, 1.042, 1.010),
		flat2("ConditioningKilojoules", ConditioningKilojoules, 0.6, 0.2),
		flat2("ConditioningKilocalories", ConditioningKilocalories, 0.6, 0.2),
		flat2("EthanolWaterDensity", EthanolWaterDensity, 4, 20),
		flat1("EthanolByVolume", EthanolByVolume, 4),
		flat1("EthanolByWeight", EthanolByWeight, 5),
		flat6("InfusionTemperature", InfusionTemperature, 55, 4500, 11.25, 1, 6, 98),
		flat6("InfusionVolume", InfusionVolume, 55, 66, 4500, 11.25, 1, 98),
		flat2("LiquorAbsorbed", LiquorAbsorbed, 4500, 0.9),
		flat6("LiquorNeeded", LiquorNeeded, 21, 4500, 0.9, 3.5, 75, 2),
		flat3("VolumeAtGravity", VolumeAtGravity, 20, 1.050, 1.042),
		flat3("LiquorBack", LiquorBack, 20, 1.050, 1.042),
		flat3("FinalGravityWithSugar", FinalGravityWithSugar, 1.060, 76, 0.15),
		flat4("GravityWithExtract", GravityWithExtract, 20, 1.050, 400, 154),
		flat3("PointsRaised", PointsRaised, 60, 385, 20),
		flat3("IonFromSalt", IonFromSalt, 8, 23.28, 30),
		flat1("AlkalinityOf", AlkalinityOf, 180),
		flat1("BicarbonateOf", BicarbonateOf, 150),
		flat3("ResidualAlkalinity", ResidualAlkalinity, 150, 100, 10),
		flat2("SulphateToChloride", SulphateToChloride, 200, 100),
		flat6("IonBalance", func(ca, mg, na, cl, so4, hco3 q.Concentration) (q.Number, error) {
			return IonBalance(Ions{ca, mg, na, cl, so4, hco3})
		}, 100, 10, 20, 100, 150, 60),
		flat4("AcidStrength", func(a float64, strength q.Percent, density q.Gravity, at q.Acidity) (q.Number, error) {
			return AcidStrength(Acid(math.Round(clamped(a, -1, 9))), strength, density, at)
		}, 0, 80, 1.19, 5.4),
		flat2("AcidDensity", func(a float64, strength q.Percent) (q.Gravity, error) {
			return AcidDensity(Acid(math.Round(clamped(a, -1, 9))), strength)
		}, 0, 80),
		flat3("PureAcid", PureAcid, 0.01, 80, 1.19),
		flat3("AlkalinityNeutralised", AlkalinityNeutralised, 0.01, 10.5, 30),
		flat3("AcidFor", AcidFor, 100, 10.5, 30),
		flat3("PitchingRate", PitchingRate, 170e9, 20, 1.045),
		flat3("CellsFor", CellsFor, 0.75, 20, 1.045),
		flat5("LogisticGravity", LogisticGravity, 1.041, 1.0147, 1.71, 1156, 2880),
		flat5("LogisticTime", LogisticTime, 1.041, 1.0147, 1.71, 1156, 1.016),
		flat2("VolumeAt20", VolumeAt20, 28, 98),
	}
}

// clamped makes any float one that an int can hold; NaN becomes the lower end.
func clamped(x, low, high float64) float64 {
	if !(x > low) {
		return low
	}
	return min(x, high)
}

// wild are numbers that no reading should be.
var wild = []float64{
	math.NaN(), math.Inf(1), math.Inf(-1), math.MaxFloat64, -math.MaxFloat64, math.SmallestNonzeroFloat64,
	0, math.Copysign(0, -1), -1, 1e-300, 1e300, 1e9, -1e9, 1e-9,
}

// wildly is any float, more often a troublesome one or one near what is ordinary.
func wildly(near float64) *rapid.Generator[float64] {
	return rapid.OneOf(
		rapid.SampledFrom(wild),
		rapid.Float64(),
		rapid.Float64Range(-200, 200),
		rapid.Map(rapid.Float64Range(0.5, 1.5), func(share float64) float64 { return share * near }),
		rapid.Just(near),
	)
}

// TestNoFormulaGoesWild: whatever goes in, a finite number comes out or a
// RangeError beside nought.
func TestNoFormulaGoesWild(t *testing.T) {
	for _, f := range formulas() {
		t.Run(f.name, func(t *testing.T) {
			rapid.Check(t, func(t *rapid.T) {
				x := make([]float64, len(f.good))
				for i := range x {
					x[i] = wildly(f.good[i]).Draw(t, "argument")
				}
				mustBeSound(t, f, x)
			})
		})
	}
}

// TestOneWildArgument puts each troublesome number in each place by itself, so
// that no check hides behind an earlier one.
func TestOneWildArgument(t *testing.T) {
	for _, f := range formulas() {
		for i := range f.good {
			for _, trouble := range wild {
				x := append([]float64(nil), f.good...)
				x[i] = trouble
				mustBeSound(t, f, x)
			}
		}
	}
}

// mustBeSound checks one result, and that NaN and infinity are refused wherever
// they are (a flag apart).
func mustBeSound(t interface{ Errorf(string, ...any) }, f formula, x []float64) {
	got, err := f.of(x)
	var outside *RangeError
	switch {
	case err == nil && (math.IsNaN(got) || math.IsInf(got, 0)):
		t.Errorf("%s%v = %v and no error", f.name, x, got)
	case err != nil && (!errors.As(err, &outside) || got != 0):
		t.Errorf("%s%v = %v, %v; want nought and a RangeError", f.name, x, got, err)
	case err != nil && (outside.Formula == "" || outside.Input == ""):
		t.Errorf("%s%v: an error that names nothing: %v", f.name, x, err)
	}
}

// TestGoodArguments: an ordinary brewing is inside every range, and costs no
// allocation.
func TestGoodArguments(t *testing.T) {
	for _, f := range formulas() {
		if _, err := f.of(f.good); err != nil {
			t.Errorf("%s: %v", f.name, err)
		}
		if n := testing.AllocsPerRun(20, func() { _, _ = f.of(f.good) }); n != 0 {
			t.Errorf("%s allocates %v times on the good path", f.name, n)
		}
	}
}

// TestRangeErrorsRead: a brewer must see which reading is meant and what it may
// be.
func TestRangeErrorsRead(t *testing.T) {
	message := func(_ any, err error) string {
		if err == nil {
			return "no error"
		}
		return err.Error()
	}
	wrap := func(f formula, x ...float64) string { r, err := f.of(x); return message(r, err) }
	byName := map[string]formula{}
	for _, f := range formulas() {
		byName[f.name] = f
	}
	for _, c := range []struct {
		name string
		x    []float64
		want string
	}{
		{"AlcoholByVolume", []float64{1.42, 1.010},
			"Balling's formula: the original gravity must be from 1.000 to 1.130; this is 1.420"},
		{"DutyStrength", []float64{1.040, 1.042},
			"the duty table: the fall in gravity must be from 0 to 100.75 points; this is −2 points"},
		{"PrimingCO2", []float64{60, 0.514, 0}, "priming: the beer must be more than 0; this is 0 L"},
		{"PrimingCO2", []float64{-60, 0.514, 20}, "priming: the sugar must be 0 or more; this is −60 g"},
		{"StrikeTemperature", []float64{66, 18, 4500, 2, 0},
			"a strike temperature: the strike must be from −10 to 100 °C; this is 110.28 °C"},
		{"StrikeTemperature", []float64{152, 65, 4500, 11, 0},
			"a strike temperature: the rest must be from 30 to 80 °C; this is 152 °C"},
		{"UnderGauge", []float64{0, math.NaN(), 101},
			"the solubility of carbon dioxide: the temperature must be from −2 to 50 °C; this is not a number"},
		{"Headspace", []float64{20, 22}, "headspace: the beer in it must be from 0 to 20 L; this is 22 L"},
		{"VolumeAt20", []float64{3e9, 20},
			"the expansion of wort: the volume must be what a brewery might hold; this is 3e9 L"},
		{"WortGravityByRefractometer", []float64{10.5, 2},
			"a refractometer's reading of wort: the wort factor must be from 0.9 to 1.1; this is 2"},
		{"BoilOff", []float64{28, 24, 0}, "boil-off: the boil must be from 1 to 720 min; this is 0 min"},
	} {
		if got := wrap(byName[c.name], c.x...); got != c.want {
			t.Errorf("%s%v:\n got %s\nwant %s", c.name, c.x, got, c.want)
		}
	}
}

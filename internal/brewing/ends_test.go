package brewing

import (
	"errors"
	"testing"
)

// span is the range of one argument of a formula, as its doc comment has it; the
// other arguments are those of an ordinary brewing, or with.
type span struct {
	name      string
	argument  int
	low, high float64
	with      []float64
}

// spans are the ranges that the doc comments promise, typed from there.
var spans = []span{
	{"AlcoholFactor", 0, 0, 30.5, nil},
	{"AlcoholByWeight", 0, 1.000, 1.130, nil}, {"AlcoholByWeight", 1, 0.985, 1.130, nil},
	{"AlcoholByVolume", 0, 1.000, 1.130, nil}, {"AlcoholByVolume", 1, 0.985, 1.130, nil},
	{"ByWeight", 0, -1, 30, nil}, {"ByWeight", 1, 0.985, 1.130, nil},
	{"RealExtract", 0, 1.000, 1.130, nil}, {"RealExtract", 1, 0.985, 1.130, nil},
	{"StrengthConditioned", 0, -1, 20, nil}, {"StrengthConditioned", 1, -1, 45, nil},
	{"ApparentAttenuation", 0, 1.004, 1.150, nil}, {"ApparentAttenuation", 1, 0.985, 1.150, nil},
	{"RealAttenuation", 0, 1.004, 1.130, nil}, {"RealAttenuation", 1, 0.985, 1.130, nil},
	{"FinalGravityFromAttenuation", 0, 1.004, 1.150, nil}, {"FinalGravityFromAttenuation", 1, 0, 110, nil},
	{"UtilisationTinseth", 0, 0, 240, nil}, {"UtilisationTinseth", 1, 0.990, 1.150, nil},
	{"BitternessTinseth", 1, 0, 30, nil}, {"BitternessTinseth", 2, 0, 240, nil},
	{"BitternessTinseth", 3, 0.990, 1.150, nil},
	{"BitternessSteeped", 2, 0, 240, nil}, {"BitternessSteeped", 3, 0, 105, nil},
	{"BoilOff", 2, 1, 720, nil},
	{"SolubilityInWater", 0, -2, 50, nil},
	{"UnderGauge", 0, -1, 20, nil}, {"UnderGauge", 1, -2, 50, nil}, {"UnderGauge", 2, 40, 110, nil},
	{"AirAt", 0, -500, 5000, nil}, {"GasOverDissolved", 2, -2, 50, nil},
	{"CO2ToCome", 0, 0.980, 1.150, nil}, {"CO2ToCome", 1, 0.950, 1.150, nil},
	{"PrimingCO2", 1, 0, 0.6, nil}, {"SugarFor", 0, 0, 10, nil}, {"SugarFor", 1, 0.01, 0.6, nil},
	{"GasOfWort", 1, 1.000, 1.130, nil}, {"GasOfWort", 2, 0, 130, nil},
	{"ColourUnits", 1, 0, 5000, nil}, {"ColourMorey", 0, 0, 250, nil},
	{"CutDuty", 0, 0, 100, nil}, {"UnitsOfAlcohol", 0, -1, 100, nil},
	{"ConditioningKilojoules", 0, 0, 10, nil}, {"ConditioningKilojoules", 1, 0, 30, nil},
	{"ConditioningKilocalories", 0, 0, 10, nil}, {"ConditioningKilocalories", 1, 0, 30, nil},
	{"EthanolWaterDensity", 0, 0, 100, nil}, {"EthanolWaterDensity", 1, 0, 40, nil},
	{"EthanolByVolume", 0, 0, 100, nil}, {"EthanolByWeight", 0, 0, 100, nil},
	{"LitreDegrees", 1, 0, 400, nil},
	{"BlendedGravity", 1, 0.985, 1.150, nil}, {"BlendedGravity", 3, 0.985, 1.150, nil},
	{"GravityWithExtract", 1, 0.985, 1.150, nil},
	{"HydrometerCorrected", 0, 0.900, 1.200, nil}, {"HydrometerCorrected", 1, 0, 60, nil},
	{"HydrometerCorrected", 2, 0, 40, nil},
	{"WortGravityByRefractometer", 0, 0, 35, nil}, {"WortGravityByRefractometer", 1, 0.9, 1.1, nil},
	{"StrikeTemperature", 0, 30, 80, nil}, {"StrikeTemperature", 1, -10, 40, nil},
	{"StrikeTemperatureInTun", 5, -10, 100, nil}, {"SettledAt", 5, -10, 100, nil},
	{"Headspace", 1, 0, 23, nil},
	{"Filled", 0, 0, 12, nil}, {"Filled", 3, 40, 110, nil}, {"Filled", 4, -2, 50, nil}, {"At", 6, -2, 50, nil},
	{"HeldUnder", 5, -1, 20, nil}, {"Gauged", 5, -1, 20, nil}, {"LeakedTo", 5, -1, 20, nil}, {"Fed", 5, -1, 20, nil}, {"Drawn", 6, -2, 50, nil},
	{"InfusionTemperature", 0, -10, 100, nil}, {"InfusionTemperature", 5, 0, 100, nil},
	{"InfusionVolume", 0, -10, 66, nil}, {"InfusionVolume", 1, 55, 97.5, nil}, {"InfusionVolume", 5, 66.5, 100, nil},
	{"LiquorAbsorbed", 1, 0, 3, nil}, {"LiquorNeeded", 2, 0, 3, nil}, {"LiquorNeeded", 3, 0, 100, nil},
	{"LiquorNeeded", 4, 0, 720, nil},
	{"VolumeAtGravity", 1, 1.000, 1.150, nil}, {"VolumeAtGravity", 2, 1.002, 1.150, nil},
	{"LiquorBack", 1, 1.000, 1.150, nil}, {"LiquorBack", 2, 1.002, 1.150, nil}, {"PointsRaised", 1, 0, 400, nil},
	{"FinalGravityWithSugar", 0, 1.000, 1.150, nil}, {"FinalGravityWithSugar", 1, -10, 120, nil},
	{"FinalGravityWithSugar", 2, 0, 1, nil},
	{"IonFromSalt", 1, 0, 200, nil}, {"AlkalinityOf", 0, 0, 1e5, nil}, {"BicarbonateOf", 0, 0, 1e5, nil},
	{"ResidualAlkalinity", 0, -1e5, 1e5, nil}, {"ResidualAlkalinity", 1, 0, 1e5, nil},
	{"ResidualAlkalinity", 2, 0, 1e5, nil},
	{"SulphateToChloride", 0, 0, 1e5, nil}, {"SulphateToChloride", 1, 0.1, 1e5, nil},
	{"IonBalance", 0, 0, 1e5, nil}, {"IonBalance", 1, 0, 1e5, nil}, {"IonBalance", 2, 0, 1e5, nil},
	{"IonBalance", 3, 0, 1e5, nil}, {"IonBalance", 4, 0, 1e5, nil}, {"IonBalance", 5, 0, 1e5, nil},
	{"AcidStrength", 1, 0, 100, nil}, {"AcidStrength", 2, 0.9, 2, nil}, {"AcidStrength", 3, 3, 8, nil},
	{"AcidDensity", 1, 0, 38, []float64{float64(HydrochloricAcid), 0}},
	{"AcidDensity", 1, 0, 60, []float64{float64(CitricAcid), 0}},
	{"AcidDensity", 1, 0, 100, []float64{float64(LacticAcid), 0}},
	{"AcidDensity", 1, 0, 100, []float64{float64(PhosphoricAcid), 0}},
	{"AcidDensity", 1, 0, 100, []float64{float64(SulphuricAcid), 0}},
	{"PureAcid", 1, 0, 100, nil}, {"PureAcid", 2, 0.9, 2, nil}, {"AlkalinityNeutralised", 1, 0, 50, nil},
	{"AcidFor", 0, 0, 1e5, nil}, {"AcidFor", 1, 0.01, 50, nil},
	{"PitchingRate", 2, 1.004, 1.150, nil}, {"CellsFor", 0, 0, 100, nil}, {"CellsFor", 2, 1.004, 1.150, nil},
	{"LogisticGravity", 1, 0.950, 1.200, nil}, {"LogisticGravity", 2, 0, 100, nil},
	{"LogisticGravity", 3, -1000 * 1440, 1000 * 1440, nil}, {"LogisticGravity", 4, -1000 * 1440, 1000 * 1440, nil},
	{"LogisticTime", 2, 0.001, 100, nil},
	{"VolumeAt20", 1, 0, 105, nil}, {"WaterDensity", 0, 0, 110, nil},
}

// TestRangesEndWhereTheyAreSaidTo: each formula answers up to both ends of what its
// doc comment promises, and a hundredth of the range beyond them it says that it
// does not.
func TestRangesEndWhereTheyAreSaidTo(t *testing.T) {
	byName := map[string]formula{}
	for _, f := range formulas() {
		byName[f.name] = f
	}
	for _, s := range spans {
		f := byName[s.name]
		at := func(value float64) error {
			x := append([]float64(nil), f.good...)
			copy(x, s.with)
			x[s.argument] = value
			_, err := f.of(x)
			return err
		}
		for _, end := range []struct{ value, beyond float64 }{
			{s.low, s.low - (s.high-s.low)/100}, {s.high, s.high + (s.high-s.low)/100},
		} {
			if err := at(end.value); err != nil {
				t.Errorf("%s, argument %d at %v: %v", s.name, s.argument, end.value, err)
			}
			var outside *RangeError
			if err := at(end.beyond); !errors.As(err, &outside) {
				t.Errorf("%s, argument %d at %v: %v, and its range ends at %v", s.name, s.argument, end.beyond, err, end.value)
			}
		}
	}
}

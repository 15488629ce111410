package brewing

import (
	"testing"

	"pgregory.net/rapid"

	q "gylebook/internal/quantity"
)

// TestBottledAcids holds strength by weight and density together to the moles in a
// litre of the acids that laboratories buy, as their suppliers print them (from
// memory, to two digits or three).
func TestBottledAcids(t *testing.T) {
	const asPrinted = 0.02 // share
	for _, c := range []struct {
		name     string
		acid     Acid
		strength q.Percent
		molar    float64
	}{
		{"hydrochloric 37 %", HydrochloricAcid, 37, 12.0},
		{"hydrochloric 10 %", HydrochloricAcid, 10, 2.87},
		{"sulphuric 96 %", SulphuricAcid, 96, 18.0},
		{"phosphoric 85 %", PhosphoricAcid, 85, 14.7},
		{"lactic 88 %", LacticAcid, 88, 11.8},
	} {
		density := good[q.Gravity](t)(AcidDensity(c.acid, c.strength))
		pure := good[q.Mass](t)(PureAcid(1, c.strength, density))
		near(t, c.name, pure.Grams()/acids[c.acid].molarMass, c.molar, asPrinted*c.molar)
	}
}

// TestAcidDensityRises: more acid is heavier, without a jump, but for the last
// percents of sulphuric acid.
func TestAcidDensityRises(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := Acid(rapid.IntRange(int(LacticAcid), int(CitricAcid)).Draw(t, "acid"))
		strength := between[q.Percent](t, "strength", 0, 37.9)
		weak, strong := must[q.Gravity](t)(AcidDensity(a, strength)), must[q.Gravity](t)(AcidDensity(a, strength+0.1))
		if strong < weak || strong-weak > 0.002 {
			t.Errorf("acid %d: %v at %v %%, %v a tenth stronger", a, weak, strength, strong)
		}
	})
}

// TestAcidDensityIsSmooth: a solution's density follows its strength without a kink,
// so that a value of the tables that is misprinted stands out from its neighbours.
// From one stretch to the next the slope changes by no more than a quarter, in the
// tables as handbooks have them, as far as 90 %: sulphuric acid turns there.
func TestAcidDensityIsSmooth(t *testing.T) {
	const least, most = 0.74, 1.30
	for a, points := range acidDensities {
		last := 0.0
		for i := 1; i < len(points) && points[i].strength <= 90; i++ {
			slope := (points[i].gravity - points[i-1].gravity) / (points[i].strength - points[i-1].strength)
			if last > 0 && (slope/last < least || slope/last > most) {
				t.Errorf("acid %d has a kink at %v %%: %v a percent before it, %v after", a, points[i-1].strength, last, slope)
			}
			last = slope
		}
		if points[0].strength != 0 || points[0].gravity != 1 {
			t.Errorf("acid %d: water is %v at %v %%", a, points[0].gravity, points[0].strength)
		}
	}
}

// TestAcidAnions: the chloride and sulphate that come with an acid are as many
// equivalents as the alkalinity it takes off, so that the balance of ions keeps.
func TestAcidAnions(t *testing.T) {
	const complete = 0.002 // share: what sulphuric acid has not given at pH 5.4
	for _, c := range []struct {
		acid  Acid
		share q.Percent
		molar float64 // of the ion
		moles float64 // equivalents in a mole
	}{
		{HydrochloricAcid, HydrochloricChloride, chlorideMolarMass, 1},
		{SulphuricAcid, SulphuricSulphate, sulphateMolarMass, 2},
	} {
		density := good[q.Gravity](t)(AcidDensity(c.acid, 30))
		pure := good[q.Mass](t)(PureAcid(0.010, 30, density))
		ion := good[q.Concentration](t)(IonFromSalt(pure, c.share, 25))
		strength := good[q.Number](t)(AcidStrength(c.acid, 30, density, 5.4))
		alkalinity := good[q.Concentration](t)(AlkalinityNeutralised(0.010, strength, 25))
		equivalents := float64(ion) / c.molar * c.moles
		near(t, "mEq/L", equivalents, float64(alkalinity)/chalkEquivalent, complete*equivalents)
	}
	near(t, "bicarbonate and back", good[q.Concentration](t)(BicarbonateOf(good[q.Concentration](t)(AlkalinityOf(200)))),
		200.0, 1e-9)
}

// TestConditioningEnergy: 3 g/L of sucrose brings its own 1.5 g of alcohol a
// litre, and gas from the beer's extract takes about as much energy as it makes.
func TestConditioningEnergy(t *testing.T) {
	gas := good[q.Carbonation](t)(PrimingCO2(3, 0.51428, 1))
	// 4 mol of ethanol from a mole of sucrose, 342.297 g.
	alcohol := 3 * 4 * 46.069 / 342.297 / 10 // g in 100 mL
	near(t, "kJ from priming", good[q.Number](t)(ConditioningKilojoules(gas, 0)), 29*alcohol, 0.01)
	near(t, "kcal from priming", good[q.Number](t)(ConditioningKilocalories(gas, 0)), 7*alcohol, 0.01)
	// Balling: 2.0665 g of extract make 1 g of alcohol; 17 × 2.0665 = 35.1 kJ become 29.
	fall := good[q.Carbonation](t)(CO2ToCome(1.012, 1.010))
	made := fall.GramsPerLitre() / 10 / 0.9565
	byBalling := made * (29 - 17*2.0665)
	const routes = 0.01 // kJ: 46.069/44.009 of alcohol to the gas by chemistry, 1/0.9565 by Balling
	near(t, "kJ from two points still to fall", good[q.Number](t)(ConditioningKilojoules(0, fall)), byBalling, routes)
}

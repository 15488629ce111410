package brewing

import (
	"math"
	"testing"

	q "gylebook/internal/quantity"
)

// TestPlatoGrid holds the cubic to the sucrose tables and to the density
// polynomial, which come from different measurements.
func TestPlatoGrid(t *testing.T) {
	for _, r := range table(t, "02_sucrose_plato_sg_grid.csv") {
		p := r.number(t, "extract_degP")
		asTables := 0.0001 // SG: what the published tables agree to, from 0 to 25 °P
		if p > 25 {
			asTables = 0.0002
		}
		for _, column := range []string{"sg_20_20_apparent_in_air", "sg_20_20_asbc_cubic_fit",
			"sg_20_20_nbs_c440_cubic_fit"} {
			near(t, r["extract_degP"]+" °P by "+column, q.Plato(p), r.number(t, column), asTables)
		}
		const inPlato = 0.03 // °P: 0.02 of the tables, and their rounding to 0.00001
		near(t, "SG "+r["sg_20_20_apparent_in_air"], q.SG(r.number(t, "sg_20_20_apparent_in_air")).Plato(), p, inPlato)
	}
}

// TestPlatoPublishedPoints takes the points that were read in print.
func TestPlatoPublishedPoints(t *testing.T) {
	const asPrinted = 0.0001 // SG
	seen := 0
	for _, r := range table(t, "02b_sucrose_published_points.csv") {
		if r["provenance"] != "found" || !r.has("sg_apparent_published_or_derived") {
			continue
		}
		seen++
		near(t, r["extract_degP"]+" °P", q.Plato(r.number(t, "extract_degP")),
			r.number(t, "sg_apparent_published_or_derived"), asPrinted)
	}
	if seen < 12 {
		t.Errorf("%d published points, want the 12 of the USDA table at least", seen)
	}
}

// TestPlatoRivals holds the cubic against the other published equations where
// they claim to hold.
func TestPlatoRivals(t *testing.T) {
	if len(table(t, "02c_sucrose_equations.csv")) != 6 {
		t.Error("the table has other equations than these")
	}
	for points := 5.0; points <= 100; points += 5 {
		s := 1 + points/1000
		p := q.SG(s).Plato()
		near(t, "NBS C440", p, 182.4601*s*s*s-775.6821*s*s+1262.7794*s-669.5622, 0.02)
		near(t, "Lincoln", p, (463-205*s)*(s-1), 0.06)
		if points <= 75 { // its mean error is 0.02 °P, but it bends away in strong worts
			near(t, "Buhl", p, 260.4-260.4/s, 0.06)
		}
		if points <= 50 {
			near(t, "a quarter of the points", p, points/4, 0.15)
		}
	}
}

// TestWaterDensity holds Kell to the table and, by another route, to Tanaka.
func TestWaterDensity(t *testing.T) {
	const routesAgree = 0.02 // kg/m³, 0.00002 in SG
	for _, r := range table(t, "04_water_density.csv") {
		at := q.Celsius(r.number(t, "temperature_C"))
		density := good[float64](t)(WaterDensity(at))
		near(t, "Kell at "+r["temperature_C"]+" °C", density, r.number(t, "density_kell1975_kg_m3"), 0.001)
		near(t, "IF97 at "+r["temperature_C"]+" °C", density, r.number(t, "density_if97_kg_m3"), routesAgree)
		if at <= 40 {
			near(t, "Tanaka's table at "+r["temperature_C"]+" °C", density, r.number(t, "density_tanaka2001_kg_m3"), routesAgree)
			near(t, "Tanaka's equation at "+r["temperature_C"]+" °C", density, tanaka(at), routesAgree)
		}
		volume := good[q.Volume](t)(VolumeAt20(1, at))
		near(t, "hot wort at "+r["temperature_C"]+" °C", 1/volume, r.number(t, "volume_relative_to_20C"), 0.00003)
	}
}

// tanaka is the density of water after M. Tanaka et al., Metrologia 38 (2001)
// 301, 0 to 40 °C.
func tanaka(t q.Temperature) float64 {
	c := t.Celsius()
	return 999.974950 * (1 - (c-3.983035)*(c-3.983035)*(c+301.797)/(522528.9*(c+69.34881)))
}

// TestMisprintedKell: the denominator that a reprint has is refused by the
// tables.
func TestMisprintedKell(t *testing.T) {
	right := good[float64](t)(WaterDensity(20))
	misprinted := right * (1 + 16.879850e-3*20) / (1 + 16.897850e-3*20)
	near(t, "the misprint's error", right-misprinted, 0.27, 0.005)
}

// TestHydrometerTable holds the correction to a published table, which leaves the
// glass out: what the glass takes off is added back before comparing.
func TestHydrometerTable(t *testing.T) {
	const asPublished = 0.0002 // the table has four decimals and its own water
	for _, r := range table(t, "04b_hydrometer_correction.csv") {
		sample := q.Celsius(r.number(t, "temperature_C"))
		add := good[q.Gravity](t)(HydrometerCorrected(1, sample, 15)) - 1
		glass := glassExpansion * float64(sample-15)
		near(t, "water alone at "+r["temperature_C"]+" °C", float64(add)+glass,
			r.number(t, "add_to_sg_15C_instrument_published"), asPublished)
		const asComputed = 0.00002
		near(t, "water and glass, marked 15 °C", add, r.number(t, "water_and_glass_15C_computed"), asComputed)
		add20 := good[q.Gravity](t)(HydrometerCorrected(1, sample, 20)) - 1
		near(t, "water and glass, marked 20 °C", add20, r.number(t, "water_and_glass_20C_computed"), asComputed)
	}
}

// TestHydrometerGlass: the glass is worth 0.0006 at 40 °C to an instrument
// marked 15 °C, and multiplying instead of adding 0.0004 at 1.060.
func TestHydrometerGlass(t *testing.T) {
	const asStated = 0.0001
	corrected := good[q.Gravity](t)(HydrometerCorrected(1.060, 40, 15))
	ofWater := good[q.Gravity](t)(HydrometerCorrected(1.000, 40, 15))
	near(t, "multiplying", corrected-1.060-(ofWater-1), 0.0004, asStated)
	near(t, "glass", float64(ofWater)*glassExpansion*25, 0.0006, asStated)
	near(t, "a sample at the mark", good[q.Gravity](t)(HydrometerCorrected(1.0123, 17, 17)), 1.0123, 1e-12)
}

// TestRefractometer: what a refractometer shows is extract and alcohol. The sum
// is built here from Balling's proportions and must come back as the gravity.
func TestRefractometer(t *testing.T) {
	for _, c := range []struct{ og, fg q.Gravity }{{1.042, 1.010}, {1.060, 1.014}, {1.100, 1.022}, {1.036, 1.036},
		{1.050, 0.998}} {
		extract := good[float64](t)(RealExtract(c.og, c.fg))
		alcohol := good[q.Percent](t)(AlcoholByWeight(c.og, c.fg))
		// Alcohol by the same real extract, so that only the optics are under test.
		balanced := (c.og.Plato() - extract) / extractPerAlcohol(c.og.Plato())
		near(t, "alcohol both ways", alcohol, balanced, 1e-9)
		shown := q.Brix((extract + ethanolAsBrix*float64(alcohol)) * float64(WortFactor))
		near(t, "gravity by refractometer", good[q.Gravity](t)(GravityByRefractometer(c.og, shown, float64(WortFactor))), c.fg, 1e-9)
	}
	// A published study's mean: 5.3 °Bx in a beer of 1.010 from 1.042.
	const published = 0.0015 // RefractometerScatter
	near(t, "a published beer", good[q.Gravity](t)(GravityByRefractometer(1.042, 5.3, float64(WortFactor))), 1.010, published)
	near(t, "wort", good[q.Gravity](t)(WortGravityByRefractometer(10.2, 1.02)), float64(q.Plato(10)), 1e-12)
}

// TestExtractPotential: pure sugar by the density of its solutions.
func TestExtractPotential(t *testing.T) {
	const rounding = 1.5 // Ldeg/kg: 385 stands for 385.2 at 100 g/L and 386.0 at 40 g/L
	rows := table(t, "08e_extract_potential.csv")
	for _, item := range []string{"sucrose 100 % extract at 100 g/L", "sucrose, at 40 g/L"} {
		near(t, item, q.PureSugar, cell(t, rows, "value", "item", item), rounding)
	}
	// 1 lb in 1 US gal, by the sums that a wort goes through.
	total := good[q.Number](t)(LitreDegrees(q.Pound, q.PureSugar))
	g := good[q.Gravity](t)(GravityOf(total, q.USGallon))
	near(t, "1 lb of sugar in 1 US gal", g.Points(),
		cell(t, rows, "value", "item", "sucrose 100 % extract, 1 lb in 1 US gal"), 0.05)
	factor := 1000 * float64(q.USGallon) / float64(q.Pound)
	near(t, "litre-degrees for a point of lb/US gal", factor, cell(t, rows, "value", "item", "conversion ppg"), 0.00005)
	// By mass balance: 100 g in a litre of solution of gravity g is 100/(g × 998.2) by weight.
	solution := q.Plato(9.641) // 100 g/L: 100 / (1.0385 × 998.2) × 100
	near(t, "100 g/L of sucrose by Plato", solution.Points(), 38.52, 0.05)
}

// TestBlendAgainstPoints is the claim that points and litres may be averaged.
func TestBlendAgainstPoints(t *testing.T) {
	const claimed = 0.0002
	for og := q.Gravity(1.010); og < 1.0801; og += 0.005 {
		blend := good[q.Gravity](t)(BlendedGravity(10, og, 10, 1))
		if off := math.Abs(float64(blend - (og+1)/2)); off > claimed {
			t.Errorf("half of %.3f and half water: points are out by %.5f", og, off)
		}
	}
}

func TestYield(t *testing.T) {
	near(t, "yield", good[q.Percent](t)(Yield(720, 1000)), 72.0, 1e-12)
	near(t, "below nothing", good[q.Percent](t)(Yield(-10, 1000)), -1.0, 1e-12)
}

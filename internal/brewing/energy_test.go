package brewing

import (
	"testing"

	q "gylebook/internal/quantity"
)

// asbcKilocalories is the rival energy of 100 mL: 6.9 kcal from a gram of alcohol,
// 4.0 from real extract less 0.1 % of ash (ASBC, as in the Oxford Companion to
// Beer). Some print it times gravity for times density, which is 0.2 % more.
func asbcKilocalories(alcohol, extract float64, beer q.Gravity) float64 {
	return (6.9*alcohol + 4*(extract-beerAsh)) * beer.SG() * waterDensity20 / 1000
}

// TestEnergyWorked holds the rival formula to the published worked example, and
// ours to the rival but for what the two say of alcohol.
func TestEnergyWorked(t *testing.T) {
	const oneKilocalorie = 1.0
	rows := table(t, "11a_energy.csv")
	og, fg := q.Plato(12.2), q.Plato(3.8)
	fixed := fixedRealExtract(12.2, 3.8)
	halfLitre := 5 * asbcKilocalories((12.2-fixed)/extractPerAlcohol(12.2), fixed, fg)
	near(t, "Rudolph's half litre, recomputed", halfLitre, cell(t, rows, "value_or_formula", "item", "worked 12.2/3.8 P"),
		0.1)

	published := cell(t, table(t, "03c_balling_worked.csv"), "published_value", "quantity", "energy")
	alcohol := float64(good[q.Percent](t)(AlcoholByWeight(og, fg))) * fg.SG()
	annexForASBC := 5 * (alcoholKilocalories - 6.9) * alcohol // 7 for 6.9 kcal/g: 1.8 kcal
	ours := 5 * float64(good[q.Number](t)(EnergyKilocalories(og, fg)))
	near(t, "Rudolph's half litre by the Annex", ours-annexForASBC, published, oneKilocalorie)
}

// TestEnergyFixedRatio: the two sums that were worked with Balling's fixed ratio.
func TestEnergyFixedRatio(t *testing.T) {
	rows := table(t, "11a_energy.csv")
	const oneKilocalorie = 1.0
	for _, c := range []struct {
		item   string
		og, fg q.Gravity
		per    float64 // of 100 mL
	}{
		{"worked OG 1.050 FG 1.010, per 100 mL", 1.050, 1.010, 1},
		{"worked OG 1.042 FG 1.010, per UK pint", 1.042, 1.010, 10 * q.UKPint.Litres()},
	} {
		alcohol := float64(good[q.Percent](t)(AlcoholByWeight(c.og, c.fg)))
		asbc := c.per * asbcKilocalories(alcohol, good[float64](t)(RealExtract(c.og, c.fg)), c.fg)
		near(t, c.item, asbc, cell(t, rows, "value_or_formula", "item", c.item), oneKilocalorie)
		annex := c.per * float64(good[q.Number](t)(EnergyKilocalories(c.og, c.fg)))
		near(t, c.item+" by the Annex", annex/asbc, 1.01, 0.01)
	}
}

// TestEnergyOfParts: kJ and kcal are the same alcohol and extract by the two
// columns of the Annex, and beer without alcohol is its extract.
func TestEnergyOfParts(t *testing.T) {
	og, fg := q.SG(1.042), q.SG(1.010)
	kJ, kcal := good[q.Number](t)(EnergyKilojoules(og, fg)), good[q.Number](t)(EnergyKilocalories(og, fg))
	alcohol := float64(good[q.Percent](t)(AlcoholByVolume(og, fg))) * ethanolDensity / 1000 // g per 100 mL
	fromVolume := 29*alcohol + 17*(float64(kcal)-7*alcohol)/4
	near(t, "kJ", float64(kJ), fromVolume, 1e-9)
	near(t, "kJ in a kcal", float64(kJ/kcal), 4.184, 0.06) // 29/7 and 17/4 on either side

	wort := good[q.Number](t)(EnergyKilojoules(1.042, 1.042))
	extract := (q.SG(1.042).Plato() - 0.1) * 1.042 * 0.9982
	near(t, "wort", wort, 17*extract, 1e-9)
	sugars := good[q.Concentration](t)(Carbohydrate(1.042, 1.042))
	near(t, "carbohydrate of wort, mg/L", sugars, 0.93*extract*10000, 1e-6)
	none := good[q.Concentration](t)(Carbohydrate(1.000, 1.000))
	near(t, "carbohydrate of water, mg/L", none, 0.0, 0.0)
}

// TestOIMLEthanol holds the mixture's density and both strengths to the tables,
// and to the one published limit.
func TestOIMLEthanol(t *testing.T) {
	const ofDensity, ofStrength = 0.02, 0.01 // kg/m³ and % vol, as the reference states
	for _, r := range table(t, "03g_oiml_ethanol_20C.csv") {
		byVolume, byWeight := q.Percent(r.number(t, "abv_20C_pct_vol")), q.Percent(r.number(t, "abw_pct_w_w"))
		name := r["abv_20C_pct_vol"] + " % vol"
		near(t, "density of "+name, good[float64](t)(EthanolWaterDensity(byWeight, 20)), r.number(t, "density_20C_kg_m3"),
			ofDensity)
		near(t, "by weight of "+name, good[q.Percent](t)(EthanolByWeight(byVolume)), byWeight, ofStrength)
		near(t, "by volume of "+name, good[q.Percent](t)(EthanolByVolume(byWeight)), byVolume, ofStrength)
	}
	pure := good[float64](t)(EthanolWaterDensity(100, 20))
	near(t, "ethanol at 20 °C", pure, ethanolDensity, 0.005)
}

// TestUSPEthanol holds the temperature terms to another publication's table:
// specific gravity in air, 15.56 °C.
func TestUSPEthanol(t *testing.T) {
	const asPrinted, air = 0.0001, 1.2 // SG of four decimals; air in kg/m³
	at := q.Fahrenheit(60)
	water := good[float64](t)(EthanolWaterDensity(0, at))
	compared := 0
	for _, r := range table(t, "03h_ethanol_usp_check.csv") {
		density := good[float64](t)(EthanolWaterDensity(q.Percent(r.number(t, "abw_pct_w_w")), at))
		if !r.has("sg_15.56_15.56_published") { // the last row: ethanol at 40 °C, in kg/m³
			hot := good[float64](t)(EthanolWaterDensity(100, 40))
			near(t, "ethanol at 40 °C", hot, r.number(t, "oiml_formula_check"), 0.005)
			continue
		}
		compared++
		near(t, "SG of "+r["abw_pct_w_w"]+" % by weight", (density-air)/(water-air), r.number(t, "sg_15.56_15.56_published"),
			asPrinted+1e-9)
	}
	if compared != 21 {
		t.Errorf("%d printed points were compared, want 21", compared)
	}
}

// TestOIMLWater: without ethanol the formula is the density of water by a third
// route.
func TestOIMLWater(t *testing.T) {
	const routesAgree = 0.02 // kg/m³
	for c := q.Celsius(0); c <= 40; c += 5 {
		near(t, "water", good[float64](t)(EthanolWaterDensity(0, c)), good[float64](t)(WaterDensity(c)), routesAgree)
	}
}

package brewing

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	q "gylebook/internal/quantity"
)

// TestBallingFactors holds the quotient to Balling's own table.
func TestBallingFactors(t *testing.T) {
	const asPrinted = 0.0001 // the table has four decimals, so ours are rounded to as many: one unit of the last
	rows := table(t, "03a_balling_alcohol_factors.csv")
	if len(rows) != 31 {
		t.Fatalf("%d factors, want Balling's 31", len(rows))
	}
	for _, r := range rows {
		p := r.number(t, "original_extract_degP")
		factor := good[float64](t)(AlcoholFactor(p))
		near(t, "factor at "+r["original_extract_degP"]+" °P", math.Round(factor*1e4)/1e4,
			r.number(t, "alcohol_factor_apparent_published_g_per_g"), asPrinted+1e-12)
	}
}

// TestBallingConstants closes the sum that the constants come from, so that they
// do not rest on memory: what is fermented is alcohol, gas and yeast, and the gas
// is what chemistry says.
func TestBallingConstants(t *testing.T) {
	rows := table(t, "03b_balling_constants.csv")
	fermented := cell(t, rows, "value_or_equation", "item", "extract consumed")
	carbonDioxide := cell(t, rows, "value_or_equation", "item", "CO2 per 1 g alcohol (Balling)")
	yeast := cell(t, rows, "value_or_equation", "item", "yeast solids")
	near(t, "alcohol, gas and yeast", 1+carbonDioxide+yeast, fermented, 1e-9)
	near(t, "extract for a gram of alcohol in thin wort", extractPerAlcohol(0), fermented, 1e-9)
	const ballingOfChemistry = 0.0015 // his weighings of 1845 against atomic masses
	near(t, "gas to alcohol", co2MolarMass/ethanolMolarMass, carbonDioxide, ballingOfChemistry)
}

// TestMeasuredBeers sets two gravities in against measured alcohol out: 22
// laboratory analyses of 1917.
func TestMeasuredBeers(t *testing.T) {
	const (
		meanError = 0.25 // % vol: alcohol lost in open vessels and the methods of the day
		eachError = 0.60 // % vol: two readings to 0.0001 and one distillation, brews apart
	)
	rows := table(t, "03d_usda_bulletin493_wort_and_beer.csv")
	if len(rows) != 22 {
		t.Fatalf("%d beers, want 22", len(rows))
	}
	var sum, squares float64
	for _, r := range rows {
		og, fg := gravityAt60F(r.number(t, "wort_sg_15.6_15.6")), gravityAt60F(r.number(t, "beer_sg_15.6_15.6"))
		measured := r.number(t, "abv_measured_pct_vol_20C")
		abv := float64(good[q.Percent](t)(AlcoholByVolume(og, fg)))
		near(t, "alcohol of beer "+r["beer_sample"], abv, measured, eachError)
		near(t, "the table's own sum for "+r["beer_sample"], abv, r.number(t, "abv_balling_q_pct_vol"), 0.002)
		sum, squares = sum+abv-measured, squares+(abv-measured)*(abv-measured)
	}
	n := float64(len(rows))
	mean := sum / n
	near(t, "mean error in % vol", mean, 0.0, meanError)
	const roughly = 0.02 // of 22 beers out of the 34 that the constant was worked from
	near(t, "root mean square about measured beers", math.Sqrt(squares/n), AlcoholScatter, roughly)
}

// TestDutyAgainstMeasuredBeers is the rival: it must do as well.
func TestDutyAgainstMeasuredBeers(t *testing.T) {
	const eachError = 0.60 // % vol, as TestMeasuredBeers
	for _, r := range table(t, "03d_usda_bulletin493_wort_and_beer.csv") {
		og, fg := gravityAt60F(r.number(t, "wort_sg_15.6_15.6")), gravityAt60F(r.number(t, "beer_sg_15.6_15.6"))
		near(t, "duty strength of "+r["beer_sample"], good[q.Percent](t)(DutyStrength(og, fg)),
			r.number(t, "abv_measured_pct_vol_20C"), eachError)
	}
}

// TestCutaiaRealExtract holds real extract to the means of 532 brews, and shows
// why the quotient is preferred to the fixed ratio.
func TestCutaiaRealExtract(t *testing.T) {
	const meansScatter = 0.25 // °P: the mean of ratios is not the ratio of means
	for _, r := range table(t, "03e_cutaia_2009_table3.csv") {
		if r["statistic"] != "mean" {
			continue
		}
		original, apparent := r.number(t, "original_extract_degP"), r.number(t, "apparent_extract_degP")
		measured := r.number(t, "real_extract_degP")
		extract := good[float64](t)(RealExtract(q.Plato(original), q.Plato(apparent)))
		near(t, "real extract of "+r["dataset"], extract, measured, meansScatter)
		near(t, "the table's own sum for "+r["dataset"], extract, r.number(t, "real_extract_predicted_q_degP"), 0.0006)
		if fixed := fixedRealExtract(original, apparent); math.Abs(fixed-measured) < math.Abs(extract-measured) {
			t.Errorf("%s: the fixed ratio gives %.3f, nearer to %.2f than %.3f", r["dataset"], fixed, measured, extract)
		}
	}
}

// TestBallingWorked holds Balling's equation to published worked examples.
func TestBallingWorked(t *testing.T) {
	rows := table(t, "03c_balling_worked.csv")
	rudolph := []string{"case", "wort 12.2 P, apparent residue 3.8 P", "quantity", ""}
	published := func(quantity string) (value, tolerance float64) {
		rudolph[3] = quantity
		return cell(t, rows, "published_value", rudolph...), cell(t, rows, "tolerance", rudolph...)
	}
	og, fg := q.Plato(12.2), q.Plato(3.8)
	extract, tolerance := published("real extract")
	fixed := fixedRealExtract(12.2, 3.8)
	near(t, "real extract by his fixed ratio", fixed, extract, tolerance)
	weight, tolerance := published("alcohol by weight")
	near(t, "alcohol by weight by his fixed ratio", (12.2-fixed)/extractPerAlcohol(12.2), weight, tolerance)
	// The quotient lifts real extract by 0.06 °P at this strength and takes 0.03 % of
	// alcohol off; his own figures are printed to 0.1 on top of that.
	const quotientForRatio, printed = 0.065, 0.05
	near(t, "real extract", good[float64](t)(RealExtract(og, fg)), extract, quotientForRatio+printed)
	near(t, "alcohol by weight", good[q.Percent](t)(AlcoholByWeight(og, fg)), weight, quotientForRatio/2+printed)
	volume, _ := published("alcohol by volume")
	const olderEthanol = 0.02 // % vol: he divides by 0.794
	near(t, "alcohol by volume", good[q.Percent](t)(AlcoholByVolume(og, fg)), volume,
		quotientForRatio/2+printed+olderEthanol)

	for _, r := range rows {
		if r["quantity"] != "original extract" {
			continue
		}
		alcohol, real := cutaiaMeans(t, r["case"])
		original := 100 * (extractPerAlcohol(0)*alcohol + real) / (100 + (extractPerAlcohol(0)-1)*alcohol)
		near(t, "original extract of "+r["case"], original, r.number(t, "published_value"), r.number(t, "tolerance"))
	}
}

// TestAlcoholMethodsCompared holds each column to the side-by-side table, and the
// rivals to no more than the spread that its README states.
func TestAlcoholMethodsCompared(t *testing.T) {
	const asPrinted = 0.0011 // three decimals, through gravities of three decimals
	for _, r := range table(t, "03f_abv_methods_compared.csv") {
		og, fg := q.SG(r.number(t, "og")), q.SG(r.number(t, "fg"))
		at := " of " + r["og"] + " to " + r["fg"]
		near(t, "alcohol"+at, good[q.Percent](t)(AlcoholByVolume(og, fg)), r.number(t, "abv_balling_q_pct_vol"), asPrinted)
		near(t, "duty strength"+at, good[q.Percent](t)(DutyStrength(og, fg)), r.number(t, "abv_hmrc_pct_vol"), asPrinted)
		near(t, "apparent attenuation"+at, good[q.Percent](t)(ApparentAttenuation(og, fg)),
			r.number(t, "apparent_attenuation_by_degP_pct"), 0.05) // water is 0 °P here, −0.003 there
		fixed := 100 * (og.Plato() - fixedRealExtract(og.Plato(), fg.Plato())) / og.Plato()
		near(t, "real attenuation by the fixed ratio"+at, fixed, r.number(t, "real_attenuation_pct"), 0.05)
		const quotientForRatio = 1.2 // % at 1.100, where q is 0.244 and the fixed ratio still 0.221
		near(t, "real attenuation"+at, good[q.Percent](t)(RealAttenuation(og, fg)), fixed, quotientForRatio)
	}
}

// TestRealDegreeOfFermentation puts a number on the rival form of ASBC Beer-6.
func TestRealDegreeOfFermentation(t *testing.T) {
	const asPrinted = 0.05 // RealAttenuation's comment prints both to 0.1
	og, fg := q.SG(1.042), q.SG(1.010)
	plain := good[q.Percent](t)(RealAttenuation(og, fg))
	extract := good[float64](t)(RealExtract(og, fg))
	near(t, "plain form", plain, 61.4, asPrinted)
	near(t, "ASBC Beer-6", float64(plain)/(1-0.005161*extract), 62.7, asPrinted)
}

func TestDutyWorked(t *testing.T) {
	const exactly = 1e-9
	for _, r := range table(t, "01b_hmrc_worked.csv") {
		og, fg := q.SG(r.number(t, "og_x1000")/1000), q.SG(r.number(t, "pg_x1000")/1000)
		strength := good[q.Percent](t)(DutyStrength(og, fg))
		near(t, "duty strength of "+r["og_x1000"]+" to "+r["pg_x1000"], strength, r.number(t, "abv_pct_vol_unrounded"),
			exactly)
		near(t, "cut duty strength", good[q.Percent](t)(CutDuty(strength)), r.number(t, "abv_pct_vol_duty_cut"), exactly)
	}
}

// TestDutyBands takes both ends of every printed band.
func TestDutyBands(t *testing.T) {
	const exactly = 1e-9
	rows := table(t, "01_hmrc_abv_factors.csv")
	if len(rows) != len(dutyBands) {
		t.Fatalf("%d printed bands, %d here", len(rows), len(dutyBands))
	}
	for _, r := range rows {
		for _, end := range []string{"gravity_drop_from_points", "gravity_drop_to_points"} {
			fall := r.number(t, end)
			strength := good[q.Percent](t)(DutyStrength(q.SG(1.110), q.SG(1.110-fall/1000)))
			near(t, "strength after "+r[end]+" points", strength, fall*r.number(t, "factor_pct_vol_per_point"), exactly)
		}
	}
	strength, err := DutyStrength(1.110, 1.0092)
	refused(t, "a fall of 100.8 points", strength, err)
}

func TestCutDutyIsNoRounding(t *testing.T) {
	for in, want := range map[q.Percent]q.Percent{7.59: 7.5, 4.19: 4.1, 4.2: 4.2, 0.3: 0.3, 1.1: 1.1, 0: 0, 100: 100} {
		near(t, "cut", good[q.Percent](t)(CutDuty(in)), want, 1e-12)
	}
}

// TestStrengthConditioned: 3 g of sucrose in a litre brings 0.2 % vol, by its
// gas as by its alcohol.
func TestStrengthConditioned(t *testing.T) {
	rows := table(t, "05e_co2_constants_and_yields.csv")
	gasYield := cell(t, rows, "value", "item", "CO2 from sucrose")
	ethanolYield := cell(t, rows, "value", "item", "ethanol from sucrose")
	made := good[q.Carbonation](t)(PrimingCO2(3, q.Number(gasYield), 1))
	raised := good[q.Percent](t)(StrengthConditioned(4, made)) - 4
	const fiveFigures = 1e-5
	near(t, "alcohol from 3 g/L of sucrose", raised, 3*ethanolYield/ethanolDensity*100, fiveFigures)
	near(t, "alcohol from 3 g/L of sucrose, as brewers say", raised, 0.2, 0.01)
}

// TestUnitsOfAlcohol holds units to the published worked values.
func TestUnitsOfAlcohol(t *testing.T) {
	rows := table(t, "11b_units_and_label_law.csv")
	for _, c := range []struct {
		item      string
		abv       q.Percent
		volume    q.Volume
		tolerance float64
	}{
		{"worked: 500 mL x 5 cans at 5 %", 5, 2.5, 1e-9},
		{"worked: UK pint at 4 %", 4, q.UKPint, 0.05}, // printed to one decimal
		{"worked: UK pint at 5 %", 5, q.UKPint, 0.05},
	} {
		near(t, c.item, good[q.Number](t)(UnitsOfAlcohol(c.abv, c.volume)), cell(t, rows, "value", "item", c.item),
			c.tolerance)
	}
}

// fixedRealExtract is the rival of Balling's quotient: 0.1808 and 0.8192 for any
// strength, as H. Rudolph prints it and much of the literature with him.
func fixedRealExtract(original, apparent float64) float64 { return 0.1808*original + 0.8192*apparent }

// TestByWeight: by volume and back is Balling's own % by weight.
func TestByWeight(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		og := between[q.Gravity](t, "original gravity", 1.020, 1.120)
		fg := between[q.Gravity](t, "gravity", 0.995, 1.020)
		abv := must[q.Percent](t)(AlcoholByVolume(og, fg))
		same(t, "by weight", must[q.Percent](t)(ByWeight(abv, fg)), must[q.Percent](t)(AlcoholByWeight(og, fg)), roundTrip)
	})
}

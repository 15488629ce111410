package brewing

import (
	"math"
	"testing"

	q "gylebook/internal/quantity"
)

// TestTinsethTable holds utilisation to the printed cells.
func TestTinsethTable(t *testing.T) {
	const asPrinted = 0.0005 // three decimals
	printed := 0
	for _, r := range table(t, "06a_tinseth_utilisation.csv") {
		u := good[float64](t)(UtilisationTinseth(q.Duration(r.number(t, "boil_min")), q.SG(r.number(t, "wort_sg"))))
		name := "utilisation of " + r["boil_min"] + " min at " + r["wort_sg"]
		near(t, name, u, r.number(t, "utilisation_equation"), 0.00006)
		if r.has("utilisation_published") {
			printed++
			near(t, name, u, r.number(t, "utilisation_published"), asPrinted+1e-9)
		}
	}
	if printed != 58 {
		t.Errorf("%d printed cells were compared, want 58", printed)
	}
}

// TestBitternessWorked holds bitterness to worked sums. Palmer's two results are
// from memory, so the metric sums and the unit factor carry the test.
func TestBitternessWorked(t *testing.T) {
	rows := table(t, "06c_bitterness_worked.csv")
	worked := func(column, item, input string) float64 { return cell(t, rows, column, "item", item, "input", input) }
	tinseth := func(m q.Mass, alpha q.Percent, boiled q.Duration, g q.Gravity, v q.Volume) float64 {
		return float64(good[q.Bitterness](t)(BitternessTinseth(m, alpha, boiled, g, v)))
	}
	near(t, "30 g of 5.5 %", tinseth(30, 5.5, 60, 1.045, 20), worked("recomputed_value", "metric example", "30 g"), 0.001)
	near(t, "15 g of 5.5 %", tinseth(15, 5.5, 10, 1.045, 20), worked("recomputed_value", "metric example", "15 g"), 0.001)

	const palmerRounds = 0.5
	near(t, "Palmer, 60 min", tinseth(1.5*q.Ounce, 6.4, 60, 1.080, 5*q.USGallon),
		worked("published_value", "IBU 60 min", ""), palmerRounds)
	near(t, "Palmer, 15 min", tinseth(q.Ounce, 4.6, 15, 1.080, 5*q.USGallon), worked("published_value", "IBU 15 min", ""),
		palmerRounds)
	near(t, "Palmer's interpolation", good[float64](t)(UtilisationTinseth(30, 1.057)),
		worked("published_value", "Tinseth interpolation", ""), 0.001)

	whole := good[float64](t)(UtilisationTinseth(60, 1.050))
	near(t, "an ounce of 1 % in a US gallon", tinseth(q.Ounce, 1, 60, 1.050, q.USGallon)/whole,
		worked("published_value", "unit factor oz", ""), 0.01)
	near(t, "a gram of 1 % in a litre", tinseth(1, 1, 60, 1.050, 1)/whole,
		worked("published_value", "unit factor g/L", ""), 1e-9)
}

// TestRagerIsOther: the rival's table gives 30 % more for an hour, which is why
// the two may not be mixed within one book.
func TestRagerIsOther(t *testing.T) {
	hour := 0.0
	for _, r := range table(t, "06b_rager_utilisation.csv") {
		if r["boil_min_to"] == "60" {
			hour = r.number(t, "utilisation_pct") / 100
		}
	}
	near(t, "Rager over Tinseth at 1.050", hour/good[float64](t)(UtilisationTinseth(60, 1.050)), 1.30, 0.01)
}

// TestSteeped: at the boil steeping is boiling; at 80 °C a minute counts for a
// sixth; cold it counts for nothing.
func TestSteeped(t *testing.T) {
	boiled := good[q.Bitterness](t)(BitternessTinseth(50, 6, 20, 1.045, 20))
	near(t, "steeped at the boil", good[q.Bitterness](t)(BitternessSteeped(50, 6, 20, 100, 1.045, 20)), boiled, 1e-9)
	sixth := good[q.Bitterness](t)(BitternessTinseth(50, 6, 5, 1.045, 20))
	near(t, "30 min at 80 °C", good[q.Bitterness](t)(BitternessSteeped(50, 6, 30, 80, 1.045, 20)), sixth,
		0.02*float64(sixth))
	cold := good[q.Bitterness](t)(BitternessSteeped(50, 6, 240, 20, 1.045, 20))
	near(t, "four hours in a cellar", cold, 0.0, 0.1)
	near(t, "rate at the boil", isomerisation(100), 0.0125, 0.0005) // per minute: half gone in 55
}

// TestColourValues holds Morey to the table of its values, and to where the two
// straight lines through the same beers meet it: the second route, since all the
// coefficients stand from memory.
func TestColourValues(t *testing.T) {
	const asTable = 0.001 // SRM: three decimals, and 1.97 for 25/12.7 cancels
	for _, r := range table(t, "07b_colour_values.csv") {
		mcu := r.number(t, "mcu_lb_degL_per_us_gal")
		colour := good[q.Colour](t)(ColourMorey(q.Number(mcu)))
		name := "colour of " + r["mcu_lb_degL_per_us_gal"] + " MCU"
		near(t, name, colour.SRM(), r.number(t, "srm_morey"), asTable)
		near(t, name+" in EBC", colour.EBC(), r.number(t, "ebc_morey_1.97"), 0.002)
		if mcu >= 20 && mcu <= 50 {
			const linesMeet = 4.0 // SRM: where real beers lie 15 % apart
			near(t, name+" by Daniels", colour.SRM(), r.number(t, "srm_daniels"), linesMeet)
			near(t, name+" by Mosher", colour.SRM(), r.number(t, "srm_mosher"), linesMeet)
		}
	}
	if len(table(t, "07_colour_equations.csv")) != 8 {
		t.Error("the table of equations has changed")
	}
	misprinted := 1.4922 * math.Pow(10, 0.65896859)
	right := good[q.Colour](t)(ColourMorey(10)).SRM()
	near(t, "what the misprint takes off at 10 MCU", misprinted/right, 0.94, 0.005)
}

func TestColourUnits(t *testing.T) {
	got := good[q.Number](t)(ColourUnits(10*q.Pound, 3*q.SRM, 5*q.USGallon))
	near(t, "10 lb of 3 °L in 5 US gal", got, 6.0, 1e-9)
	metric := good[q.Number](t)(ColourUnits(4500, 5, 20))
	near(t, "4.5 kg of 5 EBC in 20 L", metric, 4.5*8.3454/20*5/1.97, 0.0001)
}

func TestBoilOff(t *testing.T) {
	near(t, "28 to 24 L in 75 min", good[q.Number](t)(BoilOff(28, 24, 75)), 3.2, 1e-9)
	near(t, "liquor let in", good[q.Number](t)(BoilOff(24, 25, 60)), -1.0, 1e-9)
}

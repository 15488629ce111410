package brewing

import (
	"testing"

	q "gylebook/internal/quantity"
)

// TestMaltHeat: the share of water's heat lies where a brewing room book has it
// for malt of ordinary moisture.
func TestMaltHeat(t *testing.T) {
	rows := table(t, "08a_malt_specific_heat.csv")
	dry := cell(t, rows, "specific_heat_relative_to_water", "malt_moisture_pct", "2")
	moist := cell(t, rows, "specific_heat_relative_to_water", "malt_moisture_pct", "8")
	if MaltHeat < dry || MaltHeat > moist {
		t.Errorf("%v is not between %v and %v", MaltHeat, dry, moist)
	}
	palmer := cell(t, table(t, "08b_strike_worked.csv"), "recomputed_value", "case", "metric constant")
	near(t, "Palmer's 0.2", MaltHeat, palmer, 0.01)
}

// TestStrikeWorked holds the heat balance to worked sums, each with the malt that
// it states; then what 0.41 for every malt costs.
func TestStrikeWorked(t *testing.T) {
	rows := table(t, "08b_strike_worked.csv")
	recomputed := func(name, quantity string) float64 {
		return cell(t, rows, "recomputed_value", "case", name, "quantity", quantity)
	}
	const asWorked = 0.1 // °C
	// The sums take 11.25 L measured hot, at 0.99 kg/L; volumes here are at 20 °C.
	liquor := q.Volume(11.25 * 990 / waterDensity20)
	const noTun, tun = "4.5 kg malt at 18 C, 11.25 L liquor, target 66 C, malt 0.40, no tun",
		"4.5 kg malt at 18 C, 11.25 L liquor, target 66 C, malt 0.40, tun"
	near(t, noTun, struck(66, liquor, heat{0.40 * 4.5, 18}), recomputed(noTun, ""), asWorked)
	near(t, tun, struck(66, liquor, heat{0.40 * 4.5, 18}, heat{0.8, 18}), recomputed(tun, ""), asWorked)

	palmer := recomputed("r = 1.25 qt/lb", "strike")
	quart := q.USGallon / 4
	ownMalt := struck(q.Fahrenheit(152), 1.25*quart, heat{0.2 * quart.Litres(), q.Fahrenheit(65)})
	near(t, "Palmer, in °F", ownMalt.Fahrenheit(), palmer, 0.01)

	const everyMalt = 0.25 // °C: 0.41 for 0.40, and Palmer's 0.417
	near(t, noTun, good[q.Temperature](t)(StrikeTemperature(66, 18, 4500, liquor, 0)), recomputed(noTun, ""), everyMalt)
	near(t, tun, good[q.Temperature](t)(StrikeTemperature(66, 18, 4500, liquor, 0.8)), recomputed(tun, ""), everyMalt)
	struckByUs := good[q.Temperature](t)(StrikeTemperature(q.Fahrenheit(152), q.Fahrenheit(65), q.Pound, 1.25*quart, 0))
	near(t, "Palmer, in °C", struckByUs, q.Fahrenheit(palmer), everyMalt)
}

// TestStrikeInTunByHand: 4 kg of malt at 15 °C, 10 L of liquor, a rest at 66 °C and
// a tun that takes as much heat as 2 L. The grist takes 0.41 × 4 × 51 = 83.64. A
// tun as cold as the grist takes 2 × 51 = 102, one at 50 °C 2 × 16 = 32, one at the
// rest nothing, and one at 70 °C gives 8.
func TestStrikeInTunByHand(t *testing.T) {
	const pencil = 0.0005 // °C
	for _, c := range []struct{ tunAt, want float64 }{{15, 84.564}, {50, 77.564}, {66, 74.364}, {70, 73.564}} {
		strike := good[q.Temperature](t)(StrikeTemperatureInTun(66, 15, 4000, 10, 2, q.Celsius(c.tunAt)))
		near(t, "the strike", strike, c.want, pencil)
		// Back again: the three bodies settle at the rest.
		near(t, "the rest", settled(heat{MaltHeat * 4, 15}, heat{2, q.Celsius(c.tunAt)}, heat{10, strike}), 66.0, 1e-9)
	}
	if cold, same := good[q.Temperature](t)(StrikeTemperatureInTun(66, 15, 4000, 10, 2, 15)),
		good[q.Temperature](t)(StrikeTemperature(66, 15, 4000, 10, 2)); cold != same {
		t.Errorf("a tun as cold as the grist: %v and %v", cold, same)
	}
}

// TestInitialHeatWorked holds the mixing to the brewing room book's examples,
// whose slaking heat is left out here and there alike.
func TestInitialHeatWorked(t *testing.T) {
	rows := table(t, "08b_strike_worked.csv")
	const without = "initial heat without slaking"
	metric := cell(t, rows, "recomputed_value", "case", "malt 2 % moisture at 27 C", "quantity", without)
	got := settled(heat{0.39 * 100, 27}, heat{268, 69})
	near(t, "2.68 hL on 100 kg", got, metric, 0.01)
	imperial := cell(t, rows, "recomputed_value", "case", "malt 2 % moisture at 80 F", "quantity", without)
	got = settled(heat{0.39 * 336, q.Fahrenheit(80)}, heat{2.5 * 360, q.Fahrenheit(156)}) // in pounds, a barrel 360
	near(t, "2.5 barrels on a quarter", got.Fahrenheit(), imperial, 0.02)
}

// TestUnits holds the units that the formulas are typed in to the legal ones.
func TestUnits(t *testing.T) {
	const tenDigits = 1e-9
	rows := table(t, "15_units.csv")
	legal := func(unit, in string) float64 { return cell(t, rows, "value", "unit_or_quantity", unit, "in_unit", in) }
	near(t, "UK gallon", q.UKGallon, legal("UK gallon", "L"), tenDigits)
	near(t, "UK pint", q.UKPint, legal("UK pint", "L"), tenDigits)
	near(t, "US gallon", q.USGallon, legal("US gallon", "L"), tenDigits)
	near(t, "pound", q.Pound.Kilograms(), legal("pound", "kg"), tenDigits)
	near(t, "ounce", q.Ounce, legal("ounce", "g"), tenDigits)
	near(t, "psi", q.PSI.Bar()*100, legal("psi", "kPa"), tenDigits)
	near(t, "standard atmosphere", atmosphereKPa, legal("standard atmosphere", "kPa"), tenDigits)
	near(t, "standard atmosphere in bar", atmosphereBar*100, legal("standard atmosphere", "kPa"), tenDigits)
	near(t, "molar volume", gasConstant*273.15, legal("molar volume", "L/mol"), 2e-8*22.4)
	near(t, "a degree Fahrenheit", q.Fahrenheit(33)-q.Fahrenheit(32), legal("degree Fahrenheit", "K"), tenDigits)
	const blacksPounds = 0.00005 // he prints 1.050
	barrel := 36 * q.UKGallon
	g := 1 + 18*float64(q.Pound)/(360*float64(q.Pound)) // 18 lb above a barrel of water, 360 lb
	near(t, "18 pounds per barrel", g, legal("brewers pound check", "SG"), blacksPounds)
	near(t, "a barrel", barrel, legal("UK beer barrel", "L"), 1e-6)
}

// TestSettledAt: liquor at the strike temperature settles where it was struck for.
func TestSettledAt(t *testing.T) {
	for _, c := range []struct{ rest, grist, tunAt, tun float64 }{{66, 15, 15, 2}, {69, 4, 40, 1.5}, {50, 22, 80, 0}} {
		strike := good[q.Temperature](t)(StrikeTemperatureInTun(q.Celsius(c.rest), q.Celsius(c.grist), 4000, 10, q.Volume(c.tun), q.Celsius(c.tunAt)))
		settles := good[q.Temperature](t)(SettledAt(strike, q.Celsius(c.grist), 4000, 10, q.Volume(c.tun), q.Celsius(c.tunAt)))
		near(t, "settles", settles.Celsius(), c.rest, 1e-9)
	}
}

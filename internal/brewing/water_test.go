package brewing

import (
	"testing"

	q "gylebook/internal/quantity"
)

// TestSaltIons holds the ions of each salt, worked from molar masses, to the
// table, and the concentration to the sum.
func TestSaltIons(t *testing.T) {
	const share = 0.001 // of the value; a unit of the table's last digit besides
	type part struct {
		column string
		molar  float64
		number float64
	}
	calcium := part{"Ca_mg_per_L_for_1_g_per_L", calciumMolarMass, 1}
	magnesium := part{"Mg_mg_per_L_for_1_g_per_L", magnesiumMolarMass, 1}
	sodium := part{"Na_mg_per_L_for_1_g_per_L", sodiumMolarMass, 1}
	chloride := part{"Cl_mg_per_L_for_1_g_per_L", chlorideMolarMass, 1}
	sulphate := part{"SO4_mg_per_L_for_1_g_per_L", sulphateMolarMass, 1}
	bicarbonate := part{"HCO3_mg_per_L_for_1_g_per_L", bicarbonateMolarMass, 1}
	twice := func(p part) part { p.number = 2; return p }
	made := map[string][]part{
		"gypsum":                      {calcium, sulphate},
		"calcium chloride dihydrate":  {calcium, twice(chloride)},
		"calcium chloride anhydrous":  {calcium, twice(chloride)},
		"epsom salt":                  {magnesium, sulphate},
		"sodium bicarbonate":          {sodium, bicarbonate},
		"sodium chloride":             {sodium, chloride},
		"calcium carbonate":           {calcium, twice(bicarbonate)},
		"slaked lime":                 {calcium, twice(bicarbonate)},
		"magnesium chloride hexahydr": {magnesium, twice(chloride)},
		"sodium sulphate":             {twice(sodium), sulphate},
	}
	rows := table(t, "09a_salt_ions.csv")
	if len(rows) != len(made) {
		t.Errorf("%d salts in the table, %d here", len(rows), len(made))
	}
	for salt, parts := range made {
		mass := cell(t, rows, "molar_mass_g_mol", "salt", salt)
		for _, p := range parts {
			percent := q.Percent(100 * p.number * p.molar / mass)
			got := good[q.Concentration](t)(IonFromSalt(1, percent, 1))
			want := cell(t, rows, p.column, "salt", salt)
			near(t, p.column+" of "+salt, got, want, share*want+0.05)
		}
		alkaline := cell(t, rows, "HCO3_mg_per_L_for_1_g_per_L", "salt", salt)
		got := good[q.Concentration](t)(AlkalinityOf(q.Concentration(alkaline)))
		want := cell(t, rows, "alkalinity_mg_CaCO3_per_L_for_1_g_per_L", "salt", salt)
		near(t, "alkalinity of "+salt, got, want, share*want)
	}
	near(t, "8 g of gypsum in 30 L", good[q.Concentration](t)(IonFromSalt(8, 23.28, 30)), 62.08, 0.01)
}

// TestHardnessUnits holds the equivalents to the units that waters are reported
// in.
func TestHardnessUnits(t *testing.T) {
	const asPrinted = 0.001
	rows := table(t, "09b_hardness_units.csv")
	value := func(from, to string) float64 { return cell(t, rows, "value", "from", from, "to", to) }
	near(t, "an mEq/L", chalkEquivalent, value("1 mEq/L", ""), asPrinted)
	near(t, "calcium as chalk", chalkMolarMass/calciumMolarMass, value("mg/L Ca to", ""), asPrinted)
	near(t, "magnesium as chalk", chalkMolarMass/magnesiumMolarMass, value("mg/L Mg to", ""), asPrinted)
	near(t, "bicarbonate as chalk", good[q.Concentration](t)(AlkalinityOf(1)), value("mg/L HCO3 to", ""), asPrinted)
	near(t, "and back", 1/good[q.Concentration](t)(AlkalinityOf(1)), value("mg/L CaCO3 alkalinity to mg/L HCO3", ""),
		asPrinted)
	const limeMolarMass = 56.077 // CaO
	near(t, "a German degree", 10/limeMolarMass*chalkMolarMass, value("1 degree German dH (10 mg CaO/L)", ""), asPrinted)
}

// TestResidualAlkalinityWorked holds it to a published example, in three units,
// and to the divisors that a handbook rounds.
func TestResidualAlkalinityWorked(t *testing.T) {
	const germanDegree = 17.848 // mg/L as calcium carbonate
	rows := table(t, "09c_residual_alkalinity_worked.csv")
	ra := func(alkalinity, calcium, magnesium q.Concentration) float64 {
		return float64(good[q.Concentration](t)(ResidualAlkalinity(alkalinity, calcium, magnesium)))
	}
	published := ra(295, 76, 18)
	near(t, "the published example, °dH", published/germanDegree, cell(t, rows, "published_value", "unit", "degrees dH"),
		0.1)
	near(t, "the same in mg/L", published, cell(t, rows, "recomputed_value", "case", "same", "unit", "mg/L CaCO3"), 0.05)
	near(t, "the same in mEq/L", published/chalkEquivalent,
		cell(t, rows, "recomputed_value", "case", "same", "unit", "mEq/L"), 0.005)
	near(t, "Ca 100, Mg 10, alkalinity 100", ra(100, 100, 10), cell(t, rows, "recomputed_value", "case", "Ca 100, Mg 10"),
		0.05)
	fromBicarbonate := good[q.Concentration](t)(AlkalinityOf(180))
	near(t, "Ca 50, Mg 5, HCO3 180", ra(fromBicarbonate, 50, 5), cell(t, rows, "recomputed_value", "case", "Ca 50, Mg 5"),
		0.05)

	const handbookRounds = 0.002 // share: 1.4 for 1.4015
	near(t, "calcium's divisor", -1/ra(0, 1, 0), 1.4, handbookRounds*1.4)
	near(t, "magnesium's divisor", -1/ra(0, 0, 1), 1.7, handbookRounds*1.7)
}

// TestCityWaters: the charge of each published water, with the column that may be
// carbonate or bicarbonate taken as either.
func TestCityWaters(t *testing.T) {
	const asPrinted = 0.011 // mEq/L
	const carbonateMolarMass = 60.008
	compared := 0
	for _, r := range table(t, "09d_city_waters.csv") {
		if !r.has("CO3_as_headed_mg_L") {
			continue
		}
		compared++
		ion := func(column string) q.Concentration { return q.Concentration(r.number(t, column)) }
		water := Ions{Calcium: ion("Ca_mg_L"), Magnesium: ion("Mg_mg_L"), Sodium: ion("Na_mg_L"), Chloride: ion("Cl_mg_L"),
			Sulphate: ion("SO4_mg_L"), Bicarbonate: ion("CO3_as_headed_mg_L")}
		near(t, r["water"]+", bicarbonate", good[q.Number](t)(IonBalance(water)),
			r.number(t, "charge_residual_if_HCO3_mEq_L"), asPrinted)
		water.Bicarbonate *= 2 * bicarbonateMolarMass / carbonateMolarMass // the same charge
		near(t, r["water"]+", carbonate", good[q.Number](t)(IonBalance(water)), r.number(t, "charge_residual_if_CO3_mEq_L"),
			asPrinted)
	}
	if compared != 15 {
		t.Errorf("%d waters were compared, want 15", compared)
	}
}

// TestSaltsBalance: a salt brings as much charge one way as the other.
func TestSaltsBalance(t *testing.T) {
	const shares = 0.001 // mEq/L for 100 mg/L, with shares of four digits
	gypsum := Ions{Calcium: 23.28, Sulphate: 55.79}
	near(t, "gypsum", good[q.Number](t)(IonBalance(gypsum)), 0.0, shares)
	epsom := Ions{Magnesium: 9.862, Sulphate: 38.97}
	near(t, "epsom salt", good[q.Number](t)(IonBalance(epsom)), 0.0, shares)
	soda := Ions{Sodium: 27.37, Bicarbonate: 72.63}
	near(t, "bicarbonate of soda", good[q.Number](t)(IonBalance(soda)), 0.0, shares)
	near(t, "sulphate to chloride", good[q.Number](t)(SulphateToChloride(300, 120)), 2.5, 1e-12)
}

// TestAcidsAgainstBottles: the normality that laboratory bottles of acid carry
// (handbook values, from memory) follows from strength, gravity and the molar
// masses; that of the weak acids at a mash's pH is worked beside it by hand.
func TestAcidsAgainstBottles(t *testing.T) {
	for _, c := range []struct {
		name      string
		acid      Acid
		strength  q.Percent
		density   q.Gravity
		at        q.Acidity
		want      float64 // mEq/mL
		tolerance float64
	}{
		{"hydrochloric, 37 %", HydrochloricAcid, 37, 1.19, 5.4, 12.1, 0.1},
		{"sulphuric, 98 %", SulphuricAcid, 98, 1.84, 5.4, 36.8, 0.2},
		{"phosphoric, 85 %, its first proton", PhosphoricAcid, 85, 1.69, 5.4, 14.7 * 1.015, 0.15},
		{"lactic, 88 %", LacticAcid, 88, 1.206, 5.4, 11.8 * 0.972, 0.1},
		// An acid at the pH of its constant has given half of that proton.
		{"lactic at 3.86", LacticAcid, 100, 1.0018, 3.86, 1000 / 90.078 / 2, 0.001},
		{"phosphoric at 7.21", PhosphoricAcid, 100, 1.0018, 7.21, 1000 / 97.994 * 1.5, 0.001},
		// Citric at 5.40 by hand: (1·10^2.27 + 2·10^2.91 + 3·10^1.91) ÷ (1 + those terms) = 1.90.
		{"citric at 5.4", CitricAcid, 100, 1.0018, 5.4, 1000 / 192.123 * 1.904, 0.02},
	} {
		near(t, c.name, good[q.Number](t)(AcidStrength(c.acid, c.strength, c.density, c.at)), c.want, c.tolerance)
	}
	n, err := AcidStrength(CitricAcid+1, 50, 1.2, 5.4)
	refused(t, "an acid that is none", n, err)
	n, err = AcidStrength(-1, 50, 1.2, 5.4)
	refused(t, "an acid that is none", n, err)
}

// TestAcidMolarMasses adds them up from the elements (IUPAC 2021 abridged).
func TestAcidMolarMasses(t *testing.T) {
	const h, c, o, p, s, cl = 1.008, 12.011, 15.999, 30.974, 32.06, 35.45
	for acid, want := range map[Acid]float64{
		LacticAcid: 3*c + 6*h + 3*o, PhosphoricAcid: 3*h + p + 4*o, HydrochloricAcid: h + cl,
		SulphuricAcid: 2*h + s + 4*o, CitricAcid: 6*c + 8*h + 7*o,
	} {
		near(t, "molar mass", acids[acid].molarMass, want, 0.0015)
	}
	near(t, "bicarbonate", bicarbonateMolarMass, h+c+3*o, 0.0015)
	near(t, "sulphate", sulphateMolarMass, s+4*o, 0.0015)
}

// TestAcidTakesAlkalinity: an mEq in a litre takes 50.04 mg/L.
func TestAcidTakesAlkalinity(t *testing.T) {
	taken := good[q.Concentration](t)(AlkalinityNeutralised(q.Millilitre, 1, 1))
	near(t, "an mEq in a litre", taken, cell(t, table(t, "09b_hardness_units.csv"), "value", "from", "1 mEq/L"), 0.001)
}

package brewing

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	q "gylebook/internal/quantity"
)

// TestInfusionWorked: the brewing room book's mash again, by the exported
// function with its own heat of malt, and Palmer's equation for a second liquor.
func TestInfusionWorked(t *testing.T) {
	rows := table(t, "08b_strike_worked.csv")
	const everyMalt = 0.25 // °C: 0.41 for their 0.39
	metric := cell(t, rows, "recomputed_value", "case", "malt 2 % moisture at 27 C", "quantity",
		"initial heat without slaking")
	near(t, "2.68 hL on 100 kg", good[q.Temperature](t)(InfusionTemperature(27, 100*q.Kilogram, 0, 0, 268, 69)), metric,
		everyMalt)

	if cell := rows[5]; !strings.HasPrefix(cell["quantity"], "Wa = (T2 - T1)(0.2 G + Wm)/(Tw - T2)") {
		t.Fatalf("Palmer's equation is %q", cell["quantity"])
	}
	// 10 lb in 12 qt at 122 °F to 152 °F with liquor at 210 °F.
	palmer := (152.0 - 122) * (0.2*10 + 12) / (210 - 152)
	quart := q.USGallon / 4
	ours := good[q.Volume](t)(InfusionVolume(q.Fahrenheit(122), q.Fahrenheit(152), 10*q.Pound, 12*quart, 0,
		q.Fahrenheit(210)))
	near(t, "Palmer's second liquor, qt", float64(ours/quart), palmer, 0.02) // 0.41 for his 0.417
}

func TestInfusionRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		mash, hot := between[q.Temperature](t, "mash", 10, 70), between[q.Temperature](t, "liquor", 80, 100)
		rest := mash + between[q.Temperature](t, "lift", 0.1, 9)
		grist, inMash, tun := between[q.Mass](t, "grist", 500, 20000), between[q.Volume](t, "in the mash", 0, 60),
			between[q.Volume](t, "tun", 0, 5)
		v := must[q.Volume](t)(InfusionVolume(mash, rest, grist, inMash, tun, hot))
		same(t, "the rest", must[q.Temperature](t)(InfusionTemperature(mash, grist, inMash, tun, v, hot)), rest, roundTrip)
	})
}

// TestInfusionIsStrike: liquor at the strike heat on dry malt makes the rest.
func TestInfusionIsStrike(t *testing.T) {
	strike := good[q.Temperature](t)(StrikeTemperature(66, 18, 4500, 11.25, 1))
	near(t, "the rest", good[q.Temperature](t)(InfusionTemperature(18, 4500, 0, 1, 11.25, strike)), 66.0, 1e-9)
}

func TestLiquorNeeded(t *testing.T) {
	near(t, "kept by 4.5 kg", good[q.Volume](t)(LiquorAbsorbed(4500, 0.9)), 4.05, 1e-12)
	got := good[q.Volume](t)(LiquorNeeded(21, 4500, 0.9, 4, 75, 2))
	near(t, "21 L, and 4.05 kept, 5 boiled off, 2 left behind", got, 32.05, 1e-9)
	v, err := LiquorNeeded(21, 4500, q.Number(math.NaN()), 4, 75, 2)
	refused(t, "an unknown share", v, err)
}

// TestLiquorBackBlends: wort and the liquor that it asks for, blended, have the
// gravity aimed at; boiling away is the same sum backwards.
func TestLiquorBackBlends(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		v, aim := between[q.Volume](t, "wort", 1, 100), between[q.Gravity](t, "aim", 1.010, 1.120)
		g := aim + between[q.Gravity](t, "too strong by", 0, 0.0299)
		liquor := must[q.Volume](t)(LiquorBack(v, g, aim))
		if liquor < -noise {
			t.Fatalf("%v L of liquor to wort that is too strong", liquor)
		}
		same(t, "the aim", must[q.Gravity](t)(BlendedGravity(v, g, max(0, liquor), 1)), aim, roundTrip)
		after := must[q.Volume](t)(VolumeAtGravity(v, g, aim))
		const contraction = 0.0012 // share: volumes of wort and water do not quite add up
		same(t, "volume after", after, v+liquor, contraction)
		same(t, "and back", must[q.Volume](t)(VolumeAtGravity(after, aim, g)), v, roundTrip)
		boiled := must[q.Volume](t)(LiquorBack(after, aim, g))
		same(t, "boiled away", -boiled, liquor, roundTrip)
	})
}

// TestDilutionConservesExtract: kilograms of extract before and after.
func TestDilutionConservesExtract(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		v, g, aim := between[q.Volume](t, "wort", 1, 100), between[q.Gravity](t, "gravity", 1.005, 1.150),
			between[q.Gravity](t, "aim", 1.005, 1.150)
		after := must[q.Volume](t)(VolumeAtGravity(v, g, aim))
		same(t, "extract", float64(after)*float64(aim)*aim.Plato(), float64(v)*float64(g)*g.Plato(), roundTrip)
	})
}

// TestPointsRaised: 2.6 g/L of sucrose is a point.
func TestPointsRaised(t *testing.T) {
	near(t, "60 g in 20 L", good[q.Number](t)(PointsRaised(60, q.PureSugar, 20)), 1.155, 1e-9)
	near(t, "2.6 g in a litre", good[q.Number](t)(PointsRaised(2.6, q.PureSugar, 1)), 1.0, 0.002)
}

// TestPitchingWorked holds the rate to two worked sums and to a rule of thumb.
func TestPitchingWorked(t *testing.T) {
	const asPrinted = 0.001 // share: worked with 11.2 and 11.9 °P, of three digits
	rows := table(t, "10_yeast.csv")
	for _, c := range []struct {
		item, pitching string
		g              q.Gravity
	}{
		{"worked: 20 L at 1.045", "ale, pitching", 1.045}, {"worked: 20 L at 1.048", "lager, pitching", 1.048},
	} {
		rate := cell(t, rows, "from", "item", c.pitching)
		want := cell(t, rows, "from", "item", c.item)
		got := good[q.Cells](t)(CellsFor(q.Number(rate), 20, c.g))
		near(t, c.item+", billion cells", float64(got)/1e9, want, asPrinted*want)
	}
	// 113.5 billion in 5 US gal are 6 million a mL, whatever the gravity.
	rate := good[q.Number](t)(PitchingRate(113.5e9, 5*q.USGallon, 1.045))
	near(t, "million cells a mL", float64(rate)*q.SG(1.045).Plato(),
		cell(t, rows, "from", "item", "home-brew ale baseline"), 0.01)
}

func TestPitchingRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		rate, v, g := between[q.Number](t, "rate", 0, 100), between[q.Volume](t, "wort", 0.1, 1000),
			between[q.Gravity](t, "gravity", 1.004, 1.150)
		same(t, "rate", must[q.Number](t)(PitchingRate(must[q.Cells](t)(CellsFor(rate, v, g)), v, g)), rate, roundTrip)
	})
}

// TestYoungersFermentation holds the curve to nine gravities of 1941 and to the
// fit that was made of them.
func TestYoungersFermentation(t *testing.T) {
	// The fit of all nine: levels in points, rate and middle in half-days.
	const finish, start, rate, middle, sumOfSquares = 14.706, 40.909, 0.8560, 1.6054, 4.4637
	fit := table(t, "16b_fermentation_models.csv")[4]
	for _, part := range []string{"Pe 14.706", "Pi 40.909", "B 0.8560", "M 1.6054"} {
		if !strings.Contains(fit["equation_or_values"], part) || !strings.Contains(fit["note"], "RSS 4.4637") {
			t.Fatalf("the fit is now %v", fit)
		}
	}
	halfDay := q.Day / 2
	squares, readings := 0.0, 0
	for _, r := range table(t, "16a_fermentation_series.csv") {
		if r["series"] != "Younger XXX 1941" {
			continue
		}
		readings++
		at := q.Duration(r.number(t, "time")) * halfDay
		g := good[q.Gravity](t)(LogisticGravity(1+start/1000, 1+finish/1000, 2*rate, middle*halfDay, at))
		near(t, "the fit at "+r["label"], g, r.number(t, "sg_logistic_fit"), 0.00001)
		off := g.Points() - q.SG(r.number(t, "sg")).Points()
		squares += off * off
	}
	if readings != 9 {
		t.Fatalf("%d readings, want 9", readings)
	}
	near(t, "sum of squares, points²", squares, sumOfSquares, 0.005) // parameters of four digits
}

func TestLogisticRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		finish := between[q.Gravity](t, "finish", 0.995, 1.030)
		start := finish + between[q.Gravity](t, "fall", 0.005, 0.1)
		rate, middle := between[q.Number](t, "rate", 0.05, 10), between[q.Duration](t, "middle", 0, 7*1440)
		g := finish + (start-finish)*between[q.Gravity](t, "part left", 0.001, 0.999)
		at := must[q.Duration](t)(LogisticTime(start, finish, rate, middle, g))
		same(t, "gravity", must[q.Gravity](t)(LogisticGravity(start, finish, rate, middle, at)), g, roundTrip)
		if must[q.Gravity](t)(LogisticGravity(start, finish, rate, middle, at+60)) > g+noise {
			t.Fatal("the gravity rose")
		}
	})
	for _, never := range []q.Gravity{1.040, 1.0399999, 1.010, 1.0100001} { // the curve's own levels, or as good as
		at, err := LogisticTime(1.040, 1.010, 1.5, 1440, never)
		refused(t, "a gravity that the curve never comes to", at, err)
	}
	half := good[q.Gravity](t)(LogisticGravity(1.040, 1.010, 1.5, 1440, 1440))
	near(t, "at the middle", half, 1.025, 1e-12)
}

func TestEthanolRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		byVolume := between[q.Percent](t, "by volume", 0, 100)
		byWeight := must[q.Percent](t)(EthanolByWeight(byVolume))
		same(t, "by volume", must[q.Percent](t)(EthanolByVolume(byWeight)), byVolume, roundTrip)
		if byWeight > byVolume+noise {
			t.Fatal("ethanol is lighter than water")
		}
	})
}

func TestAcidRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		alkalinity, strength, liquor := between[q.Concentration](t, "alkalinity", 0, 1000),
			between[q.Number](t, "strength", 0.01, 50), between[q.Volume](t, "liquor", 1, 1000)
		acid := must[q.Volume](t)(AcidFor(alkalinity, strength, liquor))
		same(t, "alkalinity", must[q.Concentration](t)(AlkalinityNeutralised(acid, strength, liquor)), alkalinity, roundTrip)
		// The higher the pH that is stopped at, the more of its protons an acid has given.
		at := between[q.Acidity](t, "pH", 3, 7.9)
		for a := LacticAcid; a <= CitricAcid; a++ {
			if must[q.Number](t)(AcidStrength(a, 50, 1.1, at+0.1)) < must[q.Number](t)(AcidStrength(a, 50, 1.1, at))-noise {
				t.Fatalf("acid %d gives less at a higher pH", a)
			}
		}
	})
}

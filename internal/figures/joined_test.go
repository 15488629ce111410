package figures

import (
	"fmt"
	"math"
	"strings"
	"testing"
)

// honest is a beer with some lines of its own, between them two that stay.
func withLines(lines ...string) []byte {
	return fmt.Appendf(nil, `---
gyle: 1
beer: Any
brewed: 2026-03-07
aim: {volume: 20 L, og: 1.050}
yeast: [{yeast: house ale, pitched: 2026-03-07 14:00}]
%s
---
`, strings.Join(lines, "\n"))
}

const (
	plainGrist = "grist: [{malt: any, weight: 4 kg, colour: 6 EBC, extract: 300 Ldeg/kg}]"
	finished   = "readings: [{when: 2026-03-16 08:00, gravity: 1.010, sample_at: 20 C}, {when: 2026-03-19 08:00, gravity: 1.010, sample_at: 20 C}]"
	fermenting = "fermenter: {volume: 20 L, gravity: 1.040, sample_at: 20 C}"
)

// TestSugarByWhereItGoes: sugar in the copper is in the original gravity already,
// sugar that joins the beer later makes alcohol on top of it, and neither counts
// as the mash's yield.
func TestSugarByWhereItGoes(t *testing.T) {
	sugar := func(more string) string {
		return strings.TrimSuffix(plainGrist, "]") + ", {sugar: sucrose, weight: 500 g, extract: 385 Ldeg/kg" + more + "}]"
	}
	for _, c := range []struct {
		name, grist string
		og, yield   float64 // points to ferment, %
	}{
		{"no sugar", plainGrist, 40, 100 * 800.0 / 1200},
		{"in the copper", sugar(""), 40, 100 * (800 - 192.5) / 1200},
		{"in the fermenter, before the yeast", sugar(", into: fermenter"), 40, 100 * (800 - 192.5) / 1200},
		{"in the fermenter, three days later", sugar(", into: fermenter, when: 2026-03-10"), 40 + 192.5/20, 100 * 800.0 / 1200},
		{"in the fermenter, still to come", sugar(", into: fermenter, when: 2031-03-10"), 40, 100 * 800.0 / 1200},
		{"in the mash", sugar(", into: mash"), 40, 100 * 800 / (1200 + 192.5)},
	} {
		s := works(t, withLines(c.grist, fermenting, finished))
		if c.name == "in the fermenter, still to come" {
			c.yield = 100 * (800 - 192.5) / 1200 // as far as anybody knows it is in
		}
		if got := (float64(s.fermentedOG().Value) - 1) * 1000; !near(got, c.og, 1e-9) {
			t.Errorf("%s: %g points to ferment, want %g", c.name, got, c.og)
		}
		if f, _ := s.Find("brewhouse-yield", ""); !near(f.Value, c.yield, 1e-9) {
			t.Errorf("%s: a yield of %g %%, want %g", c.name, f.Value, c.yield)
		}
		og, _ := s.Find("og", "")
		if og.Value != 1.040 {
			t.Errorf("%s: the original gravity as read is %g", c.name, og.Value)
		}
	}
	// 500 g of sucrose in 20 L is 25 g/L and, but for the yeast's share, 0.538 of it
	// alcohol: 1.6 % vol, which makes the beer 2.2 points lighter.
	lighter := strings.ReplaceAll(finished, "1.010", "1.0078")
	plain, joined := works(t, withLines(plainGrist, fermenting, finished)), works(t, withLines(sugar(", into: fermenter, when: 2026-03-10"), fermenting, lighter))
	a, _ := plain.Find("abv", "")
	b, _ := joined.Find("abv", "")
	byChemistry := 25 * 4 * 46.069 / 342.297 / 789.24 * 100
	const ofBalling = 0.2 // % vol: his proportions are for whole worts
	if got := b.Value - a.Value; math.Abs(got-byChemistry) > ofBalling {
		t.Errorf("25 g/L of sucrose add %.3f %% vol, by chemistry %.3f", got, byChemistry)
	}
}

// TestLactoseStays: what no yeast can use is left in the gravity to expect, and in
// what findings ask for alike.
func TestLactoseStays(t *testing.T) {
	young := "fermenter: {volume: 20 L, gravity: 1.050, sample_at: 20 C}"
	milk := strings.TrimSuffix(plainGrist, "]") + ", {sugar: lactose, weight: 500 g}]"
	with, without := works(t, withLines(milk, young)), works(t, withLines(plainGrist, "fermenter: {volume: 20 L, gravity: 1.04085, sample_at: 20 C}"))
	// 500 g × 366 Ldeg/kg in 20 L are 9.15 points.
	got, _ := with.Find("fg-expected", "")
	base, _ := without.Find("fg-expected", "")
	if want := base.Value + 0.00915; math.Abs(got.Value-want) > 1e-9 {
		t.Errorf("with lactose %g, want %g", got.Value, want)
	}
	if expected, off := with.ExpectedByYeast(); expected.SG() != got.Value || off != got.PlusMinus {
		t.Errorf("findings are told %g ± %g, the figure is %g ± %g", expected, off, got.Value, got.PlusMinus)
	}
}

// TestLaterLiquorThins: liquor let into the fermenter thins a gravity that was read
// in the copper, and bitterness and colour with it.
func TestLaterLiquorThins(t *testing.T) {
	copper := "copper: {boiled: 60 min, after: {volume: 20 L, gravity: 1.050, sample_at: 20 C}}"
	hops := "hops: [{hop: any, weight: 40 g, alpha: 5 %, boiled: 60 min}, {hop: any, weight: 100 g, alpha: 12 %, dry: 3 days}]"
	full := works(t, withLines(plainGrist, copper, hops, "fermenter: {volume: 20 L}"))
	thin := works(t, withLines(plainGrist, copper, hops, "fermenter: {volume: 25 L, topped_up: 5 L}"))
	og, _ := full.Find("og", "")
	ogThin, _ := thin.Find("og", "")
	if og.Value != 1.050 || math.Abs(ogThin.Value-1.040) > 0.0002 {
		t.Errorf("og %g, thinned by a fifth %g", og.Value, ogThin.Value)
	}
	ibu, _ := full.Find("bitterness", "")
	thinned, _ := thin.Find("bitterness", "")
	// Tinseth at 1.050 and 60 min: 0.2308 (the printed table).
	if want := 40 * 0.05 * 1000 * 0.2308 / 20; !near(ibu.Value, want, 0.001) {
		t.Errorf("%g IBU, want %g: dry hops give none", ibu.Value, want)
	}
	if !near(thinned.Value, ibu.Value*0.8, 1e-6) {
		t.Errorf("thinned by a fifth %g IBU, before %g", thinned.Value, ibu.Value)
	}
}

// TestSteepingCoolsOff: a steep at the boil is a boil, and each 10 °C less takes
// half or more of it.
func TestSteepingCoolsOff(t *testing.T) {
	copper := "copper: {boiled: 60 min, after: {volume: 20 L, gravity: 1.050, sample_at: 20 C}}"
	bitter := func(how string) float64 {
		s := works(t, withLines(plainGrist, copper, "hops: [{hop: any, weight: 40 g, alpha: 5 %, "+how+"}]"))
		f, ok := s.Find("bitterness", "")
		if !ok {
			t.Fatalf("%s: no bitterness", how)
		}
		return f.Value
	}
	boiled := bitter("boiled: 20 min")
	if at := bitter("steeped: 20 min, at: 100 C"); !near(at, boiled, 1e-9) {
		t.Errorf("steeped at the boil %g IBU, boiled %g", at, boiled)
	}
	last := boiled
	for _, heat := range []float64{90, 80, 70, 60} {
		now := bitter(fmt.Sprintf("steeped: 20 min, at: %g C", heat))
		if now > last*0.55 || now < last*0.25 {
			t.Errorf("at %g °C %g IBU, 10 °C hotter %g", heat, now, last)
		}
		last = now
	}
}

package figures

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"gylebook/internal/journal"
)

// withLines is a beer of 20 L pitched on 7 March, with some lines of its own.
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
		og, yield   float64 // points to ferment, within 0.02, and %
	}{
		{"no sugar", plainGrist, 40, 100 * 800.0 / 1200},
		{"in the copper", sugar(""), 40, 100 * (800 - 192.5) / 1200},
		{"in the fermenter, before the yeast", sugar(", into: fermenter"), 40, 100 * (800 - 192.5) / 1200},
		// By mass: 20.763 kg of 9.993 °P and 0.5 kg are 2.575 kg in 21.263, 12.11 °P, which is
		// 1.0488 (NBS Circular C440); points over 20 L would have it swell nothing: 49.6.
		{"in the fermenter, three days later", sugar(", into: fermenter, when: 2026-03-10"), 48.83, 100 * 800.0 / 1200},
		{"in the fermenter, still to come", sugar(", into: fermenter, when: 2031-03-10"), 40, 100 * 800.0 / 1200},
		{"in the mash", sugar(", into: mash"), 40, 100 * 800 / (1200 + 192.5)},
	} {
		s := works(t, withLines(c.grist, fermenting, finished))
		if c.name == "in the fermenter, still to come" {
			c.yield = 100 * (800 - 192.5) / 1200 // as far as anybody knows it is in
		}
		if got := (float64(s.Inquire().fermentedOG().Value) - 1) * 1000; math.Abs(got-c.og) > 0.02 {
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
	// 500 g of sucrose in 20 L, which swell it by 0.62 mL each, are 24.6 g/L and, but for the
	// yeast's share, 0.538 of that is alcohol: 1.7 % vol, which makes the beer 2.2 points
	// lighter. What alcohol there was is in so much more beer.
	lighter := strings.ReplaceAll(finished, "1.010", "1.0078")
	plain, joined := works(t, withLines(plainGrist, fermenting, finished)), works(t, withLines(sugar(", into: fermenter, when: 2026-03-10"), fermenting, lighter))
	a, _ := plain.Find("abv", "")
	b, _ := joined.Find("abv", "")
	const litres = 20 + 500*0.00062
	byChemistry := 500/litres*4*46.069/342.297/789.24*100 - a.Value*(1-20/litres)
	const ofBalling = 0.2 // % vol: his proportions are for whole worts
	if got := b.Value - a.Value; math.Abs(got-byChemistry) > ofBalling {
		t.Errorf("500 g of sucrose in 20 L add %.3f %% vol, by chemistry %.3f", got, byChemistry)
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
	if expected, off := with.Inquire().ExpectedByYeast(); expected.SG() != got.Value || off != got.PlusMinus {
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

// TestFruitJoins: fruit brings sugar and water to the beer it joins, and what it
// brought is nobody's guess where its sugar is not known.
func TestFruitJoins(t *testing.T) {
	fruitIn := func(more string) []byte {
		return withLines(plainGrist, fermenting, finished,
			"added: [{fruit: damson, weight: 2 kg, into: fermenter, when: 2026-03-12"+more+"}]")
	}
	fruit := func(more string) *Sheet { return works(t, fruitIn(more)) }
	with := fruit(", sugar: 9 %")
	// 20 L at 1.040 are 20.80 kg of 9.993 °P; 1.7 kg of juice of 9 °P join them.
	const wort, fruits = 20 * 1.040, 2 * 0.85
	plato := (wort*9.993 + fruits*9) / (wort + fruits)
	if got := with.Inquire().fermentedOG().Value.Plato(); math.Abs(got-plato) > 0.01 {
		t.Errorf("with fruit %.4f °P, want %.4f", got, plato)
	}
	thinner, _ := with.Find("abv", "")
	plain, _ := works(t, withLines(plainGrist, fermenting, finished)).Find("abv", "")
	if thinner.Value >= plain.Value || thinner.Value < plain.Value-0.15 || thinner.Note != "" {
		t.Errorf("juice thinner than the wort makes %.3f %% vol of %.3f: %q", thinner.Value, plain.Value, thinner.Note)
	}
	// Nobody knows the sugar of this one: it is taken as that of any fruit, and said.
	unheardOf := strings.NewReplacer("damson", "a fruit unheard of")
	unknown := works(t, []byte(unheardOf.Replace(string(fruitIn("")))))
	asTyped, _ := fruit(", sugar: 11 ± 6 %").Find("abv", "")
	f, ok := unknown.Find("abv", "")
	if !ok || !near(f.Value, asTyped.Value, 1e-9) || !near(f.PlusMinus, asTyped.PlusMinus, 1e-6) {
		t.Errorf("fruit of unknown sugar: %g ± %g, of 5 to 17 %% %g ± %g", f.Value, f.PlusMinus, asTyped.Value, asTyped.PlusMinus)
	}
	if !strings.Contains(f.Note, "added[0].sugar is not written") {
		t.Errorf("fruit of unknown sugar: %q", f.Note)
	}
	later := works(t, withLines(plainGrist, fermenting, finished, "added: [{fruit: damson, weight: 2 kg, sugar: 9 %, into: fermenter, when: 2031-03-12}]"))
	if f, _ := later.Find("abv", ""); f.Value != plain.Value {
		t.Errorf("fruit still to come counts already: %g", f.Value)
	}
	juice := works(t, withLines(plainGrist, fermenting, finished, "added: [{juice: apple, volume: 2 L, sugar: 11 %, into: fermenter, when: 2026-03-12}]"))
	if got := juice.Inquire().fermentedOG().Value.Plato(); got < 10.05 || got > 10.15 {
		t.Errorf("a tenth of juice of 11 °P makes %g °P", got)
	}
}

// TestRefractometerBeforeAndAfter: before the yeast it reads wort, after it a
// published beer's 5.3 °Bx is a true 1.010 of 1.042.
func TestRefractometerBeforeAndAfter(t *testing.T) {
	s := works(t, withLines(plainGrist, "fermenter: {volume: 20 L, gravity: 1.042, sample_at: 20 C}",
		"readings: [{when: 2026-03-07 13:00, brix: 10.7, with: eye}, {when: 2026-03-16 08:00, brix: 5.3, with: eye}]"))
	all := s.GravityReadings()
	if len(all) != 2 || !all[0].Refractometer || !all[1].Refractometer {
		t.Fatalf("%d readings", len(all))
	}
	if wort := all[0].Gravity.Value.Plato(); math.Abs(wort-10.7/1.02) > 0.001 {
		t.Errorf("wort of 10.7 °Bx is %g °P", wort)
	}
	const threePoints = 0.003 // what published comparisons speak of
	fg, _ := s.Find("fg", "")
	if math.Abs(fg.Value-1.010) > threePoints || fg.PlusMinus < threePoints {
		t.Errorf("5.3 °Bx after 1.042 is %.4f ± %.4f", fg.Value, fg.PlusMinus)
	}
}

// TestAnyCalibration: two hydrometers marked for different heats, each reading
// what it must, agree on the beer.
func TestAnyCalibration(t *testing.T) {
	gravityBy := func(reading string, marked string) float64 {
		d := journal.ReadFile("1.md", withLines(plainGrist, "fermenter: {volume: 20 L, gravity: "+reading+", sample_at: 25 C, with: stem}"), nil)
		stem := journal.ReadFile("cards/stem.md", []byte("---\ncard: instrument\nname: stem\nmeasures: gravity\ncalibrated_at: "+marked+"\n---\n"), nil).Card
		c := plainContext()
		c.Larder = journal.NewLarder([]*journal.Card{stem})
		f, _ := Work(d.Gyle, c).Find("og", "")
		return f.Value
	}
	// A stem marked for 15 °C shows 0.0009 less of the same beer at the same heat
	// (water: 999.10 and 998.20 kg/m³), but for 5 °C more by which its glass has
	// swollen (25e-6 each).
	a, b := gravityBy("1.0400", "20 C"), gravityBy("1.0392", "15 C")
	if math.Abs(a-b) > 0.00005 || math.Abs(a-1.0411) > 0.0001 {
		t.Errorf("marked for 20 °C %.5f, for 15 °C %.5f, want 1.0411", a, b)
	}
}

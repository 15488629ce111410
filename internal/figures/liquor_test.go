package figures

import (
	"math"
	"slices"
	"testing"
	"time"

	"pgregory.net/rapid"

	"gylebook/internal/brewing"
	"gylebook/internal/journal"
	q "gylebook/internal/quantity"
)

// onBrewDay works an entry out at noon of its brew day, with a past.
func onBrewDay(t interface{ Fatalf(string, ...any) }, past Past, lines ...string) *Sheet {
	d := journal.ReadFile("gyles/1.md", withLines(lines...), nil)
	if d.Gyle == nil || len(d.Errors) > 0 {
		t.Fatalf("the entry does not read: %v", d.Errors)
	}
	c := plainContext()
	c.Now, c.Past = time.Date(2026, 3, 7, 12, 0, 0, 0, time.UTC), past
	return Work(d.Gyle, c)
}

const aMash = "mash: {liquor: 10 L, rests: [{at: 66 C, for: 60 min}]}"

// TestLiquorNeeded: by the usual parts, then by this brewer's own past, then by
// what this copper was seen to boil off.
func TestLiquorNeeded(t *testing.T) {
	own := Past{CopperLosses: Learned{Median: 1.2, HalfWidth: 0.3, Gyles: 3}, BoilOff: Learned{Median: 3.4, HalfWidth: 0.3, Gyles: 3}}
	few := Past{CopperLosses: Learned{Median: 9, HalfWidth: 0.3, Gyles: 2}, BoilOff: Learned{Median: 9, HalfWidth: 0.3, Gyles: 2}}
	boil := "copper: {boiled: 90 min}"
	for _, c := range []struct {
		name  string
		past  Past
		lines []string
		want  float64 // L for 20 L from 4 kg
	}{
		{"the usual parts", Past{}, []string{plainGrist, aMash, boil}, 20 + 4 + 1.5*0.12*20 + 0.08*20},
		{"two gyles are too few", few, []string{plainGrist, aMash, boil}, 20 + 4 + 1.5*0.12*20 + 0.08*20},
		{"this brewer's past", own, []string{plainGrist, aMash, boil}, 20 + 4 + 1.5*3.4 + 1.2},
		{"this copper", own, []string{plainGrist, aMash, "copper: {boiled: 90 min, before: {volume: 28 L}, after: {volume: 22 L}}"}, 20 + 4 + 6 + 1.2},
		{"raw ale", own, []string{plainGrist, aMash, "copper: {boiled: none}"}, 20 + 4 + 1.2},
		{"extract", own, []string{"grist: [{syrup: light malt extract, weight: 3 kg}]", boil}, 20 + 1.5*3.4 + 1.2},
	} {
		s := onBrewDay(t, c.past, c.lines...)
		f, ok := s.Find("liquor-needed", "")
		if !ok || !near(f.Value, c.want, 1e-9) || f.PlusMinus <= 0 {
			t.Errorf("%s: %g ± %g L, want %g; missing are %+v", c.name, f.Value, f.PlusMinus, c.want, s.Missing)
		}
		sparge, ok := s.Find("sparge-liquor", "")
		if ok != (c.name != "extract") || ok && !near(sparge.Value, c.want-10, 1e-9) {
			t.Errorf("%s: %g L for the sparge", c.name, sparge.Value)
		}
	}
	if s := onBrewDay(t, own, "grist: [{syrup: light malt extract, weight: 3 kg}]"); slices.ContainsFunc(s.Missing, func(m Missing) bool { return m.Figure == "liquor-needed" }) {
		t.Error("a kit is asked how long it boils")
	}
}

// TestTowardsTheAim: with the liquor added, or the water boiled away, the wort has
// the gravity aimed at; and only as long as the yeast is not in.
func TestTowardsTheAim(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		volume := rapid.Float64Range(5, 60).Draw(t, "volume")
		gravity := rapid.Float64Range(1.030, 1.080).Draw(t, "gravity")
		s := onBrewDay(t, Past{}, plainGrist, "copper: {boiled: 60 min, after: {volume: "+q.Fixed(volume, 6)+" L, gravity: "+q.Fixed(gravity, 6)+", sample_at: 20 C}}")
		back, away := must(t, s, "liquor-back", ""), must(t, s, "boil-on", "")
		if back.Value < 0 || away.Value < 0 || back.Value > 0 && away.Value > 0 {
			t.Fatalf("%g L to add and %g to boil away", back.Value, away.Value)
		}
		if back.Value > 0 {
			g, err := brewing.BlendedGravity(q.Volume(volume), q.SG(gravity), q.Volume(back.Value), 1)
			if err != nil || math.Abs(g.SG()-1.050) > 1e-6 {
				t.Errorf("%g L at %g and %g L of liquor make %g: %v", volume, gravity, back.Value, g, err)
			}
		} else if g, err := brewing.BlendedGravity(q.Volume(volume*gravity-away.Value)/1.050, 1.050, q.Volume(away.Value), 1); err != nil || math.Abs(g.SG()-gravity) > 1e-5 {
			t.Errorf("%g L boiled away from %g L at %g leave another wort: %g", away.Value, volume, gravity, g)
		}
		signed, ok := s.Inquire().LiquorForAim()
		if !ok || !near(signed.Value, back.Value-away.Value, 1e-9) {
			t.Errorf("findings are told %g", signed.Value)
		}
	})
	late := works(t, withLines(plainGrist, fermenting))
	if f, ok := late.Find("liquor-back", ""); ok {
		t.Errorf("with the yeast in, %g L are still asked for", f.Value)
	}
}

// TestWortAsLastMeasured: what is in the fermenter outranks the copper, and after
// the boil what was before it.
func TestWortAsLastMeasured(t *testing.T) {
	for _, c := range []struct {
		lines  []string
		volume float64
		points float64
	}{
		{[]string{"copper: {boiled: 60 min, before: {volume: 30 L, gravity: 1.036, sample_at: 20 C}}"}, 30, 36},
		{[]string{"copper: {boiled: 60 min, before: {volume: 30 L, gravity: 1.036, sample_at: 20 C}, after: {volume: 24 L, gravity: 1.045, sample_at: 20 C}}"}, 24, 45},
		{[]string{"copper: {boiled: 60 min, after: {volume: 24 L, gravity: 1.045, sample_at: 20 C}}", "fermenter: {volume: 21 L, gravity: 1.046, sample_at: 20 C}"}, 21, 46},
	} {
		v, g := onBrewDay(t, Past{}, append(c.lines, plainGrist)...).Inquire().wortNow()
		if !v.known || !g.known || !near(v.Value.Litres(), c.volume, 1e-9) || !near(g.Value.Points(), c.points, 1e-9) {
			t.Errorf("%v: %g L at %g points", c.lines, v.Value, g.Value.Points())
		}
	}
}

// TestInfusionsMeet: the liquor that a rest needs, written as what it got, reaches
// it.
func TestInfusionsMeet(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		first, lift := rapid.Float64Range(45, 60).Draw(t, "first rest"), rapid.Float64Range(3, 15).Draw(t, "lift")
		rest := q.Fixed(first, 4) + " C}, {at: " + q.Fixed(first+lift, 4) + " C, by: infusion, liquor_at: 96 C"
		planned := onBrewDay(t, Past{}, plainGrist, "mash: {liquor: 10 L, rests: [{at: "+rest+"}]}")
		liquor := must(t, planned, "infusion-liquor", "mash.rests[1]")
		poured := onBrewDay(t, Past{}, plainGrist, "mash: {liquor: 10 L, rests: [{at: "+rest+", liquor: "+q.Fixed(liquor.Value, 9)+" L}]}")
		reached := must(t, poured, "infusion-heat", "mash.rests[1]")
		if math.Abs(reached.Value-first-lift) > 2e-4 || reached.PlusMinus < 1 {
			t.Errorf("%g L reach %g ± %g °C for a rest of %g", liquor.Value, reached.Value, reached.PlusMinus, first+lift)
		}
	})
}

package figures

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"
	"time"

	"gylebook/internal/journal"
)

// aBeer is a finished beer of a gyle, its gravities read with a hydrometer.
func aBeer(number int, hydrometer string, og, fg float64) string {
	return fmt.Sprintf(`---
gyle: %d
beer: One
brewed: 2026-01-10
grist: [{malt: pale, weight: 4 kg, colour: 6 EBC, extract: 300 Ldeg/kg}]
hops: [{hop: any, weight: 40 g, alpha: 5 %%, boiled: 60 min}]
copper: {boiled: 60 min, after: {volume: 22 L, gravity: %.4f, sample_at: 20 C, with: %s}}
fermenter: {volume: 20 L, gravity: %.4f, sample_at: 20 C, with: %s}
yeast: [{yeast: any, pitched: 2026-01-10 14:00}]
readings:
  - {when: 2026-01-16 08:00, gravity: %.4f, sample_at: 20 C, with: %s}
  - {when: 2026-01-19 08:00, gravity: %.4f, sample_at: 20 C, with: %s}
racked: {on: 2026-01-20, volume: 18 L, temp: 18 C}
---
`, number, og, hydrometer, og, hydrometer, fg, hydrometer, fg, hydrometer)
}

// aHydrometer is the card of one.
func aHydrometer(name string) *journal.Card {
	return journal.ReadFile("cards/"+name+".md", fmt.Appendf(nil, "---\ncard: instrument\nname: %s\nmeasures: gravity\n---\n", name), nil).Card
}

// together works the last of several entries out, with the others at hand.
func together(t *testing.T, texts ...string) (drawn *Sheet, others []*Sheet) {
	t.Helper()
	sheets := map[int]*Sheet{}
	c := plainContext()
	c.Larder = journal.NewLarder([]*journal.Card{aHydrometer("glass"), aHydrometer("plastic")})
	c.Now = time.Date(2026, 3, 1, 12, 0, 0, 0, time.UTC)
	c.Other = func(n int) *Sheet { return sheets[n] }
	for i, text := range texts {
		d := journal.ReadFile(fmt.Sprintf("gyles/%d.md", i+1), []byte(text), nil)
		if d.Gyle == nil || len(d.Errors) > 0 {
			t.Fatalf("entry %d does not read: %v", i+1, d.Errors)
		}
		drawn = Work(d.Gyle, c)
		sheets[d.Gyle.Number.N] = drawn
		others = append(others, drawn)
	}
	return drawn, others[:len(others)-1]
}

const aSplit = "---\ngyle: 9\nbeer: Split\ndrawn_from: {gyle: 1, volume: 5 L, on: 2026-02-01}\n---\n"

// TestSplitIsItsSource: beer that was only drawn off is the same beer, and as sure:
// its two gravities share the bias of one hydrometer as they did before.
func TestSplitIsItsSource(t *testing.T) {
	split, sources := together(t, aBeer(1, "glass", 1.045, 1.011), aSplit)
	for _, id := range []ID{"og", "fg", "abv", "apparent-attenuation", "real-extract", "bitterness", "bitterness-ratio", "colour"} {
		got, ok := split.Find(id, "")
		want, there := sources[0].Find(id, "")
		if !ok || !there {
			t.Errorf("%s: %v in the split, %v in its source; missing are %+v", id, ok, there, split.Missing)
			continue
		}
		if !near(got.Value, want.Value, 1e-9) || !near(got.PlusMinus, want.PlusMinus, 1e-6) {
			t.Errorf("%s: %g ± %g, its source has %g ± %g", id, got.Value, got.PlusMinus, want.Value, want.PlusMinus)
		}
	}
	if f, _ := split.Find("bitterness", ""); f.Note == "" {
		t.Error("nobody says whose bitterness it is")
	}
}

// TestBlendSharesInstruments: the bias of one hydrometer moves both halves of a
// blend alike, those of two may cancel; what nobody read of two samples is not one
// doubt.
func TestBlendSharesInstruments(t *testing.T) {
	blend := "---\ngyle: 9\nbeer: Blend\ndrawn_from:\n  - {gyle: 1, volume: 10 ± 0.001 L}\n  - {gyle: 2, volume: 10 ± 0.001 L}\n---\n"
	one, _ := together(t, aBeer(1, "glass", 1.045, 1.011), aBeer(2, "glass", 1.045, 1.011), blend)
	two, _ := together(t, aBeer(1, "glass", 1.045, 1.011), aBeer(2, "plastic", 1.045, 1.011), blend)
	bias, reading := 0.001/math.Sqrt(3), math.Hypot(0.0005, 1*0.0002)/math.Sqrt(3) // the sample's ± 1 °C is worth 0.0002 at 20 °C
	for _, c := range []struct {
		name  string
		sheet *Sheet
		want  float64
	}{
		{"one hydrometer", one, 2 * math.Sqrt(bias*bias+reading*reading/2)},
		{"two hydrometers", two, 2 * math.Sqrt(bias*bias/2+reading*reading/2)},
	} {
		f, ok := c.sheet.Find("og", "")
		if !ok || !near(f.PlusMinus, c.want, 0.03) {
			t.Errorf("%s: og ± %g, want ± %g", c.name, f.PlusMinus, c.want)
		}
	}
	var names []string
	for _, in := range one.Inputs {
		names = append(names, in.What)
	}
	if n := strings.Count(strings.Join(names, "\n"), "the bias of the glass"); n != 1 {
		t.Errorf("the hydrometer's bias stands %d times among %v", n, names)
	}
	if !slices.Contains(names, "the bitterness formula in gyle 1") || !slices.Contains(names, "the bitterness formula in gyle 2") {
		t.Errorf("what is of one gyle is not told apart: %v", names)
	}
}

// TestBlendOfDifferent: litre for litre, whatever the order.
func TestBlendOfDifferent(t *testing.T) {
	blend := "---\ngyle: 9\nbeer: Blend\ndrawn_from:\n  - {gyle: %d, volume: %g L, on: 2026-02-01}\n  - {gyle: %d, volume: %g L, on: 2026-02-01}\n---\n"
	weak, strong := aBeer(1, "glass", 1.036, 1.009), aBeer(2, "glass", 1.072, 1.018)
	ab, sources := together(t, weak, strong, fmt.Sprintf(blend, 1, 6.0, 2, 4.0))
	ba, _ := together(t, weak, strong, fmt.Sprintf(blend, 2, 4.0, 1, 6.0))
	for _, id := range []ID{"bitterness", "colour", "og", "fg", "abv"} {
		x, _ := ab.Find(id, "")
		y, _ := ba.Find(id, "")
		a, _ := sources[0].Find(id, "")
		b, _ := sources[1].Find(id, "")
		if !near(x.Value, y.Value, 1e-9) || !near(x.PlusMinus, y.PlusMinus, 1e-6) {
			t.Errorf("%s: %g ± %g, the other way round %g ± %g", id, x.Value, x.PlusMinus, y.Value, y.PlusMinus)
		}
		// Alcohol and gravity mix within a hundredth of their difference of litre for litre.
		if byLitres := 0.6*a.Value + 0.4*b.Value; math.Abs(x.Value-byLitres) > 0.01*math.Abs(a.Value-b.Value) {
			t.Errorf("%s: %g, litre for litre %g", id, x.Value, byLitres)
		}
	}
}

// TestDrawnFromNobody says why, and asks for nothing that would not help.
func TestDrawnFromNobody(t *testing.T) {
	s, _ := together(t, strings.Replace(aSplit, "gyle: 1,", "gyle: 7,", 1))
	for _, id := range []ID{"og", "bitterness", "colour"} {
		if !slices.ContainsFunc(s.Missing, func(m Missing) bool {
			return m.Figure == id && m.Because == "gyle 7 is not in the journal" && len(m.Needs) == 0
		}) {
			t.Errorf("%s: %+v", id, s.Missing)
		}
	}
}

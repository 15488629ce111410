package figures

import (
	"fmt"
	"math"
	"strings"
	"testing"
	"time"

	"gylebook/internal/journal"
)

// inTun is a gyle of 4 kg mashed with 10 L at 15 °C for a rest at 66 °C, in a tun
// whose card says that it takes as much heat as 2 L; with more lines to its mash.
func inTun(t *testing.T, lines string) *Sheet {
	t.Helper()
	card := journal.ReadFile("cards/tun.md", []byte("---\ncard: vessel\nname: wooden tun\ntakes: 2 ± 0.5 L\n---\n"), nil)
	text := fmt.Sprintf("---\ngyle: 1\nbeer: Any\nbrewed: 2026-03-01\ngrist: [{malt: pale, weight: 4 ± 0.0001 kg}]\n"+
		"mash:\n  liquor: 10 ± 0.0001 L\n  grain_at: 15 ± 0.0001 C\n  rests: [{at: 66 C}, {at: 72 C, by: infusion, liquor: 3 L, liquor_at: 98 C}]\n%s---\n", lines)
	d := journal.ReadFile("gyles/1.md", []byte(text), nil)
	if len(card.Errors)+len(d.Errors) > 0 {
		t.Fatal(card.Errors, d.Errors)
	}
	c := plainContext()
	c.Larder, c.Now = journal.NewLarder([]*journal.Card{card.Card}), time.Date(2026, 3, 1, 12, 0, 0, 0, time.UTC)
	return Work(d.Gyle, c)
}

// TestStrikeInTun: what the tun takes, by pencil: the grist takes 0.41 × 4 × 51 =
// 83.64 of the ten litres' heat, and the tun twice as much as it is colder than the
// rest. Of its ± 0.5 L each is worth (T − Tw) ÷ 10. What nobody has tried, slaking and a tun
// that no card knows, is worth its half-width in all of liquor and grist, 11.64 L, by each of
// the ten: ± 1 K where the tun is known, ± 1.5 K where it is not.
func TestStrikeInTun(t *testing.T) {
	for _, c := range []struct {
		name, lines      string
		want, plusMinus  float64
		working, without string
	}{
		{"no tun named", "", 74.364, 0, "+ 0)", ""},
		{"a tun without a card", "  vessel: bucket\n", 74.364, 0, "+ 0)", ""},
		{"as cold as the grist", "  vessel: wooden tun\n", 84.564, 2 * 0.5 / math.Sqrt(3) * 51 / 10, "+ 2.00 × (66 − 15.0", "+ 0)"},
		{"warmed to 50 °C", "  vessel: wooden tun\n  vessel_at: 50 ± 0.0001 C\n", 77.564, 2 * 0.5 / math.Sqrt(3) * 16 / 10, "× (66 − 50.00", "+ 0)"},
		{"warmed to the rest", "  vessel: wooden tun\n  vessel_at: 66 ± 0.0001 C\n", 74.364, 0, "× (66 − 66.00", "+ 0)"},
	} {
		t.Run(c.name, func(t *testing.T) {
			untried := slakes
			if c.without == "" {
				untried = robs
			}
			c.plusMinus = math.Hypot(c.plusMinus, 2*untried/math.Sqrt(3)*11.64/10)
			f, ok := inTun(t, c.lines).Find("strike-temperature", "")
			if !ok || math.Abs(f.Value-c.want) > 0.0005 || math.Abs(f.PlusMinus-c.plusMinus) > 0.005 {
				t.Errorf("%.3f ± %.3f °C, want %.3f ± %.3f", f.Value, f.PlusMinus, c.want, c.plusMinus)
			}
			if w := f.Working(); !strings.Contains(w, c.working) || c.without != "" && strings.Contains(w, c.without) {
				t.Errorf("the working is %q", w)
			}
		})
	}
}

// TestInfusionInTun: the tun stands at the mash's heat by then, and must be lifted
// with it. 1.64 + 10 + 2 L at 66 °C with 3 L at 98 °C are 1194.24 ÷ 16.64 = 71.769;
// without the tun 1062.24 ÷ 14.64 = 72.557.
func TestInfusionInTun(t *testing.T) {
	for lines, want := range map[string]float64{"": 72.557, "  vessel: wooden tun\n  vessel_at: 50 C\n": 71.769} {
		if f, ok := inTun(t, lines).Find("infusion-heat", "mash.rests[1]"); !ok || math.Abs(f.Value-want) > 0.0005 {
			t.Errorf("%q: %.3f °C, want %.3f", lines, f.Value, want)
		}
	}
}

// TestTheTunIsLearned: three mashes that settled 1.8 K too cool raise the next strike by 1.8
// × 11.64 ÷ 10 = 2.095 °C, whatever no card knows; two do not.
func TestTheTunIsLearned(t *testing.T) {
	s := inTun(t, "  vessel: bucket\n")
	for gyles, want := range map[int]float64{3: 74.364 + 2.095, 2: 74.364} {
		c := s.Context
		c.Past.MashLost = map[string]Learned{"bucket": {Median: 1.8, HalfWidth: 0.3, Gyles: gyles}}
		f, ok := Work(s.Gyle, c).Find(IDStrikeTemperature, "")
		if !ok || math.Abs(f.Value-want) > 0.0005 {
			t.Errorf("after %d gyles %.3f °C, want %.3f", gyles, f.Value, want)
		}
	}
}

// TestHeatLost is the same balance from the other side: liquor at 74.364 °C would have
// brought these goods to 66; at 64.2 they lost 1.8 K.
func TestHeatLost(t *testing.T) {
	text := "---\ngyle: 1\nbeer: Any\nbrewed: 2026-03-01\ngrist: [{malt: pale, weight: 4 kg}]\nmash: {liquor: 10 L, strike: 74.364 C, grain_at: 15 C, rests: [{at: 64.2 C, aimed: 66 C}]}\n" +
		"fermenter: {volume: 20 L, gravity: 1.040}\n---\n"
	c := plainContext()
	c.Now = time.Date(2026, 3, 2, 12, 0, 0, 0, time.UTC)
	f, ok := Work(journal.ReadFile("gyles/1.md", []byte(text), nil).Gyle, c).Find(IDMashHeatLost, "")
	if !ok || math.Abs(f.Value-1.8) > 0.001 {
		t.Errorf("%.3f K lost, want 1.8", f.Value)
	}
}

// TestAWarmerMashEndsHigher: three beers at 78 % mashed at 65 °C lead one to expect less of
// a wort mashed at 69, by 2.4 % a degree and no farther than the series goes; of one mashed
// alike just 78 %.
func TestAWarmerMashEndsHigher(t *testing.T) {
	for heat, want := range map[string]float64{"65 C": 78, "67 C": 78 - 2*2.4, "69 C": 78 - 3.3*2.4} {
		text := "---\ngyle: 1\nbeer: Any\nbrewed: 2026-03-01\nyeast: [{yeast: dried ale, pitched: 2026-03-01}]\nmash: {rests: [{at: 45 C}, {at: " + heat + "}, {at: 76 C}]}\nfermenter: {volume: 20 L, gravity: 1.050}\n---\n"
		c := plainContext()
		c.Larder, c.Now = journal.NewLarder(nil), time.Date(2026, 3, 1, 20, 0, 0, 0, time.UTC)
		c.Past.Attenuation = map[string]Learned{"dried ale": {Median: 78, HalfWidth: 1, Gyles: 3, Mash: 65}}
		s := Work(journal.ReadFile("gyles/1.md", []byte(text), nil).Gyle, c)
		f, ok := s.Find(IDFGExpected, "")
		og, _ := s.Find(IDOG, "")
		plato := func(sg float64) float64 { return -616.868 + 1111.14*sg - 630.272*sg*sg + 135.997*sg*sg*sg }
		got := 100 * (1 - plato(f.Value)/plato(og.Value))
		if !ok || math.Abs(got-want) > 0.1 {
			t.Errorf("mashed at %s: %.2f %% to expect, want %.2f", heat, got, want)
		}
	}
}

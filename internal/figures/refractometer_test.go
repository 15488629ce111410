package figures

import (
	"math"
	"testing"
	"time"

	"gylebook/internal/journal"
)

// TestOnlyARefractometer: where nothing but Brix was read, the last of the
// readings is the final gravity, not the first.
func TestOnlyARefractometer(t *testing.T) {
	s := works(t, []byte(`---
gyle: 1
beer: By refractometer
brewed: 2026-03-07
yeast: [{yeast: any, pitched: 2026-03-07 14:00}]
fermenter: {volume: 20 L, gravity: 1.046, sample_at: 20 C}
readings:
  - {when: 2026-03-09 08:00, brix: 9.0, temp: 20 C}
  - {when: 2026-03-12 08:00, brix: 5.8, temp: 20 C}
  - {when: 2026-03-14 08:00, brix: 5.8, temp: 20 C}
  - {when: 2026-03-16 08:00, brix: 5.8, temp: 20 C}
racked: {on: 2026-03-16, volume: 19 L, temp: 18 C}
---
`))
	fg, ok := s.Find("fg", "")
	now, _ := s.Find("gravity-now", "")
	if !ok || math.Abs(fg.Value-now.Value) > 1e-9 || fg.Value > 1.015 {
		t.Errorf("the final gravity is %.4f, the last reading %.4f", fg.Value, now.Value)
	}
	if !s.Stability().Stable {
		t.Error("three equal readings over four days do not stand still")
	}
}

// TestAHydrometerOutranksARefractometer: a later Brix does not take the place of
// a hydrometer's reading.
func TestAHydrometerOutranksARefractometer(t *testing.T) {
	s := works(t, []byte(`---
gyle: 1
beer: By both
brewed: 2026-03-07
yeast: [{yeast: any, pitched: 2026-03-07 14:00}]
fermenter: {volume: 20 L, gravity: 1.046, sample_at: 20 C}
readings:
  - {when: 2026-03-09 08:00, brix: 9.0, temp: 20 C}
  - {when: 2026-03-12 08:00, gravity: 1.012, sample_at: 20 C}
  - {when: 2026-03-14 08:00, brix: 5.0, temp: 20 C}
---
`))
	if fg, ok := s.Find("fg", ""); !ok || math.Abs(fg.Value-1.012) > 0.0003 {
		t.Errorf("the final gravity is %.4f, want the hydrometer's 1.012", fg.Value)
	}
}

// TestARefractometerAlone: wort and beer both read by refractometer give both gravities, in
// whichever way they are written: 11.2 °Bx of wort and 6.0 of beer. By Balling's proportions,
// with a wort factor of 1.02 and 0.40 °Bx for 1 % by weight of alcohol, worked by pencil: the
// wort had 10.98 °P; what is shown of the beer, 5.882, is extract and 0.40 times alcohol, of
// which there is (10.98 − E) ÷ (2.0665 − 0.010665 × 10.98) = (10.98 − E) ÷ 1.9494; so E =
// (5.882 − 2.253) ÷ 0.7948 = 4.566 % and the alcohol 3.290 % by weight.
func TestARefractometerAlone(t *testing.T) {
	for name, c := range map[string]struct{ wort, beer string }{
		"before the yeast, among the readings": {"fermenter: {volume: 20 L}\nreadings:\n  - {when: 2026-03-07 10:00, brix: 11.2}", "brix: 6.0"},
		"in the fermenter, as a gravity":       {"fermenter: {volume: 20 L, gravity: 11.2 Bx, with: pocket refractometer}\nreadings:", "brix: 6.0"},
		"as gravities, off its other scale":    {"fermenter: {volume: 20 L, gravity: 1.0450, with: pocket refractometer}\nreadings:", "gravity: 1.02364, with: pocket refractometer"},
	} {
		raw := "---\ngyle: 1\nbeer: Any\nbrewed: 2026-03-07\nyeast: [{yeast: any, pitched: 2026-03-07 14:00}]\n" + c.wort + "\n" +
			"  - {when: 2026-03-14 08:00, " + c.beer + "}\n  - {when: 2026-03-17 08:00, " + c.beer + "}\n---\n"
		card := journal.ReadFile("cards/r.md", []byte("---\ncard: instrument\nname: pocket refractometer\nmeasures: brix\nwort_factor: 1.02\n---\n"), nil)
		x := plainContext()
		x.Larder, x.Now = journal.NewLarder([]*journal.Card{card.Card}), time.Date(2026, 3, 18, 12, 0, 0, 0, time.UTC)
		s := Work(entry(t, &journal.Journal{}, []byte(raw)), x)
		abw, ok := s.Find(IDAbw, "")
		og, _ := s.Find(IDOG, "")
		if !ok || math.Abs(abw.Value-3.290) > 0.02 || math.Abs(og.Value-1.0441) > 0.0002 {
			t.Errorf("%s: %.4f, and %.3f %% by weight; by pencil 1.0441 and 3.290", name, og.Value, abw.Value)
		}
	}
}

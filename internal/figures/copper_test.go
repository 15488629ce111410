package figures

import (
	"math"
	"testing"
	"time"

	"gylebook/internal/journal"
)

// TestASmallBoilMadeUp: ten litres boiled and made up to twenty at 1.040 boiled at 1.080,
// where Tinseth's printed table has 0.176 for an hour (testdata/reference/06a): 30 g of 5 %
// in 20 L come to 1500 mg × 0.176 ÷ 20 L = 13.2 IBU. However it is said.
func TestASmallBoilMadeUp(t *testing.T) {
	const whole, inCopper = 30 * 0.05 * 1000 * 0.252 / 20, 30 * 0.05 * 1000 * 0.176 / 20 // at 1.040 the table has 0.252
	for _, c := range []struct {
		says, entry string
		ibu         float64
	}{
		{"topped up in the fermenter", "fermenter: {volume: 20 L, gravity: 1.040, topped_up: 10 L}", inCopper},
		{"with the copper's own volume", "copper: {boiled: 60 min, after: {volume: 10 L, temp: 20 C}}\nfermenter: {volume: 20 L, gravity: 1.040, topped_up: 10 L}", inCopper},
		{"by the volumes alone", "copper: {boiled: 60 min, after: {volume: 10 L, temp: 20 C}}\nfermenter: {volume: 20 L, gravity: 1.040}", inCopper},
		{"with the gravity in the copper", "copper: {boiled: 60 min, after: {volume: 10 L, temp: 20 C, gravity: 1.080}}\nfermenter: {volume: 20 L, gravity: 1.040, topped_up: 10 L}", inCopper},
		{"all of it boiled", "copper: {boiled: 60 min, after: {volume: 20.5 L, temp: 20 C}}\nfermenter: {volume: 20 L, gravity: 1.040}", whole * 20 / 20.5},
		{"nothing said of the copper", "fermenter: {volume: 20 L, gravity: 1.040}", whole},
	} {
		raw := "---\ngyle: 2\nbeer: Any\nbrewed: 2026-03-07\nhops:\n  - {hop: any, weight: 30 g, alpha: 5 %, boiled: 60 min}\n" + c.entry + "\n---\n"
		s := Work(entry(t, &journal.Journal{}, []byte(raw)), Context{Larder: lawLarder, Now: time.Date(2026, 3, 8, 12, 0, 0, 0, time.UTC)})
		f, ok := s.Find(IDBitterness, "")
		if !ok || math.Abs(f.Value-c.ibu) > 0.05 {
			t.Errorf("%s: %.2f IBU, by the table %.2f", c.says, f.Value, c.ibu)
		}
	}
}

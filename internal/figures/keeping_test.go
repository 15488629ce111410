package figures

import (
	"math"
	"testing"
	"time"

	"gylebook/internal/journal"
)

// TestReadyFollowsTheBeer: bottles take 28 days, 14 of them to take up their priming at 18 °C.
// Ten degrees less make 28 of the 14; 7 % vol half as much again; nine days of warmth and then
// a cellar at 8 °C leave five days' work at half the speed; and finings clear in half of 14.
func TestReadyFollowsTheBeer(t *testing.T) {
	const strong, ordinary = "gravity: 1.0635", "gravity: 1.045"
	for _, c := range []struct {
		says, og, vessel, lines string
		days                    float64
	}{
		{"nothing said", ordinary, "bottle 500 mL", "", 28},
		{"as warm as usual", ordinary, "bottle 500 mL", "conditioned: {at: 18 C}", 28},
		{"cool", ordinary, "bottle 500 mL", "conditioned: {at: 8 C}", 42},
		{"warm", ordinary, "bottle 500 mL", "conditioned: {at: 26 C}", 14 + math.Round(14/math.Pow(2, 0.8))},
		{"not warm for long enough", ordinary, "bottle 500 mL", "conditioned: {at: 18 C, from: 2026-04-01, to: 2026-04-10}\ncellared: {at: 8 C}", 14 + 9 + 5*2},
		{"fined", ordinary, "bottle 500 mL", "finings: [{with: isinglass, volume: 60 mL, into: fermenter, when: 2026-03-31}]", 21},
		{"copper finings", ordinary, "bottle 500 mL", "finings: [{with: irish moss, weight: 2 g}]", 28},
		{"a cask, as the trade keeps it", ordinary, "pin", "conditioned: {at: 14 C}", 14},
		{"strong", strong, "bottle 500 mL", "", 14 + 14*1.5},
	} {
		raw := "---\ngyle: 2\nbeer: Any\nbrewed: 2026-03-07\nyeast: [{yeast: house ale, pitched: 2026-03-07}]\nfermenter: {volume: 20 L, " + c.og + "}\n" +
			"readings: [{when: 2026-03-20, gravity: 1.010}, {when: 2026-03-24, gravity: 1.010}]\nracked: {on: 2026-04-01, volume: 19 L}\n" +
			"priming: {sugar: sucrose, weight: 60 g}\npackages: [{vessel: " + c.vessel + ", fill: 0.48 L}]\n" + c.lines + "\n---\n"
		s := Work(entry(t, &journal.Journal{}, []byte(raw)), Context{Larder: lawLarder, Now: time.Date(2026, 4, 20, 12, 0, 0, 0, time.UTC)})
		f, ok := s.Find(IDReadyOn, "packages[0]")
		if got := f.Date.Sub(time.Date(2026, 4, 1, 0, 0, 0, 0, time.UTC)).Hours() / 24; !ok || math.Abs(got-c.days) > 0.51 {
			t.Errorf("%s: ready after %g days, by the rule %g", c.says, got, c.days)
		}
	}
}

package figures

import (
	"fmt"
	"gylebook/internal/journal"
	"testing"
	"time"
)

// accounts are stories reckoned by pencil, here as entries to change.
const accounts = "../../testdata/accounts-by-hand"

// TestLateExtractIsNoReasonForAFall: what went in after the last gravity is in neither
// gravity, so the beer's own fall is bounded as it was before it.
func TestLateExtractIsNoReasonForAFall(t *testing.T) {
	j := opened(t, accounts)
	raw := file(t, accounts, "02-late-sucrose.md")
	bound := func(sets ...string) float64 {
		falling := append(sets, "readings[2]=") // its last reading: level, it would be bounded by that
		b := newBench(entry(t, j, raw, falling...), contextOf(j, longAfter))
		return float64(b.fallOf(allOf).bound.Value)
	}
	without := bound("grist[1]=")
	for _, sugar := range []string{"sucrose", "lactose"} {
		if got := bound("grist[1].sugar=" + sugar); got != without {
			t.Errorf("with late %s the beer itself gives at most %.4g vol, without it %.4g", sugar, got, without)
		}
	}
}

// TestToppedUp: what a beer was topped up with after its last gravity counts as its
// words have it, and where they do not say, the bound takes it for wort.
func TestToppedUp(t *testing.T) {
	j := opened(t, accounts)
	raw := file(t, accounts, "02-late-sucrose.md")
	topped := func(with string) (strength, most float64) {
		s := Work(entry(t, j, raw, "grist[1]=", "done[+].did=topped up", "done[0].volume=2 L", "done[0].when=2026-06-12 12:00", "done[0].what="+with), contextOf(j, longAfter))
		abv, _ := s.Find(kindABV.ID, "")
		all, _ := s.Find(kindInAll.ID, "packages[0]")
		return abv.Value, all.UpperBound()
	}
	water, beer := "boiled water", "a bottle of old ale"
	thin, quiet := topped(water)
	full, _ := topped(beer)
	if !(thin < full*0.95) {
		t.Errorf("with water %.3f %% vol, with beer %.3f", thin, full)
	}
	for _, with := range []string{"wort", "a jug"} {
		if _, most := topped(with); !(most > quiet+0.5) {
			t.Errorf("topped up with %s at most %.3f vol, with water %.3f", with, most, quiet)
		}
	}
}

// TestOnlyDryHopsAreNoBitterness: where no hops are noted for the copper, nobody knows that
// there were none; of beer that was not boiled it is sure.
func TestOnlyDryHopsAreNoBitterness(t *testing.T) {
	text := "---\ngyle: 1\nbrewed: 2026-03-07\nfermenter: {volume: 20 L, gravity: 1.045}\nhops: [{hop: citra, weight: 80 g, alpha: 12 %%, dry: 3 days}]\n%s---\n"
	for copper, known := range map[string]bool{"": false, "copper: {boiled: 60 min}\n": false, "copper: {boiled: none}\n": true} {
		d := journal.ReadFile("1.md", fmt.Appendf(nil, text, copper), nil)
		s := Work(d.Gyle, Context{Larder: journal.NewLarder(nil), Now: time.Date(2026, 3, 20, 0, 0, 0, 0, time.UTC)})
		if f, ok := s.Find(IDBitterness, ""); ok != known || f.Value != 0 {
			t.Errorf("with %q: %+v, %v", copper, f.Value, ok)
		}
	}
}

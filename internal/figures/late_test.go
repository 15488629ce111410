package figures

import "testing"

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

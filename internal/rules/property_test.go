package rules

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"gylebook/internal/assay/healthy"
	"gylebook/internal/notice"
)

// worsening is one reading that makes one rule graver as it goes from good to
// bad, everything else left alone.
type worsening struct {
	rule, in, on string
	set          string // with %g for the reading
	good, bad    float64
	also         []string // what it needs beside it, set first
	or           string   // a rule of the same slip that may speak in its place
}

var worsenings = []worsening{
	{rule: "mash-off", in: "mashing", on: "2026-03-01 09:40", set: "mash.rests[0].at=%g C", good: 66, bad: 80},
	{rule: "mash-off", in: "mashing", on: "2026-03-01 09:40", set: "mash.rests[0].at=%g C", good: 66, bad: 50},
	{rule: "mash-ph-off", in: "mashing", on: "2026-03-01 09:40", set: "mash.ph=%g", good: 5.3, bad: 7},
	{rule: "mash-ph-off", in: "mashing", on: "2026-03-01 09:40", set: "mash.ph=%g", good: 5.3, bad: 4},
	{rule: "oversparged", in: "mashing", on: "2026-03-01 10:40", set: "sparge.at=%g C", good: 72, bad: 95},
	{rule: "oversparged", in: "mashing", on: "2026-03-01 10:40", set: "sparge.last_runnings=%g", good: 1.012, bad: 1},
	{rule: "og-off", in: "pitching", on: "2026-03-01", set: "fermenter.gravity=%g", good: 1.042, bad: 1.060},
	{rule: "og-off", in: "pitching", on: "2026-03-01", set: "fermenter.gravity=%g", good: 1.042, bad: 1.025},
	{rule: "bitterness-off", in: "planned", set: "hops[0].weight=%g g", good: 46, bad: 150},
	{rule: "bitterness-off", in: "planned", set: "hops[0].weight=%g g", good: 46, bad: 5},
	{rule: "colour-off", in: "planned", set: "grist[1].weight=%g g", good: 200, bad: 1500},
	{rule: "pitched-warm", in: "working", on: "2026-03-02", set: "yeast[0].at=%g C", good: 19, bad: 35},
	{rule: "pitched-cold", in: "working", on: "2026-03-02", set: "yeast[0].at=%g C", good: 19, bad: 5},
	{rule: "slow-start", in: "working", on: "2026-03-05", set: "readings[0].gravity=%g", good: 1.020, bad: 1.042},
	{rule: "too-hot", in: "working", on: "2026-03-04", set: "readings[0].temp=%g C", good: 20, bad: 34},
	{rule: "stuck", in: "working", on: "2026-03-11", set: "readings[2].gravity=%g", good: 1.0133, bad: 1.0157, also: []string{"readings[1].gravity=1.0145"}},
	{rule: "beer-ph-off", in: "bottled", set: "readings[2].ph=%g", good: 4.0, bad: 5.5},
	{rule: "beer-ph-off", in: "bottled", set: "readings[2].ph=%g", good: 4.0, bad: 3.0},
	{rule: "over-condition", in: "bottled", set: "priming.weight=%g g", good: 80, bad: 300, or: "bottle-limit"},
	{rule: "bottle-limit", in: "bottled", set: "priming.weight=%g g", good: 80, bad: 300},
	{rule: "pressure-high", in: "bottled", set: "conditioned.warmest=%g C", good: 12, bad: 40, also: []string{"packages[0].vessel=weak bottle", "priming.weight=20 g", "conditioned.at=12 C"}},
	{rule: "bag-will-swell", in: "bagged", set: "priming.weight=%g g", good: 1, bad: 150},
	{rule: "bag-overprimed", in: "bagged", set: "priming.weight=%g g", good: 15, bad: 150, or: "bag-will-swell", also: []string{"packages[0].vessel=soft bag 80 L", "conditioned.warmest=12 C", "conditioned.at=12 C"}},
	{rule: "barrel-over", in: "barrelled", set: "priming.weight=%g g", good: 20, bad: 150},
	{rule: "cask-warm", in: "casked", set: "conditioned.warmest=%g C", good: 12, bad: 35},
	{rule: "serve-temperature", in: "pouring", on: "2026-03-28", set: "served.at=%g C", good: 12, bad: 25},
	{rule: "serve-temperature", in: "pouring", on: "2026-03-28", set: "served.at=%g C", good: 12, bad: 2},
	{rule: "pints-short", in: "bagged", set: "party.guests=%g", good: 1, bad: 90, also: []string{"party.on=2026-04-04"}},
	{rule: "units", in: "bagged", set: "party.hours=%g", good: 1, bad: 9, also: []string{"party.on=2026-04-04", "party.guests=6"}},
	{rule: "label-abv", in: "bottled", set: "label.abv=%g %%", good: 4.5, bad: 9},
	{rule: "label-abv", in: "bottled", set: "label.abv=%g %%", good: 4.5, bad: 0.5},
	{rule: "co2-space", in: "working", on: "2026-03-03", set: "fermenter.room=%g m3", good: 50, bad: 4, also: []string{"fermenter.aired=false"}},
	{rule: "caffeine", in: "bottled", set: "added[0].caffeine=%g mg/L", good: 10, bad: 900, also: []string{"added[+].other=coffee", "added[0].into=fermenter", "added[0].when=2026-03-05"}},
}

// TestWorseIsNeverLess: a reading that gets worse never makes its finding
// milder, wherever on the way it is compared.
func TestWorseIsNeverLess(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		w := rapid.SampledFrom(worsenings).Draw(r, "worsening")
		shares := rapid.SliceOfN(rapid.Float64Range(0, 1), 8, 8).Draw(r, "shares")
		slices.Sort(shares)
		last, at := notice.Severity(-1), 0.0
		for _, share := range shares {
			now := w.severity(t, share)
			if now < last {
				r.Fatalf("%s: %s at %g, but only %s at %g", w.rule, last, w.at(at), now, w.at(share))
			}
			last, at = now, share
		}
	})
}

// TestFromNothingToSomething: every worsening begins in peace and ends with a
// finding, so that the property above is not empty.
func TestFromNothingToSomething(t *testing.T) {
	for _, w := range worsenings {
		if got := w.severity(t, 0); got > notice.Note {
			t.Errorf("%s at %g: already %s", w.rule, w.good, got)
		}
		if got := w.severity(t, 1); got <= w.severity(t, 0) {
			t.Errorf("%s at %g: no graver than at %g", w.rule, w.bad, w.good)
		}
	}
}

// at is the reading, a share of the way to its worst.
func (w worsening) at(share float64) float64 { return w.good + share*(w.bad-w.good) }

// severity is how grave the finding is there, -1 for none.
func (w worsening) severity(t *testing.T, share float64) notice.Severity {
	sets := slices.Clone(w.also)
	reading := strings.ReplaceAll(strings.Replace(w.set, "%g", fmt.Sprintf("%.6f", w.at(share)), 1), "%%", "%")
	all := examined(t, w.in, w.on, append(sets, reading)...)
	return max(healthy.Gravest(healthy.WithID(all, w.rule)), healthy.Gravest(healthy.WithID(all, w.or)))
}

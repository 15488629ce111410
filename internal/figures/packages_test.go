package figures

import (
	"math"
	"testing"
	"testing/fstest"

	"gylebook/internal/brewing"
	"gylebook/internal/journal"
	q "gylebook/internal/quantity"
)

// TestConditionAtTheLimitIsThePressureAllowed: the condition that a rating is
// said to allow, fed back as the beer's gas, comes to that rating at the warmest
// place.
func TestConditionAtTheLimitIsThePressureAllowed(t *testing.T) {
	raw := []byte(`---
gyle: 1
beer: Any
brewed: 2026-03-07
yeast: [{yeast: any, pitched: 2026-03-07 14:00}]
fermenter: {volume: 21 L, gravity: 1.042, sample_at: 20 C}
readings: [{when: 2026-03-14, gravity: 1.010, temp: 20 C}, {when: 2026-03-16, gravity: 1.010, temp: 20 C}]
racked: {on: 2026-03-17, volume: 20 L, temp: 18 C}
priming: {sugar: sucrose, weight: 60 g}
packages: [{vessel: rated, fill: 19 L}]
conditioned: {at: 18 C, warmest: 27 C}
---
`)
	for _, bar := range []string{"0.7 bar", "2 bar", "3.5 bar"} {
		s := worksRated(t, raw, bar)
		c := s.Containers()[0]
		limit, ok := s.Find("condition-limit", c.Key)
		if !ok {
			t.Fatalf("%s: no limit; missing are %+v", bar, s.Missing)
		}
		i := s.Inquire()
		h := brewing.Held{Beer: i.fill(c).Value, Room: i.capacity(c).Value - i.fill(c).Value, Outside: brewing.StandardAir}
		h, err := brewing.Filled(h, 0, i.sealedHeat().Value, false)
		if err != nil {
			t.Fatal(err)
		}
		h.CO2 = brewing.MolesOf(q.Carbonation(limit.Value), h.Beer)
		at, err := h.At(i.warmest(c).likely.Value)
		if rated := c.Vessel.Rated.Value.Bar(); err != nil || math.Abs(at.Gauge.Bar()-rated) > 1e-6 {
			t.Errorf("%.4g vol comes to %.6g bar, its maker allows %.6g", limit.Value, at.Gauge.Bar(), rated)
		}
	}
}

// worksRated works an entry out in a journal with a card of a vessel rated so.
func worksRated(t *testing.T, raw []byte, rated string) *Sheet {
	t.Helper()
	fsys := fstest.MapFS{
		"index.md": {Data: []byte("---\njournal: Any\n---\n")},
		"1.md":     {Data: raw},
		"rated.md": {Data: []byte("---\ncard: vessel\nname: rated\nkind: keg\ncapacity: 19.8 L\nrated: " + rated + "\n---\n")},
	}
	j := journal.Read(fsys, journal.Options{})
	for _, e := range j.Errors {
		t.Fatal(e)
	}
	return Work(j.Gyles[0], Context{Larder: j.Larder, Settings: j.Settings, Now: longAfter})
}

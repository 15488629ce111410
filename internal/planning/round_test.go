package planning

import (
	"math"
	"slices"
	"strings"
	"testing"

	"gylebook/internal/assay/healthy"
	"gylebook/internal/journal"
)

func stepOf(t Timetable, id string) Step {
	return t.Steps[slices.IndexFunc(t.Steps, func(s Step) bool { return s.ID == id })]
}

// TestPintsEachInTheRound: the cap that a party's reckoning prints is the one in force.
func TestPintsEachInTheRound(t *testing.T) {
	s := healthy.Sheet(t, "bagged", "", "party.on=2026-04-04", "party.guests=6", "party.hours=12")
	for limits, want := range map[string]float64{"": 4, "pints_each: 3 pt-uk": 3} {
		if r, ok := PartyRound(healthy.Limited(t, s, limits)); !ok || !r.Capped || math.Abs(r.Most-want) > 1e-9 || math.Abs(r.High-want) > 1e-9 {
			t.Errorf("{%s}: %+v, want at most %g", limits, r, want)
		}
	}
}

// TestLevelForLonger: where the settings ask for more than two days of level gravities,
// and for a longer stand, the days of a timetable follow.
func TestLevelForLonger(t *testing.T) {
	party := healthy.Limited(t, healthy.Sheet(t, "planned", "2026-03-01", "brewed=2026-03-05", "party.on=2026-06-01"), "level_for: 4 days, settle_for: 3 days")
	for _, table := range Timetables(party) {
		level, stable := stepOf(table, "level"), stepOf(table, "stable")
		if days := daysBetween(level.By, stable.By); days != 4 || !strings.Contains(stable.Says, "96 hours on") {
			t.Errorf("%s: %d days between the gravities: %s", table.Name, days, stable.Says)
		}
		place := stepOf(table, "place")
		if days := daysBetween(place.By, table.Steps[len(table.Steps)-1].By); table.Vessel != journal.Keg && table.Vessel != journal.Bottle && days < 3 {
			t.Errorf("%s: stands for %d days", table.Name, days)
		}
	}
}

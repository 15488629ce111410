package figures

import (
	"time"

	"gylebook/internal/journal"
	q "gylebook/internal/quantity"
)

// What findings ask of a sheet beyond its figures.

// PitchedAt is when the first yeast went in; brew day's noon where that is not
// written.
func (s *Sheet) PitchedAt() time.Time { return s.pitchedAt() }

// AfterPitching tells whether a reading is of beer, not of wort.
func (s *Sheet) AfterPitching(r GravityReading) bool { return r.When.After(s.pitchedAt()) }

// SugarAdded tells whether anything that raises a gravity went in between two
// moments: sugar, fruit, priming, wort.
func (s *Sheet) SugarAdded(from, to time.Time) bool {
	within := func(m journal.Moment) bool {
		return m.Written() && !m.Time.Add(24*time.Hour).Before(from) && !m.Time.After(to)
	}
	for _, g := range s.Gyle.Grist {
		if g.Into.Is("fermenter") && (within(g.When) || !g.When.Written()) {
			return true
		}
	}
	for _, a := range s.Gyle.Added {
		if within(a.When) || !a.When.Written() {
			return true
		}
	}
	if within(s.Gyle.Priming.On) || s.Gyle.Priming.Written() && within(s.Gyle.Racked.On) {
		return true
	}
	for _, d := range s.Gyle.Done {
		if d.Did.Is("topped up") && within(d.When) {
			return true
		}
	}
	return false
}

// ExpectedByYeast is the final gravity that the yeast's card, or this brewer's
// past with it, leads one to expect, whether or not the gravity stands still; 0
// where nobody knows. The second value is its ±, in SG.
func (s *Sheet) ExpectedByYeast() (expected q.Gravity, plusMinus float64) {
	e := s.expectedByYeast()
	if !e.known {
		return 0, 0
	}
	return e.Value, float64(e.PlusMinus())
}

// TopAttenuation is the most that the yeast's card allows, in %, and its line; 0
// where no card says.
func (s *Sheet) TopAttenuation() (top float64, where journal.Where) {
	for _, p := range s.Gyle.Yeast {
		if card := s.card("yeast", p.Yeast); card != nil && card.Yeast != nil && card.Yeast.Attenuates.Written() {
			if high := float64(card.Yeast.Attenuates.High); high > top {
				top, where = high, card.Yeast.Attenuates.Where
			}
		}
	}
	return top, where
}

// Spent tells whether a container has run out.
func (s *Sheet) Spent(c Container) bool { return s.Stage == Empty || s.past(s.Emptied(c)) }

// OpenedYet tells whether a container has been broached.
func (s *Sheet) OpenedYet(c Container) bool { return s.past(s.Broached(c)) }

// VentedYet tells whether a container was ever vented.
func (s *Sheet) VentedYet(c Container) bool {
	for _, d := range s.Gyle.Done {
		if (d.Did.Is("vented") || d.Did.Is("burped")) && aboutPackage(d, c) && s.past(d.When) {
			return true
		}
	}
	return false
}

// WarmestPlace is the warmest heat that the entry names for a container, and its
// line; not written where it names none.
func (s *Sheet) WarmestPlace(c Container) (q.Temperature, journal.Where) {
	hottest := s.hottestNamed(c)
	return hottest.Value, hottest.Where
}

// CapacityOf is what a container holds to the brim, in litres; 0 where nobody
// knows.
func (s *Sheet) CapacityOf(c Container) float64 {
	if e := s.capacity(c); e.known {
		return e.Value.Litres()
	}
	return 0
}

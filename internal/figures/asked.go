package figures

import (
	"time"

	"gylebook/internal/brewing"
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
	for i := range s.Gyle.Grist {
		g := &s.Gyle.Grist[i]
		if g.Into.Is(journal.IntoFermenter) && (within(g.When) || !g.When.Written()) {
			return true
		}
	}
	for i := range s.Gyle.Added {
		a := &s.Gyle.Added[i]
		if within(a.When) || !a.When.Written() {
			return true
		}
	}
	if within(s.Gyle.Priming.On) || s.Gyle.Priming.Written() && within(s.Gyle.Racked.On) {
		return true
	}
	for i := range s.Gyle.Done {
		d := &s.Gyle.Done[i]
		if d.Did.Is(journal.ToppedUp) && within(d.When) {
			return true
		}
	}
	return false
}

// ExpectedByYeast is the final gravity that the yeast's card, or this brewer's
// past with it, leads one to expect, whether or not the gravity stands still; 0
// where nobody knows. What no yeast can use, such as lactose, stays in it. The
// second value is its ±, in SG.
func (i *Inquiry) ExpectedByYeast() (expected q.Gravity, plusMinus float64) {
	e := i.expectedByYeast()
	if !e.known || !i.yeastKnown() {
		return 0, 0
	}
	return e.Value, float64(e.PlusMinus())
}

// TopAttenuation is the most that the yeast's card allows, in %, and its line; 0
// where no card says.
func (s *Sheet) TopAttenuation() (top float64, where journal.Where) {
	for i := range s.Gyle.Yeast {
		p := &s.Gyle.Yeast[i]
		if card := s.card(journal.CardYeast, p.Yeast); card != nil && card.Yeast != nil && card.Yeast.Attenuates.Written() {
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
	for i := range s.Gyle.Done {
		d := &s.Gyle.Done[i]
		if d.Did.Is(journal.Vented, journal.Burped) && aboutPackage(d, c) && s.past(d.When) {
			return true
		}
	}
	return false
}

// CapacityOf is what a container holds to the brim, in litres; 0 where nobody
// knows.
func (i *Inquiry) CapacityOf(c Container) float64 {
	if e := i.capacity(c); e.known {
		return e.Value.Litres()
	}
	return 0
}

// RoomWhenFilled is the room above the beer in a container as it was filled, in
// litres, before anything was drawn.
func (i *Inquiry) RoomWhenFilled(c Container) (f Figure, ok bool) {
	return aside("L", from2(i.bench, brewing.Headspace, i.capacity(c), i.fill(c)))
}

// AsRead is a reading as a figure of its own: its value, with U = 2u by what was
// typed after ±, else by the stated default for readings of its kind. ok is
// false where it was not written, or cannot be.
func AsRead[Q q.Quantity](v journal.Value[Q]) (f Figure, ok bool) {
	return asRead(v, doubtOfKind(v.Value.Kind().Name))
}

// RestHeat is the heat of one of the mash's rests, with the doubt of a mash that
// is not equally warm throughout.
func (i *Inquiry) RestHeat(rest int) (f Figure, ok bool) {
	return asRead(i.Gyle.Mash.Rests[rest].At, ofMashHeat)
}

func asRead[Q q.Quantity](v journal.Value[Q], d doubt) (Figure, bool) {
	if !v.Written() || v.None || !limitsOf(v.Value.Kind()).hold(float64(v.Value)) {
		return Figure{}, false
	}
	half := d.halfWidth(float64(v.Value))
	if v.Typed {
		half = float64(v.Within)
	}
	unit := v.Value.Kind().Canonical().Symbol
	return Figure{Kind: &Kind{ID: ID(v.Key), Unit: unit, Decimals: 1}, Value: float64(v.Value), PlusMinus: 2 * standard(half)}.At(v.Where), true
}

// doubtOfKind is the stated default for the readings that findings look at one
// by one.
func doubtOfKind(kind string) doubt {
	switch kind {
	case "temperature":
		return ofHeat
	case "pH":
		return ofPH
	case "gravity":
		return doubt{fixed: ofBias.fixed + ofHydrometer.fixed}
	case "volume":
		return ofVolume
	}
	return doubt{}
}

// Card is the card of a name, nil where there is none.
func (s *Sheet) Card(kind journal.CardKind, name journal.Name) *journal.Card {
	return s.card(kind, name)
}

// GrainCard is the card that a line of the grist names, nil where there is none.
func (s *Sheet) GrainCard(g journal.Grain) *journal.Card { return s.cardOfGrain(&g) }

// Come tells whether a moment that was written has come.
func (s *Sheet) Come(m journal.Moment) bool { return s.past(m) }

// LiquorForAim is the liquor, in litres, that brings the wort to the gravity
// aimed at: above nought to be added, below it to be boiled away. It is what the
// figures liquor-back and boil-on have in two.
func (i *Inquiry) LiquorForAim() (f Figure, ok bool) {
	aim := i.Gyle.Aim.OG
	if !aim.Written() || aim.Value.Points() < 1 {
		return Figure{}, false
	}
	volume, gravity := i.wortNow()
	return aside("L", from3(i.bench, brewing.LiquorBack, volume, gravity, exactly(aim.Value)))
}

// ExtractForAim is the dried malt extract, in grams, that brings the wort up to
// the gravity aimed at: 367.5 Ldeg/kg, the middle of what the trade sells (from
// memory).
func (i *Inquiry) ExtractForAim() (f Figure, ok bool) {
	aim := i.Gyle.Aim.OG
	return aside("g", from2(i.bench, func(v q.Volume, og q.Gravity) (q.Mass, error) {
		return q.Mass(1000 * (aim.Value.Points() - og.Points()) * v.Litres() / 367.5), nil
	}, i.fermenterVolume(), i.og()))
}

// GasGiven is the carbon dioxide, in grams, that the whole gyle gives off from
// its original gravity to the final one to expect.
func (i *Inquiry) GasGiven() (f Figure, ok bool) {
	expected := first(i.expectedFG(), read(i.bench, i.Gyle.Aim.FG, "aim.fg", asWished))
	gas := from2(i.bench, brewing.CO2ToCome, i.ogOrExpected(), expected)
	return aside("g", from2(i.bench, func(c q.Carbonation, v q.Volume) (q.Mass, error) {
		return q.Mass(c.GramsPerLitre() * v.Litres()), nil
	}, gas, first(i.fermenterVolume(), read(i.bench, i.Gyle.Aim.Volume, "aim.volume", asWished))))
}

// aside is an estimate as a figure that stands on no sheet.
func aside[Q ~float64](unit string, e Estimate[Q]) (Figure, bool) {
	return Figure{Kind: &Kind{Unit: unit}, Value: float64(e.Value), PlusMinus: float64(e.PlusMinus())}, e.known
}

// AboveOG tells whether a reading of beer cannot be, since it stands above the
// original gravity by more than that one's standard uncertainty and nothing that
// raises a gravity went in. It counts as missing.
func (i *Inquiry) AboveOG(r GravityReading) bool { return i.aboveOG(r) }

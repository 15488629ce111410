package planning

import (
	"math"

	"gylebook/internal/assay"
	"gylebook/internal/figures"
)

// Round is what a party is likely to drink beside what there is to pour.
type Round struct {
	Guests, Hours float64
	// Low and High are pints for each drinking guest: one in the first hour, a half to
	// three quarters in each after it, no more than the cap.
	Low, High float64
	Capped    bool
	Most      float64 // the cap, in UK pints
	// Have is UK pints to pour: what is left, else what the gyle should come to; Known
	// is false where no volume says.
	Have  figures.Figure
	Known bool
	// UnitsEach is UK units of alcohol in a pint, 0 where neither the beer nor its aim
	// says.
	UnitsEach float64
	Source    string
}

// PartyRound is the round that an entry's party asks for; ok is false where it names
// no guests, or the party is over.
func PartyRound(s *figures.Sheet) (r Round, ok bool) {
	c := assay.Of(s)
	party := c.Gyle.Party
	if !c.PartyAhead() || !party.Guests.Written() || party.Guests.Value <= 0 {
		return Round{}, false
	}
	r = Round{Guests: float64(party.Guests.Value), Hours: assay.UsualParty.Number, Source: assay.PartyPages}
	if party.Hours.Written() {
		r.Hours = float64(party.Hours.Value)
	}
	later := math.Max(r.Hours-1, 0)
	most := c.Habits.In(assay.MostPints)
	high := assay.FirstHour.Number + laterHigh.Number*later
	r.Low, r.High = math.Min(assay.FirstHour.Number+laterLow.Number*later, most), math.Min(high, most)
	r.Capped, r.Most = high > most, most
	r.Have, r.Known = c.PintsToPour()
	if units, ok := c.UnitsInAPint(); ok {
		r.UnitsEach = units
	}
	return r, true
}

package figures

import (
	"gylebook/internal/brewing"
	"gylebook/internal/journal"
	q "gylebook/internal/quantity"
)

// Extract that joins the beer while it works is in no reading of the original
// gravity, and makes alcohol all the same.

// fermentedOG is the original gravity with the sugars reckoned in that went into
// the fermenter after it was read: all that there was to ferment.
func (s *Sheet) fermentedOG() Estimate[q.Gravity] {
	return s.memoFermentedOG.once(func() Estimate[q.Gravity] {
		if !s.anyJoined() {
			return s.og()
		}
		return from3(s, func(og q.Gravity, degrees q.Number, v q.Volume) (q.Gravity, error) {
			return brewing.GravityOf(q.Number(og.Points()*v.Litres())+degrees, v)
		}, s.og(), s.potential(s.joined), s.fermenterVolume())
	})
}

// joined tells whether a line of the grist went into the fermenter after the
// original gravity was read: later than the yeast, and by now.
func (s *Sheet) joined(g journal.Grain) bool {
	return intoOf(g) == "fermenter" && g.When.Written() && s.past(g.When) && g.When.Middle().After(s.pitchedAt())
}

func (s *Sheet) anyJoined() bool {
	for _, g := range s.Gyle.Grist {
		if s.joined(g) {
			return true
		}
	}
	return false
}

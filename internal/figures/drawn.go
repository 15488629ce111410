package figures

import (
	"fmt"

	"gylebook/internal/brewing"
	"gylebook/internal/journal"
	q "gylebook/internal/quantity"
)

// begunAsBeer tells whether the gyle was drawn from others instead of mashed.
func (s *Sheet) begunAsBeer() bool {
	return len(s.Gyle.DrawnFrom) > 0 && len(s.Gyle.Grist) == 0 && !s.Gyle.Fermenter.Gravity.Written()
}

// drawnGravity is a gravity of the beers this one was drawn from, blended by
// volume so that their extract is conserved.
func (s *Sheet) drawnGravity(name string, of func(*Sheet) Estimate[q.Gravity]) Estimate[q.Gravity] {
	var gravity Estimate[q.Gravity]
	var volume Estimate[q.Volume]
	for i, d := range s.Gyle.DrawnFrom {
		g, v := s.fromGyle(d, name, of), read(s, d.Volume, key("drawn_from", i, "volume"), ofVolume)
		if i == 0 {
			gravity, volume = g, v
			continue
		}
		gravity = from4(s, brewing.BlendedGravity, volume, gravity, v, g)
		volume = sum(s, volume, v)
	}
	return gravity
}

// fromGyle is another gyle's figure as an input here: its own doubts stand
// together as one.
func (s *Sheet) fromGyle(d journal.Drawn, name string, of func(*Sheet) Estimate[q.Gravity]) Estimate[q.Gravity] {
	what := fmt.Sprintf("gyle %d", d.Gyle.N)
	if s.Other == nil {
		return withheld[q.Gravity](what + " is not at hand")
	}
	other := s.Other(d.Gyle.N)
	if other == nil || other == s {
		return withheld[q.Gravity](what + " is not in the journal")
	}
	e := of(other)
	if !e.known {
		return withheld[q.Gravity](what + " has no " + name + " yet")
	}
	return input(s, e.Value, Input{What: fmt.Sprintf("the %s of %s", name, what), Where: d.Gyle.Where, Uncertainty: e.Uncertainty(), Unit: "SG", Reason: "as worked out for " + what})
}

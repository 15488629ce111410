package figures

import (
	"fmt"

	"gylebook/internal/journal"
	q "gylebook/internal/quantity"
)

var (
	kindLosses = &Kind{
		ID: "losses", Label: "Lost", Unit: "L", Decimals: 1,
		Says:    "Volume lost at each step: in the copper's trub and hoses, in racking, between the racked volume and the containers, and what was dumped.",
		Formula: "{l} = {A} − {B}",
		Symbols: []string{"l: lost, L", "A: before the step, L at 20 °C", "B: after it, L"},
		Valid:   "any step with both volumes", Source: "definition", Checked: "the volumes of a gyle close",
	}
	kindPints = &Kind{
		ID: "pints", Label: "Pints racked", Unit: "UK pints", Decimals: 0,
		Says:    "Beer in all containers, in UK pints of 568.26 mL.",
		Formula: "{n} = {V} ÷ 0.56826",
		Symbols: []string{"n: UK pints", "V: beer in all containers, L"},
		Valid:   "any volume", Source: "Units of Measurement Regulations 1995", Checked: "exact",
	}
	kindPintsLeft = &Kind{
		ID: "pints-left", Label: "Pints left", Unit: "UK pints", Decimals: 0,
		Says:    "What can still be drawn: the pints racked, less sediment, what was poured and what was dumped.",
		Formula: "{n} = max(0, ({V} − {s} − {p}) ÷ 0.56826)",
		Symbols: []string{"n: UK pints", "V: beer in containers not yet empty, L", "s: sediment, L", "p: poured and dumped, L"},
		Valid:   "any volume", Source: "Units of Measurement Regulations 1995; sediment is common practice, no source", Checked: "volume balance",
	}
	volumeKinds = []*Kind{kindLosses, kindPints, kindPintsLeft}
)

// volumesOf is where the beer went.
func volumesOf(s *Sheet) {
	if s.Stage >= Working {
		s.losses()
	}
	if s.Stage >= Maturing {
		racked := s.allContents()
		pints := from1(s, asPints, racked)
		add(s, kindPints, "", pints, sym("n", pints, ""), sym("V", racked, "L"))
		s.left()
	}
}

func (s *Sheet) losses() {
	g := s.Gyle
	if !s.begunAsBeer() {
		s.loss("copper to fermenter", s.afterBoil(), s.fermenterVolume())
		if s.Stage >= Maturing {
			s.loss("fermenter to container", s.fermenterVolume(), s.rackedVolume())
		}
	}
	if len(g.Packages) > 0 && g.Racked.Volume.Written() && s.filledByHand() {
		s.loss("filling", s.rackedVolume(), s.allContents())
	}
	if dumped, any := s.dumped(); any {
		add(s, kindLosses, "dumped", dumped, sym("l", dumped, "L"), sym("A", dumped, "L"), sym("B", exactly(q.Volume(0)), "L"))
	}
}

// filledByHand tells whether the containers' own fills are known, so that what
// is lacking of the racked volume is a loss and not an assumption.
func (s *Sheet) filledByHand() bool {
	for _, c := range s.Containers() {
		if !s.noted(c).known && !c.Package.Fill.Written() {
			return false
		}
	}
	return true
}

func (s *Sheet) loss(step string, before, after Estimate[q.Volume]) {
	lost := from2(s, func(a, b q.Volume) (q.Volume, error) { return a - b, nil }, before, after)
	add(s, kindLosses, step, lost, sym("l", lost, "L"), sym("A", before, "L"), sym("B", after, "L"))
}

// afterBoil is the wort after the boil and the liquor added to it.
func (s *Sheet) afterBoil() Estimate[q.Volume] {
	after := s.measuredVolume(s.Gyle.Copper.After, "copper.after.volume")
	if s.Gyle.Fermenter.Topped.Written() {
		after = sum(s, after, read(s, s.Gyle.Fermenter.Topped, "fermenter.topped_up", ofVolume))
	}
	return after
}

// allContents is the beer in all containers, else what was racked.
func (s *Sheet) allContents() Estimate[q.Volume] {
	if len(s.Containers()) == 0 {
		return s.rackedVolume()
	}
	total := exactly(q.Volume(0))
	for _, c := range s.Containers() {
		total = sum(s, total, s.contents(c))
	}
	return total
}

// left is what can still be drawn, of the containers that are not empty.
func (s *Sheet) left() {
	volume, sediment := exactly(q.Volume(0)), exactly(q.Volume(0))
	for _, c := range s.Containers() {
		if s.past(s.Emptied(c)) {
			continue
		}
		volume = sum(s, volume, s.contents(c))
		sediment = sum(s, sediment, s.sediment(c))
	}
	if len(s.Containers()) == 0 {
		volume = s.rackedVolume()
	}
	if s.Stage == Empty {
		volume, sediment = exactly(q.Volume(0)), exactly(q.Volume(0))
	}
	drawn := s.drawnOff()
	left := from3(s, func(v, sediment, drawn q.Volume) (q.Number, error) {
		return asPints(max(0, v-sediment-drawn))
	}, volume, sediment, drawn)
	add(s, kindPintsLeft, "", left, sym("n", left, ""), sym("V", volume, "L"), sym("s", sediment, "L"), sym("p", drawn, "L"))
}

// sediment is what stays behind in a container with the yeast (common practice,
// no source): a third to two thirds of a litre in a bag, more in a cask, a
// finger's breadth in each bottle.
func (s *Sheet) sediment(c Container) Estimate[q.Volume] {
	each, doubt := q.Volume(0.5), 0.2
	switch {
	case c.Is("bottle"):
		each, doubt = 0.02, 0.01
	case c.Is("cask"):
		each, doubt = 0.75, 0.25
	case c.Is("keg"), c.Is("pressure barrel"):
		each, doubt = 0.5, 0.3
	}
	n := q.Volume(c.Count())
	return customary(s, each*n, doubt*float64(n), "L", "the sediment in "+c.Name()+" "+c.Key, "what stays behind with the yeast (common practice, no source)")
}

// drawnOff is what was poured, dumped and drawn off into other gyles so far, from
// containers not yet empty.
func (s *Sheet) drawnOff() Estimate[q.Volume] {
	total := exactly(q.Volume(0))
	for i, p := range s.Gyle.Poured {
		if s.past(p.When) && !s.fromEmptied(p.Package) {
			total = sum(s, total, read(s, p.Volume, keyOf(p.Volume.Where, "poured", i, "volume"), ofFill))
		}
	}
	for i, d := range s.Gyle.Done {
		if d.Did.Is("dumped") && d.Volume.Written() && s.past(d.When) && s.afterFilling(d) && !s.fromEmptied(d.Package) {
			total = sum(s, total, read(s, d.Volume, keyOf(d.Volume.Where, "done", i, "volume"), ofFill))
		}
	}
	return sum(s, total, s.takenOff())
}

// takenOff is what other gyles drew from the containers. What they took on the day
// of filling or before came out of the fermenter, and was never in them.
func (s *Sheet) takenOff() Estimate[q.Volume] {
	total := exactly(q.Volume(0))
	sealed, is := s.sealedAt()
	for _, d := range s.Taken {
		if is && d.Volume.Written() && s.past(d.On) && !d.On.Time.Before(sealed) {
			total = sum(s, total, read(s, d.Volume, d.Volume.Key, ofVolume))
		}
	}
	return total
}

func (s *Sheet) fromEmptied(which journal.Whole) bool {
	return which.Written() && which.N >= 0 && which.N < len(s.Containers()) && s.past(s.Emptied(s.Containers()[which.N]))
}

// afterFilling tells whether something was dumped from the containers, and not
// from the fermenter before.
func (s *Sheet) afterFilling(d journal.Deed) bool {
	sealed, is := s.sealedAt()
	return is && !d.When.Middle().Before(sealed.AddDate(0, 0, -1))
}

// dumped is all that was dumped.
func (s *Sheet) dumped() (total Estimate[q.Volume], any bool) {
	total = exactly(q.Volume(0))
	for i, d := range s.Gyle.Done {
		if d.Did.Is("dumped") && d.Volume.Written() && s.past(d.When) {
			total, any = sum(s, total, read(s, d.Volume, keyOf(d.Volume.Where, "done", i, "volume"), ofFill)), true
		}
	}
	return total, any
}

func asPints(v q.Volume) (q.Number, error) {
	if v < 0 {
		return 0, fmt.Errorf("less than nothing is left")
	}
	return q.Number(v.UKPints()), nil
}

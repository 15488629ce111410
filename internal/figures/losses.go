package figures

import (
	"time"

	"gylebook/internal/journal"
	q "gylebook/internal/quantity"
)

// step is one step of a gyle's way from the copper to its containers.
type step struct {
	name          string
	before, after Estimate[q.Volume]
	apart         Estimate[q.Volume] // what left meanwhile for elsewhere
}

// losses are what each step lost, and what was dumped.
func (s *Sheet) losses() {
	steps := s.steps()
	for _, l := range s.leftBeforeFilling() {
		if i := s.stepOf(steps, l); i < len(steps) {
			steps[i].apart = sum(s, steps[i].apart, l.volume)
		}
	}
	for _, step := range steps {
		s.loss(step)
	}
	if dumped, any := s.dumped(); any {
		add(s, kindLosses, "dumped", dumped, sym("l", dumped, "L"), sym("A", dumped, "L"), sym("B", exactly(q.Volume(0)), "L"))
	}
}

// steps are those that the gyle has gone through, in order.
func (s *Sheet) steps() []step {
	g, none := s.Gyle, exactly(q.Volume(0))
	var steps []step
	if !s.begunAsBeer() {
		steps = append(steps, step{"copper to fermenter", s.afterBoil(), s.fermenterVolume(), none})
		if s.Stage >= Maturing {
			steps = append(steps, step{"fermenter to container", s.fermenterVolume(), s.rackedVolume(), none})
		}
	}
	if len(g.Packages) > 0 && g.Racked.Volume.Written() && s.filledByHand() {
		steps = append(steps, step{"filling", s.rackedVolume(), s.allContents(), none})
	}
	return steps
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

func (s *Sheet) loss(of step) {
	before := sym("A", of.before, "L")
	lost := from3(s, func(a, apart, b q.Volume) (q.Volume, error) { return a - apart - b, nil }, of.before, of.apart, of.after)
	note := ""
	if of.apart.Value > 0 {
		apart := q.Fixed(of.apart.Value.Litres(), 1)
		before = inWords("A", "("+q.Fixed(of.before.Value.Litres(), 1)+" − "+apart+")")
		note = "what was drawn off or dumped meanwhile is not lost, and not counted"
	}
	if f := add(s, kindLosses, of.name, lost, sym("l", lost, "L"), before, sym("B", of.after, "L")); f != nil {
		f.Note = note
	}
}

// leaving is wort or beer that went elsewhere before the containers were filled.
type leaving struct {
	at     time.Time
	volume Estimate[q.Volume]
}

// leftBeforeFilling is what other gyles drew and what was dumped, up to the day of
// filling, from no container.
func (s *Sheet) leftBeforeFilling() []leaving {
	var all []leaving
	for _, d := range s.Taken {
		if d.Volume.Written() && s.past(d.On) && !s.afterFilling(d.On) {
			all = append(all, leaving{d.On.Middle(), read(s, d.Volume, d.Volume.Key, ofVolume)})
		}
	}
	for i := range s.Gyle.Done {
		d := &s.Gyle.Done[i]
		if s.wasDumped(d) && !d.Package.Written() && !s.afterFilling(d.When) {
			all = append(all, leaving{d.When.Middle(), s.dumpedIn(i)})
		}
	}
	return all
}

// stepOf is the step that something left in: by its moment, before the yeast or
// after; but where that step has no room for it, and a later one has, in that: beer
// racked and then shared out is read before it is shared.
func (s *Sheet) stepOf(steps []step, l leaving) int {
	usual := 0
	if !s.begunAsBeer() && l.at.After(s.pitchedAt()) {
		usual = 1
	}
	for i := usual; i < len(steps); i++ {
		if s.hasRoom(steps[i], l) {
			return i
		}
	}
	return usual
}

// hasRoom tells whether a step lacks as much as left in it, as far as its readings
// can tell.
func (s *Sheet) hasRoom(of step, l leaving) bool {
	rest := from4(s, func(a, apart, b, left q.Volume) (q.Volume, error) { return a - apart - b - left, nil }, of.before, of.apart, of.after, l.volume)
	return rest.known && rest.Value >= -rest.PlusMinus()
}

// afterFilling tells whether a moment is later than the day on which the gyle was
// racked or filled. Beer that was drawn from another gyle, and of which nobody says
// that it was racked, stands in its container from the first.
func (s *Sheet) afterFilling(m journal.Moment) bool {
	sealed, is := s.sealedAt()
	return is && !m.Time.Before(sealed) || !is && s.begunAsBeer()
}

// dumped is all that was dumped.
func (s *Sheet) dumped() (total Estimate[q.Volume], any bool) {
	total = exactly(q.Volume(0))
	for i := range s.Gyle.Done {
		d := &s.Gyle.Done[i]
		if s.wasDumped(d) {
			total, any = sum(s, total, s.dumpedIn(i)), true
		}
	}
	return total, any
}

// wasDumped tells whether a deed is of beer that has been dumped.
func (s *Sheet) wasDumped(d *journal.Deed) bool {
	return d.Did.Is("dumped") && d.Volume.Written() && s.past(d.When)
}

// dumpedIn is how much was dumped in one deed.
func (s *Sheet) dumpedIn(i int) Estimate[q.Volume] {
	v := s.Gyle.Done[i].Volume
	return read(s, v, keyOf(v.Where, "done", i, "volume"), ofFill)
}

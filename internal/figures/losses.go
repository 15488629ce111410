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
	joined        Estimate[q.Volume] // what was put in meanwhile
	apart         Estimate[q.Volume] // what left meanwhile for elsewhere
}

// losses are what each step lost, and what was dumped.
func (b *bench) losses() {
	steps := b.steps()
	for _, l := range b.leftBeforeFilling() {
		if i := b.stepOf(steps, l); i < len(steps) {
			steps[i].apart = sum(b, steps[i].apart, l.volume)
		}
	}
	for _, step := range steps {
		b.loss(step)
	}
	if dumped, any := b.dumped(); any {
		add(b, kindLosses, "dumped", dumped, sym("l", dumped, "L"), sym("A", dumped, "L"), sym("B", exactly(q.Volume(0)), "L"))
	}
}

// steps are those that the gyle has gone through, in order.
func (b *bench) steps() []step {
	g, none := b.Gyle, exactly(q.Volume(0))
	var steps []step
	if !b.begunAsBeer() {
		steps = append(steps, step{"copper to fermenter", b.afterBoil(), b.fermenterVolume(), none, none})
		if b.Stage >= Maturing {
			steps = append(steps, step{"fermenter to container", b.fermenterVolume(), b.rackedVolume(), b.putIntoFermenter(), none})
		}
	}
	if len(g.Packages) > 0 && g.Racked.Volume.Written() && b.filledByHand() {
		steps = append(steps, step{"filling", b.rackedVolume(), b.allContents(), b.putIntoContainers(), none})
	}
	return steps
}

// putIntoFermenter is what the beer grew by between pitching and racking.
func (b *bench) putIntoFermenter() Estimate[q.Volume] {
	total := exactly(q.Volume(0))
	for _, a := range b.additions() {
		if !a.bottled() {
			total = sum(b, total, a.liquid)
		}
	}
	return total
}

// putIntoContainers is what it grew by after that: priming wort, and what went into
// containers.
func (b *bench) putIntoContainers() Estimate[q.Volume] {
	total := exactly(q.Volume(0))
	for _, a := range b.additions() {
		if a.bottled() {
			total = sum(b, total, a.liquid)
		}
	}
	shared := false
	for _, c := range b.containers {
		_, own := b.priming(c)
		if wort := b.primingOf(c).wort; wort != nil && (own || !shared) {
			total, shared = sum(b, total, wort.liquid), shared || !own
		}
	}
	return total
}

// filledByHand tells whether the containers' own fills are known, so that what
// is lacking of the racked volume is a loss and not an assumption.
func (b *bench) filledByHand() bool {
	for _, c := range b.Containers() {
		if !b.noted(c).known && !c.Package.Fill.Written() {
			return false
		}
	}
	return true
}

func (b *bench) loss(of step) {
	before := sym("A", of.before, "L")
	lost := from4(b, lostOf, of.before, of.joined, of.apart, of.after)
	words, note := q.Fixed(of.before.Value.Litres(), 1), ""
	if of.joined.Value > 0 {
		words += " + " + q.Fixed(of.joined.Value.Litres(), 1)
	}
	if of.apart.Value > 0 {
		words += " − " + q.Fixed(of.apart.Value.Litres(), 1)
		note = "what was drawn off or dumped meanwhile is not lost, and not counted"
	}
	if of.joined.Value > 0 || of.apart.Value > 0 {
		before = inWords("A", "("+words+")")
	}
	if f := add(b, kindLosses, of.name, lost, sym("l", lost, "L"), before, sym("B", of.after, "L")); f != nil {
		f.Note = note
	}
}

func lostOf(before, joined, apart, after q.Volume) (q.Volume, error) {
	return before + joined - apart - after, nil
}

// leaving is wort or beer that went elsewhere before the containers were filled.
type leaving struct {
	at     time.Time
	volume Estimate[q.Volume]
}

// leftBeforeFilling is what other gyles drew and what was dumped, up to the day of
// filling, from no container.
func (b *bench) leftBeforeFilling() []leaving {
	var all []leaving
	for _, d := range b.Taken {
		if d.Volume.Written() && b.past(d.On) && !b.afterFilling(d.On) {
			all = append(all, leaving{d.On.Middle(), read(b, d.Volume, d.Volume.Key, ofVolume)})
		}
	}
	for i := range b.Gyle.Done {
		d := &b.Gyle.Done[i]
		if b.wasDumped(d) && !d.Package.Written() && !b.afterFilling(d.When) {
			all = append(all, leaving{d.When.Middle(), b.dumpedIn(i)})
		}
	}
	return all
}

// stepOf is the step that something left in: by its moment, before the yeast or
// after; but where that step has no room for it, and a later one has, in that: beer
// racked and then shared out is read before it is shared.
func (b *bench) stepOf(steps []step, l leaving) int {
	usual := 0
	if !b.begunAsBeer() && l.at.After(b.pitchedAt()) {
		usual = 1
	}
	for i := usual; i < len(steps); i++ {
		if b.hasRoom(steps[i], l) {
			return i
		}
	}
	return usual
}

// hasRoom tells whether a step lacks as much as left in it, as far as its readings
// can tell.
func (b *bench) hasRoom(of step, l leaving) bool {
	rest := from4(b, lostOf, of.before, of.joined, sum(b, of.apart, l.volume), of.after)
	return rest.known && rest.Value >= -rest.PlusMinus()
}

// afterFilling tells whether a moment is later than the day on which the gyle was
// racked or filled. Beer that was drawn from another gyle, and of which nobody says
// that it was racked, stands in its container from the first.
func (b *bench) afterFilling(m journal.Moment) bool {
	sealed, is := b.sealedAt()
	return is && !m.Time.Before(sealed) || !is && b.begunAsBeer()
}

// dumped is all that was dumped.
func (b *bench) dumped() (total Estimate[q.Volume], any bool) {
	total = exactly(q.Volume(0))
	for i := range b.Gyle.Done {
		d := &b.Gyle.Done[i]
		if b.wasDumped(d) {
			total, any = sum(b, total, b.dumpedIn(i)), true
		}
	}
	return total, any
}

// wasDumped tells whether a deed is of beer that has been dumped.
func (b *bench) wasDumped(d *journal.Deed) bool {
	return d.Did.Is(journal.Dumped) && d.Volume.Written() && b.past(d.When)
}

// dumpedIn is how much was dumped in one deed.
func (b *bench) dumpedIn(i int) Estimate[q.Volume] {
	v := b.Gyle.Done[i].Volume
	return read(b, v, keyOf(v.Where, "done", i, "volume"), ofFill)
}

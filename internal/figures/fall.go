package figures

import (
	"math"
	"time"

	"gylebook/internal/brewing"
	q "gylebook/internal/quantity"
)

// What a beer's gravity has still to fall once it is closed in has two witnesses:
// what its yeast can do, and how it has stood. The fall lies between nought and the
// smaller of the two.

// fall is the gas that a beer's own gravity still gives, per litre of it.
type fall struct {
	value Estimate[q.Carbonation] // what the readings say
	// bound is what it comes to at worst, before the doubt of what it rests on.
	bound Estimate[q.Carbonation]
}

// What level readings prove (common practice, no source: a tail of two days with a
// margin, chosen so that ordinary healthy bottles pass). The fall ahead is at most
// the one seen and half a point more, as fast as that again for three days; what
// works for months is allowed sixty.
const (
	unseenFall   = 0.5 // points
	tail         = 72 * time.Hour
	slowTail     = 60 * 24 * time.Hour
	levelFades   = 20.0 // hours of standing level over which the yeast's promise fades
	stuckFrom    = 2.0  // points above the least that its yeast does, where standing level stops proving anything
	stuckBy      = 3.0
	driest       = q.Percent(95) // apparent, of a beer that has gone below all that is known of its yeast
	dryMargin    = 2.0           // points above the yeast's most from which on its card alone is no limit
	provesAfter  = 7 * 24.0      // hours in a container after which standing level there outweighs "may start again"
	creepMost    = 1.5           // vol (a home-brewing magazine on hop creep: 3.0 vol became 4.5)
	creepDose    = 2.0           // g/L of dry hops from which on all of that is allowed for (common practice, no source)
	creepSettles = 72.0          // hours of standing level after the hops
)

// evidence is how a gravity has stood: what it fell by over a span of hours.
type evidence struct {
	fell  float64 // points
	hours float64
}

// most is the farthest fall ahead that a stand leaves open, in points.
func (e evidence) most(tail time.Duration) float64 {
	if e.hours <= 0 {
		return math.Inf(1)
	}
	return (max(e.fell, 0) + unseenFall) * tail.Hours() / e.hours
}

// falling is how surely it was still falling, from nought to one: then how slowly it fell
// proves nothing.
func (e evidence) falling() float64 { return ramp(e.fell, levelWithin, 2*levelWithin) }

// promise is how much of what the yeast is known for is still to be believed beside
// readings that have stood level so long: all at first and while it falls, nothing after
// some days of standing still, and no jump between.
func (e evidence) promise() float64 {
	x := e.hours / levelFades
	return max(math.Exp(-x*x), e.falling())
}

// stood is how the beer had stood at its last gravity before it was closed in, by the
// readings after everything that could set it going again.
func (b *bench) stood(of int) evidence {
	since := b.setGoing(of)
	if b.asDrawn() {
		return b.stoodBefore(since)
	}
	level := b.standing().Level
	for len(level) > 0 && level[0].When.Before(since) {
		level = level[1:]
	}
	if len(level) >= 2 {
		return best(level)
	}
	return b.lastlyFell(since)
}

// fellOver is what readings fell by from the first to the last.
func fellOver(readings []GravityReading) evidence {
	first, last := readings[0], readings[len(readings)-1]
	return evidence{fell: first.Gravity.Value.Points() - last.Gravity.Value.Points(), hours: last.When.Sub(first.When).Hours()}
}

// best is what level readings prove by those of them that prove most: the last of a fall
// tells less against the days that it stood than the days tell alone.
func best(level []GravityReading) (best evidence) {
	for i := range level[:len(level)-1] {
		e := fellOver(level[i:])
		if e.most(tail) < best.most(tail) {
			best = e
		}
	}
	return best
}

// asDrawn tells whether the beer came from other gyles and was not read since.
func (b *bench) asDrawn() bool { return b.begunAsBeer() && len(b.beforeSealing()) == 0 }

// stoodBefore is how the beers had stood that this one was drawn from: the worst of
// them.
func (b *bench) stoodBefore(since time.Time) (worst evidence) {
	for i := range b.Gyle.DrawnFrom {
		if b.Other == nil {
			return evidence{}
		}
		other := b.Other(b.Gyle.DrawnFrom[i].Gyle.N)
		if other == nil || other.Gyle == b.Gyle || !since.IsZero() {
			return evidence{}
		}
		st := other.stability
		if len(st.Level) < 2 {
			return evidence{}
		}
		e := fellOver(st.Level)
		if i == 0 || e.most(tail) > worst.most(tail) {
			worst = e
		}
	}
	return worst
}

// lastlyFell is by how much it fell between its last two readings.
func (b *bench) lastlyFell(since time.Time) evidence {
	all := byTime(b.beforeSealing(), b.sightings())
	if n := len(all); n >= 2 && !all[n-2].When.Before(since) {
		return fellOver(all[n-2:])
	}
	return evidence{}
}

// setGoing is when last something went into the beer that could set it working
// again: extract, another culture. Gravities before that prove nothing.
func (b *bench) setGoing(of int) time.Time {
	var last time.Time
	for _, a := range b.additions() {
		at, _ := b.entered(a)
		if !a.water && !a.creeps && !a.bottled() && at.After(last) && !b.afterLastGravity(at) {
			last = at
		}
	}
	for _, c := range b.cultures() {
		if at := c.pitched.Middle(); c.second(b) && (c.into == allOf || c.into == of) && at.After(last) {
			last = at
		}
	}
	return last
}

// afterLastGravity tells whether a moment is later than the last gravity that counts
// before the beer was closed in.
func (b *bench) afterLastGravity(at time.Time) bool {
	last, any := b.lastGravityAt()
	return !any || at.After(last)
}

func (b *bench) lastGravityAt() (time.Time, bool) {
	all := byTime(b.beforeSealing(), b.sightings())
	if len(all) == 0 {
		return time.Time{}, false
	}
	return all[len(all)-1].When, true
}

// fallOf is the fall still ahead of a container's beer when it was closed in, allOf
// for the beer as a whole.
func (b *bench) fallOf(of int) fall {
	if of == allOf {
		return b.memoFall.once(func() fall { return b.fallBy(of) })
	}
	return b.ofContainer[of].fall.once(func() fall { return b.fallBy(of) })
}

func (b *bench) fallBy(of int) fall {
	g, end := b.gravityAtSealing(), b.expectedFG()
	if !g.known {
		lacking := from2(b, brewing.CO2ToCome, g, end)
		return fall{lacking, lacking}
	}
	if !end.known {
		end = b.anywhereBelow(g)
	}
	stood := b.stood(of)
	value := from2(b, brewing.CO2ToCome, g, end)
	value = b.unseen(value, stood, of)
	f := fall{value: value, bound: b.boundOf(g, stood, of)}
	if of != allOf {
		f = b.readInside(f, g, of)
	}
	f.bound = sum(b, f.bound, exactly(b.creep(of)))
	if most := f.bound.Value + f.bound.PlusMinus(); f.value.known && f.bound.known && f.value.Value > most {
		f.value.Value = most // as unsure as it was
	}
	return f
}

// anywhereBelow is where a beer ends of which nobody knows how strong it was: anywhere
// between its gravity and all of its extract gone.
func (b *bench) anywhereBelow(g Estimate[q.Gravity]) Estimate[q.Gravity] {
	part := customary(b, q.Number(0.5), 0.5, "", "how much of what is left ferments", "the original gravity is not known: anything from nothing to all of it")
	return from2(b, func(g q.Gravity, part q.Number) (q.Gravity, error) {
		return g - q.Gravity(part)*max(g-allGone, 0), nil
	}, g, part)
}

// unseen adds the doubt of a fall too small or too slow for the readings to show.
func (b *bench) unseen(value Estimate[q.Carbonation], stood evidence, of int) Estimate[q.Carbonation] {
	reach := min(stood.most(b.tailOf(of)), 6) * (1 - stood.promise())
	unseen := customary(b, q.Carbonation(0), reach/2*brewing.CO2PerPoint, "vol", "a fall that level readings do not show",
		"half a point and what was seen, for three days more (common practice, no source)")
	return from2(b, func(shown, unseen q.Carbonation) (q.Carbonation, error) { return max(shown+unseen, 0), nil }, value, unseen)
}

func (b *bench) tailOf(of int) time.Duration {
	if _, _, goesOn := b.attenuationLimits(of); goesOn {
		return slowTail
	}
	return tail
}

// boundOf is the most that a gravity may still give: what the yeast can do, and no more
// than the way it has stood leaves open.
func (b *bench) boundOf(g Estimate[q.Gravity], stood evidence, of int) Estimate[q.Carbonation] {
	least, most, goesOn := b.attenuationLimits(of)
	lowest, strengthKnown := b.lowestEnd(most), true
	if !lowest.known {
		lowest, strengthKnown = exactly(allGone), false
	}
	byYeast := from2(b, brewing.CO2ToCome, g, lowest)
	if !byYeast.known {
		return byYeast
	}
	byStanding := stood.most(b.tailOf(of))
	// Gone below all that its card says, or nearly: then the card is no limit. What joined
	// the beer may explain it, and does not make it safer.
	above := g.Value.Points() - b.endsAt(b.musts().pitched, exactly(b.firstLimit(of))).Value.Points()
	if beyond := ramp(dryMargin-above, 0, dryMargin); beyond > 0 && strengthKnown {
		dry := b.lowestEnd(max(driest, most))
		farther := beyond*min(byStanding, g.Value.Points()-dry.Value.Points())*brewing.CO2PerPoint - float64(byYeast.Value)
		byYeast = sum(b, byYeast, exactly(q.Carbonation(max(farther, 0))))
	}
	reference := lowest
	switch {
	case !strengthKnown:
		reference = g
	case !goesOn:
		reference = b.lowestEnd(least)
	}
	if b.maltless() { // how dry it ends is a matter of its fruit, not of its yeast
		reference.Value += reference.PlusMinus()
	}
	stuck := ramp(g.Value.Points()-reference.Value.Points(), stuckFrom, stuckBy)
	limited := atMost(b, byYeast, q.Carbonation(byStanding*brewing.CO2PerPoint))
	believed := 1 - max(stuck, stood.falling())
	return sum(b, times[q.Carbonation](b, byYeast, 1-believed), times[q.Carbonation](b, limited, believed))
}

// firstLimit is the most that the least keen of the beer's cultures takes.
func (b *bench) firstLimit(of int) q.Percent {
	least := q.Percent(0)
	for _, c := range b.cultures() {
		if (c.into == allOf || of == allOf || c.into == of) && (least == 0 || c.most < least) {
			least = c.most
		}
	}
	if least == 0 {
		return anyYeastMost
	}
	return least
}

// allGone is where beer ends of which nobody knows how strong it was, at worst: all of
// its extract gone. How it stood limits that, but not whether it is stuck.
const allGone = q.Gravity(1)

// lowestEnd is the lowest gravity at which so much attenuation may leave the beer: of the
// must as it is known to be, or without what may have made it lighter or harder to ferment
// since it was pitched. Water and weak juice leave less alcohol, and strong wort brings what
// no yeast takes; neither makes it any safer.
func (b *bench) lowestEnd(attenuation q.Percent) Estimate[q.Gravity] {
	m, lowest := b.musts(), Estimate[q.Gravity]{}
	for _, must := range m.all() {
		end := b.endsAt(must, exactly(attenuation))
		if end.known && (!lowest.known || end.Value-end.PlusMinus() < lowest.Value-lowest.PlusMinus()) {
			lowest = end
		}
	}
	return lowest
}

// atMost is an estimate that with all of its doubt is no more than a limit.
func atMost[Q ~float64](b *bench, e Estimate[Q], limit Q) Estimate[Q] {
	switch {
	case e.Value >= limit:
		return exactly(limit)
	case e.Value+e.PlusMinus() > limit:
		scale := float64(limit-e.Value) / float64(e.PlusMinus())
		return Estimate[Q]{Value: e.Value, u: e.u * scale, shares: b.scaled(e.shares, scale), known: true}
	}
	return e
}

// ramp goes from 0 at one value to 1 at another, straight.
func ramp(x, from, to float64) float64 { return min(max((x-from)/(to-from), 0), 1) }

// creep is the most that hops in the beer may still free, in vol: all of it where they
// went in after the last gravity, less the longer it stood level with them in it.
func (b *bench) creep(of int) q.Carbonation {
	most := 0.0
	for _, a := range b.additions() {
		if !a.creeps || a.into != allOf && a.into != of {
			continue
		}
		at, _ := b.entered(a)
		level := 0.0
		if !a.bottled() {
			level = b.levelAfter(at).Hours()
		}
		dose := 1.0
		if v := b.beerJoined(); a.weight.known && v.known && v.Value > 0 {
			dose = min(a.weight.Value.Grams()/v.Value.Litres()/creepDose, 1)
		}
		most = max(most, creepMost*dose*(1-min(level/creepSettles, 1)))
	}
	return q.Carbonation(most)
}

// levelAfter is how long the last level readings span, those before a moment left
// out.
func (b *bench) levelAfter(at time.Time) time.Duration {
	level := b.standing().Level
	for len(level) > 0 && level[0].When.Before(at) {
		level = level[1:]
	}
	if len(level) < 2 {
		return 0
	}
	return level[len(level)-1].When.Sub(level[0].When)
}

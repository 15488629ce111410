package figures

import (
	"gylebook/internal/journal"
	q "gylebook/internal/quantity"
)

// What gas a container will hold must not go unsaid because its fill was not
// noted. Where the fill is needed for that and nothing better is known, it is
// reckoned from what was racked, with the doubt that this has. Pints and losses
// are not reckoned from it.

// shareOfRacked is the beer in each container of a line without a fill of its
// own: what was racked, less what is known to be in the others, in equal shares.
// Containers alike are close to that; others may differ by half.
func (b *bench) shareOfRacked(c Container) Estimate[q.Volume] {
	left, count, alike := b.rackedVolume(), 0, true
	for _, other := range b.Containers() {
		if fill := b.noted(other); fill.known {
			n := q.Volume(other.Count())
			left = from2(b, func(a, b q.Volume) (q.Volume, error) { return less(a, b*n) }, left, fill)
			continue
		}
		count += other.Count()
		alike = alike && other.Package.Vessel.Name == c.Package.Vessel.Name
	}
	if count == 0 {
		return missing[q.Volume](c.Key + ".fill")
	}
	off, reason := 0.05, "not written: an equal share of what was racked, ± 5 %"
	if !alike {
		off, reason = 0.5, "not written: an equal share of what was racked, ± 50 % where sizes may differ (common practice, no source)"
	}
	even := customary(b, q.Number(1), off, "", "the fill of "+c.Name(), reason)
	return from2(b, func(v q.Volume, even q.Number) (q.Volume, error) { return v / q.Volume(count) * q.Volume(even), nil }, left, even)
}

// noted is the fill that the entry gives, or the nominal contents of a bottle.
func (b *bench) noted(c Container) Estimate[q.Volume] {
	if !c.Package.Fill.Written() && !(c.Is(journal.Bottle) && c.Vessel.Capacity.Written()) {
		return missing[q.Volume](c.Key + ".fill")
	}
	return b.fill(c)
}

// fillToReckon is the fill where one is known, else a share of what was racked.
func (b *bench) fillToReckon(c Container) Estimate[q.Volume] {
	if fill := b.fill(c); fill.known {
		return fill
	}
	return first(b.shareOfRacked(c), b.fill(c))
}

// contentsToReckon is the same for all the containers of a line.
func (b *bench) contentsToReckon(c Container) Estimate[q.Volume] {
	return times[q.Volume](b, b.fillToReckon(c), float64(c.Count()))
}

// sharing is the beer in the containers that take the gyle-wide priming, where
// nobody noted how much was racked: those without a cylinder, or where all have one, all.
func (b *bench) sharing() Estimate[q.Volume] {
	for _, gassed := range []bool{false, true} {
		total, any := exactly(q.Volume(0)), false
		for _, c := range b.Containers() {
			contents := b.contents(c)
			if _, own := b.priming(c); !own && (gassed && contents.known || !c.Forced()) {
				total, any = sum(b, total, contents), true
			}
		}
		if any {
			return total
		}
	}
	return missing[q.Volume]("racked.volume")
}

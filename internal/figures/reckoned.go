package figures

import (
	"gylebook/internal/brewing"
	"gylebook/internal/journal"
	q "gylebook/internal/quantity"
)

// reckoned is a container's account gone through: each number as the entry has it,
// with its doubt, and its upper bound, which 97.5 in 100 lie under with all that the
// entry leaves open at its worst.
type reckoned struct {
	likely, worst walk
	// numbers are what the walks are given; values and bounds what they come to, bounds
	// before twice their u is added.
	numbers, numbersAtWorst []argument
	values, bounds          []argument
	lack                    *Lack
}

// reckon goes through a container's account.
func (b *bench) reckon(c Container) *reckoned {
	return b.ofContainer[c.Index].reckoned.once(func() *reckoned { return b.reckonWith(c, b.fillToReckon(c), b.postings(c)) })
}

func (b *bench) reckonWith(c Container, fill Estimate[q.Volume], posts []posting) *reckoned {
	r := &reckoned{}
	r.likely = walk{soft: !c.Rigid(), purged: c.Package.Purged.Yes(), posts: posts, feeds: b.stillFed(c), until: -1}
	r.worst = r.likely
	r.worst.worst = true
	warmest := b.warmest(c)
	fixed := [fixedSlots]posted{
		beerSlot: post(fill), roomSlot: post(b.roomToReckon(c, fill)), outsideSlot: post(b.outside()),
		cellarSlot: post(b.cellarHeat(c)), warmestSlot: {arg(warmest.likely), arg(warmest.worst)},
		takenInSlot: post(b.daysOf(c, "what was put in", conditioningDays)), fallsInSlot: post(b.fallsIn(c)),
	}
	fixed[takenInSlot].worst, fixed[fallsInSlot].worst = arg(exactly(q.Number(slowestDays))), arg(b.fallsSlowest(c))
	add := func(p posted) {
		r.numbers, r.numbersAtWorst = append(r.numbers, orNought(p.likely)), append(r.numbersAtWorst, orNought(p.worst))
	}
	for _, p := range fixed {
		add(p)
	}
	for i := range posts {
		add(posts[i].a)
		add(posts[i].b)
		add(posts[i].c)
		add(posts[i].d)
	}
	r.values, r.lack = b.evaluateMany(r.likely.along, r.numbers, int(outcomes))
	if r.lack == nil {
		r.bounds, r.lack = b.evaluateMany(r.worst.along, r.numbersAtWorst, int(outcomes))
	}
	return r
}

// orNought is exactly nought for a number that a posting does not have.
func orNought(a argument) argument {
	if !a.known && a.lack == nil {
		return argument{known: true}
	}
	return a
}

// daysOf is how fast gas comes in a container.
func (b *bench) daysOf(c Container, of string, days float64) Estimate[q.Number] {
	return customary(b, q.Number(days), days/2, "days", "how fast "+of+" is taken in "+c.Key,
		"three quarters in the first week, or half as fast (common practice, no source)")
}

func (b *bench) fallsIn(c Container) Estimate[q.Number] {
	if _, _, goesOn := b.attenuationLimits(c.Index); goesOn {
		return b.daysOf(c, "the rest", slowTail.Hours()/24/2)
	}
	return b.daysOf(c, "the rest", conditioningDays)
}

func (b *bench) fallsSlowest(c Container) Estimate[q.Number] {
	if _, _, goesOn := b.attenuationLimits(c.Index); goesOn {
		return exactly(q.Number(slowTail.Hours() / 24))
	}
	return exactly(q.Number(slowestDays))
}

// stillFed tells whether a cylinder is on a container and no end of it has come.
func (b *bench) stillFed(c Container) bool {
	g := &c.Package.Gas
	return g.Set.Written() && !(g.To.Written() && b.past(g.To))
}

// roomToReckon is the room above the beer in a container, or, of one whose capacity
// nobody knows, a usual one. More beer than it holds to the brim leaves none.
func (b *bench) roomToReckon(c Container, fill Estimate[q.Volume]) Estimate[q.Volume] {
	room := from2(b, func(k, v q.Volume) (q.Volume, error) { return max(k-v, 0), nil }, b.capacity(c), fill)
	return first(room, b.usualHeadspace(c))
}

// value is one outcome with its doubt.
func value[Q ~float64](r *reckoned, o outcome) Estimate[Q] {
	if r.lack != nil {
		return Estimate[Q]{lack: r.lack}
	}
	return result[Q](r.values[o])
}

// upper is the bound that 97.5 in 100 of an outcome lie under.
func (r *reckoned) upper(o outcome) float64 {
	if r.lack != nil {
		return 0
	}
	v, w := &r.values[o], &r.bounds[o]
	return max(v.value+2*v.u, w.value+2*w.u)
}

// drawings are what was drawn from a container, and that it was opened for it. Of
// several alike each is drawn whole, and those that are left are as they were. One that
// has run out is told of as it was when it was full.
func (b *bench) drawings(c Container) []posting {
	if c.Count() > 1 || b.Spent(c) {
		return nil
	}
	in := b.comesIn(c)
	var all []posting
	if broached := b.Broached(c); b.past(broached) && in != brewing.Nothing && in != brewing.Cylinder {
		p := posting{what: broaching, at: broached.Middle(), where: broached.Where, says: "broached", a: post(b.heatOn(c, broached.Middle()))}
		if len(b.containers) > 1 && !c.Package.Broached.Written() {
			p.only = inEstimateOnly // the gyle's: perhaps of another container
		}
		all = append(all, p)
	}
	for _, d := range b.departed().events {
		if d.what == emptied || d.of != c.Index {
			continue
		}
		all = append(all, posting{
			what: drawing, at: d.at, where: d.where, says: d.what, in: in,
			a: post(d.volume), b: post(b.heatOn(c, d.at)),
		})
	}
	return all
}

// comesIn is what comes in as beer is drawn: as the entry says, else as the way of
// serving and the container have it.
func (b *bench) comesIn(c Container) brewing.Behind {
	for _, said := range []journal.Choice[journal.Replacement]{c.Package.Replaced, b.Gyle.Served.Replaced} {
		switch said.Word {
		case journal.ReplacedByAir:
			return brewing.Air
		case journal.ReplacedByBreather:
			return brewing.Breather
		case journal.ReplacedByCylinder:
			return brewing.Cylinder
		case journal.ReplacedByNothing:
			return brewing.Nothing
		}
	}
	switch {
	case b.Gyle.Served.Breather.Yes() && c.Rigid():
		return brewing.Breather
	case c.Package.Gas.Set.Written():
		return brewing.Cylinder
	case c.Is(journal.Cask):
		return brewing.Air
	}
	return brewing.Nothing
}

// lower is the bound that 97.5 in 100 of an outcome lie above.
func (r *reckoned) lower(o outcome) float64 {
	if r.lack != nil {
		return 0
	}
	v, w := &r.values[o], &r.bounds[o]
	return min(v.value-2*v.u, w.value-2*w.u)
}

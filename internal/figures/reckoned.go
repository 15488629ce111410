package figures

import (
	"math"
	"slices"

	"gylebook/internal/brewing"
	"gylebook/internal/journal"
	q "gylebook/internal/quantity"
)

// reckoned is a container's account gone through: each number as the entry has it,
// with its doubt, and its upper bound, which 97.5 in 100 lie under with all that the
// entry leaves open at its worst.
type reckoned struct {
	likely  walk
	numbers []argument
	values  []argument
	// worse are the ways in which it may be worse than that, a valve on it left out: the
	// worst of them counts. held is what a valve lets stand at most; none without one.
	worse, held []way
	lack        *Lack
}

// way is one reckoning at the worst: what it comes to, before twice its u is added.
type way struct {
	walk
	numbers []argument
	comesTo []argument
}

// reckon goes through a container's account.
func (b *bench) reckon(c Container) *reckoned {
	return b.ofContainer[c.Index].reckoned.once(func() *reckoned { return b.reckonWith(c, b.fillToReckon(c), b.postings(c)) })
}

func (b *bench) reckonWith(c Container, fill Estimate[q.Volume], posts []posting) *reckoned {
	r := &reckoned{}
	r.likely = walk{soft: !c.Rigid(), purged: c.Package.Purged.Yes(), posts: posts, feeds: b.stillFed(c), until: -1}
	warmest := b.warmest(c)
	fixed := [fixedSlots]posted{
		beerSlot: post(fill), roomSlot: post(b.roomToReckon(c, fill)), outsideSlot: post(b.outside()),
		cellarSlot: post(b.cellarHeat(c)), warmestSlot: {arg(warmest.likely), arg(warmest.worst)},
		takenInSlot: post(b.daysOf(c, "what was put in", conditioningDays)), fallsInSlot: post(b.fallsIn(c)),
	}
	fixed[takenInSlot].worst, fixed[fallsInSlot].worst = arg(exactly(q.Number(slowestDays))), arg(b.fallsSlowest(c))
	numbers := int(fixedSlots) + perPosting*len(posts)
	r.numbers = make([]argument, 0, numbers)
	atWorst := make([]argument, 0, numbers)
	add := func(p posted) {
		r.numbers, atWorst = append(r.numbers, orNought(p.likely)), append(atWorst, orNought(p.worst))
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
	r.waysOf(atWorst)
	b.goThrough(r)
	return r
}

// waysOf are the ways in which the account may be worse. A gauge that was read before
// the container had come to rest may show what is there and may not, and nobody says how
// much of what presses is air; gas that comes late is
// still to come when some is let out, and gas that came early stays when beer is drawn; and
// a valve holds what it is set to, whatever comes, some of it perhaps air.
func (r *reckoned) waysOf(late []argument) {
	worst := r.likely
	worst.worst, worst.gauge, worst.valveIs = true, restedGauges, leftOut
	has := func(is func(p posting) bool) bool { return slices.ContainsFunc(worst.posts, is) }
	numbers := [][]argument{late}
	if has(func(p posting) bool { return p.what == drawing }) {
		early := slices.Clone(late)
		early[takenInSlot], early[fallsInSlot] = argument{known: true}, argument{known: true}
		numbers = append(numbers, early)
	}
	for _, n := range numbers {
		r.worse = append(r.worse, way{walk: worst, numbers: n})
		if !has(func(p posting) bool { return p.what == gauging }) {
			continue
		}
		for _, use := range []gaugeUse{allGauges, airyGauges} {
			gauged := worst
			gauged.gauge = use
			r.worse = append(r.worse, way{walk: gauged, numbers: n})
		}
	}
	if has(func(p posting) bool { return p.what == holdingValve }) {
		worst.valveIs = blowingOff
		r.held = []way{{walk: worst, numbers: late}}
	}
}

// goThrough works all of it out.
func (b *bench) goThrough(r *reckoned) {
	r.values, r.lack = b.evaluateMany(r.likely.along, r.numbers, int(outcomes))
	for _, ways := range [][]way{r.worse, r.held} {
		for i := range ways {
			w := &ways[i]
			if r.lack == nil {
				w.comesTo, r.lack = b.evaluateMany(w.along, w.numbers, int(outcomes))
			}
		}
	}
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
		howFastItGoes)
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
// nobody knows, or that is noted with more beer than it holds, a usual one.
func (b *bench) roomToReckon(c Container, fill Estimate[q.Volume]) Estimate[q.Volume] {
	if b.overfull(c) {
		return b.usualHeadspace(c)
	}
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
func (r *reckoned) upper(o outcome) float64 { return r.bound(o, +1) }

// lower is the bound that 97.5 in 100 of an outcome lie above.
func (r *reckoned) lower(o outcome) float64 { return r.bound(o, -1) }

// bound is the upper bound of an outcome, or the lower one for a sign below nothing.
func (r *reckoned) bound(o outcome, sign float64) float64 {
	if r.lack != nil {
		return 0
	}
	least := sign * r.values[o].value
	farthest := func(ways []way) float64 {
		most := least
		for i := range ways {
			most = max(most, ways[i].farthest(o, sign))
		}
		return most
	}
	most := farthest(r.worse)
	if len(r.held) > 0 {
		most = min(most, farthest(r.held))
	}
	return sign * most
}

// farthest is how far up an outcome goes, or down for a sign below nothing, with all
// numbers together off by twice their u: each by as much as it moves the outcome. That is
// twice the outcome's u where all is straight, and goes no farther than a kink where there
// is one: beer that a slack bag's gas leaves cannot hold more. Where nothing moves it,
// since it stands at a kink, it may still be moved by what moves all of the gas.
func (w *way) farthest(o outcome, sign float64) float64 {
	most := sign * w.comesTo[o].value
	x, y := make([]float64, len(w.numbers)), make([]float64, outcomes)
	directions := []outcome{o, inAll}
	if w.soft {
		directions = append(directions, slackWarmest, slackCellar)
	}
	for _, along := range directions {
		s := sign
		if along != o && (along == slackWarmest || along == slackCellar) != (o == slackWarmest || o == slackCellar) {
			s = -sign
		}
		off := movingBy(w.comesTo[along].shares, s)
		for i := range w.numbers {
			x[i] = w.numbers[i].moved(off)
		}
		if err := w.along(x, y); err != nil { // beyond what can be, as less than no beer
			most = max(most, sign*w.comesTo[o].value+2*w.comesTo[o].u)
			continue
		}
		most = max(most, sign*y[o])
	}
	return most
}

// movingBy is by how many u each input has to be off for a number to be off by twice its
// own, up or down.
func movingBy(shares []share, sign float64) []share {
	off, norm := make([]share, 0, len(shares)), 0.0
	for _, sh := range shares {
		up, down := sign*float64(sh.up), sign*float64(sh.down)
		by := max(up, down, 0)
		norm += by * by
		if down > up {
			by = -by
		}
		off = append(off, share{input: sh.input, up: float32(by)})
	}
	for i := range off {
		off[i].up *= float32(2 / math.Sqrt(max(norm, math.SmallestNonzeroFloat64)))
	}
	return off
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

package figures

import (
	"time"

	"gylebook/internal/journal"
	q "gylebook/internal/quantity"
)

// What a brewer puts on a container by hand: a cylinder, a relief valve.

// feedings are gas put on from a cylinder: since when, until when, at which heat.
func (b *bench) feedings(c Container, filled journal.Moment) []posting {
	g := &c.Package.Gas
	if !g.Set.Written() && !b.Gyle.Unreadable(c.Key+".gas.set").Written() {
		return nil
	}
	from := first1(g.From, filled)
	planned := from.Written() && !b.past(from)
	share, worst := b.shareOfGas(c), exactly(q.Number(1))
	if g.With.Is(journal.Nitrogen) || g.Share.Written() {
		worst = share
	} else if g.With.Is(journal.MixedGas) {
		worst = exactly(q.Number(0.75))
	}
	until := g.To.Middle()
	if !g.To.Written() || g.To.Time.After(b.Now) || planned {
		until = from.Middle().Add(forGood)
	}
	p := posting{
		what: feeding, at: from.Middle(), where: g.Set.Where, says: "gas on", days: max(until.Sub(from.Middle()).Hours()/24, 0),
		a: post(read(b, g.Set, keyUnder(g.Set.Where, c.Key, "gas.set"), ofPressure)), b: postBoth(b.gasHeat(c)),
		c: postBoth(likelyAndWorst[q.Number]{share, worst}), d: postBoth(b.takesUpIn(c)),
	}
	if planned && filled.Written() && b.past(filled) {
		p.only = inBoundOnly
	}
	return []posting{p}
}

// forGood is long enough for any beer to come to equilibrium with its cylinder.
const forGood = 400 * 24 * time.Hour

func first1(moments ...journal.Moment) journal.Moment {
	for _, m := range moments {
		if m.Written() {
			return m
		}
	}
	return journal.Moment{}
}

// shareOfGas is the share of carbon dioxide in a cylinder's gas.
func (b *bench) shareOfGas(c Container) Estimate[q.Number] {
	g := &c.Package.Gas
	switch {
	case g.With.Is(journal.Nitrogen):
		return exactly(q.Number(0))
	case g.Share.Written():
		return times[q.Number](b, read(b, g.Share, keyUnder(g.Share.Where, c.Key, "gas.share"), ofGasShare), 0.01)
	case g.With.Is(journal.MixedGas):
		return customary(b, q.Number(0.5), 0.25, "", "the carbon dioxide in the mixed gas of "+c.Key, "not written: mixed gas has 25 to 75 % (common practice, no source)")
	}
	return exactly(q.Number(1))
}

// takesUpIn is how long beer takes to come near equilibrium with its cylinder, as the
// days to 1/e of the way left: from 2 where it is rocked to 10 where it stands.
func (b *bench) takesUpIn(c Container) likelyAndWorst[q.Number] {
	days := customary(b, q.Number(5), 3, "days", "how fast "+c.Called()+" takes up gas "+c.Key, "2 to 10 days by how it is done (common practice, no source)")
	return likelyAndWorst[q.Number]{days, exactly(q.Number(2))}
}

func (b *bench) gasHeat(c Container) likelyAndWorst[q.Temperature] {
	if c.Package.Gas.At.Written() {
		return surely(read(b, c.Package.Gas.At, c.Package.Gas.At.Key, ofHeat))
	}
	heat := surely(b.cellarHeat(c))
	if !b.cellarNamed(c).Written() {
		heat.worst = orCold(heat.likely)
	}
	return heat
}

// valves are a relief valve on the container that holds a set pressure.
func (b *bench) valves(c Container, filled journal.Moment) []posting {
	v := &c.Package.Spunding
	if !v.Written() || v.To.Written() && b.past(v.To) || v.From.Written() && !b.past(v.From) {
		return nil
	}
	set := read(b, v.Set, keyUnder(v.Set.Where, c.Key, "spunding.set"), ofValve)
	return []posting{{what: holdingValve, at: first1(v.From, filled).Middle(), where: v.Set.Where, says: "valve", a: post(set), b: postBoth(b.heatOrCold(c, b.Now))}}
}

package figures

import (
	"math"
	"time"

	"gylebook/internal/brewing"
	q "gylebook/internal/quantity"
)

// sucroseExtract is what a kilogram of plain sugar gives, in Ldeg (NBS Circular C440).
const sucroseExtract = 385

// inside is a gravity of one container's beer, read after it was closed in.
type inside struct {
	at      time.Time
	gravity Estimate[q.Gravity]
}

// readInsideOf are the gravities of a container's beer since it was filled, and of the
// whole beer since it was closed in, in order of time.
func (b *bench) readInsideOf(of int) []inside {
	var all []inside
	sealed, is := b.sealedAt()
	for i := range b.Gyle.Readings {
		r := &b.Gyle.Readings[i]
		ofIt := r.Package.Written() && r.Package.N == of
		late := !r.Package.Written() && is && r.When.Written() && r.When.Middle().After(sealed)
		if !ofIt && !late || !r.When.Written() || !b.past(r.When) {
			continue
		}
		if g, _ := b.readingGravity(i, r); g.known {
			all = append(all, inside{r.When.Middle(), g})
		}
	}
	return all
}

// How fast sugar is taken in a container, as the time for it to fall to 1/e, in days:
// six parts in seven go in the first week, and all but a fiftieth in the two after which
// a container counts as at rest; at worst a third as fast (common practice, no source).
const (
	conditioningDays = 3.5
	slowestDays      = 10.0
)

const howFastItGoes = "six parts in seven go in the first week, or a third as fast (common practice, no source)"

// gone is the part of what was put in that has been taken after so many days.
func gone(days, time float64) float64 { return 1 - math.Exp(-max(days, 0)/time) }

// ethanolDrop is the points by which a point that sugar raised lies below where it
// began once it has fermented right out: Balling's q.
const ethanolDrop = 0.22

// driestBeer is the lowest gravity that beer has: one that seems lower without its priming
// shows that the priming is gone.
const driestBeer = q.Gravity(0.980)

// readInside takes the last gravity that was read in a container into account: less
// what the sugar put in raises it by, with the doubt of how much of that has gone.
// It proves a fall that nobody expected, and, standing level for long, that there is
// little to come.
func (b *bench) readInside(f fall, sealed Estimate[q.Gravity], of int) fall {
	all := b.readInsideOf(of)
	if len(all) == 0 {
		return f
	}
	last := all[len(all)-1]
	from, any := b.lastGravityAt()
	filled := b.Filled(b.containers[of])
	if !any || !filled.Written() || !last.at.After(from) || !last.at.After(filled.Middle()) {
		return f
	}
	days := last.at.Sub(filled.Middle()).Hours() / 24
	base, lowest := b.withoutSugar(last.gravity, b.raisedIn(of, last.at), days)
	fell, fellMost := from2(b, brewing.CO2ToCome, sealed, base), from2(b, brewing.CO2ToCome, sealed, lowest)
	if !fell.known || !fellMost.known {
		return f
	}
	stood := evidence{fell: sealed.Value.Points() - lowest.Value.Points(), hours: last.at.Sub(from).Hours()}
	value := fell
	if left := stood.promise(); left > nothingLeft {
		value = from2(b, func(fell, promised q.Carbonation) (q.Carbonation, error) {
			return fell + q.Carbonation(left)*max(promised-fell, 0), nil
		}, fell, f.value)
	}
	doubt := 1000 * lowest.Uncertainty() * 2
	ahead := (max(stood.fell, 0) + unseenFall + doubt) * b.tailOf(of).Hours() / max(stood.hours, 1)
	allowed := max(float64(f.bound.Value-fellMost.Value), 0) / brewing.CO2PerPoint
	again := 1 - ramp(days*24, provesAfter/2, provesAfter)
	ahead = min(ahead, allowed) + again*max(allowed-ahead, 0)
	return fall{value: value, bound: sum(b, fellMost, exactly(q.Carbonation(ahead*brewing.CO2PerPoint)))}
}

// withoutSugar is a gravity less what sugar raised it by so many days before; and the
// lowest that this may be, the drop that the sugar's alcohol makes not put down to it.
func (b *bench) withoutSugar(g Estimate[q.Gravity], raised Estimate[q.Number], days float64) (likely, lowest Estimate[q.Gravity]) {
	taken, slowly := gone(days, conditioningDays), gone(days, slowestDays)
	left := customary(b, q.Number(1-taken), max(taken-slowly, 0.02), "", "how much of the priming was left when it was read",
		howFastItGoes)
	without := func(drop q.Number) Estimate[q.Gravity] {
		return from3(b, func(g q.Gravity, raised, left q.Number) (q.Gravity, error) {
			left = min(max(left, 0), 1)
			return max(g-q.Gravity(raised*left-raised*(1-left)*drop)*q.Point, driestBeer), nil
		}, g, raised, left)
	}
	return without(ethanolDrop), without(0)
}

// raisedIn is the points by which what was put into a container's beer between its last
// gravity and a moment after it was filled raised it.
func (b *bench) raisedIn(of int, until time.Time) Estimate[q.Number] {
	c := b.containers[of]
	p := b.primingOf(c)
	raised := from2(b, func(m q.Mass, v q.Volume) (q.Number, error) {
		return q.Number(m.Kilograms() * sucroseExtract / v.Litres()), nil
	}, p.sugar, p.volume)
	if !raised.known {
		raised = exactly(q.Number(0))
	}
	for _, a := range b.additions() {
		at, _ := b.entered(a)
		if at.After(until) || a.creeps || a.water || !a.bottled() && !b.afterLastGravity(at) || a.into != allOf && a.into != of {
			continue
		}
		raised = sum(b, raised, from2(b, func(degrees q.Number, v q.Volume) (q.Number, error) {
			return degrees / q.Number(max(v.Litres(), 0.01)), nil
		}, a.raises, b.beerOf(a)))
	}
	return raised
}

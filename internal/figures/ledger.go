package figures

import (
	"cmp"
	"slices"
	"time"

	"gylebook/internal/brewing"
	"gylebook/internal/journal"
	q "gylebook/internal/quantity"
)

// The account of one container is a dated list of postings, made once from the
// entry, and a walk over it. Everything the entry says that bears on the container's
// gas is a posting: what it was filled with, what was put in, what was let out, what
// a gauge showed.

// happening is what a posting does to a container.
type happening int

const (
	filling      happening = iota // beer, its gas, what its gravity still gives
	putIn                         // something fermentable, or liquid
	venting                       // gas out: for a moment, or until quiet
	feeding                       // a cylinder on, for a while
	holdingValve                  // a valve that lets out what is above its setting
	gauging                       // a gauge was read
	drawing                       // beer out, something in behind it
	broaching                     // opened to the air
)

// posting is one line of an account. What its numbers mean goes by what happens: each
// is likely or at its worst.
type posting struct {
	what  happening
	at    time.Time
	where journal.Where
	says  string
	a, b  posted
	c, d  posted
	days  float64         // of a feeding: how long
	in    brewing.Behind  // of a drawing
	sure  bool            // of a venting: that it was until quiet, or for a moment; of a gauge: that it was read at rest
	quiet bool            // of a sure venting
	only  boundOrEstimate // which of the two reckonings it is in
}

// posted is one number of a posting, stripped of its type.
type posted struct{ likely, worst argument }

func post[Q ~float64](e Estimate[Q]) posted { return posted{arg(e), arg(e)} }

func postBoth[Q ~float64](e likelyAndWorst[Q]) posted { return posted{arg(e.likely), arg(e.worst)} }

// boundOrEstimate says whether a posting counts in both reckonings or in the bound
// alone, where the entry leaves open whether it will come to pass.
type boundOrEstimate int

const (
	inBoth boundOrEstimate = iota
	inBoundOnly
	inEstimateOnly
)

// postings are the account of a container, in order of time.
func (b *bench) postings(c Container) []posting {
	filled := b.Filled(c)
	all := append(make([]posting, 0, 8), b.fillingOf(c, filled))
	all = append(all, b.primings(c, filled)...)
	all = append(all, b.putIns(c, filled)...)
	all = append(all, b.ventings(c, filled)...)
	all = append(all, b.feedings(c, filled)...)
	all = append(all, b.valves(c, filled)...)
	all = append(all, b.gauges(c, filled)...)
	all = append(all, b.drawings(c)...)
	slices.SortStableFunc(all[1:], func(x, y posting) int { return cmp.Or(x.at.Compare(y.at), cmp.Compare(x.what, y.what)) })
	return all
}

// fillingOf is what a container was filled with, or is to be.
func (b *bench) fillingOf(c Container, filled journal.Moment) posting {
	fall := b.fallOf(c.Index)
	return posting{
		what: filling, at: filled.Middle(), where: filled.Where, says: "filled",
		a: postBoth(b.residual()), b: postBoth(likelyAndWorst[q.Carbonation]{fall.value, fall.bound}),
		c: post(b.sealedHeat()),
	}
}

// primings are the sugar or wort stirred in when it was filled.
func (b *bench) primings(c Container, filled journal.Moment) []posting {
	p := b.primingOf(c)
	if p.co2.known && p.most().Value == 0 {
		return nil
	}
	return []posting{{what: putIn, at: filled.Middle(), where: p.where, says: p.says, a: postBoth(likelyAndWorst[q.Carbonation]{p.co2, p.most()})}}
}

// putIns are what went into the beer after its last gravity, or into the container.
func (b *bench) putIns(c Container, filled journal.Moment) []posting {
	var all []posting
	for _, a := range b.additions() {
		at, dated := b.entered(a)
		early := !a.bottled()
		if a.creeps || a.water || early && !b.afterLastGravity(at) || a.into != allOf && a.into != c.Index {
			continue
		}
		gas, most := b.gasPut(a)
		p := posting{what: putIn, at: at, where: a.where, says: a.what, a: posted{arg(gas), arg(most)}}
		if early {
			left := b.leftOfLate(a, at, dated)
			p.a.likely = arg(from2(b, scaledGas, gas, left))
			p.at = filled.Middle()
		}
		all = append(all, p)
	}
	return all
}

// gasPut is what an addition gives, per litre of what it went into, and at most.
func (b *bench) gasPut(a addition) (gas, most Estimate[q.Carbonation]) {
	beer := b.beerToReckon(a)
	return b.perLitre(a.gas(), beer), b.perLitre(a.gasAtMost(), beer)
}

func scaledGas(c q.Carbonation, share q.Number) (q.Carbonation, error) {
	return c * q.Carbonation(min(max(share, 0), 1)), nil
}

// blowsOff is how long sugar in an open fermenter takes to be gone with its gas, in
// days at working heat (common practice, no source); colder it takes twice as long for
// each 5 °C.
const blowsOff = 2.0

// leftOfLate is the part of a late addition that was still to ferment when the beer
// was closed in: between all of it and what may have blown off by then.
func (b *bench) leftOfLate(a addition, at time.Time, dated bool) Estimate[q.Number] {
	closed := b.Now
	if sealed, is := b.sealedAt(); is {
		closed = sealed
	}
	days := max(closed.Sub(at).Hours()/24, 0)
	heat := b.heatAtClosing(journal.Value[q.Temperature]{})
	takes := blowsOff
	if heat.known {
		takes *= 1 + 3*ramp(-heat.Value.Celsius(), -15, -5)
	}
	least := 1 - min(days/takes, 1)
	if !dated {
		least = 0
	}
	return customary(b, q.Number((1+least)/2), (1-least)/2, "", "how much of "+a.what+" was still to ferment "+a.where.Key,
		"it went in after the last gravity: between all of it and what may have blown off by then (common practice, no source)")
}

// beerOf is the beer that an addition is in, with it: of one container, of all, or in
// the fermenter.
func (b *bench) beerOf(a addition) Estimate[q.Volume] {
	switch {
	case a.into != allOf:
		return b.contentsToReckon(b.containers[a.into])
	case a.shared && b.rackedVolume().known:
		return sum(b, b.rackedVolume(), a.liquid)
	}
	return b.beerJoined()
}

// beerToReckon is the beer that an addition went into, or, where nothing tells, a home
// brewer's usual batch: what sugar gives is said all the same.
func (b *bench) beerToReckon(a addition) Estimate[q.Volume] {
	return first(b.beerOf(a), b.usualBatch())
}

// batchToReckon is the same for what went into the wort or the working beer.
func (b *bench) batchToReckon() Estimate[q.Volume] {
	return first(b.workingVolume(), b.beerJoined(), b.usualBatch())
}

func (b *bench) usualBatch() Estimate[q.Volume] {
	return customary(b, q.Volume(usualLitres), usualLitresOff, "L", "the beer that what was added went into",
		"not written: taken as 5 to 35 L (common practice, no source)")
}

// What a home brewer makes at a time, in L (common practice, no source).
const (
	usualLitres    = 20.0
	usualLitresOff = 15.0
)

// beerJoined is the beer that what is added joins, by whatever the entry says of it.
func (b *bench) beerJoined() Estimate[q.Volume] {
	if known := first(b.rackedVolume(), b.workingVolume()); known.known || len(b.containers) == 0 {
		return first(known, read(b, b.Gyle.Aim.Volume, "aim.volume", asWished))
	}
	nominal := exactly(q.Volume(0))
	for _, c := range b.containers {
		nominal = sum(b, nominal, b.contentsToReckon(c))
	}
	return first(nominal, read(b, b.Gyle.Aim.Volume, "aim.volume", asWished))
}

// ventings are when gas was let out. A moment's venting empties the room above the
// beer, a long one lets the beer go quiet; where the entry does not say which, either.
func (b *bench) ventings(c Container, filled journal.Moment) []posting {
	var all []posting
	for i := range b.Gyle.Done {
		d := &b.Gyle.Done[i]
		if !isVenting(d) || !aboutPackage(d, c) || !b.past(d.When) || filled.Written() && end(d.When).Before(filled.Time) {
			continue
		}
		if !d.Package.Written() && b.beforeClosing(d.When) && filled.Written() && d.When.Middle().Before(filled.Time) {
			continue // of the fermenter
		}
		heat := b.heatVentedAt(c, d, i)
		p := posting{what: venting, at: d.When.Middle(), where: d.Where, says: "vented", a: postBoth(heat), sure: true, quiet: d.Until.Is(journal.UntilQuiet) || !c.Rigid()}
		if !d.Until.Written() && c.Rigid() {
			p.sure = false
			escapes := customary(b, q.Number(0.5), 0.5, "", "what a venting lets out of "+c.Name(), "a moment's venting loses the headspace, a long one all the excess")
			p.b = postBoth(likelyAndWorst[q.Number]{escapes, exactly(q.Number(0))})
		}
		all = append(all, p)
	}
	return all
}

// heatOfPlace is how far beer may be from the heat of where it stands, in °C (common
// practice, no source). Colder, a venting lets out less.
const heatOfPlace = 2.0

// heatVentedAt is the heat of a container's beer when it was vented: as noted, else that
// of the place where it stood.
func (b *bench) heatVentedAt(c Container, d *journal.Deed, i int) likelyAndWorst[q.Temperature] {
	if d.At.Written() {
		return surely(read(b, d.At, keyOf(d.At.Where, "done", i, "at"), ofHeat))
	}
	off := customary(b, q.Temperature(0), heatOfPlace, "°C", "how warm "+c.Name()+" was when it was vented",
		"not noted: taken as the place's heat, give or take two degrees (common practice, no source)")
	there := b.heatOrCold(c, d.When.Middle())
	return likelyAndWorst[q.Temperature]{sum(b, there.likely, off), sum(b, there.worst, off, exactly(q.Temperature(-heatOfPlace)))}
}

// restsAfter is how long after filling a container has come to rest, so that a gauge on
// it measures all of its gas.
const restsAfter = 14 * 24 * time.Hour

// gauges are what was read of the container's own gauge.
func (b *bench) gauges(c Container, filled journal.Moment) []posting {
	var all []posting
	for i := range b.Gyle.Readings {
		r := &b.Gyle.Readings[i]
		at, dated := r.When.Middle(), r.When.Written()
		if !dated {
			at = b.Now
		}
		ofIt := r.Package.Written() && r.Package.N == c.Index
		only := !r.Package.Written() && len(b.containers) == 1 && filled.Written() && at.After(end(filled))
		if !ofIt && !only || !r.Pressure.Written() || dated && !b.past(r.When) || !c.Rigid() {
			continue
		}
		heat := b.heatOn(c, at)
		if r.Temp.Written() {
			heat = read(b, r.Temp, r.Temp.Key, ofHeat)
		}
		rested := dated && filled.Written() && at.Sub(filled.Middle()) >= restsAfter && r.Temp.Written()
		all = append(all, posting{
			what: gauging, at: at, where: r.Pressure.Where, says: "gauge read", sure: rested,
			a: post(read(b, r.Pressure, keyOf(r.Pressure.Where, "readings", i, "pressure"), ofGauge)), b: post(heat),
		})
	}
	return all
}

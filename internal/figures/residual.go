package figures

import (
	"time"

	"gylebook/internal/brewing"
	"gylebook/internal/journal"
	q "gylebook/internal/quantity"
)

// likelyAndWorst is a quantity as the entry has it, and as it is at the worst that the
// entry leaves open. The second has its own doubt, which an upper bound adds.
type likelyAndWorst[Q ~float64] struct{ likely, worst Estimate[Q] }

func surely[Q ~float64](e Estimate[Q]) likelyAndWorst[Q] { return likelyAndWorst[Q]{e, e} }

// outside is the pressure of the air where the beer stands: by the settings, else at
// the sea.
func (b *bench) outside() Estimate[q.AirPressure] {
	if b.Settings == nil {
		return exactly(brewing.StandardAir)
	}
	if p := b.Settings.AirPressure; p.Written() {
		return first(read(b, p, "air_pressure", doubt{}), exactly(brewing.StandardAir))
	}
	if h := b.Settings.Altitude; h.Written() {
		return first(from1(b, brewing.AirAt, read(b, h, "altitude", doubt{})), exactly(brewing.StandardAir))
	}
	return exactly(brewing.StandardAir)
}

// residual is what the beer holds of its own gas when it is closed in: what it
// dissolves under the open air at the warmest since it slowed, or under the pressure
// that a valve held or a gauge showed.
func (b *bench) residual() likelyAndWorst[q.Carbonation] {
	return b.memoResidual.once(func() likelyAndWorst[q.Carbonation] {
		open := b.heldOpen()
		if p, ok := b.gaugeInFermenter(); ok {
			return surely(p)
		}
		if under, ok := b.heldByValve(); ok {
			return likelyAndWorst[q.Carbonation]{b.noMoreThanMade(open, under), under}
		}
		return surely(open)
	})
}

func (b *bench) heldOpen() Estimate[q.Carbonation] {
	return b.publishedScatter(b.heldUnder(0, b.warmestSinceSlowed()))
}

// heldUnder is what beer holds at a heat under its own gas at a gauge pressure.
func (b *bench) heldUnder(gauge q.Pressure, heat Estimate[q.Temperature]) Estimate[q.Carbonation] {
	return from3(b, brewing.UnderGauge, exactly(gauge), heat, b.outside())
}

func (b *bench) publishedScatter(held Estimate[q.Carbonation]) Estimate[q.Carbonation] {
	return scattered(b, held, residualScatter, "vol", "how much of its gas the beer held on to",
		"published values for one temperature differ by ± 0.1 vol")
}

// residualScatter is half of the ± 0.1 vol by which published residual gas
// differs at one temperature.
const residualScatter = 0.05

// gaugeInFermenter is what the beer held by the last gauge read on it before it was
// closed in. A venting after that sets the reading aside.
func (b *bench) gaugeInFermenter() (Estimate[q.Carbonation], bool) {
	var last *journal.Reading
	index := 0
	for i := range b.Gyle.Readings {
		r := &b.Gyle.Readings[i]
		if r.Package.Written() || !r.Pressure.Written() || !b.beforeClosing(r.When) || !r.When.Middle().After(b.pitchedAt()) {
			continue
		}
		if last == nil || r.When.Middle().After(last.When.Middle()) {
			last, index = r, i
		}
	}
	if last == nil || b.ventedInFermenter(last.When.Middle()) {
		return Estimate[q.Carbonation]{}, false
	}
	pressure := read(b, last.Pressure, keyOf(last.Pressure.Where, "readings", index, "pressure"), ofPressure)
	held := from3(b, brewing.UnderGauge, pressure, b.heatAtClosing(last.Temp), b.outside())
	return b.publishedScatter(held), held.known
}

// beforeClosing tells whether a moment has come, and was before the beer was closed
// in.
func (b *bench) beforeClosing(m journal.Moment) bool {
	sealed, is := b.sealedAt()
	return m.Written() && b.past(m) && (!is || !m.Middle().After(sealed))
}

// ventedInFermenter tells whether the fermenter was vented until quiet after a moment.
func (b *bench) ventedInFermenter(after time.Time) bool {
	for i := range b.Gyle.Done {
		d := &b.Gyle.Done[i]
		if isVenting(d) && !d.Package.Written() && d.Until.Is(journal.UntilQuiet) && b.beforeClosing(d.When) && d.When.Middle().After(after) {
			return true
		}
	}
	return false
}

func isVenting(d *journal.Deed) bool { return d.Did.Is(journal.Vented, journal.Burped) }

// heldByValve is what the beer holds under a relief valve on the fermenter that was
// still on when it was closed in.
func (b *bench) heldByValve() (Estimate[q.Carbonation], bool) {
	v := &b.Gyle.Fermenter.Spunding
	if !v.Written() || v.From.Written() && !b.beforeClosing(v.From) || v.To.Written() && b.beforeClosing(v.To) {
		return Estimate[q.Carbonation]{}, false
	}
	if b.ventedInFermenter(b.pitchedAt()) {
		return Estimate[q.Carbonation]{}, false
	}
	set := read(b, v.Set, keyUnder(v.Set.Where, "fermenter.spunding", "set"), ofPressure)
	held := from3(b, brewing.UnderGauge, set, b.heatAtClosing(journal.Value[q.Temperature]{}), b.outside())
	return b.publishedScatter(held), true
}

// noMoreThanMade is what a valve holds, but no more than the beer gave off since it
// was put on, where readings tell.
func (b *bench) noMoreThanMade(open, under Estimate[q.Carbonation]) Estimate[q.Carbonation] {
	since := b.Gyle.Fermenter.Spunding.From
	all := b.beforeSealing()
	if !since.Written() || len(all) == 0 {
		return under
	}
	before := b.og()
	for _, r := range all {
		if !r.When.After(since.Middle()) {
			before = r.Gravity
		}
	}
	made := from2(b, brewing.CO2ToCome, before, all[len(all)-1].Gravity)
	if !made.known {
		return under
	}
	return from3(b, func(open, under, made q.Carbonation) (q.Carbonation, error) {
		return max(min(under, open+made), min(open, under)), nil
	}, open, under, made)
}

// heatAtClosing is the beer's heat under a gauge: as read with it, else when it was
// racked, else at its last reading.
func (b *bench) heatAtClosing(with journal.Value[q.Temperature]) Estimate[q.Temperature] {
	if with.Written() {
		return read(b, with, with.Key, ofHeat)
	}
	if racked := b.Gyle.Racked.Temp; racked.Written() {
		return read(b, racked, "racked.temp", ofHeat)
	}
	all := b.beforeSealing()
	for i := len(all) - 1; i >= 0; i-- {
		if all[i].Temp.Written() {
			return read(b, all[i].Temp, all[i].Temp.Key, ofHeat)
		}
	}
	return b.warmestSinceSlowed()
}

// slowed is how near its last gravity a fermentation has slowed down.
const slowed = 4.0 // points

// warmestSinceSlowed is the heat that decides what gas is left: as written, else
// the warmest reading since the gravity came near its last, else the heat when
// racked, else a cool room's.
func (b *bench) warmestSinceSlowed() Estimate[q.Temperature] {
	racked := &b.Gyle.Racked
	if racked.Warmest.Written() {
		return read(b, racked.Warmest, "racked.warmest", ofHeat)
	}
	if t, ok := b.warmestReading(); ok {
		return read(b, t, t.Key, ofHeat)
	}
	return first(read(b, racked.Temp, "racked.temp", ofHeat),
		customary(b, q.Celsius(18), 6, "°C", "the warmest it has been since it slowed", "not written: taken as 18 ± 6 °C, a cool room"))
}

func (b *bench) warmestReading() (hottest journal.Value[q.Temperature], ok bool) {
	all := byTime(b.beforeSealing(), b.sightings())
	if len(all) == 0 {
		return hottest, false
	}
	last := all[len(all)-1].Gravity.Value.Points()
	for _, r := range all {
		if r.Gravity.Value.Points() > last+slowed || !r.Temp.Written() {
			continue
		}
		if !ok || r.Temp.Value > hottest.Value {
			hottest, ok = r.Temp, true
		}
	}
	return hottest, ok
}

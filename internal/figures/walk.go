package figures

import (
	"math"
	"time"

	"gylebook/internal/brewing"
	q "gylebook/internal/quantity"
)

// The walk goes through a container's postings with plain numbers. It is a pure
// function of them, so that a doubt is carried through it by moving one number at a
// time; it knows no entry and no clock.

// slot is the place of a number among those that a walk is given.
type slot int

// The numbers that every walk has; those of its postings follow, four of each.
const (
	beerSlot slot = iota
	roomSlot
	outsideSlot
	cellarSlot
	warmestSlot
	takenInSlot // days in which what was put in is taken, to 1/e
	fallsInSlot // days in which the beer's own fall comes, to 1/e
	fixedSlots
	perPosting = 4
)

// outcome is the place of a number among those that a walk comes to.
type outcome int

const (
	inAll        outcome = iota // carbon dioxide in all, vol
	dissolved                   // in the beer, at the heat of its cellar
	gaugeCellar                 // bar
	gaugeWarmest                // bar
	freeGas                     // of a bag at the warmest, L
	slackWarmest                // of a bag at the warmest, L
	slackCellar                 // of a bag in the cellar, L
	beerNow                     // L
	roomNow                     // L
	outcomes
)

// walk is a container's account made ready to be gone through.
type walk struct {
	soft, purged bool
	posts        []posting
	worst        bool // reckon with what is worst of all that is left open
	gauge        gaugeUse
	valveIs      valveUse
	feeds        bool // a cylinder is still on it
	until        int  // go no farther than so many postings, and let nothing more come; all where below nothing
}

// gaugeUse is what a walk takes of the gauges that were read. One on a container at rest
// always counts.
type gaugeUse int

const (
	higherGauges gaugeUse = iota // and an early one where it shows more than the account
	restedGauges                 // no early one
	allGauges                    // every early one, as if all that is still to come came on top
	airyGauges                   // the same, with all the air above the beer that ever came in
)

// valveUse is what a walk takes of a relief valve.
type valveUse int

const (
	asSet      valveUse = iota
	leftOut             // as if there were none
	blowingOff          // as if more gas came than it holds, and drove out the air
)

// plenty is more gas than any valve holds, in vol.
const plenty = q.Carbonation(100)

// walked is a container on its way through its postings.
type walked struct {
	brewing.Held
	sugar, fall brewing.Moles // carbon dioxide still to come, from what was put in and from the beer's own fall
	days        float64       // since it was filled
	air         brewing.Moles // that ever came in
}

// along goes through all postings and gives what the container comes to.
func (w *walk) along(x, y []float64) error {
	state, err := w.through(x)
	if err != nil {
		return err
	}
	h := state.Held
	h.CO2 += state.sugar + state.fall
	set, fed := w.regulator(x)
	valve, valved := w.valve(x)
	if valved {
		if w.valveIs == blowingOff {
			h.CO2, h.Inert = brewing.MolesOf(plenty, h.Beer), 0
		}
		if h, err = h.HeldUnder(valve.set, valve.heat); err != nil {
			return err
		}
	}
	cellar, err := h.At(q.Temperature(x[cellarSlot]))
	if err != nil {
		return err
	}
	warm, err := h.At(q.Temperature(x[warmestSlot]))
	if err != nil {
		return err
	}
	if valved {
		warm.Gauge, cellar.Gauge = min(warm.Gauge, valve.set), min(cellar.Gauge, valve.set)
		if w.valveIs == blowingOff {
			warm.Gauge, cellar.Gauge = valve.set, valve.set // it may be all air
		}
	}
	if fed {
		warm.Gauge, cellar.Gauge = max(warm.Gauge, set), max(cellar.Gauge, set)
	}
	y[inAll], y[dissolved] = float64(h.InAll()), float64(cellar.Dissolved)
	y[gaugeCellar], y[gaugeWarmest] = cellar.Gauge.Bar(), warm.Gauge.Bar()
	y[freeGas], y[slackWarmest], y[slackCellar] = warm.Free.Litres(), (h.Room - warm.Free).Litres(), (h.Room - cellar.Free).Litres()
	y[beerNow], y[roomNow] = h.Beer.Litres(), h.Room.Litres()
	return nil
}

// through is the container after all of its postings, before what is still to come.
func (w *walk) through(x []float64) (walked, error) {
	first := w.numbers(x, 0)
	h := brewing.Held{Beer: q.Volume(x[beerSlot]), Room: q.Volume(x[roomSlot]), Soft: w.soft, Outside: q.AirPressure(x[outsideSlot])}
	h, err := brewing.Filled(h, q.Carbonation(max(first[0], 0)), q.Temperature(first[2]), w.purged)
	if err != nil {
		return walked{}, err
	}
	s := walked{Held: h, air: h.Inert, fall: brewing.MolesOf(q.Carbonation(max(first[1], 0)), h.Beer)}
	for i := 1; i < len(w.posts) && (w.until < 0 || i < w.until); i++ {
		p := &w.posts[i]
		if p.only == inBoundOnly && !w.worst || p.only == inEstimateOnly && w.worst {
			continue
		}
		s.wait(w.daysUntil(p.at), x)
		if err := w.take(&s, p, w.numbers(x, i)); err != nil {
			return walked{}, err
		}
	}
	return s, nil
}

// numbers are those of one posting.
func (w *walk) numbers(x []float64, i int) []float64 {
	at := int(fixedSlots) + i*perPosting
	return x[at : at+perPosting]
}

// daysUntil is how long after it was filled a moment is; nought where either is not
// known.
func (w *walk) daysUntil(at time.Time) float64 {
	if w.posts[0].at.IsZero() || at.IsZero() {
		return 0
	}
	return daysFrom(w.posts[0].at, at)
}

// wait lets gas come until so many days after it was filled.
func (s *walked) wait(until float64, x []float64) {
	if until <= s.days {
		return
	}
	passed := until - s.days
	come := func(left *brewing.Moles, days float64) {
		part := brewing.Moles(1 - math.Exp(-passed/max(days, 0.1)))
		s.CO2 += *left * part
		*left -= *left * part
	}
	come(&s.sugar, x[takenInSlot])
	come(&s.fall, x[fallsInSlot])
	s.days = until
}

// take lets one thing happen.
func (w *walk) take(s *walked, p *posting, x []float64) error {
	before := s.Held
	err := w.happen(s, p, x)
	s.air += max(s.Inert-before.Inert, 0)
	return err
}

func (w *walk) happen(s *walked, p *posting, x []float64) (err error) {
	switch p.what {
	case putIn:
		s.sugar += brewing.MolesOf(q.Carbonation(max(x[0], 0)), s.Beer)
	case venting:
		s.Held, err = vented(s.Held, p, x)
	case broaching:
		s.Held, err = s.VentedForAMoment(q.Temperature(x[0]))
	case feeding:
		s.Held, err = w.fed(s, p, x)
	case gauging:
		s.Held, err = w.gauged(s, p, x)
	case drawing:
		before := s.Beer
		s.Held, err = s.Drawn(q.Volume(max(x[0], 0)), q.Temperature(x[1]), p.in)
		left := brewing.Moles(s.Beer / before)
		s.sugar, s.fall = s.sugar*left, s.fall*left
	}
	return err
}

// fed is what it holds after a cylinder was on it.
func (w *walk) fed(s *walked, p *posting, x []float64) (brewing.Held, error) {
	takesUpIn := max(x[3], 0.1)
	comesOutIn := takesUpIn
	if w.worst {
		comesOutIn = slowestDays
	}
	by := brewing.Regulator{
		Set: q.Pressure(x[0]), Share: min(max(x[2], 0), 1), Fresh: math.Exp(-max(s.days, 0) / comesOutIn),
	}
	if w.purged {
		by.Fresh = 0 // its room was full of carbon dioxide from the first
	}
	return s.Fed(by, q.Temperature(x[1]), 1-math.Exp(-p.days/takesUpIn))
}

func vented(h brewing.Held, p *posting, x []float64) (brewing.Held, error) {
	t := q.Temperature(x[0])
	quiet, err := h.VentedToQuiet(t)
	if err != nil || p.sure && p.quiet {
		return quiet, err
	}
	moment, err := h.VentedForAMoment(t)
	if err != nil || p.sure {
		return moment, err
	}
	return moment.Between(quiet, x[1]), nil
}

// gauged is what it holds by its gauge: at rest in the account's place, before that
// only where it shows more.
func (w *walk) gauged(s *walked, p *posting, x []float64) (brewing.Held, error) {
	if !p.sure && w.gauge == restedGauges {
		return s.Held, nil
	}
	by := s.Held
	switch { // the more of it is carbon dioxide the harder it presses when warm, the more is air when cold
	case w.gauge == airyGauges:
		by.Inert = max(by.Inert, s.air)
	case w.worst:
		by.Inert = 0
	}
	by, err := by.LeakedTo(q.Pressure(x[0]), q.Temperature(x[1]))
	if err == nil {
		by, err = by.Gauged(q.Pressure(x[0]), q.Temperature(x[1]))
	}
	if err != nil || p.sure || by.CO2 > s.CO2 || w.gauge == allGauges || w.gauge == airyGauges {
		return by, err
	}
	return s.Held, nil
}

// regulator is the setting of a cylinder that is still on.
func (w *walk) regulator(x []float64) (set q.Pressure, on bool) {
	for i := range w.posts {
		p := &w.posts[i]
		if p.what == feeding && w.feeds && (p.only != inBoundOnly || w.worst) {
			return q.Pressure(w.numbers(x, i)[0]), true
		}
	}
	return 0, false
}

// heldAt is a valve's setting and the heat at which it let gas out.
type heldAt struct {
	set  q.Pressure
	heat q.Temperature
}

func (w *walk) valve(x []float64) (v heldAt, on bool) {
	if w.valveIs == leftOut {
		return v, false
	}
	for i := range w.posts {
		if w.posts[i].what == holdingValve {
			n := w.numbers(x, i)
			return heldAt{q.Pressure(n[0]), q.Temperature(n[1])}, true
		}
	}
	return v, false
}

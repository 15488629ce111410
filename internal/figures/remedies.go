package figures

import (
	"slices"

	"gylebook/internal/brewing"
	q "gylebook/internal/quantity"
)

// What still helps a container with more gas in it than it should have: each
// answer is the program's own figure at another heat.

// PressureAt is the gauge pressure in a container once it is conditioned, at a
// heat that nobody has written, with its upper bound. ok is false where its figures
// lack something, or the heat is outside −2 to 50 °C.
func (i *Inquiry) PressureAt(c Container, heat q.Temperature) (f Figure, ok bool) {
	r := i.reckon(c)
	if r.lack != nil {
		return Figure{}, false
	}
	at := *r
	at.numbers = standingAt(r.numbers, heat)
	at.worse, at.held = waysAt(r.worse, heat), waysAt(r.held, heat)
	if i.goThrough(&at); at.lack != nil {
		return Figure{}, false
	}
	pressure, upper := value[q.Pressure](&at, gaugeWarmest), at.upper(gaugeWarmest)
	if !c.Rigid() {
		pressure, upper = i.bagPressure(&at, gaugeWarmest, slackWarmest)
	}
	f, ok = aside("bar", pressure)
	f.bounded(upper)
	return f, ok
}

// standingAt is what a walk is given, with another heat for the warmest.
func standingAt(numbers []argument, heat q.Temperature) []argument {
	moved := slices.Clone(numbers)
	moved[warmestSlot] = arg(exactly(heat))
	return moved
}

func waysAt(ways []way, heat q.Temperature) []way {
	moved := slices.Clone(ways)
	for i := range moved {
		moved[i].numbers = standingAt(moved[i].numbers, heat)
	}
	return moved
}

// Where a remedy may look, in °C: as cold as a refrigerator, as warm as a room.
const (
	coldestRemedy = 2
	warmestRemedy = 20
)

// HeatUnder is the warmest whole degree, between 2 and 20 °C, at which a
// container's pressure with all of its ± stays under a limit; ok is false where
// none of them is cold enough.
func (i *Inquiry) HeatUnder(c Container, limit q.Pressure) (heat q.Temperature, at Figure, ok bool) {
	for degrees := warmestRemedy; degrees >= coldestRemedy; degrees-- {
		f, known := i.PressureAt(c, q.Celsius(float64(degrees)))
		if !known {
			return 0, Figure{}, false
		}
		if f.UpperBound() <= limit.Bar() {
			return q.Celsius(float64(degrees)), f, true
		}
	}
	return 0, Figure{}, false
}

// HeldAt is what beer that is vented until it is quiet keeps at a heat, with the
// ± of published values for it.
func (i *Inquiry) HeldAt(heat q.Temperature) (f Figure, ok bool) {
	return aside("vol", i.publishedScatter(i.heldUnder(0, exactly(heat))))
}

// HeatHolding is the whole degree, between 2 and 20 °C, at which beer that is
// vented until it is quiet keeps nearest to a condition; ok is false where even
// the coldest keeps less or the warmest keeps more.
func (i *Inquiry) HeatHolding(condition q.Carbonation) (heat q.Temperature, ok bool) {
	best, off, outside := 0, 0.0, i.outside()
	for degrees := coldestRemedy; degrees <= warmestRemedy; degrees++ {
		held, err := brewing.UnderGauge(0, q.Celsius(float64(degrees)), outside.Value)
		if err != nil {
			return 0, false
		}
		if degrees == coldestRemedy && held < condition || degrees == warmestRemedy && held > condition {
			return 0, false
		}
		if away := max(float64(held-condition), float64(condition-held)); best == 0 || away < off {
			best, off = degrees, away
		}
	}
	return q.Celsius(float64(best)), true
}

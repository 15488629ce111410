package figures

import (
	"gylebook/internal/brewing"
	q "gylebook/internal/quantity"
)

// What still helps a container with more gas in it than it should have: each
// answer is the program's own figure at another heat.

// PressureAt is the gauge pressure in a container once it is conditioned, at a
// heat that nobody has written; a bag has its own. ok is false where its figures
// lack something, or the heat is outside −2 to 50 °C.
func (i *Inquiry) PressureAt(c Container, heat q.Temperature) (f Figure, ok bool) {
	at := exactly(heat)
	if !c.Rigid() {
		condition, fill, capacity := i.conditionOf(c), i.fill(c), i.capacity(c)
		slack := i.slack(capacity, fill, from3(i.bench, brewing.BagFreeGas, condition, fill, at))
		return aside("bar", i.bagPressure(slack, condition, fill, capacity, at))
	}
	room := first(from2(i.bench, brewing.Headspace, i.capacity(c), i.fill(c)), i.usualHeadspace(c))
	if c.forced() {
		return aside("bar", i.pressureAfterGas(c, room, at))
	}
	return aside("bar", i.sealedPressure(c, i.conditionOf(c), room, at))
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
		if f.Value+f.PlusMinus <= limit.Bar() {
			return q.Celsius(float64(degrees)), f, true
		}
	}
	return 0, Figure{}, false
}

// HeldAt is what beer that is vented until it is quiet keeps at a heat, with the
// ± of published values for it.
func (i *Inquiry) HeldAt(heat q.Temperature) (f Figure, ok bool) {
	held := from1(i.bench, brewing.ResidualCO2, exactly(heat))
	return aside("vol", scattered(i.bench, held, residualScatter, "vol", "how much of its gas the beer held on to", "published values for one temperature differ by ± 0.1 vol"))
}

// HeatHolding is the whole degree, between 2 and 20 °C, at which beer that is
// vented until it is quiet keeps nearest to a condition; ok is false where even
// the coldest keeps less or the warmest keeps more.
func (i *Inquiry) HeatHolding(condition q.Carbonation) (heat q.Temperature, ok bool) {
	best, off := 0, 0.0
	for degrees := coldestRemedy; degrees <= warmestRemedy; degrees++ {
		held, err := brewing.ResidualCO2(q.Celsius(float64(degrees)))
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

// Forced tells whether a container's gas comes from a cylinder.
func (c Container) Forced() bool { return c.forced() }

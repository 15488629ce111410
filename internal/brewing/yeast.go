package brewing

import (
	"math"

	q "gylebook/internal/quantity"
)

// manyCells is more than any home brewery pitches.
const manyCells = 1e18

// PitchingRate is the live cells pitched, in millions for each mL of wort and
// degree Plato. Range: gravity 1.004 to 1.150. G. J. Fix (1997) has 0.75 for ale
// and 1.5 for lager, a commercial rule 1; ± 30 % does not matter. How many cells
// of a packet still live is for the caller: yeast makers' figures disagree, and no
// published law of age is used.
//
// Source: definition.
func PitchingRate(live q.Cells, v q.Volume, g q.Gravity) (q.Number, error) {
	const name = "a pitching rate"
	err := firstOf(within(name, "the cells", live, 0, manyCells, "cells"), some(name, "the wort", v, "L"), within(name, "the gravity", g, 1.0039, 1.150, gravitySG))
	if err != nil {
		return 0, err
	}
	return q.Number(float64(live) / 1e6 / (v.Litres() * 1000) / g.Plato()), nil
}

// CellsFor is the live cells that make a pitching rate: the inverse of
// PitchingRate. Range 0 to 100 million cells/(mL °P).
func CellsFor(rate q.Number, v q.Volume, g q.Gravity) (q.Cells, error) {
	const name = "cells to pitch"
	err := firstOf(within(name, "the rate", rate, 0, 100, "million cells/(mL °P)"), none(name, "the wort", v, "L"), within(name, "the gravity", g, 1.0039, 1.150, gravitySG))
	if err != nil {
		return 0, err
	}
	return q.Cells(float64(rate) * 1e6 * v.Litres() * 1000 * g.Plato()), nil
}

// curve checks the four parameters of a fermentation.
func curve(name string, start, finish q.Gravity, perDay q.Number, middle q.Duration) error {
	return firstOf(
		within(name, "the start", start, 0.980, 1.200, gravitySG), within(name, "the finish", finish, 0.950, 1.200, gravitySG),
		within(name, "the rate", perDay, 0, 100, "per day"), within(name, "the middle", middle.Days(), -1000, 1000, "days"),
	)
}

// LogisticGravity is the gravity of a fermentation some time after pitching:
// finish + (start − finish) ÷ (1 + e^(B (t − M))), where start and finish are the
// curve's two levels, B its rate a day and M the time of its middle. Range: levels
// 0.950 to 1.200, rate 0 to 100 a day, times within 1000 days. ASBC fits degrees
// Plato; gravity differs from them by a factor that hardly changes in one beer.
//
// Source: R. A. Speers, P. Rogers and B. Smith, J. Inst. Brew. 109 (2003) 229; ASBC
// Yeast-14.
func LogisticGravity(start, finish q.Gravity, perDay q.Number, middle, at q.Duration) (q.Gravity, error) {
	const name = "the curve of a fermentation"
	if err := firstOf(curve(name, start, finish, perDay, middle), within(name, "the time", at.Days(), -1000, 1000, "days")); err != nil {
		return 0, err
	}
	return finish + (start-finish)/q.Gravity(1+math.Exp(float64(perDay)*(at-middle).Days())), nil
}

// LogisticTime is when the curve of a fermentation comes to a gravity:
// the inverse of LogisticGravity. Range as there; a rate of 0.001 a day at least, and a
// gravity between the levels and a ten-thousandth of their distance from either,
// which the curve never quite reaches.
func LogisticTime(start, finish q.Gravity, perDay q.Number, middle q.Duration, g q.Gravity) (q.Duration, error) {
	const name = "the curve of a fermentation"
	err := firstOf(
		curve(name, start, finish, perDay, middle), within(name, "the rate", perDay, 0.001, 100, "per day"),
		within(name, "the fall", start-finish, 0.0001, 0.250, gravitySG),
	)
	if err != nil {
		return 0, err
	}
	hair := (start - finish).SG() / 10000
	if err := within(name, "the gravity", g, finish.SG()+hair, start.SG()-hair, gravitySG); err != nil {
		return 0, err
	}
	days := math.Log(float64((start-g)/(g-finish))) / float64(perDay)
	return middle + q.Duration(days)*q.Day, nil
}

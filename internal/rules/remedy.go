package rules

import (
	"fmt"

	"gylebook/internal/assay"
	"gylebook/internal/figures"
	"gylebook/internal/journal"
	q "gylebook/internal/quantity"
)

// Too much sugar is in and cannot be taken out again. What is left to say is what
// the container will come to, whether it takes that, and how cold, how much
// vented or how soon it would be right: each with this gyle's own figures.

// takes says what a container comes to at its warmest place, against what it
// takes.
func (c *inspection) takes(k figures.Container) string {
	if !k.Rigid() {
		return c.bagTakes(k)
	}
	f, ok := c.Find(figures.IDPressureWarmest, k.Key)
	if !ok {
		return ""
	}
	heat, at := c.WarmestPlace(k)
	text := "At the warmest"
	if at.Written() && c.PlaceNamed(k) {
		text += ", " + c.Heat(heat.Celsius()) + ","
	}
	text += " it comes to " + c.Measure(f)
	rated := q.Pressure(0)
	if k.Vessel != nil && k.Vessel.Rated.Written() {
		rated = k.Vessel.Rated.Value
	}
	switch {
	case rated == 0:
		return text + ", and no maker's figure says whether it takes that."
	case assay.IsOver(f, rated.Bar()):
		return text + fmt.Sprintf(", which is more than the %s its maker allows.", c.PressureAtMost(rated.Bar()))
	case assay.Over(f, rated.Bar()) == assay.Perhaps:
		return text + fmt.Sprintf(", which may be more than the %s its maker allows.", c.PressureAtMost(rated.Bar()))
	}
	return text + fmt.Sprintf("; its maker allows %s.", c.PressureAtMost(rated.Bar()))
}

func (c *inspection) bagTakes(k figures.Container) string {
	free, ok := c.Find(figures.IDGasFree, k.Key)
	slack, known := c.Find(figures.IDBagSlack, k.Key)
	switch {
	case !ok || free.Value <= 0:
		return ""
	case !known:
		return fmt.Sprintf("At the warmest it swells by %s.", c.Measure(free))
	case slack.Value < 0:
		return fmt.Sprintf("At the warmest %s of gas comes free, and the bag goes tight.", c.Measure(free))
	}
	return fmt.Sprintf("At the warmest it swells by %s and has room for %s more.", c.Measure(free), c.Measure(slack))
}

// relief is the one thing to do now about too much gas in a container, whichever rule
// saw it: cold for all of them, venting for those that can be.
func (c *inspection) relief(k figures.Container) string {
	switch {
	case k.Is(journal.Bottle) || k.Vessel == nil:
		return c.reliefOfBottles(k)
	case k.Is(journal.SoftBag):
		return c.Text("Stand it in a tub and chill it below {12 °C}; then ease the tap upward and let gas out until it is slack. Look at it daily.") + c.stillComing(k)
	case k.Is(journal.PressureBarrel):
		return "Stand it in the coldest place you have, then loosen the cap a little at a time, your face turned away." + c.stillComing(k)
	case k.Forced() && c.onGas(k):
		return "Shut the gas off and vent the headspace, your face turned away; chill it, vent it again when it is cold, and set the regulator lower." + c.stillComing(k)
	}
	text := "Chill it where it stands, then vent it slowly, your face turned away, until it is quiet."
	if aim := c.Gyle.Aim.Condition; aim.Written() {
		if heat, ok := c.HeatHolding(aim.Value); ok {
			held, _ := c.HeldAt(heat)
			text = fmt.Sprintf("Chill it to %s where it stands, then vent it slowly, your face turned away, until it is quiet: it then keeps %s.", c.Heat(heat.Celsius()), c.Measure(held))
		}
	}
	return text + c.stillComing(k)
}

// onGas tells whether a cylinder is still on a container.
func (c *inspection) onGas(k figures.Container) bool {
	to := k.Package.Gas.To
	return !to.Written() || !c.Come(to)
}

// reliefOfBottles: a bottle cannot be vented to a measure, only kept cold and opened
// with care.
func (c *inspection) reliefOfBottles(k figures.Container) string {
	all, one := "them", "one"
	if k.Count() == 1 {
		all, one = "it", "it"
	}
	if f, ok := c.Find(figures.IDGasInAll, k.Key); ok && assay.IsOver(f, mostHandled) {
		return fmt.Sprintf("Keep away from %s while warm, and keep others away. Cool the place, cover %s with a heavy blanket, and wait a day; then, goggles and gloves on, open %s cold and outdoors.", all, all, one) + c.stillComing(k)
	}
	there := "."
	if cold, ok := c.PressureAt(k, q.Celsius(4)); ok {
		there = c.Sayf(": at {4 °C} it is %s.", c.Measure(cold))
	}
	text := fmt.Sprintf("Goggles and gloves on, move %s to the coldest place you have, boxed and covered%s", all, there)
	if k.Count() == 1 {
		return text + " Open it cold, over a sink, and drink it soon." + c.stillComing(k)
	}
	return text + " Open one cold, over a sink; if it gushes, vent them all, and drink them soon." + c.stillComing(k)
}

// stillComing says that the gas is not all there yet, where it is so.
func (c *inspection) stillComing(k figures.Container) string {
	filled := c.Filled(k)
	if !filled.Written() || !c.within(filled.Middle(), gasComes.Duration()) || c.Now.Before(filled.Time) {
		return ""
	}
	return fmt.Sprintf(" Its gas is still coming until about %s: the sooner it is cold, the less of it comes.", filled.Middle().Add(gasComes.Duration()).Format("2 January"))
}

// Takes is the condition that a container can be brought to at its warmest place:
// by its maker's rating, or for a soft bag by what makers of bags advise. ok is
// false where nobody has said.
func Takes(s *figures.Sheet, k figures.Container) (most q.Carbonation, ok bool) {
	if k.Is(journal.SoftBag) {
		return q.Carbonation(bagVolumes.Number), true
	}
	f, ok := s.Find(figures.IDConditionLimit, k.Key)
	return q.Carbonation(f.Value), ok
}

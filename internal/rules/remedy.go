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
	f, ok := c.Find("pressure-warmest", k.Key)
	if !ok {
		return ""
	}
	heat, at := c.WarmestPlace(k)
	text := "At the warmest"
	if at.Written() {
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
	free, ok := c.Find("gas-free", k.Key)
	slack, known := c.Find("bag-slack", k.Key)
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

// easing says what can still be done about too much gas in a container: cold for
// all of them, venting for those that can be, and drinking it before the gas has
// come.
func (c *inspection) easing(k figures.Container, aim q.Carbonation) string {
	if k.Forced() {
		return "Turn the regulator down, vent the headspace, and let it settle for a day; repeat until it is right."
	}
	if k.Is(journal.Bottle) || k.Vessel == nil {
		return c.easingBottles(k)
	}
	heat, ok := c.HeatHolding(aim)
	if !ok {
		return c.Text("Chill it to about {4 °C}, then vent it a little at a time and taste between.") + c.stillComing(k)
	}
	held, _ := c.HeldAt(heat)
	return fmt.Sprintf("Chill it to %s and vent it there, slowly, until it is quiet: it then keeps %s.", c.Heat(heat.Celsius()), c.Measure(held)) + c.stillComing(k)
}

// easingBottles: a bottle cannot be vented to a measure, only kept cold.
func (c *inspection) easingBottles(k figures.Container) string {
	cold, ok := c.PressureAt(k, q.Celsius(4))
	if !ok {
		return "Keep it as cold as you can, boxed and covered, and drink it soon; open it cold, over a sink." + c.stillComing(k)
	}
	return c.Sayf("Keep it at {4 °C}, boxed and covered: there it is %s. Open it cold, over a sink, and drink it soon.", c.Measure(cold)) + c.stillComing(k)
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
	f, ok := s.Find("condition-limit", k.Key)
	return q.Carbonation(f.Value), ok
}

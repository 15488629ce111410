package rules

import (
	"fmt"
	"math"
	"slices"

	"gylebook/internal/assay"
	"gylebook/internal/figures"
	"gylebook/internal/notice"
	q "gylebook/internal/quantity"
)

// fermentRules are about the first days of fermentation.
func fermentRules() []Rule {
	return []Rule{
		{
			ID: "slow-start", Watches: from(figures.Working), Worst: notice.Mend, Source: common,
			When: say("fallen by less than %s %s (look) or %s (mend) after pitching", assay.BegunBy, assay.SlowLook, slowMend),
			Why:  "Weak or cold yeast gives spoilage its chance.",
			Do:   "Bring it to {20 °C}, rouse it, and pitch fresh yeast today. Smell it first: sour or drains means let it go.",
			Next: "pitch fresher yeast, more of it, or warmer.", mendable: (*inspection).working,
			look: once(slowStart),
		},
		{
			ID: "too-hot", Watches: from(figures.Working), Worst: notice.Look, Source: common,
			When: say("in the first %s more than %s above the yeast's card, or over %s without one",
				assay.YoungFor, assay.HotOverCard, assay.PitchWarmest),
			Why:  "Early heat makes fusel and solvent notes that no rest takes out.",
			Do:   "Cool it gently, {K|a degree or two|two or three degrees} in six hours: wet towels and a draught will do.",
			look: once(tooHot),
		},
		{
			ID: "chilled-early", Watches: from(figures.Working), Worst: notice.Look, Source: common,
			When: say("cooled by %s at %q an hour or faster, with more than %s left to fall",
				assay.ChilledBy, assay.ChilledRate, assay.ChilledLeft),
			Why:  "The yeast drops out, and the butter it would have cleared away stays.",
			Do:   "Bring it back to {18 or 20 °C}, rouse it gently, and wait for two gravities that agree.",
			look: once(chilledEarly),
		},
	}
}

func slowStart(c *inspection) Found {
	last, fallen, ok := c.LastFall()
	since := last.When.Sub(c.PitchedAt())
	if c.DrawnFrom() || c.PitchedAt().IsZero() || !ok || assay.IsOver(fallen, assay.BegunBy) || since < assay.SlowLook.Duration() {
		return Found{}
	}
	fallen.Value = max(fallen.Value, 0)
	f := Found{
		Where: last.Where,
		Says:  fmt.Sprintf("%.0f hours after pitching it has fallen by no more than %s.", since.Hours(), assay.Points(fallen)),
	}
	if since < slowMend.Duration() {
		f.Severity, f.Do = notice.Look, c.Text("Bring it to {20 °C}, rouse it gently, and read it again tomorrow.")
	}
	return f
}

func tooHot(c *inspection) Found {
	_, high, whose := c.Workable(c.FirstPitch(), assay.HotOverCard.Number)
	hottest, ok := c.HottestYoung()
	if !ok || !assay.IsOver(hottest, high) {
		return Found{}
	}
	f := Found{Where: c.LastOf(hottest), Says: fmt.Sprintf("It worked at %s in its first %q; %s.", c.Measure(hottest), assay.YoungFor, whose)}
	if !c.working() || !c.within(c.PitchedAt(), assay.YoungFor.Duration()+assay.FirstDay.Duration()) || c.cooledSince(high) {
		f.Next = fmt.Sprintf("keep it cooler for the first %q.", assay.YoungFor)
	}
	return f
}

func chilledEarly(c *inspection) Found {
	chill, ok := c.EarlyChill()
	if !ok {
		return Found{}
	}
	f := Found{Where: chill.Where, Says: chill.Says}
	if !chill.Line.Written() || !c.working() {
		f.Next = "keep it warm until the gravity has stood still for three days."
	}
	return f
}

// loggerRules are about what a floating logger wrote.
func loggerRules() []Rule {
	return []Rule{{
		ID: "logger-disagrees", Watches: from(figures.Working), Worst: notice.Look, Source: common,
		When: say("a logger more than %s off a hydrometer after its offset, or a change of more than %s within an hour, "+
			"or gravities that no beer has", loggerOffBy, loggerJumps),
		Next: "read a hydrometer beside the float, at the start and at the end.", mendable: (*inspection).working,
		look: func(c *inspection) []Found {
			return slices.Concat(once(loggerImpossible)(c), once(loggerOff)(c), once(loggerJumped)(c))
		},
	}}
}

func loggerImpossible(c *inspection) Found {
	check := c.LogCheck()
	if float64(check.Impossible) <= loggerStray.Number/100*float64(check.Rows) {
		return Found{}
	}
	return Found{
		Where: c.Gyle.Logger.Where,
		Says:  fmt.Sprintf("Of the logger's %d rows, %d have a gravity that no beer has.", check.Rows, check.Impossible),
		Why:   "Those rows are left out. A float in the air writes so, and a column in another unit.",
		Do:    "Look at the file. If its gravities are in degrees, name the unit in its first row: gravity (plato).",
	}
}

func loggerOff(c *inspection) Found {
	check := c.LogCheck()
	off := figures.Figure{Value: math.Abs(check.OffBy), PlusMinus: check.OffPlusMinus}
	if !assay.IsOver(off, loggerOffBy) {
		return Found{}
	}
	return Found{
		Where: check.Off.Where,
		Says: fmt.Sprintf("The logger stands %s %s this reading, %s, though its offset is allowed for.", roughly(off.Value),
			either(check.OffBy < 0, "below", "above"), assay.SG(check.Off.Gravity.Value)),
		Why: "Foam or hops tilt a float, and gas lifts a hydrometer: one of the two is wrong.",
		Do:  "Read a hydrometer again, the gas shaken out of the sample; the float's offset is taken from it.",
	}
}

func loggerJumped(c *inspection) Found {
	check := c.LogCheck()
	at := check.Jumped.In(c.Now.Location())
	if math.Abs(check.JumpedBy) <= loggerJumps.Number || c.SugarAdded(at.Add(-assay.FirstDay.Duration()), at) {
		return Found{}
	}
	return Found{
		Where: c.Gyle.Logger.Where,
		Says: fmt.Sprintf("The logger %s by %s within an hour, about %s.", either(check.JumpedBy < 0, "fell", "rose"),
			roughly(math.Abs(check.JumpedBy)), at.Format("15:04 on 2 January")),
		Why: "Beer does not: foam or hops have tilted the float, or somebody moved it.",
		Do:  "Read a hydrometer beside it; the float's offset is taken from that.",
	}
}

// roughly is a number of points without the digits that a float does not know.
func roughly(points float64) string { return "about " + q.Fixed(points, 0) + " points" }

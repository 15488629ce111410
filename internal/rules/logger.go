package rules

import (
	"fmt"
	"math"

	"gylebook/internal/assay"
	"gylebook/internal/figures"
	"gylebook/internal/notice"
	q "gylebook/internal/quantity"
)

const (
	// loggerOffBy is how many points a logger that was set right may still be off a
	// reading by hand, and loggerJumps how many its gravity may change within an
	// hour: no beer falls so fast (common practice, no source).
	loggerOffBy = 3.0
	loggerJumps = 4.0
	// loggerStray is the share of a logger's rows that may be impossible, since a
	// float writes in the air too before it goes in (common practice, no source).
	loggerStray = 0.05
)

// loggerRules are about what a floating logger wrote.
func loggerRules() []Rule {
	return []Rule{{
		ID: "logger-disagrees", Watches: from(figures.Working), Worst: notice.Look, Source: assay.CommonPractice,
		When:    "a logger more than 3 points off a hydrometer after its offset, or a change of more than 4 points within an hour, or gravities that no beer has",
		Example: Example{In: "logged", Raises: []string{"readings[2].gravity=1.020"}, Spares: []string{"readings[2].gravity=1.0125"}, On: "2026-03-06"},
		look:    loggerDisagrees,
	}}
}

func loggerDisagrees(c *inspection) []Found {
	check := c.LogCheck()
	var found []Found
	for _, look := range []func(*inspection, figures.LogCheck) (Found, bool){loggerImpossible, loggerOff, loggerJumped} {
		if f, ok := look(c, check); ok {
			f.Severity = notice.Look
			if c.Stage != figures.Working {
				f = nextTime(f, "read a hydrometer beside the float, at the start and at the end.")
			}
			found = append(found, f)
		}
	}
	return found
}

func loggerImpossible(c *inspection, check figures.LogCheck) (Found, bool) {
	return Found{
		Where: c.Gyle.Logger.Where,
		Says:  fmt.Sprintf("Of the logger's %d rows, %d have a gravity that no beer has.", check.Rows, check.Impossible),
		Why:   "Those rows are left out. A float in the air writes so, and a column in another unit.",
		Do:    "Look at the file. If its gravities are in degrees, name the unit in its first row: gravity (plato).",
	}, float64(check.Impossible) > loggerStray*float64(check.Rows)
}

func loggerOff(c *inspection, check figures.LogCheck) (Found, bool) {
	off := figures.Figure{Value: math.Abs(check.OffBy), PlusMinus: check.OffPlusMinus}
	side := "above"
	if check.OffBy < 0 {
		side = "below"
	}
	return Found{
		Where: check.Off.Where,
		Says:  fmt.Sprintf("The logger stands %s %s this reading, %s, though its offset is allowed for.", roughly(off.Value), side, assay.SG(check.Off.Gravity.Value)),
		Why:   "Foam or hops tilt a float, and gas lifts a hydrometer: one of the two is wrong.",
		Do:    "Read a hydrometer again, the gas shaken out of the sample; the float's offset is taken from it.",
	}, assay.Over(off, loggerOffBy) >= assay.Probably
}

func loggerJumped(c *inspection, check figures.LogCheck) (Found, bool) {
	at, did := check.Jumped.In(c.Now.Location()), "rose"
	if check.JumpedBy < 0 {
		did = "fell"
	}
	return Found{
		Where: c.Gyle.Logger.Where,
		Says:  fmt.Sprintf("The logger %s by %s within an hour, about %s.", did, roughly(math.Abs(check.JumpedBy)), at.Format("15:04 on 2 January")),
		Why:   "Beer does not: foam or hops have tilted the float, or somebody moved it.",
		Do:    "Read a hydrometer beside it; the float's offset is taken from that.",
	}, math.Abs(check.JumpedBy) > loggerJumps && !c.SugarAdded(at.Add(-assay.FirstDay), at)
}

// roughly is a number of points without the digits that a float does not know.
func roughly(points float64) string { return "about " + q.Fixed(points, 0) + " points" }

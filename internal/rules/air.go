package rules

import (
	"fmt"
	"strings"

	"gylebook/internal/assay"
	"gylebook/internal/figures"
	"gylebook/internal/notice"
)

// airRules are about oxygen.
func airRules() []Rule {
	return []Rule{
		{
			ID: "oxygen-count", Watches: from(figures.Working), Worst: notice.Mend, Source: common,
			When: say("open moves, stirring and part-filled containers after the last %s: one (note), two (look), three or more (mend)",
				assay.LastPoints),
			look: oxygenCount,
		},
	}
}

func oxygenCount(c *inspection) []Found {
	times, where := c.Airings(c.Come(c.Gyle.Racked.On), c.Live(), figures.Container.Called)
	if len(times) == 0 {
		return nil
	}
	f := Found{
		Severity: notice.Note, Where: where,
		Says: fmt.Sprintf("Air has got at it since it slowed: %s.", strings.Join(times, ", ")),
		Why:  "Each time stales beer towards paper and sherry, the warmer the sooner.",
	}
	switch {
	case c.Stage == figures.Empty || len(times) == 1:
		return []Found{nextTime(f, "siphon it under the surface, fill from the bottom, and leave little air above it.")}
	case len(times) == 2:
		f.Severity = notice.Look
	default:
		f.Severity = notice.Mend
	}
	f.Do = "Leave it closed from now on, keep it cold, and drink it within the month."
	return []Found{f}
}

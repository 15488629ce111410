package rules

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"gylebook/internal/assay"
	"gylebook/internal/figures"
	"gylebook/internal/notice"
	"gylebook/internal/planning"
)

// partyRules are about a party that beer on its way can no longer be ready for.
func partyRules() []Rule {
	return []Rule{{
		ID: "plan-late", Watches: []figures.Stage{figures.Paper, figures.Copper, figures.Working}, Worst: notice.Mend, Source: "common practice, with the limits of trade articles on cask care",
		When:    "not packaged yet, and counted forward from now (or from the day it is to be brewed) it is ready for its party only by hurrying (look), or not at all (mend)",
		Example: Example{In: "planned", Raises: []string{"brewed=2026-03-25", "party.on=2026-04-04"}, Spares: []string{"brewed=2026-03-25", "party.on=2026-05-09"}},
		look:    planLate,
	}}
}

func planLate(c *inspection) []Found {
	all := planning.Timetables(c.Sheet)
	if len(all) == 0 {
		return nil
	}
	soonest := slices.MinFunc(all, func(a, b planning.Timetable) int { return a.Ready().Compare(b.Ready()) })
	party := c.Gyle.Party.On
	if soonest.Late > 0 {
		return []Found{{
			Severity: notice.Mend, Where: party.Where,
			Says: fmt.Sprintf("It cannot be ready for the party on %s: hurried as far as is right, in a %s, it is ready on %s.", party.Time.Format("2 January"), strings.TrimSuffix(soonest.Name, "s"), soonest.Ready().Format("2 January")),
			Why:  "Two gravities that agree, " + c.ApartBy() + " apart, and a day standing still cannot be given up: one keeps bottles whole, the other keeps beer clear.",
			Do:   fmt.Sprintf("Move the party by %s, or pour another beer.", assay.DaysOf(time.Duration(soonest.Late)*24*time.Hour)),
		}}
	}
	if slices.ContainsFunc(all, func(t planning.Timetable) bool { return t.Hurried == 0 && t.Late == 0 }) || soonest.Hurried < hurryWorthAWord {
		return nil
	}
	return []Found{{
		Severity: notice.Look, Where: party.Where,
		Says: fmt.Sprintf("For the party on %s it lacks %s of its usual time, and can be ready only by hurrying.", party.Time.Format("2 January"), assay.DaysOf(time.Duration(soonest.Hurried)*24*time.Hour)),
		Why:  "Conditioned warmer and settled for less long, it may be less bright and less lively.",
		Do:   c.Sayf("Condition it at {18 °C}, never over {19 °C} in a cask, and leave two level gravities %s apart as they are.", c.ApartBy()),
	}}
}

// hurryWorthAWord is how many days a plan may lack before anybody is told (common
// practice, no source).
const hurryWorthAWord = 2

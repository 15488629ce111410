package findings

import (
	"fmt"
	"strings"

	"gylebook/internal/figures"
	"gylebook/internal/journal"
	"gylebook/internal/notice"
	q "gylebook/internal/quantity"
)

// airRules are about oxygen.
func airRules() []Rule {
	return []Rule{
		{
			ID: "oxygen-count", Watches: from(figures.Working), Worst: notice.Mend, Source: commonPractice,
			When:    "open moves, stirring and part-filled containers after the last 10 points: one (note), two (look), three or more (mend)",
			Example: Example{In: "barrelled", Raises: []string{"racked.moved=open", "packages[0].purged=false", "done[+].did=stirred", "done[0].when=2026-03-11"}, Spares: []string{"racked.moved=open", "packages[0].purged=false"}},
			look:    oxygenCount,
		},
	}
}

func oxygenCount(c *Case) []Found {
	times, where := c.airings()
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

// airings are the times that air got at the beer, in words, and the line of the
// first.
func (c *Case) airings() (times []string, where journal.Where) {
	tell := func(at journal.Where, what string) {
		if len(times) == 0 {
			where = at
		}
		times = append(times, what)
	}
	if racked := c.Gyle.Racked; c.Come(racked.On) && racked.Moved.Is(journal.MovedOpen) {
		tell(racked.Moved.Where, "racked open")
	}
	for _, d := range c.deeds(journal.Stirred, journal.Opened) {
		if c.slowedBy(d.When) {
			tell(d.Where, d.Did.String()+" on "+d.When.Time.Format("2 January"))
		}
	}
	for _, k := range c.live() {
		if c.partFilled(k) {
			tell(whereOf(k), "room for air in "+k.Called())
		}
	}
	return times, where
}

// slowedBy tells whether, at a moment, the gravity had come within its last ten
// points.
func (c *Case) slowedBy(m journal.Moment) bool {
	readings := c.Sightings()
	if len(readings) == 0 {
		return c.Stage > figures.Working
	}
	last := readings[len(readings)-1].Gravity.Value.Points()
	then := last
	if og, ok := c.Find("og", ""); ok {
		then = q.Gravity(og.Value).Points()
	}
	for _, r := range readings {
		if !r.When.After(m.Middle()) {
			then = r.Gravity.Value.Points()
		}
	}
	return then-last <= lastPoints
}

// partFilled tells whether a container that keeps its shape was left with more
// room than it should have, and with air in it.
func (c *Case) partFilled(k figures.Container) bool {
	f, ok := c.Find("headspace", k.Key)
	capacity := c.CapacityOf(k)
	if !ok || capacity <= 0 || k.Package.Purged.Yes() || k.Package.Gas.Set.Written() {
		return false
	}
	f.Value, f.PlusMinus = f.Value/capacity, doubt(f.PlusMinus)/capacity
	return over(f, headspaceHigh) == Surely
}

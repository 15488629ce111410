package findings

import (
	"fmt"
	"math"
	"time"

	"gylebook/internal/figures"
	"gylebook/internal/journal"
	"gylebook/internal/notice"
	q "gylebook/internal/quantity"
)

// What a finding asks for depends on the clock: a mash can be mended for an hour,
// a copper until its wort is cooled. After that the same test is a note for the
// next gyle, and says so.

// nextTime is a finding about what can no longer be mended.
func nextTime(f Found, do string) Found {
	f.Severity, f.Do = notice.Note, "Next time: "+do
	return f
}

// brewDay tells whether it is the day of brewing, and no yeast is in yet.
func (c *Case) brewDay() bool {
	brewed := c.Gyle.Brewed
	return c.Stage == figures.Copper && brewed.Written() && c.Now.Before(brewed.Time.AddDate(0, 0, 1))
}

// mashing tells whether the mash still stands: brew day, and no wort in the
// copper yet.
func (c *Case) mashing() bool {
	return c.Stage == figures.Copper && !c.Gyle.Copper.Before.Volume.Written() && !c.Come(c.Gyle.Copper.Started)
}

// runningOff tells whether wort may still be running into the copper.
func (c *Case) runningOff() bool {
	return c.Stage == figures.Copper && !c.Gyle.Copper.After.Written() && !c.Come(c.Gyle.Copper.Started)
}

// boiling tells whether the copper's additions can still be changed.
func (c *Case) boiling() bool {
	return c.Stage <= figures.Copper && !c.Gyle.Copper.After.Written() && !c.Gyle.Fermenter.Volume.Written()
}

// within tells whether a moment that has come lies no further back than d.
func (c *Case) within(m time.Time, d time.Duration) bool {
	return !m.IsZero() && c.Now.Sub(m) <= d
}

// deeds are what was done so far, of the given kinds, in the entry's order.
func (c *Case) deeds(kinds ...journal.Act) []journal.Deed {
	var done []journal.Deed
	for _, d := range c.Gyle.Done {
		if d.Did.Is(kinds...) && c.Come(d.When) {
			done = append(done, d)
		}
	}
	return done
}

// about tells whether a deed was done to a container, or to all.
func about(d journal.Deed, k figures.Container) bool {
	return !d.Package.Written() || d.Package.N == k.Index
}

// apart is how far a figure lies from a value, with the figure's ±.
func apart(f figures.Figure, from float64) figures.Figure {
	f.Value = math.Abs(f.Value - from)
	return f
}

// inPoints is a gravity's figure in points.
func inPoints(f figures.Figure) figures.Figure {
	f.Value, f.PlusMinus = q.Gravity(f.Value).Points(), 1000*f.PlusMinus
	return f
}

// points prints how many points, as far as their doubt supports.
func points(f figures.Figure) string {
	value, off := q.Rounded(f.Value, f.PlusMinus)
	if off == "" {
		return value + " points"
	}
	return value + " ± " + off + " points"
}

// outside compares a figure with both ends of a range.
func outside(f figures.Figure, low, high float64) Certainty { return max(over(f, high), under(f, low)) }

// daysOf prints a span in whole days, as in "for 3 days".
func daysOf(d time.Duration) string {
	n := int(math.Round(d.Hours() / 24))
	if n == 1 {
		return "a day"
	}
	return fmt.Sprintf("%d days", n)
}

// monthsOf is a span in months of 30.4 days.
func monthsOf(d time.Duration) float64 { return d.Hours() / 24 / 30.4 }

package rules

import (
	"time"

	"gylebook/internal/figures"
	"gylebook/internal/notice"
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
func (c *inspection) brewDay() bool {
	brewed := c.Gyle.Brewed
	return c.Stage == figures.Copper && brewed.Written() && c.Now.Before(brewed.Time.AddDate(0, 0, 1))
}

// mashing tells whether the mash still stands: brew day, and no wort in the
// copper yet.
func (c *inspection) mashing() bool {
	return c.Stage == figures.Copper && !c.Gyle.Copper.Before.Volume.Written() && !c.Come(c.Gyle.Copper.Started)
}

// runningOff tells whether wort may still be running into the copper.
func (c *inspection) runningOff() bool {
	return c.Stage == figures.Copper && !c.Gyle.Copper.After.Written() && !c.Come(c.Gyle.Copper.Started)
}

// boiling tells whether the copper's additions can still be changed.
func (c *inspection) boiling() bool {
	return c.Stage <= figures.Copper && !c.Gyle.Copper.After.Written() && !c.Gyle.Fermenter.Volume.Written()
}

// within tells whether a moment that has come lies no further back than d.
func (c *inspection) within(m time.Time, d time.Duration) bool {
	return !m.IsZero() && c.Now.Sub(m) <= d
}

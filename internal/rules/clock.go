package rules

import (
	"time"

	"gylebook/internal/figures"
)

// What a finding asks for depends on the clock: a mash can be mended for an hour,
// a copper until its wort is cooled. After that the same test is a note for the
// next gyle, and says so.

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

// notMashed tells whether the mash liquor can still be changed.
func (c *inspection) notMashed() bool { return c.mashing() || c.Stage == figures.Paper }

// notPitched tells whether the yeast can still be changed.
func (c *inspection) notPitched() bool { return c.Stage <= figures.Copper }

// spargeable tells whether the sparge can still be changed.
func (c *inspection) spargeable() bool { return c.runningOff() || c.Stage == figures.Paper }

// working and notDrunk tell whether the beer still works, and whether there is any.
func (c *inspection) working() bool  { return c.Stage == figures.Working }
func (c *inspection) notDrunk() bool { return c.Stage < figures.Empty }

package planning

import (
	"time"

	"gylebook/internal/assay"
	"gylebook/internal/figures"
	"gylebook/internal/journal"
)

// stepDone tells whether a step was done, and when as far as the entry says.
func (c *planner) stepDone(id string, w way) (on time.Time, done bool) {
	switch id {
	case "brew":
		if c.Gyle.Brewed.Written() {
			on = c.Gyle.Brewed.Middle()
		}
		return on, c.Stage >= figures.Copper
	case "level", "stable":
		return c.levelDone(id == "stable")
	case "rack":
		if len(w.containers) > 0 {
			filled := c.Filled(w.containers[0])
			return filled.Middle(), c.Come(filled)
		}
		return c.Gyle.Racked.On.Middle(), c.Come(c.Gyle.Racked.On)
	case "cool":
		return c.deedDone(w, func(k figures.Container) journal.Moment { return c.Cellared(k).From }, journal.Chilled)
	case "vent":
		return c.deedDone(w, nil, journal.Vented, journal.Burped)
	case "clean":
		return c.lineCleaned()
	}
	return time.Time{}, false
}

// levelDone tells whether the gravity was first read at its end, or has been shown
// to stand still.
func (c *planner) levelDone(stable bool) (on time.Time, done bool) {
	st := c.Stability()
	if len(st.Level) == 0 || c.Stage < figures.Working {
		return time.Time{}, c.Stage >= figures.Maturing
	}
	first, last := st.Level[0], st.Level[len(st.Level)-1]
	switch {
	case stable:
		return last.When, st.Stable
	case st.Stable || len(st.Level) > 1:
		return first.When, true
	}
	expected, ok := c.Find(figures.IDFGExpected, "")
	return first.When, ok && 1000*(float64(first.Gravity.Value)-expected.Value) <= assay.NearExpected.Number
}

// deedDone tells whether something was done to the containers: by their own key, or
// by a deed.
func (c *planner) deedDone(w way, own func(figures.Container) journal.Moment, kinds ...journal.Act) (on time.Time, done bool) {
	for _, k := range w.containers {
		if own != nil && c.Come(own(k)) {
			return own(k).Middle(), true
		}
		for _, d := range c.Deeds(kinds...) {
			if assay.Concerns(d, k) && !d.When.Time.Before(c.Filled(k).Time) {
				return d.When.Middle(), true
			}
		}
	}
	return time.Time{}, false
}

// lineCleaned tells whether the line was cleaned within two days of the party.
func (c *planner) lineCleaned() (on time.Time, done bool) {
	since := c.Gyle.Party.On.Time.AddDate(0, 0, -2)
	for _, d := range c.Deeds(journal.Cleaned) {
		if assay.HasWord(d.What.Text, "line*", "pump*", "tap*", "engine") && !d.When.Time.Before(since) {
			return d.When.Middle(), true
		}
	}
	return time.Time{}, false
}

// stepPlanned is the day on which the entry itself plans a step.
func (c *planner) stepPlanned(id string, w way) (on time.Time, planned bool) {
	var m journal.Moment
	switch id {
	case "brew":
		m = c.Gyle.Brewed
	case "rack":
		m = c.Gyle.Racked.On
		if len(w.containers) > 0 {
			m = c.Filled(w.containers[0])
		}
	case "cool":
		if len(w.containers) > 0 {
			m = c.Cellared(w.containers[0]).From
		}
	}
	return m.Time, m.Written() && !c.Come(m)
}

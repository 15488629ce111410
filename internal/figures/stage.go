package figures

import (
	"time"

	"gylebook/internal/journal"
)

// Stage is how far a gyle has come. It is worked out from the entry and the
// clock: the last rung whose event is dated at or before now.
type Stage int

// The stages, in order.
const (
	Paper    Stage = iota // not yet brewed
	Copper                // brew day: brewed, not yet pitched
	Working               // pitched
	Maturing              // racked or packaged
	Pouring               // something broached
	Empty                 // everything emptied
)

var stageWords = [...]string{"paper", "copper", "working", "maturing", "pouring", "empty"}

// String is the stage's word.
func (s Stage) String() string { return stageWords[s] }

// Stages lists them all, in order.
func Stages() []Stage { return []Stage{Paper, Copper, Working, Maturing, Pouring, Empty} }

// stageOf works the stage out. Dates in the future are plans, not mistakes.
func stageOf(g *journal.Gyle, now time.Time) Stage {
	past := func(m journal.Moment) bool { return m.Written() && !m.Time.After(now) }
	switch {
	case allEmptied(g, past):
		return Empty
	case past(g.Served.Broached) || anyPackage(g, past, func(p journal.Package) journal.Moment { return p.Broached }) || anyPoured(g, past):
		return Pouring
	case past(g.Racked.On) || anyPackage(g, past, func(p journal.Package) journal.Moment { return p.On }) || drawn(g, past) || filledUndated(g, past):
		return Maturing
	case pitched(g, past):
		return Working
	case past(g.Brewed) || past(g.Mash.Started) || past(g.Copper.Started):
		return Copper
	}
	return Paper
}

func allEmptied(g *journal.Gyle, past func(journal.Moment) bool) bool {
	if past(g.Served.Emptied) {
		return true
	}
	for _, p := range g.Packages {
		if !past(p.Emptied) {
			return false
		}
	}
	return len(g.Packages) > 0
}

func anyPackage(g *journal.Gyle, past func(journal.Moment) bool, event func(journal.Package) journal.Moment) bool {
	for _, p := range g.Packages {
		if past(event(p)) {
			return true
		}
	}
	return false
}

func anyPoured(g *journal.Gyle, past func(journal.Moment) bool) bool {
	for _, p := range g.Poured {
		if past(p.When) {
			return true
		}
	}
	return false
}

// drawn tells whether beer has come from another gyle: such a gyle has no brew
// day and begins as beer.
func drawn(g *journal.Gyle, past func(journal.Moment) bool) bool {
	for _, d := range g.DrawnFrom {
		if past(d.On) {
			return true
		}
	}
	return false
}

// pitched tells whether yeast is in: it says so, or there is wort in the
// fermenter and brew day has come, or a reading was taken after brew day.
func pitched(g *journal.Gyle, past func(journal.Moment) bool) bool {
	for _, p := range g.Yeast {
		if p.Pitched.Written() {
			if past(p.Pitched) {
				return true
			}
		}
	}
	if g.Fermenter.Volume.Written() && past(g.Brewed) && !plannedPitch(g, past) {
		return true
	}
	for _, r := range g.Readings {
		if past(r.When) && g.Brewed.Written() && r.When.Time.After(g.Brewed.Time.AddDate(0, 0, 1)) {
			return true
		}
	}
	return false
}

// plannedPitch tells whether the entry dates the pitching and that is to come. A yeast
// without a day is in.
func plannedPitch(g *journal.Gyle, past func(journal.Moment) bool) bool {
	planned := false
	for _, p := range g.Yeast {
		switch {
		case p.Into.Is(journal.IntoPackage) || p.Package.Written():
		case !p.Pitched.Written():
			return false
		case !past(p.Pitched):
			planned = true
		}
	}
	return planned
}

// filledUndated tells whether containers without a day of filling are filled all the
// same: something is dated that only a filled container can be.
func filledUndated(g *journal.Gyle, past func(journal.Moment) bool) bool {
	for i := range g.Packages {
		if past(filledBy(g, i)) {
			return true
		}
	}
	return false
}

// filledBy is the first moment at which a container must have been filled, by what is
// dated of it; not written where nothing is.
func filledBy(g *journal.Gyle, of int) (first journal.Moment) {
	p := &g.Packages[of]
	take := func(m journal.Moment) {
		if m.Written() && (!first.Written() || m.Time.Before(first.Time)) {
			first = m
		}
	}
	for _, m := range []journal.Moment{
		p.Priming.On, p.Gas.From, p.Spunding.From, p.Condition.From, p.Cellared.From, p.Broached, p.Emptied,
		g.Priming.On, g.Condition.From, g.Cellared.From, g.Served.Broached, g.Served.Emptied,
	} {
		take(m)
	}
	ofIt := func(w journal.Whole) bool { return w.Written() && w.N == of }
	for i := range g.Poured {
		if d := &g.Poured[i]; !d.Package.Written() || ofIt(d.Package) {
			take(d.When)
		}
	}
	for i := range g.Tastings {
		if t := &g.Tastings[i]; ofIt(t.Package) {
			take(t.When)
		}
	}
	for i := range g.Readings {
		if r := &g.Readings[i]; ofIt(r.Package) {
			take(r.When)
		}
	}
	for i := range g.Done {
		if d := &g.Done[i]; ofIt(d.Package) {
			take(d.When)
		}
	}
	return first
}

// MayBeFilled tells whether a container that nobody dates may be filled already: two
// weeks after brew day, or where brew day is not known. Until then it is a plan.
func (s *Sheet) MayBeFilled(c Container) bool {
	if s.Filled(c).Written() {
		return false
	}
	const usualFermentation = 14 * 24 * time.Hour
	return !s.Gyle.Brewed.Written() || s.Now.Sub(s.Gyle.Brewed.Time) > usualFermentation
}

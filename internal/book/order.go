package book

import (
	"cmp"
	"slices"
	"strings"
	"time"

	"gylebook/internal/journal"
)

// begun is when a gyle was brewed, else the first date of anything that was
// done to it; the zero time where the entry has no date. When its yeast was
// packed or a party is to be does not say when it began.
func begun(g *journal.Gyle) time.Time {
	if g.Brewed.Written() {
		return g.Brewed.Time
	}
	var first time.Time
	for _, m := range moments(g) {
		if m.Written() && (first.IsZero() || m.Time.Before(first)) {
			first = m.Time
		}
	}
	return first
}

// moments are those of everything done to the beer.
func moments(g *journal.Gyle) []journal.Moment {
	all := []journal.Moment{
		g.Mash.Started, g.Copper.Started, g.Racked.On, g.Priming.On, g.Condition.From, g.Cellared.From,
		g.Served.Broached, g.Served.Emptied,
	}
	for _, d := range g.DrawnFrom {
		all = append(all, d.On)
	}
	for _, p := range g.Yeast {
		all = append(all, p.Pitched)
	}
	for _, r := range g.Readings {
		all = append(all, r.When)
	}
	for _, p := range g.Packages {
		all = append(all, p.On, p.Broached, p.Emptied)
	}
	for _, p := range g.Poured {
		all = append(all, p.When)
	}
	for _, t := range g.Tastings {
		all = append(all, t.When)
	}
	return all
}

// byBrewing orders gyles by the day of brewing, the undated last.
func byBrewing(a, b *Gyle) int {
	if a.Begun.IsZero() != b.Begun.IsZero() {
		if b.Begun.IsZero() {
			return -1
		}
		return 1
	}
	return cmp.Or(a.Begun.Compare(b.Begun), cmp.Compare(a.Number.N, b.Number.N), strings.Compare(a.File, b.File))
}

// latestFirst is the gyles in the order of pages: the other way round.
func latestFirst(gyles []*Gyle) []*Gyle {
	turned := slices.Clone(gyles)
	slices.Reverse(turned)
	return turned
}

// day is the calendar day of a moment, in its own zone; all of a book's are in
// the journal's.
func day(t time.Time) time.Time {
	y, m, d := t.Date()
	return time.Date(y, m, d, 0, 0, 0, 0, time.UTC)
}

// midnight is the beginning of a moment's day, in its own zone.
func midnight(t time.Time) time.Time {
	y, m, d := t.Date()
	return time.Date(y, m, d, 0, 0, 0, 0, t.Location())
}

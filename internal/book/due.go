package book

import (
	"time"

	"gylebook/internal/assay"
	"gylebook/internal/figures"
	"gylebook/internal/journal"
)

// firstReading is when the first gravity is due: a second day's reading shows that it
// works (common practice, no source). The next is due by the limit of readings-sparse,
// and one that agrees by that of figures.Stability.
const firstReading = 48 * time.Hour

// readingDue is the next gravity to read, while the beer works.
func (d *diary) readingDue() {
	due, from, ok := nextDue(d.g.Sheet)
	if !ok {
		return
	}
	d.events = append(d.events, Event{
		Gyle: d.g, What: ReadingDue, At: midnight(due.In(d.b.zone())), AllDay: true, Planned: due.After(d.b.Now),
		Says: "Read the gravity", Where: from, key: string(ReadingDue),
	})
}

func nextDue(s *figures.Sheet) (due time.Time, from journal.Where, ok bool) {
	if s.Stage != figures.Working {
		return due, from, false
	}
	level := s.Stability()
	switch {
	case level.Stable:
		return due, from, false
	case len(level.Level) == 0:
		pitched := firstPitch(s.Gyle)
		return pitched.Middle().Add(firstReading), pitched.Where, pitched.Written()
	}
	first, last := level.Level[0], level.Level[len(level.Level)-1]
	if len(level.Level) > 1 {
		return first.When.Add(level.Needs), last.Where, true
	}
	return last.When.Add(assay.HabitsOf(s.Settings).Span(assay.ReadingsEvery)), last.Where, true
}

// firstPitch is when the yeast went in, brew day where that is not said.
func firstPitch(g *journal.Gyle) journal.Moment {
	pitched := g.Brewed
	found := false
	for _, p := range g.Yeast {
		if p.Pitched.Written() && (!found || p.Pitched.Time.Before(pitched.Time)) {
			pitched, found = p.Pitched, true
		}
	}
	return pitched
}

package site

import (
	"time"

	"gylebook/internal/book"
)

// lastEvent is when the latest thing that a gyle's entry tells of happened: the
// nearest to "last changed" that does not depend on a file's date.
func (s *Site) lastEvent(g *book.Gyle) time.Time {
	last := g.Begun
	take := func(t time.Time) {
		if t.After(last) && !t.After(s.book.Now) {
			last = t
		}
	}
	for _, e := range s.book.Events(g) {
		if e.What != book.Reckoned && e.What != book.ReadingDue {
			take(e.At)
		}
	}
	for _, r := range g.Readings {
		take(r.When.Middle())
	}
	for _, t := range g.Tastings {
		take(t.When.Middle())
	}
	for _, d := range g.Done {
		take(d.When.Middle())
	}
	return last
}

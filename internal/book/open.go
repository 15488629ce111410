package book

import (
	"sync"
	"time"

	"gylebook/internal/journal"
	"gylebook/internal/parallel"
	"gylebook/internal/store"
)

// Open links a read journal at a clock. It never fails: what cannot be linked or
// worked out is among the notices.
func Open(j *journal.Journal, now time.Time) *Book { return OpenWith(nil, j, now) }

// OpenWith is Open where what is dear to work out may have been kept: what an entry
// says, what a gyle teaches, its figures and findings. All that leads from one thing to
// another is linked anew.
func OpenWith(kept *store.Store, j *journal.Journal, now time.Time) *Book {
	b := &Book{Journal: j, Now: now}
	b.gather(j.Gyles, kept)
	newWorkbench(b, kept).work()
	b.shareErrors()
	b.link()
	rankNotices(b.Notices)
	return b
}

// Published is the book without drafts, as if they and all that leads to them
// were not there; figures and findings stay as they are. The book itself is not
// changed.
func (b *Book) Published() *Book {
	p := &Book{Journal: b.Journal, Now: b.Now}
	var gyles []*Gyle
	for _, g := range b.brewed {
		if !g.Draft.Yes() {
			gyles = append(gyles, &Gyle{
				Gyle: g.Gyle, Sheet: g.Sheet, Notices: g.Notices, Slug: g.Slug, Begun: g.Begun,
				Tasted: g.Tasted, Status: g.Status, facts: g.facts,
			})
		}
	}
	p.seat(gyles)
	p.linkLineage()
	p.linkSubjects()
	drafts := map[string]bool{}
	for _, n := range b.Notes {
		if drafts[n.File] = n.Draft.Yes(); !drafts[n.File] {
			p.Notes = append(p.Notes, n)
		}
	}
	for _, n := range b.Notices {
		if !drafts[n.Place.File] {
			p.Notices = append(p.Notices, n)
		}
	}
	p.gatherUp()
	return p
}

// link sets everything that leads from one thing to another, once the gyles are worked
// out.
func (b *Book) link() {
	b.Notes = b.Journal.Notes
	b.linkSubjects()
	parallel.Each(len(b.Gyles), 0, func(i int) { b.Gyles[i].Notices = b.noticesOf(b.Gyles[i]) })
	b.gatherUp()
}

// gatherUp sets what leads to the gyles, once they are as they will be. What is
// dear and not on every page is made when it is first asked for.
func (b *Book) gatherUp() {
	b.linkGroups()
	b.linkBoard()
	b.uses = sync.OnceValue(b.usesBySubject)
	b.trends = sync.OnceValue(func() Trends { return b.trendsOf(b.brewed) })
	b.calendar = sync.OnceValue(func() []Event { return b.calendarOf(b.brewed) })
	b.nextMoment = sync.OnceValue(b.nextMomentOf)
}

// zone is the journal's time zone.
func (b *Book) zone() *time.Location {
	if z := b.settings().Zone; z != nil {
		return z
	}
	return time.UTC
}

// settings are the journal's, or the defaults of one that has none.
func (b *Book) settings() *journal.Settings {
	if b.Journal.Settings == nil {
		return &journal.Settings{}
	}
	return b.Journal.Settings
}

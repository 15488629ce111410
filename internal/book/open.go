package book

import (
	"slices"
	"sync"
	"time"

	"gylebook/internal/journal"
)

// Open links a read journal at a clock. It never fails: what cannot be linked or
// worked out is among the notices.
func Open(j *journal.Journal, now time.Time) *Book { return Reopen(nil, j, now) }

// Reopen is Open for a journal that was open before (nil for none): what cannot
// have changed is taken from the last book, which is left as it is. The package
// comment says how that is known.
func Reopen(last *Book, j *journal.Journal, now time.Time) *Book {
	b := &Book{Journal: j, Now: now}
	if last != nil && last.storiesAlone(b) {
		return last.retold(j)
	}
	f := b.formerly(last)
	b.gather(j.Gyles, f)
	b.work(f)
	b.shareErrors()
	b.link(j.Notes, f)
	rankNotices(b.Notices)
	return b
}

// SameButStories tells that another book has the same gyles, figures and
// findings, and differs at most in the words of stories.
func (b *Book) SameButStories(other *Book) bool { return b.binding == other.binding }

// storiesAlone tells that a book to be opened would differ from this one in
// stories alone.
func (b *Book) storiesAlone(next *Book) bool {
	return b.Now.Equal(next.Now) && b.zone().String() == next.zone().String() && b.sameSettings(next) &&
		b.Journal.Larder.SameFacts(next.Journal.Larder) && slices.Equal(b.Journal.Errors, next.Journal.Errors) &&
		slices.Equal(b.Journal.Withheld, next.Journal.Withheld) &&
		slices.EqualFunc(b.Journal.Documents(), next.Journal.Documents(), sameFront)
}

// sameFront tells that two documents say the same but for the story.
func sameFront(a, b *journal.Document) bool {
	switch {
	case a == b:
		return true
	case a.File != b.File:
		return false
	case a.Gyle != nil && b.Gyle != nil:
		return sameEntry(a.Gyle, b.Gyle)
	case a.Note != nil && b.Note != nil, a.Card != nil && b.Card != nil, a.Settings != nil && b.Settings != nil:
		return a.Entry().Front == b.Entry().Front
	}
	return a.Withheld() && b.Withheld()
}

// retold is this book over a journal whose stories alone differ.
func (b *Book) retold(j *journal.Journal) *Book {
	next := *b
	next.Journal, next.Notes = j, j.Notes
	return &next
}

// Published is the book without drafts, as if they and all that leads to them
// were not there; figures and findings stay as they are. The book itself is not
// changed.
func (b *Book) Published() *Book {
	p := &Book{Journal: b.Journal, Now: b.Now, spoken: b.spoken}
	var gyles []*Gyle
	for _, g := range b.inTurn() {
		if g.Draft.Yes() {
			continue
		}
		gyles = append(gyles, &Gyle{Gyle: g.Gyle, Sheet: g.Sheet, Notices: g.Notices, Slug: g.Slug, Begun: g.Begun, Tasted: g.Tasted, Status: g.Status, filed: len(gyles), gist: g.gist, taught: g.taught, settled: g.settled})
	}
	p.seat(gyles)
	p.linkLineage()
	p.linkSubjects(&former{})
	var notes []*journal.Note
	drafts := map[string]bool{}
	for _, n := range b.Notes {
		if drafts[n.File] = n.Draft.Yes(); !drafts[n.File] {
			notes = append(notes, n)
		}
	}
	for _, n := range b.Notices {
		if !drafts[n.Place.File] {
			p.Notices = append(p.Notices, n)
		}
	}
	p.gatherUp(notes, &former{})
	return p
}

// link says of each gyle what there is to say, and sets everything that leads from
// one thing to another.
func (b *Book) link(notes []*journal.Note, f *former) {
	b.report(f)
	b.linkSubjects(f)
	b.findAll(f)
	if f.abreast {
		b.relink(f)
	}
	b.gatherUp(notes, f)
}

// gatherUp sets what leads to the gyles, once they are as they will be. What is
// dear and not on every page is made when it is first asked for.
func (b *Book) gatherUp(notes []*journal.Note, f *former) {
	b.Notes, b.binding = notes, new(binding)
	b.linkGroups(f)
	b.linkBoard()
	b.uses = sync.OnceValue(b.usesBySubject)
	b.trends = sync.OnceValue(func() Trends { return b.trendsOf(b.inTurn()) })
	b.calendar = sync.OnceValue(func() []Event { return b.calendarOf(b.inTurn()) })
	b.nextMoment = sync.OnceValue(b.nextMomentOf)
}

// report sets what is said of each gyle; again what was said of it, where its
// entry, its sheet and the clock are the same.
func (b *Book) report(f *former) {
	inParallel(len(b.Gyles), func(turn int) {
		g, old := b.at(turn), f.of(turn)
		switch {
		case old == g:
		case old != nil && f.sameTime && old.settled == g.settled:
			g.Tasted, g.Status = old.Tasted, old.Status
		default:
			g.Tasted = gathered(g.Gyle)
			g.Status = b.statusOf(g)
		}
	})
}

// zone is the journal's time zone.
func (b *Book) zone() *time.Location {
	if z := b.settings().Zone; z != nil {
		return z
	}
	return time.UTC
}

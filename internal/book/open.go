package book

import (
	"fmt"
	"path"
	"slices"
	"strconv"
	"strings"
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

// gather wraps the entries, puts them in the order of brewing and sets what leads
// from one to another. In a book abreast of the last one they are the last one's own
// for now, but for those that say something else.
func (b *Book) gather(entries []*journal.Gyle, f *former) {
	b.spoken = newSpellings()
	if f.book != nil {
		b.spoken = f.book.spoken
	}
	was := f.pair(entries)
	gyles := slices.Clone(was)
	inParallel(len(entries), func(i int) {
		if gyles[i] == nil {
			gyles[i] = b.wrap(entries[i])
		}
	})
	if f.compare(gyles, was); f.abreast {
		b.takeOver(gyles, f)
		return
	}
	all := make([]Gyle, len(entries))
	for i, g := range gyles {
		all[i] = Gyle{Gyle: entries[i], filed: i, gist: g.gist, Begun: g.Begun}
		gyles[i] = &all[i]
	}
	b.seat(gyles)
	f.was = make([]*Gyle, len(gyles))
	for turn := range f.was {
		f.was[turn] = was[b.at(turn).filed]
	}
	b.linkLineage()
}

// wrap is a gyle with what its entry alone says.
func (b *Book) wrap(entry *journal.Gyle) *Gyle {
	g := &Gyle{Gyle: entry, gist: b.gistOf(entry)}
	if at := g.gist.begun; !at.IsZero() {
		g.Begun = at.In(b.zone())
	}
	return g
}

// takeOver begins a book abreast of the last one with what the last one has. The
// gyles are in the journal's order.
func (b *Book) takeOver(gyles []*Gyle, f *former) {
	last := f.book
	b.Gyles, b.Families = slices.Clone(last.Gyles), last.Families
	b.frame, b.register, b.turns, b.drawing = last.frame, last.register, last.turns, last.drawing
	if f.renamed {
		b.frame = new(frame)
		copies := make([]Gyle, len(b.Gyles))
		for i, g := range b.Gyles {
			copies[i] = *g
			b.Gyles[i] = &copies[i]
		}
	}
	for _, turn := range f.others {
		old := last.at(turn)
		g := gyles[old.filed]
		g.filed, g.turn, g.Slug = old.filed, turn, old.Slug
		g.revisionRing, g.drawnRing = old.revisionRing, old.drawnRing
		g.Follows, g.Revised, g.Drawn, g.Parted, g.Family = old.Follows, old.Revised, old.Drawn, old.Parted, old.Family
		b.Gyles[len(b.Gyles)-1-turn] = g
	}
}

// seat puts gyles in the order of brewing, each with its place and its folder.
func (b *Book) seat(gyles []*Gyle) {
	slices.SortFunc(gyles, byBrewing)
	b.frame, b.Gyles, b.turns = new(frame), latestFirst(gyles), make([]int, len(gyles))
	for turn, g := range gyles {
		g.turn, b.turns[g.filed] = turn, turn
	}
	b.index(gyles)
	b.nameGyles(gyles)
}

// register is where gyles are found, by their places in the order of brewing.
type register struct {
	numbers map[int]int
	files   map[string]int
}

// index makes the gyles findable by number and by file. They are in the order of
// brewing.
func (b *Book) index(gyles []*Gyle) {
	b.register = register{numbers: make(map[int]int, len(gyles)), files: make(map[string]int, len(gyles))}
	for turn, g := range gyles {
		b.files[g.File] = turn
		if first := b.Gyle(g.Number.N); g.Number.Written() && (first == nil || g.File < first.File) {
			b.numbers[g.Number.N] = turn
		}
	}
	for turn, g := range gyles {
		for _, n := range g.Formerly {
			if has := b.Gyle(n.N); n.Written() && (has == nil || !numbered(has, n.N) && turn < has.turn) {
				b.numbers[n.N] = turn
			}
		}
	}
}

func numbered(g *Gyle, n int) bool { return g.Number.Written() && g.Number.N == n }

// nameGyles gives each gyle its folder: its number; where it has none, or
// another has it too and comes first, with the name of its file.
func (b *Book) nameGyles(gyles []*Gyle) {
	var others []*Gyle
	for _, g := range gyles {
		if numbered(g, g.Number.N) && b.Gyle(g.Number.N) == g {
			g.Slug = strconv.Itoa(g.Number.N)
		} else {
			others = append(others, g)
		}
	}
	if len(others) == 0 {
		return
	}
	taken := make(map[string]bool, len(gyles))
	for _, g := range gyles {
		taken[g.Slug] = g.Slug != ""
	}
	slices.SortFunc(others, func(x, y *Gyle) int { return strings.Compare(x.File, y.File) })
	for _, g := range others {
		slug := slugOf(strings.TrimSuffix(path.Base(g.File), path.Ext(g.File)))
		if g.Number.Written() {
			slug = slugOf(fmt.Sprintf("%d %s", g.Number.N, slug))
		}
		for digits := 6; taken[slug]; digits++ {
			slug = slug + "-" + digest(g.File, digits)
		}
		g.Slug = slug
		taken[slug] = true
	}
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

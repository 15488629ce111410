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
	gyles := b.inOrder(j.Gyles, f)
	b.index(gyles, f)
	b.work(gyles, f)
	b.shareErrors()
	across := b.link(gyles, j.Notes, f)
	b.findAll(f, across)
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
	for _, g := range slices.Backward(b.Gyles) {
		if g.Draft.Yes() {
			continue
		}
		gyles = append(gyles, &Gyle{Gyle: g.Gyle, Sheet: g.Sheet, Notices: g.Notices, Slug: g.Slug, Begun: g.Begun, gist: g.gist, taught: g.taught, settled: g.settled})
	}
	slices.SortFunc(gyles, byBrewing)
	p.seat(gyles)
	p.index(gyles, &former{})
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
	p.link(gyles, notes, &former{})
	return p
}

// inOrder wraps the entries, in the order of brewing.
func (b *Book) inOrder(entries []*journal.Gyle, f *former) []*Gyle {
	b.spoken = newSpellings()
	if f.book != nil {
		b.spoken = f.book.spoken
	}
	was := f.pair(entries)
	all := make([]Gyle, len(entries))
	b.entries = make([]*Gyle, len(entries))
	inParallel(len(entries), func(i int) {
		g := &all[i]
		g.Gyle, g.filed = entries[i], i
		b.entries[i] = g
		if old := was[i]; old != nil {
			g.gist, g.Begun = old.gist, old.Begun
			return
		}
		g.gist = b.gistOf(entries[i])
		if at := g.gist.begun; !at.IsZero() {
			g.Begun = at.In(b.zone())
		}
	})
	gyles := slices.Clone(b.entries)
	slices.SortFunc(gyles, byBrewing)
	b.seat(gyles)
	f.sort(was, gyles)
	return gyles
}

// seat gives each gyle its place. They are in the order of brewing.
func (b *Book) seat(gyles []*Gyle) {
	for turn, g := range gyles {
		g.turn = turn
	}
	b.Gyles = latestFirst(gyles)
}

// register is where gyles are found, by their places in the order of brewing.
type register struct {
	numbers map[int]int
	files   map[string]int
}

// index makes the gyles findable by number and by file, and gives each its
// folder.
func (b *Book) index(gyles []*Gyle, f *former) {
	if f.alike(gyles, sameNames) {
		b.register = f.book.register
		for turn, g := range gyles {
			g.Slug = f.book.at(turn).Slug
		}
		return
	}
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
	b.nameGyles(gyles)
}

// sameNames tells that two gyles of one place have the same file and numbers.
func sameNames(a, b *Gyle) bool {
	return a.File == b.File && sameNumber(a.Number, b.Number) && sameNumbers(a.Formerly, b.Formerly)
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

// link sets everything that leads from one thing to another. The gyles are in
// the order of brewing. What is dear and not on every page is made when it is
// first asked for. It tells whether all that findings across gyles are made of is
// as it was.
func (b *Book) link(gyles []*Gyle, notes []*journal.Note, f *former) (asItWas bool) {
	b.Notes, b.binding = notes, new(binding)
	b.report(gyles, f)
	var subjects bool
	var both sync.WaitGroup
	both.Go(func() { subjects = b.linkSubjects(gyles, f) }) // touches nothing that the others do
	lineage := b.linkLineage(gyles, f)
	b.linkGroups(gyles, f)
	b.linkBoard()
	both.Wait()
	b.trends = sync.OnceValue(func() Trends { return b.trendsOf(gyles) })
	b.calendar = sync.OnceValue(func() []Event { return b.calendarOf(gyles) })
	b.nextMoment = sync.OnceValue(b.nextMomentOf)
	return subjects && lineage && f.alike(gyles, sameBegun)
}

// report sets what is said of each gyle; again what was said of it, where its
// entry, its sheet and the clock are the same.
func (b *Book) report(gyles []*Gyle, f *former) {
	inParallel(len(gyles), func(i int) {
		g := gyles[i]
		if old := f.of(i); old != nil && f.sameTime && old.settled == g.settled {
			g.Tasted, g.Status = old.Tasted, old.Status
			return
		}
		g.Tasted = gathered(g.Gyle)
		g.Status = b.statusOf(g)
	})
}

// zone is the journal's time zone.
func (b *Book) zone() *time.Location {
	if z := b.settings().Zone; z != nil {
		return z
	}
	return time.UTC
}

package book

import (
	"fmt"
	"path"
	"slices"
	"strconv"
	"strings"
	"time"

	"gylebook/internal/journal"
)

// Open links a read journal at a clock. It never fails: what cannot be linked or
// worked out is among the notices.
func Open(j *journal.Journal, now time.Time) *Book {
	b := &Book{Journal: j, Now: now}
	gyles := b.inOrder(j.Gyles)
	b.index(gyles)
	b.work(gyles)
	b.shareErrors()
	b.link(gyles, j.Notes)
	b.linkNearly()
	b.findAcross()
	for _, g := range gyles {
		rankNotices(g.Notices)
	}
	rankNotices(b.Notices)
	return b
}

// Published is the book without drafts, as if they and all that leads to them
// were not there; figures and findings stay as they are. The book itself is not
// changed.
func (b *Book) Published() *Book {
	p := &Book{Journal: b.Journal, Now: b.Now}
	var gyles []*Gyle
	for _, g := range slices.Backward(b.Gyles) {
		if g.Draft.Yes() {
			continue
		}
		gyles = append(gyles, &Gyle{Gyle: g.Gyle, Sheet: g.Sheet, Notices: g.Notices, Slug: g.Slug, Begun: g.Begun})
	}
	p.index(gyles)
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
	p.link(gyles, notes)
	return p
}

// inOrder wraps the entries, in the order of brewing.
func (b *Book) inOrder(entries []*journal.Gyle) []*Gyle {
	gyles := make([]*Gyle, len(entries))
	for i, e := range entries {
		gyles[i] = &Gyle{Gyle: e}
		if at := begun(e); !at.IsZero() {
			gyles[i].Begun = at.In(b.zone())
		}
	}
	slices.SortFunc(gyles, byBrewing)
	return gyles
}

// index makes the gyles findable by number and by file, and gives each its
// folder.
func (b *Book) index(gyles []*Gyle) {
	b.numbers, b.files = make(map[int]*Gyle, len(gyles)), make(map[string]*Gyle, len(gyles))
	for _, g := range gyles {
		b.files[g.File] = g
		if first := b.numbers[g.Number.N]; g.Number.Written() && (first == nil || g.File < first.File) {
			b.numbers[g.Number.N] = g
		}
	}
	for _, g := range gyles {
		for _, f := range g.Formerly {
			if has := b.numbers[f.N]; f.Written() && (has == nil || !numbered(has, f.N) && byBrewing(g, has) < 0) {
				b.numbers[f.N] = g
			}
		}
	}
	b.nameGyles(gyles)
}

func numbered(g *Gyle, n int) bool { return g.Number.Written() && g.Number.N == n }

// nameGyles gives each gyle its folder: its number; where it has none, or
// another has it too and comes first, with the name of its file.
func (b *Book) nameGyles(gyles []*Gyle) {
	taken := make(map[string]bool, len(gyles))
	for _, g := range gyles {
		if numbered(g, g.Number.N) && b.numbers[g.Number.N] == g {
			g.Slug = strconv.Itoa(g.Number.N)
			taken[g.Slug] = true
		}
	}
	others := slices.DeleteFunc(slices.Clone(gyles), func(g *Gyle) bool { return g.Slug != "" })
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
// the order of brewing.
func (b *Book) link(gyles []*Gyle, notes []*journal.Note) {
	b.Gyles, b.Notes = latestFirst(gyles), notes
	for _, g := range gyles {
		g.Tasted = gathered(g.Gyle)
		g.Status = b.statusOf(g)
	}
	b.linkSubjects()
	b.linkLineage(gyles)
	b.linkGroups()
	b.linkTrends(gyles)
	b.linkCalendar(gyles)
	b.linkBoard()
}

// zone is the journal's time zone.
func (b *Book) zone() *time.Location {
	if z := b.settings().Zone; z != nil {
		return z
	}
	return time.UTC
}

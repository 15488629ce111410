package book

import (
	"cmp"
	"fmt"
	"path"
	"slices"
	"strconv"
	"strings"
	"time"

	"gylebook/internal/journal"
	"gylebook/internal/parallel"
	"gylebook/internal/store"
)

// gather wraps the entries, puts them in the order of brewing and sets what leads
// from one to another.
func (b *Book) gather(entries []*journal.Gyle, kept *store.Store) {
	all, gyles := make([]Gyle, len(entries)), make([]*Gyle, len(entries))
	settings, key := b.settings(), b.settingsKey()
	parallel.Each(len(entries), 0, func(i int) {
		g := &all[i]
		*g = Gyle{Gyle: entries[i], facts: factsOf(entries[i], settings, key, kept)}
		if begun := g.facts.begun; !begun.IsZero() {
			g.Begun = begun.In(b.zone())
		}
		gyles[i] = g
	})
	b.seat(gyles)
	b.linkLineage()
}

// seat puts gyles in the order of brewing, each with its place and its folder.
func (b *Book) seat(gyles []*Gyle) {
	slices.SortFunc(gyles, byBrewing)
	b.brewed, b.Gyles = gyles, latestFirst(gyles)
	for turn, g := range gyles {
		g.turn = turn
	}
	days(gyles)
	b.index()
	b.nameGyles()
}

// index makes the gyles findable by number and by file.
func (b *Book) index() {
	b.numbers, b.files = make(map[int]*Gyle, len(b.brewed)), make(map[string]*Gyle, len(b.brewed))
	for _, g := range b.brewed {
		b.files[g.File] = g
		if first := b.Gyle(g.Number.N); g.Number.Written() && (first == nil || g.File < first.File) {
			b.numbers[g.Number.N] = g
		}
	}
	for _, g := range b.brewed {
		for _, n := range g.Formerly {
			if has := b.Gyle(n.N); n.Written() && (has == nil || !numbered(has, n.N) && g.turn < has.turn) {
				b.numbers[n.N] = g
			}
		}
	}
}

func numbered(g *Gyle, n int) bool { return g.Number.Written() && g.Number.N == n }

// nameGyles gives each gyle its folder: its number; where it has none, or
// another has it too and comes first, with the name of its file.
func (b *Book) nameGyles() {
	var others []*Gyle
	for _, g := range b.brewed {
		if numbered(g, g.Number.N) && b.Gyle(g.Number.N) == g {
			g.Slug = strconv.Itoa(g.Number.N)
		} else {
			others = append(others, g)
		}
	}
	if len(others) == 0 {
		return
	}
	taken := make(map[string]bool, len(b.brewed))
	for _, g := range b.brewed {
		taken[g.Slug] = g.Slug != ""
	}
	slices.SortFunc(others, func(x, y *Gyle) int { return strings.Compare(x.File, y.File) })
	for _, g := range others {
		slug := slugOf(strings.TrimSuffix(path.Base(g.File), path.Ext(g.File)))
		if g.Number.Written() {
			slug = slugOf(fmt.Sprintf("%d %s", g.Number.N, slug))
		}
		for digits := 6; taken[slug]; digits++ {
			slug = slug + "-" + Digest(g.File, digits)
		}
		g.Slug = slug
		taken[slug] = true
	}
}

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

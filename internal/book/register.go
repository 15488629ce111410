package book

import (
	"fmt"
	"path"
	"slices"
	"strconv"
	"strings"

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
		*g = Gyle{Gyle: entries[i], entry: entryOf(entries[i], settings, key, kept)}
		if begun := g.entry.begun; !begun.IsZero() {
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
			slug = slug + "-" + digest(g.File, digits)
		}
		g.Slug = slug
		taken[slug] = true
	}
}

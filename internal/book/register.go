package book

import (
	"fmt"
	"path"
	"slices"
	"strconv"
	"strings"

	"gylebook/internal/journal"
)

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

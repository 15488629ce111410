package book

import (
	"slices"

	"gylebook/internal/journal"
)

// former is the last book beside the one that is being made, and what both have in
// common.
//
// Mostly a save leaves every gyle at its place, and leaves all that leads from one
// to another as it was. Such books are abreast: the new one begins with the very
// gyles of the last, and a gyle is made anew only where something of it, or of one
// that it leads to, comes out otherwise. Whatever is taken over from a book abreast
// says what it is made of, and has the gyles that say something else compared in
// that. Where names changed but nothing else of this, all gyles are made anew, since
// each knows its subjects, and the rest is taken over all the same.
type former struct {
	book *Book // nil for none, and where settings that changed decide otherwise how entries are read
	// was is the gyle of the same entry in the last book, by the place in the order
	// of brewing; nil for an entry that says something else now. It is kept where
	// the books are not abreast.
	was []*Gyle
	// abreast tells that the books are; others are the places of the gyles that say
	// something else.
	abreast bool
	others  []int
	// renamed tells of books abreast that their gyles do not name the same.
	renamed bool
	// sameTime and sameLarder tell that the clocks and the larders are the same.
	sameTime, sameLarder bool
}

// formerly compares a book to be made with the last one, nil for none.
func (b *Book) formerly(last *Book) *former {
	if last == nil || !last.sameSettings(b) {
		return &former{}
	}
	return &former{book: last, sameTime: last.Now.Equal(b.Now), sameLarder: last.Journal.Larder == b.Journal.Larder}
}

// of is the gyle of the same entry as the one at a place, nil for none.
func (f *former) of(turn int) *Gyle {
	switch {
	case f.book == nil:
		return nil
	case !f.abreast:
		return f.was[turn]
	}
	if _, other := slices.BinarySearch(f.others, turn); other {
		return nil
	}
	return f.book.at(turn)
}

// pair finds the gyle of the same entry for each of the journal's. Both journals
// have their entries in one order: mostly the next is the next.
func (f *former) pair(entries []*journal.Gyle) []*Gyle {
	was := make([]*Gyle, len(entries))
	if f.book == nil {
		return was
	}
	last, next := f.book.Journal.Gyles, 0
	for i, e := range entries {
		var old *Gyle
		if next < len(last) && last[next] == e {
			old = f.book.at(f.book.turns[next])
		} else if old = f.book.GyleIn(e.File); old == nil {
			continue
		}
		next = old.filed + 1
		if last[old.filed] == e || sameEntry(last[old.filed], e) {
			was[i] = old
		}
	}
	return was
}

// compare finds whether the books are abreast: the same files in the same order,
// and those that say something else alike in all that leads from one gyle to
// another. The gyles are in the journal's order.
func (f *former) compare(gyles, was []*Gyle) {
	if f.book == nil || !f.sameTime || !f.sameLarder || len(gyles) != len(f.book.turns) {
		return
	}
	for i, g := range gyles {
		switch old := f.book.at(f.book.turns[i]); {
		case was[i] == old:
		case was[i] != nil || !samePlace(old, g) || !sameLineage(old, g):
			f.others = nil
			return
		default:
			f.renamed = f.renamed || !sameUses(old, g)
			f.others = append(f.others, old.turn)
		}
	}
	slices.Sort(f.others)
	f.abreast = true
}

// alike tells that the books are abreast and the gyles that say something else are
// alike in a respect.
func (f *former) alike(b *Book, in func(old, now *Gyle) bool) bool {
	return f.abreast && !slices.ContainsFunc(f.others, func(turn int) bool { return !in(f.book.at(turn), b.at(turn)) })
}

// samePlace tells that two gyles have the same file and numbers and were begun at
// one moment, and so would stand at one place and be found there.
func samePlace(a, b *Gyle) bool {
	return a.File == b.File && sameNumber(a.Number, b.Number) && slices.EqualFunc(a.Formerly, b.Formerly, sameNumber) && a.Begun.Equal(b.Begun)
}

func sameNumber(a, b journal.Whole) bool { return a.N == b.N && a.Written() == b.Written() }

// own is the gyle of a place as one of the new book's own, to be changed.
func (b *Book) own(turn int, f *former) *Gyle {
	g := &b.Gyles[len(b.Gyles)-1-turn]
	if f.abreast && *g == f.book.at(turn) {
		copied := **g
		*g = &copied
	}
	return *g
}

// at is the gyle of a place in the order of brewing.
func (b *Book) at(turn int) *Gyle { return b.Gyles[len(b.Gyles)-1-turn] }

// inTurn are the gyles in the order of brewing.
func (b *Book) inTurn() []*Gyle {
	turned := slices.Clone(b.Gyles)
	slices.Reverse(turned)
	return turned
}

// renewed are the places of the gyles that are not those of the last book.
func (b *Book) renewed(f *former) []int {
	var turns []int
	for turn := range b.Gyles {
		if b.at(turn) != f.book.at(turn) {
			turns = append(turns, turn)
		}
	}
	return turns
}

// ofOneDay tells that there are gyles at two places, of one day.
func (b *Book) ofOneDay(turn, next int) bool {
	return next < len(b.Gyles) && day(b.at(turn).Begun).Equal(day(b.at(next).Begun))
}

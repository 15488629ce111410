package book

import (
	"slices"

	"gylebook/internal/journal"
)

// former is the last book beside the one that is being made, and what both have in
// common. What was made of that alone is taken over; each taker says what it was
// made of, and has it compared.
type former struct {
	book *Book // nil for none
	// was is the gyle of the same entry in the last book, by the place in the order
	// of brewing; nil for an entry that says something else now.
	was []*Gyle
	// inTurn tells that wherever an entry says the same its gyle also stands at
	// the same place; others are the places of all the rest.
	inTurn bool
	others []int
	// sameTime and sameLarder tell that the clocks and the larders are the same.
	sameTime, sameLarder bool
}

// formerly compares a book to be made with the last one, nil for none. Settings
// that changed leave nothing the same: they decide how every entry is read.
func (b *Book) formerly(last *Book) *former {
	if last == nil || !last.sameSettings(b) {
		return &former{}
	}
	return &former{book: last, sameTime: last.Now.Equal(b.Now), sameLarder: last.Journal.Larder == b.Journal.Larder}
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
			old = f.book.entries[next]
		} else if old = f.book.GyleIn(e.File); old == nil {
			continue
		}
		next = old.filed + 1
		if old.Gyle == e || sameEntry(old.Gyle, e) {
			was[i] = old
		}
	}
	return was
}

// sort puts what was paired in the order of brewing, and finds the places where
// the books differ.
func (f *former) sort(was []*Gyle, gyles []*Gyle) {
	f.was = make([]*Gyle, len(gyles))
	f.inTurn = f.book != nil && len(gyles) == len(f.book.Gyles)
	for turn, g := range gyles {
		old := was[g.filed]
		f.was[turn] = old
		switch {
		case old == nil:
			f.others = append(f.others, turn)
		case old.turn != turn:
			f.inTurn = false
		}
	}
}

// alike tells that the same gyles stand in the same order in both books, the
// others being alike in a respect.
func (f *former) alike(gyles []*Gyle, in func(old, now *Gyle) bool) bool {
	if !f.inTurn {
		return false
	}
	for _, turn := range f.others {
		if !in(f.book.at(turn), gyles[turn]) {
			return false
		}
	}
	return true
}

// of is the gyle of the same entry as the one at a place, nil for none.
func (f *former) of(turn int) *Gyle {
	if f.book == nil {
		return nil
	}
	return f.was[turn]
}

// ofTheSame are the gyles of the new book that stand where these stood in the
// last one; nil of none.
func ofTheSame(old, gyles []*Gyle) []*Gyle {
	if len(old) == 0 {
		return nil
	}
	now := make([]*Gyle, len(old))
	for i, g := range old {
		now[i] = gyles[g.turn]
	}
	return now
}

// at is the gyle of a place in the order of brewing.
func (b *Book) at(turn int) *Gyle { return b.Gyles[len(b.Gyles)-1-turn] }

// sameNumbers tells that two lists of whole numbers say the same.
func sameNumbers(a, b []journal.Whole) bool {
	return slices.EqualFunc(a, b, sameNumber)
}

func sameNumber(a, b journal.Whole) bool { return a.N == b.N && a.Written() == b.Written() }

// sameBegun tells that two gyles were begun at one moment.
func sameBegun(a, b *Gyle) bool { return a.Begun.Equal(b.Begun) }

// ofOneDay tells that there are gyles at two places, of one day.
func (b *Book) ofOneDay(turn, next int) bool {
	return next < len(b.Gyles) && day(b.at(turn).Begun).Equal(day(b.at(next).Begun))
}

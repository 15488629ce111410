package book

import (
	"maps"
	"reflect"
	"slices"
	"time"

	"gylebook/internal/figures"
	"gylebook/internal/journal"
	"gylebook/internal/notice"
)

// teaching is what a gyle taught, with all that this was worked out from beside
// its entry.
type teaching struct {
	clock  time.Time
	larder *journal.Larder // overheard
	taken  []journal.Drawn // from it, by others

	lesson lesson
	fault  string // of ours, "" for none
}

// settled is a gyle worked out and looked over, with all that this was worked out
// from beside its entry.
type settled struct {
	clock  time.Time
	larder *journal.Larder // overheard
	past   figures.Past
	from   map[int]*figures.Sheet // the gyles it was drawn from
	taken  []journal.Drawn        // from it, by others

	sheet  *figures.Sheet
	found  []notice.Notice
	faults []notice.Notice // of ours
}

func (b *Book) sameSettings(other *Book) bool {
	a, c := b.settings(), other.settings()
	return a == c || a.File == c.File && a.Front == c.Front
}

// sameEntry tells that two readings of a file say the same but for the story.
func sameEntry(a, b *journal.Gyle) bool {
	if a == b {
		return true
	}
	return a.File == b.File && a.Front == b.Front && sameLog(a.Log, b.Log)
}

func sameLog(a, b *journal.Log) bool {
	return a == b || a != nil && b != nil && a.File == b.File && a.Hash == b.Hash
}

// taughtAgain tells that a gyle teaches in the new book what it taught in the last
// one.
func (w *workbench) taughtAgain(old, now *Gyle) bool {
	return old != nil && old.taught != nil && w.answeredAgain(now, old.taught.clock, old.taught.larder) && w.takenAgain(now, old.taught.taken)
}

// answeredAgain tells that the clock and the larder say the same to a gyle of the
// same entry. What stood in the last book was worked out by its clock and larder.
func (w *workbench) answeredAgain(now *Gyle, clock time.Time, larder *journal.Larder) bool {
	return (w.former.sameTime || clock.Equal(w.b.clockOf(now))) && (w.former.sameLarder || larder.AnsweredAlike(w.b.Journal.Larder))
}

// settledAgain tells that a gyle comes out in the new book as it did in the last.
func (w *workbench) settledAgain(old, now *Gyle, from map[int]*figures.Sheet) bool {
	if old == nil || old.settled == nil {
		return false
	}
	s := old.settled
	return w.answeredAgain(now, s.clock, s.larder) && maps.Equal(s.from, from) && w.takenAgain(now, s.taken) &&
		(now.turn < w.recalled || samePast(s.past, w.pastOf(now)))
}

// takenAgain tells that others take from a gyle what they took in the last book.
func (w *workbench) takenAgain(now *Gyle, was []journal.Drawn) bool {
	is := w.b.drawing.taken[now.turn]
	return len(was)+len(is) == 0 || reflect.DeepEqual(was, is)
}

// samePast compares by all that a past holds, so that nothing that is added to it
// can be forgotten here.
func samePast(a, b figures.Past) bool { return reflect.DeepEqual(a, b) }

// recall finds from where on the past of gyles may be another than in the last
// book: from the day of the first gyle that another stands for or that teaches
// something else. The pasts from there on are made anew.
func (w *workbench) recall() {
	n, b := 0, w.b
	if f := w.former; f.book != nil && f.book.Journal.Larder.SameFacts(b.Journal.Larder) {
		for n < len(b.Gyles) && n < len(f.book.Gyles) && w.sameLesson(n) {
			n++
		}
		for n > 0 && (b.ofOneDay(n-1, n) || f.book.ofOneDay(n-1, n)) {
			n--
		}
	}
	w.recalled = n
	if n < len(b.Gyles) {
		w.pasts = pasts(b.inTurn(), b.Journal.Larder, n)
	}
}

// pastOf is a gyle's past.
func (w *workbench) pastOf(g *Gyle) figures.Past {
	if g.turn < w.recalled {
		return w.former.book.at(g.turn).settled.past
	}
	return w.pasts[g.turn-w.recalled]
}

// sameLesson tells that the gyle at a place in the order of brewing is the one
// that stood there in the last book, of the same day, and teaches the same.
func (w *workbench) sameLesson(turn int) bool {
	g, old := w.b.at(turn), w.former.book.at(turn)
	switch {
	case g == old, w.former.of(turn) == old && g.taught == old.taught:
		return true
	case g.File != old.File || !g.Begun.Equal(old.Begun) || !sameYeasts(g, old):
		return false
	}
	return g.lesson() == old.lesson()
}

// lesson is what a gyle teaches; one that was drawn from others, nothing.
func (g *Gyle) lesson() lesson {
	if g.taught == nil {
		return lesson{}
	}
	return g.taught.lesson
}

// sameYeasts tells that a gyle asks the past about the same yeasts.
func sameYeasts(a, b *Gyle) bool {
	return slices.EqualFunc(a.Yeast, b.Yeast, func(x, y journal.Pitch) bool { return x.Yeast.Name == y.Yeast.Name })
}

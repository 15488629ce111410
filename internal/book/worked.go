package book

import (
	"maps"
	"reflect"
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

// before is the same entry in the last book, nil where there is none or it said
// something else. Settings that changed leave nothing the same: they decide how
// every entry is read.
func (w *workbench) before(g *Gyle) *Gyle {
	if w.last == nil || !w.last.sameSettings(w.b) {
		return nil
	}
	if old := w.last.files[g.File]; old != nil && sameEntry(old.Gyle, g.Gyle) {
		return old
	}
	return nil
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

// taughtAgain tells that a gyle teaches in another book what it taught in its
// own.
func (g *Gyle) taughtAgain(now *Gyle, b *Book) bool {
	t := g.taught
	return t != nil && t.clock.Equal(b.clockOf(now)) && t.larder.AnsweredAlike(b.Journal.Larder)
}

// settledAgain tells that a gyle comes out in another book as it did in its own.
func (g *Gyle) settledAgain(now *Gyle, b *Book, past figures.Past, from map[int]*figures.Sheet, taken []journal.Drawn) bool {
	s := g.settled
	return s != nil && s.clock.Equal(b.clockOf(now)) && maps.Equal(s.from, from) && reflect.DeepEqual(s.taken, taken) && samePast(s.past, past) && s.larder.AnsweredAlike(b.Journal.Larder)
}

// samePast compares by all that a past holds, so that nothing that is added to it
// can be forgotten here.
func samePast(a, b figures.Past) bool { return reflect.DeepEqual(a, b) }

// pastsOf is each gyle's past. Those of the last book stand up to the day of the
// first gyle that another stands for or that teaches something else.
func (w *workbench) pastsOf(lessons []lesson) []figures.Past {
	if w.last == nil || !w.last.sameSettings(w.b) || !w.last.Journal.Larder.SameFacts(w.b.Journal.Larder) {
		return pasts(w.gyles, lessons, w.b.Journal.Larder)
	}
	n := 0
	for n < len(w.gyles) && n < len(w.last.Gyles) && w.sameLesson(n, lessons[n]) {
		n++
	}
	if n == len(w.gyles) {
		all := make([]figures.Past, n)
		for i := range all {
			all[i] = w.last.Gyles[len(w.last.Gyles)-1-i].settled.past
		}
		return all
	}
	return pasts(w.gyles, lessons, w.b.Journal.Larder)
}

// sameLesson tells that the gyle at a place in the order of brewing is the one
// that stood there in the last book, of the same day, and teaches the same.
func (w *workbench) sameLesson(i int, l lesson) bool {
	g, old := w.gyles[i], w.last.Gyles[len(w.last.Gyles)-1-i]
	switch {
	case g.File != old.File || !g.Begun.Equal(old.Begun) || old.settled == nil:
		return false
	case old.taught == nil:
		return l == lesson{} && sameYeasts(g, old)
	}
	return old.taught.lesson == l && sameYeasts(g, old)
}

// sameYeasts tells that a gyle asks the past about the same yeasts.
func sameYeasts(a, b *Gyle) bool {
	if a.Front == b.Front {
		return true
	}
	if len(a.Yeast) != len(b.Yeast) {
		return false
	}
	for i := range a.Yeast {
		if a.Yeast[i].Yeast.Name != b.Yeast[i].Yeast.Name {
			return false
		}
	}
	return true
}

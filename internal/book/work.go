package book

import (
	"fmt"

	"gylebook/internal/figures"
	"gylebook/internal/journal"
	"gylebook/internal/notice"
	"gylebook/internal/parallel"
	"gylebook/internal/rules"
	"gylebook/internal/store"
)

// workbench works the gyles out. Twice: once knowing nothing of the past, to
// hear what each teaches; then each with what the days before its own had
// taught. Both times all cores take part, since what teaches does not lean on
// the past. One pass in the order of brewing would save nearly half of the work
// and use one core.
//
// Both times the store may have it, by a key of all that goes into it. Which cards it
// asks for is known only once it is worked out: the larder is overheard, and what was
// kept stands where the larder of now would have answered alike.
type workbench struct {
	b     *Book
	kept  *store.Store
	clock clock
	cards store.Key // of the whole larder
	// figure and examine are the packages' own, other ones in tests of faults.
	figure  func(*journal.Gyle, figures.Context) *figures.Sheet
	examine func(*figures.Sheet) []notice.Notice
}

// teaching is what a gyle teaches; larder is the overheard one.
type teaching struct {
	lesson lesson
	larder *journal.Larder
}

// workedGyle is a gyle worked out and looked over; larder is the overheard one.
type workedGyle struct {
	key    store.Key // of all that it was made from, the whole larder for the cards
	larder *journal.Larder

	sheet   *figures.Sheet
	notices []notice.Notice // findings and faults of ours, the gravest first
	tasted  Tasted
	status  Status
}

// A book may be opened twice for one save, at the clock before and at that of now.
var (
	teachingKind   = store.Kind[teaching]{Name: "teaching", Rounds: 1}
	workedGyleKind = store.Kind[*workedGyle]{Name: "gyle", Rounds: 1}
)

func newWorkbench(b *Book, kept *store.Store) *workbench {
	return &workbench{
		b: b, kept: kept, clock: b.clock(), cards: b.Journal.Larder.Facts(),
		figure: figures.Work, examine: rules.Examine,
	}
}

// work gives every gyle its sheet and its findings. One that was drawn from others
// waits for them, and teaches nothing, since more than its own brewing made it what
// it is.
func (w *workbench) work() {
	b := w.b
	lessons, keys := make([]lesson, len(b.brewed)), make([]store.Key, len(b.brewed))
	parallel.Each(len(b.brewed), 0, func(turn int) {
		g, c := b.brewed[turn], w.context(b.brewed[turn])
		keys[turn] = store.KeyOf(g.facts.key, c.Now, c.Taken)
		if len(g.DrawnFrom) == 0 {
			lessons[turn] = w.lesson(g, c, keys[turn])
		}
	})
	memories := remember(lessons)
	settle := func(g *Gyle) {
		then, next := memories.of(g, b.Journal.Larder)
		w.settle(g, then, next, keys[g.turn])
	}
	parallel.Each(len(b.mashed), 0, func(i int) { settle(b.mashed[i]) })
	for _, g := range b.drawn {
		settle(g)
	}
}

// context is what a gyle is worked out in, but for the larder, the past and others'
// sheets.
func (w *workbench) context(g *Gyle) figures.Context {
	return figures.Context{Settings: w.b.Journal.Settings, Now: w.clock.of(g.facts), Taken: w.b.taken[g]}
}

// lesson is what a gyle teaches, worked out knowing nothing of the past.
func (w *workbench) lesson(g *Gyle, c figures.Context, key store.Key) lesson {
	still := func(t teaching) bool { return t.larder.AnsweredAlike(w.b.Journal.Larder) }
	return store.DoWhile(w.kept, &teachingKind, key, still, func() teaching {
		c.Larder = w.b.Journal.Larder.Overheard()
		t := teaching{larder: c.Larder}
		if sheet, fault := w.sheet(g, c); fault == "" {
			t.lesson = lessonOf(sheet, c.Larder)
		}
		return t
	}).lesson
}

// settle works a gyle out with what was known when it was brewed, and looks it over; next
// is what is known for the one after it. The key is of the entry and the context.
func (w *workbench) settle(g *Gyle, then, next knowledge, key store.Key) {
	c := w.context(g)
	key = store.KeyOf(key, &then, &next)
	if len(g.DrawnFrom) > 0 {
		from, keys := w.sources(g)
		c.Other = func(number int) *figures.Sheet { return from[number] }
		key = store.KeyOf(key, keys)
	}
	still := func(o *workedGyle) bool { return o.larder.AnsweredAlike(w.b.Journal.Larder) }
	g.worked = store.DoWhile(w.kept, &workedGyleKind, key, still, func() *workedGyle {
		planned := next.past()
		c.Past, c.Larder = then.past(), w.b.Journal.Larder.Overheard()
		c.Past.Next = &planned
		return w.workOut(g, c, store.KeyOf(key, w.cards))
	})
	g.Sheet, g.Tasted, g.Status = g.worked.sheet, g.worked.tasted, g.worked.status
}

// workOut works one gyle out and looks it over. A fault of ours in one gyle must
// not take the others from the brewer: it leaves an empty sheet or no findings,
// and a notice that says so.
func (w *workbench) workOut(g *Gyle, c figures.Context, key store.Key) *workedGyle {
	o := &workedGyle{key: key, larder: c.Larder}
	say := func(doing, fault string) {
		if fault != "" {
			o.notices = append(o.notices, notice.Fault(g.place(), doing, fault))
		}
	}
	var failed string
	o.sheet, failed = w.sheet(g, c)
	silenced := attempt(func() { o.notices = w.examine(o.sheet) })
	say("working out its figures", failed)
	say("looking it over for warnings", silenced)
	say("gathering what its tasters said", attempt(func() { o.tasted = gathered(g.Gyle) }))
	say("telling where it stands", attempt(func() { o.status = statusOf(o.sheet, o.tasted, w.b.zone()) }))
	rankNotices(o.notices)
	return o
}

// attempt does a thing; what it gives back is not "" where that failed by a fault of ours.
func attempt(do func()) (fault string) {
	defer func() {
		if thrown := recover(); thrown != nil {
			fault = fmt.Sprint(thrown)
		}
	}()
	do()
	return ""
}

// sheet works one gyle out; fault is not "" where that failed.
func (w *workbench) sheet(g *Gyle, c figures.Context) (s *figures.Sheet, fault string) {
	if fault = attempt(func() { s = w.figure(g.Gyle, c) }); fault != "" {
		s = &figures.Sheet{Gyle: g.Gyle, Context: c}
	}
	return s, fault
}

// sources are the sheets of the gyles that one was drawn from, by number as written,
// and what those were made from. Round a ring there is none, since it would be worked
// from itself.
func (w *workbench) sources(g *Gyle) (map[int]*figures.Sheet, map[int]store.Key) {
	from, keys := map[int]*figures.Sheet{}, map[int]store.Key{}
	for _, d := range g.DrawnFrom {
		other := w.b.other(d.Gyle)
		if other != nil && (g.drawnRing == 0 || g.drawnRing != other.drawnRing) {
			from[d.Gyle.N], keys[d.Gyle.N] = other.Sheet, other.worked.key
		}
	}
	return from, keys
}

// place is where a gyle's own number stands, else the file.
func (g *Gyle) place() notice.Place {
	if g.Number.Written() {
		return g.Number.Place
	}
	return notice.Place{File: g.File, Line: 1}
}

package book

import (
	"fmt"

	"gylebook/internal/figures"
	"gylebook/internal/journal"
	"gylebook/internal/notice"
	"gylebook/internal/rules"
)

// workbench works the gyles out. Twice: once knowing nothing of the past, to
// hear what each teaches; then each with what the days before its own had
// taught. Both times all cores take part, since what teaches does not lean on
// the past. One pass in the order of brewing would save nearly half of the work
// and use one core.
//
// What the last book worked out is taken as it stands where all that it was
// worked out from is the same (gist.go, worked.go).
type workbench struct {
	b      *Book
	former *former
	// recalled is how many gyles, from the first brewed, have the past that they had
	// in the last book; pasts are those of the others.
	recalled int
	pasts    []figures.Past
	// figure and examine are the packages' own, other ones in tests of faults.
	figure  func(*journal.Gyle, figures.Context) *figures.Sheet
	examine func(*figures.Sheet) []notice.Notice
}

// drawing is which gyles were drawn from others, by their places in the order of
// brewing.
type drawing struct {
	mashed []int                   // those that begin as wort, and need no other gyle
	drawn  []int                   // those drawn from others, each after its own sources
	rings  ring                    // of drawing
	taken  map[int][]journal.Drawn // from each, by others
}

// work gives every gyle its sheet and its findings.
func (b *Book) work(f *former) {
	w := b.bench(f)
	w.learn()
	w.settle()
}

func (b *Book) bench(f *former) *workbench {
	return &workbench{b: b, former: f, figure: figures.Work, examine: rules.Examine}
}

// orderDrawn finds the order in which gyles drawn from others can be worked out.
func (b *Book) orderDrawn(gyles []*Gyle) {
	d := drawing{rings: make(ring, len(gyles)), taken: map[int][]journal.Drawn{}}
	for turn, g := range gyles {
		if len(g.DrawnFrom) == 0 {
			d.mashed = append(d.mashed, turn)
		}
	}
	if len(d.mashed) < len(gyles) {
		d.order(b, gyles)
	}
	b.drawing = d
}

func (d *drawing) order(b *Book, gyles []*Gyle) {
	graph := make(leads, len(gyles))
	for turn, g := range gyles {
		for _, part := range g.DrawnFrom {
			if from := b.other(part.Gyle); from != nil {
				graph[turn] = append(graph[turn], from.turn)
				d.taken[from.turn] = append(d.taken[from.turn], part)
			}
		}
	}
	order, rings := graph.untangled()
	d.rings = rings
	for _, turn := range order {
		gyles[turn].drawnRing = rings[turn]
		if len(gyles[turn].DrawnFrom) > 0 {
			d.drawn = append(d.drawn, turn)
		}
	}
}

// learn hears what every gyle teaches, and so what each may lean on. One that
// was drawn from others teaches nothing, since more than its own brewing made it
// what it is.
func (w *workbench) learn() {
	w.alone(func(turn int) {
		g, old := w.b.at(turn), w.former.of(turn)
		switch {
		case old == g: // of a book abreast
		case w.taughtAgain(old, g):
			g.taught = old.taught
		default:
			g.taught = w.teach(g)
		}
	})
	w.recall()
}

// teach works a gyle out knowing nothing of the past.
func (w *workbench) teach(g *Gyle) *teaching {
	l := w.b.Journal.Larder.Overheard()
	c := figures.Context{Larder: l, Settings: w.b.Journal.Settings, Now: w.b.clockOf(g), Taken: w.b.drawing.taken[g.turn]}
	t := &teaching{clock: c.Now, larder: l, taken: c.Taken}
	var sheet *figures.Sheet
	if sheet, t.fault = w.sheet(g, c); t.fault == "" {
		t.lesson = lessonOf(sheet, l)
	}
	return t
}

// settle works every gyle out with its past, and looks it over.
func (w *workbench) settle() {
	w.alone(func(turn int) {
		if w.b.at(turn) != w.former.of(turn) || turn >= w.recalled {
			w.settleOne(turn)
		}
	})
	for _, turn := range w.b.drawing.drawn {
		w.settleOne(turn)
	}
}

func (w *workbench) settleOne(turn int) {
	g, old, from := w.b.at(turn), w.former.of(turn), w.sources(turn)
	switch {
	case !w.settledAgain(old, g, from):
		g = w.b.own(turn, w.former)
		g.settled = w.work(g, w.pastOf(g), from)
	case old != g:
		g.settled = old.settled
	}
	if g != old {
		g.Sheet = g.settled.sheet
	}
}

// work works one gyle out and looks it over. A fault of ours in one gyle must
// not take the others from the brewer: it leaves an empty sheet or no findings,
// and a notice that says so.
func (w *workbench) work(g *Gyle, past figures.Past, from map[int]*figures.Sheet) *settled {
	l := w.b.Journal.Larder.Overheard()
	c := figures.Context{Larder: l, Settings: w.b.Journal.Settings, Now: w.b.clockOf(g), Past: past, Taken: w.b.drawing.taken[g.turn]}
	if from != nil {
		c.Other = func(number int) *figures.Sheet { return from[number] }
	}
	s := &settled{clock: c.Now, larder: l, past: past, from: from, taken: c.Taken}
	var fault string
	if s.sheet, fault = w.sheet(g, c); fault != "" {
		s.faults = append(s.faults, g.faulted("working out its figures", fault))
	}
	if s.found, fault = w.findings(s.sheet); fault != "" {
		s.faults = append(s.faults, g.faulted("looking it over for warnings", fault))
	}
	return s
}

// alone does something for every gyle that needs no other, in parallel.
func (w *workbench) alone(do func(turn int)) {
	mashed := w.b.drawing.mashed
	inParallel(len(mashed), func(n int) { do(mashed[n]) })
}

// sheet works one gyle out; fault is not "" where that failed.
func (w *workbench) sheet(g *Gyle, c figures.Context) (s *figures.Sheet, fault string) {
	defer func() {
		if thrown := recover(); thrown != nil {
			s, fault = &figures.Sheet{Gyle: g.Gyle, Context: c}, fmt.Sprint(thrown)
		}
	}()
	return w.figure(g.Gyle, c), ""
}

// findings looks one gyle over.
func (w *workbench) findings(s *figures.Sheet) (found []notice.Notice, fault string) {
	defer func() {
		if thrown := recover(); thrown != nil {
			found, fault = nil, fmt.Sprint(thrown)
		}
	}()
	return w.examine(s), ""
}

// sources are the sheets of the gyles that one was drawn from, by number as
// written; nil for a gyle that was mashed. Round a ring there is none, since it
// would be worked from itself.
func (w *workbench) sources(turn int) map[int]*figures.Sheet {
	g := w.b.at(turn)
	if len(g.DrawnFrom) == 0 {
		return nil
	}
	from := map[int]*figures.Sheet{}
	for _, d := range g.DrawnFrom {
		if other := w.b.other(d.Gyle); other != nil && !w.b.drawing.rings.same(turn, other.turn) {
			from[d.Gyle.N] = other.Sheet
		}
	}
	return from
}

// faulted is the notice of a fault of ours.
func (g *Gyle) faulted(doing, fault string) notice.Notice {
	return notice.Notice{
		Place: g.place(), Severity: notice.Unreadable, ID: idFault,
		Says:   fmt.Sprintf("gylebook failed at %s: %s.", doing, fault),
		Why:    "What it would have said about this gyle is missing until that is mended; the others are not touched by it.",
		Do:     "Report it with a copy of the entry: it is a fault of gylebook, not of the entry.",
		Source: "gylebook's own check",
	}
}

// place is where a gyle's own number stands, else the file.
func (g *Gyle) place() notice.Place {
	if g.Number.Written() {
		return g.Number.Place
	}
	return notice.Place{File: g.File, Line: 1}
}

package book

import (
	"fmt"

	"gylebook/internal/figures"
	"gylebook/internal/findings"
	"gylebook/internal/journal"
	"gylebook/internal/notice"
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
	gyles  []*Gyle // in the order of brewing
	index  map[*Gyle]int
	mashed []int                     // those that begin as wort, and need no other gyle
	drawn  []int                     // those drawn from others, each after its own sources
	rings  ring                      // of drawing
	taken  map[*Gyle][]journal.Drawn // from each, by others
	// recalled is how many gyles, from the first brewed, have the past that they had
	// in the last book; pasts are those of the others.
	recalled int
	pasts    []figures.Past
	// figure and examine are the packages' own, other ones in tests of faults.
	figure  func(*journal.Gyle, figures.Context) *figures.Sheet
	examine func(*figures.Sheet) []notice.Notice
}

// work gives every gyle its sheet and its findings.
func (b *Book) work(gyles []*Gyle, f *former) {
	w := b.bench(gyles, f)
	w.learn()
	w.settle()
}

func (b *Book) bench(gyles []*Gyle, f *former) *workbench {
	w := &workbench{b: b, former: f, gyles: gyles, figure: figures.Work, examine: findings.Examine}
	for i, g := range gyles {
		if len(g.DrawnFrom) == 0 {
			w.mashed = append(w.mashed, i)
		}
	}
	w.rings = make(ring, len(gyles))
	if len(w.mashed) < len(gyles) {
		w.order()
	}
	return w
}

// order finds the order in which gyles drawn from others can be worked out.
func (w *workbench) order() {
	w.index = make(map[*Gyle]int, len(w.gyles))
	w.taken = map[*Gyle][]journal.Drawn{}
	for i, g := range w.gyles {
		w.index[g] = i
	}
	graph := make(leads, len(w.gyles))
	for i, g := range w.gyles {
		for _, d := range g.DrawnFrom {
			if from := w.b.other(d.Gyle); from != nil {
				graph[i] = append(graph[i], w.index[from])
				w.taken[from] = append(w.taken[from], d)
			}
		}
	}
	order, rings := graph.untangled()
	w.rings = rings
	for _, i := range order {
		w.gyles[i].drawnRing = rings[i]
		if len(w.gyles[i].DrawnFrom) > 0 {
			w.drawn = append(w.drawn, i)
		}
	}
}

// learn hears what every gyle teaches, and so what each may lean on. One that
// was drawn from others teaches nothing, since more than its own brewing made it
// what it is.
func (w *workbench) learn() {
	lessons := make([]lesson, len(w.gyles))
	w.alone(func(i int) {
		g := w.gyles[i]
		if old := w.former.of(i); w.taughtAgain(old, g) {
			g.taught = old.taught
		} else {
			g.taught = w.teach(g)
		}
		lessons[i] = g.taught.lesson
	})
	w.recall(lessons)
}

// teach works a gyle out knowing nothing of the past.
func (w *workbench) teach(g *Gyle) *teaching {
	l := w.b.Journal.Larder.Overheard()
	c := figures.Context{Larder: l, Settings: w.b.Journal.Settings, Now: w.b.clockOf(g)}
	t := &teaching{clock: c.Now, larder: l}
	var sheet *figures.Sheet
	if sheet, t.fault = w.sheet(g, c); t.fault == "" {
		t.lesson = lessonOf(sheet, l)
	}
	return t
}

// settle works every gyle out with its past, and looks it over.
func (w *workbench) settle() {
	w.all(func(i int) {
		g := w.gyles[i]
		from := w.sources(i)
		if old := w.former.of(i); w.settledAgain(old, g, from) {
			g.settled, g.Sheet = old.settled, old.Sheet
			return
		}
		g.settled = w.work(g, w.pastOf(g), from)
		g.Sheet = g.settled.sheet
	})
}

// work works one gyle out and looks it over. A fault of ours in one gyle must
// not take the others from the brewer: it leaves an empty sheet or no findings,
// and a notice that says so.
func (w *workbench) work(g *Gyle, past figures.Past, from map[int]*figures.Sheet) *settled {
	l := w.b.Journal.Larder.Overheard()
	c := figures.Context{Larder: l, Settings: w.b.Journal.Settings, Now: w.b.clockOf(g), Past: past, Taken: w.taken[g]}
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
func (w *workbench) alone(do func(i int)) {
	inParallel(len(w.mashed), func(n int) { do(w.mashed[n]) })
}

// all does something for every gyle: after those that need no other, one at a
// time, those that look into other gyles' sheets.
func (w *workbench) all(do func(i int)) {
	w.alone(do)
	for _, i := range w.drawn {
		do(i)
	}
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

// sources are the sheets of the gyles that this one was drawn from, by number as
// written; nil for a gyle that was mashed. Round a ring there is none, since it
// would be worked from itself.
func (w *workbench) sources(i int) map[int]*figures.Sheet {
	if len(w.gyles[i].DrawnFrom) == 0 {
		return nil
	}
	from := map[int]*figures.Sheet{}
	for _, d := range w.gyles[i].DrawnFrom {
		if other := w.b.other(d.Gyle); other != nil && !w.rings.same(i, w.index[other]) {
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

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
type workbench struct {
	b      *Book
	gyles  []*Gyle // in the order of brewing
	index  map[*Gyle]int
	mashed []int // those that begin as wort, and need no other gyle
	drawn  []int // those drawn from others, each after its own sources
	rings  ring  // of drawing
	pasts  []figures.Past
	sheets []*figures.Sheet
	// figure and examine are the packages' own, other ones in tests of faults.
	figure  func(*journal.Gyle, figures.Context) *figures.Sheet
	examine func(*figures.Sheet) []notice.Notice
}

// work gives every gyle its sheet and its findings.
func (b *Book) work(gyles []*Gyle) {
	w := b.bench(gyles)
	w.figures()
	w.findings()
}

func (b *Book) bench(gyles []*Gyle) *workbench {
	w := &workbench{
		b: b, gyles: gyles, index: make(map[*Gyle]int, len(gyles)),
		pasts: make([]figures.Past, len(gyles)), sheets: make([]*figures.Sheet, len(gyles)),
		figure: figures.Work, examine: findings.Examine,
	}
	for i, g := range gyles {
		w.index[g] = i
	}
	graph := make(leads, len(gyles))
	for i, g := range gyles {
		for _, d := range g.DrawnFrom {
			if from := b.other(d.Gyle); from != nil {
				graph[i] = append(graph[i], w.index[from])
			}
		}
	}
	order, rings := graph.untangled()
	w.rings = rings
	for _, i := range order {
		gyles[i].drawnRing = rings[i]
		if len(gyles[i].DrawnFrom) == 0 {
			w.mashed = append(w.mashed, i)
		} else {
			w.drawn = append(w.drawn, i)
		}
	}
	return w
}

// figures works every gyle out. One that was drawn from others teaches nothing,
// since more than its own brewing made it what it is: it is left out of the
// first pass.
func (w *workbench) figures() {
	lessons := make([]lesson, len(w.gyles))
	w.alone(func(i int) { lessons[i] = lessonOf(w.sheet(i), w.b.Journal.Larder) })
	w.pasts = pasts(w.gyles, lessons, w.b.Journal.Larder)
	w.all(func(i int) { w.sheets[i] = w.sheet(i) })
	for i, g := range w.gyles {
		g.Sheet = w.sheets[i]
	}
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

// sheet works one gyle out. A fault of ours in one gyle must not take the
// others from the brewer: it leaves an empty sheet and a notice that says so.
func (w *workbench) sheet(i int) (s *figures.Sheet) {
	g := w.gyles[i]
	c := figures.Context{
		Larder: w.b.Journal.Larder, Settings: w.b.Journal.Settings, Now: w.b.Now, Past: w.pasts[i],
		Other: func(number int) *figures.Sheet { return w.otherSheet(i, number) },
	}
	defer func() {
		if fault := recover(); fault != nil {
			s = &figures.Sheet{Gyle: g.Gyle, Context: c}
			g.faulted("working out its figures", fault)
		}
	}()
	return w.figure(g.Gyle, c)
}

// otherSheet is the sheet of a gyle that this one was drawn from. Round a ring
// there is none, since it would be worked from itself.
func (w *workbench) otherSheet(i, number int) *figures.Sheet {
	other := w.b.numbers[number]
	if other == nil || w.rings.same(i, w.index[other]) {
		return nil
	}
	return w.sheets[w.index[other]]
}

// findings looks every gyle over.
func (w *workbench) findings() {
	w.all(func(i int) {
		g := w.gyles[i]
		defer func() {
			if fault := recover(); fault != nil {
				g.faulted("looking it over for warnings", fault)
			}
		}()
		g.Notices = append(g.Notices, w.examine(g.Sheet)...)
	})
}

// faulted adds the notice of a fault of ours, once: a fault in the first pass
// comes again in the second.
func (g *Gyle) faulted(doing string, fault any) {
	n := notice.Notice{
		Place: g.place(), Severity: notice.Unreadable, ID: idFault,
		Says:   fmt.Sprintf("gylebook failed at %s: %v.", doing, fault),
		Why:    "What it would have said about this gyle is missing until that is mended; the others are not touched by it.",
		Do:     "Report it with a copy of the entry: it is a fault of gylebook, not of the entry.",
		Source: "gylebook's own check",
	}
	for _, old := range g.Notices {
		if old == n {
			return
		}
	}
	g.Notices = append(g.Notices, n)
}

// place is where a gyle's own number stands, else the file.
func (g *Gyle) place() notice.Place {
	if g.Number.Written() {
		return g.Number.Place
	}
	return notice.Place{File: g.File, Line: 1}
}

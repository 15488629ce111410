package book

import (
	"slices"

	"gylebook/internal/journal"
)

// linkLineage sets who follows and who was drawn from whom, and the families.
func (b *Book) linkLineage() {
	one := make([]int, len(b.brewed)) // each leads to at most one: one piece of memory
	graph := make(graphOfGyles, len(b.brewed))
	for i, g := range b.brewed {
		if to := b.followed(g); to != nil {
			one[i] = to.turn
			graph[i] = one[i : i+1]
		}
	}
	_, rings := graph.untangled()
	for i, g := range b.brewed {
		g.revisionRing = rings[i]
		for _, to := range graph[i] {
			if !rings.same(i, to) {
				g.Follows = b.brewed[to]
				g.Follows.Revised = append(g.Follows.Revised, g)
			}
		}
		b.linkDrawn(g)
	}
	b.Families = familiesOf(b.brewed, graph)
	b.orderDrawn()
}

// orderDrawn finds the order in which gyles drawn from others can be worked out.
func (b *Book) orderDrawn() {
	graph := make(graphOfGyles, len(b.brewed))
	b.taken = map[*Gyle][]journal.Drawn{}
	for turn, g := range b.brewed {
		if len(g.DrawnFrom) == 0 {
			b.mashed = append(b.mashed, g)
		}
		for _, part := range g.DrawnFrom {
			if from := b.other(part.Gyle); from != nil {
				graph[turn] = append(graph[turn], from.turn)
				b.taken[from] = append(b.taken[from], part)
			}
		}
	}
	if len(b.mashed) == len(b.brewed) {
		return
	}
	order, rings := graph.untangled()
	for _, turn := range order {
		g := b.brewed[turn]
		if g.drawnRing = rings[turn]; len(g.DrawnFrom) > 0 {
			b.drawn = append(b.drawn, g)
		}
	}
}

// followed is the gyle that this one says it revises, nil for none.
func (b *Book) followed(g *Gyle) *Gyle { return b.other(g.Gyle.Follows) }

func (b *Book) linkDrawn(g *Gyle) {
	for _, d := range g.DrawnFrom {
		from := b.other(d.Gyle)
		if from == nil || slices.Contains(g.Drawn, from) {
			continue
		}
		g.Drawn = append(g.Drawn, from)
		from.Parted = append(from.Parted, g)
	}
}

// graphOfGyles is a graph of gyles, by index: where each one leads.
type graphOfGyles [][]int

// ringNumbers tell what leads back to itself: gyles with the same number above
// nought are on one ring.
type ringNumbers []int

// untangled walks the graph by Tarjan's algorithm (SIAM J. Comput. 1 (1972)
// 146): the order has each gyle after those that it leads to, rings aside, and
// those of a ring share a number.
func (g graphOfGyles) untangled() (order []int, rings ringNumbers) {
	w := &ringWalk{
		graph: g, index: make([]int, len(g)), low: make([]int, len(g)), on: make([]bool, len(g)),
		rings: make(ringNumbers, len(g)),
	}
	for node := range g {
		if w.index[node] == 0 {
			w.from(node)
		}
	}
	return w.order, w.rings
}

// same tells that two gyles are on one ring.
func (r ringNumbers) same(a, b int) bool { return r[a] > 0 && r[a] == r[b] }

type ringWalk struct {
	graph graphOfGyles
	index []int // when first seen, from 1
	low   []int // the earliest seen that it leads back to
	on    []bool
	stack []int
	seen  int
	order []int
	rings ringNumbers
	found int
}

func (w *ringWalk) from(node int) {
	w.seen++
	w.index[node], w.low[node] = w.seen, w.seen
	w.stack = append(w.stack, node)
	w.on[node] = true
	itself := false
	for _, next := range w.graph[node] {
		itself = itself || next == node
		switch {
		case w.index[next] == 0:
			w.from(next)
			w.low[node] = min(w.low[node], w.low[next])
		case w.on[next]:
			w.low[node] = min(w.low[node], w.index[next])
		}
	}
	if w.low[node] == w.index[node] {
		w.close(node, itself)
	}
}

// close takes a finished knot off the stack: one gyle as a rule.
func (w *ringWalk) close(node int, itself bool) {
	start := len(w.stack) - 1
	for w.stack[start] != node {
		start--
	}
	knot := w.stack[start:]
	w.stack = w.stack[:start]
	number := 0
	if len(knot) > 1 || itself {
		w.found++
		number = w.found
	}
	for i := len(knot) - 1; i >= 0; i-- {
		w.on[knot[i]] = false
		w.rings[knot[i]] = number
		w.order = append(w.order, knot[i])
	}
}

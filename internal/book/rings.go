package book

// leads is a graph of gyles, by index: where each one leads.
type leads [][]int

// ring numbers what leads back to itself: gyles with the same number above
// nought are on one ring.
type ring []int

// untangled walks the graph by Tarjan's algorithm (SIAM J. Comput. 1 (1972)
// 146): the order has each gyle after those that it leads to, rings aside, and
// those of a ring share a number.
func (g leads) untangled() (order []int, rings ring) {
	w := &walk{graph: g, index: make([]int, len(g)), low: make([]int, len(g)), on: make([]bool, len(g)), rings: make(ring, len(g))}
	for node := range g {
		if w.index[node] == 0 {
			w.from(node)
		}
	}
	return w.order, w.rings
}

// same tells that two gyles are on one ring.
func (r ring) same(a, b int) bool { return r[a] > 0 && r[a] == r[b] }

type walk struct {
	graph leads
	index []int // when first seen, from 1
	low   []int // the earliest seen that it leads back to
	on    []bool
	stack []int
	seen  int
	order []int
	rings ring
	found int
}

func (w *walk) from(node int) {
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
func (w *walk) close(node int, itself bool) {
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

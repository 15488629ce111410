package chart

import "slices"

// A Lineage is laid out as a list with lines beside it: every gyle has a line
// of text to itself, below all that it follows, and the lines of descent run
// in lanes to the left of the words. Unlike a tree drawn in two directions it
// needs no more width than its longest name, however many branches there are.

// placed is a gyle with its row and its lane, and the lines that come to it.
type placed struct {
	gyle     int // its place in the input
	lane     int
	incoming []descent
}

// descent is a line from an earlier row to this one, by way of a lane.
type descent struct{ row, lane int }

// family is who follows whom, by place in the input; circles are broken.
type family struct {
	parents, children [][]int
	order             []int // everyone after all of their parents
}

// familyOf reads the numbers. The first gyle with a number owns it; a gyle
// that is not here, or is itself, is not followed.
func familyOf(gyles []Gyle) family {
	owner := map[int]int{}
	for i, g := range gyles {
		if _, taken := owner[g.Number]; !taken {
			owner[g.Number] = i
		}
	}
	f := family{parents: make([][]int, len(gyles)), children: make([][]int, len(gyles))}
	for i, g := range gyles {
		for _, number := range g.Follows {
			if parent, known := owner[number]; known && parent != i && len(f.parents[i]) < mostParents && !slices.Contains(f.parents[i], parent) {
				f.parents[i] = append(f.parents[i], parent)
			}
		}
	}
	f.sort()
	return f
}

// sort puts everyone after their parents, otherwise in the order of the input.
// Where a circle leaves nobody free, the first in it lets go of the parents
// that have no place yet.
func (f *family) sort() {
	done := make([]bool, len(f.parents))
	waits := func(parent int) bool { return !done[parent] }
	for len(f.order) < len(f.parents) {
		next := -1
		for i, parents := range f.parents {
			if !done[i] && !slices.ContainsFunc(parents, waits) {
				next = i
				break
			}
		}
		if next < 0 {
			next = slices.Index(done, false)
			f.parents[next] = slices.DeleteFunc(f.parents[next], waits)
		}
		done[next] = true
		f.order = append(f.order, next)
	}
	for _, i := range f.order {
		for _, parent := range f.parents[i] {
			f.children[parent] = append(f.children[parent], i)
		}
	}
}

// depths are the generations below each.
func (f family) depths() []int {
	depth := make([]int, len(f.order))
	for _, i := range slices.Backward(f.order) {
		for _, child := range f.children[i] {
			depth[i] = max(depth[i], depth[child]+1)
		}
	}
	return depth
}

// lanes hands out lanes, the leftmost free one first.
type lanes struct{ taken []bool }

func (l *lanes) free() int {
	lane := slices.Index(l.taken, false)
	if lane < 0 {
		lane = len(l.taken)
		l.taken = append(l.taken, false)
	}
	l.taken[lane] = true
	return lane
}

// place gives every gyle a lane and reserves one for each line of descent from
// the row where it begins to the row where it ends, so that no line runs
// through a dot. Several lines meet in the leftmost of their lanes. The child with the longest descent keeps its parent's lane.
func (f family) place() (rows []placed, width int) {
	depth := f.depths()
	var l lanes
	waiting := make([][]descent, len(f.order))
	for row, i := range f.order {
		here := placed{gyle: i, incoming: waiting[i]}
		if len(here.incoming) == 0 {
			here.lane = l.free()
		} else {
			leftmost := slices.MinFunc(here.incoming, func(a, b descent) int { return a.lane - b.lane })
			here.lane = leftmost.lane
			for _, d := range here.incoming {
				l.taken[d.lane] = false
			}
		}
		l.taken[here.lane] = len(f.children[i]) > 0
		heirs := slices.Clone(f.children[i])
		slices.SortStableFunc(heirs, func(a, b int) int { return depth[b] - depth[a] })
		for n, heir := range heirs {
			lane := here.lane
			if n > 0 {
				lane = l.free()
			}
			waiting[heir] = append(waiting[heir], descent{row, lane})
		}
		rows = append(rows, here)
	}
	return rows, len(l.taken)
}

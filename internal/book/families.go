package book

import (
	"fmt"
	"slices"

	"gylebook/internal/journal"
)

// linkLineage sets who follows and who was drawn from whom, and the families.
func (b *Book) linkLineage() {
	one := make([]int, len(b.brewed)) // each leads to at most one: one piece of memory
	graph := make(leads, len(b.brewed))
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
	graph := make(leads, len(b.brewed))
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

// familiesOf is the gyles that hang together by follows, whichever way; one
// alone is no family. The one with the latest brewing is first.
func familiesOf(gyles []*Gyle, graph leads) []*Family {
	head := make([]int, len(gyles)) // a forest of sets, each by its first gyle
	for i := range head {
		head[i] = i
	}
	find := func(i int) int {
		for head[i] != i {
			head[i] = head[head[i]]
			i = head[i]
		}
		return i
	}
	for i, to := range graph {
		for _, j := range to {
			a, b := find(i), find(j)
			head[max(a, b)] = min(a, b)
		}
	}
	members := map[int][]*Gyle{}
	related := make([]bool, len(gyles))
	for i, to := range graph {
		for _, j := range to {
			related[i], related[j] = true, true
		}
	}
	for i, g := range gyles {
		if related[i] {
			members[find(i)] = append(members[find(i)], g)
		}
	}
	var families []*Family
	for i := len(gyles) - 1; i >= 0; i-- {
		if group := members[find(i)]; related[i] && len(group) > 1 && group[len(group)-1] == gyles[i] {
			families = append(families, familyOf(group))
		}
	}
	nameFolders(families)
	return families
}

// familyOf sets a line of gyles side by side.
func familyOf(gyles []*Gyle) *Family {
	f := &Family{Gyles: gyles}
	for _, g := range gyles {
		g.Family = f
		if g.Beer.Text != "" {
			f.Name = g.Beer.Text
		}
	}
	if f.Name == "" {
		f.Name = "Gyle " + gyles[0].Slug
	}
	return f
}

// nameFolders gives each family a folder. Of several with one name, the one
// with the oldest first gyle keeps the plain one and the others add the number
// of theirs, so that a new family moves no old one.
func nameFolders(families []*Family) {
	taken := map[string]bool{}
	for _, f := range slices.Backward(slices.SortedStableFunc(slices.Values(families), func(a, b *Family) int {
		return byBrewing(b.Gyles[0], a.Gyles[0])
	})) {
		f.Slug = slugOf(f.Name)
		for n := 0; taken[f.Slug]; n++ {
			f.Slug = slugOf(f.Name) + "-" + f.Gyles[0].Slug
			if n > 0 {
				f.Slug = fmt.Sprintf("%s-%d", f.Slug, n+1)
			}
		}
		taken[f.Slug] = true
	}
}

package book

import (
	"fmt"
	"reflect"
	"slices"
)

// linkLineage sets who follows and who was drawn from whom, and the families.
func (b *Book) linkLineage() {
	gyles := b.inTurn()
	one := make([]int, len(gyles)) // each leads to at most one: one piece of memory
	graph := make(leads, len(gyles))
	for i, g := range gyles {
		if to := b.followed(g); to != nil {
			one[i] = to.turn
			graph[i] = one[i : i+1]
		}
	}
	_, rings := graph.untangled()
	for i, g := range gyles {
		g.revisionRing = rings[i]
		for _, to := range graph[i] {
			if !rings.same(i, to) {
				g.Follows = gyles[to]
				gyles[to].Revised = append(gyles[to].Revised, g)
			}
		}
		b.linkDrawn(g)
	}
	b.Families = familiesOf(gyles, graph)
	b.orderDrawn(gyles)
}

// sameLineage tells that two gyles of one place come from the same gyles and would
// give a family the same name.
func sameLineage(a, b *Gyle) bool {
	return sameNumber(a.Gyle.Follows, b.Gyle.Follows) && a.Beer.Text == b.Beer.Text && reflect.DeepEqual(a.DrawnFrom, b.DrawnFrom)
}

// relink makes what leads to a gyle that was made anew lead to the new one, in a
// book abreast of the last: all that hang together with it are made anew too, and
// their families.
func (b *Book) relink(f *former) {
	turns := b.renewed(f)
	families := map[*Family]*Family{} // by those of the last book
	reach := func(relatives []*Gyle) {
		for _, g := range relatives {
			if b.at(g.turn) == g {
				b.own(g.turn, f)
				turns = append(turns, g.turn)
			}
		}
	}
	for i := 0; i < len(turns); i++ {
		old := f.book.at(turns[i])
		reach(old.Drawn)
		reach(old.Parted)
		if old.Family != nil && families[old.Family] == nil { // those who follow each other are of one family
			families[old.Family] = &Family{Name: old.Family.Name, Slug: old.Family.Slug}
			reach(old.Family.Gyles)
		}
	}
	for old, now := range families {
		now.Gyles = b.mine(old.Gyles)
	}
	for _, turn := range turns {
		g := b.at(turn)
		if g.Follows != nil {
			g.Follows = b.at(g.Follows.turn)
		}
		g.Revised, g.Drawn, g.Parted = b.mine(g.Revised), b.mine(g.Drawn), b.mine(g.Parted)
		if g.Family != nil {
			g.Family = families[g.Family]
		}
	}
	if len(families) > 0 {
		b.Families = slices.Clone(b.Families)
		for i, old := range b.Families {
			if now := families[old]; now != nil {
				b.Families[i] = now
			}
		}
	}
}

// mine are the book's own gyles at the places of these; nil of none.
func (b *Book) mine(others []*Gyle) []*Gyle {
	if len(others) == 0 {
		return nil
	}
	own := make([]*Gyle, len(others))
	for i, g := range others {
		own[i] = b.at(g.turn)
	}
	return own
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

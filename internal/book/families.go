package book

import (
	"fmt"
	"slices"
)

// familiesOf is the gyles that hang together by follows, whichever way; one
// alone is no family. The one with the latest brewing is first.
func familiesOf(gyles []*Gyle, graph graphOfGyles) []*Family {
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

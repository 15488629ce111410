package book

import (
	"cmp"
	"slices"

	"gylebook/internal/figures"
	"gylebook/internal/notice"
)

// Concern is one thing that wants seeing to, and the gyle it is about.
type Concern struct {
	notice.Notice
	Gyle *Gyle // nil where it is about none
}

// Concerns are all notices of the book that the brewer has not accepted, the
// gravest first; of equals, those of beer that is still there before those of
// empty gyles, then those of the latest brewed.
func (b *Book) Concerns() []Concern {
	var all []Concern
	for _, n := range b.Notices {
		all = append(all, Concern{Notice: n})
	}
	rank := make(map[*Gyle]int, len(b.Gyles))
	for i, g := range b.Gyles {
		rank[g] = i + 1
		if g.Sheet.Stage == figures.Empty {
			rank[g] += len(b.Gyles)
		}
		for _, n := range g.Notices {
			if n.Accepted == "" {
				all = append(all, Concern{Notice: n, Gyle: g})
			}
		}
	}
	slices.SortStableFunc(all, func(x, y Concern) int {
		return cmp.Or(cmp.Compare(y.Severity, x.Severity), cmp.Compare(rank[x.Gyle], rank[y.Gyle]), notice.Compare(x.Notice, y.Notice))
	})
	return all
}

// shareErrors gives each reading error to the gyle whose file it is in, or whose
// logger's, and keeps the others.
func (b *Book) shareErrors() {
	b.Notices, b.misread = nil, map[*Gyle][]notice.Notice{}
	for _, e := range b.Journal.Errors {
		g := b.GyleIn(e.Place.File)
		for _, reader := range b.Journal.ReadersOf(e.Place.File) {
			g = cmp.Or(g, b.GyleIn(reader))
		}
		if g != nil {
			b.misread[g] = append(b.misread[g], e)
		} else {
			b.Notices = append(b.Notices, e)
		}
	}
}

// rankNotices puts the gravest first, and the accepted ones last.
func rankNotices(all []notice.Notice) {
	slices.SortStableFunc(all, func(x, y notice.Notice) int {
		if (x.Accepted != "") != (y.Accepted != "") {
			if y.Accepted != "" {
				return -1
			}
			return 1
		}
		return notice.Graver(x, y)
	})
}

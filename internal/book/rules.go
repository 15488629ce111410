package book

import (
	"cmp"
	"slices"

	"gylebook/internal/figures"
	"gylebook/internal/journal"
	"gylebook/internal/notice"
	"gylebook/internal/rules"
)

// The ids of the book's own findings. gylebook-fault is no finding about the
// beer: see faulty.
const (
	idNoSuchGyle   = "no-such-gyle"
	idRevisionRing = "revision-ring"
	idDrawnRing    = "drawn-from-itself"
	idLaterGyle    = "later-gyle"
	idNumberInUse  = "number-in-use"
	idOverdrawn    = "overdrawn"
	idNameNearly   = "name-nearly"
	idFault        = notice.FaultID
)

// acrossRule is one finding across gyles.
type acrossRule struct {
	id    string
	worst notice.Severity
	look  func(b *Book, g *Gyle) []rules.Found
	when  string // as the Workings page has it
}

var acrossRules = []acrossRule{
	{idNoSuchGyle, notice.Look, noSuchGyle, "follows, drawn_from or from_gyle gives a number that no gyle has or had"},
	{idRevisionRing, notice.Look, revisionRing, "a gyle follows itself, straight or round a ring"},
	{idDrawnRing, notice.Mend, drawnRing, "a gyle is drawn from itself, straight or round a ring"},
	{
		idLaterGyle, notice.Look, laterGyle,
		"follows, drawn_from or from_gyle gives a gyle that was brewed on a later day",
	},
	{idNumberInUse, notice.Look, numberInUse, "formerly gives a number that a gyle has, or that two gyles claim"},
	{idOverdrawn, notice.Look, overdrawn, "over 1 L more was drawn from a gyle, all gyles together, than it held"},
	{idNameNearly, notice.Note, nameNearly,
		"a name without a card is a letter or two off one that has a card, or off one used more often"},
}

const convention = "common practice, no source"

// Rules lists the findings that only the whole journal shows, in the shape of
// those of one gyle. It is made anew at each call.
func Rules() []rules.Rule {
	var all []rules.Rule
	for _, r := range acrossRules {
		all = append(all, rules.Rule{
			ID: r.id, When: r.when, Watches: figures.Stages(), Worst: r.worst, Source: convention,
		})
	}
	return all
}

// noticesOf are all notices of a gyle: what it was worked out to, what of its files
// could not be read, and the findings across gyles. They are not to be changed.
func (b *Book) noticesOf(g *Gyle) []notice.Notice {
	more := slices.Clip(b.misread[g])
	for _, r := range acrossRules {
		fault := attempt(func() {
			for _, f := range r.look(b, g) {
				more = append(more, noticeOf(g, r.id, convention, f))
			}
		})
		if fault != "" {
			more = append(more, notice.Fault(g.place(), "looking for "+r.id, fault))
		}
	}
	if len(more) == 0 {
		return g.worked.notices
	}
	notices := slices.Concat(g.worked.notices, more)
	rankNotices(notices)
	return notices
}

func noticeOf(g *Gyle, id, source string, f rules.Found) notice.Notice {
	n := notice.Notice{
		Place: f.Where.Place, Severity: f.Severity, ID: id, Of: f.Of, Says: f.Says, Why: f.Why, Do: f.Do,
		Source: source,
	}
	if n.Place.Line == 0 {
		n.Place = g.place()
	}
	if n.Severity >= notice.Danger {
		return n
	}
	for _, a := range g.Accept {
		if a.Finding.Text == id {
			n.Accepted = a.Because.Text
		}
	}
	return n
}

// mention is one place where an entry gives another gyle's number.
type mention struct {
	number journal.Whole
	verb   string // completes "this gyle … gyle 9"
}

// mentions are the gyles that an entry says it comes from.
func mentions(g *journal.Gyle) []mention {
	var all []mention
	if g.Follows.Written() {
		all = append(all, mention{g.Follows, "follows"})
	}
	for _, d := range g.DrawnFrom {
		if d.Gyle.Written() {
			all = append(all, mention{d.Gyle, "is drawn from"})
		}
	}
	for _, p := range g.Yeast {
		if p.FromGyle.Written() {
			all = append(all, mention{p.FromGyle, "has its yeast from"})
		}
	}
	return all
}

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
		return cmp.Or(
			cmp.Compare(y.Severity, x.Severity), cmp.Compare(rank[x.Gyle], rank[y.Gyle]),
			notice.Compare(x.Notice, y.Notice),
		)
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

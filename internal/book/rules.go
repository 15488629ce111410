package book

import (
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
	idFault        = "gylebook-fault"
)

// rule is one finding across gyles: as the Workings page has it, and its test. Of
// other gyles a test may go by their numbers, days, lineage and what was drawn, and
// of subjects by their names: these are the same in books abreast. What else it went
// by would have to be compared in former.compare.
type rule struct {
	rules.Rule
	look func(b *Book, g *Gyle) []rules.Found
}

// Rules lists the findings that only the whole journal shows, in the shape of
// those of one gyle. It is made anew at each call.
func Rules() []rules.Rule {
	all := acrossRules()
	out := make([]rules.Rule, len(all))
	for i, r := range all {
		out[i] = r.Rule
	}
	return out
}

const convention = "common practice, no source"

func acrossRules() []rule {
	declare := func(id string, worst notice.Severity, when string, look func(b *Book, g *Gyle) []rules.Found) rule {
		return rule{Rule: rules.Rule{ID: id, When: when, Watches: figures.Stages(), Worst: worst, Source: convention}, look: look}
	}
	return []rule{
		declare(idNoSuchGyle, notice.Look, "follows, drawn_from or from_gyle gives a number that no gyle has or had", noSuchGyle),
		declare(idRevisionRing, notice.Look, "a gyle follows itself, straight or round a ring", revisionRing),
		declare(idDrawnRing, notice.Mend, "a gyle is drawn from itself, straight or round a ring", drawnRing),
		declare(idLaterGyle, notice.Look, "follows, drawn_from or from_gyle gives a gyle that was brewed on a later day", laterGyle),
		declare(idNumberInUse, notice.Look, "formerly gives a number that a gyle has, or that two gyles claim", numberInUse),
		declare(idOverdrawn, notice.Look, "over 1 L more was drawn from a gyle, all gyles together, than it held", overdrawn),
		declare(idNameNearly, notice.Note, "a name without a card is a letter or two off one that has a card, or off one used more often", nameNearly),
	}
}

// findAll sets each gyle's notices: what it was worked out to, what of its files
// could not be read, and the findings across gyles. In a book abreast these are the
// same for a gyle that is, since they go by what such a book has the same.
func (b *Book) findAll(f *former) {
	var turns []int
	for turn := range b.Gyles {
		if !b.toldAgain(turn, f) {
			turns = append(turns, turn)
		}
	}
	all, found := acrossRules(), make([][]notice.Notice, len(turns))
	inParallel(len(turns), func(i int) { found[i] = b.findingsOf(b.at(turns[i]), f.of(turns[i]), all) })
	for i, turn := range turns {
		b.own(turn, f).Notices = found[i]
	}
}

func (b *Book) toldAgain(turn int, f *former) bool {
	return f.abreast && b.at(turn) == f.book.at(turn) && slices.Equal(b.misread[turn], f.book.misread[turn])
}

// findingsOf are all notices of a gyle; those of the old one of the same entry, nil
// for none, where they are the same.
func (b *Book) findingsOf(g, old *Gyle, all []rule) []notice.Notice {
	var across []notice.Notice
	for _, r := range all {
		for _, f := range r.look(b, g) {
			across = append(across, noticeOf(g, r.ID, r.Source, f))
		}
	}
	s, misread := g.settled, b.misread[g.turn]
	if old != nil && old.settled == s && len(misread)+len(across) == 0 && len(old.Notices) == len(s.found)+len(s.faults) {
		return old.Notices
	}
	notices := slices.Concat(s.found, s.faults, misread, across)
	rankNotices(notices)
	return notices
}

func noticeOf(g *Gyle, id, source string, f rules.Found) notice.Notice {
	n := notice.Notice{Place: f.Where.Place, Severity: f.Severity, ID: id, Of: f.Of, Says: f.Says, Why: f.Why, Do: f.Do, Source: source}
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

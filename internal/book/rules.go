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

// acrossRule is one finding across gyles: as the Workings page has it, and its test.
type acrossRule struct {
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

func acrossRules() []acrossRule {
	declare := func(id string, worst notice.Severity, when string, look func(b *Book, g *Gyle) []rules.Found) acrossRule {
		return acrossRule{Rule: rules.Rule{ID: id, When: when, Watches: figures.Stages(), Worst: worst, Source: convention}, look: look}
	}
	return []acrossRule{
		declare(idNoSuchGyle, notice.Look, "follows, drawn_from or from_gyle gives a number that no gyle has or had", noSuchGyle),
		declare(idRevisionRing, notice.Look, "a gyle follows itself, straight or round a ring", revisionRing),
		declare(idDrawnRing, notice.Mend, "a gyle is drawn from itself, straight or round a ring", drawnRing),
		declare(idLaterGyle, notice.Look, "follows, drawn_from or from_gyle gives a gyle that was brewed on a later day", laterGyle),
		declare(idNumberInUse, notice.Look, "formerly gives a number that a gyle has, or that two gyles claim", numberInUse),
		declare(idOverdrawn, notice.Look, "over 1 L more was drawn from a gyle, all gyles together, than it held", overdrawn),
		declare(idNameNearly, notice.Note, "a name without a card is a letter or two off one that has a card, or off one used more often", nameNearly),
	}
}

// noticesOf are all notices of a gyle: what it was worked out to, what of its files
// could not be read, and the findings across gyles. They are not to be changed.
func (b *Book) noticesOf(g *Gyle, all []acrossRule) []notice.Notice {
	more := slices.Clip(b.misread[g])
	for _, r := range all {
		for _, f := range r.look(b, g) {
			more = append(more, noticeOf(g, r.ID, r.Source, f))
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

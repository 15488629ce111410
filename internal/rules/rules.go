package rules

import (
	"slices"

	"gylebook/internal/assay"
	"gylebook/internal/figures"
	"gylebook/internal/journal"
	"gylebook/internal/notice"
)

// Rule is one finding as declared.
type Rule struct {
	ID      string
	When    string          // the test, in words, for the Workings page
	Watches []figures.Stage // the stages it is looked for in
	Worst   notice.Severity // the gravest it can be
	Source  string
	Example Example
	group   group // of rules that see one slip
	// look examines one gyle. What it returns lacks only what the rule itself
	// knows: id and source.
	look func(c *inspection) []Found
}

// Example shows a rule by an entry that raises it and one that does not. Both are
// a healthy entry with a few values changed, written as KEY=VALUE: what a
// what-if takes.
type Example struct {
	In     string   // the healthy entry: planned, mashing, pitching, working, bottled, bagged, casked, kegged, barrelled, pouring
	Raises []string // with these it is raised, at the rule's Worst
	Spares []string // with these, as near to it as can be, it is not
	On     string   // the day, or the day and hour, where another than noon of 2026-03-20
}

// Found is one thing that a rule found.
type Found struct {
	Severity notice.Severity
	Where    journal.Where // the line it rests on
	Of       string        // the part of the entry, such as packages[1]
	Says     string        // what is the case, with its figure
	Why      string        // what follows from it
	Do       string        // what to do now
}

// always are all stages.
var always = figures.Stages()

// alive are the stages in which there is, or will be, beer to be had.
var alive = always[:figures.Empty]

// from are the stages from one on.
func from(first figures.Stage) []figures.Stage { return always[first:] }

// Rules lists every rule, in the order of a gyle's life. It is made anew at each
// call, so that nobody can change it.
func Rules() []Rule {
	return slices.Concat(
		readingRules(), nameRules(), slipRules(),
		recipeRules(), storeRules(), waterRules(), brewdayRules(), infusionRules(), hazardRules(),
		pitchRules(), fermentRules(), loggerRules(), workingRules(), beerRules(),
		sealingRules(), contentsRules(), bagRules(), caskRules(), bottleRules(),
		airRules(), cleaningRules(),
		cellarRules(), serviceRules(), partyRules(),
		labelRules(), peopleRules(), tastingRules(),
	)
}

// Examine is every finding of one gyle, by place. What the entry accepts, and is
// no danger, carries the brewer's reason.
func Examine(s *figures.Sheet) []notice.Notice {
	c := inspect(s)
	var found []raised
	for turn, r := range Rules() {
		if !slices.Contains(r.Watches, s.Stage) {
			continue
		}
		for _, f := range r.look(c) {
			found = append(found, raised{f, r, turn})
		}
	}
	found = c.gather(found)
	all := make([]notice.Notice, 0, len(found))
	for _, r := range found {
		all = append(all, c.notice(r.rule, r.Found))
	}
	slices.SortStableFunc(all, notice.Graver)
	return all
}

func (c *inspection) notice(r Rule, f Found) notice.Notice {
	n := notice.Notice{
		Place: f.Where.Place, Severity: f.Severity, ID: r.ID, Of: f.Of,
		Says: f.Says, Why: f.Why, Do: f.Do, Source: r.Source,
	}
	if n.Place.Line == 0 {
		n.Place = c.Gyle.Number.Place
	}
	if n.Severity < notice.Danger {
		n.Accepted = c.acceptedBecause(r.ID)
	}
	return n
}

func (c *inspection) acceptedBecause(id string) string {
	for _, a := range c.Gyle.Accept {
		if a.Finding.Text == id {
			return a.Because.Text
		}
	}
	return ""
}

// inspection is one gyle as rules look at it: its case, with the questions that only
// rules ask.
type inspection struct{ *assay.Case }

// inspect begins to look at a gyle.
func inspect(s *figures.Sheet) *inspection { return &inspection{assay.Of(s)} }

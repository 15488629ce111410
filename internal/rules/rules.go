package rules

import (
	"cmp"
	"fmt"
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
	// Why is what follows, Do what to do now, and Next what to do next time, once it
	// can no longer be mended: of all that the test finds and says nothing else of.
	// Quantities stand in braces.
	Why, Do, Next string
	// mendable tells whether Do can still be done; nil for always.
	mendable func(c *inspection) bool
	group    group // of rules that see one slip
	// look examines one gyle. What it returns lacks what the rule itself knows.
	look func(c *inspection) []Found
}

// Found is one thing that a rule found. What it leaves empty the rule knows.
type Found struct {
	Severity notice.Severity // the rule's worst where it is nought, but for a note
	Where    journal.Where   // the line it rests on
	Of       string          // the part of the entry, such as packages[1]
	also     string          // other containers that are told the same
	// saidAlike are their sentences, where they differ.
	saidAlike []string
	Says      string // what is the case, with its figure
	Why       string // what follows from it
	Do        string // what to do now
	Next      string // what to do next time, where it cannot be mended
	note      bool   // it is no more than a note, whatever the rule can be
	late      bool   // it cannot be mended, and the rule says what to do next time
}

// nextTime is a finding about what can no longer be mended.
func nextTime(f Found, do string) Found {
	f.note, f.Do = true, "Next time: "+do
	return f
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
		readingRules(), gapRules(), nameRules(), slipRules(),
		recipeRules(), storeRules(), brewdayRules(), infusionRules(), hazardRules(),
		pitchRules(), fermentRules(), loggerRules(), workingRules(), beerRules(),
		sealingRules(), contentsRules(), bagRules(), caskRules(), bottleRules(),
		airRules(), cleaningRules(),
		cellarRules(), serviceRules(),
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
			found = append(found, raised{c.completed(r, f), r, turn})
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

// completed is what was found with what the rule knows of it.
func (c *inspection) completed(r Rule, f Found) Found {
	f.Why = cmp.Or(f.Why, c.Text(r.Why))
	switch {
	case f.Next != "" || f.late || r.mendable != nil && !r.mendable(c):
		f = nextTime(f, cmp.Or(f.Next, c.Text(r.Next)))
	case f.Do == "":
		f.Do = c.Text(r.Do)
	}
	if f.Severity == notice.Note && !f.note {
		f.Severity = r.Worst
	}
	if f.note {
		f.Severity = notice.Note
	}
	return f
}

func (c *inspection) notice(r Rule, f Found) notice.Notice {
	n := notice.Notice{
		Place: f.Where.Place, Severity: f.Severity, ID: r.ID, Of: f.Of, Also: f.also,
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

// say is the test of a rule in words, with its limits in it.
func say(format string, limits ...any) string { return fmt.Sprintf(format, limits...) }

// once is the test of a rule that finds one thing or none: that says nothing.
func once(look func(*inspection) Found) func(*inspection) []Found {
	return per(func(c *inspection) []*inspection { return []*inspection{c} }, func(_, c *inspection) Found { return look(c) })
}

// per is a test of each of some parts of an entry by itself.
func per[T any](parts func(*inspection) []T, look func(*inspection, T) Found) func(*inspection) []Found {
	return func(c *inspection) []Found {
		var found []Found
		for _, part := range parts(c) {
			if f := look(c, part); f.Says != "" {
				found = append(found, f)
			}
		}
		return found
	}
}

// perContainer is a test of each container that is filled and not yet empty. What it
// finds is about that one, and points at its vessel where it names no line.
func perContainer(look func(*inspection, figures.Container) Found) func(*inspection) []Found {
	return per((*inspection).Live, aboutContainer(look))
}

func aboutContainer(look func(*inspection, figures.Container) Found) func(*inspection, figures.Container) Found {
	return func(c *inspection, k figures.Container) Found {
		f := look(c, k)
		f.Of = k.Key
		if !f.Where.Written() {
			f.Where = assay.WhereOf(k)
		}
		return f
	}
}

// The parts of an entry that rules look at one by one.
func pitches(c *inspection) []journal.Pitch    { return c.Gyle.Yeast }
func hopLines(c *inspection) []journal.Hop     { return c.Gyle.Hops }
func tastings(c *inspection) []journal.Tasting { return c.Gyle.Tastings }
func readings(c *inspection) []journal.Reading { return c.Gyle.Readings }

// either is one wording or the other.
func either(test bool, then, otherwise string) string {
	if test {
		return then
	}
	return otherwise
}

// Package book is the whole journal as one linked thing: every gyle with its
// figures and findings, what was used where and what came of it, which beer
// revises which, what this brewer's gyles have taught, and what the calendar
// holds.
//
// A book is made once from a read journal and a clock, and is not changed after
// that: pages are pure functions of it. The same journal and clock give the
// same book, whatever order its files were read in.
//
// # The order of brewing
//
// A gyle belongs to the day it was brewed or, where the entry does not say, to
// the first day that anything in it has. Gyles of one day follow each other by
// hour, number and file; those without any date come last, as still to be
// brewed.
//
// # What is learnt
//
// A gyle is worked out with what the gyles of earlier days taught (past.go),
// never with those of the same day or later: so an old record is not rewritten
// by a new one. What teaches (brewhouse yield, losses, attenuation once the
// gravity has stood still) is worked from readings alone and does not itself
// lean on the past.
//
// # One book after another
//
// While a journal is being written, Reopen makes the next book of the last one.
// A gyle is worked out again only if something that it was worked out from is
// another: its front matter, a card that it asked for, the settings, its clock,
// its past, a gyle that it was drawn from. Where a save leaves every gyle at its
// place, and leaves numbers, lineage and names as they were, the new book has the
// very gyles of the last but for those that come out otherwise (former.go). Each of
// these is compared, none is guessed, so that a book reopened is the book opened
// afresh. A story is no part
// of a book: a book whose stories alone changed is the last one with another
// journal, and pages read a story from Journal.Document, never from a Gyle or a
// Card, whose body may be that of an earlier version.
//
// # Whose findings
//
// The rules about one gyle are those of package rules. The book adds those
// that only the whole journal shows (rules.go): numbers that lead nowhere,
// rings, cards given twice, names nearly alike.
package book

import (
	"time"

	"gylebook/internal/figures"
	"gylebook/internal/journal"
	"gylebook/internal/notice"
)

// Book is the journal, linked.
type Book struct {
	Journal *journal.Journal
	Now     time.Time
	// Gyles are all of them, the latest brewed first; those without a date, on
	// paper, come before.
	Gyles []*Gyle
	// Subjects is everything with a page of its own that gyles refer to,
	// whether or not it has a card, by kind and then by name.
	Subjects []*Subject
	Families []*Family // the one brewed from latest first
	Notes    []*journal.Note
	Tags     []*Group // by name
	Years    []*Group // the latest first
	// Board is the gyles by stage, as the home page has them.
	Board []Rung
	// Notices are the errors and findings that belong to no gyle: of settings,
	// cards and notes; the gravest first.
	Notices []notice.Notice

	register
	turns    []int // in the order of brewing, by the place among the journal's gyles
	drawing  drawing
	misread  map[int][]notice.Notice // by turn: what of a gyle's files could not be read
	subjects map[called]*Subject
	tally    *tally
	spoken   *spellings // shared by a book and those reopened from it

	frame      *frame   // shared by books abreast
	binding    *binding // shared by books that differ in stories alone
	trends     func() Trends
	calendar   func() []Event
	nextMoment func() time.Time
	uses       func() map[*Subject][]Use
}

// binding is what was linked in one go; frame is what is the same in books abreast:
// see former.
type (
	binding struct{ _ byte }
	frame   struct{ _ byte }
)

// Abreast tells that another book has the same clock, settings, cards, subjects and
// gyles, by number, file, folder, beer and lineage. A gyle that is not one and the
// same in both came out otherwise, or leads to one that did.
func (b *Book) Abreast(other *Book) bool { return b.frame == other.frame }

// Trends are worked out when first asked for.
func (b *Book) Trends() Trends { return b.trends() }

// Calendar is what has happened and what is to come, by date; it is written when
// first asked for, and not to be changed.
func (b *Book) Calendar() []Event { return b.calendar() }

// Gyle is one entry with all that is known about it.
type Gyle struct {
	*journal.Gyle
	Sheet *figures.Sheet
	// Notices are this gyle's errors and findings, the gravest first. Accepted
	// ones come last and carry the brewer's reason.
	Notices []notice.Notice
	// Slug is its folder under gyles/, its number as a rule.
	Slug string
	// Begun is the day it was brewed, else the first date in the entry; the
	// zero time where it has none.
	Begun   time.Time
	Follows *Gyle   // the gyle it revises, nil for none; a ring is cut
	Revised []*Gyle // the gyles that revise it, in the order of brewing
	Drawn   []*Gyle // the gyles it was drawn from, in the order of the entry
	Parted  []*Gyle // the gyles that were drawn from it, in the order of brewing
	Family  *Family // nil for a gyle without relatives
	Tasted  Tasted  // what its tasters said, gathered
	Status  Status  // where it stands now, in a line

	revisionRing, drawnRing int // gyles of one ring share a number above nought

	filed   int   // the place among the journal's gyles
	turn    int   // in the order of brewing
	gist    *gist // what the entry alone says
	tally   *tally
	taught  *teaching // nil for one that was drawn from others
	settled *settled
}

// Subject is something with a page of its own: an ingredient, a vessel, an
// instrument, a style, a taster.
type Subject struct {
	Kind string // the kind of card: malt, hop, vessel …
	Name string
	Slug string        // unique within its kind
	Card *journal.Card // nil where the brewer wrote none and the larder has none
	// Times is how often it is used.
	Times int

	drafts int    // how many of Times are in drafts
	nearly string // what a name without a card was probably meant to be
}

// Use is one gyle's use of one subject.
type Use struct {
	Gyle    *Gyle
	Subject *Subject
	Amount  string // as a brewer says it: "25 g at 60 min"
	Where   journal.Where
}

// Family is a line of gyles that revise one another, the oldest first.
type Family struct {
	Name  string // the latest gyle's beer
	Slug  string // unique among families
	Gyles []*Gyle
}

// Group is gyles (and notes) under one heading: a tag, a year.
type Group struct {
	Name  string
	Slug  string
	Gyles []*Gyle // the latest brewed first
	Notes []*journal.Note
}

// Gyle is the gyle of a number, or else the one that formerly had it; nil for
// none. Of two with one number it is the one whose file comes first.
func (b *Book) Gyle(number int) *Gyle {
	if turn, is := b.numbers[number]; is {
		return b.at(turn)
	}
	return nil
}

// GyleIn is the gyle of a file, by its path in the journal; nil for none.
func (b *Book) GyleIn(file string) *Gyle {
	if turn, is := b.files[file]; is {
		return b.at(turn)
	}
	return nil
}

// Subject is the subject that a name of a kind of card refers to, by any of
// its spellings; nil for one that no gyle uses and no card of the brewer's
// describes.
func (b *Book) Subject(kind, name string) *Subject {
	return b.subjects[calledBy(b.Journal.Larder, kind, name)]
}

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
// While a journal is being written, each save makes a new book (OpenWith). What is dear
// is kept in a store, each thing under a key that is a hash of all that it is worked out
// from: what an entry says under its front matter; what it teaches and how it comes out
// under that, its clock, its past, the gyles that it was drawn from and what others drew
// from it. The cards that it asked for are asked for again. Everything else, all links
// among them, is made anew. So a book made with a store is the book made without.
//
// A story is in no key, and pages read it from Journal.Document, never from a Gyle or
// a Card, whose body may be that of an earlier version.
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

	brewed []*Gyle // in the order of brewing
	// mashed are those of them that begin as wort, and need no other gyle; drawn those
	// drawn from others, each after its own sources; taken is what others say that they
	// drew from each.
	mashed, drawn []*Gyle
	taken         map[*Gyle][]journal.Drawn

	numbers  map[int]*Gyle
	files    map[string]*Gyle
	subjects map[called]*Subject
	misread  map[*Gyle][]notice.Notice // what of a gyle's files could not be read

	trends     func() Trends
	calendar   func() []Event
	nextMoment func() time.Time
	uses       func() map[*Subject][]Use
}

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

	turn    int         // in the order of brewing
	sameDay span        // the places of all gyles of its day
	facts   *entryFacts // what the entry alone says
	named   []*Subject  // what the entry's names mean, one for one
	worked  *workedGyle // nil in a book as published
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
func (b *Book) Gyle(number int) *Gyle { return b.numbers[number] }

// GyleIn is the gyle of a file, by its path in the journal; nil for none.
func (b *Book) GyleIn(file string) *Gyle { return b.files[file] }

// Subject is the subject that a name of a kind of card refers to, by any of
// its spellings; nil for one that no gyle uses and no card of the brewer's
// describes.
func (b *Book) Subject(kind, name string) *Subject {
	return b.subjects[calledBy(b.Journal.Larder, kind, name)]
}

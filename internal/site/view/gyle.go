package view

import "html/template"

// What is told of a gyle on its own page and by the terminal alike.

// Working is how the figures of one kind were worked out.
type Working struct {
	Label   string
	Formula template.HTML
	Source  string
	Got     string // all results, for the heading
	Cases   []Case
}

// Case is one figure of a kind: of the whole gyle, or of one container, sugar,
// ion or step.
type Case struct {
	ID          string // of the element: w-abv
	Of          string // what it is of, "" for a kind that is only of the whole gyle
	Got         Measure
	Provisional bool
	Note        string
	Numbers     template.HTML // the formula with this gyle's numbers
	Rests       string        // what its ± is made of, the largest first, and the lines it rests on; "" where both are those of the case before
}

// Missing is a figure that cannot be given yet.
type Missing struct{ Label, Because, Needs string }

// Verdict is whether the beer is finished or only quiet.
type Verdict struct {
	Says     string     // the answer, in a sentence
	Do       string     // what to do now, "" for nothing
	Evidence []Evidence // what it rests on
}

// Evidence is one thing that a verdict rests on.
type Evidence struct {
	Text string
	Line int // of the entry; 0 for what no line says
}

// Diagnosis is what the readings say of one word that tasters found.
type Diagnosis struct {
	Word  string
	Who   string // who found it, of how many, and how much that tells: a sentence
	Glass string // how it was served, sentences, "" where nothing was noted
	// Nothing says that no reading speaks for any cause, "" where one does.
	Nothing string
	Causes  []Suspect     // those that some reading speaks of, the likeliest first
	Open    string        // those that none speaks of, in one clause
	Settle  template.HTML // what to note to settle them
	Ask     string        // what tells the causes apart, a sentence
}

// Suspect is one cause with what speaks for and against it.
type Suspect struct {
	Standing string // Likely, Possible or Unlikely
	Name     string
	Href     string // of its row among the workings
	// As is the word under which the same was said before; then nothing but the
	// standing and the name is here.
	As    string
	Signs []SignGroup
	Needs template.HTML // the keys of readings that would tell more
	Do    string        // what to do now and next time, "" for an unlikely cause
}

// SignGroup is the signs of one voice: For, May be for, Against, May be against.
type SignGroup struct {
	Voice string
	Signs []Sign
}

// Sign is one reading and what it says, with its place.
type Sign struct{ Says, Place, Href string }

// Proposal is one change for the next gyle: gap, cause, change, what to expect, how
// to know.
type Proposal struct {
	Label  string // of the figure that missed its aim
	Gap    string
	Cause  string
	Change string
	Sets   []string // as an entry has it: "mash.rests[0].at: 66.5 °C"
	Expect Measure
	Short  string // why that does not cover the aim, "" where it does
	Know   string
	Rests  string // the lines it rests on, and its source
}

// BrewClock is brew day by the clock, for a gyle's page and its copper card. It
// is whole without a script; with one the reader sees how long there is still.
type BrewClock struct {
	// Length is the minutes of the boil where it is not written when that began,
	// so that the reader may say it has; "" where it is, or there is no boil.
	Length string
	Due    []Due // in the order of the day
}

// Due is one thing to do.
type Due struct {
	At      string // RFC 3339 in UTC; "" where the hour is not known
	Time    string // the same by the journal's clock: 11:20
	Minutes string // before the end of the boil, a plain number; "" for what does not go by it
	When    string // in words: 60 min before the end
	What    string
	Amount  string
}

package view

import "html/template"

// Gyle is what is told of a gyle on its own page and by the terminal alike.
type Gyle struct {
	Verdict   *Verdict // nil where there is nothing to judge
	Workings  []Working
	Units     string // in what units the workings are, "" where in those of all else
	Missing   []Missing
	Diagnoses []Diagnosis
	Strange   string // the words found that lead to no cause, in a sentence
	Proposals []Proposal
	// Unproposed are the figures off their aim that give no proposal, and why.
	Unproposed []string
}

// Working is how the figures of one kind were worked out.
type Working struct {
	ID      string // of the kind: abv
	Family  string // the heading that they stand under in a list of all
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
	Date        bool // Got is a date and no number
	Provisional bool
	Note        string        // what qualifies it
	Basis       string        // what a figure that plans leans on
	Numbers     template.HTML // the formula with this gyle's numbers
	Doubts      []Doubt       // what its ± is made of, the largest first
	// Rests is that and the lines that the figure rests on, in sentences; "" where both
	// are those of the case before.
	Rests string
}

// Doubt is one reading or formula that a ± comes from.
type Doubt struct {
	What  string
	Place string // its line, "" for what no line says
	Share string // of the variance: 40 %
}

// Missing is a figure that cannot be given yet.
type Missing struct {
	Label   string
	Of      string // the container, sugar, ion or step that it is of
	Because string // why it is withheld though its readings are there
	Needs   []string
}

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
	Said  string // by how many it was found, and how much that tells
	Who   string // the same with their names, a sentence
	Glass string // how it was served, sentences, "" where nothing was noted
	// Nothing says that no reading speaks for any cause, "" where one does.
	Nothing string
	Causes  []Suspect // those that some reading speaks of, the likeliest first
	Open    string    // those that none speaks of, in one clause
	Settle  []string  // the keys to note to settle them
	Ask     string    // what tells the causes apart, a sentence
}

// Suspect is one cause with what speaks for and against it.
type Suspect struct {
	Standing string // Likely, Possible or Unlikely
	Name     string
	Href     string // of its row among the workings, "" where it was said before
	As       string // the word under which just the same was said before, "" for none
	Signs    []SignGroup
	Needs    []string // the keys of readings that would tell more
	Do       string   // what to do now and next time, "" for an unlikely cause
}

// SignGroup is the signs of one voice: For, May be for, Against, May be against.
type SignGroup struct {
	Voice string
	Signs []Sign
}

// Sign is one reading and what it says, with its place.
type Sign struct {
	Says, Place string
	Rank        int // among the signs of its cause, 0 being what tells the most
}

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

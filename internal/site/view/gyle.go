package view

import "html/template"

// Gyle is gyle.html, one gyle's page.
type Gyle struct {
	Frame
	Number    string
	Beer      string
	Style     Link
	Folio     []string // short facts for the margin
	Follows   Link
	Tags      []Link
	Draft     bool
	Said      []Phrase // the headline, a sentence
	Summary   string
	Clock     BrewClock
	Cover     Picture
	Errors    []Notice // what could not be read
	Notices   []Notice // warnings, the gravest first
	Accepted  []Notice
	Verdict   *Verdict // nil where there is nothing to judge
	Aims      []Aim
	AimsChart template.HTML
	Story     template.HTML
	Ferment   template.HTML // chart
	Condition template.HTML // chart
	Left      template.HTML // chart
	Tables    []Table
	Tastings  []Tasting
	Tasted    string // what the tasters said together
	Diagnoses []Diagnosis
	Strange   string // the words found that lead to no cause, in a sentence
	Next      []string
	Plan      *Plan // nil without a party to come
	CameTrue  *CameTrue
	Proposals []Proposal
	// Unproposed are the figures off their aim that give no proposal, and why.
	Unproposed []string
	Revised    []Link
	Drawn      []Link // the gyles it was drawn from
	Parted     []Link // the gyles drawn from it
	Family     Link
	Lineage    template.HTML // chart
	Used       []Used
	Costs      Table
	Photos     []Picture
	Workings   []Working // of the figures that are aimed at
	Missing    []Missing
	Cautions   []string
	EntryHref  string // the source, as published
	EntryFile  string
	JSONHref   string
	CardHref   string
	LabelHref  string
	Before     Link // the gyle brewed before
	After      Link

	WorkingsHref  string // the page of all workings, gyle-workings.html
	WorkingUnits  string // in what units those here are, "" where in those of all the page
	OtherWorkings string // how many more stand there: "41 more figures"
}

// Phrase is a piece of a sentence; Strong ones stand out.
type Phrase struct {
	Text   string
	Strong bool
}

// Aim is one line of aims and results.
type Aim struct {
	ID, Label string
	Aim       Measure
	Got       Measure
	Off       string
	Tell      string // whether the readings can tell the two apart
	Href      string // of the working
	Note      string
}

// Tasting is what one taster said.
type Tasting struct {
	When, By, Score, How string
	ByHref               string
	Found                []string
	Text                 string
}

// Used is a thing with a page of its own that the gyle used.
type Used struct {
	What   Link
	Kind   string
	Amount string
}

// GyleWorkings is gyle-workings.html: how each of a gyle's figures was worked
// out.
type GyleWorkings struct {
	Frame
	Number, Beer string
	Gyle         Link
	Units        string // in what units the workings are, "" where in those of all pages
	Workings     []Working
	Doubts       Table // what each reading and formula that matters is doubted by, and why
}

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

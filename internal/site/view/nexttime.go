package view

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

// CameTrue is what came of the proposals of the gyle that this one follows.
type CameTrue struct {
	Of       Link
	Outcomes []Outcome
	Also     string // what else was changed, so that it may not have been this alone
}

// Outcome is one proposal that was carried out.
type Outcome struct {
	Label         string
	Done          string // "64.5 °C before, 66.5 °C proposed, 67 °C now"
	Expected, Got Measure
	Judged        string
}

// Plan is the way to a party.
type Plan struct {
	Says   []string
	Table  Table
	Drink  []string
	Source string
}

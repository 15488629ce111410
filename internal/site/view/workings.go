package view

// Workings is workings.html: how everything is worked out.
type Workings struct {
	Frame
	Kinds  []KindRow
	Units  string // in what units formulas and limits are, "" where in those of all pages
	Rules  []RuleRow
	Causes []CauseRow
	Doubts Table
	Words  []WordGroup
	Colour string // how the ribbon's colour is made
}

// KindRow is one figure as declared.
type KindRow struct {
	ID, Label, Unit, Says, Formula, Valid, Source, Checked string
	Symbols                                                []string
}

// RuleRow is one finding as declared.
type RuleRow struct{ ID, When, Watches, Worst, Source string }

// WordGroup is the vocabulary of one kind of file.
type WordGroup struct {
	ID, Title string
	Words     []WordRow
}

// WordRow is one key.
type WordRow struct{ Path, Type, Says, Example string }

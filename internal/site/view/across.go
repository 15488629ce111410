package view

import "html/template"

// Families is families.html.
type Families struct {
	Frame
	Families []FamilyRow
}

// FamilyRow is one of them.
type FamilyRow struct {
	Name    Link
	Members []Link
}

// Family is family.html: revisions side by side.
type Family struct {
	Frame
	Heading string
	Lineage template.HTML
	Members []Link
	Rows    []FamilyLine
	Steps   []Step
}

// FamilyLine is one figure or ingredient across the family.
type FamilyLine struct {
	Label string
	Cells []FamilyCell
}

// FamilyCell is what one of the gyles has there; Differs tells it from the gyle
// before it.
type FamilyCell struct {
	Text    string
	Differs bool
}

// Step is what one revision changed and what it did.
type Step struct {
	From, To Link
	Changed  []string
	Did      []string
	Asked    []string // what the earlier entry meant to change
}

// Trends is trends.html.
type Trends struct {
	Frame
	Trends []Trend
}

// Trend is one figure across the journal.
type Trend struct {
	ID, Title, Says string
	Chart           template.HTML
	Table           Table
}

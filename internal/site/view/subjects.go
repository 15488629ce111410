package view

import "html/template"

// Subjects is subjects.html, a list of things that have pages: the larder, the
// styles, the vessels, the tasters.
type Subjects struct {
	Frame
	Lead   string
	Groups []SubjectGroup
}

// SubjectGroup is the subjects of one kind.
type SubjectGroup struct {
	ID, Title string
	Subjects  []SubjectRow
}

// SubjectRow is one of them.
type SubjectRow struct {
	Name Link
	Used string
	Says string
}

// Subject is subject.html, the page of one thing.
type Subject struct {
	Frame
	Name, KindOf string
	Also         string
	Facts        []Property
	Source       string
	BuiltIn      bool
	NoCard       bool
	Body         template.HTML
	Lead         string // what came of it, in a sentence
	Charts       []template.HTML
	Learnt       string // what the next gyle with a yeast is expected by
	History      Table  // of a vessel: what was in it, when, at what pressure
	Uses         []UseRow
	Tastings     []TastingRow
}

// UseRow is one gyle's use of a subject.
type UseRow struct {
	Gyle        GyleRow
	Amount      string
	Attenuation Measure
}

// TastingRow is a tasting on its taster's page.
type TastingRow struct {
	Gyle Link
	Tasting
}

package view

import "html/template"

// CopperCard is copper-card.html, for brew day, on paper or by the copper.
type CopperCard struct {
	Frame
	Number, Beer string
	Gyle         Link
	Facts        []Fact
	Grist        Table
	Liquor       Table
	Mash         []string
	Clock        BrewClock
	Write        []string // what to read and write down
	Cautions     []string
}

// Fact is a name with a value.
type Fact struct {
	Name  string
	Value Measure
}

// Labels is labels.html, for paper.
type Labels struct {
	Frame
	Gyle    Link
	Code    template.HTML // the page's address as a QR code, a <symbol>; "" where the journal has no address
	Address string        // the same to read
	Labels  []Label
}

// Label is one container's.
type Label struct {
	Number   string
	Beer     string
	Style    string
	Facts    string   // strength, volume
	Dates    string   // racked or filled, drink by
	Contains string   // the allergens
	Lines    []string // what else must be told
	Care     string   // how to keep it, and what to do if it swells
	Class    string   // gives the beer's colour
}

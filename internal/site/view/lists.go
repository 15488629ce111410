package view

import "html/template"

// Board is board.html, the home page.
type Board struct {
	Frame
	Heading string
	Body    template.HTML // the words of index.md
	Rungs   []Rung
	Notices []Notice // the errors, dangers and what to mend, of everything
	Quiet   string   // what else there is to see: "12 notes on single pages"
	Newest  []Story
	Coming  []Dated // what the calendar holds
}

// Rung is one stage with its gyles.
type Rung struct {
	Stage string
	Gyles []GyleRow
}

// Gyles is gyles.html, the table of all gyles.
type Gyles struct {
	Frame
	Rows   []GyleRow
	Stages []string
	Styles []string
	Yeasts []string
	Years  []string
	// The units of the columns, which stand in their heads.
	ABVUnit, BitternessUnit, ColourUnit string
}

// GyleRow is a gyle in a list. The Sort fields are plain numbers for scripts.
type GyleRow struct {
	Number                  string
	Beer                    Link
	Style                   Link
	Brewed, BrewedSort      string
	Stage                   string
	Line                    string // where it stands, in a few words
	OG, FG, ABV, Bitterness Measure
	OGSort, FGSort, ABVSort string
	BitternessSort          string
	Colour                  Measure
	ColourSort              string
	Shade                   string // class that gives the beer's colour
	Pints                   string
	Tags                    []Link
	Yeasts                  string // their names, with | between them
	Summary                 string
	Worst                   string // the gravest severity of its warnings, "" for none
	Draft                   bool
}

// Groups is groups.html, the tags or the years.
type Groups struct {
	Frame
	Groups []GroupRow
}

// GroupRow is one of them.
type GroupRow struct {
	Name  Link
	Count string
}

// Group is group.html: the gyles and notes under one heading.
type Group struct {
	Frame
	Heading string
	Rows    []GyleRow
	Notes   []Story
}

// Notes is notes.html.
type Notes struct {
	Frame
	Notes []Story
}

// Note is note.html.
type Note struct {
	Frame
	Heading string
	When    string
	Draft   bool
	Tags    []Link
	Errors  []Notice
	Body    template.HTML
}

// Search is search.html.
type Search struct{ Frame }

// NotFound is 404.html.
type NotFound struct{ Frame }

// Redirect is redirect.html, at an address that something had before.
type Redirect struct {
	Frame
	To Link
}

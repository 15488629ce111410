// Package view is what templates are given, as far as it is of several pages or of
// the terminal too. With the structs of single pages, which package site has beside
// the functions that fill them (BoardPage, GylePage …), it is the templates' API, and
// all of it.
//
// Each page template executes with a pointer to the struct whose comment names
// it. Every address is relative to the page; every number is text with its
// unit, rounded as far as its ± supports; a field of type template.HTML is safe
// as it stands. A field that does not apply is empty, so that {{with}} and
// {{range}} need no other test.
//
// Replacement templates (--templates) go in front of the built-in ones by file
// name. Each is tried on an empty and on a full value of its struct before it is
// used, so that a name that is not here shows in whichever branch it stands.
package view

import "html/template"

// APIVersion is the version of what templates are given. It rises when a field
// that a template may use is taken away or comes to mean something else; a new
// field does not raise it. Before a first release it stays 1.
const APIVersion = 1

// Frame is what every page has.
type Frame struct {
	API         int    // APIVersion
	Kind        string // the template's name: gyle, board …
	Title       string // of the page
	Book        string // the journal's title
	Keeper      string
	Language    string // a language tag
	Root        string // the way to the top of the site: "", "../" …
	Description string // for search engines and previews
	Canonical   string // the page's public address, "" where the journal has none
	Nav         []NavLink
	WorkedOut   string // the day the site was worked out
	Version     string // of gylebook
	Copyright   string
	Gyles       string   // "14 gyles since 2025"
	Live        bool     // the script that keeps the page up to date is wanted
	Broken      []Notice // errors of what the page shows as it was before them; live only
	Ribbon      string   // class that gives the beer's colour, "" for none
	RibbonSays  string

	Published  string      // the day of an entry or note, 2026-03-07; "" for other pages
	Image      string      // the public address of its picture
	LinkedData template.JS // what it is, as JSON-LD in the vocabulary of schema.org; "" where the journal has no address
}

// Top is the frame of a page that has it.
func (f *Frame) Top() *Frame { return f }

// NavLink is one link of the navigation; Here marks the part the page is in.
type NavLink struct {
	Link
	Here bool
}

// Link is words and where they lead; Href is "" where they lead nowhere.
type Link struct{ Text, Href string }

// Measure is a number as printed. Value is "" where there is none; AtMost and AtLeast
// are bounds of its own, in its unit, where they say more than the ±.
type Measure struct{ Value, PlusMinus, Unit, AtMost, AtLeast string }

// Notice is a warning or an error.
type Notice struct {
	Severity string // danger, mend, look, note, error
	Word     string // the same as a word that begins a sentence
	ID       string
	Says     string
	Why      string
	Do       string
	Source   string
	Line     string // the line of the file, for errors
	Place    string // file:line
	Href     string // of the source, "" where it is not published
	Rule     string // where the rule behind it is told of, "" for a fault of the site or of reading
	About    Link   // the gyle, on pages about more than one
	Accepted string // the brewer's reason for living with it
}

// Picture is a photograph, already an <img> element or the box in place of one.
type Picture struct {
	HTML    template.HTML
	Caption string
	When    string
}

// Property is a name with words.
type Property struct{ Name, Value string }

// Story is an entry or note in a list of the newest.
type Story struct {
	Title   Link
	When    string
	Summary string
	Picture template.HTML
}

// String is the measure as text, its parts held together.
func (m Measure) String() string {
	text := m.Value
	if text == "" {
		return ""
	}
	if m.PlusMinus != "" {
		text += "\u00a0±\u00a0" + m.PlusMinus
	}
	if m.Unit != "" {
		text += "\u00a0" + m.Unit
	}
	if m.AtMost != "" {
		text += ", at\u00a0most\u00a0" + m.AtMost
	}
	if m.AtLeast != "" {
		text += ", at\u00a0least\u00a0" + m.AtLeast
	}
	return text
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

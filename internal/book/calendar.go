package book

import (
	"cmp"
	"net/url"
	"slices"
	"strings"
	"time"

	"gylebook/internal/figures"
	"gylebook/internal/journal"
)

// Happening is what kind of event it is.
type Happening string

// The happenings, in the order of a gyle's life.
const (
	Brewing    Happening = "brewed"
	Pitching   Happening = "pitched"
	HopsIn     Happening = "hops-in"
	HopsOut    Happening = "hops-out"
	AddingTo   Happening = "added"
	Fining     Happening = "fined"
	ReadingDue Happening = "reading-due"
	Racking    Happening = "racked"
	Priming    Happening = "primed"
	Drawing    Happening = "drawn"
	Filling    Happening = "filled"
	Warm       Happening = "conditioning-from"
	WarmEnds   Happening = "conditioning-to"
	Cool       Happening = "cellared"
	Broaching  Happening = "broached"
	Emptying   Happening = "emptied"
	PlanStep   Happening = "plan" // the last day for a step before a party
	Party      Happening = "party"
	Reckoned   Happening = "reckoned" // a figure that is a date: ready-on, drink-by …
)

// Event is something on a day, past or to come.
type Event struct {
	Gyle *Gyle
	What Happening
	At   time.Time // in the journal's zone
	// AllDay says that no hour is known.
	AllDay bool
	// Planned says that it is still to come at the book's clock.
	Planned bool
	// PlusMinus is the days that a reckoned date may be off, 0 elsewhere.
	PlusMinus float64
	// Says names it without the beer: "Pitched with house ale".
	Says string
	// Figure is the id of the figure that a reckoned date is, else "".
	Figure figures.ID
	Where  journal.Where // the line it is from, or was reckoned from
	key    string        // what makes the UID its own
}

// UID is the event's lasting name (RFC 5545, 3.8.4.7): the same at each
// publishing while the gyle keeps its number and the line its place in the
// entry, whatever date it gets.
func (e Event) UID(b *Book) string {
	return "gyle-" + e.Gyle.Slug + "-" + slugOf(e.key) + "@" + b.host()
}

// host is the journal's public host, else a name of its own that no host has
// (RFC 6761, 6.4).
func (b *Book) host() string {
	s := b.settings()
	if u, err := url.Parse(s.Address.Text); err == nil && u.Host != "" {
		return u.Host
	}
	return slugOf(s.Title.Text) + ".invalid"
}

// calendarOf collects the events of all gyles. The gyles are in the order of
// brewing, which decides between events of one moment.
func (b *Book) calendarOf(gyles []*Gyle) []Event {
	var all []Event
	for _, g := range gyles {
		d := diary{b: b, g: g}
		d.write()
		all = append(all, d.events...)
	}
	slices.SortFunc(all, compareEvents)
	return all
}

// Events are a gyle's own, by date.
func (b *Book) Events(g *Gyle) []Event {
	d := diary{b: b, g: g}
	d.write()
	slices.SortFunc(d.events, compareEvents)
	return d.events
}

// compareEvents orders events of one moment by gyle and then by their own name.
func compareEvents(x, y Event) int {
	return cmp.Or(x.At.Compare(y.At), byBrewing(x.Gyle, y.Gyle), strings.Compare(x.key, y.key))
}

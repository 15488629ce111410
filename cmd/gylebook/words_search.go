package main

import (
	"fmt"
	"slices"
	"strings"

	"gylebook/internal/book"
	"gylebook/internal/figures"
	"gylebook/internal/journal"
	"gylebook/internal/rules"
)

// explain prints all that is known of a word, and tells whether that is anything.
func explain(out paper, word string) bool {
	s := sections{out: out}
	if keys, exact := journal.LookUp(word); exact {
		for _, key := range keys {
			s.begin()
			printWord(out, key)
		}
	} else {
		s.speak(journal.Find(word))
		s.meaning(journal.Meaning(word))
	}
	switch kind := strings.ToLower(word); {
	case slices.Contains(journal.CardKinds(), kind):
		s.names(kind)
	case kind == "figures" || kind == "figure":
		s.figures()
	case kind == "findings" || kind == "finding":
		s.findings()
	case kind == "limits" || kind == "limit":
		s.limits()
	default:
		s.known(journal.NewLarder(nil).Known(word))
		s.figure(figures.KindCalled(word))
	}
	return s.any
}

// sections are what is printed of a word, with a blank line between them.
type sections struct {
	out paper
	any bool
}

func (s *sections) begin() {
	if s.any {
		fmt.Fprintln(s.out)
	}
	s.any = true
}

// mostFound is how many keys are listed that only speak of a word.
const mostFound = 12

// speak lists keys that are called so, or speak of it.
func (s *sections) speak(words []journal.Word) {
	for i, word := range words {
		if i == mostFound {
			s.out.indented("", fmt.Sprintf("And %d more.", len(words)-mostFound))
			return
		}
		if i == 0 {
			s.begin()
		}
		line := word.Path
		if in := written(word); in != "" {
			line += " (" + in + ")"
		}
		s.out.hanging("", "    ", line+", in "+article(word.File))
		s.out.indented("    ", word.Says)
	}
}

// meaning is what to do about something that has no key.
func (s *sections) meaning(do string) {
	if do != "" {
		s.begin()
		s.out.indented("", do)
	}
}

// names lists the known names of a kind.
func (s *sections) names(kind string) {
	s.begin()
	if kind == "vessel" {
		var kinds []string
		for _, kind := range journal.VesselKinds() {
			kinds = append(kinds, string(kind))
		}
		s.out.indented("", "A vessel is known by a card, or by its kind and size: "+strings.Join(kinds, ", ")+", with a size behind or before it, as bottle 500 mL; pin, firkin and kilderkin have theirs.")
		return
	}
	cards := journal.NewLarder(nil).All(journal.CardKind(kind))
	if len(cards) == 0 {
		s.out.indented("", "No "+kind+" is known without a card of its own: write one with card: "+kind+" and name:.")
		return
	}
	fmt.Fprintln(s.out, s.out.ink(bold, "Known without a card, beside your own:"))
	for _, card := range cards {
		s.out.hanging("  ", "    ", spellings(card))
	}
}

// spellings is a card's name, and what else it is called.
func spellings(card *journal.Card) string {
	var also []string
	for _, a := range card.Also {
		also = append(also, a.Text)
	}
	if len(also) == 0 {
		return card.Name.Text
	}
	return card.Name.Text + " (also " + strings.Join(also, ", ") + ")"
}

// known lists the cards of the larder that are called so.
func (s *sections) known(cards []*journal.Card) {
	for i, card := range cards {
		if i == mostFound {
			s.out.indented("", fmt.Sprintf("And %d more.", len(cards)-mostFound))
			return
		}
		if i == 0 {
			s.begin()
		}
		kind := card.Kind.String()
		s.out.hanging("", "    ", spellings(card)+": a known "+kind)
	}
}

// figure tells of the figure that is called so.
func (s *sections) figure(id figures.ID) {
	for _, k := range figures.Kinds() {
		if k.ID == id {
			s.begin()
			s.out.hanging("", "    ", "figure:"+string(k.ID)+", "+strings.ToLower(k.Label[:1])+k.Label[1:])
			s.out.indented("    ", k.Says)
		}
	}
}

// figures lists the ids by which a story may name a figure.
func (s *sections) figures() {
	s.begin()
	fmt.Fprintln(s.out, s.out.ink(bold, "In a story, [](figure:abv) stands for the figure of that id:"))
	for _, k := range figures.Kinds() {
		line := string(k.ID) + ": " + k.Label
		if k.Unit != "" {
			line += ", " + k.Unit
		}
		s.out.hanging("  ", "    ", line)
	}
}

// limits lists what figures are held against.
func (s *sections) limits() {
	for _, group := range book.Limits() {
		s.begin()
		fmt.Fprintln(s.out, s.out.ink(bold, "Limits of "+group.Title+":"))
		for _, l := range group.Limits {
			s.out.hanging("  ", "    ", l.Name+": "+l.String()+", "+l.Says+" ("+l.Origin()+")")
		}
	}
}

// findings lists the ids by which an entry may accept a finding.
func (s *sections) findings() {
	s.begin()
	fmt.Fprintln(s.out, s.out.ink(bold, "In an entry, accept: [{finding: ID, because: …}] answers the finding of that id:"))
	for _, r := range rules.Rules() {
		s.out.hanging("  ", "    ", r.ID+": "+r.When)
	}
}

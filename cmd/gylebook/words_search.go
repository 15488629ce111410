package main

import (
	"fmt"
	"reflect"
	"slices"
	"strings"

	"gylebook/internal/book"
	"gylebook/internal/causes"
	"gylebook/internal/figures"
	"gylebook/internal/journal"
	"gylebook/internal/rules"
	"gylebook/internal/scribe"
	"gylebook/internal/tasting"
)

// explain prints all that is known of a word, and tells whether that is anything.
func explain(out paper, word string) bool {
	s := sections{out: out}
	if keys, exact := journal.LookUp(word); exact {
		for _, key := range keys {
			s.begin()
			printWord(out, key)
		}
	}
	s.meaning(journal.Meaning(word))
	s.command(word)
	s.tasted(word)
	s.finding(word)
	if p, spoken := scribe.Spoken(word); spoken {
		s.begin()
		s.out.hanging("", "    ", "gylebook jot 14 "+p.Eg+" writes it down: "+p.Says)
	}
	if _, exact := journal.LookUp(word); !exact {
		s.speak(journal.Find(word))
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
		s.figure(figureOf(word))
	}
	return s.any
}

// explainParts explains the words of a phrase that is not known as a whole: the
// longest runs of them that are, the little ones left out.
func explainParts(out paper, phrase string) bool {
	words := slices.DeleteFunc(strings.Fields(phrase), func(w string) bool {
		return slices.Contains(little, strings.ToLower(w))
	})
	any := len(words) == 1 && slices.ContainsFunc(stems(words[0]), func(stem string) bool { return explain(out, stem) })
	for len(words) > 0 && !any {
		n := len(words)
		if len(words) == len(strings.Fields(phrase)) {
			n--
		}
		for n > 0 && !explain(out, strings.Join(words[:n], " ")) {
			n--
		}
		any = any || n > 0
		words = words[max(1, n):]
	}
	return any
}

// stems are what a word may come from: pouring from poured, hops from hop.
func stems(word string) []string {
	var all []string
	for _, ending := range []string{"ing", "ed", "ies", "es", "s"} {
		stem, is := strings.CutSuffix(strings.ToLower(word), ending)
		if is && len(stem) > 2 {
			all = append(all, stem+"ed", stem+"y", stem+"e", stem)
		}
	}
	return all
}

// little are words that a question has, and that are looked up by nobody.
var little = strings.Fields("a an the of to in on for with my i do does how what is are when where which write say")

// figureOf is the figure of that id or name, or that brewers call so.
func figureOf(word string) figures.ID {
	if id := figures.KindCalled(word); id != "" {
		return id
	}
	for _, k := range figures.Kinds() {
		if plain := strings.ReplaceAll(string(k.ID), "-", " "); strings.EqualFold(word, string(k.ID)) ||
			strings.EqualFold(word, plain) || strings.EqualFold(word, k.Label) {
			return k.ID
		}
	}
	return ""
}

// command tells of the command that is called so.
func (s *sections) command(word string) {
	all := reflect.TypeFor[arguments]()
	for i := range all.NumField() {
		field := all.Field(i)
		if _, is := field.Tag.Lookup("cmd"); is && strings.EqualFold(field.Name, word) {
			s.begin()
			name := "gylebook " + strings.ToLower(field.Name)
			s.out.hanging("", "    ", name+", a command: "+field.Tag.Get("help")+" "+name+" --help tells all.")
		}
	}
}

// tasted tells of a word that tasters say, and what may lie behind it.
func (s *sections) tasted(word string) {
	w, known := tasting.Known(word)
	if !known {
		return
	}
	s.begin()
	s.out.hanging("", "    ", w.Word+", what tasters say of the "+w.About+": tastings: [{found: ["+w.Word+"]}]")
	if len(w.Also) > 0 {
		s.out.indented("    ", "also: "+strings.Join(w.Also, ", "))
	}
	for _, c := range causes.Causes() {
		if slices.Contains(w.LeadsTo, c.ID) {
			s.out.hanging("    ", "      ", "perhaps "+c.Name)
		}
	}
	s.out.indented("    ", w.Ask)
}

// finding tells of the finding of that id.
func (s *sections) finding(word string) {
	for _, r := range rules.Rules() {
		if strings.EqualFold(r.ID, strings.ReplaceAll(word, " ", "-")) {
			s.begin()
			s.out.hanging("", "    ", r.ID+", a finding: "+r.When)
		}
	}
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

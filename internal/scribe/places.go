package scribe

import (
	"slices"
	"strings"

	"gylebook/internal/journal"
	q "gylebook/internal/quantity"
)

// Place is where a jotting goes, by the words that it begins with. In each of
// them a key of the vocabulary may be named before its value; a value without a
// key goes where its unit belongs.
type Place struct {
	Words string // what is typed: "copper after", "racked"
	Says  string // what is jotted
	Eg    string // an example, after the gyle's number

	list  string // a list that gets a new part
	under string // or the map whose keys are set; "yeast[]" is the next to pitch
	stamp string // the key that gets the time, "" for none
	fixed []Value
	units []unitKey // where a value goes by its unit
	bare  string    // the key of a number without a unit
	loose string    // the key of words
	open  bool      // words are taken without quotation marks too

	brews  bool   // what happens on brew day, and dates the entry if nothing does
	apart  bool   // "package 1" means packages[1] and not the whole gyle
	parcel string // what is set of a package is this map of it; its own keys where ""
	ofList bool   // the list is one of words
}

// unitKey is where a value of one kind goes.
type unitKey struct {
	kind *q.Kind
	key  string
}

var (
	ofVolume   = q.KindOf[q.Volume]()
	ofWeight   = q.KindOf[q.Mass]()
	ofHeat     = q.KindOf[q.Temperature]()
	ofGravity  = q.KindOf[q.Gravity]()
	ofBrix     = q.KindOf[q.Brix]()
	ofPH       = q.KindOf[q.Acidity]()
	ofPressure = q.KindOf[q.Pressure]()
	ofTime     = q.KindOf[q.Duration]()
)

// reading is where a jotting goes that begins with no place's words.
var reading = Place{
	Says: "a reading: gravity, heat, pH, Brix, pressure, or what was seen", Eg: "1.022 19.5C",
	list: "readings", stamp: "when", bare: "gravity", loose: "note",
	units: []unitKey{{ofGravity, "gravity"}, {ofBrix, "brix"}, {ofHeat, "temp"}, {ofPH, "ph"},
		{ofPressure, "pressure"}},
}

// measured is a wort's volume, gravity and heat.
var measured = []unitKey{{ofVolume, "volume"}, {ofGravity, "gravity"}, {ofHeat, "temp"}}

// Places are all that a jotting may begin with, in the order of brewing. The
// deeds among them are those of the vocabulary.
func Places() []Place {
	places := []Place{
		reading,
		{Words: "mashed", Says: "mashed in: liquor, its heat", Eg: "mashed 9 L 74C", under: "mash", stamp: "started",
			units: []unitKey{{ofVolume, "liquor"}, {ofHeat, "strike"}}, brews: true},
		{Words: "mash", Says: "something of the mash, by its key", Eg: "mash ph 5.4", under: "mash",
			units: []unitKey{{ofPH, "ph"}}},
		{Words: "mash at", Says: "how warm the mash rests, how long", Eg: "mash at 66 C 60 min", under: "mash.rests[]",
			units: []unitKey{{ofHeat, "at"}, {ofTime, "for"}}},
		{Words: "sparge", Says: "sparge liquor, its heat, the last runnings", Eg: "sparge 20 L 76C", under: "sparge",
			bare: "last_runnings", units: []unitKey{{ofVolume, "liquor"}, {ofHeat, "at"}, {ofGravity, "last_runnings"},
				{ofPH, "ph"}}},
		{Words: "copper before", Says: "wort before the boil", Eg: "copper before 28 L 1.030", under: "copper.before",
			bare: "gravity", units: measured},
		{Words: "boiling", Says: "it came to the boil", Eg: "boiling", under: "copper", stamp: "started", brews: true},
		{Words: "boiled", Says: "how long it boiled", Eg: "boiled 60 min", under: "copper",
			units: []unitKey{{ofTime, "boiled"}}},
		{Words: "copper after", Says: "wort after the boil", Eg: "copper after 24 L 1.036", under: "copper.after",
			bare: "gravity", units: measured},
		{Words: "fermenter", Says: "what went into the fermenter", Eg: "fermenter 22.5 L 1.036", under: "fermenter",
			bare: "gravity", units: measured},
		{Words: "spunded", Says: "a relief valve holds pressure; package 1 for one of them", Eg: "spunded 0.8 bar",
			under: "fermenter.spunding", stamp: "from", units: []unitKey{{ofPressure, "set"}}, apart: true,
			parcel: "spunding"},
		{Words: "pitched", Says: "the yeast went in", Eg: "pitched 19C", under: "yeast[]", stamp: "pitched",
			loose: "yeast", open: true, units: []unitKey{{ofHeat, "at"}, {ofWeight, "weight"}, {ofVolume, "volume"}},
			brews: true},
		{Words: "dry-hopped", Says: "hops into the beer", Eg: "dry-hopped goldings 15 g 3 days", list: "hops",
			stamp: "when", loose: "hop", open: true,
			units: []unitKey{{ofWeight, "weight"}, {ofTime, "dry"}, {ofHeat, "at"}}},
		{Words: "added", Says: "fruit, juice, spice, wood, liquor, wort or other", Eg: "added fruit damson 2 kg",
			list: "added", stamp: "when", units: []unitKey{{ofWeight, "weight"}, {ofVolume, "volume"}}},
		{Words: "added sugar", Says: "sugar or syrup into the beer", Eg: "added sugar honey 500 g into fermenter",
			list: "grist", stamp: "when", loose: "sugar", open: true, units: []unitKey{{ofWeight, "weight"}}},
		{Words: "fined", Says: "finings, which and how much", Eg: "fined isinglass 60 mL", list: "finings", stamp: "when",
			loose: "with", open: true, units: []unitKey{{ofWeight, "weight"}, {ofVolume, "volume"}, {ofHeat, "at"}}},
		{Words: "racked", Says: "off the yeast", Eg: "racked 20 L 18C", under: "racked", stamp: "on",
			units: []unitKey{{ofVolume, "volume"}, {ofHeat, "temp"}}},
		{Words: "primed", Says: "sugar for condition", Eg: "primed 44 g sucrose", under: "priming", stamp: "on",
			loose: "sugar", open: true, units: []unitKey{{ofWeight, "weight"}}},
		{Words: "filled", Says: "a container, or several alike", Eg: `filled "bottle 500 mL" 24`, list: "packages", stamp: "on", bare: "count", loose: "vessel",
			units: []unitKey{{ofVolume, "fill"}, {ofPressure, "gas.set"}}},
		{Words: "gassed", Says: "gas put on; package 1 for one of several", Eg: "gassed package 0 0.7 bar 8C",
			under: "packages[].gas", stamp: "from", units: []unitKey{{ofPressure, "set"}, {ofHeat, "at"}}, apart: true,
			parcel: "gas"},
		{Words: "conditioned", Says: "where it stands to condition", Eg: "conditioned 18C", under: "conditioned",
			stamp: "from", units: []unitKey{{ofHeat, "at"}}},
		{Words: "cellared", Says: "where it is kept cool", Eg: "cellared 12C", under: "cellared", stamp: "from",
			units: []unitKey{{ofHeat, "at"}}},
		{Words: "broached", Says: "opened for serving; package 1 for one of them", Eg: "broached", under: "served",
			stamp: "broached", units: []unitKey{{ofHeat, "at"}}, apart: true},
		{Words: "poured", Says: "beer drawn", Eg: "poured 3 pt-uk", list: "poured", stamp: "when",
			units: []unitKey{{ofVolume, "volume"}}},
		{Words: "tasted", Says: "what a taster found, and said", Eg: `tasted by maudie sweet, flat "like bread"`, list: "tastings", stamp: "when", bare: "score", loose: "found", open: true, units: []unitKey{{ofHeat, "at"}}},
		{Words: "emptied", Says: "it ran out; package 1 for one of them", Eg: "emptied", under: "served",
			stamp: "emptied", apart: true},
		{Words: "next", Says: "what to change next time", Eg: "next mash one degree cooler", list: "next", open: true,
			ofList: true},
	}
	return append(places, deeds()...)
}

// deeds are a place for each word of done[].did.
func deeds() []Place {
	found, _ := journal.LookUp("done[].did")
	var all []Place
	for _, w := range found {
		for _, word := range w.Choices {
			if word == "fined" {
				continue // has a place of its own, where its amount is told
			}
			d := Place{Words: word, Says: "a deed", Eg: word, list: "done", stamp: "when",
				fixed: []Value{{Key: "did", Text: word}}, loose: "note",
				units: []unitKey{{ofHeat, "at"}, {ofVolume, "volume"}}}
			if slices.Contains([]string{"cleaned", "rinsed", "tested"}, word) {
				d.loose, d.Eg = "what", word+` "hand pump and line"`
			}
			all = append(all, d)
		}
	}
	return all
}

// Deed tells whether it is one of the deeds that done records.
func (p Place) Deed() bool { return p.list == "done" }

// keys are the words of the keys that may be named in a place.
func (p Place) keys() map[string]journal.Word {
	prefix := p.under
	if p.list != "" {
		prefix = p.list + "[]"
	}
	all := map[string]journal.Word{}
	for _, w := range journal.Words() {
		if w.File == "gyle" && w.Path == prefix+"."+w.Key && w.Type != "map" && w.Type != "list of maps" {
			all[w.Key] = w
		}
	}
	return all
}

// order sorts the values of a place as the vocabulary has them.
func (p Place) order(values []Value) {
	prefix := p.under
	if p.list != "" {
		prefix = p.list + "[]"
	}
	place := map[string]int{}
	for i, w := range journal.Words() {
		if w.File == "gyle" && strings.HasPrefix(w.Path, prefix+".") {
			place[w.Path[len(prefix)+1:]] = i
		}
	}
	slices.SortStableFunc(values, func(a, b Value) int { return place[a.Key] - place[b.Key] })
}

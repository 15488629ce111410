package scribe

import "strings"

// saidFor is words that mean the beginning of a place; a place of "" is a reading.
// What stands before another that begins with it is the longer one.
var saidFor = []struct{ place, said string }{
	{"dry-hopped", "dry hopped|dryhopped|dry hop|dryhop|dry hops|dry hopped with"},
	{"mashed", "mashed in|mash in|doughed in|dough in|strike"},
	{"mash", "mash temp|mash temperature|rest at"},
	{"sparge", "sparged|rinsed goods"},
	{"copper before", "preboil|pre-boil|pre boil|before boil|before the boil"},
	{"copper after", "postboil|post-boil|post boil|after boil|after the boil"},
	{"boiling", "boil started|boil on|started boil|started the boil|at the boil|on the boil|reached boil|" +
		"came to the boil|rolling boil|boil begins|boil began"},
	{"boiled", "boil|boiled for"},
	{"fermenter", "og|original gravity|starting gravity|into fermenter|into the fermenter|in the fermenter|" +
		"in fermenter|fv|in fv|into fv"},
	{"pitched", "pitched yeast|pitched the yeast|yeast in|yeast pitched|pitch|pitched with"},
	{"racked", "racked off|racked over|transferred|siphoned|syphoned|siphoned off|racking"},
	{"spunded", "spunding|spund"},
	{"primed", "primed with|priming|primed using"},
	{"gassed", "on gas|put on gas|force carbonated|force carbed|carbonating|gas on"},
	{"conditioned", "conditioning|lagered|lagering"},
	{"cellared", "stillaged|stored cool|in the cellar"},
	{"broached", "tapped|on tap|broached it|tapped it"},
	{"poured", "drew|drew off|drank|pulled|drunk|pulled off"},
	{"tasted", "tasting|tasted it"},
	{"chilled", "cold crashed|crashed|cold crash|cold-crashed|crash cooled"},
	{"vented", "vent|soft spiled|let gas out|released pressure|bled pressure|let the gas out"},
	{"fined", "fined with|fining|added finings"},
	{"emptied", "kicked|ran out|all gone|is empty|empty|blew|gone"},
	{"roused", "rouse|roused yeast|roused the yeast"},
	{"topped up", "topped up with|top up|topped|topped-up"},
	{"added", "add|put in|adding"},
	{"cleaned", "washed|clean"},
	{"moved", "moving|move|carried"},
	{"pressure", "gauge|gauge reads|gauge shows|pressure gauge|gauge at"},
	{"brix", "refractometer|refracto|brix of"},
	{"", "final gravity|specific gravity|reading|hydrometer|read|reads|hydro"},
}

// notDone are words that what was done cannot be told from: what was not done, or
// is not done yet, and what may have been.
var notDone = strings.Fields("not no never nothing isn't wasn't didn't hasn't haven't won't can't couldn't " +
	"don't without" +
	" should will would could must shall might maybe perhaps planning plan planned tomorrow tonight yet going want " +
	"wants need needs almost nearly if forgot forgotten")

// roughly are words that say that a number is not as read.
var roughly = strings.Fields("about around approx approximately roughly circa ca ca. ~ ish between some")

// ago are words for a time that the clock of the jotting is not.
var ago = strings.Fields("ago earlier morning evening afternoon night monday tuesday wednesday " +
	"thursday friday saturday sunday")

// Spoken is the place that people mean by these words, and an example; ok is false
// where they are none that a jotting begins with.
func Spoken(words string) (p Place, ok bool) {
	tokens := tokensOf(strings.Fields(strings.ToLower(words)))
	if len(tokens) == 0 {
		return Place{}, false
	}
	for _, c := range containers {
		if strings.EqualFold(words, c.deed) {
			return placeCalled("filled"), true
		}
	}
	b := begun(tokens)
	p, used, err := placeOf(b)
	return p, err == nil && used > 0 && used == len(b)
}

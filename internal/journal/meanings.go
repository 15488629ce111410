package journal

import "slices"

// meaning is what brewers call something that this book has under another key,
// or works out, or has no key for, and what to do about it.
type meaning struct {
	words string   // folded, with bars between them
	in    []string // the maps where it holds, as their plans are called
	do    string
}

// topOfGyle is the map of all of an entry's keys.
const topOfGyle = "a gyle"

// meanings are in the order in which they are looked through.
var meanings = []meaning{
	{"brix|bx", []string{"copper.before", "copper.after", "fermenter"},
		"A refractometer's reading of wort is a gravity with its unit, as gravity: 9.8 Bx."},
	{"og|originalgravity|startinggravity", []string{topOfGyle},
		"What was read goes into fermenter: {gravity: …}, what is aimed at into aim: {og: …}."},
	{"fg|finalgravity|terminalgravity", []string{topOfGyle},
		"What was read is the last of readings, what is aimed at goes into aim: {fg: …}."},
	{"abv|alcohol", []string{topOfGyle},
		"It is worked out from the gravities. What is aimed at goes into aim: {abv: …}, what is stated into label: " +
			"{abv: …}."},
	{"ibu|ibus|bitterness", []string{topOfGyle},
		"It is worked out from the hops. What is aimed at goes into aim: {bitterness: …}."},
	{"colour|color|ebc|srm", []string{topOfGyle},
		"It is worked out from the grist. What is aimed at goes into aim: {colour: …}."},
	{"batchsize|batchvolume|size|volume|length|brewlength", []string{topOfGyle},
		"What went into the fermenter goes into fermenter: {volume: …}, what is aimed at into aim: {volume: …}."},
	{"efficiency|yield|attenuation|evaporation|boiloff|calories", []string{topOfGyle},
		"Leave it out: it is worked out from the volumes and gravities."},
	{"kit|beerkit|can|tin", []string{topOfGyle},
		"A kit is a line of the grist: grist: [{syrup: malt extract, weight: 1.8 kg, bitterness: 25 IBU}]."},
	{"runnings|partigyle|wort", []string{topOfGyle, "drawn_from[]"},
		"Which runnings it was belongs into the story. The second beer is an entry of its own with drawn_from: " +
			"[{gyle: 5, volume: 22 L}]."},
	{"lactose|sugar|sugars", []string{topOfGyle},
		"It is a line of the grist: {sugar: lactose, weight: 450 g, into: copper}."},
	{"lagered|lagering|matured|maturation|conditioning|conditionedat", []string{topOfGyle},
		"Where it stood to condition is conditioned: {at: …, from: …, to: …}."},
	{"notes|note|comment|comments|description|story|text|log|diary|brewnotes", []string{topOfGyle},
		"Write it below the front matter, after the second line of ---: that is the story."},
	{"ferment|fermented|fermentation|primary", []string{topOfGyle},
		"What went in is fermenter: {volume: 20.5 L, gravity: 1.041}; heat and gravity after that are readings."},
	{"secondary|secondfermenter|secondaryfermenter|secondaryfermentation", []string{topOfGyle},
		"Note the move: done: [{when: 2026-03-14, did: moved, what: to a second fermenter}]."},
	{"whirlpool|hopstand|steep", []string{topOfGyle},
		"It is a line of the hops: hops: [{hop: cascade, weight: 25 g, steeped: 20 min, at: 80 C}]."},
	{"dryhop|dryhops|dryhopped|dryhopping", []string{topOfGyle},
		"It is a line of the hops: hops: [{hop: cascade, weight: 50 g, dry: 4 days, when: 2026-03-12}]."},
	{"bottled|kegged|casked|packaged|bottling|kegging|filled", []string{topOfGyle},
		"When is racked: {on: 2026-03-20, volume: 20 L}, into what is packages: [{vessel: bottle 500 mL, count: 40}]."},
	{"carbonation|carbonated|co2|carbonationlevel|volumesofco2", []string{topOfGyle},
		"What is aimed at goes into aim: {condition: 2.0 vol}, the sugar for it into priming: {sugar: sucrose, " +
			"weight: 90 g}."},
	{"primingsugar|primed|prime", []string{topOfGyle}, "Write priming: {sugar: sucrose, weight: 90 g}."},
	{"yeastpitched|pitched|pitch|pitching|pitchtemp|pitchrate|starter", []string{topOfGyle},
		"It is said of the yeast: yeast: [{yeast: house ale, pitched: 2026-03-07 16:10, at: 18 C}]."},
	{"boil|boiled|boiltime|boillength|kettle", []string{topOfGyle}, "It is said of the copper: copper: {boiled: …}."},
	{"mashtemp|mashtime|mashed|rests|steps|mashtemperature", []string{topOfGyle},
		"It is said of the mash: mash: {rests: [{at: 66 C, for: 60 min}]}."},
	{"brewer|author|by", []string{topOfGyle}, "The keeper of the book stands in the settings, index.md."},
	{"rating|score|tasting|tastingnotes", []string{topOfGyle},
		"It is a line of the tastings: tastings: [{when: 2026-04-10, by: a friend, score: 38}]."},
	{"ingredients|recipe", []string{topOfGyle}, "What went in is grist, hops, yeast, finings and added, a list each."},
	{"cost|price", []string{topOfGyle}, "It is a line of the costs: costs: [{what: malt, paid: 6.20 GBP}]."},
	{"ph", []string{topOfGyle}, "It is said of the mash (mash: {ph: 5.4}) or of the beer (readings: [{when: " +
		"2026-03-12, ph: 4.2}])."},
	{"temp|temperature", []string{topOfGyle},
		"The heat of the beer is said with its time: readings: [{when: 2026-03-09, temp: 19 C}]."},
	{"time|minutes|min|duration", []string{"hops[]"},
		"Say what they did in that time: boiled: 60 min, steeped: 20 min or dry: 4 days."},
	{"use|stage|addition", []string{"hops[]"}, "Say it with the time: boiled: 60 min, steeped: 20 min or dry: 4 days."},
	{"whirlpool|hopstand|steep|flameout", []string{"hops[]"},
		"Write steeped: and how long they stood in the hot wort, and at: how hot."},
	{"temp|temperature|at|for|time|steps", []string{"mash"}, "It is said of a rest: rests: [{at: 66 C, for: 60 min}]."},
	{"infusion|water", []string{"mash.rests[]"}, "Write by: infusion, liquor: 5 L, liquor_at: 95 C."},
	{"dme|extract|malt|sugar|weight", []string{"yeast[].starter"}, "Leave it out: the starter's gravity says as much."},
	{"sugar|each|weight|sugars", []string{"packages[]"},
		"It is said of the priming: priming: {sugar: sucrose, each: 3 g}."},
	{"at|temp", []string{"packages[]"}, "Where it stood is conditioned: {at: 18 C}, where it is kept cool cellared: " +
		"{at: 12 C}."},
	{"size|kind|type|bottle|keg|name", []string{"packages[]"},
		"Write vessel: with its kind and size, as vessel: bottle 500 mL."},
	{"volume|gravity|brix", []string{"copper"},
		"Say on which side of the boil: before: {volume: …, gravity: …} or after: {volume: …, gravity: …}."},
	{"volume", []string{"readings[]"}, "What came over is racked: {volume: …}, what was drawn poured or dumped a " +
		"line there."},
	{"ph|at|heat", []string{"fermenter"},
		"What is read there later is a reading: readings: [{when: 2026-03-09, temp: 19 C}]."},
	{"gravity|fg", []string{"racked"}, "It is the last of the readings: {when: 2026-03-19, gravity: 1.010, temp: 18 C}."},
	{"pressure|bottle|bottles|bottlevolumes|bag|bags|rated|rating|gas|co2|glass|alcohol|units|wort|wortph|condition|ceiling", []string{"limits"}, "What keeps people safe is no setting: what a vessel bears is said by its own card, as rated."},
	{"vessel|into|to|count", []string{"racked"}, "Into what is packages: [{vessel: bottle 500 mL, count: 40}]."},
	{"lactose|honey", []string{"added[]"},
		"Sugar is a line of the grist: {sugar: lactose, weight: 450 g}; into: fermenter, where it went there."},
}

// meaningOf is what to do about a word in a map, "" where nothing is known of it.
func meaningOf(word string, in *plan) string {
	for _, m := range meanings {
		if slices.Contains(words(m.words), folded(word)) && slices.Contains(m.in, in.what) {
			return m.do
		}
	}
	return ""
}

package journal

import "slices"

// meaning is what brewers call something that this book has under another key,
// or works out, or has no key for, and what to do about it.
type meaning struct {
	words string // folded, with bars between them
	do    string
}

// topOfGyle is the map of all of an entry's keys.
const topOfGyle = "a gyle"

// meanings are what is called otherwise in which maps: these as their plans are
// called, with bars between them. The first that fits counts.
var meanings = []struct {
	maps string
	all  []meaning
}{
	{"copper.before|copper.after|fermenter", []meaning{
		{"brix|bx", "A refractometer's reading of wort is a gravity with its unit, as gravity: 9.8 Bx."},
	}},
	{topOfGyle, []meaning{
		{"og|originalgravity|startinggravity",
			"What was read goes into fermenter: {gravity: …}, what is aimed at into aim: {og: …}."},
		{"fg|finalgravity|terminalgravity",
			"What was read is the last of readings, what is aimed at goes into aim: {fg: …}."},
		{"abv|alcohol", "It is worked out from the gravities. What is aimed at goes into aim: {abv: …}, what is " +
			"stated into label: {abv: …}."},
		{"ibu|ibus|bitterness", "It is worked out from the hops. What is aimed at goes into aim: {bitterness: …}."},
		{"colour|color|ebc|srm", "It is worked out from the grist. What is aimed at goes into aim: {colour: …}."},
		{"batchsize|batchvolume|size|volume|length|brewlength",
			"What went into the fermenter goes into fermenter: {volume: …}, what is aimed at into aim: {volume: …}."},
		{"efficiency|yield|attenuation|evaporation|boiloff|calories",
			"Leave it out: it is worked out from the volumes and gravities."},
		{"kit|beerkit|can|tin", "A kit is a line of the grist: grist: [{syrup: malt extract, weight: 1.8 kg, " +
			"bitterness: 25 IBU}]."},
		{"lactose|sugar|sugars", "It is a line of the grist: {sugar: lactose, weight: 450 g, into: copper}."},
		{"lagered|lagering|matured|maturation|conditioning|conditionedat",
			"Where it stood to condition is conditioned: {at: …, from: …, to: …}."},
		{"notes|note|comment|comments|description|story|text|log|diary|brewnotes",
			"Write it below the front matter, after the second line of ---: that is the story."},
		{"ferment|fermented|fermentation|primary",
			"What went in is fermenter: {volume: 20.5 L, gravity: 1.041}; heat and gravity after that are readings."},
		{"secondary|secondfermenter|secondaryfermenter|secondaryfermentation",
			"Note the move: done: [{when: 2026-03-14, did: moved, what: to a second fermenter}]."},
		{"whirlpool|hopstand|steep", "It is a line of the hops: hops: [{hop: cascade, weight: 25 g, steeped: 20 " +
			"min, at: 80 C}]."},
		{"dryhop|dryhops|dryhopped|dryhopping",
			"It is a line of the hops: hops: [{hop: cascade, weight: 50 g, dry: 4 days, when: 2026-03-12}]."},
		{"bottled|kegged|casked|packaged|bottling|kegging|filled",
			"When is racked: {on: 2026-03-20, volume: 20 L}, into what is packages: [{vessel: bottle 500 mL, count: " +
				"40}]."},
		{"carbonation|carbonated|co2|carbonationlevel|volumesofco2",
			"What is aimed at goes into aim: {condition: 2.0 vol}, the sugar for it into priming: {sugar: sucrose, " +
				"weight: 90 g}."},
		{"primingsugar|primed|prime", "Write priming: {sugar: sucrose, weight: 90 g}."},
		{"yeastpitched|pitched|pitch|pitching|pitchtemp|pitchrate|starter",
			"It is said of the yeast: yeast: [{yeast: house ale, pitched: 2026-03-07 16:10, at: 18 C}]."},
		{"boil|boiled|boiltime|boillength|kettle", "It is said of the copper: copper: {boiled: …}."},
		{"mashtemp|mashtime|mashed|rests|steps|mashtemperature",
			"It is said of the mash: mash: {rests: [{at: 66 C, for: 60 min}]}."},
		{"brewer|author|by", "The keeper of the book stands in the settings, index.md."},
		{"rating|score|tasting|tastingnotes",
			"It is a line of the tastings: tastings: [{when: 2026-04-10, by: a friend, score: 38}]."},
		{"ingredients|recipe", "What went in is grist, hops, yeast, finings and added, a list each."},
		{"cost|price", "It is a line of the costs: costs: [{what: malt, paid: 6.20 GBP}]."},
		{"ph", "It is said of the mash (mash: {ph: 5.4}) or of the beer (readings: [{when: 2026-03-12, ph: 4.2}])."},
		{"temp|temperature", "The heat of the beer is said with its time: readings: [{when: 2026-03-09, temp: 19 C}]."},
	}},
	{"a gyle|drawn_from[]", []meaning{
		{"runnings|partigyle|wort", "Which runnings it was belongs into the story. The second beer is an entry of " +
			"its own with drawn_from: [{gyle: 5, volume: 22 L}]."},
	}},
	{"hops[]", []meaning{
		{"time|minutes|min|duration", "Say what they did in that time: boiled: 60 min, steeped: 20 min or dry: 4 days."},
		{"use|stage|addition", "Say it with the time: boiled: 60 min, steeped: 20 min or dry: 4 days."},
		{"whirlpool|hopstand|steep|flameout",
			"Write steeped: and how long they stood in the hot wort, and at: how hot."},
	}},
	{"mash", []meaning{
		{"temp|temperature|at|for|time|steps", "It is said of a rest: rests: [{at: 66 C, for: 60 min}]."},
	}},
	{"mash.rests[]", []meaning{
		{"infusion|water", "Write by: infusion, liquor: 5 L, liquor_at: 95 C."},
	}},
	{"yeast[].starter", []meaning{
		{"dme|extract|malt|sugar|weight", "Leave it out: the starter's gravity says as much."},
	}},
	{"packages[]", []meaning{
		{"pressure|gauge|psi|bar",
			"What a gauge shows is a reading: readings: [{when: 2026-03-20, package: 0, pressure: 0.5 bar}]; " +
				"what a valve holds is spunding: {set: 0.8 bar}, what a cylinder is set to gas: {set: 0.8 bar}."},
		{"sugar|each|weight|sugars", "It is said of the priming: priming: {sugar: sucrose, each: 3 g}."},
		{"at|temp", "Where it stood is conditioned: {at: 18 C}, where it is kept cool cellared: {at: 12 C}."},
		{"size|kind|type|bottle|keg|name", "Write vessel: with its kind and size, as vessel: bottle 500 mL."},
	}},
	{"copper", []meaning{
		{"volume|gravity|brix", "Say on which side of the boil: before: {volume: …, gravity: …} or after: {volume: " +
			"…, gravity: …}."},
	}},
	{"readings[]", []meaning{
		{"volume", "What came over is racked: {volume: …}, what was drawn poured or dumped a line there."},
	}},
	{"fermenter", []meaning{
		{"pressure|gauge|relief|reliefvalve|spundingvalve|spund",
			"What a gauge shows is a reading: readings: [{when: 2026-03-12, pressure: 0.5 bar}]; " +
				"what a valve holds is spunding: {set: 0.8 bar}."},
		{"ph|at|heat", "What is read there later is a reading: readings: [{when: 2026-03-09, temp: 19 C}]."},
	}},
	{"racked", []meaning{
		{"gravity|fg", "It is the last of the readings: {when: 2026-03-19, gravity: 1.010, temp: 18 C}."},
		{"vessel|into|to|count", "Into what is packages: [{vessel: bottle 500 mL, count: 40}]."},
	}},
	{"limits", []meaning{
		{"pressure|bottle|bottles|bottlevolumes|bag|bags|rated|rating|gas|co2|glass|alcohol|units|wort|wortph|" +
			"condition|ceiling",
			"What keeps people safe is no setting: what a vessel bears is said by its own card, as rated."},
	}},
	{"added[]", []meaning{
		{"lactose|honey", "Sugar is a line of the grist: {sugar: lactose, weight: 450 g}; into: fermenter, where it " +
			"went there."},
	}},
}

// meaningOf is what to do about a word in a map, "" where nothing is known of it.
func meaningOf(word string, in *plan) string {
	for _, here := range meanings {
		if !slices.Contains(splitBars(here.maps), in.what) {
			continue
		}
		for _, m := range here.all {
			if slices.Contains(splitBars(m.words), folded(word)) {
				return m.do
			}
		}
	}
	return ""
}

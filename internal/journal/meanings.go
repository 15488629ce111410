package journal

import (
	"slices"
	"strings"
)

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
			"When is racked: {on: 2026-03-20, volume: 20 L}, into what is packages: [{vessel: bottle 500 mL, " +
				"count: " +
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
		{"temp|temperature", "The heat of the beer is said with its time: readings: [{when: 2026-03-09, temp: " +
			"19 C}]."},
	}},
	{"a gyle|drawn_from[]", []meaning{
		{"runnings|partigyle|wort", "Which runnings it was belongs into the story. The second beer is an entry of " +
			"its own with drawn_from: [{gyle: 5, volume: 22 L}]."},
	}},
	{"hops[]", []meaning{
		{"time|minutes|min|duration", "Say what they did in that time: boiled: 60 min, steeped: 20 min or dry: " +
			"4 days."},
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
		{"lactose|honey", "Sugar is a line of the grist: {sugar: lactose, weight: 450 g}; into: fermenter, " +
			"where it " +
			"went there."},
	}},
}

// sayings are what brewers call things, beside what may stand in an entry as a
// key: a container, a deed, a habit, an old word.
var sayings = []meaning{
	{"corny|cornies|corneliuskeg|sodakeg|kegging", "It is a keg: packages: [{vessel: keg 19 L, gas: {set: 0.8 " +
		"bar, at: 4 C}}]."},
	{"polypin|baginbox|bag|winebag", "It is a soft bag: packages: [{vessel: soft bag 10 L}]. It may swell, and " +
		"bears no pressure."},
	{"bottle|bottles|crowncaps|caps|swingtops", "It is a container: packages: [{vessel: bottle 500 mL, count: " +
		"40}]. What its " +
		"maker rates it for goes on a card of its own."},
	{"minikeg|growler|flagon|demijohn|carboy", "It is a vessel: one with a card of its own, or by kind and " +
		"size, as " +
		"vessel: keg 5 L. What its maker rates it for goes on its card."},
	{"pellets|pellet|hoppellets|leafhops|wholehops|hopcones", "It is the form of a hop: hops: [{hop: cascade, " +
		"weight: 25 g, " +
		"form: pellet}]; leaf unless it says otherwise."},
	{"krausen|kraeusen|krausening|krauesen|kräusen", "Foam is a note of a reading. Working wort put into beer " +
		"is a line of " +
		"added: added: [{wort: krausen, volume: 1 L, gravity: 1.040, working: yes}]."},
	{"speise", "Wort kept back to prime with is a line of added: added[].wort: speise, with its volume and " +
		"gravity; or " +
		"priming: {wort: 1.5 L, gravity: 1.045}."},
	{"trub|breakmaterial|coldbreak|hotbreak", "What is left behind is known from the volumes: copper.after, " +
		"fermenter.volume and racked.volume."},
	{"spile|softspile|hardspile|spiled|venting", "Letting gas out through a soft spile is a deed: done: " +
		"[{when: 2026-04-02, " +
		"did: vented, package: 0, until: quiet}]. A hard spile shuts the cask, and needs no line."},
	{"stillage|stillaged|stillaging|cellaring", "Where it is kept cool is cellared: {at: 12 C, from: 2026-04-01}."},
	{"campden|campdentablet|campdentablets|metabisulphite|sulphite|sulphites|sulfite", "Against chlorine it is " +
		"liquor: {chlorine: sulphite}; in cider or wine it is told on the label: label: {sulphites: yes}."},
	{"teaspoon|teaspoons|tsp|tablespoon|tbsp|spoon|cup|cups|handful|pinch|tablet|tablets|packet|sachet|drops",
		"A spoon or a packet is no weight: weigh it, and write weight: 5 g, or for a liquid volume: 5 mL."},
	{"spundingvalve|spund|spunded", "A relief valve that holds pressure is fermenter.spunding, or " +
		"packages[].spunding: " +
		"spunding: {set: 0.8 bar, from: 2026-03-12}."},
	{"solera|blend|blended|splitbatch|split|partigyle", "Beer taken from another gyle is drawn_from: [{gyle: " +
		"9, volume: 10 L, " +
		"on: 2026-05-01}], in an entry of its own; several lines are a blend."},
	{"coldcrash|coldcrashed|coldcrashing|crashcool|crash|crashed|chill", "It is a deed: done: [{when: " +
		"2026-03-14, did: chilled, " +
		"at: 4 C}]."},
	{"mashout|stepmash|stepmashing|proteinrest|saccharification|saccharificationrest|mashtemperature|mashtemp|singleinfusion",
		"Each rest is a line of mash.rests: mash: {rests: [{at: 52 C, for: 15 min}, {at: 66 C, for: 60 min, " +
			"by: heat}]}."},
	{"striketemperature|striketemp|strikeheat", "How hot the liquor was is mash.strike; what it should be is a " +
		"figure, strike-temperature."},
	{"strikewater|mashwater|mashliquor", "How much it was is mash.liquor."},
	{"batchsparge|flysparge|lauter|lautering|runoff|spargewater|spargeliquor", "How much and how hot is " +
		"sparge: {liquor: 15 L, " +
		"at: 76 C, last_runnings: 1.010}, as sparge.liquor; which way it was done belongs into the story."},
	{"firstworthops|firstworthop|fwh", "It is a line of the hops that were boiled the whole time: hops: [{hop: " +
		"saaz, weight: 20 g, " +
		"boiled: 60 min}], with a word in the story."},
	{"flameout|hopstand|whirlpoolhops|whirlpool|aromahops", "It is a line of the hops, hops[].steeped: {hop: " +
		"cascade, " +
		"weight: 25 g, steeped: 20 min, at: 80 C}."},
	{"hopage|oldhops|hopcrop", "Say hops[].crop, hops[].opened and hops[].kept: what they have lost is worked out."},
	{"racking|transfer|transferred|transferring|siphon", "Off the yeast for good is racked: {on: 2026-03-20, " +
		"volume: 20 L, temp: 18 C}. " +
		"What goes on working elsewhere was moved: done: [{did: moved}]."},
	{"overcarbonated|gushing|gusher|fizzy|undercarbonated|bottlebomb|bottlebombs|bursting|explosion", "What " +
		"gas it comes to is the " +
		"figure condition, and what it bears on the container the figure pressure-warmest; verify warns before " +
		"anything may " +
		"burst. Chill it, and vent what can be vented."},
	{"diacetylrest|warmrest|freerise", "It is said by readings with their heat: readings: [{when: 2026-03-12, " +
		"gravity: 1.016, " +
		"temp: 17 C}]."},
	{"fermentationtemperature|fermentationtemp|fermtemp|beertemperature", "The beer's heat is readings[].temp, " +
		"with its time."},
	{"pitchtemperature|pitchingtemperature|pitchtemp", "It is yeast[].at; how warm it may work is on the " +
		"yeast's card."},
	{"pitchrate|pitchingrate|cellcount", "It is worked out from yeast[].cells, yeast[].weight or the starter: " +
		"the figure " +
		"pitching-rate."},
	{"temperaturecorrection|hydrometercorrection|sampletemperature|calibration", "The sample's heat is " +
		"sample_at, beside the " +
		"gravity; what the hydrometer is made for is on its card, and the rest is worked out."},
	{"waterprofile|waterreport|waterchemistry|ions", "The ions of a water are its own card (card: water), and " +
		"liquor.water names it."},
	{"beerengine|handpull|handpump", "It is served: {through: hand pump, sparkler: yes}."},
	{"gas|co2|forcecarbonation|forcecarbonate|gasbottle|cylinder|regulator", "Gas from a cylinder is " +
		"packages[].gas: gas: {set: 0.8 bar, " +
		"at: 4 C, from: 2026-03-20}."},
	{"psi|bars|kpa", "Pressures are written in bar, psi or kPa, above the air's, as 12 psi or 0.8 bar."},
	{"airlock|bung|lid", "Whether the lid is tight is fermenter.airlocked."},
	{"cider|perry", "Juice is a line of added, added[].juice: apple, with its volume; fruit is added[].fruit. " +
		"Without a grist it is " +
		"reckoned from its gravities."},
	{"mead", "Honey is a line of the grist: grist: [{sugar: honey, weight: 4 kg, into: fermenter}]."},
	{"wine", "Fruit and juice are lines of added, sugar one of the grist, each with into: fermenter."},
	{"bottlingbucket|hydrometer|phmeter|thermometer|scales", "A thing to measure with is a card of its own, " +
		"card: instrument; a bucket is a " +
		"vessel, card: vessel."},
	{"leafhop|hopbag|hopspider", "It belongs into the story."},
	{"mouthfeel|body|head|aroma|flavour|flavor|tasting", "What a taster found is tastings: [{found: [thin, " +
		"bready], by: a friend}], a word " +
		"each, as thin or creamy; gylebook words thin says what may lie behind one."},
	{"correct|correction|mistake|undo|wrong", "gylebook jot 14 not 1.022 but 1.012 puts one value in the place " +
		"of another; or mend the file."},
	{"dme|drymaltextract|drymalt|spraymalt", "It is a line of the grist: {syrup: dried light malt extract, " +
		"weight: 500 g}."},
	{"lme|liquidmaltextract|liquidmalt|maltsyrup", "It is a line of the grist: {syrup: light malt extract, " +
		"weight: 1.5 kg}."},
	{"brownsugar", "It is a line of the grist: {sugar: muscovado sugar, weight: 200 g}, or demerara sugar."},
	{"coriander|orangepeel|ginger|cinnamon|vanilla|pepper|spices|herb|herbs|nutmeg|elderflower|heather|juniper", "A spice or herb is " +
		"a line of added: added: [{spice: coriander, weight: 15 g, into: copper}]."},
	{"pecticenzyme|pectolase|enzyme|enzymes|yeastnutrient|nutrient|yeastfood|tanninpowder", "Anything else " +
		"that went in is a line of " +
		"added: added: [{other: yeast food, weight: 5 g, into: fermenter}]."},
	{"malolactic|malolacticfermentation|mlf", "A bacterium is a line of yeast, with its day; the fall in acid " +
		"is seen by the ph of readings."},
	{"titratableacidity|ta|acidity", "What a meter shows is readings[].ph; a titration is a note of a reading."},
	{"pellicle|flor|mould|infection|infected|film", "What is seen on beer is a note of a reading: readings: " +
		"[{when: 2026-03-12, ph: 3.6, " +
		"note: a white film}]; gylebook words sour tells what may lie behind a taste."},
	{"sediment|lees|dregs|yeastcake", "What is left behind is known from the volumes, fermenter.volume and " +
		"racked.volume; yeast that is " +
		"used again is yeast: [{sold: slurry, from_gyle: 11}]."},
	{"vorlauf|recirculate|recirculation|underlet|underletting", "It belongs into the story."},
	{"follow|revision|revise|rebrew|again", "A gyle that revises another says so: follows: 11; gylebook begin " +
		"--after 11 begins it."},
	{"scale|scaling|whatif", "gylebook begin --after 11 carries a recipe over; gylebook figures 14 --set " +
		"racked.volume=20L asks what if."},
	{"bittering|bitteringhops|copperhops|kettlehops|latehops|flavourhops|hopping", "It is a line of the hops " +
		"with its time in the boil: " +
		"hops: [{hop: goldings, weight: 25 g, alpha: 5.1 %, boiled: 60 min}]."},
	{"pints|glasses|servings", "What is left in pints is worked out from what was racked and poured."},
}

// sayingOf is what to do about what is only called so, "" for nothing.
func sayingOf(word string) string {
	word = folded(word)
	for _, m := range sayings {
		words := splitBars(m.words)
		if slices.Contains(words, word) || slices.Contains(words, strings.TrimSuffix(word, "s")) {
			return m.do
		}
	}
	return ""
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

package journal

import (
	"slices"
	"strings"
)

// valueHint is what to do about words that brewers write where a number or a
// date is wanted, "" for none. key is the last part of its path.
func (f *field) valueHint(text string) string {
	word := strings.ToLower(strings.Join(strings.Fields(text), " "))
	last := word[strings.LastIndex(word, " ")+1:]
	switch {
	case f.none != "" && oneOf(word, "no", "not", "raw", "nothing", "unboiled", "false", "-"):
		return writeIfMeant("none")
	case f.leaf.kind != nil && oneOf(strings.Trim(last, "."), "tsp", "tbsp", "teaspoon", "teaspoons", "tablespoon",
		"tablespoons", "cup", "cups", "handful", "spoon", "spoons"):
		return "Weigh it, and write the grams: a spoonful may be half as much again."
	case oneOf(f.key, "volume", "weight", "cells") &&
		oneOf(last, "pack", "packs", "packet", "packets", "sachet", "sachets", "pouch", "vial", "vials", "bottle"):
		return "Write what is printed on it: weight: 11 g, volume: 100 mL, or cells: 200 billion."
	case oneOf(f.key, "boiled", "steeped") &&
		oneOf(word, "flameout", "flame out", "flame-out", "whirlpool", "hopstand", "hop stand", "0"):
		return "Write steeped: and how long they stood in the hot wort; boiled: 0 min, if they came straight out."
	case f.key == "boiled" && oneOf(word, "fwh", "first wort", "first-wort", "first wort hops"):
		return "Write the length of the whole boil: hops in the first wort boil as long."
	case f.key == "boiled" && strings.HasPrefix(word, "dry"):
		return "Write dry: and how long they were in the beer, instead."
	case f.key == "each" && isNumber(word):
		return "Write the grams, as each: 3 g; drops and spoonfuls are weighed first."
	case oneOf(word, "boiling", "boiling point", "to the boil"):
		return writeIfMeant("100 C")
	case f.key == "extract":
		return "Write syrup: " + shorten(text, longestWord) +
			", if it is a malt extract; extract: is what a kilogram of it can give."
	}
	return f.numberHint(word)
}

// numberHint is what to do about a number with words or another number beside
// it, where a number alone is wanted.
func (f *field) numberHint(word string) string {
	if f.leaf.kind == nil || f.leaf.kind.Bare == nil || f.leaf.kind.Name != "number" {
		return ""
	}
	first, unit, _ := strings.Cut(word, " ")
	if isNumber(first) && oneOf(unit, "h", "hours", "hour", "hrs") {
		return writeIfMeant(first)
	}
	if bare := strings.TrimRight(word, "hours"); bare != word && isNumber(bare) {
		return writeIfMeant(bare)
	}
	return ""
}

// isNumber tells whether a text is a plain decimal number.
func isNumber(text string) bool {
	return text != "" && strings.Trim(text, "0123456789.") == "" && strings.Count(text, ".") < 2 && text != "."
}

// otherWords is what brewers write where a word of a closed list is wanted, by
// the key: with bars between them, and the word of the list that is meant, or
// what else to do.
var otherWords = map[string]map[string]string{
	"did": {
		"tapped|broached": "When it was opened for serving is served: {broached: …}, " +
			"or broached: of one of the packages.",
		"racked|transferred|siphoned":           "That is racked: {on: …, volume: …}.",
		"bottled|kegged|casked|filled|packaged": "When is racked: {on: …}, or on: of one of the packages.",
		"primed":                                "That is priming: {sugar: …, weight: …}.",
		"pitched":                               "That is pitched: of the yeast.",
		"tasted|drank":                          "That is a line of tastings, or of poured.",
		"dry hopped|dryhopped|hopped":           "That is a line of hops, with dry: and how long.",
		"emptied|finished":                      "That is served: {emptied: …}, or emptied: of one of the packages.",
		"sanitised|sanitized|sterilised|sterilized|disinfected|washed": "Write cleaned, and with: what, if that is meant.",
		"crashed|cold crashed|cooled":                                  "chilled",
		"bled|spiled|released":                                         "vented",
	},
	"form": {"whole|cone|cones|whole cone|flower|flowers|leaves|whole leaf": "leaf"},
	"kept": {"freezer": "frozen", "fridge|refrigerator|refrigerated": "cold", "room|room temperature|shelf": "warm"},
	"sold": {
		"dry|packet|sachet": "dried", "pitchable|vial|pouch|smack pack|wet": "liquid",
		"harvested|cake|yeast cake|top cropped": "slurry",
	},
	"fuel": {
		"lpg|propane|butane|camping gas|gas bottle|bottle gas|gas cylinder": "bottled gas",
		"natural gas|town gas|piped gas|methane":                            "mains gas",
		"electricity|element|immersion element|electrical|electric element": "electric",
		"induction hob|induction plate|induction cooker":                    "induction",
		"coal|charcoals|barbecue":                                           "charcoal",
		"logs|firewood|open fire|wood fire":                                 "wood",
	},
	"by": {"direct heat|direct|burner|flame|stove": "heat", "boiling water|hot water|infused": "infusion"},
	"into": {
		"kettle|boil": "copper", "fv|primary|secondary|carboy|bucket": "fermenter",
		"keg|cask|bottle|barrel|bottles": "package",
	},
	"until": {
		"silent|silence|flat|done|nothing|no more|empty|end|stopped|it stopped|the end": "quiet",
		"briefly|brief|puff|burp|short|shortly|once":                                    "moment",
	},
	"replaced_by": {
		"co2|gas|carbon dioxide|keg": "Write cylinder where the gas stands at its setting, " +
			"breather where it comes in without pressure.",
		"none|no|sealed|closed": "nothing", "aspirator|cask breather|demand valve": "breather",
		"open|vented|room|hand pump|soft spile|atmosphere": "air",
	},
}

// choiceHint is what to do about a word outside the field's closed list, "" for
// none.
func (f *field) choiceHint(text string) string {
	word := strings.ToLower(strings.Join(strings.Fields(strings.ReplaceAll(text, "-", " ")), " "))
	if f.key == "until" && startsWithDigit(word) {
		return "Write quiet, if nothing more came out in that time, or moment, if it was opened and shut."
	}
	for known, do := range otherWords[f.key] {
		switch {
		case !slices.Contains(splitBars(known), word):
		case slices.Contains(f.choices, do):
			return writeIfMeant(do)
		default:
			return do
		}
	}
	return ""
}

func oneOf(word string, words ...string) bool { return slices.Contains(words, word) }

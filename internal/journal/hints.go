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
		return meant("none")
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
		return meant("100 C")
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
	of, out, found := strings.Cut(strings.ReplaceAll(word, " out of ", "/"), "/")
	of, out = strings.TrimSpace(of), strings.TrimSpace(out)
	if found && f.key == "score" && isNumber(of) && isNumber(out) {
		return "Write score: " + of + ", out_of: " + out + "."
	}
	first, unit, _ := strings.Cut(word, " ")
	if isNumber(first) && oneOf(unit, "h", "hours", "hour", "hrs") {
		return meant(first)
	}
	if bare := strings.TrimRight(word, "hours"); bare != word && isNumber(bare) {
		return meant(bare)
	}
	return ""
}

// isNumber tells whether a text is a plain decimal number.
func isNumber(text string) bool {
	return text != "" && strings.Trim(text, "0123456789.") == "" && strings.Count(text, ".") < 2 && text != "."
}

// otherWords is what brewers write where a word of a closed list is wanted, by
// the key and the word, with what to do.
var otherWords = map[string]map[string]string{
	"did": {
		"tapped|broached": "When it was opened for serving is served: {broached: …}, or " +
			"broached: of one of the packages.",
		"racked|transferred|siphoned":           "That is racked: {on: …, volume: …}.",
		"bottled|kegged|casked|filled|packaged": "When is racked: {on: …}, or on: of one of the packages.",
		"primed":                                "That is priming: {sugar: …, weight: …}.",
		"pitched":                               "That is pitched: of the yeast.",
		"tasted|drank":                          "That is a line of tastings, or of poured.",
		"dry hopped|dryhopped|hopped":           "That is a line of hops, with dry: and how long.",
		"emptied|finished":                      "That is served: {emptied: …}, or emptied: of one of the packages.",
		"sanitised|sanitized|sterilised|sterilized|disinfected|washed": "Write cleaned, and with: what, if that is " +
			"meant.",
		"crashed|cold crashed|cooled": "Write chilled, if that is meant.",
		"bled|spiled|released":        "Write vented, if that is meant.",
	},
	"form": {"whole|cone|cones|whole cone|flower|flowers|leaves|whole leaf": "Write leaf, if that is meant."},
	"kept": {"freezer": "Write frozen, if that is meant.",
		"fridge|refrigerator|refrigerated": "Write cold, if that is meant.",
		"room|room temperature|shelf":      "Write warm, if that is meant."},
	"sold": {"dry|packet|sachet": "Write dried, if that is meant.",
		"pitchable|vial|pouch|smack pack|wet":   "Write liquid, if that is meant.",
		"harvested|cake|yeast cake|top cropped": "Write slurry, if that is meant."},
	"until": {
		"silent|silence|flat|done|nothing|no more|empty|end|stopped|it stopped|the end": "Write quiet, if that is " +
			"meant.",
		"briefly|brief|puff|burp|short|shortly|once": "Write moment, if that is " +
			"meant.",
	},
	"replaced_by": {
		"co2|gas|carbon dioxide|keg": "Write cylinder where the gas stands at its setting, " +
			"breather where it comes in without pressure.",
		"none|no|sealed|closed":                            "Write nothing, if that is meant.",
		"aspirator|cask breather|demand valve":             "Write breather, if that is meant.",
		"open|vented|room|hand pump|soft spile|atmosphere": "Write air, if that is meant.",
	},
	"by": {"direct heat|direct|burner|flame|stove": "Write heat, if that is meant.",
		"boiling water|hot water|infused": "Write infusion, if that is meant."},
	"into": {"kettle|boil": "Write copper, if that is meant.",
		"fv|primary|secondary|carboy|bucket": "Write fermenter, if that is meant.",
		"keg|cask|bottle|barrel|bottles":     "Write package, if that is meant."},
}

// choiceHint is what to do about a word outside a closed list, "" for none.
func choiceHint(key, text string) string {
	word := strings.ToLower(strings.Join(strings.Fields(strings.ReplaceAll(text, "-", " ")), " "))
	if key == "until" && startsWithDigit(word) {
		return "Write quiet, if nothing more came out in that time, or moment, if it was opened and shut."
	}
	for known, do := range otherWords[key] {
		if slices.Contains(words(known), word) {
			return do
		}
	}
	return ""
}

func oneOf(word string, words ...string) bool { return slices.Contains(words, word) }

package scribe

import (
	"slices"
	"strings"

	q "gylebook/internal/quantity"
)

// counted are numbers in words.
var counted = map[string]string{"one": "1", "two": "2", "three": "3", "four": "4", "five": "5", "six": "6", "eight": "8",
	"ten": "10", "twelve": "12", "twenty": "20"}

// scales are degrees by their names.
var scales = map[string]string{"c": "C", "celsius": "C", "centigrade": "C", "f": "F", "fahrenheit": "F", "plato": "P",
	"p": "P", "brix": "Bx"}

// numbered spells numbers in words as figures before a unit, and degrees by
// their scale.
func numbered(tokens []token) []token {
	var all []token
	for i := 0; i < len(tokens); i++ {
		word := strings.ToLower(tokens[i].text)
		if n, is := counted[word]; is && !tokens[i].quoted {
			all = append(all, token{text: n})
			continue
		}
		if word == "half" && !tokens[i].quoted && i+1 < len(tokens) {
			if all = append(all, token{text: "0.5"}); isOne(tokens[i+1], []string{"a", "an"}) {
				i++
			}
			continue
		}
		last := len(all) - 1
		after := last >= 0 && beginsNumber(all[last].text) && !all[last].quoted
		if after && slices.Contains([]string{"degrees", "degree", "deg", "degs", "°"}, word) && i+1 < len(tokens) {
			if scale, is := scales[strings.ToLower(tokens[i+1].text)]; is {
				all[last].text += " " + scale
				i++
				continue
			}
		}
		if scale, is := scales[word]; after && is && !hasUnit(all[last].text) {
			all[last].text += " " + scale
			continue
		}
		all = append(all, tokens[i])
	}
	return oneByOne(all)
}

// oneByOne is the words with a number and its unit as two again.
func oneByOne(tokens []token) []token {
	var all []token
	for _, t := range tokens {
		if t.quoted || !strings.Contains(t.text, " ") {
			all = append(all, t)
			continue
		}
		for _, part := range strings.Fields(t.text) {
			all = append(all, token{text: part})
		}
	}
	return all
}

// countryUnits are the measures that are not the same on both sides of the
// Atlantic, by what people call them.
var countryUnits = map[string]string{"gal": "gal", "gals": "gal", "gallon": "gal", "gallons": "gal", "pt": "pt",
	"pts": "pt", "pint": "pt", "pints": "pt", "qt": "qt", "qts": "qt", "quart": "qt", "quarts": "qt", "floz": "fl-oz"}

// units spells gallons, pints and quarts as the settings have them; in a metric
// journal they stay, and are asked about.
func (e ear) units(tokens []token) []token {
	country := ""
	switch e.spelling.Volume {
	case q.UK:
		country = "-uk"
	case q.US:
		country = "-us"
	}
	var all []token
	for i, t := range tokens {
		if m := unitAttached.FindStringSubmatch(t.text); m != nil && !t.quoted {
			if unit, is := countryUnits[strings.ToLower(m[2])]; is && country != "" {
				all = append(all, token{text: m[1]}, token{text: unit + country})
				continue
			}
		}
		unit, is := countryUnits[strings.ToLower(t.text)]
		switch {
		case is && country != "" && i > 0 && !t.quoted:
			if word := strings.ToLower(tokens[i-1].text); word == "a" {
				all[len(all)-1] = token{text: "1"}
			}
			all = append(all, token{text: unit + country})
		default:
			all = append(all, t)
		}
	}
	return all
}

package journal

import (
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"go.yaml.in/yaml/v4"

	"gylebook/internal/quantity"
)

// What brewers write otherwise than the vocabulary has it, and what can mean one thing only,
// is read as that. What is likely is proposed with an error; nothing is guessed that a figure
// of gas, heat or volume would rest on.

// inDegrees is a heat with its degrees spelt out: 66 degrees F, 20 deg C, 152 º F.
var inDegrees = regexp.MustCompile(`(?i)(\d)\s*(?:degrees?|deg\.?|°|º)\s*(fahrenheit|celsius|centigrade|f|c)\b`)

// regional are measures that differ between the UK and the US, longest first.
var regional = regexp.MustCompile(`(?i)(\d)\s*(fl\.?[ -]?oz\.?|gallons?|gals?\.?|quarts?|qts?\.?|pints?|pts?\.?)(?:\s|$)`)

// regionally is the unit of a measure by the first letter of how it is typed.
var regionally = map[byte]string{'f': "fl-oz", 'g': "gal", 'q': "qt", 'p': "pt"}

// asSurelyMeant is a quantity as the vocabulary has it, where what was typed can mean one
// thing only; "" where it may be another. Why is what a parser found wrong with it.
func (r *reading) asSurelyMeant(text string, key string, f *field, why *quantity.ParseError) string {
	if why.NoUnit {
		if unit := f.usualUnit(text, key); unit != "" {
			return text + " " + unit
		}
		return ""
	}
	switch f.leaf.kind {
	case quantity.KindOf[quantity.Temperature]():
		return inDegrees.ReplaceAllStringFunc(text, func(heat string) string {
			part := inDegrees.FindStringSubmatch(heat)
			return part[1] + " " + strings.ToUpper(part[2][:1])
		})
	case quantity.KindOf[quantity.Volume]():
		return r.inItsCountry(text)
	}
	return ""
}

// inItsCountry is a volume in the gallons, quarts, pints or fluid ounces of the country that
// the journal's settings name.
func (r *reading) inItsCountry(text string) string {
	country := r.settings.Units.Spelling().Volume
	if country != quantity.US && country != quantity.UK {
		return ""
	}
	return strings.TrimSpace(regional.ReplaceAllStringFunc(text, func(measure string) string {
		part := regional.FindStringSubmatch(measure)
		return part[1] + " " + regionally[strings.ToLower(part[2])[0]] + "-" + strings.ToLower(string(country)) + " "
	}))
}

// fewestMinutes is from how many on a bare number under boiled, steeped or for, of a rest, is
// surely one of minutes and not of hours.
const fewestMinutes = 5

// What a bare heat of a mash or its liquor surely is: no mash is at 40 to 100 °F, and none
// above 100 °C.
const coolestMash, boilingPoint, boilingPointF = 40, 100, 212

// usualUnit is the unit that goes without saying: of bitterness, of alpha acids, of a boil or
// a rest, of a mash's heat. None where a bare number might be another.
func (f *field) usualUnit(text, key string) string {
	bare, err := quantity.Parse[quantity.Number](text)
	number := float64(bare.Value)
	if err != nil {
		return ""
	}
	switch f.leaf.kind {
	case quantity.KindOf[quantity.Bitterness]():
		return "IBU"
	case quantity.KindOf[quantity.Percent]():
		if f.key == "alpha" {
			return "%"
		}
	case quantity.KindOf[quantity.Duration]():
		if slices.Contains([]string{"boiled", "steeped", "for"}, f.key) && number >= fewestMinutes {
			return "min"
		}
	case quantity.KindOf[quantity.Temperature]():
		inMash := strings.HasPrefix(key, "mash.rests") || key == "mash.strike" || key == "sparge.at"
		switch {
		case inMash && number > boilingPoint && number <= boilingPointF:
			return "F"
		case inMash && number >= coolestMash && number <= boilingPoint:
			return "C"
		}
	}
	return ""
}

// surelyWords are the keys of closed lists in which another word for one of the list is that
// word: none of them bears on gas.
var surelyWords = []string{"form", "kept", "sold", "by", "into", "fuel", "with", "dispense", "did", "acid"}

// surelyChosen is the word of a closed list that another surely is: the same in the plural or
// in other letters, or what brewers call it where nothing rests on the difference.
func (f *field) surelyChosen(text string) string {
	word := strings.ToLower(strings.Join(strings.Fields(strings.NewReplacer("-", " ", "_", " ").Replace(text)), " "))
	for _, choice := range f.choices {
		if bare := strings.TrimSuffix(word, "s"); strings.EqualFold(choice, word) || strings.EqualFold(choice, bare) || strings.EqualFold(strings.TrimSuffix(choice, "s"), bare) {
			return choice
		}
	}
	if !slices.Contains(surelyWords, f.key) {
		return ""
	}
	for known, meant := range otherWords[f.key] {
		if slices.Contains(splitBars(known), word) && slices.Contains(f.choices, meant) && meant != string(Vented) {
			return meant
		}
	}
	return ""
}

// asItsKey is the field that a key names in other letters: OG, Fermenter, Out of.
func asItsKey(p *plan, key string) (at int, ok bool) {
	if len(key) > longestWord {
		return 0, false
	}
	at, ok = p.byKey[strings.ToLower(strings.Join(strings.FieldsFunc(key, func(c rune) bool { return c == ' ' || c == '-' || c == '_' }), "_"))]
	return at, ok
}

// outOf is a score as 7/10.
var outOf = regexp.MustCompile(`^(\d+(?:\.\d+)?)\s*(?:/|out of|of)\s*(\d+)$`)

// unfolded is a map with what was written into one value put under the keys that have it: a
// score of 7/10 as score and out_of. The map that was read stays as it is.
func unfolded(n *yaml.Node, p *plan) *yaml.Node {
	if _, scored := p.byKey["out_of"]; !scored {
		return n
	}
	for i := 0; i+1 < len(n.Content); i += 2 {
		if n.Content[i].Value == "out_of" {
			return n
		}
	}
	for i := 0; i+1 < len(n.Content); i += 2 {
		key, value := n.Content[i], n.Content[i+1]
		part := outOf.FindStringSubmatch(strings.TrimSpace(value.Value))
		if key.Value != "score" || value.Kind != yaml.ScalarNode || part == nil {
			continue
		}
		score, most, under := *value, *value, *key
		score.Value, most.Value, under.Value = part[1], part[2], "out_of"
		with := *n
		with.Content = append(slices.Concat(n.Content[:i+1], []*yaml.Node{&score}, n.Content[i+2:]), &under, &most)
		return &with
	}
	return n
}

// besides keeps what a brewer noted beside one part of a list, and who was at work there, under
// a key that this list does not have.
func (r *reading) besides(key, value *yaml.Node, path string) bool {
	of := strings.ToLower(key.Value)
	if !strings.HasSuffix(path, "]") || of != "note" && of != "by" || value.Kind != yaml.ScalarNode || !r.hasNoShorthand(value, path) {
		return false
	}
	var said Text
	if s := (scalar{node: value, text: strings.TrimSpace(value.Value), Where: r.where(value, path+"."+of)}); s.text != "" {
		said.take(r, s, nil)
		r.asides = append(r.asides, said)
	}
	return true
}

// About and between, as brewers write them.
var (
	roughly  = regexp.MustCompile(`(?i)^(?:about|approx\.?|approximately|ca\.?|circa|c\.|roughly|~|around)\s*(\d+(?:\.\d+)?)(.*)$`)
	betweens = regexp.MustCompile(`(?i)^(?:between\s+)?(\d+(?:\.\d+)?)\s*(?:-|–|—|to|and|or)\s*(\d+(?:\.\d+)?)(.*)$`)
)

// withItsDoubt is a quantity that somebody was not sure of as a number with its half-width:
// what is proposed for it. "" where it is none.
func withItsDoubt(text string) string {
	if part := betweens.FindStringSubmatch(text); part != nil {
		low, high := part[1], part[2]
		places := max(decimals(low), decimals(high))
		a, errA := strconv.ParseFloat(low, 64)
		b, errB := strconv.ParseFloat(high, 64)
		if errA != nil || errB != nil || a >= b {
			return ""
		}
		if middle := (a + b) / 2; quantity.Fixed(middle, places)+"0" != quantity.Fixed(middle, places+1) {
			places++
		}
		return quantity.Fixed((a+b)/2, places) + " ± " + quantity.Fixed((b-a)/2, places) + part[3]
	}
	if part := roughly.FindStringSubmatch(text); part != nil {
		places := decimals(part[1])
		step := math.Pow10(-places)
		if places == 0 {
			number, err := strconv.ParseFloat(part[1], 64)
			if err != nil {
				return ""
			}
			step = math.Max(math.Round(number/20), 1)
		}
		return part[1] + " ± " + quantity.Fixed(step, places) + part[2]
	}
	return ""
}

// decimals is how many digits a number has after its point.
func decimals(number string) int {
	_, after, _ := strings.Cut(number, ".")
	return len(after)
}

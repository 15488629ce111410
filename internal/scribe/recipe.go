package scribe

import (
	"bytes"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"gylebook/internal/journal"
	q "gylebook/internal/quantity"
)

// Recipe is what one brewing hands on to the next: what was meant, and what went
// in. What was measured, when, and what came of it stay behind.
type Recipe struct {
	Number int
	// Scale is what every weight of the grist is multiplied by; 0 is as 1.
	Scale float64

	raw  []byte
	root *journal.Part
}

// RecipeOf is the recipe of an entry.
func RecipeOf(g *journal.Gyle, raw []byte) (*Recipe, error) {
	if g.Unread {
		return nil, &Refusal{Reason: fmt.Sprintf("the front matter of gyle %d cannot be read, so there is no recipe "+
			"to carry", g.Number.N)}
	}
	o, err := journal.OutlineOf(raw)
	if err != nil {
		return nil, &Refusal{Reason: err.Error()}
	}
	return &Recipe{Number: g.Number.N, raw: raw, root: o.Root}, nil
}

// carried is the keys that a recipe hands on, with those of their keys that it
// does not: dates, readings, and what is worked out or differs from day to day.
var carried = map[string][]string{
	"style": nil, "tags": nil, "aim": nil, "liquor": nil,
	"grist":   {"when"},
	"mash":    {"started", "strike", "grain_at", "ph", "vessel_at"},
	"sparge":  {"last_runnings", "ph"},
	"copper":  {"before", "started", "after"},
	"hops":    {"when", "opened"},
	"added":   {"when"},
	"finings": {"when", "made"},
	"yeast":   {"cells", "packed", "best_by", "from_gyle", "pitched", "at"},
}

// value is what the recipe says at a path of one or two keys, as it would be
// typed; "" for nothing.
func (r *Recipe) value(path string) string {
	first, second, nested := strings.Cut(path, ".")
	part := r.part(first)
	if part == nil || nested && slices.Contains(carried[first], second) {
		return ""
	}
	if !nested {
		return r.typed(part, nil)
	}
	if part.Shape != journal.Map {
		return ""
	}
	if key := part.Key(second); key != nil {
		return r.typed(key.Value, nil)
	}
	return ""
}

// part is the value of a key that is handed on, nil for none.
func (r *Recipe) part(key string) *journal.Part {
	if r == nil {
		return nil
	}
	k := r.root.Key(key)
	if _, is := carried[key]; !is || k == nil || k.Value.Blank {
		return nil
	}
	return k.Value
}

// parts is the parts of a list that is handed on, each as it would be typed.
func (r *Recipe) parts(key string) []string {
	list := r.part(key)
	if list == nil {
		return nil
	}
	parts := list.Parts
	if list.Shape == journal.Map {
		parts = []*journal.Part{list}
	}
	var all []string
	for _, part := range parts {
		text := r.typed(part, carried[key])
		switch {
		case text == "" || text == "{}":
			continue
		case key == "grist" && r.scaled():
			text = r.scale(part, text)
		}
		all = append(all, text)
	}
	return all
}

// typed is a value in a line: single ones as they stand in the file, maps and
// lists in brackets, without the keys left out and those with nothing in them.
func (r *Recipe) typed(part *journal.Part, without []string) string {
	switch {
	case part.Blank:
		return ""
	case part.Shape == journal.Map:
		var all []string
		for _, k := range part.Keys {
			name, value := asMeant(part, k)
			if text := r.typed(value, nil); text != "" && !slices.Contains(without, name) {
				all = append(all, name+": "+text)
			}
		}
		return "{" + strings.Join(all, ", ") + "}"
	case part.Shape == journal.List:
		var all []string
		for _, p := range part.Parts {
			all = append(all, r.typed(p, nil))
		}
		return "[" + strings.Join(all, ", ") + "]"
	}
	text := r.raw[part.Start:part.End]
	if bytes.ContainsAny(text, "\r\n") || !plain(string(text)) && !bytes.ContainsAny(text[:1], `"'`) {
		return spell(strings.TrimSpace(part.Text))
	}
	return string(text)
}

// asMeant is a key of a map with its value: of a rest that came out otherwise than
// it was aimed, how warm it was meant to be.
func asMeant(part *journal.Part, k journal.Key) (name string, value *journal.Part) {
	aimed := part.Key("aimed")
	switch {
	case aimed == nil || aimed.Value.Blank:
	case k.Name == "aimed":
		return "at", k.Value
	case k.Name == "at":
		return "at", &journal.Part{Blank: true}
	}
	return k.Name, k.Value
}

func (r *Recipe) scaled() bool { return r.Scale != 0 && r.Scale != 1 }

// scale puts the scaled weight in the place of the one that a part of the grist
// has, and says beside it what that was.
func (r *Recipe) scale(part *journal.Part, text string) string {
	key := part.Key("weight")
	if key == nil || key.Value.Blank {
		return text
	}
	was := r.typed(key.Value, nil)
	now, ok := Scaled(key.Value.Text, r.Scale)
	if !ok || now == was {
		return text
	}
	return strings.Replace(text, "weight: "+was, "weight: "+now, 1) + "   # was " + was
}

// Scaled is a weight multiplied, as somebody would weigh it: to three figures
// at most, in the unit it had (the greater one of pounds and ounces), to whole
// grams.
func Scaled(weight string, by float64) (text string, ok bool) {
	amount, err := q.Parse[q.Mass](weight)
	if err != nil || amount.Value <= 0 || by <= 0 {
		return "", false
	}
	unit := q.KindOf[q.Mass]().Canonical()
	for _, u := range q.KindOf[q.Mass]().Units {
		if u.Symbol == amount.Unit {
			unit = u
		}
	}
	number := unit.Out(float64(amount.Value) * by)
	step := math.Pow(10, math.Floor(math.Log10(number))-2)
	if unit.Symbol == "g" {
		step = max(step, 1)
	}
	number = math.Round(number/step) * step
	return strconv.FormatFloat(number, 'f', max(0, -int(math.Floor(math.Log10(step)+1e-9))), 64) + " " + unit.Symbol,
		true
}

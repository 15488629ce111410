package scribe

import (
	"fmt"
	"strings"

	"gylebook/internal/journal"
)

// Jotting is what is to be written into an entry. Exactly one of these is so:
// List is "", and each value is set at its own path; or List names a list of
// maps, which gets one new part made of the values; or List names a list of
// words, which gets the one value.
type Jotting struct {
	List    string // "readings", "done" …
	Values  []Value
	Remarks []string // what was left as it is, for whoever typed it
}

// Value is one value of a jotting, as it would be typed into the entry.
type Value struct {
	// Key is a path in the entry ("racked.volume"), or with a List a key of its
	// new part ("gravity"), or "" for a list of words.
	Key  string
	Text string
	Many []string // for a key that holds a list of words, instead of Text
	// Instead is for a value that goes in the place of what the entry says.
	Instead bool
}

// yaml is the value as YAML that is safe in braces and out of them.
func (v Value) yaml() string {
	if v.Many == nil {
		return spell(v.Text)
	}
	spelt := make([]string, len(v.Many))
	for i, text := range v.Many {
		spelt[i] = spell(text)
	}
	return "[" + strings.Join(spelt, ", ") + "]"
}

// typed is the value as a what-if takes it, which reads brackets and quotation
// marks as YAML and anything else as it stands.
func (v Value) typed() string {
	if v.Many != nil {
		return v.yaml()
	}
	if v.Text == "" || strings.ContainsAny(v.Text[:1], `[{"' `) || v.Text != strings.TrimSpace(v.Text) {
		return quoted(v.Text)
	}
	return v.Text
}

// sets are the what-ifs that come to the same as the jotting, in an entry with
// this outline.
func (j Jotting) sets(root *journal.Part) []string {
	var sets []string
	made := map[string]bool{}
	for i, v := range j.Values {
		path := v.Key
		switch {
		case j.List != "" && v.Key == "":
			path = j.List + "[+]"
		case j.List != "" && i == 0:
			path = j.List + "[+]." + v.Key
		case j.List != "":
			path = fmt.Sprintf("%s[%d].%s", j.List, partsOf(root, j.List), v.Key)
		default:
			// Of a list that is not there yet, the first what-if makes the part.
			if list, rest, is := strings.Cut(v.Key, "[0]"); is && partsOf(root, list) == 0 && !made[list] {
				path, made[list] = list+"[+]"+rest, true
			}
		}
		sets = append(sets, path+"="+v.typed())
	}
	return sets
}

// partsOf is how many parts a list of the entry has; a single map stands for a
// list of one.
func partsOf(root *journal.Part, list string) int {
	part := partAt(root, stepsOf(list))
	switch {
	case part == nil:
		return 0
	case part.Shape == journal.Map:
		return 1
	}
	return len(part.Parts)
}

// rank is the place of each key of an entry in the order of the vocabulary.
func rank() map[string]int {
	order := map[string]int{}
	for _, w := range journal.Words() {
		if w.File == "gyle" && w.Path == w.Key {
			order[w.Key] = len(order)
		}
	}
	return order
}

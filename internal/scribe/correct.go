package scribe

import (
	"fmt"
	"slices"
	"strings"

	"gylebook/internal/journal"
)

// Correction tells whether a jotting says what something is not, but is.
func Correction(words []string) bool { return len(words) > 0 && strings.EqualFold(words[0], "not") }

// Correct makes a jotting that goes in the place of what an entry says: of what
// is named as not 1.022 but 1.012, else of the last thing said of the same kind.
// Raw are the bytes of the entry.
func Correct(words []string, when When, g *journal.Gyle, settings *journal.Settings, raw []byte) (Jotting, error) {
	o, err := journal.OutlineOf(raw)
	if err != nil {
		return Jotting{}, &Refusal{Reason: err.Error()}
	}
	var wrong Jotting
	named := Correction(words)
	if named {
		at := slices.IndexFunc(words, func(w string) bool { return strings.EqualFold(w, "but") })
		if at < 0 {
			return Jotting{}, &Refusal{Reason: "say what it was instead, as not 1.022 but 1.012; or jot it " +
				"anew with --instead"}
		}
		if wrong, err = Understand(words[1:at], when, g, settings); err != nil {
			return Jotting{}, err
		}
		words = begunAs(words[1:at], words[at+1:])
	}
	right, err := Understand(words, when, g, settings)
	if err != nil {
		return Jotting{}, err
	}
	c := correction{wrong: wrong.without(when), right: right.without(when), root: o.Root, named: named}
	j, err := c.jotting()
	if err != nil {
		return Jotting{}, &Refusal{Reason: err.Error()}
	}
	return j, nil
}

// begunAs gives what is right the beginning of what is wrong, where it is only
// numbers: not racked 20 L but 20.5 L.
func begunAs(wrong, right []string) []string {
	n := slices.IndexFunc(wrong, beginsNumber)
	if len(right) == 0 || !beginsNumber(right[0]) || n < 1 {
		return right
	}
	return slices.Concat(wrong[:n], right)
}

// without is the jotting without the moment of jotting: what is corrected keeps
// its time, unless another was named.
func (j Jotting) without(when When) Jotting {
	if when.Chosen {
		return j
	}
	j.Values = slices.DeleteFunc(slices.Clone(j.Values), func(v Value) bool { return v.Text == when.Text })
	return j
}

// correction is what is wrong in an entry, and what is right.
type correction struct {
	wrong, right Jotting
	root         *journal.Part
	named        bool
}

func (c correction) jotting() (Jotting, error) {
	if c.named && c.wrong.List != c.right.List {
		return Jotting{}, fmt.Errorf("%s and %s are not of one kind: correct the "+
			"file", c.wrong.said(), c.right.said())
	}
	for _, v := range c.right.Values {
		if c.named && !slices.ContainsFunc(c.wrong.Values, func(w Value) bool { return w.Key == v.Key }) {
			return Jotting{}, fmt.Errorf("%s is not what was wrong (%s): correct like with "+
				"like", v.said(), c.wrong.said())
		}
	}
	out := Jotting{Remarks: c.right.Remarks}
	if c.right.List == "" {
		for _, v := range c.wrong.Values {
			if !c.says(c.root, v) {
				return Jotting{}, fmt.Errorf("the entry does not say %s %s", v.Key, v.said())
			}
		}
		for _, v := range c.right.Values {
			v.Instead = true
			out.Values = append(out.Values, v)
		}
		return out, nil
	}
	number, err := c.part()
	if err != nil {
		return Jotting{}, err
	}
	for _, v := range c.right.Values {
		v.Key = strings.TrimSuffix(fmt.Sprintf("%s[%d].%s", c.right.List, number, v.Key), ".")
		v.Instead = true
		out.Values = append(out.Values, v)
	}
	return out, nil
}

// said is the jotting's values in a line.
func (j Jotting) said() string {
	var all []string
	for _, v := range j.Values {
		all = append(all, strings.TrimSpace(v.Key+" "+v.said()))
	}
	return strings.Join(all, ", ")
}

// says tells whether a part of the entry has a value just so.
func (c correction) says(part *journal.Part, v Value) bool {
	at := part
	if v.Key != "" {
		at = partAt(part, stepsOf(v.Key))
	}
	return at != nil && at.Shape == journal.Single && strings.EqualFold(squash(at.Text), squash(v.said()))
}

// naming are the keys by which one part of a list is told from another.
var naming = []string{"did", "vessel", "hop", "with", "fruit", "juice", "spice", "wood", "other", "liquor", "wort", "sugar",
	"by", "package", "when", "on"}

// part is the number of the last part of the list that is meant: that says all
// of what is wrong, or that has what is right, and is called the same.
func (c correction) part() (int, error) {
	list := c.root.Key(c.right.List)
	if list == nil || list.Value.Shape != journal.List {
		return 0, fmt.Errorf("%s says nothing yet that could be corrected", c.right.List)
	}
	for i, part := range slices.Backward(list.Value.Parts) {
		meant := true
		for _, v := range c.right.Values {
			has := v.Key == "" || partAt(part, stepsOf(v.Key)) != nil
			meant = meant && (c.named || has && (!slices.Contains(naming, v.Key) || c.says(part, v)))
		}
		for _, v := range c.wrong.Values {
			meant = meant && c.says(part, v)
		}
		if meant {
			return i, nil
		}
	}
	return 0, fmt.Errorf("no line of %s says that; the file shows what they say", c.right.List)
}

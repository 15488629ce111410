package scribe

import (
	"fmt"
	"strconv"
	"strings"

	"gylebook/internal/journal"
)

// jotting puts together what was heard, the place's path and the time.
func (l *listener) jotting(when When, g *journal.Gyle) (Jotting, error) {
	p := l.place
	said := len(l.values) - len(p.fixed)
	if p.list != "" {
		return l.part(when, g)
	}
	under, err := l.path(g)
	if err != nil {
		return Jotting{}, err
	}
	j := Jotting{}
	if p.stamp != "" {
		j.stamp(l, under+"."+p.stamp, when, g, said > 0)
	}
	if len(l.values) == 0 {
		return Jotting{}, fmt.Errorf("%s: say what, such as %s", p.Words, p.Eg)
	}
	p.order(l.values)
	for _, v := range l.values {
		v.Key = under + "." + v.Key
		j.Values = append(j.Values, v)
	}
	if p.brews && !g.Brewed.Written() {
		j.Values = append(j.Values, Value{Key: "brewed", Text: when.Day})
	}
	return j, nil
}

// part is a new part of a list, with its time.
func (l *listener) part(when When, g *journal.Gyle) (Jotting, error) {
	p := l.place
	if p.ofList {
		return Jotting{List: p.list, Values: l.values}, nil
	}
	if len(l.values) == 0 {
		return Jotting{}, fmt.Errorf("%s: say what, such as %s", p.Words, p.Eg)
	}
	if p.list == "finings" && !l.has("with") {
		return Jotting{}, fmt.Errorf("%s: say with what, such as %s", p.Words, p.Eg)
	}
	if p.stamp != "" && !l.has(p.stamp) {
		l.values = append(l.values, Value{Key: p.stamp, Text: when.Text})
	}
	p.order(l.values)
	if p.list == "packages" {
		return l.container(when, g)
	}
	return Jotting{List: p.list, Values: l.values}, nil
}

// container is a container that was filled: the one that the entry plans, where
// it plans such a one, else one more.
func (l *listener) container(when When, g *journal.Gyle) (Jotting, error) {
	vessel, fill := l.text("vessel"), l.text("fill")
	if err := overfull(vessel, fill); err != nil {
		return Jotting{}, err
	}
	for i, p := range g.Packages {
		if p.On.Written() || p.Broached.Written() || !alike(p.Vessel.Name, vessel) {
			continue
		}
		j := Jotting{Remarks: []string{fmt.Sprintf("It is packages[%d], which line %d plans.", i, p.Line)}}
		for _, v := range l.values {
			if v.Key == "vessel" {
				continue
			}
			planned := v.Key == "count" && p.Count.Written() && p.Count.N != wholeOf(v.Text) || v.Key == "fill" && p.Fill.Written()
			j.Values = append(j.Values, Value{Key: fmt.Sprintf("packages[%d].%s", i, v.Key), Text: v.Text, Instead: planned})
			if v.Key == "gas.set" {
				j.Values = append(j.Values, Value{Key: fmt.Sprintf("packages[%d].gas.from", i), Text: when.Text})
			}
		}
		return j, nil
	}
	if set := l.text("gas.set"); set != "" {
		return Jotting{}, fmt.Errorf("%s: fill it first, and then gassed package %d %s", set, len(g.Packages), set)
	}
	return Jotting{List: l.place.list, Values: l.values}, nil
}

// wholeOf is a whole number, 0 for anything else.
func wholeOf(text string) int {
	n, err := strconv.Atoi(text)
	if err != nil {
		return 0
	}
	return n
}

// overfull refuses more beer in each container than it is sold as holding, which
// is more likely the beer in all of them.
func overfull(name, fill string) error {
	card := vessel(name)
	_, volume, err := parses(ofVolume, fill)
	if card == nil || err != nil || card.Vessel.Size.Value == 0 {
		return nil
	}
	if most := float64(card.Vessel.Size.Value) * brimful; volume > most {
		return fmt.Errorf("%s is more than a %s holds: fill is the beer in each", fill, name)
	}
	return nil
}

// brimful is how much more than its size a container may hold, to the brim:
// common practice, no source.
const brimful = 1.1

// text is what was said for a key, "" for nothing.
func (l *listener) text(key string) string {
	for _, v := range l.values {
		if v.Key == key {
			return v.Text
		}
	}
	return ""
}

func (l *listener) has(key string) bool {
	for _, v := range l.values {
		if v.Key == key {
			return true
		}
	}
	return false
}

// stamp adds the time, unless the entry has one already, nobody named another
// and there is something else to write: then what is there stays.
func (j *Jotting) stamp(l *listener, path string, when When, g *journal.Gyle, more bool) {
	if l.has(l.place.stamp) {
		return
	}
	if at := momentAt(g, path); at.Written() && more && !when.Chosen {
		j.Remarks = append(j.Remarks, fmt.Sprintf("%s stays as line %d has it.", path, at.Line))
		return
	}
	l.values = append(l.values, Value{Key: l.place.stamp, Text: when.Text})
}

// path is the path that the place's keys go below.
func (l *listener) path(g *journal.Gyle) (string, error) {
	switch {
	case l.place.apart && l.parcel >= 0 && l.place.parcel != "":
		return fmt.Sprintf("packages[%d].%s", l.parcel, l.place.parcel), nil
	case l.place.apart && l.parcel >= 0:
		for _, v := range l.values {
			if v.Key != "broached" && v.Key != "emptied" {
				return "", fmt.Errorf("%s is said of the whole gyle, not of one of its packages", v.Key)
			}
		}
		return fmt.Sprintf("packages[%d]", l.parcel), nil
	case strings.HasPrefix(l.place.under, "packages[]") && len(g.Packages) > 1:
		return "", fmt.Errorf("%s: say which, as package 0: there are %d", l.place.Words, len(g.Packages))
	case strings.HasPrefix(l.place.under, "packages[]"):
		return "packages[0]." + l.place.parcel, nil
	case l.place.under == "mash.rests[]":
		for i, r := range g.Mash.Rests {
			if !r.At.Written() {
				return fmt.Sprintf("mash.rests[%d]", i), nil
			}
		}
		if n := len(g.Mash.Rests); n > 1 {
			return "", fmt.Errorf("mash.rests already says how warm each of its %d rests is; correct the one "+
				"in the file", n)
		}
		return "mash.rests[0]", nil
	case l.place.under == "yeast[]":
		for i, y := range g.Yeast {
			if !y.Pitched.Written() {
				return fmt.Sprintf("yeast[%d]", i), nil
			}
		}
		return fmt.Sprintf("yeast[%d]", max(0, len(g.Yeast)-1)), nil
	}
	return l.place.under, nil
}

// momentAt is the moment at one of the paths that get a stamp.
func momentAt(g *journal.Gyle, path string) journal.Moment {
	at := map[string]journal.Moment{
		"mash.started": g.Mash.Started, "copper.started": g.Copper.Started, "racked.on": g.Racked.On,
		"priming.on":              g.Priming.On,
		"fermenter.spunding.from": g.Fermenter.Spunding.From,
		"conditioned.from":        g.Condition.From, "cellared.from": g.Cellared.From,
		"served.broached": g.Served.Broached, "served.emptied": g.Served.Emptied,
	}
	for i, y := range g.Yeast {
		at[fmt.Sprintf("yeast[%d].pitched", i)] = y.Pitched
	}
	for i, p := range g.Packages {
		key := fmt.Sprintf("packages[%d].", i)
		at[key+"broached"], at[key+"emptied"] = p.Broached, p.Emptied
		at[key+"gas.from"], at[key+"spunding.from"] = p.Gas.From, p.Spunding.From
	}
	return at[path]
}

package scribe

import (
	"fmt"
	"strings"

	"gylebook/internal/journal"
)

// jotting puts together what was heard, the place's path and the time.
func (l *listener) jotting(when When, g *journal.Gyle) (Jotting, error) {
	p := l.place
	said := len(l.values) - len(p.fixed)
	if p.list != "" {
		return l.part(when)
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
func (l *listener) part(when When) (Jotting, error) {
	p := l.place
	if p.ofList {
		return Jotting{List: p.list, Values: l.values}, nil
	}
	if len(l.values) == 0 {
		return Jotting{}, fmt.Errorf("%s: say what, such as %s", p.Words, p.Eg)
	}
	if p.stamp != "" && !l.has(p.stamp) {
		l.values = append(l.values, Value{Key: p.stamp, Text: when.Text})
	}
	p.order(l.values)
	return Jotting{List: p.list, Values: l.values}, nil
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

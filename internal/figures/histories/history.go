// Package histories makes entries at random, as brewers might write them: from all
// the keys that bear on gas, sugar, water and heat, in any order of days, with and
// without what a careful brewer would note. Tests hold laws to them that must be true
// of every entry. Nothing but tests leans on it.
//
// A History is text in the making: what is done to it (a line more, a line less, a
// warmer cellar) is done to the text, so that a law is tested from what is typed to
// what is printed. Histories are values: each change gives another one.
package histories

import (
	"fmt"
	"slices"
	"strings"
	"time"
)

// History is one or two entries, the settings of their journal, and the clock.
type History struct {
	// Lines are those of all entries: one reading, one package, one thing done.
	Lines []Line
	Now   time.Time
	next  int // number of the next line
}

// Line is one item of an entry: an item of a list as readings, or a mapping of which
// there is one, as racked.
type Line struct {
	ID   int // tells it from all others, whatever is taken away
	In   int // the entry that it stands in: the number of a gyle, or Settings
	Of   string
	List bool
	Keys []Key
}

// Key is one key of a line, with dots where it lies deeper: gas.set.
type Key struct{ Name, Value string }

// The entries of a history: the gyle that laws are held to, the one that it may have
// been drawn from, and the journal's settings.
const (
	Settings = 0
	Source   = 1
	Subject  = 2
)

// Plain is the key of a line that is nothing but a value, as brewed.
const Plain = ""

// Value is that of a key, "" where it is not written.
func (l Line) Value(name string) string {
	for _, k := range l.Keys {
		if k.Name == name {
			return k.Value
		}
	}
	return ""
}

// Has tells whether a key, or one below it, is written.
func (l Line) Has(name string) bool {
	return slices.ContainsFunc(l.Keys, func(k Key) bool { return k.Name == name || strings.HasPrefix(k.Name, name+".") })
}

// With is the line with a key written, or written anew.
func (l Line) With(name, value string) Line {
	l.Keys = slices.Clone(l.Keys)
	for i := range l.Keys {
		if l.Keys[i].Name == name {
			l.Keys[i].Value = value
			return l
		}
	}
	l.Keys = append(l.Keys, Key{name, value})
	return l
}

// Without is the line with a key, and those below it, left out.
func (l Line) Without(name string) Line {
	l.Keys = slices.DeleteFunc(slices.Clone(l.Keys), func(k Key) bool { return k.Name == name || strings.HasPrefix(k.Name, name+".") })
	return l
}

// Line is the line of a number.
func (h History) Line(id int) (Line, bool) {
	for _, l := range h.Lines {
		if l.ID == id {
			return l, true
		}
	}
	return Line{}, false
}

// All are the lines of one kind in one entry, in order.
func (h History) All(in int, of string) []Line {
	var all []Line
	for _, l := range h.Lines {
		if l.In == in && l.Of == of {
			all = append(all, l)
		}
	}
	return all
}

// One is the only line of a kind in one entry.
func (h History) One(in int, of string) (Line, bool) {
	for _, l := range h.Lines {
		if l.In == in && l.Of == of {
			return l, true
		}
	}
	return Line{}, false
}

// Has tells whether anything stands in an entry.
func (h History) Has(in int) bool {
	return slices.ContainsFunc(h.Lines, func(l Line) bool { return l.In == in })
}

// Added is the history with one more line at its end.
func (h History) Added(l Line) History {
	h.next++
	l.ID = h.next
	h.Lines = append(slices.Clone(h.Lines), l)
	return h
}

// Changed is the history with one line written otherwise; as it was where there is
// none of that number.
func (h History) Changed(id int, how func(Line) Line) History {
	h.Lines = slices.Clone(h.Lines)
	for i := range h.Lines {
		if h.Lines[i].ID == id {
			h.Lines[i] = how(h.Lines[i])
		}
	}
	return h
}

// Cut is the history without one line.
func (h History) Cut(id int) History {
	h.Lines = slices.DeleteFunc(slices.Clone(h.Lines), func(l Line) bool { return l.ID == id })
	return h
}

// Text is one entry as a file.
func (h History) Text(in int) []byte {
	var w strings.Builder
	w.WriteString("---\n")
	if in == Settings {
		w.WriteString("journal: Any\n")
	} else {
		fmt.Fprintf(&w, "gyle: %d\nbeer: Any\n", in)
	}
	for i, l := range h.Lines {
		if l.In != in || !h.first(i) {
			continue
		}
		if !l.List {
			fmt.Fprintf(&w, "%s: %s\n", l.Of, l.text())
			continue
		}
		w.WriteString(l.Of + ":\n")
		for _, item := range h.All(in, l.Of) {
			fmt.Fprintf(&w, "  - %s\n", item.text())
		}
	}
	w.WriteString("---\n")
	return []byte(w.String())
}

// first tells whether a line is the first of its kind in its entry.
func (h History) first(i int) bool {
	l := h.Lines[i]
	return !slices.ContainsFunc(h.Lines[:i], func(o Line) bool { return o.In == l.In && o.Of == l.Of })
}

// text is a line's keys as YAML.
func (l Line) text() string {
	if len(l.Keys) == 1 && l.Keys[0].Name == Plain {
		return l.Keys[0].Value
	}
	return flow(l.Keys)
}

// flow is keys as a mapping on one line.
func flow(keys []Key) string {
	var parts []string
	for i, k := range keys {
		head, _, deep := strings.Cut(k.Name, ".")
		if !deep {
			parts = append(parts, k.Name+": "+k.Value)
			continue
		}
		if slices.ContainsFunc(keys[:i], func(o Key) bool { return strings.HasPrefix(o.Name, head+".") }) {
			continue
		}
		var below []Key
		for _, o := range keys[i:] {
			if rest, is := strings.CutPrefix(o.Name, head+"."); is {
				below = append(below, Key{rest, o.Value})
			}
		}
		parts = append(parts, head+": "+flow(below))
	}
	return "{" + strings.Join(parts, ", ") + "}"
}

// String is the history as whoever mends what it shows wants to read it.
func (h History) String() string {
	var w strings.Builder
	for _, in := range []int{Settings, Source, Subject} {
		if in == Subject || h.Has(in) {
			w.Write(h.Text(in))
		}
	}
	fmt.Fprintf(&w, "read on %s\n", h.Now.Format("2006-01-02 15:04"))
	return w.String()
}

// String is a line as it stands in its entry.
func (l Line) String() string {
	of := l.Of + ": " + l.text()
	if l.In == Source {
		of += " in the gyle that it was drawn from"
	}
	return of
}

// Compared is two histories, of the second only what differs.
func Compared(h, other History) string {
	var w strings.Builder
	w.WriteString(h.String())
	before := strings.Split(h.String(), "\n")
	for _, line := range strings.Split(other.String(), "\n") {
		if !slices.Contains(before, line) {
			w.WriteString("afterwards: " + strings.TrimSpace(line) + "\n")
		}
	}
	return w.String()
}

package journal

import (
	"reflect"
	"slices"
	"strconv"
	"strings"
	"sync"

	"gylebook/internal/quantity"
)

// plan is how one map of the front matter is read into one struct, made once
// from the struct's tags.
type plan struct {
	what   string // "a gyle", "hops[]": completes "is no key of …"
	fields []field
	byKey  map[string]int // index into fields
	where  int            // the struct's embedded Where, or -1
	short  int            // the field that takes a single value for the whole map, or -1
}

// field is one key of a plan.
type field struct {
	key, says string
	also      []string
	index     []int // of the struct's field
	list      bool
	sub       *plan     // for a map or a list of maps
	leaf      leafShape // for a single value or a list of them
	fresh     func() leaf
	choices   []string
	card      string
	eg        string // an example, where the type's own would say too little
	none      string // what the word none means here, or ""
	private   string // the word of the settings that keeps it off the site
	least     int    // the least whole number
	needed    bool
	doubt     bool // a flag that counts as true if it cannot be read
}

// leafShape is what kind of single value a field takes.
type leafShape struct {
	name string         // "quantity", "range", "words" …
	kind *quantity.Kind // of a quantity or range
}

// planSet is the plans of every kind of file.
type planSet struct {
	gyle, note, settings *plan
	cards                map[string]*plan
	kinds                []string // of cards, in order
}

// plans is made at the first use, and never changed.
var plans = sync.OnceValue(func() planSet {
	set := planSet{
		gyle:     planOf(reflect.TypeFor[Gyle](), topOfGyle, ""),
		note:     planOf(reflect.TypeFor[Note](), "a note", ""),
		settings: planOf(reflect.TypeFor[Settings](), "the settings", ""),
		cards:    map[string]*plan{},
	}
	card := reflect.TypeFor[Card]()
	common := planOf(card, "a card", "")
	set.kinds = common.fields[common.byKey["card"]].choices
	for _, kind := range set.kinds {
		set.cards[kind] = planOfCard(card, common, kind)
	}
	return set
})

// planOf reads the tags of a struct type, which stands at path in its file.
func planOf(t reflect.Type, what, path string) *plan {
	p := &plan{what: what, byKey: map[string]int{}, where: -1, short: -1}
	for i := range t.NumField() {
		f := t.Field(i)
		key, option, _ := strings.Cut(f.Tag.Get("key"), ",")
		switch {
		case option == "where":
			p.where = i
		case option == "short":
			p.short = len(p.fields)
			p.fields = append(p.fields, fieldOf(f, "", i, path))
		case key != "":
			p.add(fieldOf(f, key, i, path))
		}
	}
	return p
}

// planOfCard is the keys that every card has and those of its kind.
func planOfCard(card reflect.Type, common *plan, kind string) *plan {
	p := &plan{what: "a " + kind + " card", fields: slices.Clone(common.fields), byKey: map[string]int{}, where: -1,
		short: -1}
	for i, f := range p.fields {
		p.byKey[f.key] = i
	}
	facts := factsOf(card, kind)
	of := planOf(facts.Type.Elem(), p.what, "")
	for _, f := range of.fields {
		f.index = append(slices.Clone(facts.Index), f.index...)
		p.add(f)
	}
	return p
}

// factsOf is the field of Card for the facts of a kind: Malt for malt.
func factsOf(card reflect.Type, kind string) reflect.StructField {
	f, _ := card.FieldByNameFunc(func(name string) bool { return strings.EqualFold(name, kind) })
	return f
}

func (p *plan) add(f field) {
	p.byKey[f.key] = len(p.fields)
	p.fields = append(p.fields, f)
}

// fieldOf reads one field's tags.
func fieldOf(sf reflect.StructField, key string, index int, path string) field {
	least, _ := strconv.Atoi(sf.Tag.Get("least"))
	f := field{
		key: key, says: sf.Tag.Get("says"), index: []int{index}, card: sf.Tag.Get("card"), none: sf.Tag.Get("none"),
		eg: sf.Tag.Get("eg"), private: sf.Tag.Get("private"),
		also: splitBars(sf.Tag.Get("also")), choices: splitBars(sf.Tag.Get("one")),
		least: least, needed: sf.Tag.Get("needed") != "", doubt: sf.Tag.Get("doubt") != "",
	}
	t := sf.Type
	if t.Kind() == reflect.Slice {
		f.list, t = true, t.Elem()
	}
	if l, ok := reflect.New(t).Interface().(leaf); ok {
		f.leaf = l.shape()
		f.fresh = func() leaf { return reflect.New(t).Interface().(leaf) }
		return f
	}
	at := join(path, key) + listMark(f.list)
	f.sub = planOf(t, at, at)
	return f
}

func listMark(list bool) string {
	if list {
		return "[]"
	}
	return ""
}

// splitBars is the parts of a tag with bars between them.
func splitBars(tag string) []string {
	if tag == "" {
		return nil
	}
	return strings.Split(tag, "|")
}

package journal

import (
	"fmt"
	"reflect"
	"slices"
	"strconv"
	"strings"

	"go.yaml.in/yaml/v4"

	"gylebook/internal/notice"
)

// scalar is one single value of the front matter: its text as typed, and where.
type scalar struct {
	node *yaml.Node
	text string
	Where
}

// leaf is what can be read from a single value. take leaves the zero value and
// reports an error where it cannot.
type leaf interface {
	take(r *reading, s scalar, f *field)
	shape() leafShape
}

// place is where a node stands in its file, or in which what-if.
func (r *reading) place(n *yaml.Node) notice.Place {
	if n.Line < 0 {
		return notice.Place{File: setFile, Line: -n.Line, Column: 1}
	}
	return notice.Place{File: r.file, Line: n.Line + r.offset, Column: n.Column}
}

func (r *reading) where(n *yaml.Node, path string) Where {
	return Where{Place: r.place(n), Key: path}
}

// wrong reports an error at a node.
func (r *reading) wrong(n *yaml.Node, id, path, says, do string) {
	if path != "" {
		says = path + ": " + says
	}
	r.report(r.place(n), id, path, says, do)
}

// mapping reads a map into a struct.
func (r *reading) mapping(n *yaml.Node, p *plan, into reflect.Value, path string) {
	if p.where >= 0 {
		*into.Field(p.where).Addr().Interface().(*Where) = r.where(n, path)
	}
	n = unfolded(n, p)
	first := make([]*yaml.Node, len(p.fields)) // the key of each field that was met
	for i := 0; i+1 < len(n.Content); i += 2 {
		key, value := n.Content[i], n.Content[i+1]
		at, ok := r.key(key, p, path)
		switch {
		case !ok && r.besides(key, value, path):
			continue
		case !ok:
			r.stranger(n, i, p, into.Type(), path)
			continue
		}
		f := &p.fields[at]
		if r.decimalComma(n, i, f, join(path, f.key)) {
			i += 2
			continue
		}
		if before := first[at]; before != nil {
			r.report(r.place(key), idDoubledKey, join(path, f.key),
				fmt.Sprintf("%s stands twice: the first, on line %d, is used", join(path, f.key), r.place(before).Line),
				"Leave one of them out.")
			continue
		}
		first[at] = key
		r.value(value, f, into.FieldByIndex(f.index), join(path, f.key))
	}
	r.needs(n, p, into, path)
}

// key is the field that a key names, not ok where it names none.
func (r *reading) key(key *yaml.Node, p *plan, path string) (at int, ok bool) {
	if key.Tag == "!!merge" || key.Kind != yaml.ScalarNode || key.Value == "" {
		return 0, false
	}
	if at, ok = p.byKey[key.Value]; !ok {
		at, ok = asItsKey(p, key.Value)
	}
	return at, ok
}

// stranger reports a key that names no field of its map, and what was likely
// meant by it.
func (r *reading) stranger(n *yaml.Node, i int, p *plan, t reflect.Type, path string) {
	key, value := n.Content[i], n.Content[i+1]
	switch {
	case len(r.errors) > maxErrors:
		return // enough has been said
	case key.Tag == "!!merge":
		r.wrong(key, idAlias, path, "a merge key (<<): expected each value where it belongs", "Write the values out.")
		return
	case key.Kind != yaml.ScalarNode:
		r.wrong(key, idWrongShape, path, "a "+shapeOf(key)+" as a key: expected a word", "")
		return
	}
	g := guess{do: cutByComma(n, i, p)}
	if g.do == "" {
		g = guessKey(p, key, value)
	}
	if g.do == "" && path == "" && isDeciding(key.Value) {
		g.do = "Leave it out, or put it into a file of its own: a file is one thing."
	}
	says := fmt.Sprintf("%s is no key of %s", quote(key.Value), p.what)
	r.report(r.place(key), idUnknownKey, join(path, shorten(key.Value, longestWord)), says, g.do)
	if g.field != nil {
		r.readInside(n, value, g.field, t, path)
	}
}

// needs reports the keys that the map cannot be without.
func (r *reading) needs(n *yaml.Node, p *plan, into reflect.Value, path string) {
	for i := range p.fields {
		f := &p.fields[i]
		if !f.needed || written(into.FieldByIndex(f.index)) || r.hasErrorAt(join(path, f.key)) ||
			r.hasMissed(join(path, f.key)) {
			continue
		}
		r.wrong(n, idMissingKey, path, fmt.Sprintf("no %s: expected %s", f.key, f.says),
			fmt.Sprintf("Write %s: and then %s.", f.key, f.says))
	}
}

// written tells whether a leaf has its place.
func written(v reflect.Value) bool {
	place, ok := v.Interface().(interface{ Written() bool })
	return ok && place.Written()
}

func (r *reading) hasErrorAt(path string) bool {
	for _, e := range r.errors {
		if e.Of == path {
			return true
		}
	}
	return false
}

// hasMissed tells whether a key was written in letters that are not quite its
// own.
func (r *reading) hasMissed(path string) bool {
	return slices.ContainsFunc(r.missed, func(w Where) bool { return w.Key == path })
}

// value reads what stands under a key. A null is not written.
func (r *reading) value(n *yaml.Node, f *field, into reflect.Value, path string) {
	if !r.hasNoShorthand(n, path) || isNull(n) {
		return
	}
	switch {
	case f.list:
		r.list(n, f, into, path)
	case f.sub != nil:
		r.single(n, f, into, path)
	case n.Kind != yaml.ScalarNode:
		r.wrong(n, idWrongShape, path, fmt.Sprintf("a %s: expected %s", shapeOf(n), f.expected()), severalOf(n, path))
		r.doubtful(n, f, into, path)
	default:
		r.leaf(n, f, into, path)
	}
}

// hasNoShorthand refuses anchors, aliases and tags: a value stands where it belongs and
// means what it says.
func (r *reading) hasNoShorthand(n *yaml.Node, path string) bool {
	switch {
	case n.Kind == yaml.AliasNode:
		r.wrong(n, idAlias, path, "*"+shorten(n.Value, longestWord)+" is an alias: expected the value itself",
			"Write the value out.")
		return false
	case n.Anchor != "":
		r.wrong(n, idAlias, path, "&"+shorten(n.Anchor, longestWord)+" is an anchor: expected the value alone",
			"Leave the & and its name out, or put quotes around the words.")
		return false
	case n.Style&yaml.TaggedStyle != 0:
		r.wrong(n, idWrongShape, path, shorten(n.Tag, longestWord)+" is a YAML tag: expected the value alone",
			"Leave the ! and its name out, or put quotes around the words.")
		return false
	}
	return true
}

func isNull(n *yaml.Node) bool { return n.Kind == yaml.ScalarNode && n.Tag == "!!null" }

// leaf reads one single value.
func (r *reading) leaf(n *yaml.Node, f *field, into reflect.Value, path string) {
	into.Addr().Interface().(leaf).take(r, scalar{node: n, text: strings.TrimSpace(n.Value), Where: r.where(n, path)},
		f)
}

// doubtful reads a value of the wrong shape as a leaf would an unreadable one,
// for a field whose doubt has a side.
func (r *reading) doubtful(n *yaml.Node, f *field, into reflect.Value, path string) {
	if flag, ok := into.Addr().Interface().(*Flag); ok && f.doubt {
		*flag = Flag{True: true, Where: r.where(n, path)}
	}
}

// single reads a map, or the short form that stands for one.
func (r *reading) single(n *yaml.Node, f *field, into reflect.Value, path string) {
	switch {
	case n.Kind == yaml.MappingNode:
		r.mapping(n, f.sub, into, path)
	case n.Kind == yaml.ScalarNode && f.sub.short >= 0:
		*into.Field(f.sub.where).Addr().Interface().(*Where) = r.where(n, path)
		short := &f.sub.fields[f.sub.short]
		r.leaf(n, short, into.FieldByIndex(short.index), path)
	default:
		r.wrong(n, idWrongShape, path, fmt.Sprintf("a %s: expected %s", shapeOf(n), f.expected()), r.wrapped(f, n))
	}
}

// list reads a list, or a single map where a list of maps is wanted, as a list
// of one. A part that cannot be read keeps its place in a list of maps, since
// packages are counted.
func (r *reading) list(n *yaml.Node, f *field, into reflect.Value, path string) {
	items := n.Content
	switch {
	case n.Kind == yaml.MappingNode && f.sub != nil:
		items = []*yaml.Node{n}
	case n.Kind != yaml.SequenceNode:
		r.wrong(n, idWrongShape, path, fmt.Sprintf("a %s: expected %s", shapeOf(n), f.expected()), r.wrapped(f, n))
		return
	}
	if len(items) > maxItems {
		r.wrong(items[maxItems], idTooBig, path, fmt.Sprintf("the list has %d parts: expected at most %d", len(items), maxItems),
			"Put what is alike into one line (count), and long records into a CSV file named in readings_from. The first are read, the rest are not.")
		items = items[:maxItems]
	}
	slice := reflect.MakeSlice(into.Type(), 0, len(items))
	for i, item := range items {
		part := reflect.New(into.Type().Elem()).Elem()
		if r.part(item, f, part, path+"["+strconv.Itoa(i)+"]") {
			slice = reflect.Append(slice, part)
		}
	}
	into.Set(slice)
}

// part reads one part of a list and tells whether it is kept.
func (r *reading) part(n *yaml.Node, f *field, into reflect.Value, path string) bool {
	if !r.hasNoShorthand(n, path) {
		return f.sub != nil
	}
	want := yaml.ScalarNode
	if f.sub != nil {
		want = yaml.MappingNode
	}
	if n.Kind != want || isNull(n) {
		one := *f
		one.list = false
		r.wrong(n, idWrongShape, path, fmt.Sprintf("a %s: expected %s", shapeOf(n), one.expected()), r.wrapped(&one, n))
		return f.sub != nil
	}
	if f.sub != nil {
		r.mapping(n, f.sub, into, path)
		return true
	}
	r.leaf(n, f, into, path)
	return written(into)
}

// join is the path of a key below a path.
func join(path, key string) string {
	if path == "" {
		return key
	}
	return path + "." + key
}

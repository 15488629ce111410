package scribe

import (
	"bytes"
	"errors"
	"fmt"
	"reflect"
	"slices"
	"strings"
	"time"

	"gylebook/internal/journal"
	"gylebook/internal/notice"
)

// Refusal is why something was not written. Notices say what could not be read,
// if that is why.
type Refusal struct {
	Reason  string
	Notices []notice.Notice
}

// Error says it in one line.
func (r *Refusal) Error() string { return r.Reason }

// Write puts a jotting into the bytes of an entry. It writes nothing to a disk.
// The error is a *Refusal where the entry or the jotting is why; see the package
// comment for what is looked at before an Edit is given.
func Write(file string, raw []byte, settings *journal.Settings, j Jotting) (*Edit, error) {
	before := journal.ReadFile(file, raw, settings)
	switch {
	case before.Gyle == nil:
		return nil, &Refusal{"it is not the entry of a gyle", before.Errors}
	case before.Gyle.Unread:
		return nil, &Refusal{"its front matter cannot be read", before.Errors}
	case len(j.Values) == 0:
		return nil, &Refusal{Reason: "there is nothing to write"}
	}
	o, err := journal.OutlineOf(raw)
	if err != nil {
		return nil, &Refusal{Reason: err.Error()}
	}
	if j = j.unsaid(o.Root); len(j.Values) == 0 {
		return nil, &Refusal{Reason: "the entry says all of that already"}
	}
	p := &page{raw: slices.Clone(raw)}
	if key := o.Root.Key(j.List); key != nil && key.Value.Shape == journal.Map {
		return nil, &Refusal{Reason: p.oneMap(key).Error()}
	}
	wanted := journal.ReadFileSet(file, raw, settings, j.sets(o.Root))
	bad := newErrors(before.Errors, wanted.Errors)
	if slices.ContainsFunc(bad, func(n notice.Notice) bool { return n.ID != "bad-set" }) {
		return nil, &Refusal{"that cannot be read", bad}
	}
	if err := p.write(j); err != nil {
		return nil, &Refusal{Reason: err.Error()}
	}
	if len(bad) > 0 {
		return nil, &Refusal{"that has no place in the entry", bad}
	}
	e := &Edit{File: file, Before: raw, After: p.raw, Remarks: j.Remarks, steps: p.steps}
	after := journal.ReadFile(file, e.After, settings)
	if err := e.check(before, wanted, after); err != nil {
		return nil, &Refusal{Reason: err.Error()}
	}
	return e, nil
}

// unsaid is the jotting without the values that the entry has just so.
func (j Jotting) unsaid(root *journal.Part) Jotting {
	if j.List != "" {
		return j
	}
	rest := Jotting{Remarks: j.Remarks}
	for _, v := range j.Values {
		part := partAt(root, stepsOf(v.Key))
		if part == nil || part.Shape != journal.Single || part.Blank || squash(part.Text) != squash(v.Text) {
			rest.Values = append(rest.Values, v)
			continue
		}
		rest.Remarks = append(rest.Remarks, fmt.Sprintf("%s says %s already.", v.Key, part.Text))
	}
	return rest
}

// partAt is what stands at the end of a path, nil for nothing.
func partAt(part *journal.Part, steps []step) *journal.Part {
	for _, s := range steps {
		switch key := part.Key(s.key); {
		case s.key == "" && part.Shape == journal.List && s.n < len(part.Parts):
			part = part.Parts[s.n]
		case s.key == "" && part.Shape == journal.Map && s.n == 0:
		case s.key != "" && key != nil:
			part = key.Value
		default:
			return nil
		}
	}
	return part
}

// squash is a value without blanks: 20L is 20 L.
func squash(text string) string { return strings.Join(strings.Fields(text), "") }

func (p *page) write(j Jotting) error {
	if j.List != "" {
		return p.add(j)
	}
	for _, v := range j.Values {
		if err := p.put(v); err != nil {
			return err
		}
	}
	return nil
}

// check looks again at what is about to be written.
func (e *Edit) check(before, wanted, after *journal.Document) error {
	switch {
	case !bytes.Equal(e.Undo(), e.Before):
		return errors.New("what would be added cannot be taken out again without a trace; write it by hand")
	case len(newErrors(before.Errors, after.Errors)) > 0 ||
		len(newErrors(after.Errors, before.Errors)) > 0 && !e.Replaces():
		return errors.New("the entry would then be read otherwise than before; write it by hand")
	case after.Gyle == nil:
		return errors.New("the entry would then be none; write it by hand")
	}
	if other := differs("", reflect.ValueOf(*wanted.Gyle), reflect.ValueOf(*after.Gyle)); other != "" {
		return fmt.Errorf("the entry would then say something else besides (%s); write it by hand", other[1:])
	}
	return nil
}

// Replaces tells whether the edit puts anything in the place of what was there.
func (e *Edit) Replaces() bool {
	for _, step := range e.steps {
		if slices.ContainsFunc(step, func(in insertion) bool { return in.gone != "" }) {
			return true
		}
	}
	return false
}

// newErrors is those of after that before does not have as often.
func newErrors(before, after []notice.Notice) []notice.Notice {
	type kind struct{ id, of string }
	old := map[kind]int{}
	for _, n := range before {
		old[kind{n.ID, n.Of}]++
	}
	var fresh []notice.Notice
	for _, n := range after {
		if old[kind{n.ID, n.Of}]--; old[kind{n.ID, n.Of}] < 0 {
			fresh = append(fresh, n)
		}
	}
	return fresh
}

var (
	whereType = reflect.TypeFor[journal.Where]()
	entryType = reflect.TypeFor[journal.Entry]()
	timeType  = reflect.TypeFor[time.Time]()
)

// differs is the name of the first value that two entries do not say alike,
// wherever it stands in them; "" where they do.
func differs(name string, a, b reflect.Value) string {
	switch {
	case a.Type() == whereType:
		if a.Interface().(journal.Where).Written() == b.Interface().(journal.Where).Written() {
			return ""
		}
	case a.Type() == timeType:
		if a.Interface().(time.Time).Equal(b.Interface().(time.Time)) {
			return ""
		}
	case a.Type() == entryType:
		// The rest of it is about the file's bytes, which do differ.
		x, y := a.Interface().(journal.Entry), b.Interface().(journal.Entry)
		if x.File == y.File && x.Body == y.Body && x.Unread == y.Unread {
			return ""
		}
	case a.Kind() == reflect.Struct:
		for i := range a.NumField() {
			field := a.Type().Field(i).Name
			if found := differs(name+"."+field, a.Field(i), b.Field(i)); found != "" {
				return found
			}
		}
		return ""
	case a.Kind() == reflect.Slice && a.Len() == b.Len():
		for i := range a.Len() {
			if found := differs(fmt.Sprintf("%s[%d]", name, i), a.Index(i), b.Index(i)); found != "" {
				return found
			}
		}
		return ""
	case a.Kind() != reflect.Slice && a.Interface() == b.Interface():
		return ""
	}
	return name
}

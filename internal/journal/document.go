package journal

import (
	"bytes"
	"cmp"
	"crypto/sha256"
	"fmt"
	"reflect"
	"slices"
	"strings"
	"time"

	"go.yaml.in/yaml/v4"

	"gylebook/internal/notice"
)

// Document is one Markdown file of the journal, read. Exactly one of Gyle,
// Card, Note and Settings is set; none is where the file must not be published,
// because it could not be told what it is or where its front matter ends.
type Document struct {
	File     string // slash path relative to the journal
	Hash     [32]byte
	Gyle     *Gyle
	Card     *Card
	Note     *Note
	Settings *Settings
	// Errors is everything in the file that could not be read, in its order.
	Errors []notice.Notice
}

// Withheld tells that the file must not be published.
func (d *Document) Withheld() bool { return d.Entry() == nil }

// Entry is what every kind of document has, nil where it is withheld.
func (d *Document) Entry() *Entry {
	switch {
	case d.Gyle != nil:
		return &d.Gyle.Entry
	case d.Card != nil:
		return &d.Card.Entry
	case d.Note != nil:
		return &d.Note.Entry
	case d.Settings != nil:
		return &d.Settings.Entry
	}
	return nil
}

// ReadFile reads one file, given its path in the journal, its bytes and the
// journal's settings (nil for those of a journal without any). It is a pure
// function: it opens nothing and looks at no clock, and any bytes give a
// document.
func ReadFile(name string, raw []byte, settings *Settings) *Document {
	return ReadFileSet(name, raw, settings, nil)
}

// ReadFileSet is ReadFile after applying sets, each KEY=VALUE, to what was
// parsed and before it is read: the answer to a what-if. The package comment
// has the form of the paths. Values from a set have the file "--set" and the
// number of the set as their line.
func ReadFileSet(name string, raw []byte, settings *Settings, sets []string) *Document {
	return guarded(name, raw, func() *Document { return readFileSet(name, raw, settings, sets) })
}

// guarded is what read makes of a file, or where that breaks down, a document that says so.
func guarded(name string, raw []byte, read func() *Document) (d *Document) {
	defer func() {
		if thrown := recover(); thrown != nil {
			d = &Document{File: name, Hash: sha256.Sum256(raw), Errors: []notice.Notice{ourFault(name, thrown)}}
		}
	}()
	return read()
}

func readFileSet(name string, raw []byte, settings *Settings, sets []string) *Document {
	if settings == nil {
		settings = defaultSettings()
	}
	d := &Document{File: name, Hash: sha256.Sum256(raw)}
	r := &reading{file: name, settings: settings, zone: cmp.Or(settings.Zone, time.UTC), sets: sets}
	if len(raw) > maxFile {
		r.report(notice.Place{File: name}, idTooBig, "",
			fmt.Sprintf("the file has %d KiB: expected at most %d", len(raw)>>10, maxFile>>10),
			"Move long records into a CSV file and name it in readings_from.")
	} else {
		r.document(raw, d)
	}
	slices.SortStableFunc(r.errors, func(a, b notice.Notice) int { return a.Place.Compare(b.Place) })
	d.Errors = r.errors
	if d.Gyle != nil {
		d.Gyle.NotRead, d.Gyle.Asides = r.notRead(), r.asides
	}
	return d
}

// ourFault is told in place of a document that this program broke down over: the rest of the
// journal stands.
func ourFault(name string, thrown any) notice.Notice {
	return notice.Fault(notice.Place{File: name, Line: 1, Column: 1}, "reading this file", thrown)
}

// document reads the whole of a file.
func (r *reading) document(raw []byte, d *Document) {
	r.source = raw
	text := r.clean(raw)
	r.source = text
	f := r.split(text)
	entry := Entry{File: d.File, Hash: d.Hash}
	switch {
	case !f.ok && f.close == 0:
		return // unclosed, or of another kind: no telling where the story starts
	case f.open == 0:
		entry.Body, entry.BodyLine = string(f.body), 1
		d.Note = &Note{Entry: entry}
		return
	}
	var root *yaml.Node
	if f.ok {
		root = r.parse(text, &f)
	}
	entry.Body, entry.BodyLine = string(f.body), f.bodyLine()
	entry.Front = sha256.Sum256(bytes.TrimSuffix(text, f.body))
	switch {
	case root == nil && len(r.errors) > 0 && f.unread(r.errors):
		entry.Unread = true
		r.rescue(f, entry, d)
	case root == nil && len(r.sets) == 0:
		d.Note = &Note{Entry: entry}
	default:
		r.decide(r.apply(root), entry, d)
	}
}

// isDeciding tells whether a key says what a file is.
func isDeciding(key string) bool { return key == "gyle" || key == "card" || key == "journal" }

// decide tells what the file is by its first deciding key, and reads it.
func (r *reading) decide(root *yaml.Node, entry Entry, d *Document) {
	if root.Kind != yaml.MappingNode || !r.hasNoShorthand(root, "") {
		r.wrong(root, idWrongShape, "", "the front matter is a "+shapeOf(root)+": expected keys with their values",
			"Write key: value, one on a line.")
		return
	}
	for i := 0; i+1 < len(root.Content); i += 2 {
		switch root.Content[i].Value {
		case "gyle":
			d.Gyle = &Gyle{Entry: entry}
			r.brewed = r.brewDay(root)
			r.mapping(root, plans().gyle, reflect.ValueOf(d.Gyle).Elem(), "")
			return
		case "card":
			r.card(root, root.Content[i+1], entry, d)
			return
		case "journal":
			d.Settings = r.readSettings(root, entry)
			return
		}
	}
	r.note(root, entry, d)
}

// brewDay is the day of brewing that an entry gives, "" where it gives none that
// can be read: times without a day are likely to be of it.
func (r *reading) brewDay(root *yaml.Node) string {
	for i := 0; i+1 < len(root.Content); i += 2 {
		if root.Content[i].Value != "brewed" {
			continue
		}
		if t, _, err := ParseMoment(strings.TrimSpace(root.Content[i+1].Value), r.zone); err == nil {
			return t.Format(time.DateOnly)
		}
	}
	return ""
}

// card reads a card of the kind that its card key names.
func (r *reading) card(root, kind *yaml.Node, entry Entry, d *Document) {
	known := plans().kinds
	if kind.Kind != yaml.ScalarNode || !slices.Contains(known, kind.Value) {
		says := fmt.Sprintf("%s is no kind of card: expected one of %s", quote(kind.Value), strings.Join(known, ", "))
		r.wrong(kind, idUnknownWord, "card", says, writeIfMeant(nearest(kind.Value, known)))
		return
	}
	d.Card = r.cardOf(root, kind.Value, entry)
}

// cardOf reads a card of a known kind.
func (r *reading) cardOf(root *yaml.Node, kind string, entry Entry) *Card {
	card := &Card{Entry: entry}
	v := reflect.ValueOf(card).Elem()
	facts := v.FieldByIndex(factsOf(v.Type(), kind).Index)
	facts.Set(reflect.New(facts.Type().Elem()))
	r.mapping(root, plans().cards[kind], v, "")
	return card
}

// note reads an article. Front matter with a key that no note has, and nothing
// that says what else the file is, is not published: it may be a gyle whose
// first key was mistyped.
func (r *reading) note(root *yaml.Node, entry Entry, d *Document) {
	p := plans().note
	for i := 0; i+1 < len(root.Content); i += 2 {
		key := root.Content[i]
		if _, ok := p.byKey[key.Value]; ok && key.Kind == yaml.ScalarNode {
			continue
		}
		r.undecided(root, key)
		return
	}
	d.Note = &Note{Entry: entry}
	r.mapping(root, p, reflect.ValueOf(d.Note).Elem(), "")
}

// undecided reports front matter that does not say what the file is.
func (r *reading) undecided(root, unknown *yaml.Node) {
	says := fmt.Sprintf("%s is no key of a note, and no gyle, card or journal key says what else this file is",
		quote(unknown.Value))
	do := "Add gyle: and its number, card: and its kind, or journal: and its title."
	for i := 0; i+1 < len(root.Content); i += 2 {
		if near := nearest(root.Content[i].Value, []string{"gyle", "card", "journal"}); near != "" {
			unknown, do = root.Content[i], writeIfMeant(near)
			says = fmt.Sprintf("%s is no key, and no gyle, card or journal key says what this file is",
				quote(unknown.Value))
			break
		}
	}
	r.wrong(unknown, idNoDecidingKey, "", says, do)
}

// unread tells whether the errors so far mean that the front matter is lost.
func (f frontMatter) unread(errors []notice.Notice) bool {
	return slices.ContainsFunc(errors, func(n notice.Notice) bool {
		return n.ID == idNotYAML || n.ID == idAlias || n.ID == idFence || n.ID == idTooBig
	})
}

// rescue finds out what a file is whose front matter is no YAML, line by line,
// so that it can have a page with the error and the story. Of a gyle only what
// names it and what keeps it back is taken; of the settings every line that
// stands by itself, since all the journal rests on them.
func (r *reading) rescue(f frontMatter, entry Entry, d *Document) {
	quiet := &reading{file: r.file, source: r.source, offset: f.open, settings: r.settings, zone: r.zone}
	root := quiet.standaloneLines(f.text)
	var found Document
	quiet.decide(root, entry, &found)
	switch {
	case found.Gyle != nil:
		g := found.Gyle
		d.Gyle = &Gyle{Entry: entry, Number: g.Number, Beer: g.Beer, Formerly: g.Formerly, Brewed: g.Brewed,
			Draft: g.Draft}
	case found.Card != nil:
		d.Card = found.Card
	case found.Settings != nil:
		d.Settings = found.Settings
	}
}

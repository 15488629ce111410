package journal

import (
	"encoding/json"
	"slices"
	"strings"
)

// schema is the part of JSON Schema 2020-12 that the vocabulary needs.
type schema struct {
	Schema      string             `json:"$schema,omitempty"`
	ID          string             `json:"$id,omitempty"`
	Title       string             `json:"title,omitempty"`
	Description string             `json:"description,omitempty"`
	Ref         string             `json:"$ref,omitempty"`
	Type        types              `json:"type,omitempty"`
	Const       string             `json:"const,omitempty"`
	Enum        []any              `json:"enum,omitempty"`
	Pattern     string             `json:"pattern,omitempty"`
	Minimum     *int               `json:"minimum,omitempty"`
	Maximum     *int               `json:"maximum,omitempty"`
	Properties  map[string]*schema `json:"properties,omitempty"`
	Additional  *bool              `json:"additionalProperties,omitempty"`
	Required    []string           `json:"required,omitempty"`
	Items       *schema            `json:"items,omitempty"`
	AnyOf       []*schema          `json:"anyOf,omitempty"`
	If          *schema            `json:"if,omitempty"`
	Then        *schema            `json:"then,omitempty"`
	Else        *schema            `json:"else,omitempty"`
	Examples    []any              `json:"examples,omitempty"`
	Defs        defs               `json:"$defs,omitempty"`
}

// types is the types that a value may have.
type types []string

// Schema is the vocabulary of the front matter of every kind of file as JSON
// Schema 2020-12, for editors that check while one types. It accepts what the
// reader accepts, as far as a schema can tell: it cannot see which of two keys
// came first, whether a month has a day, or whether a range runs upward.
func Schema() []byte {
	text, err := json.MarshalIndent(fileSchema(), "", "  ")
	if err != nil {
		return nil // a schema of strings and numbers always has a text
	}
	return append(text, '\n')
}

// defs is the parts of a schema that others refer to.
type defs map[string]*schema

// ref is a reference to a part, which make makes if it is not there yet.
func (d defs) ref(name string, make func() *schema) *schema {
	if d[name] == nil {
		d[name] = make()
	}
	return &schema{Ref: "#/$defs/" + name}
}

// fileSchema chooses by the deciding key.
func fileSchema() *schema {
	set, d := plans(), defs{}
	whole := func(name string, p *plan) *schema {
		return d.ref(name, func() *schema { return p.schema(d, name) })
	}
	card := &schema{Properties: map[string]*schema{"card": {Enum: anyOf(set.kinds)}}}
	rest := card
	for _, kind := range set.kinds {
		rest.If = &schema{Properties: map[string]*schema{"card": {Const: kind}}}
		rest.Then = whole(kind+"-card", set.cards[kind])
		rest.Else = &schema{}
		rest = rest.Else
	}
	return &schema{
		Schema: "https://json-schema.org/draft/2020-12/schema", ID: "urn:gylebook:front-matter",
		Title:       "gylebook front matter",
		Description: "What may stand between the two lines of --- in a file of a gyle book.",
		Type:        types{"object", "null"},
		If:          has("gyle"), Then: whole("gyle", set.gyle),
		Else: &schema{
			If: has("card"), Then: card,
			Else: &schema{If: has("journal"), Then: whole("settings", set.settings), Else: whole("note", set.note)},
		},
		Defs: d,
	}
}

// has holds for a map with a key.
func has(key string) *schema { return &schema{Type: types{"object"}, Required: []string{key}} }

// null is a key with nothing after its colon, which counts as not written.
func null() *schema { return &schema{Type: types{"null"}} }

// schema is the plan's map.
func (p *plan) schema(d defs, name string) *schema {
	closed := false
	s := &schema{Type: types{"object", "null"}, Properties: map[string]*schema{}, Additional: &closed}
	for i := range p.fields {
		f := &p.fields[i]
		if f.key == "" {
			continue
		}
		s.Properties[f.key] = f.schema(d, name+"-"+f.key)
		if f.needed {
			s.Required = append(s.Required, f.key)
		}
	}
	slices.Sort(s.Required)
	return s
}

// schema is what may stand under the field's key.
func (f *field) schema(d defs, name string) *schema {
	switch {
	case f.sub != nil:
		return f.mapSchema(d, name)
	case !f.list:
		s := f.leafSchema(d)
		s.Description = f.says
		if f.needed {
			s.refuseNull()
		}
		return s
	}
	item := f.leafSchema(d)
	item.refuseNull()
	return &schema{Description: f.says, Type: types{"array", "null"}, Items: item}
}

// refuseNull takes the blank from what a value may be.
func (s *schema) refuseNull() {
	s.Type = slices.DeleteFunc(s.Type, func(t string) bool { return t == "null" })
	s.Enum = slices.DeleteFunc(s.Enum, func(v any) bool { return v == nil })
}

// mapSchema is a map or its short form, or a list of maps, of which one map may
// stand for a list of one.
func (f *field) mapSchema(d defs, name string) *schema {
	one := d.ref(name, func() *schema {
		s := f.sub.schema(d, name)
		s.Type = types{"object"}
		return s
	})
	s := &schema{Description: f.says, AnyOf: []*schema{one, null()}}
	if f.list {
		s.AnyOf = append(s.AnyOf, &schema{Type: types{"array"}, Items: one})
	}
	if f.sub.short >= 0 {
		s.AnyOf = append(s.AnyOf, &schema{Enum: anyOf(f.sub.fields[f.sub.short].choices)})
	}
	return s
}

// leafSchema is a single value of the field, or a blank.
func (f *field) leafSchema(d defs) *schema {
	switch f.leaf.name {
	case "quantity", "range":
		return f.quantitySchema(d)
	case "choice":
		return &schema{Enum: append(anyOf(f.choices), nil)}
	case "flag":
		return &schema{Enum: []any{true, false, "true", "false", "yes", "no", "Yes", "No", nil}}
	case "whole number":
		largest := 999_999_999
		return &schema{
			Type: types{"integer", "string", "null"}, Pattern: `^\s*[0-9]{1,9}\s*$`,
			Minimum: &f.least, Maximum: &largest,
		}
	case "moment":
		return &schema{Type: types{"string", "null"}, Pattern: momentPattern, Examples: []any{f.example()}}
	case "money":
		return &schema{Type: types{"string", "null"}, Pattern: moneyPattern, Examples: []any{f.example()}}
	}
	return &schema{Type: types{"string", "number", "boolean", "null"}}
}

// quantitySchema refers to the one description of its kind of quantity.
func (f *field) quantitySchema(d defs) *schema {
	make := func() *schema {
		s := &schema{Type: types{"string", "null"}, Pattern: quantityPattern(f), Examples: []any{f.leaf.kind.Example}}
		if f.leaf.kind.Bare != nil {
			s.Type = types{"string", "number", "null"}
		}
		return s
	}
	name := strings.ReplaceAll(f.leaf.kind.Name, " ", "-")
	if f.leaf.name == "range" {
		name = "range-of-" + name
	}
	if f.none != "" {
		name += "-or-none"
	}
	return d.ref(name, make)
}

func anyOf(words []string) []any {
	all := make([]any, len(words))
	for i, w := range words {
		all[i] = w
	}
	return all
}

package journal

import (
	"bytes"
	"encoding/json"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/santhosh-tekuri/jsonschema/v6"
	"go.yaml.in/yaml/v4"

	"gylebook/internal/quantity"
)

// compiled is the schema, checked against the meta-schema of 2020-12.
func compiled(t testing.TB) *jsonschema.Schema {
	t.Helper()
	document, err := jsonschema.UnmarshalJSON(bytes.NewReader(Schema()))
	if err != nil {
		t.Fatal(err)
	}
	c := jsonschema.NewCompiler()
	c.DefaultDraft(jsonschema.Draft2020)
	meta, err := c.Compile("https://json-schema.org/draft/2020-12/schema")
	if err != nil {
		t.Fatal(err)
	}
	if err := meta.Validate(document); err != nil {
		t.Fatalf("against the meta-schema: %v", err)
	}
	if err := c.AddResource("urn:gylebook:front-matter", document); err != nil {
		t.Fatal(err)
	}
	s, err := c.Compile("urn:gylebook:front-matter")
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// instance is a front matter as an editor sees it: numbers and booleans by the
// rules of YAML 1.2, everything else words.
func instance(n *yaml.Node) any {
	switch {
	case n == nil || isNull(n):
		return nil
	case n.Kind == yaml.MappingNode:
		m := map[string]any{}
		for i := 0; i < len(n.Content); i += 2 {
			m[n.Content[i].Value] = instance(n.Content[i+1])
		}
		return m
	case n.Kind == yaml.SequenceNode:
		list := []any{}
		for _, part := range n.Content {
			list = append(list, instance(part))
		}
		return list
	case n.Tag == "!!bool":
		return n.Value == "true"
	case (n.Tag == "!!int" || n.Tag == "!!float") && regexp.MustCompile(`^-?[0-9]+(\.[0-9]+)?$`).MatchString(n.Value):
		return json.Number(n.Value)
	}
	return n.Value
}

// TestSchemaAccepts what the reader reads.
func TestSchemaAccepts(t *testing.T) {
	s := compiled(t)
	for _, f := range everyKey(t) {
		if err := s.Validate(instance(frontOf(t, f.data))); err != nil {
			t.Errorf("%s: %v", f.name, err)
		}
	}
	for _, text := range []string{
		"{}", "{title: x}", "{gyle: 1, beer: x, hops: {hop: goldings}}",
		"{gyle: 1, beer: 1926, hops: , aim: {og: 10.2 P, fg: }}",
		"{journal: x, units: uk}", "{gyle: 1, beer: x, copper: {boiled: none}}",
		"{gyle: 1, beer: x, yeast: [{yeast: y, cells: 20e9 cells}]}",
		"{gyle: 1, beer: x, draft: yes, label: {vegan: No}, hops: [{hop: goldings, weight: 1/2 oz}]}",
		"{gyle: 1, beer: x, aim: {volume: 20.5 ± 0.5 L, colour: 11 srm, og: 1.041 +/- 0.001}, grist: [{malt: m, " +
			"weight: 1lb4oz}]}",
	} {
		if err := s.Validate(instance(parsed(t, text))); err != nil {
			t.Errorf("%s: %v", text, err)
		}
	}
}

func parsed(t testing.TB, text string) *yaml.Node {
	t.Helper()
	n, err := parseTree([]byte(text))
	if err != nil {
		t.Fatal(err)
	}
	return n
}

// TestSchemaRefuses what the reader refuses.
func TestSchemaRefuses(t *testing.T) {
	s := compiled(t)
	for _, text := range []string{
		"[]", "{hops: []}", "{gyle: 1}", "{gyle: , beer: x}", "{gyle: 0, beer: x}", "{gyle: 1.5, beer: x}",
		"{gyle: 1, beer: x, bere: y}", "{gyle: 1, beer: [x]}",
		"{gyle: 1, beer: x, aim: {volume: 20}}", "{gyle: 1, beer: x, aim: {volume: 20 gal}}",
		"{gyle: 1, beer: x, aim: {volume: '20,5 L'}}", "{gyle: 1, beer: x, brewed: 2026}",
		"{gyle: 1, beer: x, brewed: 2026-13-01}", "{gyle: 1, beer: x, costs: [{paid: 3.80}]}",
		"{gyle: 1, beer: x, yeast: [{sold: fresh}]}", "{gyle: 1, beer: x, draft: perhaps}",
		"{gyle: 1, beer: x, hops: [goldings]}", "{gyle: 1, beer: x, tags: cask}", "{gyle: 1, beer: x, tags: [, ]}",
		"{card: malt}", "{card: beer, name: x}", "{card: hop, name: x, colour: 3 EBC}",
		"{journal: x, units: dutch}",
	} {
		n, err := parseTree([]byte(text))
		if err != nil {
			continue // not even YAML, as [, ]
		}
		refusedByReader := len(ReadFile("index.md", []byte("---\n"+text+"\n---\n"), nil).Errors) > 0
		if err := s.Validate(instance(n)); err == nil || !refusedByReader {
			t.Errorf("%s: the schema says %v, the reader refuses it: %v", text, err, refusedByReader)
		}
	}
}

// TestSchemaIsSteady: made twice, it is the same bytes.
func TestSchemaIsSteady(t *testing.T) {
	if !bytes.Equal(Schema(), Schema()) {
		t.Error("two schemas")
	}
}

// TestPatternsAgree holds the patterns to the parser on every unit of every
// kind, in many spellings: what one accepts, the other does.
func TestPatternsAgree(t *testing.T) {
	parsers := map[string]func(string) error{
		"volume": parses[quantity.Volume], "weight": parses[quantity.Mass], "temperature": parses[quantity.Temperature],
		"gravity":        parses[quantity.Gravity],
		"length of time": parses[quantity.Duration], "percentage": parses[quantity.Percent],
		"bitterness": parses[quantity.Bitterness], "colour": parses[quantity.Colour],
		"extract": parses[quantity.Extract], "amount of carbon dioxide": parses[quantity.Carbonation],
		"pressure": parses[quantity.Pressure],
		"height":   parses[quantity.Height], "pressure of the air": parses[quantity.AirPressure],
		"concentration": parses[quantity.Concentration], "count of cells": parses[quantity.Cells],
		"density of cells": parses[quantity.CellDensity],
		"pH":               parses[quantity.Acidity], "refractometer reading": parses[quantity.Brix],
		"number": parses[quantity.Number],
	}
	for _, k := range quantity.AllKinds() {
		pattern := regexp.MustCompile(quantityPattern(&field{leaf: leafShape{name: "quantity", kind: k}}))
		for _, u := range k.Units {
			for _, spelling := range slices.Concat([]string{u.Symbol}, u.Also) {
				for _, form := range []string{
					"1.5 U", "1.5U", " 1.5  U ", "-2 U", "−2 U", "+2 U", "2. U", ".5 U", "1e3 U", "20e9 U",
					"1.5 ± 0.5 U", "1.5 U ± 0.5 U", "1.5U+/-0.5U", "1.5 +- 0.5 U",
					"1.5", "1.5 ± 0.1", "U", "1,5 U", "1.5 U U", "1.5 U ±", "± 1 U", "one U", "1.5 Ux", "", "1.5 U 2",
					"1..5 U", "1e U", "0x10 U", "½ U", "2½U", "2 ½ U", "1/2 U", "2 1/2 U", "½", "1/2", "½½ U",
					"1/ U",
				} {
					for _, text := range []string{strings.ReplaceAll(form, "U", spelling),
						strings.ReplaceAll(form, "U", strings.ToUpper(spelling))} {
						err := parsers[k.Name](strings.TrimSpace(text))
						if got := pattern.MatchString(text); got != (err == nil) {
							t.Errorf("%s %q: the pattern says %v, the parser %v", k.Name, text, got, err)
						}
					}
				}
			}
		}
	}
}

func parses[Q quantity.Quantity](text string) error {
	_, err := quantity.Parse[Q](text)
	return err
}

package figures

import (
	"go/ast"
	"go/parser"
	"go/token"
	"os"
	"strings"
	"testing"
)

// declaredDoubts are the doubts that the package declares, each by the words for
// its kind of reading, and those without such words outside of doubts.go, by their
// place.
func declaredDoubts(t *testing.T) (declared map[string]string, unnamed []string) {
	t.Helper()
	declared = map[string]string{}
	files, err := os.ReadDir(".")
	if err != nil {
		t.Fatal(err)
	}
	set := token.NewFileSet()
	for _, file := range files {
		if !strings.HasSuffix(file.Name(), ".go") || strings.HasSuffix(file.Name(), "_test.go") {
			continue
		}
		parsed, err := parser.ParseFile(set, file.Name(), nil, 0)
		if err != nil {
			t.Fatal(err)
		}
		ast.Inspect(parsed, func(n ast.Node) bool {
			literal, ok := n.(*ast.CompositeLit)
			if !ok {
				return true
			}
			if kind, ok := literal.Type.(*ast.Ident); !ok || kind.Name != "doubt" || len(literal.Elts) == 0 {
				return true
			}
			named := false
			for _, e := range literal.Elts {
				if kv := e.(*ast.KeyValueExpr); kv.Key.(*ast.Ident).Name == "of" {
					declared[strings.Trim(kv.Value.(*ast.BasicLit).Value, `"`)] = file.Name()
					named = true
				}
			}
			if !named && file.Name() != "doubts.go" {
				unnamed = append(unnamed, set.Position(literal.Pos()).String())
			}
			return true
		})
	}
	return declared, unnamed
}

// TestDoubtsAreListed: every default doubt is in the list that readers see, with
// its width and reason. Those made from an instrument's card, or from two of the
// list, are no defaults.
func TestDoubtsAreListed(t *testing.T) {
	declared, unnamed := declaredDoubts(t)
	if len(declared) < 20 {
		t.Errorf("only %d doubts are declared", len(declared))
	}
	for _, d := range Doubts() {
		if declared[d.Reading] == "" {
			t.Errorf("%q is listed and nowhere declared", d.Reading)
		}
		if !strings.HasPrefix(d.HalfWidth, "± ") || !strings.Contains(d.Reason, "common practice, no source") {
			t.Errorf("%s: %q because %q", d.Reading, d.HalfWidth, d.Reason)
		}
		delete(declared, d.Reading)
	}
	for reading := range declared {
		t.Errorf("%q is declared and not listed", reading)
	}
	for _, place := range unnamed {
		if !strings.HasPrefix(place, "instruments.go") && !strings.HasPrefix(place, "asked.go") {
			t.Errorf("%s: a doubt of its own", place)
		}
	}
}

func TestDoubtsInWords(t *testing.T) {
	for want, d := range map[string]doubt{
		"± 0.25 L, or 1 % of it where that is more": ofVolume,
		"± 5 mL, or 2 % of it where that is more":   ofFill,
		"± 0.0005 SG":  ofHydrometer,
		"± 25 % of it": ofVariety,
		"± 0.1":        ofPH,
	} {
		if got := d.words(); got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
}

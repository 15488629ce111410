package brewing

import (
	"go/ast"
	"go/parser"
	"go/token"
	"os"
	"strings"
	"testing"
)

// exportedFunctions are the exported functions of the package with their doc
// comments, methods apart from Error and those of quantities' fields left out.
func exportedFunctions(t *testing.T) map[string]string {
	t.Helper()
	files, err := os.ReadDir(".")
	if err != nil {
		t.Fatal(err)
	}
	docs := map[string]string{}
	for _, file := range files {
		if !strings.HasSuffix(file.Name(), ".go") || strings.HasSuffix(file.Name(), "_test.go") {
			continue
		}
		parsed, err := parser.ParseFile(token.NewFileSet(), file.Name(), nil, parser.ParseComments)
		if err != nil {
			t.Fatal(err)
		}
		for _, d := range parsed.Decls {
			if f, ok := d.(*ast.FuncDecl); ok && f.Name.IsExported() && f.Name.Name != "Error" {
				docs[f.Name.Name] = f.Doc.Text()
			}
		}
	}
	return docs
}

// TestEveryFormulaIsListed: a function that is not in formulas is not tested
// outside its range.
func TestEveryFormulaIsListed(t *testing.T) {
	listed := map[string]bool{}
	for _, f := range formulas() {
		listed[f.name] = true
	}
	for name := range exportedFunctions(t) {
		if !listed[name] {
			t.Errorf("%s is not in formulas()", name)
		}
		delete(listed, name)
	}
	for name := range listed {
		t.Errorf("%s is in formulas() and not in the package", name)
	}
}

// TestEveryFormulaNamesItsSource, be it a definition.
func TestEveryFormulaNamesItsSource(t *testing.T) {
	for name, doc := range exportedFunctions(t) {
		if !strings.Contains(doc, "Source: ") && !strings.Contains(doc, "the inverse of") {
			t.Errorf("%s names no source", name)
		}
	}
}

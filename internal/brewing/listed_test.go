package brewing

import (
	"go/ast"
	"go/parser"
	"go/token"
	"os"
	"strings"
	"testing"
)

// rangeless are an error's text, and sums of what a container holds, which are good
// for any that could be filled.
var rangeless = map[string]bool{"Error": true, "MolesOf": true, "Volumes": true, "InAll": true, "Between": true,
	"Mass": true}

// exportedFunctions are the exported functions of the package with their doc
// comments, a method's with its type's, those apart that hold for whatever they are
// given.
func exportedFunctions(t *testing.T) map[string]string {
	t.Helper()
	files, err := os.ReadDir(".")
	if err != nil {
		t.Fatal(err)
	}
	docs, types := map[string]string{}, map[string]string{}
	var methods []*ast.FuncDecl
	for _, file := range files {
		if !strings.HasSuffix(file.Name(), ".go") || strings.HasSuffix(file.Name(), "_test.go") {
			continue
		}
		parsed, err := parser.ParseFile(token.NewFileSet(), file.Name(), nil, parser.ParseComments)
		if err != nil {
			t.Fatal(err)
		}
		for _, d := range parsed.Decls {
			switch d := d.(type) {
			case *ast.GenDecl:
				if of, ok := d.Specs[0].(*ast.TypeSpec); ok {
					types[of.Name.Name] = d.Doc.Text()
				}
			case *ast.FuncDecl:
				if d.Name.IsExported() && !rangeless[d.Name.Name] {
					docs[d.Name.Name] = d.Doc.Text()
					methods = append(methods, d)
				}
			}
		}
	}
	for _, m := range methods {
		if m.Recv != nil {
			docs[m.Name.Name] += types[m.Recv.List[0].Type.(*ast.Ident).Name]
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

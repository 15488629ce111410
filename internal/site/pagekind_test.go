package site

import (
	"go/ast"
	"go/parser"
	"go/token"
	"path/filepath"
	"reflect"
	"strings"
	"testing"
)

// TestPagesAreDeclaredSoundly holds the declarations together: no two pages share a
// place or a word of the menu, and every page belongs to one that is in it.
func TestPagesAreDeclaredSoundly(t *testing.T) {
	inMenu, taken := map[string]bool{}, map[any]string{}
	for _, k := range menuPages() {
		inMenu[k.path] = true
		for _, mark := range []any{k.menu.place, k.menu.word} {
			if taken[mark] != "" {
				t.Errorf("%s and %s are both %v in the menu", k.path, taken[mark], mark)
			}
			taken[mark] = k.path
		}
	}
	seen := map[[2]string]bool{}
	for _, k := range declared {
		if seen[[2]string{k.path, k.template}] {
			t.Errorf("%s is declared twice with %q", k.path, k.template)
		}
		seen[[2]string{k.path, k.template}] = true
		if k.template != "" && k.path != notFoundPath && k.path != front && !inMenu[k.path] && !inMenu[k.under] {
			t.Errorf("%s is under %q, which is not in the menu", k.path, k.under)
		}
	}
}

// TestTheStructOfAPageNamesItsTemplate holds what templates are given to be found by
// whoever replaces one: go doc shows it beside the template's name.
func TestTheStructOfAPageNamesItsTemplate(t *testing.T) {
	says := typeComments(t)
	for name, empty := range pageTemplates() {
		of := reflect.TypeOf(empty).Elem().Name()
		if !strings.HasPrefix(says[of], of+" is "+name) {
			t.Errorf("the comment of %s does not begin with “%s is %s”", of, of, name)
		}
	}
}

// typeComments are the comments of this package's types, by name.
func typeComments(t *testing.T) map[string]string {
	says := map[string]string{}
	files, err := filepath.Glob("*.go")
	if err != nil {
		t.Fatal(err)
	}
	for _, file := range files {
		parsed, err := parser.ParseFile(token.NewFileSet(), file, nil, parser.ParseComments)
		if err != nil {
			t.Fatal(err)
		}
		for _, d := range parsed.Decls {
			if g, ok := d.(*ast.GenDecl); ok && g.Tok == token.TYPE {
				says[g.Specs[0].(*ast.TypeSpec).Name.Name] = g.Doc.Text()
			}
		}
	}
	return says
}

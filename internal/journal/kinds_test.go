package journal

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"path/filepath"
	"reflect"
	"slices"
	"strconv"
	"strings"
	"testing"

	"gylebook/internal/quantity"
)

// constantsOf is the constants of each string type that a file declares, by type.
func constantsOf(t *testing.T, file string) map[string][]string {
	t.Helper()
	tree, err := parser.ParseFile(token.NewFileSet(), file, nil, 0)
	if err != nil {
		t.Fatal(err)
	}
	all := map[string][]string{}
	ast.Inspect(tree, func(n ast.Node) bool {
		spec, ok := n.(*ast.ValueSpec)
		if !ok || spec.Type == nil {
			return true
		}
		word, err := strconv.Unquote(spec.Values[0].(*ast.BasicLit).Value)
		if err != nil {
			t.Fatal(err)
		}
		of := spec.Type.(*ast.Ident).Name
		all[of] = append(all[of], word)
		return true
	})
	return all
}

// TestKindsAreTheWords: each constant of a kind may be written under some key, and
// each word that may be written there is a constant.
func TestKindsAreTheWords(t *testing.T) {
	declared := constantsOf(t, "kinds.go")
	tagged := map[string][]string{}
	for _, of := range []reflect.Type{reflect.TypeFor[Gyle](), reflect.TypeFor[Card](), reflect.TypeFor[Settings](),
		reflect.TypeFor[Note]()} {
		choicesBelow(of, tagged)
	}
	delete(tagged, reflect.TypeFor[quantity.System]().Name())
	for kind, words := range tagged {
		for _, word := range words {
			if !slices.Contains(declared[kind], word) {
				t.Errorf("%q may be written, and is no constant of %s", word, kind)
			}
		}
	}
	for kind, words := range declared {
		for _, word := range words {
			if !slices.Contains(tagged[kind], word) {
				t.Errorf("%q is a constant of %s, and no key takes it", word, kind)
			}
		}
	}
}

// choicesBelow gathers the words of every choice below a type, by the choice's
// type of word.
func choicesBelow(of reflect.Type, into map[string][]string) {
	for i := range of.NumField() {
		f := of.Field(i)
		inner := f.Type
		for inner.Kind() == reflect.Slice || inner.Kind() == reflect.Pointer {
			inner = inner.Elem()
		}
		switch one := f.Tag.Get("one"); {
		case one != "":
			word, _ := inner.FieldByName("Word")
			into[word.Type.Name()] = append(into[word.Type.Name()], strings.Split(one, "|")...)
		case f.Tag.Get("key") != "" && inner.Kind() == reflect.Struct:
			choicesBelow(inner, into)
		}
	}
}

// TestNoBareWords: whoever asks for a word of a closed list, anywhere in the
// house, does it by its constant; a slip would not compile.
func TestNoBareWords(t *testing.T) {
	asked := 0
	for _, root := range []string{"../../internal", "../../cmd"} {
		err := filepath.WalkDir(root, func(name string, _ fs.DirEntry, err error) error {
			if err != nil || filepath.Ext(name) != ".go" || strings.HasSuffix(name, "_test.go") {
				return err
			}
			files := token.NewFileSet()
			tree, err := parser.ParseFile(files, name, nil, parser.SkipObjectResolution)
			if err != nil {
				return err
			}
			ast.Inspect(tree, func(n ast.Node) bool {
				for _, bare := range bareWords(n, &asked) {
					t.Errorf("%s: %s: say it by the constant of its kind", files.Position(bare.Pos()), bare.Value)
				}
				return true
			})
			return nil
		})
		if err != nil {
			t.Fatal(err)
		}
	}
	if asked < 100 {
		t.Errorf("only %d questions were found: this test no longer sees them", asked)
	}
}

// bareWords are the literals that a choice is held against in a call of Is, a
// comparison or a switch.
func bareWords(n ast.Node, asked *int) (bare []*ast.BasicLit) {
	against := func(exprs ...ast.Expr) {
		*asked += len(exprs)
		for _, e := range exprs {
			if lit, ok := e.(*ast.BasicLit); ok && lit.Kind == token.STRING && lit.Value != `""` {
				bare = append(bare, lit)
			}
		}
	}
	switch n := n.(type) {
	case *ast.CallExpr:
		if selects(n.Fun, "Is") {
			against(n.Args...)
		}
	case *ast.BinaryExpr:
		if selects(n.X, "Word") && (n.Op == token.EQL || n.Op == token.NEQ) {
			against(n.Y)
		}
	case *ast.SwitchStmt:
		for _, clause := range n.Body.List {
			if n.Tag != nil && selects(n.Tag, "Word") {
				against(clause.(*ast.CaseClause).List...)
			}
		}
	}
	return bare
}

func selects(e ast.Expr, name string) bool {
	s, ok := e.(*ast.SelectorExpr)
	return ok && s.Sel.Name == name
}

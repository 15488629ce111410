// Package house_test holds the whole house to its plan: which package may lean
// on which.
package house_test

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
)

const module = "gylebook/"

// floors lists the packages from the ground up. A package may use any on a floor
// below its own, none beside it and none above.
var floors = [][]string{
	{"internal/quantity", "internal/notice", "internal/tasting", "internal/chart", "internal/publish", "internal/store", "internal/parallel", "templates"},
	{"internal/brewing", "internal/journal"},
	{"internal/figures", "internal/scribe"},
	{"internal/assay"},
	{"internal/causes", "internal/planning"},
	{"internal/rules"},
	{"internal/proposals"},
	{"internal/book"},
	{"internal/site"},
	{"internal/live"},
	{"cmd/gylebook"},
}

// leansOnNothing are packages that use no other of ours at all, whatever the
// floors allow.
var leansOnNothing = []string{"internal/quantity", "internal/notice", "internal/tasting", "internal/chart", "internal/publish", "internal/store", "internal/parallel", "templates"}

// floorOf is the floor of a package; a package inside another, such as
// internal/site/markdown, stands on the same one and may be used by its parent.
func floorOf(pkg string) int {
	for i, floor := range floors {
		for _, p := range floor {
			if pkg == p || strings.HasPrefix(pkg, p+"/") {
				return i
			}
		}
	}
	return -1
}

func TestImportsPointOneWay(t *testing.T) {
	for file, imports := range importsOf(t, "..") {
		pkg := path.Dir(file)
		floor := floorOf(pkg)
		if floor < 0 {
			t.Errorf("%s: package %s is on no floor of the house; add it to floors and say in DEVELOPERS.md what its job is", file, pkg)
			continue
		}
		for _, used := range imports {
			if strings.HasPrefix(used, pkg+"/") {
				continue // a room's own cupboard
			}
			if slices.Contains(leansOnNothing, pkg) {
				t.Errorf("%s: %s leans on nothing of ours, but imports %s", file, pkg, used)
			}
			if below := floorOf(used); below >= floor && !sameRoom(pkg, used) {
				t.Errorf("%s: %s imports %s, which is not below it", file, pkg, used)
			}
		}
	}
}

// sameRoom tells whether both packages are cupboards of one room.
func sameRoom(a, b string) bool {
	room := func(pkg string) string { return strings.Join(strings.SplitN(pkg, "/", 3)[:2], "/") }
	return strings.HasPrefix(a, "internal/") && strings.HasPrefix(b, "internal/") && room(a) == room(b)
}

// importsOf is what each file that is not a test imports of this module, by slash
// path from root. It parses the files itself, so that a cached result is never
// believed.
func importsOf(t *testing.T, root string) map[string][]string {
	t.Helper()
	found := map[string][]string{}
	err := filepath.WalkDir(root, func(name string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		if d.IsDir() && (strings.HasPrefix(d.Name(), ".") && name != root || slices.Contains([]string{"testdata", "node_modules", "tools"}, d.Name())) {
			return filepath.SkipDir // the tools are a module of their own
		}
		if d.IsDir() || !strings.HasSuffix(name, ".go") || strings.HasSuffix(name, "_test.go") {
			return nil
		}
		file, err := parser.ParseFile(token.NewFileSet(), name, nil, parser.ImportsOnly)
		if err != nil {
			return err
		}
		rel, err := filepath.Rel(root, name)
		if err != nil {
			return err
		}
		rel = filepath.ToSlash(rel)
		found[rel] = nil
		for _, spec := range file.Imports {
			if p, err := strconv.Unquote(spec.Path.Value); err == nil && strings.HasPrefix(p, module) {
				found[rel] = append(found[rel], strings.TrimPrefix(p, module))
			}
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	if len(found) < 20 {
		t.Fatalf("only %d Go files found under %s: the test looks in the wrong place", len(found), root)
	}
	return found
}

// TestNoForbiddenRooms keeps out the rooms where things without a name gather.
func TestNoForbiddenRooms(t *testing.T) {
	for file := range importsOf(t, "..") {
		for _, part := range strings.Split(path.Dir(file), "/") {
			if slices.Contains([]string{"util", "utils", "common", "helper", "helpers", "misc", "shared"}, part) {
				t.Errorf("%s: a package named %s says nothing of its job", file, part)
			}
		}
	}
}

// TestFiguresAreAskedForByConstant: no code asks a sheet for a figure by a bare literal,
// in which a slip would find nothing and say nothing.
func TestFiguresAreAskedForByConstant(t *testing.T) {
	asks := regexp.MustCompile(`\.(Find|First)\("|\.ID [!=]= "(og|fg|abv|condition|losses|bitterness|colour|pints)`)
	for file := range importsOf(t, "..") {
		if strings.HasSuffix(file, "_test.go") {
			continue
		}
		raw, err := os.ReadFile(filepath.Join("..", file))
		if err != nil {
			t.Fatal(err)
		}
		if bare := asks.Find(raw); bare != nil {
			t.Errorf("%s: %s… is a bare literal; figures has the ids as constants", file, bare)
		}
	}
}

// TestTheGuidesWay holds the way of one gravity that DEVELOPERS.md tells to the code:
// each function that it names is there.
func TestTheGuidesWay(t *testing.T) {
	raw, err := os.ReadFile("../DEVELOPERS.md")
	if err != nil {
		t.Fatal(err)
	}
	_, way, _ := strings.Cut(string(raw), "## One gravity's way\n")
	way, _, _ = strings.Cut(way, "\n## ")
	named := 0
	for line := range strings.Lines(way) {
		cells := strings.Split(line, "|")
		if len(cells) < 4 {
			continue
		}
		for _, quoted := range regexp.MustCompile("`([^`]+)`").FindAllStringSubmatch(cells[2], -1) {
			named++
			if pkg := strings.TrimSpace(cells[1]); !functions(t, pkg)[quoted[1]] {
				t.Errorf("package %s has no function %s", pkg, quoted[1])
			}
		}
	}
	if named < 30 {
		t.Errorf("the guide names %d functions on the way of a gravity", named)
	}
}

// functions are those of a package, methods with the type that they are of.
func functions(t *testing.T, pkg string) map[string]bool {
	t.Helper()
	files, err := filepath.Glob(filepath.Join(pkg, "*.go"))
	if err != nil {
		t.Fatal(err)
	}
	all := map[string]bool{}
	for _, file := range files {
		parsed, err := parser.ParseFile(token.NewFileSet(), file, nil, parser.SkipObjectResolution)
		if err != nil {
			t.Fatal(err)
		}
		for _, d := range parsed.Decls {
			if f, ok := d.(*ast.FuncDecl); ok {
				all[receiver(f)+f.Name.Name] = true
			}
		}
	}
	return all
}

// receiver is the type that a method is of, with a dot; "" for a function.
func receiver(f *ast.FuncDecl) string {
	if f.Recv == nil {
		return ""
	}
	of := f.Recv.List[0].Type
	if star, ok := of.(*ast.StarExpr); ok {
		of = star.X
	}
	switch generic := of.(type) {
	case *ast.IndexExpr:
		of = generic.X
	case *ast.IndexListExpr:
		of = generic.X
	}
	return of.(*ast.Ident).Name + "."
}

package main

import (
	"errors"
	"fmt"
	"go/ast"
	"go/token"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"golang.org/x/tools/go/packages"
)

// A house is the module: its packages, with their types and who imports whom.
type house struct {
	root     string // absolute
	module   string // its path
	packages []*packages.Package
}

// load reads the module in a folder.
func load(root string) (*house, error) {
	root, err := filepath.Abs(root)
	if err != nil {
		return nil, err
	}
	all, err := packages.Load(&packages.Config{
		Dir:  root,
		Mode: packages.LoadSyntax | packages.NeedModule,
		Fset: token.NewFileSet(),
	}, "./...")
	if err != nil {
		return nil, err
	}
	if packages.PrintErrors(all) > 0 || len(all) == 0 {
		return nil, errors.New("the module does not build")
	}
	return &house{root: root, module: all[0].Module.Path, packages: all}, nil
}

// faults are all that can be put into the named packages, in order of their names;
// none named is all. Faults that read alike in one function are numbered.
func (h *house) faults(named []string) []*fault {
	var all []*fault
	for _, p := range h.packages {
		if len(named) > 0 && !slices.Contains(named, h.inside(p.PkgPath)) {
			continue
		}
		for _, file := range p.Syntax {
			all = append(all, h.inFile(p, file)...)
		}
	}
	times := map[string]int{}
	for _, f := range all {
		name := f.String()
		if times[name]++; times[name] > 1 {
			f.same = times[name]
		}
	}
	return all
}

// inside is a package's path below the module's.
func (h *house) inside(path string) string { return strings.TrimPrefix(path, h.module+"/") }

func (h *house) inFile(p *packages.Package, file *ast.File) []*fault {
	at := p.Fset.File(file.FileStart)
	source, err := os.ReadFile(at.Name())
	if err != nil || ast.IsGenerated(file) {
		return nil
	}
	rel, err := filepath.Rel(h.root, at.Name())
	if err != nil {
		return nil
	}
	f := &finder{source: source, at: at, info: p.TypesInfo, types: p.Types, file: file}
	f.look()
	for _, found := range f.found {
		found.pkg, found.path, found.file = p.PkgPath, at.Name(), filepath.ToSlash(rel)
		found.line = at.Line(at.Pos(found.from))
	}
	return f.found
}

// above is the packages whose tests may notice a fault in one: its own, and those
// that import it, the nearest first.
func (h *house) above(path string) []string {
	order := []string{path}
	for i := 0; i < len(order); i++ {
		for _, p := range h.packages {
			if p.Imports[order[i]] != nil && !slices.Contains(order, p.PkgPath) {
				order = append(order, p.PkgPath)
			}
		}
	}
	return order
}

// A fault is one small change to the source.
type fault struct {
	pkg        string // import path
	path, file string // absolute; slash path in the module
	line       int
	within     string // the function or variable that it is in
	was, is    string // what stands there, and what will
	same       int    // of several that read alike, which; 0 for the first
	from, to   int    // bytes of the file
	// before and after go around what stands there: with the switch %d off, it is
	// as it was.
	before, after string

	drawn   bool
	number  int
	passers int    // how many tests pass it by
	noticed string // the package whose tests noticed it, "" for none
}

// String tells a fault from all others, and still does when lines are added above.
func (f *fault) String() string {
	text := fmt.Sprintf("%s %s: %s → %s", f.file, f.within, f.was, f.is)
	if f.same > 0 {
		text += fmt.Sprintf(" #%d", f.same)
	}
	return text
}

package main

import (
	"cmp"
	"encoding/json"
	"errors"
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"go/types"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"sync"

	"golang.org/x/tools/go/packages"
)

// switchVariable holds the number of the fault that is on, or -1: then all are off,
// and each that is passed by is noted in the file that passedVariable names.
const (
	switchVariable = "GYLEBOOK_MUTANT"
	passedVariable = "GYLEBOOK_MUTANTS_PASSED"
)

// switches is the file that is added to each package with faults in it.
const switches = `package %s

import (
	"os"
	"strconv"
	"sync/atomic"
)

var mutantNow, _ = strconv.Atoi(os.Getenv("` + switchVariable + `"))

var mutantsPassed [%d]atomic.Bool

func mutantOn(n int) bool { return mutantNow == n || mutantNow < 0 && mutantPassed(n) }

func mutantPassed(n int) bool {
	if !mutantsPassed[n].Swap(true) {
		f, err := os.OpenFile(os.Getenv("` + passedVariable + `"), os.O_APPEND|os.O_CREATE|os.O_WRONLY, 0o666)
		if err == nil {
			_, _ = f.WriteString(strconv.Itoa(n) + "\n")
			_ = f.Close()
		}
	}
	return false
}

func mutantPick[T any](n int, is, other T) T {
	if mutantOn(n) {
		return other
	}
	return is
}
`

// switchesInShort is enough of them to check the woven source against.
const switchesInShort = `
func mutantOn(n int) bool                     { return n == 0 }
func mutantPick[T any](n int, is, other T) T { return is }
`

// A bench is where faults are tried: the woven source, and the tests built from it.
type bench struct {
	house   *house
	dir     string
	overlay string
	faults  []*fault
	last    int // the largest number of a fault
	out     io.Writer

	mu     sync.Mutex
	suites map[string]*suite // the tests of each package
}

// weave writes the source with all faults in it, switched off. Those that do not
// compile are left out.
func (h *house) weave(faults []*fault, out io.Writer) (*bench, error) {
	dir, err := os.MkdirTemp("", "mutate")
	if err != nil {
		return nil, err
	}
	b := &bench{house: h, dir: dir, overlay: filepath.Join(dir, "overlay.json"), suites: map[string]*suite{}, out: out}
	replace := map[string]string{}
	for _, p := range h.packages {
		of := slices.DeleteFunc(slices.Clone(faults), func(f *fault) bool { return f.pkg != p.PkgPath })
		if len(of) == 0 {
			continue
		}
		kept, err := b.weavePackage(p, of, replace)
		if err != nil {
			return nil, errors.Join(err, os.RemoveAll(dir))
		}
		b.faults = append(b.faults, kept...)
	}
	text, err := json.Marshal(map[string]any{"Replace": replace})
	return b, errors.Join(err, os.WriteFile(b.overlay, text, 0o600))
}

// weavePackage writes the files of one package, and tells which faults are in them.
func (b *bench) weavePackage(p *packages.Package, of []*fault, replace map[string]string) ([]*fault, error) {
	for _, f := range of {
		b.last++
		f.number = b.last
	}
	for {
		woven, err := wovenFiles(of)
		if err != nil {
			return nil, err
		}
		added := filepath.Join(filepath.Dir(of[0].path), "mutants_switched.go")
		texts := map[string]string{added: "package " + p.Name + "\n" + switchesInShort}
		for name, w := range woven {
			texts[name] = w.text
		}
		bad, err := check(p, texts, woven)
		if err != nil {
			return nil, err
		}
		if len(bad) == 0 {
			texts[added] = fmt.Sprintf(switches, p.Name, b.last+1)
			return of, b.write(texts, replace)
		}
		of = slices.DeleteFunc(of, func(f *fault) bool { return bad[f] })
		if len(of) == 0 {
			return nil, nil
		}
	}
}

// write puts the woven files into the bench, in place of the real ones.
func (b *bench) write(texts, replace map[string]string) error {
	for real, text := range texts {
		name := filepath.Join(b.dir, fmt.Sprintf("%d_%s", len(replace), filepath.Base(real)))
		if err := os.WriteFile(name, []byte(text), 0o600); err != nil {
			return err
		}
		replace[real] = name
	}
	return nil
}

// woven is a file with faults in it, and where each of them now is.
type woven struct {
	text  string
	spans []span
}

type span struct {
	from, to int
	fault    *fault
}

func wovenFiles(of []*fault) (map[string]*woven, error) {
	files := map[string][]*fault{}
	for _, f := range of {
		files[f.path] = append(files[f.path], f)
	}
	all := map[string]*woven{}
	for name, faults := range files {
		source, err := os.ReadFile(name)
		if err != nil {
			return nil, err
		}
		all[name] = weaveFile(string(source), faults)
	}
	return all, nil
}

// weaveFile goes through a file once, and opens and closes the faults at their
// places: an outer one before and after an inner one.
func weaveFile(source string, faults []*fault) *woven {
	slices.SortStableFunc(faults, func(a, b *fault) int { return cmp.Or(a.from-b.from, b.to-a.to) })
	var text strings.Builder
	w := &woven{}
	var open []int // indices into w.spans
	done := 0
	closeTo := func(offset int) {
		for len(open) > 0 && w.spans[open[len(open)-1]].fault.to <= offset {
			s := &w.spans[open[len(open)-1]]
			open = open[:len(open)-1]
			text.WriteString(source[done:s.fault.to] + s.fault.after)
			done, s.to = s.fault.to, text.Len()
		}
	}
	for _, f := range faults {
		closeTo(f.from)
		text.WriteString(source[done:f.from])
		done = f.from
		open = append(open, len(w.spans))
		w.spans = append(w.spans, span{from: text.Len(), fault: f})
		text.WriteString(fmt.Sprintf(f.before, f.number))
	}
	closeTo(len(source))
	text.WriteString(source[done:])
	w.text = text.String()
	return w
}

// check compiles the woven package as far as its types, and tells which faults do
// not go.
func check(p *packages.Package, texts map[string]string, files map[string]*woven) (map[*fault]bool, error) {
	set := token.NewFileSet()
	var parsed []*ast.File
	bad := map[*fault]bool{}
	names := slices.Clone(p.CompiledGoFiles)
	if len(names) == 0 {
		names = slices.Clone(p.GoFiles)
	}
	for name := range texts {
		if !slices.Contains(names, name) {
			names = append(names, name)
		}
	}
	blame := func(at token.Position) {
		if w := files[at.Filename]; w != nil {
			if f := w.innermost(at.Offset); f != nil {
				bad[f] = true
			}
		}
	}
	for _, name := range names {
		var text any
		if t, ok := texts[name]; ok {
			text = t
		}
		file, err := parser.ParseFile(set, name, text, parser.SkipObjectResolution)
		if err != nil {
			return nil, fmt.Errorf("the woven source cannot be read: %w", err)
		}
		parsed = append(parsed, file)
	}
	failed := 0
	config := types.Config{
		Importer: imports{p.Types}, Sizes: p.TypesSizes, GoVersion: "go" + p.Module.GoVersion,
		Error: func(err error) {
			failed++
			var e types.Error
			if errors.As(err, &e) {
				blame(set.Position(e.Pos))
			}
		},
	}
	_, err := config.Check(p.PkgPath, set, parsed, nil)
	if failed > 0 && len(bad) == 0 {
		return nil, fmt.Errorf("the woven source does not compile: %w", err)
	}
	return bad, nil
}

// innermost is the fault around a place that is in no other, nil where there is
// none.
func (w *woven) innermost(offset int) *fault {
	var found *fault
	least := len(w.text) + 1
	for _, s := range w.spans {
		if s.from <= offset && offset < s.to && s.to-s.from < least {
			found, least = s.fault, s.to-s.from
		}
	}
	return found
}

// imports gives the packages that a package has been loaded with.
type imports struct{ of *types.Package }

// Import finds a package.
func (i imports) Import(path string) (*types.Package, error) {
	for _, p := range i.of.Imports() {
		if p.Path() == path {
			return p, nil
		}
	}
	return nil, fmt.Errorf("the package %s is not at hand", path)
}

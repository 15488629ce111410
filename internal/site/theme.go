package site

import (
	"bytes"
	"errors"
	"fmt"
	"html/template"
	"io"
	"io/fs"
	"path"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"sync"

	"gylebook/internal/notice"
	"gylebook/templates"
)

// theme is the templates and assets: the built-in ones with a layer of
// replacements in front.
type theme struct {
	builtIn map[string]*template.Template
	layered map[string]*boundTemplate // only pages that a replacement touches
	assets  map[string][]byte

	mu     sync.Mutex
	faults []notice.Notice
}

// newTheme reads the templates. What is wrong with a replacement is a notice; an
// error is a fault of the built-in ones.
func newTheme(layer fs.FS) (*theme, error) {
	own, err := builtIn()
	if err != nil {
		return nil, err
	}
	t := &theme{builtIn: own.pages, assets: own.files, layered: map[string]*boundTemplate{}}
	if layer != nil {
		t.replace(layer)
	}
	return t, nil
}

// ownTemplates are the built-in templates, parsed.
type ownTemplates struct {
	files map[string][]byte
	pages map[string]*template.Template
}

// builtIn parses the built-in templates once: they never change, and a live site
// is built at every save.
var builtIn = sync.OnceValues(func() (ownTemplates, error) {
	files, err := readAll(templates.Files)
	if err != nil {
		return ownTemplates{}, err
	}
	pages, err := parsePages(files)
	return ownTemplates{files, pages}, err
})

// readAll is every template and asset of a folder.
func readAll(files fs.FS) (map[string][]byte, error) {
	all := map[string][]byte{}
	err := fs.WalkDir(files, ".", func(name string, entry fs.DirEntry, err error) error {
		if err != nil || entry.IsDir() || strings.HasPrefix(path.Base(name), ".") {
			return err
		}
		switch path.Ext(name) {
		case ".html", ".css", ".js", ".svg":
			data, err := fs.ReadFile(files, name)
			if err != nil {
				return err
			}
			all[name] = data
		}
		return nil
	})
	return all, err
}

// isPart tells a template that pages share.
func isPart(name string) bool {
	return name == "base.html" || strings.HasPrefix(name, "parts/")
}

// parsePages makes one template a page: the shared parts with the page's own.
func parsePages(files map[string][]byte) (map[string]*template.Template, error) {
	shared := template.New("site").Funcs(functions()) // no file has this name: a second New of one name empties the first
	for _, name := range names(files) {
		if isPart(name) {
			if _, err := shared.New(name).Parse(string(files[name])); err != nil {
				return nil, err
			}
		}
	}
	pages := map[string]*template.Template{}
	for name := range pageTemplates() {
		page, err := parsePage(shared, name, files)
		if err != nil {
			return nil, err
		}
		pages[name] = page
	}
	return pages, nil
}

func parsePage(shared *template.Template, name string, files map[string][]byte) (*template.Template, error) {
	source, ok := files[name]
	if !ok {
		return nil, fmt.Errorf("there is no template %s", name)
	}
	page, err := shared.Clone()
	if err != nil {
		return nil, err
	}
	if _, err := page.New(name).Parse(string(source)); err != nil {
		return nil, err
	}
	return page, nil
}

func names(files map[string][]byte) []string {
	var all []string
	for name := range files {
		all = append(all, name)
	}
	slices.Sort(all)
	return all
}

// replace puts a layer of replacements in front. Each that cannot be used is
// reported and left out: a page whose replacement, or a part of it, is at fault
// is the built-in page.
func (t *theme) replace(layer fs.FS) {
	replacements, err := readAll(layer)
	if err != nil {
		t.fault("", 0, "the replacement templates could not be read: "+err.Error(), "")
		return
	}
	files := map[string][]byte{}
	for name, data := range t.assets {
		files[name] = data
	}
	changed := map[string]bool{}
	for _, name := range names(replacements) {
		if _, ok := files[name]; !ok {
			t.fault(name, 0, "the template "+name+" replaces nothing", "The nearest built-in one is "+near(name, names(t.assets))+".")
			continue
		}
		if path.Ext(name) == ".html" && !t.parses(name, replacements[name]) {
			continue
		}
		files[name] = replacements[name]
		changed[name] = true
	}
	t.assets = files
	t.layer(files, changed)
}

// parses reports a replacement that is no template.
func (t *theme) parses(name string, source []byte) bool {
	_, err := template.New(name).Funcs(functions()).Parse(string(source))
	if err != nil {
		t.templateFault(name, err)
	}
	return err == nil
}

// layer makes the pages that replacements touch, and tries each on an empty and
// on a full page.
func (t *theme) layer(files map[string][]byte, changed map[string]bool) {
	shared := false
	for name := range changed {
		shared = shared || isPart(name)
	}
	if len(changed) == 0 {
		return
	}
	pages, err := parsePages(files)
	if err != nil {
		t.templateFault("", err)
		return
	}
	samples := pageTemplates()
	for _, name := range sortedKeys(samples) {
		if !shared && !changed[name] {
			continue
		}
		page, err := bound(pages[name])
		if err == nil {
			err = try(page, samples[name])
		}
		if err == nil {
			t.layered[name] = page
			continue
		}
		if t.templateFault(name, err); shared && errors.As(err, new(boundError)) {
			return // a part without end would take as long on each of the other pages
		}
	}
}

func sortedKeys(m map[string]any) []string {
	var keys []string
	for k := range m {
		keys = append(keys, k)
	}
	slices.Sort(keys)
	return keys
}

// executor is a page's template, bound or not.
type executor interface {
	ExecuteTemplate(w io.Writer, name string, v any) error
}

// try executes a page on the empty value of its struct and on one with
// something in every field, so that a wrong field shows in whichever branch it
// stands.
func try(page executor, empty any) error {
	for _, v := range []any{empty, full(empty)} {
		if err := page.ExecuteTemplate(io.Discard, "base.html", v); err != nil {
			return err
		}
	}
	return nil
}

// templatePlace finds file and line in an error of html/template.
var templatePlace = regexp.MustCompile(`(?:template: |html/template:)([^\s:]+\.html):(\d+)`)

func (t *theme) templateFault(name string, err error) {
	line := 0
	if found := templatePlace.FindStringSubmatch(err.Error()); found != nil {
		name = found[1]
		line, _ = strconv.Atoi(found[2])
	}
	says := err.Error()
	if passed := boundError(""); errors.As(err, &passed) {
		says = passed.Error()
	}
	t.fault(name, line, "a replacement template cannot be used: "+says, "The built-in page stands in for it until it is mended.")
}

func (t *theme) fault(name string, line int, says, do string) {
	n := notice.Notice{Place: notice.Place{File: "templates/" + name, Line: line}, Severity: notice.Unreadable, ID: "template-fault", Says: says, Do: do, Source: "html/template"}
	t.mu.Lock()
	defer t.mu.Unlock()
	if !slices.Contains(t.faults, n) {
		t.faults = append(t.faults, n)
	}
}

func (t *theme) notices() []notice.Notice {
	t.mu.Lock()
	defer t.mu.Unlock()
	return slices.Clone(t.faults)
}

// The assets are files of the theme as they stand.
var (
	_ = declare(asset("style.css"))
	_ = declare(asset("book.js"))
	_ = declare(asset("icon.svg"))
)

func asset(name string) filesOf[*Site] {
	return filesOf[*Site]{path: name, render: func(s *Site, _ string, _ *Site) ([]byte, error) {
		data, ok := s.theme.assets[name]
		if !ok {
			return nil, errors.New("there is no " + name + " among the templates")
		}
		return data, nil
	}}
}

// buffers are used again from page to page: growing one to a page's size costs
// as much as filling it.
var buffers = sync.Pool{New: func() any { return new(bytes.Buffer) }}

// page executes a page's template. A replacement that fails on a real page after
// all gives way to the built-in one, and is reported.
func (t *theme) page(name string, v any) ([]byte, error) {
	buffer := buffers.Get().(*bytes.Buffer)
	defer buffers.Put(buffer)
	buffer.Reset()
	if page := t.layered[name]; page != nil {
		err := page.ExecuteTemplate(buffer, "base.html", v)
		if err == nil {
			return bytes.Clone(buffer.Bytes()), nil
		}
		t.templateFault(name, err)
		buffer.Reset()
	}
	if err := t.builtIn[name].ExecuteTemplate(buffer, "base.html", v); err != nil {
		return nil, fmt.Errorf("laying out the page: %w", err)
	}
	return bytes.Clone(buffer.Bytes()), nil
}

package site

import (
	"flag"
	"fmt"
	"io/fs"
	"path"
	"strings"
	"sync"
	"testing"
	"testing/fstest"
	"time"

	"github.com/rogpeppe/go-internal/txtar"

	"gylebook/internal/book"
	"gylebook/internal/journal"
)

var update = flag.Bool("update", false, "rewrite the golden files; review every difference")

// clock is the moment of all tests.
var clock = time.Date(2026, 6, 1, 12, 0, 0, 0, time.UTC)

// archive is a txtar archive as a folder.
func archive(t testing.TB, name string) fstest.MapFS {
	t.Helper()
	a, err := txtar.ParseFile(name)
	if err != nil {
		t.Fatal(err)
	}
	files := fstest.MapFS{}
	for _, f := range a.Files {
		files[f.Name] = &fstest.MapFile{Data: f.Data}
	}
	return files
}

// entries is a folder of these files.
func entries(pairs ...string) fstest.MapFS {
	files := fstest.MapFS{}
	for i := 0; i < len(pairs); i += 2 {
		files[pairs[i]] = &fstest.MapFile{Data: []byte(pairs[i+1])}
	}
	return files
}

// build makes the site of a journal.
func build(t testing.TB, files fs.FS, opts Options) *Site {
	t.Helper()
	opts.Files = files
	s, err := Build(book.Open(journal.Read(files, journal.Options{}), clock), opts)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// rendered is every file of a site, by path.
func rendered(t testing.TB, s *Site) map[string]string {
	t.Helper()
	out := map[string]string{}
	for _, p := range s.Pages() {
		data, err := p.Render()
		if err != nil {
			t.Fatalf("%s: %v", p.Path, err)
		}
		out[p.Path] = string(data)
	}
	return out
}

// demoFiles is the demonstration journal.
func demoFiles(t testing.TB) fs.FS {
	t.Helper()
	files, err := journal.Root("../../journal")
	if err != nil {
		t.Fatal(err)
	}
	return files
}

// demo is its site, rendered once for all tests.
var demo = struct {
	once  sync.Once
	site  *Site
	pages map[string]string
}{}

func demoSite(t testing.TB) (*Site, map[string]string) {
	t.Helper()
	demo.once.Do(func() {
		demo.site = build(t, demoFiles(t), Options{Version: "test"})
		demo.pages = rendered(t, demo.site)
	})
	if demo.pages == nil {
		t.Fatal("the demonstration site could not be built")
	}
	return demo.site, demo.pages
}

// page is one file of a journal's site.
func page(t testing.TB, s *Site, name string) string {
	t.Helper()
	p, ok := s.Page(name)
	if !ok {
		t.Fatalf("there is no page %s", name)
	}
	data, err := p.Render()
	if err != nil {
		t.Fatal(err)
	}
	return string(data)
}

// wants checks that a text has parts, and has not those that begin with a !.
func wants(t *testing.T, text string, parts ...string) {
	t.Helper()
	for _, part := range parts {
		if unwanted, ok := strings.CutPrefix(part, "!"); ok {
			if strings.Contains(text, unwanted) {
				t.Errorf("there is %q", unwanted)
			}
		} else if !strings.Contains(text, part) {
			t.Errorf("there is no %q", part)
		}
	}
}

func TestTheAddresses(t *testing.T) {
	_, pages := demoSite(t)
	for _, name := range []string{
		"index.html", "gyles/index.html", "gyles/34/index.html", "gyles/34/copper-card/index.html", "gyles/34/labels/index.html", "gyles/34/workings/index.html", "gyles/34/entry.md", "gyles/34/figures.json",
		"gyles/2/index.html", "larder/index.html", "larder/yeast/house-ale/index.html", "styles/index.html", "vessels/index.html", "tags/index.html", "years/index.html", "years/2026/index.html",
		"families/index.html", "trends/index.html", "notes/index.html", "workings/index.html", "search/index.html", "search.json", "search.js",
		"404.html", "feed.xml", "calendar.ics", "sitemap.xml", "robots.txt", "style.css", "colours.css", "book.js", "icon.svg",
	} {
		if pages[name] == "" {
			t.Errorf("there is no %s", name)
		}
	}
	for name := range pages {
		if strings.HasPrefix(name, "gyles/44") || strings.HasPrefix(name, "tasters/") {
			t.Errorf("%s is published", name)
		}
	}
}

func TestPageFindsEveryPage(t *testing.T) {
	s, pages := demoSite(t)
	for name := range pages {
		if _, ok := s.Page(name); !ok {
			t.Errorf("Page does not find %s", name)
		}
	}
	for _, name := range []string{"", "gyles", "gyles/44/index.html", "gyles/34", "../index.html", "nothing.html"} {
		if _, ok := s.Page(name); ok {
			t.Errorf("Page finds %q", name)
		}
	}
}

func TestPathsAreCleanAndSorted(t *testing.T) {
	s, _ := demoSite(t)
	last := ""
	for _, p := range s.Pages() {
		if p.Path <= last || p.Path != path.Clean(p.Path) || !fs.ValidPath(p.Path) {
			t.Errorf("%q after %q", p.Path, last)
		}
		last = p.Path
	}
}

func TestAnEmptyJournalHasASite(t *testing.T) {
	s := build(t, entries(), Options{})
	wants(t, page(t, s, "index.html"), "A brewing book", "0 gyles")
	rendered(t, s)
}

func TestWithoutFilesThereAreStillPages(t *testing.T) {
	files := archive(t, "testdata/site/small.txtar")
	s, err := Build(book.Open(journal.Read(files, journal.Options{}), clock), Options{})
	if err != nil {
		t.Fatal(err)
	}
	pages := rendered(t, s)
	if pages["gyles/2/entry.md"] != "" {
		t.Error("a source without a folder")
	}
	wants(t, pages["gyles/2/index.html"], "Towpath Mild", "!entry.md")
}

func ExampleBuild() {
	files := fstest.MapFS{"gyles/1.md": {Data: []byte("---\ngyle: 1\nbeer: Plain\n---\nBeer.\n")}}
	s, err := Build(book.Open(journal.Read(files, journal.Options{}), clock), Options{Files: files})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, p := range s.Pages() {
		if strings.HasPrefix(p.Path, "gyles/1/") {
			fmt.Println(p.Path)
		}
	}
	// Output:
	// gyles/1/copper-card/index.html
	// gyles/1/entry.md
	// gyles/1/figures.json
	// gyles/1/index.html
	// gyles/1/labels/index.html
	// gyles/1/workings/index.html
}

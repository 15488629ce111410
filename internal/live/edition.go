package live

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"slices"
	"strings"
	"sync"
	"time"

	"gylebook/internal/book"
	"gylebook/internal/notice"
	"gylebook/internal/site"
)

// edition is one build of the site, held in memory.
type edition struct {
	book   *book.Book
	site   *site.Site
	broken []notice.Notice // of files that are shown without their errors
	dress  string          // the tag of the styles and scripts of all pages

	mu    sync.Mutex
	pages map[string]*page // those that were asked for
}

// page is one file of an edition, rendered when first asked for.
type page struct {
	once   sync.Once
	render func() ([]byte, error)
	reads  *page // the file that its script reads, nil for none
	body   []byte
	tag    string // tells two versions of it apart, and of what it reads
	took   time.Duration
	err    error
}

// page is the file of a path, nil for none.
func (e *edition) page(path string) *page {
	e.mu.Lock()
	p := e.pages[path]
	e.mu.Unlock()
	if p != nil {
		return p
	}
	found, is := e.site.Page(path)
	if !is {
		return nil
	}
	var reads *page
	if path == searchPage {
		reads = e.page(searchIndex)
	}
	e.mu.Lock()
	defer e.mu.Unlock()
	if e.pages[path] == nil { // else another request was faster
		e.pages[path] = &page{render: found.Render, reads: reads}
	}
	return e.pages[path]
}

// The page whose script reads another file of the site, and that file.
const (
	searchPage  = "search/index.html"
	searchIndex = "search.json"
)

// bytes is the page as rendered, always the same once it has been. A fault of
// ours in rendering costs this page, not the server.
func (p *page) bytes() ([]byte, error) {
	p.once.Do(func() {
		start := time.Now()
		defer func() {
			if fault := recover(); fault != nil {
				p.err = fmt.Errorf("a fault of this program: %v", fault)
			}
			all := p.body
			if p.reads != nil {
				read, _ := p.reads.bytes()
				all = slices.Concat(all, read)
			}
			p.render, p.reads = nil, nil // what they hold is not needed any more
			p.tag, p.took = tagOf(all), time.Since(start)
		}()
		p.body, p.err = p.render()
	})
	return p.body, p.err
}

func tagOf(body []byte) string {
	sum := sha256.Sum256(body)
	return hex.EncodeToString(sum[:8])
}

// shown is what a path shows: its page, else the one that says that there is
// none.
func (e *edition) shown(path string) *page {
	if p := e.page(path); p != nil {
		return p
	}
	return e.page(nothingHere)
}

const nothingHere = "404.html"

// pagePath is the file that an address shows: a folder's is its index.html.
func pagePath(name string) string {
	if name == "" || strings.HasSuffix(name, "/") {
		return name + "index.html"
	}
	return name
}

// newsOf is what a stream for a path says.
func (e *edition) newsOf(path string) tags {
	p := e.shown(path)
	if p == nil {
		return tags{"none", e.dress}
	}
	p.bytes()
	return tags{p.tag, e.dress}
}

// setDress sets the tag of styles and scripts.
func (e *edition) setDress() {
	var all []byte
	for _, name := range []string{"style.css", "colours.css", "book.js"} {
		if p := e.page(name); p != nil {
			body, _ := p.bytes()
			all = append(all, body...)
		}
	}
	e.dress = tagOf(append(all, script...))
}

// soonest orders paths by how long their pages took in this edition, those that
// were not rendered first.
func (e *edition) soonest(paths []string) []string {
	e.mu.Lock()
	defer e.mu.Unlock()
	took := map[string]time.Duration{}
	for _, path := range paths {
		if p := e.pages[path]; p != nil {
			took[path] = p.took
		}
	}
	slices.SortStableFunc(paths, func(a, b string) int { return int(took[a] - took[b]) })
	return paths
}

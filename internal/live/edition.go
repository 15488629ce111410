package live

import (
	"fmt"
	"sync"

	"gylebook/internal/book"
	"gylebook/internal/notice"
	"gylebook/internal/site"
)

// edition is one build of the site, held in memory.
type edition struct {
	name string // tells it from every other, also from those of an earlier run
	book *book.Book
	site *site.Site

	mu    sync.Mutex
	pages map[string]*page // those that were asked for
}

// page is one file of an edition, rendered when first asked for.
type page struct {
	once   sync.Once
	render func() ([]byte, error)
	body   []byte
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
	e.mu.Lock()
	defer e.mu.Unlock()
	if e.pages[path] == nil { // else another request was faster
		e.pages[path] = &page{render: found.Render}
	}
	return e.pages[path]
}

// bytes is the page as rendered, always the same once it has been. A fault of
// ours in rendering costs this page, not the server.
func (p *page) bytes() ([]byte, error) {
	p.once.Do(func() {
		defer func() {
			if fault := recover(); fault != nil {
				p.err = fmt.Errorf("a fault of this program: %v", fault)
			}
			p.render = nil // what it holds is not needed any more
		}()
		p.body, p.err = p.render()
	})
	return p.body, p.err
}

// notices is all that there is to say about the journal.
func (e *edition) notices() []notice.Notice {
	all := append([]notice.Notice(nil), e.book.Notices...)
	for _, g := range e.book.Gyles {
		all = append(all, g.Notices...)
	}
	return append(all, e.site.Notices()...)
}

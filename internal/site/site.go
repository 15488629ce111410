package site

import (
	"fmt"
	"io/fs"
	"slices"
	"strings"
	"sync"

	"gylebook/internal/book"
	"gylebook/internal/journal"
	"gylebook/internal/notice"
	"gylebook/internal/store"
)

// Options is what Build may be told.
type Options struct {
	// Templates is a layer of replacement templates in front of the built-in
	// ones, nil for none. They are code: it is never a part of the journal.
	Templates fs.FS
	// Version is that of the program, for the foot of every page.
	Version string
	// Live publishes drafts too, and adds the tag of the reload script.
	Live bool
	// Files is the journal's folder: its pictures, linked files and sources. Nil
	// publishes none of them.
	Files fs.FS
	// Store keeps what was made of stories and pictures; nil makes them each time.
	Store *store.Store
	// Broken are the errors of files that are shown as they last were without
	// them: each stands at the top of the pages that show its file.
	Broken []notice.Notice
	// Workers bounds how many stories are rendered at once; GOMAXPROCS if 0.
	Workers int
}

// Page is one file of the site.
type Page struct {
	// Path is its slash path from the top of the site, such as
	// gyles/14/index.html.
	Path string
	// Render makes its bytes. It may be called at any time and from several
	// goroutines, and gives the same bytes each time.
	Render func() ([]byte, error)
}

// Site is a book in pages.
type Site struct {
	book     *book.Book // what is published
	whole    *book.Book // with its drafts
	options  Options
	settings *journal.Settings
	private  journal.Private
	spell    speller
	theme    *theme
	gyles    []*book.Gyle // those that are published, the latest first
	photos   *photoShelf
	notes    []*noteEntry
	noteIn   map[string]*noteEntry   // by file
	files    map[string]journal.File // those that are not Markdown, by name
	stories  map[string]*story       // by file
	byFile   []*story
	homes    func() map[string]*story // by the page they are on
	secrets  func() *secrets
	spelt    func() spellings
	tags     func() map[string]*book.Group // by name
	count    func() string                 // how many gyles, and since when
	rows     sync.Map                      // *book.Gyle → *view.GyleRow
	notices  func() []notice.Notice
	pages    func() []Page
	broken   map[string][]notice.Notice // by the folder whose pages have them at the top
}

// Build lays out the site. Stories are rendered here, in parallel, because a
// dead link is a finding that its page and the board must show; in a live site
// each waits until it is asked for.
//
// The error is of the machine or of this program's own templates; whatever is
// wrong in the journal or in a replacement template is among the Notices.
func Build(b *book.Book, opts Options) (*Site, error) {
	s := &Site{book: b, whole: b, options: opts, settings: b.Journal.Settings, private: b.Journal.Settings.Privacy(), spell: newSpeller(b.Journal.Settings)}
	if !opts.Live {
		s.book = b.Published()
	}
	var err error
	if s.theme, err = newTheme(opts.Templates); err != nil {
		return nil, fmt.Errorf("reading the templates: %w", err)
	}
	s.gyles = s.book.Gyles
	s.files = make(map[string]journal.File, len(b.Journal.Files))
	for _, f := range b.Journal.Files {
		s.files[f.Name] = f
	}
	s.photos = newPhotoShelf(opts.Files, s.files, opts.Store)
	s.listNotes()
	s.listStories()
	s.secrets = sync.OnceValue(s.collectSecrets)
	s.spelt = sync.OnceValue(s.collectSpellings)
	s.tags = sync.OnceValue(s.collectTags)
	s.count = sync.OnceValue(func() string { return gyleCount(s.gyles) })
	s.markBroken()
	s.notices = sync.OnceValue(s.collectNotices)
	s.pages = sync.OnceValue(s.collectPages)
	if !opts.Live {
		s.renderStories()
	}
	return s, nil
}

// published tells whether a gyle has pages: drafts have none but in a live site.
func (s *Site) published(g *book.Gyle) bool {
	return g != nil && (s.options.Live || !g.Draft.Yes())
}

// Pages is every file of the site, sorted by path.
func (s *Site) Pages() []Page { return s.pages() }

// Page is the file at a path. It does not lay out the others, so that a live
// site answers as fast with ten thousand gyles as with ten.
func (s *Site) Page(path string) (Page, bool) {
	for _, k := range declared {
		if slug, fits := k.slugIn(path); fits {
			for _, p := range k.pages(s, slug) {
				if p.Path == path {
					return guarded(p), true
				}
			}
		}
	}
	return Page{}, false
}

// Notices is what only the site sees: dead links, pictures that are missing or
// have no words, faults of replacement templates; by place.
func (s *Site) Notices() []notice.Notice {
	all := slices.Concat(s.notices(), s.theme.notices(), s.photos.notices())
	slices.SortStableFunc(all, notice.Compare)
	return all
}

// collectPages is all pages by path. Where two would have one path the first
// stands: a gyle's own page goes before the redirect of an old number.
func (s *Site) collectPages() []Page {
	var all []Page
	for _, k := range declared {
		all = append(all, k.pages(s, "")...)
	}
	slices.SortStableFunc(all, func(a, b Page) int { return strings.Compare(a.Path, b.Path) })
	all = slices.CompactFunc(all, func(a, b Page) bool { return a.Path == b.Path })
	for i, p := range all {
		all[i] = guarded(p)
	}
	return all
}

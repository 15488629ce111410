package site

import (
	"slices"
	"strings"
	"sync"

	"gylebook/internal/site/view"
)

// A page is declared by one value, in one file with the struct that its template is
// given and the function that fills that in: its address, its place in the menu, its
// template. Site and theme collect what is declared, so that whoever adds a page adds
// such a file and a template, and nothing else. Other files are declared likewise.

// pageKind is one kind of page, or of other file, as declared.
type pageKind struct {
	path     string // from the top of the site; a * stands for the slug of what each is about
	template string // of package templates, "" for what is no page
	empty    any    // a pointer to an empty value of what the template is given
	menu     menu
	under    string // the page in the menu that it belongs to
	unlisted bool   // left out of the sitemap
	// pages are those of the kind that have a slug, all for "".
	pages func(s *Site, slug string) []Page
}

// menu is a word of the menu and its place there, counted from the left. The zero one
// is of a page that is not in it.
type menu struct {
	place int
	word  string
}

// declared are the kinds of page and file. They are put together while the package is
// set up, and nothing changes them after that.
var declared []pageKind

func declare(d interface{ kind() pageKind }) struct{} {
	declared = append(declared, d.kind())
	return struct{}{}
}

func (k pageKind) kind() pageKind { return k }

// pagesOf declares a page for each of some things, or one page of the whole Site.
type pagesOf[Of, View any] struct {
	path, template string
	menu           menu
	under          string           // "" is the index.html of the path's first folder
	unlisted       bool             // no search engine need know of it
	each           func(*Site) []Of // what there is a page of; nil is one of the Site
	slug           func(Of) string
	fill           func(w pageWriter, v *View, of Of)
}

func (d pagesOf[Of, View]) kind() pageKind {
	k := pageKind{
		path: d.path, template: d.template, empty: new(View), menu: d.menu, under: d.under, unlisted: d.unlisted,
	}
	if folder, _, deep := strings.Cut(d.path, "/"); k.under == "" && deep {
		k.under = folder + "/index.html"
	}
	render := func(s *Site, path string, of Of) ([]byte, error) {
		w, v := s.pageAt(path), new(View)
		*any(v).(interface{ Top() *view.Frame }).Top() = w.frame(k)
		d.fill(w, v, of)
		return s.theme.page(d.template, v)
	}
	k.pages = filesOf[Of]{path: d.path, each: d.each, slug: d.slug, render: render}.pages
	return k
}

// filesOf declares a file for each of some things, or one of the whole Site.
type filesOf[Of any] struct {
	path   string
	each   func(*Site) []Of
	slug   func(Of) string
	render func(s *Site, path string, of Of) ([]byte, error)
}

func (d filesOf[Of]) kind() pageKind {
	return pageKind{path: d.path, unlisted: true, pages: d.pages}
}

func (d filesOf[Of]) pages(s *Site, wanted string) []Page {
	var all []Of
	if d.each != nil {
		all = d.each(s)
	} else {
		all = []Of{any(s).(Of)}
	}
	var pages []Page
	for _, of := range all {
		slug := ""
		if d.slug != nil {
			slug = d.slug(of)
		}
		if wanted == "" || slug == wanted {
			path := strings.Replace(d.path, "*", slug, 1)
			pages = append(pages, Page{path, func() ([]byte, error) { return d.render(s, path, of) }})
		}
	}
	return pages
}

// where is the Site, to declare one page of, where something holds of it.
func where(holds func(*Site) bool) func(*Site) []*Site {
	return func(s *Site) []*Site {
		if !holds(s) {
			return nil
		}
		return []*Site{s}
	}
}

// slugIn is what a path has where the kind's has its *.
func (k pageKind) slugIn(path string) (slug string, fits bool) {
	before, after, many := strings.Cut(k.path, "*")
	if !many {
		return "", path == k.path
	}
	slug, begins := strings.CutPrefix(path, before)
	slug, ends := strings.CutSuffix(slug, after)
	return slug, begins && ends && slug != ""
}

// menuPages are the kinds in the menu, from the left.
var menuPages = sync.OnceValue(func() []pageKind {
	in := slices.DeleteFunc(slices.Clone(declared), func(k pageKind) bool { return k.menu.word == "" })
	slices.SortFunc(in, func(a, b pageKind) int { return a.menu.place - b.menu.place })
	return in
})

// pageTemplates are the templates of all pages, each with an empty value of what it
// is given.
var pageTemplates = sync.OnceValue(func() map[string]any {
	all := map[string]any{}
	for _, k := range declared {
		if k.template != "" {
			all[k.template] = k.empty
		}
	}
	return all
})

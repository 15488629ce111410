package site

import (
	"net/url"
	"strings"

	"gylebook/internal/book"
	"gylebook/internal/journal"
	"gylebook/internal/site/markdown"
	"gylebook/internal/site/view"
)

// at is a page under construction: the site, and where the page is. All
// addresses that a view holds are made by its methods.
type pageWriter struct {
	*Site
	path string // of the page
	root string // the way to the top of the site
}

func (s *Site) pageAt(path string) pageWriter {
	w := pageWriter{Site: s, path: path, root: strings.Repeat("../", strings.Count(path, "/"))}
	if path == notFoundPath {
		w.root = s.rootAnywhere()
	}
	return w
}

// to is the address of a path of the site.
func (w pageWriter) to(path string) string { return w.root + escapePath(path) }

// escapePath is a path as an address. Folders and files of ours are plain ASCII
// and stay as they are.
func escapePath(path string) string {
	plain := true
	for i := range len(path) {
		c := path[i]
		if !(c >= 'a' && c <= 'z' || c >= '0' && c <= '9' || c == '-' || c == '/' || c == '.' || c == '_') {
			plain = false
			break
		}
	}
	if plain {
		return path
	}
	parts := strings.Split(path, "/")
	for i, p := range parts {
		parts[i] = url.PathEscape(p)
	}
	return strings.Join(parts, "/")
}

// beer is the name of a gyle, or its number where it has none.
func beer(g *book.Gyle) string {
	if g.Beer.Text != "" {
		return g.Beer.Text
	}
	return "Gyle " + g.Slug
}

// gyle is a link to a gyle, nil and drafts giving none.
func (w pageWriter) gyle(g *book.Gyle) view.Link {
	if !w.published(g) {
		return view.Link{}
	}
	return view.Link{Text: beer(g), Href: w.to(gylePath(g))}
}

// numbered is the same with the gyle's number before it.
func (w pageWriter) numbered(g *book.Gyle) view.Link {
	link := w.gyle(g)
	if link.Href != "" {
		link.Text = "Gyle " + g.Slug + ", " + link.Text
	}
	return link
}

func (w pageWriter) numberedAll(gyles []*book.Gyle) []view.Link {
	var links []view.Link
	for _, g := range gyles {
		if link := w.numbered(g); link.Href != "" {
			links = append(links, link)
		}
	}
	return links
}

// subject is a link to a thing's page, only its name where it has none.
func (w pageWriter) subject(s *book.Subject) view.Link {
	if s == nil {
		return view.Link{}
	}
	if !w.shown(s) {
		return view.Link{Text: s.Name}
	}
	return view.Link{Text: s.Name, Href: w.to(subjectPath(s))}
}

// named is a link to what a name in an entry refers to.
func (w pageWriter) named(kind string, name journal.Name) view.Link {
	if name.Name == "" {
		return view.Link{}
	}
	link := w.subject(w.book.Subject(kind, name.Name))
	link.Text = name.Name
	return link
}

// placed is rendered Markdown with this page's addresses in it.
func (w pageWriter) placed(html, homePath string) string {
	own := ""
	if homePath != w.path {
		own = w.to(homePath)
	}
	return markdown.Place(html, w.root, own)
}

// published gyles of a list.
func (s *Site) publishedOf(gyles []*book.Gyle) []*book.Gyle {
	var kept []*book.Gyle
	for _, g := range gyles {
		if s.published(g) {
			kept = append(kept, g)
		}
	}
	return kept
}

// shown tells whether a thing has a page: somebody published uses it, or the
// brewer wrote a card of it. A private taster has none.
func (s *Site) shown(subject *book.Subject) bool {
	if subject == nil || subject.Kind == "taster" && s.private.Tasters {
		return false
	}
	if subject.Card != nil && !subject.Card.BuiltIn {
		return true
	}
	return subject.Times > 0 // a published book has no drafts in it
}

// publishedUses of a thing.
func (s *Site) publishedUses(subject *book.Subject) []book.Use {
	var kept []book.Use
	for _, u := range s.book.Uses(subject) {
		if s.published(u.Gyle) {
			kept = append(kept, u)
		}
	}
	return kept
}

// address is the journal's public address, ending in a slash, "" for none.
func (s *Site) address() string {
	text := strings.TrimSpace(s.settings.Address.Text)
	u, err := url.Parse(text)
	if err != nil || u.Host == "" || u.Scheme != "https" && u.Scheme != "http" {
		return ""
	}
	return strings.TrimRight(text, "/") + "/"
}

// public is the public address of a path, "" where the journal has none. An
// index.html is left out of it.
func (s *Site) public(path string) string {
	if s.address() == "" {
		return ""
	}
	return s.address() + escapePath(strings.TrimSuffix(path, "index.html"))
}

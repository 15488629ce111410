package site

import (
	"bytes"
	"cmp"
	"encoding/xml"
	"fmt"
	"net/url"
	"slices"
	"strings"
	"time"

	"gylebook/internal/site/markdown"
)

// feedLength is how many entries the feed holds.
const feedLength = 20

// The feed is Atom, RFC 4287. Entries carry the whole story; ids last as long as
// the journal's address and the gyle's number.
type atomFeed struct {
	XMLName  xml.Name    `xml:"http://www.w3.org/2005/Atom feed"`
	Language string      `xml:"xml:lang,attr,omitempty"`
	Title    string      `xml:"title"`
	ID       string      `xml:"id"`
	Updated  string      `xml:"updated"`
	Links    []atomLink  `xml:"link"`
	Author   atomAuthor  `xml:"author"`
	Rights   string      `xml:"rights,omitempty"`
	Entries  []atomEntry `xml:"entry"`
}

type atomLink struct {
	Rel  string `xml:"rel,attr,omitempty"`
	Type string `xml:"type,attr,omitempty"`
	Href string `xml:"href,attr"`
}

type atomAuthor struct {
	Name string `xml:"name"`
}

type atomEntry struct {
	Title     string      `xml:"title"`
	ID        string      `xml:"id"`
	Links     []atomLink  `xml:"link"`
	Published string      `xml:"published,omitempty"`
	Updated   string      `xml:"updated"`
	Summary   string      `xml:"summary,omitempty"`
	Content   atomContent `xml:"content"`
}

type atomContent struct {
	Type string `xml:"type,attr"`
	Base string `xml:"xml:base,attr,omitempty"`
	HTML string `xml:",chardata"`
}

// dispatch is one entry for the feed.
type dispatch struct {
	title, path, file, summary string
	begun, updated             time.Time
}

var _ = declare(filesOf[*Site]{path: "feed.xml", render: (*Site).feed})

func (s *Site) feed(string, *Site) ([]byte, error) {
	f := atomFeed{
		Language: cmp.Or(s.settings.Language.Text, "en"), Title: s.bookTitle(), ID: s.permanent(""), Author: atomAuthor{cmp.Or(s.settings.Keeper.Text, s.bookTitle())},
		Rights: s.settings.Copyright.Text,
	}
	f.Links = []atomLink{{Rel: "self", Type: "application/atom+xml", Href: cmp.Or(s.public("feed.xml"), "feed.xml")}, {Rel: "alternate", Type: "text/html", Href: cmp.Or(s.public("index.html"), "index.html")}}
	latest := time.Unix(0, 0).UTC()
	for _, d := range s.dispatches() {
		if d.updated.After(latest) {
			latest = d.updated
		}
		f.Entries = append(f.Entries, s.atomEntry(d))
	}
	f.Updated = latest.In(s.spell.zone).Format(time.RFC3339)
	var b bytes.Buffer
	b.WriteString(xml.Header)
	encoder := xml.NewEncoder(&b)
	encoder.Indent("", " ")
	if err := encoder.Encode(f); err != nil {
		return nil, fmt.Errorf("writing the feed: %w", err)
	}
	b.WriteByte('\n')
	return b.Bytes(), nil
}

// dispatches are the newest gyles that have begun, and notes.
func (s *Site) dispatches() []dispatch {
	var all []dispatch
	for _, g := range s.gyles {
		if !g.Begun.IsZero() && !g.Begun.After(s.book.Now) {
			all = append(all, dispatch{"Gyle " + g.Slug + ", " + beer(g), gylePath(g), g.File, g.Summary.Text, g.Begun, s.lastEvent(g)})
		}
	}
	for _, n := range s.notes {
		if n.note.On.Written() && !n.note.On.Time.After(s.book.Now) {
			all = append(all, dispatch{n.title(), notePath(n), n.note.File, n.note.Summary.Text, n.note.On.Time, n.note.On.Time})
		}
	}
	slices.SortStableFunc(all, func(a, b dispatch) int { return cmp.Or(b.begun.Compare(a.begun), strings.Compare(a.path, b.path)) })
	return all[:min(len(all), feedLength)]
}

func (s *Site) atomEntry(d dispatch) atomEntry {
	e := atomEntry{Title: d.title, ID: s.permanent(d.path), Published: d.begun.In(s.spell.zone).Format(time.RFC3339), Updated: d.updated.In(s.spell.zone).Format(time.RFC3339), Summary: d.summary}
	e.Links = []atomLink{{Rel: "alternate", Type: "text/html", Href: cmp.Or(s.public(d.path), escapePath(d.path))}}
	root := s.address()
	html := markdown.Place(s.story(d.file).html, root, root+escapePath(strings.TrimSuffix(d.path, "index.html")))
	e.Content = atomContent{Type: "html", HTML: strings.Map(xmlSafe, html)}
	return e
}

// xmlSafe leaves out what XML 1.0 has no way to write.
func xmlSafe(r rune) rune {
	if r < ' ' && r != '\t' && r != '\n' && r != '\r' || r == 0xFFFE || r == 0xFFFF {
		return -1
	}
	return r
}

// permanent is an id that lasts: the public address, or without one a urn of the
// journal's own title.
func (s *Site) permanent(path string) string {
	if s.address() != "" {
		return s.address() + escapePath(strings.TrimSuffix(path, "index.html"))
	}
	return "urn:gylebook:" + url.PathEscape(plainSlug(s.bookTitle())) + ":" + url.PathEscape(strings.TrimSuffix(path, "/index.html"))
}

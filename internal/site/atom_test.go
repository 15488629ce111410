package site

import (
	"encoding/xml"
	"fmt"
	"io"
	"net/url"
	"regexp"
	"slices"
	"strings"
	"testing"
	"time"
)

// The grammar of Atom, RFC 4287, as far as a feed of articles can break it: what
// may stand in what, how often, with which attributes. Sections are cited.

const atomNamespace = "http://www.w3.org/2005/Atom"

// atomElement is one element of a feed, read without knowing what it means.
type atomElement struct {
	XMLName  xml.Name
	Attrs    []xml.Attr    `xml:",any,attr"`
	Children []atomElement `xml:",any"`
	Text     string        `xml:",chardata"`
}

func (e atomElement) attr(name string) (string, bool) {
	for _, a := range e.Attrs {
		if a.Name.Local == name && a.Name.Space == "" {
			return a.Value, true
		}
	}
	return "", false
}

// atomRule is what the standard says of one element.
type atomRule struct {
	children map[string]string // by name, how often: 1, ? or *
	attrs    []string          // those it may have beside xml:base and xml:lang
	needs    []string          // those it must have
	text     *regexp.Regexp    // its text must be so; nil for no matter
}

var (
	anyText  = regexp.MustCompile(`(?s)\S`)
	atomDate = regexp.MustCompile(`^\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d(\.\d+)?(Z|[+-]\d\d:\d\d)$`) // 3.3
	textOf   = atomRule{attrs: []string{"type"}, text: anyText}                                // 3.1
	personOf = atomRule{children: map[string]string{"name": "1", "uri": "?", "email": "?"}}    // 3.2
	plainOf  = atomRule{text: anyText}
	dateOf   = atomRule{text: atomDate}
)

// atomGrammar is by element, with its parent where the parent decides.
var atomGrammar = map[string]atomRule{
	"feed": {children: map[string]string{ // 4.1.1
		"author": "*", "category": "*", "contributor": "*", "generator": "?", "icon": "?", "id": "1", "link": "*",
		"logo": "?", "rights": "?", "subtitle": "?", "title": "1", "updated": "1", "entry": "*",
	}},
	"entry": {children: map[string]string{ // 4.1.2
		"author": "*", "category": "*", "content": "?", "contributor": "*", "id": "1", "link": "*", "published": "?",
		"rights": "?", "source": "?", "summary": "?", "title": "1", "updated": "1",
	}},
	"content": {attrs: []string{"type", "src"}},  // 4.1.3
	"author":  personOf, "contributor": personOf, // 4.2.1, 4.2.3
	"category":  {attrs: []string{"term", "scheme", "label"}, needs: []string{"term"}},                      // 4.2.2
	"generator": {attrs: []string{"uri", "version"}, text: anyText},                                         // 4.2.4
	"icon":      plainOf, "id": plainOf, "logo": plainOf, "name": plainOf, "uri": plainOf, "email": plainOf, // 4.2.5 to 4.2.8
	"link":      {attrs: []string{"href", "rel", "type", "hreflang", "title", "length"}, needs: []string{"href"}}, // 4.2.7
	"published": dateOf, "updated": dateOf,                                                                        // 4.2.9, 4.2.15
	"rights": textOf, "subtitle": textOf, "summary": textOf, "title": textOf, // 4.2.10 to 4.2.14
}

// atomFaults are where a feed is not as RFC 4287 has it.
func atomFaults(feed string) []string {
	var root atomElement
	if err := xml.NewDecoder(strings.NewReader(feed)).Decode(&root); err != nil && err != io.EOF {
		return []string{err.Error()}
	}
	if root.XMLName.Local != "feed" {
		return []string{"the root is " + root.XMLName.Local}
	}
	faults := root.faults("")
	authored := slices.ContainsFunc(root.Children, func(e atomElement) bool { return e.XMLName.Local == "author" })
	for _, e := range root.Children {
		if e.XMLName.Local == "entry" {
			faults = append(faults, e.entryFaults(authored)...)
		}
	}
	return append(faults, root.alternateFaults()...)
}

// faults are those of an element and of all in it.
func (e atomElement) faults(path string) []string {
	path += "/" + e.XMLName.Local
	if e.XMLName.Space != atomNamespace {
		return nil // 6.3: foreign markup may stand anywhere
	}
	rule, known := atomGrammar[e.XMLName.Local]
	if !known {
		return []string{path + " is no element of Atom"}
	}
	var all []string
	say := func(format string, args ...any) { all = append(all, path+": "+fmt.Sprintf(format, args...)) }
	for _, a := range e.Attrs {
		own := a.Name.Space == "" && a.Name.Local != "xmlns"
		if own && !slices.Contains(rule.attrs, a.Name.Local) {
			say("no attribute %s", a.Name.Local)
		}
	}
	for _, need := range rule.needs {
		if _, has := e.attr(need); !has {
			say("wants %s", need)
		}
	}
	if kind, has := e.attr("type"); has && e.XMLName.Local != "link" && e.XMLName.Local != "content" && !slices.Contains([]string{"text", "html", "xhtml"}, kind) {
		say("no type %s", kind)
	}
	if rule.text != nil && !rule.text.MatchString(e.Text) {
		say("is %q", e.Text)
	}
	counts := map[string]int{}
	for _, child := range e.Children {
		all = append(all, child.faults(path)...)
		if child.XMLName.Space == atomNamespace {
			counts[child.XMLName.Local]++
		}
	}
	for name, n := range counts {
		if often := rule.children[name]; often == "" || often != "*" && n > 1 {
			say("%d times %s", n, name)
		}
	}
	for name, often := range rule.children {
		if often == "1" && counts[name] == 0 {
			say("no %s", name)
		}
	}
	return all
}

// entryFaults are those that one rule of its children does not show: an author
// (4.1.2), a whole address for its id (4.2.6), content or an alternate link.
func (e atomElement) entryFaults(authored bool) []string {
	var all []string
	content, alternate := false, false
	for _, c := range e.Children {
		switch c.XMLName.Local {
		case "author":
			authored = true
		case "content":
			content = true
		case "link":
			rel, has := c.attr("rel")
			alternate = alternate || !has || rel == "alternate"
		case "id":
			if u, err := url.Parse(c.Text); err != nil || !u.IsAbs() {
				all = append(all, fmt.Sprintf("the id %q is no whole address", c.Text))
			}
		case "updated":
			if _, err := time.Parse(time.RFC3339, c.Text); err != nil {
				all = append(all, err.Error())
			}
		}
	}
	if !authored {
		all = append(all, "an entry without an author")
	}
	if !content && !alternate {
		all = append(all, "an entry with neither content nor an alternate link")
	}
	return append(all, e.alternateFaults()...)
}

// alternateFaults: at most one alternate link of a type and language (4.1.1).
func (e atomElement) alternateFaults() []string {
	var all []string
	seen := map[string]bool{}
	for _, c := range e.Children {
		rel, has := c.attr("rel")
		if c.XMLName.Local != "link" || has && rel != "alternate" {
			continue
		}
		kind, _ := c.attr("type")
		language, _ := c.attr("hreflang")
		if seen[kind+" "+language] {
			all = append(all, "two alternate links of one type and language")
		}
		seen[kind+" "+language] = true
	}
	return all
}

func TestTheFeedIsAsRFC4287HasIt(t *testing.T) {
	_, pages := demoSite(t)
	for _, fault := range atomFaults(pages["feed.xml"]) {
		t.Error(fault)
	}
	files := archive(t, "testdata/site/small.txtar")
	files["index.md"].Data = []byte("---\njournal: No address\n---\n")
	for _, fault := range atomFaults(page(t, build(t, files, Options{}), "feed.xml")) {
		t.Errorf("without an address: %s", fault)
	}
}

// TestAtomFaultsAreFound: the grammar itself finds what is wrong.
func TestAtomFaultsAreFound(t *testing.T) {
	const entry = `<entry><id>https://a.example/1</id><title>T</title><updated>2026-06-01T12:00:00Z</updated><content type="html">x</content></entry>`
	feed := func(in string) string {
		return `<feed xmlns="http://www.w3.org/2005/Atom"><id>https://a.example/</id><title>F</title><updated>2026-06-01T12:00:00Z</updated>` + in + `</feed>`
	}
	const author = `<author><name>A</name></author>`
	if faults := atomFaults(feed(author + entry)); len(faults) > 0 {
		t.Errorf("a sound feed: %v", faults)
	}
	for what, bad := range map[string]string{
		"no author":         feed(entry),
		"two titles":        feed(author + `<title>Again</title>` + entry),
		"an unknown one":    feed(author + `<colour>red</colour>` + entry),
		"a loose date":      feed(author + strings.Replace(entry, "2026-06-01T12:00:00Z", "1 June 2026", 1)),
		"no id":             feed(author + strings.Replace(entry, "<id>https://a.example/1</id>", "", 1)),
		"half an id":        feed(author + strings.Replace(entry, "https://a.example/1", "/1", 1)),
		"a link to nothing": feed(author + `<link rel="self"/>` + entry),
		"two alternates":    feed(author + `<link href="https://a.example/"/><link href="https://b.example/"/>` + entry),
		"nothing to read":   feed(author + strings.Replace(entry, `<content type="html">x</content>`, "", 1)),
		"a nameless author": feed(`<author><uri>https://a.example/</uri></author>` + entry),
	} {
		if len(atomFaults(bad)) == 0 {
			t.Errorf("%s: nothing is wrong with it", what)
		}
	}
}

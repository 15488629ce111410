package site

import (
	"net/url"
	"path"
	"regexp"
	"strings"
	"testing"

	"golang.org/x/net/html"
)

// element is what the checks ask of one element.
type element struct {
	name       string
	attributes map[string]string
}

// elements are the elements of a page in order.
func elements(page string) []element {
	var all []element
	tokens := html.NewTokenizer(strings.NewReader(page))
	for {
		switch tokens.Next() {
		case html.ErrorToken:
			return all
		case html.StartTagToken, html.SelfClosingTagToken:
			token := tokens.Token()
			e := element{token.Data, map[string]string{}}
			for _, a := range token.Attr {
				e.attributes[a.Key] = a.Val
			}
			all = append(all, e)
		}
	}
}

// links are the addresses of a page.
func links(page string) []string {
	var all []string
	for _, e := range elements(page) {
		for _, name := range []string{"href", "src"} {
			if v, ok := e.attributes[name]; ok {
				all = append(all, v)
			}
		}
		for _, candidate := range strings.Split(e.attributes["srcset"], ",") {
			if address, _, ok := strings.Cut(strings.TrimSpace(candidate), " "); ok {
				all = append(all, address)
			}
		}
		if _, to, ok := strings.Cut(e.attributes["content"], "; url="); ok && e.name == "meta" {
			all = append(all, to)
		}
	}
	return all
}

// TestEveryLinkLeadsSomewhere follows every link within the demonstration site,
// to the file and to the id.
func TestEveryLinkLeadsSomewhere(t *testing.T) {
	_, pages := demoSite(t)
	checkLinks(t, pages)
}

func checkLinks(t *testing.T, pages map[string]string) {
	t.Helper()
	ids := map[string]map[string]bool{}
	for name, page := range pages {
		if path.Ext(name) != ".html" {
			continue
		}
		ids[name] = map[string]bool{}
		for _, e := range elements(page) {
			if id, ok := e.attributes["id"]; ok {
				if ids[name][id] {
					t.Errorf("%s has the id %q twice", name, id)
				}
				ids[name][id] = true
			}
		}
	}
	checked := 0
	for name, page := range pages {
		if path.Ext(name) != ".html" {
			continue
		}
		for _, link := range links(page) {
			u, err := url.Parse(link)
			if err != nil {
				t.Errorf("%s: %q is no address", name, link)
				continue
			}
			if u.Scheme != "" {
				if strings.HasPrefix(link, "https://sluicehouse.example/book/") && !strings.Contains(page, `rel="canonical" href="`+link) {
					t.Errorf("%s: the link %q is not relative", name, link)
				}
				continue
			}
			if name == "404.html" {
				// It is served at any depth, so its links begin at the site's own path.
				if !strings.HasPrefix(link, "/book/") && !strings.HasPrefix(link, "#") {
					t.Errorf("%s: the link %q does not begin at the site", name, link)
				}
				continue
			}
			if strings.HasPrefix(link, "/") {
				t.Errorf("%s: the link %q begins at the root", name, link)
				continue
			}
			to := name
			if u.Path != "" {
				to = path.Join(path.Dir(name), u.Path)
			}
			if _, ok := pages[to]; !ok {
				t.Errorf("%s: the link %q leads to %s, which is not there", name, link, to)
			} else if u.Fragment != "" && !ids[to][u.Fragment] {
				t.Errorf("%s: the link %q leads to an id that %s has not", name, link, to)
			}
			checked++
		}
	}
	if checked < 50 {
		t.Errorf("only %d links were found", checked)
	}
}

// TestPagesAreSound checks what every page must have: a language, one first
// heading, headings in order, landmarks, words for pictures, scopes for header
// cells, no styles or scripts of its own.
func TestPagesAreSound(t *testing.T) {
	_, pages := demoSite(t)
	for name, page := range pages {
		if path.Ext(name) == ".html" {
			t.Run(name, func(t *testing.T) { checkPage(t, page) })
		}
	}
}

var headingName = regexp.MustCompile(`^h[1-6]$`)

func checkPage(t *testing.T, page string) {
	t.Helper()
	if !strings.HasPrefix(page, "<!doctype html>\n<html lang=\"en") {
		t.Error("no doctype and language")
	}
	count := map[string]int{}
	last := 0
	chart := regexp.MustCompile(`(?s)<svg.*?</svg>`)
	for _, e := range elements(chart.ReplaceAllString(page, "")) {
		count[e.name]++
		if headingName.MatchString(e.name) {
			level := int(e.name[1] - '0')
			if level > last+1 {
				t.Errorf("h%d after h%d", level, last)
			}
			last = level
		}
		switch e.name {
		case "img":
			if e.attributes["width"] == "" || e.attributes["height"] == "" || e.attributes["alt"] == "" {
				t.Errorf("a picture without size or words: %v", e.attributes)
			}
		case "th":
			if e.attributes["scope"] == "" {
				t.Errorf("a header cell without scope: %v", e.attributes)
			}
		case "script":
			if e.attributes["src"] == "" && e.attributes["type"] != "application/ld+json" {
				t.Error("a script in the page")
			}
		case "style":
			t.Error("a style in the page")
		}
		for name := range e.attributes {
			if name == "style" || strings.HasPrefix(name, "on") {
				t.Errorf("<%s %s=…>", e.name, name)
			}
		}
	}
	for _, one := range []string{"h1", "main", "title", "header"} {
		if count[one] != 1 {
			t.Errorf("%d of <%s>", count[one], one)
		}
	}
	if count["nav"] < 1 || count["footer"] < 1 || !strings.Contains(page, "home-brewed, not for sale") && !strings.Contains(page, "Home-brewed, not for sale") {
		t.Error("no navigation or foot")
	}
	if strings.Contains(page, "ZgotmplZ") || strings.Contains(page, "<no value>") || strings.Contains(page, "NaN") {
		t.Error("a template filled something with nothing")
	}
	checkNesting(t, page)
}

// void are the elements without an end.
var void = map[string]bool{"meta": true, "link": true, "img": true, "br": true, "hr": true, "input": true, "circle": true, "path": true, "rect": true, "line": true}

// checkNesting holds every element to be closed where it was opened.
func checkNesting(t *testing.T, page string) {
	t.Helper()
	var open []string
	tokens := html.NewTokenizer(strings.NewReader(page))
	for {
		kind := tokens.Next()
		token := tokens.Token()
		switch kind {
		case html.ErrorToken:
			if len(open) > 0 {
				t.Errorf("never closed: %v", open)
			}
			return
		case html.StartTagToken:
			if !void[token.Data] {
				open = append(open, token.Data)
			}
			if inner, ok := paragraphsHold(open); ok {
				t.Errorf("<%s> in a paragraph", inner)
			}
		case html.EndTagToken:
			if void[token.Data] {
				continue
			}
			if len(open) == 0 || open[len(open)-1] != token.Data {
				t.Errorf("</%s> closes %v", token.Data, open)
				return
			}
			open = open[:len(open)-1]
		}
	}
}

// paragraphsHold tells whether the innermost element may not stand in a
// paragraph that is open: a browser would close the paragraph before it.
func paragraphsHold(open []string) (string, bool) {
	inner := open[len(open)-1]
	switch inner {
	case "p", "div", "ul", "ol", "table", "figure", "section", "pre", "blockquote", "details", "h2", "h3", "h4", "dl":
	default:
		return "", false
	}
	for _, name := range open[:len(open)-1] {
		if name == "p" {
			return inner, true
		}
	}
	return "", false
}

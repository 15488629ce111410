package markdown

import (
	"bytes"
	"cmp"
	"fmt"
	"slices"
	"strings"

	"github.com/yuin/goldmark/parser"
	"github.com/yuin/goldmark/text"
)

// The two places that Place fills: the way from a page to the top of the site,
// and the page that the body itself is on.
const (
	Root = "\x01"
	Own  = "\x02"
)

// Resolver knows what the text's links and pictures lead to.
type Resolver interface {
	// Link is where a destination leads. It is asked only for destinations that
	// cannot run anything.
	Link(destination string) Target
	// Picture is the picture of a destination.
	Picture(destination string) Picture
}

// Target is where a link leads.
type Target struct {
	// Href is the address, "" where the link leads nowhere: then its words stay.
	Href string
	// Text fills a link that has no words of its own.
	Text string
	// Class is the link's class, "" for none.
	Class string
	// Fault is what is wrong with it, the zero Fault for nothing.
	Fault Fault
}

// Picture is a picture as it is shown.
type Picture struct {
	Src           string // "" where there is none to show
	SrcSet        string
	Sizes         string
	Width, Height int
	Name          string // for the box in place of a picture that cannot be shown
	// Link is the address to offer in the box, "" for none.
	Link  string
	Fault Fault
}

// Fault is something wrong in the text. Line and Column count from 1 in the
// body, columns in characters; the Resolver leaves them out.
type Fault struct {
	Line, Column int
	ID           string
	Says         string
	Why          string
	Do           string
}

// Story is the text to render.
type Story struct {
	Text string
	// Prefix begins the ids of its footnotes.
	Prefix string
	// Level is that of its topmost heading.
	Level int
}

// Rendered is a story in HTML.
type Rendered struct {
	HTML   string // with Root and Own in it
	Faults []Fault
	// IDs are the ids of its headings.
	IDs []string
	// Links are the links that lead somewhere, in order.
	Links []Link
	// Words is its plain text, for the search and for excerpts.
	Words string
}

// Link is one link of a story.
type Link struct {
	Line, Column int
	Destination  string
	Href         string
}

// Place is the HTML with real addresses: root is the way to the top of the
// site, "" or ending in a slash; own is the address of the page the body is on,
// "" where the HTML stands on that page. They are escaped: the public address is
// whatever the keeper of the journal wrote.
func Place(html, root, own string) string {
	if strings.Contains(html, Root) {
		html = strings.ReplaceAll(html, Root, escape(root))
	}
	if strings.Contains(html, Own) {
		html = strings.ReplaceAll(html, Own, escape(own))
	}
	return html
}

// Render renders a story. It does not fail: what cannot be rendered is shown as
// it was typed.
func Render(story Story, resolver Resolver) (out Rendered) {
	clean, faults := tame(story.Text)
	job := &job{source: clean, resolver: resolver, level: max(story.Level, 1), faults: faults}
	job.lines = lineStarts(clean)
	defer func() {
		// A bug of the Markdown library must not take the site with it.
		if r := recover(); r != nil {
			out = Rendered{HTML: plain(clean), Words: string(clean), Faults: append(faults, Fault{Line: 1, Column: 1, ID: "story-unreadable",
				Says: fmt.Sprintf("the story could not be laid out (%v) and is shown as it was typed", r), Do: "Look for unusual Markdown in it."})}
		}
	}()
	context := parser.NewContext()
	context.Set(jobKey, job)
	tree := engine().Parser().Parse(text.NewReader(clean), parser.WithContext(context))
	tree.OwnerDocument().AddMeta(prefixMeta, story.Prefix)
	var buffer bytes.Buffer
	if err := engine().Renderer().Render(&buffer, clean, tree); err != nil {
		panic(err)
	}
	slices.SortStableFunc(job.faults, func(a, b Fault) int {
		return cmp.Or(cmp.Compare(a.Line, b.Line), cmp.Compare(a.Column, b.Column))
	})
	// Only footnotes write links to ids by themselves.
	html := strings.ReplaceAll(buffer.String(), `<a href="#`, `<a href="`+Own+`#`)
	return Rendered{HTML: html, Faults: job.faults, IDs: job.ids, Links: job.links, Words: plainWords(tree, clean)}
}

// plain is text as it was typed.
func plain(source []byte) string {
	var b strings.Builder
	b.WriteString(`<pre class="typed">`)
	writeEscaped(&b, source)
	b.WriteString("</pre>\n")
	return b.String()
}

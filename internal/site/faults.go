package site

import (
	"fmt"
	"html"
	"net/url"
	"strings"

	"gylebook/internal/site/view"
)

// NotFoundPage is 404.html, served for any address at which there is nothing.
type NotFoundPage struct{ view.Frame }

var _ = declare(pagesOf[*Site, NotFoundPage]{
	path: notFoundPath, template: "404.html", unlisted: true,
	fill: func(_ pageWriter, v *NotFoundPage, _ *Site) { v.Title = "Nothing here" },
})

const notFoundPath = "404.html"

// rootAnywhere is the way to the top of the site from an address at any depth: the
// path of the public address, where there is one.
func (s *Site) rootAnywhere() string {
	if s.options.Live {
		return "/"
	}
	if u, err := url.Parse(s.address()); err == nil && u.Host != "" {
		return u.EscapedPath()
	}
	return ""
}

// guarded is a page that a fault of ours costs no more than itself: an HTML page
// that cannot be made says so, and the rest of the site stands. Any other file
// gives an error.
func guarded(p Page) Page {
	render := p.Render
	p.Render = func() (data []byte, err error) {
		defer func() {
			if fault := recover(); fault != nil {
				err = fmt.Errorf("a fault of this program: %v", fault)
			}
			if err != nil && strings.HasSuffix(p.Path, ".html") {
				data, err = sorry(err), nil
			}
		}()
		return render()
	}
	return p
}

// sorry is the page in place of one that could not be made.
func sorry(fault error) []byte {
	return []byte("<!doctype html>\n<html lang=\"en\"><head><meta charset=\"utf-8\"><title>This page could not be made</title></head>\n" +
		"<body><main><h1>This page could not be made</h1>\n<p>" + html.EscapeString(fault.Error()) + "</p></main></body></html>\n")
}

package site

import (
	"fmt"
	"html"
	"strings"
)

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

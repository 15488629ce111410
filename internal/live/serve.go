package live

import (
	_ "embed"
	"fmt"
	"net/http"
	"net/url"
	"path"
	"strconv"
	"strings"
)

//go:embed live.js
var script []byte

// ServeHTTP answers with the script, the stream of news, or a page of the last
// build.
func (s *bookServer) ServeHTTP(w http.ResponseWriter, r *http.Request) {
	switch r.URL.Path {
	case "/live.js":
		write(w, "live.js", http.StatusOK, script)
	case "/live-events":
		s.stream(w, r)
	default:
		s.last.Load().ServeHTTP(w, r)
	}
}

// ServeHTTP answers with the page of the path: a folder's is its index.html, and
// a folder asked for without its slash is sent on to it, so that the page's
// relative links hold.
func (e *edition) ServeHTTP(w http.ResponseWriter, r *http.Request) {
	name := pagePath(strings.TrimPrefix(r.URL.Path, "/"))
	if p := e.page(name); p != nil {
		e.write(w, r, name, p, http.StatusOK)
		return
	}
	if e.page(name+"/index.html") != nil {
		to := url.URL{Path: "/" + name + "/", RawQuery: r.URL.RawQuery}
		http.Redirect(w, r, to.String(), http.StatusFound)
		return
	}
	if p := e.page(nothingHere); p != nil {
		e.write(w, r, nothingHere, p, http.StatusNotFound)
		return
	}
	http.NotFound(w, r)
}

// write answers with one page of the edition.
func (e *edition) write(w http.ResponseWriter, r *http.Request, name string, p *page, status int) {
	body, err := p.bytes()
	if err != nil {
		http.Error(w, fmt.Sprintf("The page %s could not be made: %v", name, err), http.StatusInternalServerError)
		return
	}
	w.Header().Set("ETag", `"`+p.tag+`"`)
	if !strings.HasSuffix(name, ".html") {
		w.Header().Set("Cache-Control", "no-cache") // kept, and asked about each time
	}
	if status == http.StatusOK && asksFor(r, p.tag) {
		w.WriteHeader(http.StatusNotModified)
		return
	}
	w.Header().Set("Server-Timing", `page;desc="`+p.tag+`"`) // a header that the script of a page just loaded may read
	write(w, name, status, body)
}

// asksFor tells that who asks has the version of a tag already (RFC 9110, 13.1.2).
func asksFor(r *http.Request, tag string) bool {
	for _, known := range strings.Split(r.Header.Get("If-None-Match"), ",") {
		if known = strings.TrimPrefix(strings.TrimSpace(known), "W/"); known == "*" || known == `"`+tag+`"` {
			return true
		}
	}
	return false
}

func write(w http.ResponseWriter, name string, status int, body []byte) {
	w.Header().Set("Content-Type", typeOf(name))
	w.Header().Set("Content-Length", strconv.Itoa(len(body)))
	w.WriteHeader(status)
	w.Write(body)
}

// types are the media types of what a site is made of. They are listed here
// because the system's own table differs from one machine to the next.
var types = map[string]string{
	".html": "text/html; charset=utf-8", ".css": "text/css; charset=utf-8", ".js": "text/javascript; charset=utf-8",
	".json": "application/json", ".xml": "application/xml", ".ics": "text/calendar; charset=utf-8",
	".txt": "text/plain; charset=utf-8", ".md": "text/markdown; charset=utf-8", ".csv": "text/csv; charset=utf-8",
	".svg": "image/svg+xml", ".png": "image/png", ".jpg": "image/jpeg", ".jpeg": "image/jpeg", ".webp": "image/webp",
	".gif": "image/gif", ".pdf": "application/pdf",
}

func typeOf(name string) string {
	if t, known := types[strings.ToLower(path.Ext(name))]; known {
		return t
	}
	return "application/octet-stream"
}

package live

import (
	"net/http"
	"strings"
	"testing"
)

func TestWhatIsServed(t *testing.T) {
	s := serve(t, map[string]string{
		"index.md": settings, "gyles/1.md": entry("An Ale", "Words."), "secret.txt": "not linked to",
	})
	// What http.Get follows is the redirect of a folder without its slash.
	cases := []struct {
		path   string
		status int
		kind   string
	}{
		{"", 200, "text/html; charset=utf-8"},
		{"index.html", 200, "text/html; charset=utf-8"},
		{"gyles/1/", 200, "text/html; charset=utf-8"},
		{"gyles/1", 200, "text/html; charset=utf-8"},
		{"gyles/1/figures.json", 200, "application/json"},
		{"style.css", 200, "text/css; charset=utf-8"},
		{"live.js", 200, "text/javascript; charset=utf-8"},
		{"feed.xml", 200, "application/xml"},
		{"calendar.ics", 200, "text/calendar; charset=utf-8"},
		{"gyles/99/", 404, "text/html; charset=utf-8"},
		{"secret.txt", 404, "text/html; charset=utf-8"},
		{"index.md", 404, "text/html; charset=utf-8"},
		{"gyles/1.md", 404, "text/html; charset=utf-8"},
		{"..%2f..%2fetc/passwd", 404, "text/html; charset=utf-8"},
		{"%2fevil.example/", 404, "text/html; charset=utf-8"},
	}
	for _, c := range cases {
		answer, err := http.Get(s.address + c.path)
		if err != nil {
			t.Fatal(err)
		}
		answer.Body.Close()
		if got := answer.Header.Get("Content-Type"); answer.StatusCode != c.status || got != c.kind {
			t.Errorf("/%s answers %d of type %s, want %d of type %s", c.path, answer.StatusCode, got, c.status, c.kind)
		}
	}
}

func TestPagesAskForTheScript(t *testing.T) {
	s := serve(t, map[string]string{"index.md": settings, "gyles/1.md": entry("An Ale", "Words.")})
	for _, path := range []string{"", "gyles/1/"} {
		if _, body := s.get(path); !strings.Contains(body, `live.js"`) {
			t.Errorf("/%s does not ask for live.js", path)
		}
	}
}

package live

import (
	"bufio"
	"fmt"
	"net"
	"net/http"
	"net/http/httptest"
	"os"
	"strings"
	"sync/atomic"
	"testing"
	"testing/fstest"
	"time"

	"gylebook/internal/book"
	"gylebook/internal/journal"
	"gylebook/internal/site"
)

func TestConditionalRequests(t *testing.T) {
	s := serve(t, map[string]string{"index.md": settings, "gyles/1.md": entry("An Ale", "Words.")})
	for _, path := range []string{"gyles/1/", "style.css"} {
		ask := func(known string) (status int, tag string, length int64) {
			request, err := http.NewRequest(http.MethodGet, s.address+path, nil)
			if err != nil {
				t.Fatal(err)
			}
			if known != "" {
				request.Header.Set("If-None-Match", known)
			}
			answer, err := http.DefaultClient.Do(request)
			if err != nil {
				t.Fatal(err)
			}
			defer answer.Body.Close()
			return answer.StatusCode, answer.Header.Get("ETag"), answer.ContentLength
		}
		_, tag, _ := ask("")
		for _, known := range []string{tag, `"other", W/` + tag, "*"} {
			if status, again, length := ask(known); status != http.StatusNotModified || again != tag || length > 0 {
				t.Errorf("%s, known as %s: %d, tag %s, %d bytes", path, known, status, again, length)
			}
		}
		if status, _, _ := ask(`"another"`); status != http.StatusOK {
			t.Errorf("%s, known as another: %d", path, status)
		}
	}
}

// TestABodyIsNotWaitedFor: who announces a body and never sends it holds nothing up.
func TestABodyIsNotWaitedFor(t *testing.T) {
	s := serve(t, map[string]string{"index.md": settings})
	host := strings.TrimSuffix(strings.TrimPrefix(s.address, "http://"), "/")
	c, err := net.Dial("tcp", host)
	if err != nil {
		t.Fatal(err)
	}
	defer c.Close()
	c.SetDeadline(time.Now().Add(patience))
	fmt.Fprintf(c, "GET / HTTP/1.1\r\nHost: %s\r\nContent-Length: 1000000\r\n\r\nx", host)
	answer, err := http.ReadResponse(bufio.NewReader(c), nil)
	if err != nil || answer.StatusCode != http.StatusOK || !answer.Close {
		t.Fatalf("answered %v, %v", answer, err)
	}
	for buffer := make([]byte, 1<<16); err == nil; {
		_, err = c.Read(buffer)
	}
	if wait, is := err.(net.Error); is && wait.Timeout() {
		t.Error("the connection stays open")
	}
}

// TestTheJournalIsMovedAndReplaced: while it is away the last pages stand; whatever comes in
// its place is shown.
func TestTheJournalIsMovedAndReplaced(t *testing.T) {
	s := serve(t, map[string]string{"index.md": settings, "gyles/1.md": entry("An Ale", "Words.")})
	away := s.dir + "-away"
	s.must(os.Rename(s.dir, away))
	time.Sleep(2 * polling)
	if _, body := s.get("gyles/1/"); !strings.Contains(body, "An Ale") {
		t.Error("the page went with the folder")
	}
	s.must(os.MkdirAll(s.dir, 0o755))
	s.write("index.md", settings)
	for i := range 2000 {
		text := strings.Replace(entry(fmt.Sprintf("Other %d", i), "Other words."), "gyle: 1", fmt.Sprintf("gyle: %d", i+2), 1)
		s.write(fmt.Sprintf("gyles/%d.md", i+2), text)
	}
	has := func(path, words string) func() bool {
		return func() bool { _, body := s.get(path); return strings.Contains(body, words) }
	}
	for end := time.Now().Add(10 * patience); time.Now().Before(end) && !has("gyles/2001/", "Other 1999")(); {
		time.Sleep(50 * time.Millisecond)
	}
	s.eventually("the other journal is shown", has("gyles/2001/", "Other 1999"))
	s.eventually("the first is not", func() bool { return !has("gyles/1/", "An Ale")() })
	s.must(os.RemoveAll(s.dir))
	s.must(os.Rename(away, s.dir))
	s.eventually("the first is back", has("gyles/1/", "An Ale"))
}

// TestTheClockIsSetBack: nothing ends, and a save is still seen.
func TestTheClockIsSetBack(t *testing.T) {
	var back atomic.Int64
	dir := t.TempDir()
	first := &served{t: t, dir: dir}
	first.write("index.md", settings)
	first.write("gyles/1.md", entry("An Ale", "Words."))
	s := serveFolder(t, dir, func(o *Options) {
		o.Now = func() time.Time { return noon.Add(-time.Duration(back.Load())) }
	})
	back.Store(int64(40 * 24 * time.Hour))
	s.write("gyles/1.md", entry("An Ale", "Other words."))
	s.eventually("the save is shown", func() bool { _, body := s.get("gyles/1/"); return strings.Contains(body, "Other words.") })
	back.Store(0)
	s.write("gyles/1.md", entry("An Ale", "Third words."))
	s.eventually("the next one too", func() bool { _, body := s.get("gyles/1/"); return strings.Contains(body, "Third words.") })
}

// FuzzRequest: whatever is asked for, the answer is one of a few, and says no more than the
// book's pages.
func FuzzRequest(f *testing.F) {
	files := fstest.MapFS{
		"index.md": {Data: []byte(settings)}, "gyles/1.md": {Data: []byte(entry("An Ale", "Words."))},
		"secret.txt": {Data: []byte("hidden-from-all")},
	}
	b := book.Open(journal.Read(files, journal.Options{}), noon)
	made, err := site.Build(b, site.Options{Live: true, Files: files})
	if err != nil {
		f.Fatal(err)
	}
	s := &bookServer{news: newNews()}
	s.last.Store(&edition{book: b, site: made, pages: map[string]*page{}})
	handler := guarded(s, allowedHosts("127.0.0.1:4380", true))
	f.Add("GET", "/gyles/1/", "127.0.0.1:4380", "")
	f.Add("HEAD", "/../secret.txt", "localhost", `"x", W/"y"`)
	f.Add("GET", "/gyles/%2e%2e/search.json?q=\x00", "[::1]:1", "*")
	f.Add("POST", "//evil.example/", "evil.example", ",,")
	f.Fuzz(func(t *testing.T, method, target, host, known string) {
		request, err := http.ReadRequest(bufio.NewReader(strings.NewReader(
			method + " " + target + " HTTP/1.1\r\nHost: " + host + "\r\nIf-None-Match: " + known + "\r\n\r\n")))
		if err != nil || request.URL.Path == "/live-events" {
			return // refused before it comes to us; a stream, which stays open
		}
		answer := httptest.NewRecorder()
		handler.ServeHTTP(answer, request)
		switch answer.Code {
		case http.StatusOK, http.StatusFound, http.StatusNotModified, http.StatusForbidden, http.StatusNotFound,
			http.StatusMethodNotAllowed, http.StatusMisdirectedRequest:
		default:
			t.Errorf("%s %q: %d", method, target, answer.Code)
		}
		to := answer.Header().Get("Location")
		if strings.HasPrefix(to, "//") || to != "" && !strings.HasPrefix(to, "/") {
			t.Errorf("%q leads to %q", target, to)
		}
		if strings.Contains(answer.Body.String(), "hidden-from-all") {
			t.Errorf("%q shows what no page links to", target)
		}
	})
}

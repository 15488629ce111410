package live

import (
	"net"
	"net/http"
	"net/url"
	"runtime"
	"testing"
	"time"
)

// TestAThousandOpenStreams holds a thousand streams open, each of which must hear
// of a save; then they go away, and nothing is left of them.
func TestAThousandOpenStreams(t *testing.T) {
	s := serve(t, map[string]string{"index.md": settings, "gyles/1.md": entry("An Ale", "Words.")})
	before := runtime.NumGoroutine()
	u, err := url.Parse(s.address)
	s.must(err)
	var open []net.Conn
	for range 1000 {
		c, err := net.Dial("tcp", u.Host)
		s.must(err)
		_, err = c.Write([]byte("GET /live-events?page=/gyles/1/ HTTP/1.1\r\nHost: " + u.Host + "\r\n\r\n"))
		s.must(err)
		open = append(open, c)
	}
	news := s.listen("gyles/1/")
	next(t, news)
	start := time.Now()
	s.write("gyles/1.md", entry("An Ale", "Other words."))
	next(t, news)
	t.Logf("told in %v with a thousand other streams, none of which is read", time.Since(start))
	for _, c := range open {
		s.must(c.Close())
	}
	s.eventually("the streams are let go", func() bool { return runtime.NumGoroutine() < before+50 })
}

func TestTooManyStreamsAreRefused(t *testing.T) {
	n := newNews()
	for range mostReaders {
		if _, room := n.join("index.html"); !room {
			t.Fatal("refused too soon")
		}
	}
	if _, room := n.join("index.html"); room {
		t.Error("there is no end to them")
	}
}

func TestNewsNeverWait(t *testing.T) {
	n := newNews()
	r, _ := n.join("index.html")
	for _, page := range []string{"a", "b", "b", "c"} {
		n.tell("index.html", tags{page, "d"})
	}
	if got := <-r.latest; got.page != "c" {
		t.Errorf("a reader that was slow hears %q, want the latest", got.page)
	}
	if n.tell("index.html", tags{"c", "d"}) != 0 {
		t.Error("the same is told again")
	}
	n.leave("index.html", r)
	if len(n.paths()) != 0 {
		t.Error("a page that nobody shows is still rendered")
	}
}

func TestThePageSaysItsTag(t *testing.T) {
	s := serve(t, map[string]string{"index.md": settings, "gyles/1.md": entry("An Ale", "Words.")})
	answer, err := http.Get(s.address + "gyles/1/")
	s.must(err)
	answer.Body.Close()
	tag := answer.Header.Get("ETag")
	if got := next(t, s.listen("gyles/1/")); len(tag) != 18 || got[:16] != tag[1:17] {
		t.Errorf("the page's tag is %s, and the stream says %q", tag, got)
	}
}

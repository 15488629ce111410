package live

import (
	"fmt"
	"maps"
	"net/http"
	"slices"
	"strings"
	"sync"
	"time"
)

// tags are what a stream says: that of the page that it is for, as it is now, and that
// of the styles and scripts of all pages.
type tags struct{ page, dress string }

// news tells each open page when it is another than the one shown.
type news struct {
	mu      sync.Mutex
	readers map[string]map[*reader]bool // by path
	count   int
}

// reader is one open page. Its channel has one place, for the latest.
type reader struct {
	latest chan tags
	last   tags
}

// mostReaders bounds the streams that are open at once.
const mostReaders = 4096

func newNews() *news { return &news{readers: map[string]map[*reader]bool{}} }

// paths are those of all open pages.
func (n *news) paths() []string {
	n.mu.Lock()
	defer n.mu.Unlock()
	return slices.Sorted(maps.Keys(n.readers))
}

// tell sends to all that show a page what it is now, unless they know. It never
// waits: a reader that has not taken the last news yet gets these instead.
func (n *news) tell(path string, now tags) (sent int) {
	n.mu.Lock()
	defer n.mu.Unlock()
	for r := range n.readers[path] {
		if r.last == now {
			continue
		}
		r.last = now
		select {
		case <-r.latest:
		default:
		}
		r.latest <- now
		sent++
	}
	return sent
}

// join adds a reader of a path; false where there are too many.
func (n *news) join(path string) (*reader, bool) {
	n.mu.Lock()
	defer n.mu.Unlock()
	if n.count >= mostReaders {
		return nil, false
	}
	n.count++
	r := &reader{latest: make(chan tags, 1)}
	if n.readers[path] == nil {
		n.readers[path] = map[*reader]bool{}
	}
	n.readers[path][r] = true
	return r, true
}

func (n *news) leave(path string, r *reader) {
	n.mu.Lock()
	defer n.mu.Unlock()
	n.count--
	delete(n.readers[path], r)
	if len(n.readers[path]) == 0 {
		delete(n.readers, path)
	}
}

// A silent stream is written to every pulse, so that a page that went away is
// noticed; one that takes nothing for slow is dropped, and joins again by itself.
const (
	pulse = 20 * time.Second
	slow  = 10 * time.Second
)

// stream is server-sent events (HTML Living Standard, 9.2) for the page named in
// the query: at once what it is now, and then whenever that changes.
func (s *bookServer) stream(w http.ResponseWriter, r *http.Request) {
	path := pagePath(strings.TrimPrefix(r.URL.Query().Get("page"), "/"))
	reader, room := s.news.join(path)
	if !room {
		http.Error(w, "Too many pages are open.", http.StatusServiceUnavailable)
		return
	}
	defer s.news.leave(path, reader)
	w.Header().Set("Content-Type", "text/event-stream")
	s.news.tell(path, s.last.Load().newsOf(path))
	beat := time.NewTicker(pulse)
	defer beat.Stop()
	out := http.NewResponseController(w)
	for {
		text := ": still here\n\n"
		select {
		case <-r.Context().Done():
			return
		case now := <-reader.latest:
			text = fmt.Sprintf("retry: 1000\ndata: %s %s\n\n", now.page, now.dress)
		case <-beat.C:
		}
		out.SetWriteDeadline(time.Now().Add(slow)) // not every writer has one
		if _, err := fmt.Fprint(w, text); err != nil || out.Flush() != nil {
			return
		}
	}
}

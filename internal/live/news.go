package live

import (
	"fmt"
	"net/http"
	"sync"
	"time"
)

// news tells every open page the name of the latest edition.
type news struct {
	mu      sync.Mutex
	latest  string
	readers map[chan string]bool
}

func newNews() *news { return &news{readers: map[chan string]bool{}} }

// tell sends the name on. It never waits: a reader that has not taken the last
// name yet gets this one instead.
func (n *news) tell(name string) {
	n.mu.Lock()
	defer n.mu.Unlock()
	n.latest = name
	for reader := range n.readers {
		send(reader, name)
	}
}

// send puts name into a channel of one place, in the place of what is there.
func send(reader chan string, name string) {
	select {
	case <-reader:
	default:
	}
	reader <- name
}

// join gives a channel that has the latest name at once and each later one.
func (n *news) join() chan string {
	reader := make(chan string, 1)
	n.mu.Lock()
	defer n.mu.Unlock()
	n.readers[reader] = true
	reader <- n.latest
	return reader
}

func (n *news) leave(reader chan string) {
	n.mu.Lock()
	defer n.mu.Unlock()
	delete(n.readers, reader)
}

// pulse is how often a silent stream is written to, so that a page that went
// away is noticed.
const pulse = 20 * time.Second

// ServeHTTP is the stream of server-sent events (HTML Living Standard, 9.2).
func (n *news) ServeHTTP(w http.ResponseWriter, r *http.Request) {
	w.Header().Set("Content-Type", "text/event-stream")
	reader := n.join()
	defer n.leave(reader)
	beat := time.NewTicker(pulse)
	defer beat.Stop()
	out := http.NewResponseController(w)
	for {
		select {
		case <-r.Context().Done():
			return
		case name := <-reader:
			fmt.Fprintf(w, "retry: 1000\ndata: %s\n\n", name)
		case <-beat.C:
			fmt.Fprint(w, ": still here\n\n")
		}
		if out.Flush() != nil {
			return
		}
	}
}

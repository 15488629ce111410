package live

import (
	"bufio"
	"context"
	"errors"
	"io"
	"net"
	"net/http"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"
)

// patience is how long a test waits for what takes milliseconds; only a broken
// server uses it up.
const patience = 20 * time.Second

// noon is the clock of most tests.
var noon = time.Date(2026, 6, 1, 12, 0, 0, 0, time.UTC)

const settings = "---\njournal: A test book\n---\nWelcome.\n"

func entry(beer, story string) string {
	return "---\ngyle: 1\nbeer: " + beer + "\nbrewed: 2026-03-07\n---\n" + story + "\n"
}

// served is a server of a journal of its own, running.
type served struct {
	t       testing.TB
	dir     string
	address string // http://127.0.0.1:port/
	reports chan Rebuild
	stop    context.CancelFunc
	ended   chan error
}

// serve starts a server of a journal with these files, and stops it with the
// test.
func serve(t testing.TB, files map[string]string) *served {
	t.Helper()
	s := &served{t: t, dir: t.TempDir()}
	for name, text := range files {
		s.write(name, text)
	}
	return serveFolder(t, s.dir)
}

// serveFolder starts a server of a journal that is there, and stops it with the
// test.
func serveFolder(t testing.TB, dir string, also ...func(*Options)) *served {
	t.Helper()
	s := &served{t: t, dir: dir, reports: make(chan Rebuild, 20_000), ended: make(chan error, 1)}
	ctx, stop := context.WithCancel(context.Background())
	s.stop = stop
	started := make(chan string, 1)
	o := Options{
		Journal: s.dir, Address: "127.0.0.1:0", Version: "test",
		Now:     func() time.Time { return noon },
		Started: func(address string, loopback bool) { started <- address },
		Report:  func(r Rebuild) { s.reports <- r },
	}
	for _, set := range also {
		set(&o)
	}
	go func() { s.ended <- Serve(ctx, o) }()
	select {
	case s.address = <-started:
	case err := <-s.ended:
		t.Fatalf("the server did not start: %v", err)
	case <-time.After(10 * patience):
		t.Fatal("the server did not start")
	}
	t.Cleanup(s.end)
	return s
}

// end stops the server and holds it to stopping at once.
func (s *served) end() {
	s.stop()
	select {
	case err := <-s.ended:
		if err != nil {
			s.t.Errorf("the server ended with %v", err)
		}
		s.ended <- nil // for a second end
	case <-time.After(patience):
		s.t.Error("the server did not stop")
	}
}

func (s *served) write(name, text string) {
	s.t.Helper()
	path := filepath.Join(s.dir, name)
	if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
		s.t.Fatal(err)
	}
	if err := os.WriteFile(path, []byte(text), 0o644); err != nil {
		s.t.Fatal(err)
	}
}

// get is the status and body of a page.
func (s *served) get(path string) (int, string) {
	s.t.Helper()
	answer, err := http.Get(s.address + path)
	if err != nil {
		s.t.Fatal(err)
	}
	defer answer.Body.Close()
	body, err := io.ReadAll(answer.Body)
	if err != nil {
		s.t.Fatal(err)
	}
	return answer.StatusCode, string(body)
}

// until waits for a report of which the test holds.
func (s *served) until(what string, holds func(Rebuild) bool) Rebuild {
	s.t.Helper()
	timeout := time.After(patience)
	for {
		select {
		case r := <-s.reports:
			if holds(r) {
				return r
			}
		case <-timeout:
			s.t.Fatalf("no report of %s", what)
		}
	}
}

// listen opens the stream of news of a page and gives the tags it is told.
func (s *served) listen(page string) <-chan string {
	s.t.Helper()
	answer, err := http.Get(s.address + "live-events?page=/" + page)
	if err != nil {
		s.t.Fatal(err)
	}
	s.t.Cleanup(func() { answer.Body.Close() })
	if got := answer.Header.Get("Content-Type"); got != "text/event-stream" {
		s.t.Errorf("the stream is of type %q", got)
	}
	names := make(chan string, 100)
	go func() {
		defer close(names)
		lines := bufio.NewScanner(answer.Body)
		for lines.Scan() {
			if name, is := strings.CutPrefix(lines.Text(), "data: "); is {
				names <- name
			}
		}
	}()
	return names
}

func next(t testing.TB, names <-chan string) string {
	t.Helper()
	select {
	case name, open := <-names:
		if !open {
			t.Fatal("the stream ended")
		}
		return name
	case <-time.After(patience):
		t.Fatal("no news")
	}
	return ""
}

func TestAFileInANewFolderIsSeen(t *testing.T) {
	s := serve(t, map[string]string{"index.md": settings})
	s.write("gyles/of/this/year/1.md", entry("Deep Ale", "Found."))
	s.until("the new file", func(r Rebuild) bool {
		status, body := s.get("gyles/1/")
		return status == http.StatusOK && strings.Contains(body, "Deep Ale")
	})
}

func TestErrorsAreNewThenCured(t *testing.T) {
	whole := entry("An Ale", "Words.")
	s := serve(t, map[string]string{"index.md": settings, "gyles/1.md": whole})
	s.until("the start", func(r Rebuild) bool { return r.First })

	s.write("gyles/1.md", strings.Replace(whole, "brewed:", "brwed:", 1))
	bad := s.until("the mistake", func(r Rebuild) bool { return len(r.New) > 0 })
	if n := bad.New[0]; n.ID != "unknown-key" || n.Place.Line != 4 {
		t.Errorf("the mistake is reported as %v", n)
	}
	s.write("gyles/1.md", whole)
	s.until("the cure", func(r Rebuild) bool { return len(r.Cured) > 0 && r.Cured[0].ID == "unknown-key" })
}

func TestEditorsDroppingsAreNoSave(t *testing.T) {
	s := serve(t, map[string]string{"index.md": settings, "gyles/1.md": entry("An Ale", "Words.")})
	for _, name := range []string{"gyles/.1.md.swp", "gyles/1.md~", "gyles/#1.md#", "gyles/.#1.md", "gyles/4913.tmp"} {
		s.write(name, "nothing")
	}
	if err := os.Chmod(filepath.Join(s.dir, "gyles/1.md"), 0o600); err != nil {
		t.Fatal(err)
	}
	s.write("gyles/1.md", entry("Another Ale", "Words."))
	r := s.until("the save", func(r Rebuild) bool { return !r.First })
	if len(r.Changed) != 1 || r.Changed[0] != "gyles/1.md" {
		t.Errorf("%q are reported as saved, want only gyles/1.md", r.Changed)
	}
}

func TestDraftsAreShown(t *testing.T) {
	s := serve(t, map[string]string{"index.md": settings, "gyles/1.md": strings.Replace(entry("Draft Ale", "Words."), "beer:", "draft: true\nbeer:", 1)})
	if status, _ := s.get("gyles/1/"); status != http.StatusOK {
		t.Errorf("a draft's page answers %d", status)
	}
}

func TestTheServerStopsThoughPagesAreOpen(t *testing.T) {
	s := serve(t, map[string]string{"index.md": settings})
	names := s.listen("gyles/1/")
	next(t, names)
	s.end()
	if _, open := <-names; open {
		t.Error("the stream went on")
	}
}

func TestATakenPortIsToldApart(t *testing.T) {
	taken, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	defer taken.Close()
	err = Serve(context.Background(), Options{Journal: t.TempDir(), Address: taken.Addr().String()})
	if !errors.Is(err, syscall.EADDRINUSE) {
		t.Errorf("a taken port gives %v", err)
	}
}

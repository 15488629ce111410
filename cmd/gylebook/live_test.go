package main

import (
	"context"
	"errors"
	"net"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"

	"gylebook/internal/live"
	"gylebook/internal/notice"
)

// heard is a writer that tells when some words have been written to it.
type heard struct {
	mu    sync.Mutex
	text  strings.Builder
	words string
	said  chan struct{}
}

func (h *heard) Write(p []byte) (int, error) {
	h.mu.Lock()
	defer h.mu.Unlock()
	before := strings.Contains(h.text.String(), h.words)
	h.text.Write(p)
	if !before && strings.Contains(h.text.String(), h.words) {
		close(h.said)
	}
	return len(p), nil
}

func emptyJournal(t *testing.T) string {
	t.Helper()
	dir := t.TempDir()
	if err := os.WriteFile(filepath.Join(dir, "index.md"), []byte("---\njournal: A book\n---\n"), 0o644); err != nil {
		t.Fatal(err)
	}
	return dir
}

func TestLiveStopsWhenInterrupted(t *testing.T) {
	ctx, interrupt := context.WithCancel(context.Background())
	defer interrupt()
	out := &heard{words: " is open at http://127.0.0.1:", said: make(chan struct{})}
	var faults strings.Builder
	ended := make(chan int, 1)
	go func() {
		args := []string{"live", emptyJournal(t), "--at", "127.0.0.1:0"}
		ended <- run(ctx, args, strings.NewReader(""), out, &faults, func(string) string { return "" })
	}()
	select {
	case <-out.said:
		interrupt()
	case exit := <-ended:
		t.Fatalf("it ended at once with %d: %s", exit, faults.String())
	case <-time.After(20 * time.Second):
		t.Fatal("it never said where it is open")
	}
	select {
	case exit := <-ended:
		if exit != exitDone {
			t.Errorf("it ended with %d: %s", exit, faults.String())
		}
	case <-time.After(20 * time.Second):
		t.Fatal("it did not stop")
	}
}

func TestLiveSaysWhenThePortIsTaken(t *testing.T) {
	taken, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	defer taken.Close()
	var out, faults strings.Builder
	args := []string{"live", emptyJournal(t), "--at", taken.Addr().String()}
	exit := run(context.Background(), args, strings.NewReader(""), &out, &faults, func(string) string { return "" })
	want := "gylebook: listening on " + taken.Addr().String() + ": another program has that port; stop it, or choose another with --at\n"
	if exit != exitCannot || faults.String() != want {
		t.Errorf("it ended with %d and says %q, want %d and %q", exit, faults.String(), exitCannot, want)
	}
}

func TestWhatLiveSaysOfABuild(t *testing.T) {
	slip := notice.Notice{Place: notice.Place{File: "gyles/1.md", Line: 4, Column: 1}, Severity: notice.Unreadable, ID: "unknown-key", Says: "brwed"}
	stuck := notice.Notice{Place: notice.Place{File: "gyles/1.md", Line: 9}, Severity: notice.Mend, ID: "stuck", Says: "It stands."}
	counts := map[notice.Severity]int{notice.Unreadable: 1, notice.Look: 2}
	here, err := os.Getwd()
	if err != nil {
		t.Fatal(err)
	}
	cases := []struct {
		what   string
		report live.Rebuild
		quiet  bool
		out    string
		faults string
	}{
		{"the first", live.Rebuild{First: true, Took: 41_300_000, Notices: counts}, false, "built in 41 ms; 1 error, 2 to look at\n", ""},
		{
			"a slip", live.Rebuild{Changed: []string{"gyles/1.md"}, Took: 12_000_000, Notices: counts, New: []notice.Notice{slip}, Cured: []notice.Notice{stuck}},
			false, "gyles/1.md: rebuilt in 12 ms; 1 error, 2 to look at; 1 new, 1 cured\ngyles/1.md:4:1: error: brwed [unknown-key]\ngyles/1.md: cured: stuck\n", "",
		},
		{"a slip, quietly", live.Rebuild{Changed: []string{"gyles/1.md"}, Notices: counts, New: []notice.Notice{slip, stuck}}, true, "gyles/1.md:4:1: error: brwed [unknown-key]\n", ""},
		{"many", live.Rebuild{Changed: []string{"a", "b", "c", "d", "e"}}, false, "a, b, c and 2 more: rebuilt in 0 ms\n", ""},
		{"too many", live.Rebuild{Changed: []string{"", "a"}}, false, "many changes: rebuilt in 0 ms\n", ""},
		{"a failure", live.Rebuild{Changed: []string{"a"}, Err: errors.New("opening the journal: gone")}, false, "", "gylebook: building the site again: opening the journal: gone; the last one stands\n"},
	}
	for _, c := range cases {
		t.Run(c.what, func(t *testing.T) {
			var out, faults strings.Builder
			call := &call{common: common{Quiet: c.quiet}, stdout: &out, stderr: &faults}
			call.printRebuild(paper{Writer: &out, width: usual}, &opened{dir: here}, c.report)
			if out.String() != c.out || faults.String() != c.faults {
				t.Errorf("it says\n%s%swant\n%s%s", out.String(), faults.String(), c.out, c.faults)
			}
		})
	}
}

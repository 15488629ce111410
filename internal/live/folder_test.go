package live

import (
	"net/http"
	"os"
	"strings"
	"syscall"
	"testing"
	"time"
)

func TestABrokenEntryStaysAsItWas(t *testing.T) {
	whole := entry("Whole Ale", "Whole words.")
	s := serve(t, map[string]string{"index.md": settings, "gyles/1.md": whole, "notes/n.md": "---\ntitle: A note\n---\nWords.\n"})
	names := s.listen("gyles/1/")
	next(t, names)
	for _, broken := range []string{
		strings.Replace(whole, "brewed:", "brwed:", 1),
		strings.Replace(whole, "beer: Whole Ale", "beer: [Half", 1),
		"---\ngyle: 1\nbeer: Unclosed\n",
	} {
		s.write("gyles/1.md", broken)
		next(t, names)
		_, body := s.get("gyles/1/")
		if !strings.Contains(body, "Whole words.") || !strings.Contains(body, `class="broken"`) || !strings.Contains(body, "gyles/1.md:") {
			t.Errorf("with %q the page has not both the last words and the error over them", broken)
		}
		if _, body := s.get(""); !strings.Contains(body, `class="broken"`) {
			t.Error("the board does not say what is broken")
		}
		if _, body := s.get("notes/n/"); strings.Contains(body, `class="broken"`) {
			t.Error("a page that has nothing to do with it has the error too")
		}
		s.write("gyles/1.md", whole)
		next(t, names)
		if _, body := s.get("gyles/1/"); strings.Contains(body, `class="broken"`) || !strings.Contains(body, "Whole words.") {
			t.Error("mended, the error still stands")
		}
	}
}

// TestAHalfWrittenFileIsNotCalledBroken writes half a file, and the rest within
// the time that a doubted file is given.
func TestAHalfWrittenFileIsNotCalledBroken(t *testing.T) {
	dir := t.TempDir()
	s := &served{t: t, dir: dir}
	whole := entry("Whole Ale", "Whole words.")
	s.write("index.md", settings)
	s.write("gyles/1.md", whole)
	f, err := openFolder(t.Context(), dir)
	s.must(err)
	at := time.Now()
	for _, half := range []string{whole[:20], "", "---\ngyle"} {
		s.write("gyles/1.md", half)
		if c, _ := f.read([]string{"gyles/1.md"}, at); c.any || len(f.doubted) != 1 || f.journal.Document("gyles/1.md").Gyle == nil {
			t.Errorf("half a file, %q, is taken at once: %+v", half, c)
		}
		if c, _ := f.read(nil, at.Add(doubt/2)); c.any {
			t.Error("it is taken before its time")
		}
		s.write("gyles/1.md", whole)
		if c, _ := f.read([]string{"gyles/1.md"}, at.Add(doubt/2)); c.any || len(f.doubted) != 0 {
			t.Errorf("whole again, it is another: %+v", c)
		}
	}
	s.write("gyles/1.md", whole[:20])
	f.read([]string{"gyles/1.md"}, at)
	if c, _ := f.read(nil, at.Add(2*doubt)); !c.any || len(f.broken()) == 0 {
		t.Error("a file that stays broken is never called so")
	}
	s.must(os.Remove(s.path("gyles/1.md")))
	f.read([]string{"gyles/1.md"}, at.Add(3*doubt))
	if c, _ := f.read(nil, at.Add(5*doubt)); !c.any || f.journal.Document("gyles/1.md") != nil || len(f.broken()) != 0 {
		t.Error("a file that is gone stays")
	}
}

func TestARenamedEntryIsNeverTwoGyles(t *testing.T) {
	dir := t.TempDir()
	s := &served{t: t, dir: dir}
	s.write("index.md", settings)
	s.write("gyles/1.md", entry("An Ale", "Words."))
	f, err := openFolder(t.Context(), dir)
	s.must(err)
	s.rename("gyles/1.md", "gyles/first.md")
	f.read([]string{"gyles/1.md", "gyles/first.md"}, time.Now())
	if n := len(f.journal.Gyles); n != 1 {
		t.Errorf("there are %d gyles, want 1", n)
	}
}

func TestWithoutWatchesTheFolderIsLookedAt(t *testing.T) {
	dir := t.TempDir()
	first := &served{t: t, dir: dir}
	first.write("index.md", settings)
	first.write("gyles/1.md", entry("An Ale", "Words."))
	said := make(chan string, 10)
	s := serveFolder(t, dir, func(o *Options) {
		o.limit = func(string) error { return syscall.ENOSPC }
		o.Warned = func(says string) { said <- says }
	})
	if says := <-said; !strings.Contains(says, "max_user_watches") || !strings.Contains(says, "every second") {
		t.Errorf("it says %q", says)
	}
	s.write("gyles/1.md", entry("Looked At Ale", "Words."))
	s.eventually("the page is the new one", func() bool {
		_, body := s.get("gyles/1/")
		return strings.Contains(body, "Looked At Ale")
	})
}

func TestTheJournalsFolderMayGoAndComeBack(t *testing.T) {
	s := serve(t, map[string]string{"index.md": settings, "gyles/1.md": entry("An Ale", "Words.")})
	s.rename("../"+s.base(), "../"+s.base()+"-aside")
	time.Sleep(50 * time.Millisecond)
	if status, _ := s.get("gyles/1/"); status != http.StatusOK {
		t.Errorf("while the folder is away the page answers %d", status)
	}
	s.write("index.md", settings)
	s.write("gyles/1.md", entry("Back Again Ale", "Words."))
	s.eventually("the page of the folder that came back", func() bool {
		_, body := s.get("gyles/1/")
		return strings.Contains(body, "Back Again Ale")
	})
	s.must(os.RemoveAll(s.dir + "-aside"))
}

func (s *served) base() string { return s.dir[strings.LastIndexByte(s.dir, os.PathSeparator)+1:] }

func TestAtMidnightTheBookIsOfAnotherDay(t *testing.T) {
	began := time.Now()
	start := time.Date(2026, 6, 1, 23, 59, 59, 0, time.UTC)
	dir := t.TempDir()
	(&served{t: t, dir: dir}).write("index.md", settings)
	s := serveFolder(t, dir, func(o *Options) { o.Now = func() time.Time { return start.Add(time.Since(began)) } })
	_, first := s.get("")
	s.eventually("the page is worked out on another day", func() bool {
		_, body := s.get("")
		return body != first && strings.Contains(body, "2\u00a0June\u00a02026")
	})
}

package live

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

// manner is one way in which an editor or a program saves gyles/1.md.
type manner struct {
	how  string
	save func(s *served, text string)
}

// manners are those known of editors and of what else writes into a journal.
var manners = []manner{
	{"in place", func(s *served, text string) { s.write("gyles/1.md", text) }},
	{"cut off and written in pieces", func(s *served, text string) {
		file, err := os.OpenFile(s.path("gyles/1.md"), os.O_WRONLY|os.O_TRUNC, 0)
		s.must(err)
		for len(text) > 0 {
			n := min(len(text), 37)
			_, err := file.WriteString(text[:n])
			s.must(err)
			text = text[n:]
			time.Sleep(15 * time.Millisecond)
		}
		s.must(file.Close())
	}},
	{"by renaming another file over it", func(s *served, text string) {
		s.write("gyles/1.md.tmp", text)
		s.rename("gyles/1.md.tmp", "gyles/1.md")
	}},
	{"by renaming a file without an ending over it", func(s *served, text string) {
		s.write("gyles/4913", text)
		s.rename("gyles/4913", "gyles/1.md")
	}},
	{"by moving the old one aside first", func(s *served, text string) {
		s.rename("gyles/1.md", "gyles/1.md~")
		time.Sleep(30 * time.Millisecond)
		s.write("gyles/1.md", text)
		s.must(os.Remove(s.path("gyles/1.md~")))
	}},
	{"with lock and swap files about", func(s *served, text string) {
		s.write("gyles/.#1.md", "lock")
		s.write("gyles/.1.md.swp", "swap")
		s.write("gyles/1.md", text)
		s.must(os.Remove(s.path("gyles/.#1.md")))
		s.must(os.Remove(s.path("gyles/.1.md.swp")))
	}},
	{"by deleting and making it again", func(s *served, text string) {
		s.must(os.Remove(s.path("gyles/1.md")))
		time.Sleep(20 * time.Millisecond)
		s.write("gyles/1.md", text)
	}},
	{"by making its folder again", func(s *served, text string) {
		s.rename("gyles", "gyles-old")
		s.write("gyles/1.md", text)
		s.must(os.RemoveAll(s.path("gyles-old")))
	}},
	{"under a name in other letters", func(s *served, text string) {
		s.rename("gyles/1.md", "gyles/One.md")
		s.rename("gyles/One.md", "gyles/one.md")
		s.write("gyles/one.md", text)
		s.rename("gyles/one.md", "gyles/1.md")
	}},
	{"among hundreds of other files", func(s *served, text string) {
		for i := range 300 {
			s.write("notes/"+strings.Repeat("n", i%7+1)+"/"+string(rune('a'+i%26))+strings.Repeat("x", i/26)+".md", "A note.\n")
		}
		s.write("gyles/1.md", text)
	}},
}

func (s *served) path(name string) string { return filepath.Join(s.dir, filepath.FromSlash(name)) }

func (s *served) must(err error) {
	s.t.Helper()
	if err != nil {
		s.t.Fatal(err)
	}
}

func (s *served) rename(from, to string) {
	s.t.Helper()
	s.must(os.Rename(s.path(from), s.path(to)))
}

// eventually waits until something holds.
func (s *served) eventually(what string, holds func() bool) {
	s.t.Helper()
	for end := time.Now().Add(patience); time.Now().Before(end); time.Sleep(10 * time.Millisecond) {
		if holds() {
			return
		}
	}
	s.t.Fatalf("never: %s", what)
}

func TestEveryMannerOfSavingIsSeen(t *testing.T) {
	for _, m := range manners {
		t.Run(m.how, func(t *testing.T) {
			s := serve(t, map[string]string{"index.md": settings, "gyles/1.md": entry("Before Ale", "Old words.")})
			names := s.listen("gyles/1/")
			next(t, names)
			m.save(s, entry("After Ale", "New words."))
			next(t, names)
			s.eventually("the page is the new one", func() bool {
				_, body := s.get("gyles/1/")
				return strings.Contains(body, "After Ale") && strings.Contains(body, "New words.")
			})
			if _, body := s.get("gyles/1/"); strings.Contains(body, "class=\"broken\"") {
				t.Error("an error stands on the page")
			}
		})
	}
}

// TestABurstIsOneRebuild writes what a checkout writes.
func TestABurstIsOneRebuild(t *testing.T) {
	s := serve(t, map[string]string{"index.md": settings, "gyles/1.md": entry("An Ale", "Words.")})
	s.until("the start", func(r Rebuild) bool { return r.First })
	for i := range 200 {
		s.write("notes/"+strings.Repeat("n", i+1)+".md", "A note.\n")
	}
	seen, builds := 0, 0
	s.until("the notes", func(r Rebuild) bool {
		builds++
		seen += len(r.Changed)
		return seen >= 200
	})
	if builds > 3 { // a slow machine may pause in the middle
		t.Errorf("200 files made %d builds", builds)
	}
}

func TestNobodyIsToldOfWhatDidNotChange(t *testing.T) {
	s := serve(t, map[string]string{
		"index.md": settings, "gyles/1.md": entry("An Ale", "Words."), "gyles/2.md": strings.Replace(entry("Another", "Words."), "gyle: 1", "gyle: 2", 1),
	})
	one, two := s.listen("gyles/1/"), s.listen("gyles/2/")
	next(t, one)
	next(t, two)
	s.write("gyles/1.md", entry("An Ale", "Other words."))
	next(t, one)
	s.write("gyles/2.md", strings.Replace(entry("Another", "Other words."), "gyle: 1", "gyle: 2", 1))
	next(t, two)
	select {
	case <-one:
		t.Error("the page of gyle 1 was told of gyle 2's story")
	default:
	}
}

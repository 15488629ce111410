package site

import (
	"fmt"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"gylebook/internal/book"
	"gylebook/internal/journal"
)

// neighbours is a small journal whose stories ask after each other.
func neighbours() fstest.MapFS {
	files := fstest.MapFS{
		"index.md":      {Data: []byte("---\njournal: Neighbours\n---\nThe last one was [](gyle:3), under [a tag](tag:x).\n")},
		"notes/one.md":  {Data: []byte("---\ntitle: One\n---\n# A heading\n\nIt had [](figure:abv?gyle=1); see [a file](../files/a.txt).\n")},
		"notes/two.md":  {Data: []byte("---\ntitle: Two\n---\nIt had [](figure:abv?gyle=2).\n")},
		"cards/pale.md": {Data: []byte("---\ncard: malt\nname: Pale Malt\nextract: 300 Ldeg/kg\n---\nSee [](gyle:1).\n")},
		"files/a.txt":   {Data: []byte("A.\n")},
	}
	for i := 1; i <= 4; i++ {
		files[fmt.Sprintf("gyles/%d.md", i)] = &fstest.MapFile{Data: []byte(fmt.Sprintf("---\ngyle: %d\nbeer: Ale %[1]d\nbrewed: 2026-0%[1]d-10\nfollows: %d\ntags: [x]\ngrist: [{malt: pale malt, weight: 4 kg}]\nhops: [{hop: goldings, weight: 30 g}]\nyeast: [{yeast: house ale, pitched: 2026-0%[1]d-10}]\nfermenter: {volume: 22 L, gravity: 1.040}\nreadings:\n  - {when: 2026-0%[1]d-20, gravity: 1.010, temp: 20 C}\n---\n## So\n\nSee [](gyle:%[2]d), [](figure:abv), [](figure:abv?gyle=%[2]d), [hops](hop:goldings) and [a note](note:one#a-heading).\n", i, max(1, i-1)))}
	}
	return files
}

// TestBesideAnotherGround makes one edit after another, each site on the last, and
// holds all its pages and notices to those of a site made of nothing.
func TestBesideAnotherGround(t *testing.T) {
	edits := []struct {
		what, file, old, new string
		beside               bool // the ground can be laid beside the last
	}{
		{"a reading", "gyles/1.md", "gravity: 1.010", "gravity: 1.014", true},
		{"words", "gyles/1.md", "## So", "## So then", false}, // on the same ground
		{"another reading", "gyles/2.md", "gravity: 1.010", "gravity: 1.013", true},
		{"a reading and words", "gyles/3.md", "1.010, temp: 20 C}\n---\n## So", "1.012, temp: 20 C}\n---\n## Then", true},
		{"words of a note", "notes/one.md", "# A heading", "# Another", false},
		{"a third reading", "gyles/4.md", "gravity: 1.010", "gravity: 1.008", true},
		{"a beer", "gyles/3.md", "Ale 3", "Stout 3", false},
		{"a weight", "gyles/2.md", "4 kg", "4.5 kg", true},
		{"a tag", "gyles/3.md", "[x]", "[y]", true},
		{"no story", "gyles/3.md", "## Then\n\nSee", "", false},
		{"no such tag", "gyles/1.md", "[x]", "[y]", true},
		{"the last of a tag", "gyles/2.md", "[x]", "[y]", true},
		{"the very last of a tag", "gyles/4.md", "[x]", "[z]", true},
		{"a hop", "gyles/4.md", "hop: goldings", "hop: fuggle", false},
		{"a card", "cards/pale.md", "300 Ldeg", "290 Ldeg", false},
		{"a reading again", "gyles/1.md", "gravity: 1.014", "gravity: 1.015", true},
	}
	files := neighbours()
	j := journal.Read(files, journal.Options{})
	b := book.Open(j, clock)
	last := besides(t, b, files, nil)
	rendered(t, last)
	for _, e := range edits {
		text := string(files[e.file].Data)
		if e.new == "" {
			text = text[:strings.Index(text, e.old)]
		} else if !strings.Contains(text, e.old) {
			t.Fatalf("%s: there is no %s in %s", e.what, e.old, e.file)
		}
		files[e.file] = &fstest.MapFile{Data: []byte(strings.Replace(text, e.old, e.new, 1))}
		j = j.With(journal.ReadAgain(files, e.file, j.Settings, j.Document(e.file)))
		b = book.Reopen(b, j, clock)
		made := besides(t, b, files, last)
		if beside := made.ground != last.ground && len(made.tellings) > 0 && &made.byFile[0] == &last.byFile[0]; beside != e.beside {
			t.Errorf("%s: the ground is laid beside the last: %t", e.what, beside)
		}
		fresh := besides(t, book.Open(journal.Read(files, journal.Options{}), clock), files, nil)
		want, got := rendered(t, fresh), rendered(t, made)
		for name := range want {
			if got[name] != want[name] {
				t.Errorf("%s: %s differs from that of a fresh site", e.what, name)
			}
		}
		if len(got) != len(want) || !slices.Equal(made.Notices(), fresh.Notices()) {
			t.Errorf("%s: %d pages and the notices %v, want %d and %v", e.what, len(got), made.Notices(), len(want), fresh.Notices())
		}
		last = made
	}
}

func besides(t *testing.T, b *book.Book, files fstest.MapFS, last *Site) *Site {
	t.Helper()
	s, err := Build(b, Options{Live: true, Version: "test", Files: files, Previous: last})
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// TestAStoryIsToldAgainForItsFigures saves a reading: stories that show a figure of
// that gyle are told again, the others stand as they were told.
func TestAStoryIsToldAgainForItsFigures(t *testing.T) {
	files := neighbours()
	j := journal.Read(files, journal.Options{})
	b := book.Open(j, clock)
	first := besides(t, b, files, nil)
	rendered(t, first)
	files["gyles/2.md"].Data = []byte(strings.Replace(string(files["gyles/2.md"].Data), "gravity: 1.010", "gravity: 1.014", 1))
	j = j.With(journal.ReadAgain(files, "gyles/2.md", j.Settings, j.Document("gyles/2.md")))
	second := besides(t, book.Reopen(b, j, clock), files, first)
	for file, again := range map[string]bool{"index.md": false, "notes/two.md": true, "gyles/2.md": true, "cards/pale.md": false} {
		if told := second.story(file) != first.story(file); told != again {
			t.Errorf("%s is told again: %t", file, told)
		}
	}
}

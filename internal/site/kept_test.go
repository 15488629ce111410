package site

import (
	"fmt"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"gylebook/internal/book"
	"gylebook/internal/journal"
	"gylebook/internal/store"
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

// TestOneEditAfterAnother makes each book and site with what was kept of the last, and
// holds all pages and notices to those of a site made of nothing.
func TestOneEditAfterAnother(t *testing.T) {
	edits := []struct{ what, file, old, new string }{
		{"a reading", "gyles/1.md", "gravity: 1.010", "gravity: 1.014"},
		{"words", "gyles/1.md", "## So", "## So then"},
		{"another reading", "gyles/2.md", "gravity: 1.010", "gravity: 1.013"},
		{"a reading and words", "gyles/3.md", "1.010, temp: 20 C}\n---\n## So", "1.012, temp: 20 C}\n---\n## Then"},
		{"words of a note", "notes/one.md", "# A heading", "# Another"},
		{"a third reading", "gyles/4.md", "gravity: 1.010", "gravity: 1.008"},
		{"a beer", "gyles/3.md", "Ale 3", "Stout 3"},
		{"a weight", "gyles/2.md", "4 kg", "4.5 kg"},
		{"a tag", "gyles/3.md", "[x]", "[y]"},
		{"no story", "gyles/3.md", "## Then\n\nSee", ""},
		{"no such tag", "gyles/1.md", "[x]", "[y]"},
		{"the last of a tag", "gyles/2.md", "[x]", "[y]"},
		{"the very last of a tag", "gyles/4.md", "[x]", "[z]"},
		{"a hop", "gyles/4.md", "hop: goldings", "hop: fuggle"},
		{"a card", "cards/pale.md", "300 Ldeg", "290 Ldeg"},
		{"a reading again", "gyles/1.md", "gravity: 1.014", "gravity: 1.015"},
	}
	files := neighbours()
	j := journal.Read(files, journal.Options{})
	kept := store.New(nil)
	rendered(t, keeping(t, kept, j, files))
	for _, e := range edits {
		text := string(files[e.file].Data)
		if e.new == "" {
			text = text[:strings.Index(text, e.old)]
		} else if !strings.Contains(text, e.old) {
			t.Fatalf("%s: there is no %s in %s", e.what, e.old, e.file)
		}
		files[e.file] = &fstest.MapFile{Data: []byte(strings.Replace(text, e.old, e.new, 1))}
		j = j.With(journal.ReadAgain(files, e.file, j.Settings, j.Document(e.file)))
		kept.Turn()
		made, fresh := keeping(t, kept, j, files), keeping(t, nil, journal.Read(files, journal.Options{}), files)
		want, got := rendered(t, fresh), rendered(t, made)
		for name := range want {
			if got[name] != want[name] {
				t.Errorf("%s: %s differs from that of a fresh site", e.what, name)
			}
		}
		if len(got) != len(want) || !slices.Equal(made.Notices(), fresh.Notices()) {
			t.Errorf("%s: %d pages and the notices %v, want %d and %v", e.what, len(got), made.Notices(), len(want), fresh.Notices())
		}
	}
}

// keeping is a live site of a journal, with what is kept of earlier ones; nil for
// nothing.
func keeping(t *testing.T, kept *store.Store, j *journal.Journal, files fstest.MapFS) *Site {
	t.Helper()
	s, err := Build(book.OpenWith(kept, j, clock), Options{Live: true, Version: "test", Files: files, Store: kept})
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
	kept := store.New(nil)
	first := keeping(t, kept, j, files)
	rendered(t, first)
	files["gyles/2.md"].Data = []byte(strings.Replace(string(files["gyles/2.md"].Data), "gravity: 1.010", "gravity: 1.014", 1))
	j = j.With(journal.ReadAgain(files, "gyles/2.md", j.Settings, j.Document("gyles/2.md")))
	second := keeping(t, kept, j, files)
	for file, again := range map[string]bool{"index.md": false, "notes/two.md": true, "gyles/2.md": true, "cards/pale.md": false} {
		if told := second.story(file) != first.story(file); told != again {
			t.Errorf("%s is told again: %t", file, told)
		}
	}
}

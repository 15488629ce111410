package journal

import (
	"fmt"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/google/go-cmp/cmp"
)

const (
	book = "---\njournal: The book\ntime_zone: Europe/London\nignore: [drafts, \"*.old.md\", " +
		"notes/private/*.md]\n---\nHome.\n"
	gyleF = "---\ngyle: %d\nbeer: Towpath Mild\n---\nThe story.\n"
)

func text(content string) *fstest.MapFile { return &fstest.MapFile{Data: []byte(content)} }

func sample() fstest.MapFS {
	return fstest.MapFS{
		"index.md":             text(book),
		"gyles/b.md":           text(fmt.Sprintf(gyleF, 2)),
		"gyles/a.md":           text(fmt.Sprintf(gyleF, 10)),
		"gyles/deep/c.MD":      text(fmt.Sprintf(gyleF, 1)),
		"gyles/logger.csv":     text("when,gravity\n"),
		"notes/n.md":           text("---\ntitle: A note\n---\nWords.\n"),
		"notes/plain.md":       text("Only words.\n"),
		"cards/goldings.md":    text("---\ncard: hop\nname: Goldings\nalso: [east kent goldings]\nalpha: 5.6 %\n---\n"),
		"photos/mash.jpg":      text("not really"),
		".git/config.md":       text("x"),
		"gyles/.b.md.swp":      text("x"),
		"gyles/b.md~":          text("x"),
		"gyles/#b.md#":         text("x"),
		"gyles/.#b.md":         text("x"),
		"gyles/b.tmp":          text("x"),
		"gyles/b.bak":          text("x"),
		"drafts/d.md":          text("---\nnonsense: x\n---\n"),
		"drafts/deeper/d.md":   text("---\nnonsense: x\n---\n"),
		"gyles/b.old.md":       text("---\nnonsense: x\n---\n"),
		"notes/private/secret": text("x"),
		"notes/private/p.md":   text("---\nnonsense: x\n---\n"),
	}
}

func TestRead(t *testing.T) {
	j := Read(sample(), Options{})
	if len(j.Errors) > 0 {
		t.Fatalf("errors:\n%s", listing(j.Errors))
	}
	var got []string
	for _, g := range j.Gyles {
		got = append(got, fmt.Sprintf("%d %s", g.Number.N, g.File))
	}
	for _, c := range j.Cards {
		got = append(got, c.File)
	}
	for _, n := range j.Notes {
		got = append(got, n.File)
	}
	for _, f := range j.Files {
		got = append(got, fmt.Sprintf("%s %d", f.Name, f.Size))
	}
	want := []string{
		"1 gyles/deep/c.MD", "2 gyles/b.md", "10 gyles/a.md", "cards/goldings.md", "notes/n.md", "notes/plain.md",
		"gyles/logger.csv 13", "notes/private/secret 1", "photos/mash.jpg 10",
	}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Error(diff)
	}
	if j.Settings.Title.Text != "The book" || j.Settings.Zone.String() != "Europe/London" ||
		j.Settings.Body != "Home.\n" {
		t.Errorf("settings %+v", j.Settings)
	}
}

// TestReadIsDeterministic reads the same files with several numbers of workers.
func TestReadIsDeterministic(t *testing.T) {
	files := sample()
	for i := range 40 {
		files[fmt.Sprintf("gyles/x%02d.md", i)] = text(fmt.Sprintf(gyleF, i%7+20) + strings.Repeat("word ", i*20))
	}
	files["gyles/bad.md"] = text("---\ngyle: 3\nbere: x\nhops: 3\n---\n")
	want := Read(files, Options{Workers: 1})
	for _, workers := range []int{2, 7, 0} {
		got := Read(files, Options{Workers: workers})
		if !reflect.DeepEqual(want.Errors, got.Errors) || !reflect.DeepEqual(want.Gyles, got.Gyles) ||
			!reflect.DeepEqual(want.Files, got.Files) {
			t.Errorf("%d workers read another journal", workers)
		}
	}
}

func TestTwoGylesOfOneNumber(t *testing.T) {
	files := sample()
	files["gyles/again.md"] = text("---\nbeer: Another\ngyle: 10\n---\n")
	j := Read(files, Options{})
	want := `gyles/a.md:2:7: error: gyle 10 is also in gyles/again.md: expected a number of its own [number-taken]
  | gyle: 10
  > Give one of them another number.
gyles/again.md:3:7: error: gyle 10 is also in gyles/a.md: expected a number of its own [number-taken]
  | gyle: 10
  > Give one of them another number.
`
	if diff := cmp.Diff(want, listing(j.Errors)); diff != "" {
		t.Error(diff)
	}
	if len(j.Gyles) != 4 || j.Gyle(10).File != "gyles/a.md" {
		t.Error("both are kept, and the first by file answers to the number")
	}
}

func TestTwoCardsOfOneName(t *testing.T) {
	files := sample()
	files["cards/kent.md"] = text("---\ncard: hop\nname: Kent\nalso: [kent goldings, East Kent  Goldings]\n---\n")
	files["cards/malt.md"] = text("---\ncard: malt\nname: Goldings\n---\n")
	j := Read(files, Options{})
	want := `cards/goldings.md:4:8: error: another hop card, cards/kent.md, is also called east kent goldings: expected a name of its own [name-taken]
  | east kent goldings
  > Give one of them another name.
cards/kent.md:4:23: error: another hop card, cards/goldings.md, is also called East Kent  Goldings: expected a name of its own [name-taken]
  | East Kent  Goldings
  > Give one of them another name.
`
	if diff := cmp.Diff(want, listing(j.Errors)); diff != "" {
		t.Error(diff)
	}
}

func TestUnreadableFile(t *testing.T) {
	j := Read(failing{sample(), "gyles/a.md"}, Options{})
	want := "gyles/a.md: error: it cannot be read: permission denied [unreadable-file]\n  > Look at its " +
		"permissions, or take it out of the journal.\n"
	if diff := cmp.Diff(want, listing(j.Errors)); diff != "" {
		t.Error(diff)
	}
	if len(j.Gyles) != 2 {
		t.Error("the other gyles stand")
	}
}

func TestTooBig(t *testing.T) {
	d := ReadFile("x.md", make([]byte, maxFile+1), nil)
	want := "x.md: error: the file has 1024 KiB: expected at most 1024 [too-big]\n  > Move long records into a CSV " +
		"file and name it in readings_from.\n"
	if diff := cmp.Diff(want, listing(d.Errors)); diff != "" || !d.Withheld() {
		t.Error(diff)
	}
	front := "---\ngyle: 14\nbeer: x\nsummary: \"" + strings.Repeat("x\n ", maxFront/3) + "\"\n---\nThe story.\n"
	d = ReadFile("x.md", []byte(front), nil)
	if got := listing(d.Errors); !strings.HasPrefix(got, "x.md:2:1: error: the front matter has more than 64 KiB "+
		"[too-big]\n") {
		t.Errorf("errors:\n%s", got)
	}
	if d.Gyle == nil || !d.Gyle.Unread || d.Gyle.Number.N != 14 || d.Gyle.Body != "The story.\n" {
		t.Error("the gyle has its page and its story")
	}
	j := Read(fstest.MapFS{"index.md": text(book), "big.md": {Data: make([]byte, 3*maxFile)}}, Options{})
	if len(j.Errors) != 1 || j.Errors[0].ID != idTooBig {
		t.Errorf("errors:\n%s", listing(j.Errors))
	}
}

// TestRoot: nothing outside the folder is read, and links are not followed.
func TestRoot(t *testing.T) {
	outside, dir := t.TempDir(), t.TempDir()
	for path, content := range map[string]string{
		filepath.Join(outside, "secret.md"): fmt.Sprintf(gyleF, 99), filepath.Join(dir, "index.md"): book,
		filepath.Join(dir, "a.md"): fmt.Sprintf(gyleF, 1),
	} {
		if err := os.WriteFile(path, []byte(content), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	for link, to := range map[string]string{"out.md": filepath.Join(outside, "secret.md"), "folder": outside,
		"in.md": "a.md", "up.md": "../" + filepath.Base(outside) + "/secret.md"} {
		if err := os.Symlink(to, filepath.Join(dir, link)); err != nil {
			t.Skip("no links here:", err)
		}
	}
	fsys, err := Root(dir)
	if err != nil {
		t.Fatal(err)
	}
	j := Read(fsys, Options{})
	if len(j.Gyles) != 1 || len(j.Errors) != 4 {
		t.Errorf("%d gyles, errors:\n%s", len(j.Gyles), listing(j.Errors))
	}
	for _, e := range j.Errors {
		if e.Says != "it cannot be read: it is a link, and links are not followed" {
			t.Error(e)
		}
	}
	if d := ReadOne(fsys, "out.md", nil); !d.Withheld() || len(d.Errors) == 0 {
		t.Error("a link that leads out is read when asked for by name")
	}
	if _, err := Root(filepath.Join(dir, "none")); err == nil ||
		!strings.HasPrefix(err.Error(), "opening the journal: ") {
		t.Errorf("no folder: %v", err)
	}
}

func TestFind(t *testing.T) {
	j := Read(sample(), Options{})
	for _, c := range []struct {
		name string
		want int
	}{
		{"10", 10}, {"gyles/a.md", 10}, {"./gyles/a.md", 10}, {"a.md", 10}, {"a", 10}, {"gyles/a", 10}, {"c", 1},
		{"11", 0}, {"0", 0}, {"n.md", 0}, {"notes/n.md", 0}, {"", 0},
	} {
		got := 0
		if g := j.Find(c.name); g != nil {
			got = g.Number.N
		}
		if got != c.want {
			t.Errorf("Find(%q) is gyle %d, want %d", c.name, got, c.want)
		}
	}
}

// TestWith: reading only what changed gives the journal that reading all gives.
func TestWith(t *testing.T) {
	files := sample()
	j := Read(files, Options{})
	change := func(name, content string) {
		files[name] = text(content)
		j = j.With(ReadOne(files, name, j.Settings))
	}
	same := func(step string) {
		t.Helper()
		want := Read(files, Options{})
		if !reflect.DeepEqual(want.Gyles, j.Gyles) || !reflect.DeepEqual(want.Notes, j.Notes) ||
			!reflect.DeepEqual(want.Cards, j.Cards) ||
			!reflect.DeepEqual(want.Errors, j.Errors) || !reflect.DeepEqual(want.Withheld, j.Withheld) ||
			!reflect.DeepEqual(want.Files, j.Files) {
			t.Errorf("%s: not the journal that is read afresh\n%s", step,
				cmp.Diff(listing(want.Errors), listing(j.Errors)))
		}
	}
	before := j
	change("gyles/a.md", fmt.Sprintf(gyleF, 2))
	same("a number taken")
	change("gyles/new.md", "---\ngyle: 5\nbeer: x\nhops: 3\n---\n")
	same("a new file with an error")
	change("gyles/a.md", fmt.Sprintf(gyleF, 10))
	same("the number given back")
	change("cards/fuggles.md", "---\ncard: hop\nname: Fuggles\nalpha: 4 %\n---\n")
	same("a card")
	if c := j.Larder.Card(CardHop, "fuggles"); c.BuiltIn {
		t.Error("the larder has not heard of the new card")
	}
	change("notes/n.md", "---\nunclosed: x\n")
	same("withheld")
	delete(files, "cards/fuggles.md")
	delete(files, "photos/mash.jpg")
	j = j.Without("cards/fuggles.md", "photos/mash.jpg")
	same("taken away")
	if c := j.Larder.Card(CardHop, "fuggles"); !c.BuiltIn {
		t.Error("the larder keeps a card that is gone")
	}
	files["photos/new.jpg"] = text("new")
	j = j.WithFile(File{Name: "photos/new.jpg", Size: 3})
	same("a picture")
	if len(before.Gyles) != 3 || before.Gyle(10) == nil {
		t.Error("an earlier journal was changed")
	}
}

// TestDemonstration reads the demonstration journal without an error.
func TestDemonstration(t *testing.T) {
	fsys, err := Root("../../journal")
	if err != nil {
		t.Fatal(err)
	}
	j := Read(fsys, Options{})
	if len(j.Errors) > 0 {
		t.Errorf("errors:\n%s", listing(j.Errors))
	}
	if len(j.Gyles) == 0 {
		t.Error("no gyles")
	}
}

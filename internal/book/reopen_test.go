package book

import (
	"fmt"
	"io/fs"
	"math/rand/v2"
	"os"
	"slices"
	"strings"
	"testing"
	"testing/fstest"
	"time"

	"gylebook/internal/journal"
)

// folderOf is a copy of a folder that can be edited.
func folderOf(t testing.TB, dir string) fstest.MapFS {
	t.Helper()
	files := fstest.MapFS{}
	err := fs.WalkDir(os.DirFS(dir), ".", func(name string, entry fs.DirEntry, err error) error {
		if err != nil || entry.IsDir() {
			return err
		}
		data, err := os.ReadFile(dir + "/" + name)
		files[name] = &fstest.MapFile{Data: data, ModTime: noon}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return files
}

// edits are what brewers do to a file, each with the chance of the generator.
var edits = []struct {
	does string
	edit func(r *rand.Rand, text string) string
}{
	{"adds to the story", func(r *rand.Rand, text string) string {
		return text + fmt.Sprintf("\nA line more, no. %d.\n", r.IntN(1e6))
	}},
	{"adds a reading", func(r *rand.Rand, text string) string {
		return strings.Replace(text, "\nreadings:\n", fmt.Sprintf("\nreadings:\n  - {when: 2026-0%d-1%d 08:00, gravity: 1.0%02d, temp: 20 C}\n", 1+r.IntN(9), r.IntN(9), 8+r.IntN(40)), 1)
	}},
	{"changes digits", func(r *rand.Rand, text string) string {
		at := r.IntN(len(text) + 1)
		if i := strings.IndexAny(text[at:], "123456"); i >= 0 {
			return text[:at+i] + string(rune('1'+r.IntN(6))) + text[at+i+1:]
		}
		return text
	}},
	{"takes a line out", func(r *rand.Rand, text string) string {
		lines := strings.SplitAfter(text, "\n")
		at := r.IntN(len(lines))
		return strings.Join(slices.Delete(lines, at, at+1), "")
	}},
	{"doubles a line", func(r *rand.Rand, text string) string {
		lines := strings.SplitAfter(text, "\n")
		at := r.IntN(len(lines))
		return strings.Join(slices.Insert(lines, at, lines[at]), "")
	}},
}

// TestReopenedIsOpenedAfresh edits whole journals at random, and holds the book
// made of the last one to the book made of nothing.
func TestReopenedIsOpenedAfresh(t *testing.T) {
	steps := 30
	if testing.Short() {
		steps = 15
	}
	for _, dir := range []string{"../../journal", "../../testdata/journal", "../../testdata/gyles-by-hand", "testdata/family"} {
		t.Run(dir, func(t *testing.T) {
			r := rand.New(rand.NewPCG(1, uint64(len(dir))))
			files, now := folderOf(t, dir), noon
			last := Open(journal.Read(files, journal.Options{}), now)
			for step := range steps {
				does := editOne(r, files, &now)
				j := journal.Read(files, journal.Options{})
				last = Reopen(last, again(files, last.Journal, j), now)
				if got, want := portrait(last), portrait(Open(j, now)); got != want {
					t.Fatalf("step %d, which %s: the book reopened differs from the book opened afresh:\n%s", step, does, firstDifference(got, want))
				}
			}
		})
	}
}

// editOne changes one thing in a folder, or the clock.
func editOne(r *rand.Rand, files fstest.MapFS, now *time.Time) string {
	var names []string
	for name := range files {
		if journal.IsMarkdown(name) {
			names = append(names, name)
		}
	}
	slices.Sort(names)
	name := names[r.IntN(len(names))]
	switch n := r.IntN(12); {
	case n == 0:
		*now = now.Add(time.Duration(r.IntN(30)) * time.Hour)
		return "moves the clock"
	case n == 1 && name != "index.md" && len(names) > 3:
		delete(files, name)
		return "deletes " + name
	case n == 2:
		files[strings.TrimSuffix(name, ".md")+"-copy.md"] = files[name]
		return "copies " + name
	default:
		e := edits[r.IntN(len(edits))]
		files[name] = &fstest.MapFile{Data: []byte(e.edit(r, string(files[name].Data))), ModTime: *now}
		return e.does + " in " + name
	}
}

// again is a journal read again by what changed, as a server does: it holds the
// documents of the last one that are the same.
func again(files fs.FS, last, now *journal.Journal) *journal.Journal {
	if last.Settings.Front != now.Settings.Front {
		return now
	}
	j := last
	for _, d := range last.Documents() {
		if now.Document(d.File) == nil {
			j = j.Without(d.File)
		}
	}
	for _, d := range now.Documents() {
		if old := last.Document(d.File); old == nil || old.Hash != d.Hash {
			j = j.With(d)
		}
	}
	return j.Listed(journal.Look(files, now.Settings))
}

func firstDifference(got, want string) string {
	a, b := strings.Split(got, "\n"), strings.Split(want, "\n")
	for i := range min(len(a), len(b)) {
		if a[i] != b[i] {
			return fmt.Sprintf("line %d\n got %.600s\nwant %.600s", i+1, a[i], b[i])
		}
	}
	return "one is longer"
}

// workedAnew is how many sheets of a book are not those of another.
func workedAnew(b, last *Book) int {
	n := 0
	for _, g := range b.Gyles {
		if old := last.GyleIn(g.File); old == nil || old.Sheet != g.Sheet {
			n++
		}
	}
	return n
}

func TestOnlyWhatDependsOnItIsWorkedAgain(t *testing.T) {
	files := fstest.MapFS{"index.md": {Data: []byte(settingsFile)}}
	for i, n := range []string{"1", "2", "3", "4", "5", "6"} {
		files[n+".md"] = &fstest.MapFile{Data: []byte(fmt.Sprintf("---\ngyle: %s\nbeer: A\nbrewed: 2025-0%d-01\ngrist: [{malt: pale malt, weight: 4 kg}]\nyeast: [{yeast: Y%d, pitched: 2025-0%d-01}]\nfermenter: {volume: 22 L, gravity: 1.040}\nreadings:\n  - {when: 2025-0%d-08, gravity: 1.010}\n  - {when: 2025-0%d-11, gravity: 1.010}\n---\nWords.\n", n, i+1, i%2, i+1, i+1, i+1))}
	}
	files["drawn.md"] = &fstest.MapFile{Data: []byte("---\ngyle: 9\nbeer: D\ndrawn_from: [{gyle: 2, volume: 5 L, on: 2025-12-01}]\n---\n")}
	files["y0.md"] = &fstest.MapFile{Data: []byte("---\ncard: yeast\nname: Y0\nattenuates: 70 to 78 %\n---\nIts story.\n")}
	cases := []struct {
		what, file, old, new string
		most                 int
	}{
		{"the story of a gyle", "2.md", "Words.", "Other words.", 0},
		{"the story of a card", "y0.md", "Its story.", "Another.", 0},
		{"the home page's words", "index.md", "---\n", "---\n", 0},
		{"what no other leans on", "6.md", "beer: A", "beer: B", 1},
		{"a gyle that another was drawn from", "2.md", "beer: A", "beer: B", 2},
		{"a yield that later gyles lean on", "4.md", "4 kg", "5 kg", 3},
		{"a card", "y0.md", "78 %", "79 %", 3},
		{"the settings", "index.md", "A test book", "Another book", 7},
	}
	for _, c := range cases {
		t.Run(c.what, func(t *testing.T) {
			last := Open(journal.Read(files, journal.Options{}), noon)
			edited := fstest.MapFS{}
			for name, f := range files {
				edited[name] = f
			}
			text := strings.Replace(string(files[c.file].Data), c.old, c.new, 1)
			if c.file == "index.md" && c.old == c.new {
				text += "More.\n"
			}
			edited[c.file] = &fstest.MapFile{Data: []byte(text)}
			j := journal.Read(edited, journal.Options{})
			b := Reopen(last, again(edited, last.Journal, j), noon)
			if got := workedAnew(b, last); got > c.most || got == 0 && c.most > 0 {
				t.Errorf("%d gyles were worked out again, want at most %d", got, c.most)
			}
			if b.SameButStories(last) != (c.most == 0) {
				t.Errorf("linked anew: %t", !b.SameButStories(last))
			}
		})
	}
}

func TestAClockMovesWhereItMatters(t *testing.T) {
	b := open(t, entries{
		"1.md": "gyle: 1\nbeer: A\nbrewed: 2026-05-30\nfermenter: {volume: 20 L, gravity: 1.040}\nyeast: [{yeast: Y, pitched: 2026-06-01 15:00}]",
		"2.md": "gyle: 2\nbeer: B\nbrewed: 2025-05-30",
	})
	if got := b.Gyle(1).Sheet.Now; !got.Equal(noon) {
		t.Errorf("a gyle in hand is worked out at %s, want the book's clock", got)
	}
	if got := b.Gyle(2).Sheet.Now; !got.Equal(midnight(noon)) {
		t.Errorf("a gyle at rest is worked out at %s, want the beginning of the day", got)
	}
	for _, c := range []struct {
		later time.Duration
		still bool
	}{{0, true}, {2 * time.Hour, true}, {3 * time.Hour, false}, {13 * time.Hour, false}, {-time.Hour, false}} {
		if got := b.StillAt(noon.Add(c.later)); got != c.still {
			t.Errorf("%s later: still %t", c.later, got)
		}
	}
}

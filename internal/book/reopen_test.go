package book

import (
	"fmt"
	"io/fs"
	"maps"
	"math/rand/v2"
	"os"
	"regexp"
	"slices"
	"strings"
	"testing"
	"testing/fstest"
	"time"

	"gylebook/internal/journal"
	"gylebook/internal/store"
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
	{"says whom it follows", func(r *rand.Rand, text string) string {
		return withKey(text, "follows", fmt.Sprint(1+r.IntN(12)))
	}},
	{"draws it from another", func(r *rand.Rand, text string) string {
		return withKey(text, "drawn_from", fmt.Sprintf("[{gyle: %d, volume: %d L}]", 1+r.IntN(12), 2+r.IntN(30)))
	}},
	{"gives it a tag", func(r *rand.Rand, text string) string {
		return withKey(text, "tags", fmt.Sprintf("[tag %d, cask]", r.IntN(4)))
	}},
	{"moves its day", func(r *rand.Rand, text string) string {
		return withKey(text, "brewed", fmt.Sprintf("202%d-0%d-1%d", 4+r.IntN(3), 1+r.IntN(9), r.IntN(3)))
	}},
	{"gives it an old number", func(r *rand.Rand, text string) string {
		return withKey(text, "formerly", fmt.Sprintf("[%d]", 1+r.IntN(40)))
	}},
	{"calls it by another name", func(r *rand.Rand, text string) string {
		return withKey(text, "beer", fmt.Sprintf("Beer %d", r.IntN(3)))
	}},
	{"makes it a draft", func(r *rand.Rand, text string) string {
		return withKey(text, "draft", []string{"true", "false"}[r.IntN(2)])
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

// withKey is a gyle's entry with a key of its own in one line, in place of one that it
// had; any other text as it is.
func withKey(text, key, value string) string {
	had := regexp.MustCompile(`(?m)^` + key + `: .*\n`)
	if !regexp.MustCompile(`(?m)^gyle: .*\n`).MatchString(text) {
		return text
	}
	text = had.ReplaceAllLiteralString(text, "")
	at := regexp.MustCompile(`(?m)^gyle: .*\n`).FindStringIndex(text)[1]
	return text[:at] + key + ": " + value + "\n" + text[at:]
}

// TestReopenedIsOpenedAfresh edits whole journals at random, and holds the book
// made with what was kept of earlier ones to the book made of nothing.
func TestReopenedIsOpenedAfresh(t *testing.T) {
	steps := 60
	if testing.Short() {
		steps = 15
	}
	for _, dir := range []string{"../../journal", "../../testdata/journal", "../../testdata/gyles-by-hand", "testdata/family"} {
		t.Run(dir, func(t *testing.T) {
			r := rand.New(rand.NewPCG(1, uint64(len(dir))))
			files, now := folderOf(t, dir), noon
			kept := store.New(nil)
			last := OpenWith(kept, journal.Read(files, journal.Options{}), now)
			for step := range steps {
				does := editOne(r, files, &now)
				j := journal.Read(files, journal.Options{})
				kept.Turn()
				last = OpenWith(kept, again(files, last.Journal, j), now)
				if got, want := portrait(last), portrait(Open(j, now)); got != want {
					t.Fatalf("step %d, which %s: the book reopened differs from the book opened afresh:\n%s", step, does, firstDifference(got, want))
				}
				if stray := strays(last); stray != "" {
					t.Fatalf("step %d, which %s: %s leads to a gyle of an earlier book", step, does, stray)
				}
			}
		})
	}
}

// TestOneEditReopened makes one edit each that touches one thing which others lean on,
// and leaves every gyle at its place.
func TestOneEditReopened(t *testing.T) {
	files := fstest.MapFS{"index.md": {Data: []byte(settingsFile)}}
	for i := range 8 {
		n := i + 1
		files[fmt.Sprintf("%d.md", n)] = &fstest.MapFile{Data: []byte(fmt.Sprintf("---\ngyle: %d\nbeer: A\nbrewed: 2025-0%d-02\nfollows: 0\nformerly: [%d]\ntags: [x]\ngrist: [{malt: pale malt, weight: 4 kg}]\nhops: [{hop: goldings, weight: 20 g}]\nyeast: [{yeast: Y, pitched: 2025-0%[2]d-02}]\nfermenter: {volume: 22 L, gravity: 1.040}\nreadings:\n  - {when: 2025-0%[2]d-08, gravity: 1.010}\n  - {when: 2025-0%[2]d-11, gravity: 1.010}\n---\nWords.\n", n, 1+i/2*2, 20+n))}
	}
	files["9.md"] = &fstest.MapFile{Data: []byte("---\ngyle: 9\nbeer: D\ndrawn_from: [{gyle: 2, volume: 5 L, on: 2025-12-01}]\n---\n")}
	follow := func(who, whom int) {
		name := fmt.Sprintf("%d.md", who)
		files[name] = &fstest.MapFile{Data: []byte(strings.Replace(string(files[name].Data), "follows: 0", fmt.Sprintf("follows: %d", whom), 1))}
	}
	follow(3, 1)
	follow(5, 3)
	follow(6, 4)
	follow(2, 8)
	cases := []struct{ what, file, old, new string }{
		{"whom a gyle follows", "5.md", "follows: 3", "follows: 2"},
		{"a gyle that follows none any more", "5.md", "follows: 3", "follows: 99"},
		{"a ring", "1.md", "follows: 0", "follows: 5"},
		{"the beer that a family is named by", "5.md", "beer: A", "beer: B"},
		{"the day of one that another follows", "8.md", "brewed: 2025-07-02", "brewed: 2025-08-02"},
		{"the year of one", "8.md", "brewed: 2025-07-02", "brewed: 2026-01-02"},
		{"the hour of one", "2.md", "brewed: 2025-01-02", "brewed: 2025-01-02 10:00"},
		{"an old number that another has", "5.md", "formerly: [25]", "formerly: [2]"},
		{"an old number", "5.md", "formerly: [25]", "formerly: [55]"},
		{"a number", "5.md", "gyle: 5", "gyle: 55"},
		{"a tag", "5.md", "tags: [x]", "tags: [y]"},
		{"another hop", "5.md", "goldings", "fuggle"},
		{"a name nearly alike", "5.md", "yeast: Y,", "yeast: Yeastly,"},
		{"how much was drawn", "9.md", "volume: 5 L", "volume: 50 L"},
		{"from whom it was drawn", "9.md", "gyle: 2", "gyle: 3"},
		{"what another of its day teaches", "4.md", "4 kg", "5 kg"},
		{"a draft", "5.md", "beer: A", "draft: true\nbeer: A"},
		{"a reading", "2.md", "gravity: 1.010", "gravity: 1.012"},
		{"a limit of findings", "index.md", "private: [nothing]", "private: [nothing]\nlimits: {yield: 80 to 90 %}"},
		{"a limit of figures", "index.md", "private: [nothing]", "private: [nothing]\nlimits: {level_for: 4 days}"},
	}
	for _, c := range cases {
		t.Run(c.what, func(t *testing.T) {
			kept := store.New(nil)
			last := OpenWith(kept, journal.Read(files, journal.Options{}), noon)
			edited := maps.Clone(files)
			text := strings.Replace(string(files[c.file].Data), c.old, c.new, 1)
			if text == string(files[c.file].Data) {
				t.Fatalf("there is no %s in %s", c.old, c.file)
			}
			edited[c.file] = &fstest.MapFile{Data: []byte(text)}
			j := journal.Read(edited, journal.Options{})
			b := OpenWith(kept, again(edited, last.Journal, j), noon)
			want := portrait(Open(j, noon))
			if got := portrait(b); got != want {
				t.Errorf("the book reopened differs from the book opened afresh:\n%s", firstDifference(got, want))
			}
			if want == portrait(last) {
				t.Error("the edit changes nothing in the book")
			}
			if stray := strays(b); stray != "" {
				t.Errorf("%s leads to a gyle of an earlier book", stray)
			}
		})
	}
}

// strays names what in a book leads to a gyle that is not its own, "" for nothing.
func strays(b *Book) string {
	wrong := ""
	check := func(what string, gyles ...*Gyle) {
		for _, g := range gyles {
			if g != nil && b.GyleIn(g.File) != g {
				wrong = what
			}
		}
	}
	for _, g := range b.Gyles {
		check(g.File, slices.Concat([]*Gyle{g, g.Follows}, g.Revised, g.Drawn, g.Parted)...)
		if g.Family != nil && !slices.Contains(b.Families, g.Family) {
			wrong = "the family of " + g.File
		}
		for _, u := range g.Uses() {
			if b.Subject(u.Subject.Kind, u.Subject.Name) != u.Subject {
				wrong = u.Subject.Name + " in " + g.File
			}
		}
	}
	for _, f := range b.Families {
		check("family "+f.Name, f.Gyles...)
	}
	for _, group := range slices.Concat(b.Tags, b.Years) {
		check("group "+group.Name, group.Gyles...)
	}
	for _, rung := range b.Board {
		check("the board", rung.Gyles...)
	}
	for _, s := range b.Subjects {
		for _, u := range b.Uses(s) {
			check("subject "+s.Name, u.Gyle)
		}
	}
	return wrong
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
			kept := store.New(nil)
			last := OpenWith(kept, journal.Read(files, journal.Options{}), noon)
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
			b := OpenWith(kept, again(edited, last.Journal, j), noon)
			if got := workedAnew(b, last); got > c.most || got == 0 && c.most > 0 {
				t.Errorf("%d gyles were worked out again, want at most %d", got, c.most)
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

package live

import (
	"fmt"
	"math/rand/v2"
	"os"
	"regexp"
	"strings"
	"testing"
	"time"

	"gylebook/internal/book"
	"gylebook/internal/journal"
	"gylebook/internal/site"
	"gylebook/internal/store"
)

// soaked is a small journal in which nearly everything leads to something else.
func soaked() map[string]string {
	files := map[string]string{
		"index.md":         "---\njournal: A soaked book\naddress: https://soaked.example/\n---\nWelcome. The last one was [](gyle:3).\n",
		"notes/one.md":     "---\ntitle: One\ntags: [tag a]\n---\n# A heading\n\nSee [the gyle](../gyles/2.md#how-it-went), [](figure:abv?gyle=1) and ![a picture](../photos/p.png \"Small\").\n",
		"cards/pale.md":    "---\ncard: malt\nname: Pale Malt\nextract: 300 Ldeg/kg\n---\nIts story, see [gyle](gyle:1).\n",
		"cards/yeast.md":   "---\ncard: yeast\nname: House Ale\nattenuates: 70 to 78 %\n---\nIts story.\n",
		"gyles/blend.md":   "---\ngyle: 9\nbeer: Blend\ndrawn_from: [{gyle: 1, volume: 5 L, on: 2026-05-01}, {gyle: 2, volume: 5 L, on: 2026-05-01}]\n---\nOf [one](gyle:1).\n",
		"photos/p.png":     tinyPNG,
		"gyles/logger.csv": "when,gravity,temp\n2026-05-20 10:00,1.040,20\n2026-05-21 10:00,1.030,20\n2026-05-22 10:00,1.020,20\n",
	}
	for i := 1; i <= 6; i++ {
		follows, logger := "", ""
		if i > 1 {
			follows = fmt.Sprintf("follows: %d\n", i-1)
		}
		if i == 6 {
			logger = "readings_from: logger.csv\n"
		}
		files[fmt.Sprintf("gyles/%d.md", i)] = fmt.Sprintf("---\ngyle: %d\nbeer: Ale %d\nbrewed: 2026-0%d-10\n%s%sstyle: best bitter\ntags: [tag %c, cask]\naim: {og: 1.040, abv: 4 %%}\ngrist: [{malt: pale malt, weight: 4 kg}]\ncopper: {boiled: 60 min, after: {volume: 24 L, gravity: 1.041}}\nhops: [{hop: goldings, weight: 30 g, alpha: 5 %%, boiled: 60 min}]\nyeast: [{yeast: house ale, pitched: 2026-0%d-10 14:00}]\nfermenter: {volume: 22 L, gravity: 1.040}\nreadings:\n  - {when: 2026-0%d-13, gravity: 1.016, temp: 20 C}\n  - {when: 2026-0%d-20, gravity: 1.010, temp: 20 C}\n---\n## How it went\n\nWell, see [](gyle:%d), [hops](hop:goldings), [](figure:abv), [](figure:abv?gyle=%d)%s.\n",
			i, i, min(i, 5), follows, logger, 'a'+i%2, min(i, 5), min(i, 5), min(i, 5), max(1, i-1), max(1, i-1), []string{"", " and [a note](note:one)"}[i%2])
	}
	return files
}

// tinyPNG is a picture of one grey pixel (PNG, W3C Recommendation of 2003).
const tinyPNG = "\x89PNG\r\n\x1a\n\x00\x00\x00\rIHDR\x00\x00\x00\x01\x00\x00\x00\x01\x08\x00\x00\x00\x00:~\x9bU\x00\x00\x00\nIDATx\x9cc`\x00\x00\x00\x02\x00\x01H\xaf\xa4q\x00\x00\x00\x00IEND\xaeB`\x82"

// soakings are edits after which every file can still be read.
var soakings = []struct {
	does string
	edit func(r *rand.Rand, s *served)
}{
	{"story", func(r *rand.Rand, s *served) {
		s.change(pick(r, "gyles/1.md", "gyles/3.md", "gyles/blend.md", "notes/one.md", "cards/pale.md", "index.md"), "$", fmt.Sprintf("More words, no. %d, of [](gyle:%d).\n", r.IntN(1e6), 1+r.IntN(9)))
	}},
	{"heading", func(r *rand.Rand, s *served) {
		s.change("gyles/2.md", "(?m)^## .*$", pick(r, "## How it went", "## How it did", "## So"))
	}},
	{"reading", func(r *rand.Rand, s *served) {
		s.change(fmt.Sprintf("gyles/%d.md", 1+r.IntN(6)), `gravity: 1\.0[01]\d, temp`, fmt.Sprintf("gravity: 1.0%02d, temp", 8+r.IntN(10)))
	}},
	{"yield", func(r *rand.Rand, s *served) {
		s.change(fmt.Sprintf("gyles/%d.md", 1+r.IntN(6)), `weight: \d\.?\d* kg`, fmt.Sprintf("weight: %d.%d kg", 3+r.IntN(3), r.IntN(9)))
	}},
	{"day", func(r *rand.Rand, s *served) {
		s.change(fmt.Sprintf("gyles/%d.md", 1+r.IntN(6)), `brewed: \S+`, fmt.Sprintf("brewed: 2026-0%d-0%d", 1+r.IntN(5), 1+r.IntN(9)))
	}},
	{"tag", func(r *rand.Rand, s *served) {
		s.change(fmt.Sprintf("gyles/%d.md", 1+r.IntN(6)), `tag \w`, "tag "+pick(r, "a", "b", "c"))
	}},
	{"follows", func(r *rand.Rand, s *served) {
		s.change(fmt.Sprintf("gyles/%d.md", 2+r.IntN(5)), `follows: \d+`, fmt.Sprintf("follows: %d", 1+r.IntN(9)))
	}},
	{"drawn from", func(r *rand.Rand, s *served) {
		s.change("gyles/blend.md", `\{gyle: \d, volume: \d L`, fmt.Sprintf("{gyle: %d, volume: %d L", 1+r.IntN(6), 1+r.IntN(9)))
	}},
	{"beer", func(r *rand.Rand, s *served) {
		s.change(fmt.Sprintf("gyles/%d.md", 1+r.IntN(6)), `beer: .*`, pick(r, "beer: Ale", "beer: Stout"))
	}},
	{"hop", func(r *rand.Rand, s *served) {
		s.change(fmt.Sprintf("gyles/%d.md", 1+r.IntN(6)), `hop: \w+`, "hop: "+pick(r, "goldings", "fuggle", "goldigns"))
	}},
	{"card", func(r *rand.Rand, s *served) {
		s.change("cards/yeast.md", `attenuates: \d\d`, fmt.Sprintf("attenuates: %d", 60+r.IntN(15)))
	}},
	{"settings", func(r *rand.Rand, s *served) {
		s.change("index.md", `journal: .*`, "journal: "+pick(r, "One book", "Another book"))
	}},
	{"picture", func(r *rand.Rand, s *served) {
		if os.Remove(s.path("photos/p.png")) != nil {
			s.write("photos/p.png", tinyPNG)
		}
	}},
	{"logger", func(r *rand.Rand, s *served) {
		s.change("gyles/logger.csv", `1\.02\d`, fmt.Sprintf("1.02%d", r.IntN(10)))
	}},
	{"new entry", func(r *rand.Rand, s *served) {
		n := 20 + r.IntN(5)
		s.write(fmt.Sprintf("gyles/new/%d.md", n), fmt.Sprintf("---\ngyle: %d\nbeer: New\nbrewed: 2026-04-0%d\n---\nNew, no. %d.\n", n, 1+r.IntN(9), r.IntN(1e6)))
	}},
	{"no entry", func(r *rand.Rand, s *served) { os.RemoveAll(s.path("gyles/new")) }},
	{"rename", func(r *rand.Rand, s *served) {
		if os.Rename(s.path("gyles/4.md"), s.path("gyles/four.md")) != nil {
			s.rename("gyles/four.md", "gyles/4.md")
		}
	}},
}

func pick(r *rand.Rand, words ...string) string { return words[r.IntN(len(words))] }

// change replaces what a pattern first finds in a file, if the file is there.
func (s *served) change(name, pattern, with string) {
	s.t.Helper()
	text, err := os.ReadFile(s.path(name))
	if err != nil {
		return
	}
	if at := regexp.MustCompile(pattern).FindStringIndex(string(text)); at != nil {
		s.write(name, string(text[:at[0]])+with+string(text[at[1]:]))
	}
}

// publish is what would be published of a folder now, by path.
func (s *served) publish() map[string]string {
	s.t.Helper()
	files, err := journal.Root(s.dir)
	s.must(err)
	b := book.Open(journal.Read(files, journal.Options{}), noon)
	made, err := site.Build(b, site.Options{Version: "test", Files: files})
	s.must(err)
	all := map[string]string{}
	for _, p := range made.Pages() {
		body, err := p.Render()
		s.must(err)
		all[p.Path] = string(body)
	}
	return all
}

// scriptTag is all that the pages of a live site have and published ones have not.
var scriptTag = regexp.MustCompile(`<script src="[./]*live\.js" defer></script>\n`)

// TestSoak edits a journal at random, and holds every page that is served to the
// one that a fresh publish would write, but for the script.
func TestSoak(t *testing.T) {
	steps := 24
	if testing.Short() {
		steps = 6
	}
	s := serve(t, soaked())
	seed := uint64(20261125)
	r := rand.New(rand.NewPCG(seed, seed))
	open := []<-chan string{s.listen("gyles/2/"), s.listen(""), s.listen("trends/")}
	var done []string
	for step := range steps {
		for range 1 + r.IntN(3) {
			e := soakings[r.IntN(len(soakings))]
			e.edit(r, s)
			done = append(done, e.does)
		}
		s.sameAsPublished(fmt.Sprintf("seed %d, step %d, after %s", seed, step, strings.Join(done, ", ")))
		for _, news := range open {
			for len(news) > 0 {
				<-news
			}
		}
	}
}

// sameAsPublished waits until what is served is what would be published.
func (s *served) sameAsPublished(when string) {
	s.t.Helper()
	want := s.publish()
	var wrong string
	for end := time.Now().Add(patience); time.Now().Before(end); time.Sleep(50 * time.Millisecond) {
		if wrong = s.differs(want); wrong == "" {
			return
		}
	}
	s.t.Fatalf("%s: %s", when, wrong)
}

// differs names the first page that is not as published, "" for none. The page
// for addresses that are not there begins its links elsewhere.
func (s *served) differs(want map[string]string) string {
	for path, page := range want {
		if path == "404.html" {
			continue
		}
		_, body := s.get(path)
		if got := scriptTag.ReplaceAllString(body, ""); got != page {
			return fmt.Sprintf("%s is not as published:\n%s", path, difference(got, page))
		}
	}
	return ""
}

func difference(got, want string) string {
	a, b := strings.Split(got, "\n"), strings.Split(want, "\n")
	for i := range min(len(a), len(b)) {
		if a[i] != b[i] {
			return fmt.Sprintf("line %d\n got %.300s\nwant %.300s", i+1, a[i], b[i])
		}
	}
	return fmt.Sprintf("%d lines against %d", len(a), len(b))
}

// TestLiveListsWhatWouldBePublished compares the lists of pages after edits, with
// every page rendered from an edition made of the last one.
func TestLiveListsWhatWouldBePublished(t *testing.T) {
	dir := t.TempDir()
	s := &served{t: t, dir: dir}
	for name, text := range soaked() {
		s.write(name, text)
	}
	d := &bookServer{options: Options{Journal: dir, Version: "test", Now: func() time.Time { return noon }}, news: newNews(), kept: store.New(nil), outcomes: make(chan buildOutcome, 100)}
	s.must(d.open(s.t.Context()))
	r := rand.New(rand.NewPCG(7, 7))
	for range 12 {
		e := soakings[r.IntN(len(soakings))]
		e.edit(r, s)
		for range 2 { // the second look is after the time that a doubted file is given
			d.rebuild([]string{""})
			for name := range d.folder.doubted {
				d.folder.doubted[name] = suspicion{first: time.Now().Add(-longestDoubt), since: time.Now().Add(-doubt), hash: d.folder.doubted[name].hash}
			}
		}
		want := s.publish()
		made := d.last.Load()
		for _, p := range made.site.Pages() {
			body, err := p.Render()
			s.must(err)
			page, is := want[p.Path]
			if got := scriptTag.ReplaceAllString(string(body), ""); p.Path != "404.html" && (!is || got != page) {
				t.Errorf("after %s: %s (published: %t) differs:\n%s", e.does, p.Path, is, difference(got, page))
			}
			delete(want, p.Path)
		}
		for path := range want {
			t.Errorf("after %s: %s is published and not served", e.does, path)
		}
		if t.Failed() {
			return
		}
	}
}

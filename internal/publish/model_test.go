package publish

import (
	"errors"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// TestEditionsAgainstAModel publishes random editions into one folder, between
// which somebody deletes pages, leaves strangers, edits, and keeps files, and
// which are now and then aborted or cut off, and compares it with a plain map.
func TestEditionsAgainstAModel(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		around, err := os.MkdirTemp(t.TempDir(), "")
		if err != nil {
			rt.Fatal(err)
		}
		defer os.RemoveAll(around)
		m := &model{dir: filepath.Join(around, "site"), pages: tree{}, others: tree{}}
		actions := map[string]func(*rapid.T){
			"publish": m.publishes,
			"again":   m.publishesAgain,
			"abort":   m.aborts,
			"cut":     m.isCutOff,
			"delete":  m.losesPage,
			"disturb": m.isDisturbed,
			"keep":    m.keeps,
		}
		someAction := rapid.SampledFrom(slices.Sorted(maps.Keys(actions)))
		for _, name := range rapid.SliceOfN(someAction, 3, 12).Draw(rt, "actions") {
			actions[name](rt)
			m.agrees(rt)
		}
	})
}

// A model is what the site should hold.
type model struct {
	dir    string
	pages  tree // ours, as last published
	others tree // kept files that are there
	keep   []string
	gone   []string // pages that somebody deleted since
}

// Paths that may well meet: files and folders of one name, names that sort
// around the slash, and, left to luck, ones that are kept.
var (
	somePath  = rapid.SampledFrom([]string{"a", "a/b", "a/b/c", "a.b", "a-", "b", "b/a", "b/c/d/e", "c/index.html", "index.html", "k", "k/x"})
	someText  = rapid.SampledFrom([]string{"", "one", "two", "three"})
	someFiles = rapid.MapOfN(somePath, someText, 1, 8)
	someKeeps = rapid.SliceOfN(rapid.SampledFrom([]string{"k", "CNAME", ".git", "b/c"}), 0, 3)
)

func (m *model) opts(t *rapid.T) Options {
	opts := Options{Keep: m.keep, hooks: hooks{sync: &noSync}}
	if rapid.Bool().Draw(t, "roll") {
		opts.hooks.exchange = func(*os.File, string, string) error { return errors.ErrUnsupported }
	}
	return opts
}

// edition draws pages of which none needs a folder where another, or a kept
// file, stands.
func (m *model) edition(t *rapid.T) tree {
	pages := m.compatible(t, someFiles.Draw(t, "pages"))
	if len(pages) == 0 {
		pages["last/resort"] = "x"
	}
	return pages
}

func (m *model) compatible(t *rapid.T, drawn tree) tree {
	c, err := newClaims(m.keep)
	if err != nil {
		t.Fatal(err)
	}
	pages := tree{}
	for _, p := range slices.Sorted(maps.Keys(drawn)) {
		if _, err := c.page(p); err == nil {
			pages[p] = drawn[p]
		}
	}
	return pages
}

func (m *model) covers(p string) bool {
	return slices.ContainsFunc(m.keep, func(name string) bool {
		return p == name || strings.HasPrefix(p, name+"/")
	})
}

// becomes notes that the pages were published.
func (m *model) becomes(pages tree) {
	m.pages, m.gone = tree{}, nil
	for p, text := range pages {
		if !m.covers(p) {
			m.pages[p] = text
		}
	}
}

func (m *model) publishes(t *rapid.T) { m.publish(t, m.edition(t)) }

func (m *model) publishesAgain(t *rapid.T) {
	pages := m.compatible(t, m.pages)
	if len(pages) == 0 {
		return
	}
	m.publish(t, pages)
}

func (m *model) publish(t *rapid.T, pages tree) {
	opts := m.opts(t)
	e, err := Begin(m.dir, opts)
	if err != nil {
		t.Fatal(err)
	}
	for _, p := range rapid.Permutation(slices.Sorted(maps.Keys(pages))).Draw(t, "order") {
		if err := e.Put(p, []byte(pages[p])); err != nil {
			t.Fatal(err)
		}
	}
	was := m.onDisk()
	report, err := e.Commit()
	if !slices.ContainsFunc(slices.Collect(maps.Keys(pages)), func(p string) bool { return !m.covers(p) }) {
		if !errors.Is(err, errNoPages) {
			t.Fatalf("an edition all of kept pages: %v", err)
		}
		return
	}
	if err != nil {
		t.Fatal(err)
	}
	m.becomes(pages)
	m.checkReport(t, was, report, len(pages))
}

// onDisk is what is there of our pages.
func (m *model) onDisk() tree {
	there := maps.Clone(m.pages)
	for _, p := range m.gone {
		delete(there, p)
	}
	return there
}

func (m *model) checkReport(t *rapid.T, was tree, got Report, put int) {
	var want Report
	for p, text := range m.pages {
		if old, there := was[p]; there && old == text {
			want.Unchanged++
		} else {
			want.Written++
		}
	}
	for p := range was {
		if _, stays := m.pages[p]; !stays {
			want.Removed++
		}
	}
	want.Kept = put - len(m.pages)
	got.WrittenPaths, got.RemovedPaths, got.KeptPaths = nil, nil, nil
	if got.Written != want.Written || got.Unchanged != want.Unchanged || got.Removed != want.Removed || got.Kept != want.Kept {
		t.Fatalf("reported %+v, want %+v", got, want)
	}
}

func (m *model) aborts(t *rapid.T) {
	e, err := Begin(m.dir, m.opts(t))
	if err != nil {
		t.Fatal(err)
	}
	for p, text := range m.edition(t) {
		if err := e.Put(p, []byte(text)); err != nil {
			t.Fatal(err)
		}
	}
	if err := e.Abort(); err != nil {
		t.Fatal(err)
	}
}

// isCutOff dies while publishing; the site then is the old or the new one, once
// it has been begun again.
func (m *model) isCutOff(t *rapid.T) {
	pages, opts := m.edition(t), m.opts(t)
	if _, err := cutOff(m.dir, opts, pages, rapid.Int64Range(1, 60).Draw(t, "step")); err != nil && !errors.Is(err, errNoPages) {
		t.Fatal(err)
	}
	if err := tryToPublish(m.dir, Options{Keep: m.keep, hooks: hooks{sync: &noSync}}, nil); err != nil {
		t.Fatal(err)
	}
	text, err := os.ReadFile(filepath.Join(m.dir, listName))
	if err != nil && !errors.Is(err, os.ErrNotExist) {
		t.Fatal(err)
	}
	next := &model{keep: m.keep}
	next.becomes(pages)
	if err == nil && string(text) == string(sums(next.pages).bytes()) {
		// The two may have one list; then what was missing tells them apart.
		if _, err := os.Lstat(m.dir); err == nil && !m.misses(next.pages) {
			m.becomes(pages)
		}
	}
}

// misses tells whether any of the pages is not on the disk.
func (m *model) misses(pages tree) bool {
	for p := range pages {
		if _, err := os.Lstat(filepath.Join(m.dir, p)); err != nil {
			return true
		}
	}
	return false
}

func (m *model) losesPage(t *rapid.T) {
	there := slices.Sorted(maps.Keys(m.onDisk()))
	if len(there) == 0 {
		return
	}
	p := rapid.SampledFrom(there).Draw(t, "page")
	if err := os.Remove(filepath.Join(m.dir, p)); err != nil {
		t.Fatal(err)
	}
	m.gone = append(m.gone, p)
}

// isDisturbed leaves a stranger or an edit, sees it refused, and undoes it.
func (m *model) isDisturbed(t *rapid.T) {
	there := slices.Sorted(maps.Keys(m.onDisk()))
	if len(there) == 0 {
		return
	}
	name, text := filepath.Join(m.dir, "stranger"), ""
	if rapid.Bool().Draw(t, "edit") {
		p := rapid.SampledFrom(there).Draw(t, "page")
		name, text = filepath.Join(m.dir, p), m.pages[p]
	}
	if err := os.WriteFile(name, []byte("mine"), 0o644); err != nil {
		t.Fatal(err)
	}
	_, err := Begin(m.dir, m.opts(t))
	var strangers *StrangersError
	if !errors.As(err, &strangers) {
		t.Fatalf("%s: got %v", name, err)
	}
	if text == "" && filepath.Base(name) == "stranger" {
		err = os.Remove(name)
	} else {
		err = os.WriteFile(name, []byte(text), 0o644)
	}
	if err != nil {
		t.Fatal(err)
	}
}

// keeps keeps other names than before, and puts files there. What is kept no
// longer would be a stranger, so it goes first.
func (m *model) keeps(t *rapid.T) {
	for _, name := range m.keep {
		full := filepath.Join(m.dir, name)
		if _, err := os.Lstat(full); err != nil {
			continue
		}
		if err := os.RemoveAll(full); err != nil {
			t.Fatal(err)
		}
		for up := filepath.Dir(full); up != m.dir && os.Remove(up) == nil; up = filepath.Dir(up) {
		}
	}
	m.others, m.keep = tree{}, someKeeps.Draw(t, "keep")
	for _, name := range m.keep {
		if name == ".git" {
			name = ".git/HEAD"
		}
		m.plantKept(t, name)
	}
	m.handOver()
}

// plantKept writes a kept file, unless a page or a folder of pages is there.
func (m *model) plantKept(t *rapid.T, name string) {
	full := filepath.Join(m.dir, name)
	if _, err := os.Lstat(full); err == nil || !rapid.Bool().Draw(t, "plant "+name) {
		return
	}
	if os.MkdirAll(filepath.Dir(full), 0o755) != nil {
		return // a page stands where the folder would be
	}
	if err := os.WriteFile(full, []byte("theirs"), 0o644); err != nil {
		t.Fatal(err)
	}
	m.others[name] = "theirs"
}

// handOver makes pages that are kept now somebody else's.
func (m *model) handOver() {
	there := m.onDisk()
	for p := range m.pages {
		if !m.covers(p) {
			continue
		}
		if text, ok := there[p]; ok {
			m.others[p] = text
		}
		delete(m.pages, p)
	}
}

// agrees compares the site with the model. Folders that were emptied by hand
// are no matter.
func (m *model) agrees(t *rapid.T) {
	got := tree{}
	for p, text := range readTree(t, m.dir) {
		if !strings.HasSuffix(p, "/") {
			got[p] = text
		}
	}
	if want := joined(m.onDisk(), m.others); !maps.Equal(got, want) {
		t.Fatalf("the site holds %v, want %v", got, want)
	}
	entries, err := os.ReadDir(filepath.Dir(m.dir))
	if err != nil {
		t.Fatal(err)
	}
	if len(entries) > 1 {
		t.Fatalf("something was left beside the site: %v", entries)
	}
}

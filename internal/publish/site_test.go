package publish

import (
	"crypto/sha256"
	"errors"
	"io/fs"
	"maps"
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// A tree is what stands on disk: the text of each file by its path, and for
// each empty folder its path with a final slash.
type tree map[string]string

// A tester is a *testing.T, a *testing.B or a *rapid.T.
type tester interface {
	Helper()
	Fatal(args ...any)
}

// noSync leaves it to the system when something reaches the disk.
var noSync = syncCalls{untouched, untouched, untouched}

func untouched(*os.File) error { return nil }

// readTree reads a folder without our list; one that is missing gives nil.
func readTree(t tester, dir string) tree {
	t.Helper()
	got := tree{}
	err := filepath.WalkDir(dir, func(name string, entry fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		rel, err := filepath.Rel(dir, name)
		if err != nil {
			return err
		}
		rel = filepath.ToSlash(rel)
		switch {
		case rel == "." || rel == listName:
		case entry.IsDir():
			got[rel+"/"] = ""
		default:
			text, err := os.ReadFile(name)
			if err != nil {
				return err
			}
			got[rel] = string(text)
		}
		delete(got, filepath.ToSlash(filepath.Dir(rel))+"/")
		return nil
	})
	if os.IsNotExist(err) {
		return nil
	}
	if err != nil {
		t.Fatal(err)
	}
	return got
}

// wantTree checks what stands in a folder.
func wantTree(t testing.TB, dir string, want tree) {
	t.Helper()
	if diff := cmp.Diff(want, readTree(t, dir)); diff != "" {
		t.Fatalf("the tree differs (-want +got):\n%s", diff)
	}
}

// wantList checks that the site's list is the list of these pages.
func wantList(t testing.TB, dir string, pages tree) {
	t.Helper()
	text, err := os.ReadFile(filepath.Join(dir, listName))
	if err != nil {
		t.Fatal(err)
	}
	got, err := parseList(text)
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(sums(pages), got); diff != "" {
		t.Fatalf("the list differs (-want +got):\n%s", diff)
	}
}

// wantAlone checks that nothing but the site, if it exists, is in its parent.
func wantAlone(t testing.TB, site string) {
	t.Helper()
	entries, err := os.ReadDir(filepath.Dir(site))
	if err != nil {
		t.Fatal(err)
	}
	for _, entry := range entries {
		if entry.Name() != filepath.Base(site) {
			t.Errorf("%s was left beside the site", entry.Name())
		}
	}
	if _, err := os.Lstat(filepath.Join(site, insideName)); err == nil {
		t.Errorf("%s was left in the site", insideName)
	}
}

// put opens an edition and puts the pages, in no order.
func put(t testing.TB, dir string, opts Options, pages tree) *Edition {
	t.Helper()
	e, err := Begin(dir, opts)
	if err != nil {
		t.Fatal(err)
	}
	for p, text := range pages {
		if err := e.Put(p, []byte(text)); err != nil {
			t.Fatal(err)
		}
	}
	return e
}

// publish makes dir hold the pages and checks that it does.
func publish(t testing.TB, dir string, opts Options, pages tree) Report {
	t.Helper()
	report, err := put(t, dir, opts, pages).Commit()
	if err != nil {
		t.Fatal(err)
	}
	wantList(t, dir, pages)
	return report
}

// plant writes files that are not ours.
func plant(t testing.TB, dir string, files tree) {
	t.Helper()
	for _, p := range slices.Sorted(maps.Keys(files)) {
		name := filepath.Join(dir, filepath.FromSlash(p))
		if strings.HasSuffix(p, "/") {
			if err := os.MkdirAll(name, 0o755); err != nil {
				t.Fatal(err)
			}
			continue
		}
		if err := os.MkdirAll(filepath.Dir(name), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(name, []byte(files[p]), 0o644); err != nil {
			t.Fatal(err)
		}
	}
}

// site is where a test's site is to lie, with nothing beside it.
func site(t testing.TB) string { return filepath.Join(t.TempDir(), "site") }

// canExchangeHere tells on which systems tests may expect an exchange, given
// that their temporary folder is on an ordinary file system.
const canExchangeHere = runtime.GOOS == "linux" || runtime.GOOS == "darwin"

// A way is a manner of changing a site that is there: what must be done to the
// folder and asked for to get it.
type way struct {
	opts    Options
	prepare func(t testing.TB, dir string)
	kept    tree
}

var (
	keepNames = []string{"CNAME", ".git", "deep/theirs.txt"}
	keptTree  = tree{"CNAME": "beer.example", ".git/HEAD": "main", "deep/theirs.txt": "a file among ours"}
)

func plantKept(t testing.TB, dir string) { plant(t, dir, keptTree) }

var ways = map[string]way{
	"exchange": {},
	"roll": {
		opts: Options{hooks: hooks{exchange: func(*os.File, string, string) error { return errors.ErrUnsupported }}},
	},
	"roll after a refused exchange": {
		opts: Options{hooks: hooks{exchange: func(dir *os.File, one, two string) error {
			if one == "site" {
				return errors.ErrUnsupported
			}
			return exchangeFolders(dir, one, two)
		}}},
	},
	"exchange around kept files": {
		opts:    Options{Keep: keepNames},
		prepare: plantKept,
		kept:    keptTree,
	},
	"roll around kept files": {
		opts: Options{Keep: keepNames, hooks: hooks{
			exchange: func(*os.File, string, string) error { return errors.ErrUnsupported },
		}},
		prepare: plantKept,
		kept:    keptTree,
	},
	"roll from inside": {
		prepare: func(t testing.TB, dir string) { plant(t, dir, tree{insideName + "/": ""}) },
	},
}

// two editions that differ in every manner: pages changed, new, gone, the same,
// a page that becomes a folder, a folder that becomes a page, an emptied folder.
var (
	before = tree{
		"index.html": "old", "style.css": "the same", "gyles/1/index.html": "one", "gyles/2/index.html": "two",
		"tags": "a page", "years/2026": "2026", "empty": "", "deep/er/and/deeper": "x",
	}
	after = tree{
		"index.html": "new", "style.css": "the same", "gyles/1/index.html": "one", "gyles/3/index.html": "three",
		"tags/cask": "a folder", "years": "a page", "empty": "no longer",
	}
)

func joined(trees ...tree) tree {
	all := tree{}
	for _, t := range trees {
		maps.Copy(all, t)
	}
	return all
}

func sums(pages tree) list {
	l := list{}
	for p, text := range pages {
		l[p] = sha256.Sum256([]byte(text))
	}
	return l
}

func eachWay(t *testing.T, do func(t *testing.T, dir string, opts Options, kept tree)) {
	for _, name := range slices.Sorted(maps.Keys(ways)) {
		way := ways[name]
		t.Run(name, func(t *testing.T) {
			dir := site(t)
			publish(t, dir, Options{}, before)
			if way.prepare != nil {
				way.prepare(t, dir)
			}
			do(t, dir, way.opts, way.kept)
		})
	}
}

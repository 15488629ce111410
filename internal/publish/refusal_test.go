package publish

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

func TestPathsThatAreRefused(t *testing.T) {
	tests := []struct {
		first, then string // the second is refused
		says        string
	}{
		{"", "", "plain slash path"},
		{"", ".", "plain slash path"},
		{"", "..", "plain slash path"},
		{"", "../index.html", "plain slash path"},
		{"", "gyles/../../index.html", "plain slash path"},
		{"", "gyles/./index.html", "plain slash path"},
		{"", "gyles//index.html", "plain slash path"},
		{"", "gyles/", "plain slash path"},
		{"", "/etc/passwd", "plain slash path"},
		{"", "bad\xff.html", "plain slash path"},
		{"", `gyles\1.html`, "backslash"},
		{"", "line\nbreak.html", "control character"},
		{"", "nul\x00.html", "control character"},
		{"", listName, "own record"},
		{"", strings.ToUpper(listName), "own record"},
		{"", insideName + "/stage/x", "own record"},
		{"a.html", "a.html", "twice"},
		{"a.html", "A.html", "only in case"},
		{"ünder.html", "Ünder.html", "only in case"},
		{"k.html", "\u212a.html", "only in case"}, // the Kelvin sign
		{"Mild/index.html", "mild/index.html", "only in case"},
		{"Mild/index.html", "mild/other.html", "only in case"},
		{"mild", "mild/index.html", "needs a folder where the page mild"},
		{"mild/index.html", "mild", "is a folder"},
		{"mild", "Mild/index.html", "only in case"},
		{"", "cname", "only in case"}, // from CNAME, which is kept
		{"", "kept", "is a folder"},   // around kept/below
	}
	for _, tt := range tests {
		t.Run(fmt.Sprintf("%q then %q", tt.first, tt.then), func(t *testing.T) {
			e, err := Begin(site(t), Options{Keep: []string{"CNAME", "kept/below"}})
			if err != nil {
				t.Fatal(err)
			}
			defer e.Abort()
			if tt.first != "" {
				if err := e.Put(tt.first, nil); err != nil {
					t.Fatal(err)
				}
			}
			err = e.Put(tt.then, nil)
			if err == nil || !strings.Contains(err.Error(), tt.says) {
				t.Errorf("got %v, want %q", err, tt.says)
			}
		})
	}
}

func TestPathsThatAreTaken(t *testing.T) {
	pages := tree{
		"index.html": "", ".nojekyll": "", "two words & more.html": "", "über/größe.html": "",
		"a/b": "", "a.b": "", "a-b/c": "", "...": "", "-": "",
	}
	dir := site(t)
	publish(t, dir, Options{}, pages)
	wantTree(t, dir, pages)
}

func TestKeepsThatAreRefused(t *testing.T) {
	for _, name := range []string{"", ".", "/", "..", "../other", "/etc", `a\b`, listName, "x/../..", "./x", "a//b"} {
		if e, err := Begin(site(t), Options{Keep: []string{name}}); err == nil {
			t.Errorf("keep %q was taken", name)
			e.Abort()
		} else if !strings.Contains(err.Error(), fmt.Sprintf("keep %q", name)) {
			t.Errorf("keep %q: the error does not name it: %v", name, err)
		}
	}
}

func TestFoldersThatAreRefused(t *testing.T) {
	here := t.TempDir()
	t.Chdir(here)
	home := filepath.Join(t.TempDir(), "people", "brewer")
	plant(t, home, tree{"sites/": ""})
	t.Setenv("HOME", home)
	t.Setenv("USERPROFILE", home)
	plant(t, here, tree{"file": "", "sub/": ""})
	link := func(to, name string) string {
		if err := os.Symlink(to, name); err != nil {
			t.Skipf("no symbolic links here: %v", err)
		}
		return name
	}
	root := filepath.VolumeName(here) + string(filepath.Separator)
	tests := []struct{ name, dir, says string }{
		{"no name", "", "no folder"},
		{"root", root, "root folder"},
		{"working folder", ".", "working folder"},
		{"working folder by name", here, "working folder"},
		{"working folder by link", link(here, filepath.Join(t.TempDir(), "here")), "working folder"},
		{"around the working folder", "..", "lies around it"},
		{"home", home, "home folder"},
		{"around home", filepath.Dir(home), "home folder"},
		{"a file", "file", "it is a file"},
		{"a link to a file", link("file", "to-file"), "it is a file"},
		{"a link to nothing", link("nowhere", "to-nowhere"), "leads nowhere"},
		{"below a file", "file/site", ""},
	}
	was := readNames(t, here)
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			e, err := Begin(tt.dir, Options{})
			if err == nil {
				e.Abort()
				t.Fatal("it was taken")
			}
			if !strings.Contains(err.Error(), tt.says) || !strings.HasPrefix(err.Error(), "publishing into "+tt.dir+": ") {
				t.Errorf("got %v, want %q", err, tt.says)
			}
		})
	}
	if diff := cmp.Diff(was, readNames(t, here)); diff != "" {
		t.Errorf("the refusals touched the working folder (-was +is):\n%s", diff)
	}
}

func TestFoldersBelowHomeAndHereAreTaken(t *testing.T) {
	t.Chdir(t.TempDir())
	home := t.TempDir()
	t.Setenv("HOME", home)
	t.Setenv("USERPROFILE", home)
	for _, dir := range []string{"site", filepath.Join(home, "site")} {
		publish(t, dir, Options{}, before)
		publish(t, dir, Options{}, after)
		wantTree(t, dir, after)
	}
}

func TestLinkToTheSiteIsFollowedAndStays(t *testing.T) {
	real := site(t)
	link := filepath.Join(t.TempDir(), "link")
	if err := os.Mkdir(real, 0o755); err != nil {
		t.Fatal(err)
	}
	if err := os.Symlink(real, link); err != nil {
		t.Skipf("no symbolic links here: %v", err)
	}
	publish(t, link, Options{}, before)
	publish(t, link, Options{}, after)
	wantTree(t, real, after)
	wantAlone(t, real)
	wantAlone(t, link)
	if to, err := os.Readlink(link); err != nil || to != real {
		t.Errorf("the link leads to %q (%v)", to, err)
	}
}

func TestStrangersAreRefused(t *testing.T) {
	link := func(t *testing.T, dir, name string) {
		if err := os.Symlink(os.TempDir(), filepath.Join(dir, name)); err != nil {
			t.Skipf("no symbolic links here: %v", err)
		}
	}
	tests := []struct {
		name             string
		disturb          func(t *testing.T, dir string)
		unlisted, edited []string
	}{
		{"a file", func(t *testing.T, dir string) { plant(t, dir, tree{"x.html": ""}) }, []string{"x.html"}, nil},
		{"a file in our folder", func(t *testing.T, dir string) { plant(t, dir, tree{"gyles/1/x": ""}) }, []string{"gyles/1/x"}, nil},
		{"a folder", func(t *testing.T, dir string) { plant(t, dir, tree{"photos/a": "", "photos/b": ""}) }, []string{"photos/"}, nil},
		{"an empty folder", func(t *testing.T, dir string) { plant(t, dir, tree{"gyles/9/": ""}) }, []string{"gyles/9/"}, nil},
		{"an edit", func(t *testing.T, dir string) { plant(t, dir, tree{"index.html": "mine", "tags": "mine"}) }, nil, []string{"index.html", "tags"}},
		{"both", func(t *testing.T, dir string) { plant(t, dir, tree{"index.html": "mine", "x": ""}) }, []string{"x"}, []string{"index.html"}},
		{"a link", func(t *testing.T, dir string) { link(t, dir, "x") }, []string{"x"}, nil},
		{"a link for a page", func(t *testing.T, dir string) {
			remove(t, filepath.Join(dir, "index.html"))
			link(t, dir, "index.html")
		}, []string{"index.html"}, nil},
		{"a folder for a page", func(t *testing.T, dir string) {
			remove(t, filepath.Join(dir, "index.html"))
			plant(t, dir, tree{"index.html/": ""})
		}, []string{"index.html/"}, nil},
		{"a file for a folder", func(t *testing.T, dir string) {
			remove(t, filepath.Join(dir, "gyles"))
			plant(t, dir, tree{"gyles": ""})
		}, []string{"gyles"}, nil},
		{"no list", func(t *testing.T, dir string) { remove(t, filepath.Join(dir, listName)) },
			[]string{"deep/", "empty", "gyles/", "index.html", "style.css", "tags", "years/"}, nil},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			dir := site(t)
			publish(t, dir, Options{}, before)
			tt.disturb(t, dir)
			was := readNames(t, dir)
			e, err := Begin(dir, Options{})
			if err == nil {
				e.Abort()
			}
			var strangers *StrangersError
			if !errors.As(err, &strangers) {
				t.Fatalf("got %v", err)
			}
			if diff := cmp.Diff(&StrangersError{tt.unlisted, tt.edited}, strangers); diff != "" {
				t.Errorf("the strangers differ (-want +got):\n%s", diff)
			}
			if diff := cmp.Diff(was, readNames(t, dir)); diff != "" {
				t.Errorf("the refusal touched the site (-was +is):\n%s", diff)
			}
			wantAlone(t, dir)
		})
	}
}

func TestStrangersErrorNamesAFewAndTheWayOut(t *testing.T) {
	err := &StrangersError{Unlisted: []string{"a", "b", "c", "d", "e", "f", "g"}, Edited: []string{"index.html"}}
	for _, want := range []string{"a, b, c, d, e and 2 more", "under keep", "index.html", "delete these files"} {
		if !strings.Contains(err.Error(), want) {
			t.Errorf("%q is not in: %v", want, err)
		}
	}
}

func TestForeignFolderIsNeverPublishedInto(t *testing.T) {
	dir := site(t)
	photos := tree{"2024/party.jpg": "x", "2025/mash.jpg": "y"}
	plant(t, dir, photos)
	if e, err := Begin(dir, Options{}); err == nil {
		e.Abort()
		t.Error("a folder of photos was taken for a site")
	}
	wantTree(t, dir, photos)
	publish(t, dir, Options{Keep: []string{"2024", "2025"}}, before)
	wantTree(t, dir, joined(before, photos))
}

func TestListsThatAreRefused(t *testing.T) {
	hash := strings.Repeat("0", 64)
	for name, text := range map[string]string{
		"another version": "# gylebook files 2\n",
		"empty":           "",
		"cut off":         listFormat + "\n" + hash + "  a",
		"short sum":       listFormat + "\n00  a\n",
		"capitals":        listFormat + "\n" + strings.Repeat("A", 64) + "  a\n",
		"one space":       listFormat + "\n" + hash + " a\n",
		"out of order":    listFormat + "\n" + hash + "  b\n" + hash + "  a\n",
		"double":          listFormat + "\n" + hash + "  a\n" + hash + "  a\n",
		"leading out":     listFormat + "\n" + hash + "  ../../etc/passwd\n",
		"itself":          listFormat + "\n" + hash + "  " + listName + "\n",
		"no path":         listFormat + "\n" + hash + "  \n",
		"empty line":      listFormat + "\n\n",
	} {
		t.Run(name, func(t *testing.T) {
			dir := site(t)
			plant(t, dir, tree{listName: text})
			e, err := Begin(dir, Options{})
			if err == nil {
				e.Abort()
			}
			if err == nil || !strings.Contains(err.Error(), listName) {
				t.Errorf("got %v", err)
			}
			if got, err := os.ReadFile(filepath.Join(dir, listName)); err != nil || string(got) != text {
				t.Errorf("the list was touched: %q, %v", got, err)
			}
		})
	}
}

func TestFolderThatMayNotBeWrittenBeside(t *testing.T) {
	if asNobody(t) {
		return
	}
	dir := site(t)
	publish(t, dir, Options{}, before)
	around := filepath.Dir(dir)
	if err := os.Chmod(around, 0o555); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { os.Chmod(around, 0o755) })
	if f, err := os.Create(filepath.Join(around, "probe")); err == nil {
		f.Close()
		os.Remove(f.Name())
		t.Fatal("this user may write anywhere, so that no folder can be closed to it")
	}
	publish(t, dir, Options{}, after)
	wantTree(t, dir, after)
	wantAlone(t, dir)
}

func TestWorkFolderInTheWay(t *testing.T) {
	dir := site(t)
	publish(t, dir, Options{}, before)
	plant(t, filepath.Dir(dir), tree{".site" + insideName: "a file"})
	if e, err := Begin(dir, Options{}); err == nil || !strings.Contains(err.Error(), "in the way") {
		t.Errorf("got %v", err)
		if err == nil {
			e.Abort()
		}
	}
}

func remove(t testing.TB, name string) {
	t.Helper()
	if err := os.RemoveAll(name); err != nil {
		t.Fatal(err)
	}
}

// readNames lists all that is in a folder, links not followed.
func readNames(t testing.TB, dir string) []string {
	t.Helper()
	var names []string
	err := filepath.Walk(dir, func(name string, entry os.FileInfo, err error) error {
		if err == nil {
			names = append(names, fmt.Sprint(name, entry.Mode(), entry.Size(), entry.ModTime()))
		}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return names
}

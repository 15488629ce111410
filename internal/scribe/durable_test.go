package scribe

import (
	"errors"
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// watched is a journal's folder that tells of each call which sees something onto
// the disk, with what an onlooker sees in the folder at that moment.
func watched(t *testing.T, dir string, look func(name string, folder bool) string) (in *folder, saw *[]string) {
	t.Helper()
	in, err := openFolder(dir)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { in.Close() })
	saw = new([]string)
	call := func(folder bool) func(*os.File) error {
		return func(f *os.File) error {
			name, err := filepath.Rel(dir, f.Name())
			*saw = append(*saw, look(filepath.ToSlash(name), folder))
			return err
		}
	}
	in.sync = syncCalls{file: call(false), folder: call(true)}
	return in, saw
}

// text is a file's, "" where it is not there.
func text(t *testing.T, elements ...string) string {
	t.Helper()
	raw, err := os.ReadFile(filepath.Join(elements...))
	if err != nil && !errors.Is(err, os.ErrNotExist) {
		t.Fatal(err)
	}
	return string(raw)
}

// TestWhatIsSavedLasts: the new bytes are on the disk, all of them and as private as
// the entry, while the entry is still the old one; and once it is the new one, its
// name is seen onto the disk.
func TestWhatIsSavedLasts(t *testing.T) {
	dir, file := inFolder(t)
	edit, err := edit(entry, "1.020")
	if err != nil {
		t.Fatal(err)
	}
	in, saw := watched(t, dir, func(name string, folder bool) string {
		if folder {
			return "names in " + name + ", the entry is new: " + yes(text(t, file) == string(edit.After))
		}
		is, err := os.Stat(filepath.Join(dir, name))
		whole := err == nil && is.Mode().Perm() == 0o640 && text(t, dir, name) == string(edit.After)
		return "bytes whole: " + yes(whole) + ", the entry is old: " + yes(text(t, file) == entry)
	})
	if _, err := in.save("gyles/14.md", jotting("1.020")); err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff([]string{"bytes whole: yes, the entry is old: yes", "names in gyles, the entry is new: yes"}, *saw); diff != "" {
		t.Errorf("it reached the disk otherwise (-want +got):\n%s", diff)
	}
}

func yes(is bool) string {
	if is {
		return "yes"
	}
	return "no"
}

// TestWhatIsCreatedLasts: each file's bytes before its name is there, and then the
// names in every folder that has a new one, those of new folders among them.
func TestWhatIsCreatedLasts(t *testing.T) {
	dir := t.TempDir()
	in, saw := watched(t, dir, func(name string, folder bool) string {
		if folder {
			return "names in " + name + ", with all: " + yes(text(t, dir, "index.md")+text(t, dir, "gyles/old/1.md") == "IG")
		}
		return "bytes of " + text(t, dir, name) + ", with a name: " + yes(text(t, dir, "index.md") == "I" && text(t, dir, name) == "I" || text(t, dir, "gyles/old/1.md") != "")
	})
	files := []File{{Name: "index.md", Text: []byte("I")}, {Name: "gyles/old/1.md", Text: []byte("G")}}
	if err := in.createAll(files, []string{"cards/malts"}); err != nil {
		t.Fatal(err)
	}
	if len(*saw) < 2 {
		t.Fatalf("it saw %v", *saw)
	}
	slices.Sort((*saw)[2:])
	want := []string{
		"bytes of I, with a name: no", "bytes of G, with a name: no",
		"names in ., with all: yes", "names in cards, with all: yes", "names in gyles, with all: yes", "names in gyles/old, with all: yes",
	}
	if diff := cmp.Diff(want, *saw); diff != "" {
		t.Errorf("it reached the disk otherwise (-want +got):\n%s", diff)
	}
}

// TestASyncThatFailsIsAnError: nothing that did not reach the disk passes for
// written.
func TestASyncThatFailsIsAnError(t *testing.T) {
	broken := errors.New("input/output error")
	fails := func(*os.File) error { return broken }
	holds := func(*os.File) error { return nil }
	for name, calls := range map[string]syncCalls{"bytes": {fails, holds}, "names": {holds, fails}} {
		dir, file := inFolder(t)
		in, _ := watched(t, dir, nil)
		in.sync = calls
		edit, err := in.save("gyles/14.md", jotting("1.020"))
		if !errors.Is(err, broken) || edit != nil {
			t.Errorf("%s: saving says %v", name, err)
		}
		if (text(t, file) == entry) != (name == "bytes") {
			t.Errorf("%s: the entry is\n%s", name, text(t, file))
		}
		nothingBeside(t, file)
		if err := in.createAll([]File{{Name: "a/b.md", Text: []byte("B")}}, nil); !errors.Is(err, broken) {
			t.Errorf("%s: creating says %v", name, err)
		}
		if made := text(t, dir, "a/b.md"); (made == "") != (name == "bytes") {
			t.Errorf("%s: made is %q", name, made)
		}
	}
}

// TestTheSystemIsAsked gives the system's own calls a file that is closed, which
// only a call that never reaches the system takes.
func TestTheSystemIsAsked(t *testing.T) {
	in, err := openFolder(t.TempDir())
	if err != nil {
		t.Fatal(err)
	}
	f, err := in.Open(".")
	if err := errors.Join(err, f.Close(), in.Close()); err != nil {
		t.Fatal(err)
	}
	if in.sync.file(f) == nil || in.sync.folder(f) == nil && runtime.GOOS != "windows" {
		t.Error("syncing a closed file succeeds")
	}
}

package scribe

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"

	"gylebook/internal/journal"
)

const entry = "---\ngyle: 14\nbeer: B\nreadings: []\n---\n"

// inFolder is a journal's folder with one entry in it.
func inFolder(t *testing.T) (dir, file string) {
	t.Helper()
	dir = t.TempDir()
	file = filepath.Join(dir, "gyles", "14.md")
	if err := errors.Join(os.Mkdir(filepath.Dir(file), 0o755), os.WriteFile(file, []byte(entry), 0o640)); err != nil {
		t.Fatal(err)
	}
	return dir, file
}

// jotting makes the edit of a jotting, for Save.
func jotting(typed string) func(raw []byte) (*Edit, error) {
	return func(raw []byte) (*Edit, error) { return edit(string(raw), typed) }
}

func TestSaveKeepsWhatAllJotAtOnce(t *testing.T) {
	dir, file := inFolder(t)
	var wait sync.WaitGroup
	const many = 20
	failed := make(chan error, many)
	for i := range many {
		wait.Go(func() {
			_, err := Save(dir, "gyles/14.md", jotting(fmt.Sprintf("1.0%02d", i+10)))
			failed <- err
		})
	}
	wait.Wait()
	close(failed)
	for err := range failed {
		if err != nil {
			t.Error(err)
		}
	}
	raw, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	d := journal.ReadFile("14.md", raw, nil)
	if len(d.Errors) > 0 || len(d.Gyle.Readings) != many {
		t.Errorf("%d readings of %d, errors %v, in\n%s", len(d.Gyle.Readings), many, d.Errors, raw)
	}
	nothingBeside(t, file)
}

// nothingBeside fails where a file was left beside the entry.
func nothingBeside(t *testing.T, file string) {
	t.Helper()
	all, err := os.ReadDir(filepath.Dir(file))
	if err != nil || len(all) != 1 {
		t.Errorf("beside the entry stand %v, %v", all, err)
	}
}

func TestSaveKeepsPermissions(t *testing.T) {
	dir, file := inFolder(t)
	if err := os.Chmod(file, 0o604); err != nil {
		t.Fatal(err)
	}
	was, _ := os.Stat(file)
	if _, err := Save(dir, "gyles/14.md", jotting("1.020")); err != nil {
		t.Fatal(err)
	}
	if is, err := os.Stat(file); err != nil || is.Mode() != was.Mode() {
		t.Errorf("the file's mode is %v, want %v", is.Mode(), was.Mode())
	}
	nothingBeside(t, file)
}

func TestSaveLeavesTheFileWhereItCannot(t *testing.T) {
	for name, c := range map[string]struct {
		make func(file string) func(raw []byte) (*Edit, error)
		says string
	}{
		"refused": {func(string) func([]byte) (*Edit, error) { return jotting("1045") }, "1.045?"},
		"saved meanwhile by an editor": {func(file string) func([]byte) (*Edit, error) {
			return func(raw []byte) (*Edit, error) {
				if err := os.WriteFile(file, []byte(entry+"More.\n"), 0o640); err != nil {
					return nil, err
				}
				return edit(string(raw), "1.020")
			}
		}, "saved by another program"},
	} {
		dir, file := inFolder(t)
		_, err := Save(dir, "gyles/14.md", c.make(file))
		if err == nil || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%s: %v, want an error that says %q", name, err, c.says)
		}
		if raw, _ := os.ReadFile(file); !strings.HasPrefix(string(raw), entry) ||
			strings.Contains(string(raw), "1.020") {
			t.Errorf("%s: the file is now\n%s", name, raw)
		}
		nothingBeside(t, file)
	}
}

func TestSaveRefusesLinks(t *testing.T) {
	dir, file := inFolder(t)
	outside := filepath.Join(t.TempDir(), "out.md")
	if err := os.Rename(file, outside); err != nil {
		t.Fatal(err)
	}
	if err := os.Symlink(outside, file); err != nil {
		t.Skip("no links here:", err)
	}
	if _, err := Save(dir, "gyles/14.md", jotting("1.020")); err == nil || !strings.Contains(err.Error(), "is a link") {
		t.Errorf("through a link: %v", err)
	}
	if raw, err := os.ReadFile(outside); err != nil || string(raw) != entry {
		t.Errorf("the file behind the link is now %q, %v", raw, err)
	}
	if _, err := Save(dir, "../"+filepath.Base(filepath.Dir(outside))+"/out.md", jotting("1.020")); err == nil {
		t.Error("a path out of the journal was written to")
	}
}

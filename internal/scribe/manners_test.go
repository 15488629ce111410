//go:build unix

package scribe

import (
	"errors"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"syscall"
	"testing"

	"golang.org/x/sys/unix"
)

// TestSaveSweepsUp: what a run left that was killed goes with the next one, and nothing else.
func TestSaveSweepsUp(t *testing.T) {
	dir, file := inFolder(t)
	beside := filepath.Dir(file)
	for _, name := range []string{".14.md.ABCD2345.tmp", ".14.md.mine.tmp", ".15.md.ABCD2345.tmp"} {
		if err := os.WriteFile(filepath.Join(beside, name), []byte("x"), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	if _, err := Save(dir, "gyles/14.md", jotting("1.020")); err != nil {
		t.Fatal(err)
	}
	var names []string
	all, err := os.ReadDir(beside)
	for _, e := range all {
		names = append(names, e.Name())
	}
	if want := []string{".14.md.mine.tmp", ".15.md.ABCD2345.tmp", "14.md"}; err != nil || !slices.Equal(names, want) {
		t.Errorf("beside the entry stand %v, want %v", names, want)
	}
}

// TestSaveRefuses: a file that may not be written, and one whose other name would keep the
// old text, are left alone.
func TestSaveRefuses(t *testing.T) {
	for says, prepare := range map[string]func(file string) error{
		"read-only":  func(file string) error { return os.Chmod(file, 0o440) },
		"hard links": func(file string) error { return os.Link(file, filepath.Join(filepath.Dir(file), "..", "other.md")) },
	} {
		dir, file := inFolder(t)
		if err := prepare(file); err != nil {
			t.Fatal(err)
		}
		if _, err := Save(dir, "gyles/14.md", jotting("1.020")); err == nil || !strings.Contains(err.Error(), says) {
			t.Errorf("%s: %v", says, err)
		}
		if raw, _ := os.ReadFile(file); string(raw) != entry {
			t.Errorf("%s: the file is now\n%s", says, raw)
		}
	}
}

// TestSaveKeepsWhatIsNotText: the owner, and what a system or a program hung on the file.
func TestSaveKeepsWhatIsNotText(t *testing.T) {
	dir, file := inFolder(t)
	const attribute = "user.gylebook.test"
	attributes := unix.Setxattr(file, attribute, []byte("kept"), 0) == nil
	if os.Geteuid() == 0 {
		if err := os.Chown(file, 65534, 65534); err != nil {
			t.Fatal(err)
		}
	}
	was, err := os.Stat(file)
	if err != nil {
		t.Fatal(err)
	}
	edit, err := Save(dir, "gyles/14.md", jotting("1.020"))
	if err != nil || len(edit.Remarks) > 0 {
		t.Fatal(err, edit)
	}
	is, err := os.Stat(file)
	if err != nil {
		t.Fatal(err)
	}
	before, after := was.Sys().(*syscall.Stat_t), is.Sys().(*syscall.Stat_t)
	if before.Uid != after.Uid || before.Gid != after.Gid || was.Mode() != is.Mode() {
		t.Errorf("of %d:%d %v, and now of %d:%d %v", before.Uid, before.Gid, was.Mode(), after.Uid, after.Gid, is.Mode())
	}
	value := make([]byte, 16)
	if n, err := unix.Getxattr(file, attribute, value); attributes && (err != nil || string(value[:n]) != "kept") {
		t.Errorf("its attribute is now %q, %v", value[:n], err)
	}
}

// TestSaveTellsOfAnEditor: whoever has the entry open would save over what was jotted.
func TestSaveTellsOfAnEditor(t *testing.T) {
	for _, swap := range []string{".14.md.swp", ".#14.md"} {
		dir, file := inFolder(t)
		name := filepath.Join(filepath.Dir(file), swap)
		if err := errors.Join(os.WriteFile(name, nil, 0o600)); err != nil {
			t.Fatal(err)
		}
		edit, err := Save(dir, "gyles/14.md", jotting("1.020"))
		if err != nil || len(edit.Remarks) != 1 || !strings.Contains(edit.Remarks[0], swap) {
			t.Errorf("beside %s: %v, %+v", swap, err, edit)
		}
	}
}

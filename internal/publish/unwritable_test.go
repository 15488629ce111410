//go:build unix

package publish

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"syscall"
	"testing"
)

// TestAFolderThatMayNotBeWrittenLeavesNoMixture: where files must be moved one by one, that
// all of them can be is found out before the first is.
func TestAFolderThatMayNotBeWrittenLeavesNoMixture(t *testing.T) {
	if asNobody(t) {
		return
	}
	dir := site(t)
	opts := ways["roll"].opts
	publish(t, dir, opts, before)
	locked := filepath.Join(dir, "gyles", "2")
	if err := os.Chmod(locked, 0o555); err != nil {
		t.Fatal(err)
	}
	defer os.Chmod(locked, 0o755)
	_, err := put(t, dir, opts, after).Commit()
	var begun *UnfinishedError
	if !errors.Is(err, fs.ErrPermission) || errors.As(err, &begun) {
		t.Errorf("got %v, want a refusal", err)
	}
	wantTree(t, dir, before)
}

// TestAPipeAmongKeptFilesIsPublishedAround: it cannot be carried over, so that files are
// moved one by one.
func TestAPipeAmongKeptFilesIsPublishedAround(t *testing.T) {
	dir := site(t)
	publish(t, dir, Options{}, before)
	plant(t, dir, tree{"kept/": ""})
	if err := syscall.Mkfifo(filepath.Join(dir, "kept", "pipe"), 0o600); err != nil {
		t.Skip("no pipes here:", err)
	}
	was, _ := os.Stat(dir)
	publish(t, dir, Options{Keep: []string{"kept"}}, after)
	if is, _ := os.Stat(dir); !os.SameFile(was, is) {
		t.Error("the site was exchanged")
	}
	if _, err := os.Lstat(filepath.Join(dir, "kept", "pipe")); err != nil {
		t.Error(err)
	}
	wantAlone(t, dir)
}

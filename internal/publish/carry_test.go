package publish

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"testing"
	"time"
)

// TestWhatIsKeptIsCarriedWhole: a link, a mode, a time and an open file are the same after
// the site has changed places around them.
func TestWhatIsKeptIsCarriedWhole(t *testing.T) {
	if !canExchangeHere {
		t.Skip("no folders are exchanged on this system")
	}
	dir := site(t)
	publish(t, dir, Options{}, before)
	plant(t, dir, tree{".git/HEAD": "main", ".git/refs/": ""})
	long := time.Date(2026, 3, 7, 9, 5, 0, 0, time.UTC)
	git := filepath.Join(dir, ".git")
	err := errors.Join(os.Symlink("HEAD", filepath.Join(git, "link")), os.Chmod(filepath.Join(git, "refs"), 0o711),
		os.Chtimes(git, long, long))
	if err != nil {
		t.Fatal(err)
	}
	open, err := os.OpenFile(filepath.Join(git, "HEAD"), os.O_WRONLY|os.O_APPEND, 0)
	if err != nil {
		t.Fatal(err)
	}
	defer open.Close()
	was, _ := os.Stat(dir)
	publish(t, dir, Options{Keep: []string{".git"}}, after)
	if is, _ := os.Stat(dir); os.SameFile(was, is) {
		t.Error("the site was not exchanged")
	}
	wantAlone(t, dir)
	if _, err := open.WriteString(", written to while it was published"); err != nil {
		t.Fatal(err)
	}
	link, _ := os.Readlink(filepath.Join(git, "link"))
	refs, _ := os.Stat(filepath.Join(git, "refs"))
	at, _ := os.Stat(git)
	head, _ := os.ReadFile(filepath.Join(git, "HEAD"))
	if link != "HEAD" || refs.Mode().Perm() != 0o711 || !at.ModTime().Equal(long) ||
		string(head) != "main, written to while it was published" {
		t.Errorf("link to %q, mode %v, time %v, text %q", link, refs.Mode(), at.ModTime(), head)
	}
}

// TestWhatCameMeanwhileIsNotDeleted: a file that comes among the kept ones once they have
// been carried over is told of, and stays where it is told.
func TestWhatCameMeanwhileIsNotDeleted(t *testing.T) {
	if !canExchangeHere {
		t.Skip("no folders are exchanged on this system")
	}
	dir := site(t)
	publish(t, dir, Options{}, before)
	plant(t, dir, tree{"kept/one.txt": "one"})
	opts := Options{Keep: []string{"kept"}}
	opts.hooks.exchange = func(f *os.File, one, two string) error {
		if one == "site" {
			plant(t, dir, tree{"kept/two.txt": "two"})
		}
		return exchangeFolders(f, one, two)
	}
	_, err := put(t, dir, opts, after).Commit()
	var left *LeftBehindError
	if !errors.As(err, &left) || len(left.Paths) != 1 {
		t.Fatalf("got %v, want word of what came", err)
	}
	text, err := os.ReadFile(filepath.Join(left.Dir, left.Paths[0]))
	if err != nil || string(text) != "two" {
		t.Errorf("%s holds %q, %v", left.Paths[0], text, err)
	}
	wantTree(t, dir, joined(after, tree{"kept/one.txt": "one"}))
}

// TestARollThatIsCutShortSaysSo: then it is not true that nothing was written.
func TestARollThatIsCutShortSaysSo(t *testing.T) {
	dir := site(t)
	opts := ways["roll"].opts
	opts.hooks.sync = &noSync
	publish(t, dir, opts, before)
	full := errors.New("the disk is full")
	failing, begun := opts, false
	failing.hooks.step = func(op, name string) error {
		begun = begun || op == "rename" && filepath.Base(name) == recordName
		if begun && op == "rename" && filepath.Base(name) == "cask" {
			return full
		}
		return nil
	}
	_, err := put(t, dir, failing, after).Commit()
	var cut *UnfinishedError
	if !errors.As(err, &cut) || !errors.Is(err, full) {
		t.Fatalf("got %v", err)
	}
	publish(t, dir, opts, after)
	wantTree(t, dir, after)
	wantAlone(t, dir)
}

// TestTooMuchIsNotCarried: a publication is not held up by what is not its own.
func TestTooMuchIsNotCarried(t *testing.T) {
	dir := site(t)
	publish(t, dir, Options{}, before)
	many := tree{}
	for i := range 30 {
		many[fmt.Sprintf("kept/%d", i)] = "x"
	}
	plant(t, dir, many)
	g, err := openGround(dir, hooks{})
	if err != nil {
		t.Fatal(err)
	}
	defer g.root.Close()
	if err := errors.Join(g.makeStage(), g.closeStage()); err != nil {
		t.Fatal(err)
	}
	enough, few := 31, 30
	if err := g.carry("kept", &few); !errors.Is(err, errNotCarried) {
		t.Errorf("31 names were carried, of 30 that may be: %v", err)
	}
	if err := errors.Join(g.clear(), g.makeStage(), g.closeStage(), g.carry("kept", &enough)); err != nil {
		t.Errorf("of 31 that may be: %v", err)
	}
}

package publish

import (
	"errors"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
)

func TestFirstEditionMakesTheSite(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "not", "there", "yet")
	report := publish(t, dir, Options{}, before)
	wantTree(t, dir, before)
	wantAlone(t, dir)
	if report.Written != len(before) || report.Unchanged != 0 || report.Removed != 0 {
		t.Errorf("report %+v", report)
	}
}

func TestFirstEditionFillsAnEmptyFolder(t *testing.T) {
	dir := site(t)
	if err := os.Mkdir(dir, 0o750); err != nil {
		t.Fatal(err)
	}
	publish(t, dir, Options{}, before)
	wantTree(t, dir, before)
	wantAlone(t, dir)
}

func TestNextEditionReplacesTheSite(t *testing.T) {
	eachWay(t, func(t *testing.T, dir string, opts Options, kept tree) {
		was, _ := os.Stat(dir)
		report := publish(t, dir, opts, after)
		wantTree(t, dir, joined(after, kept))
		wantAlone(t, dir)
		is, _ := os.Stat(dir)
		if exchanged := !os.SameFile(was, is); exchanged != (strings.Contains(t.Name(), "/exchange") && canExchangeHere) {
			t.Errorf("the site was exchanged: %t", exchanged)
		}
		want := Report{
			Written: 5, Unchanged: 2, Removed: 4,
			WrittenPaths: []string{"empty", "gyles/3/index.html", "index.html", "tags/cask", "years"},
			RemovedPaths: []string{"deep/er/and/deeper", "gyles/2/index.html", "tags", "years/2026"},
		}
		if diff := cmp.Diff(want, report); diff != "" {
			t.Errorf("the report differs (-want +got):\n%s", diff)
		}
	})
}

// keepsTime publishes and checks that the unchanged file keeps a time long past.
// It tells whether it is the same file still.
func keepsTime(t *testing.T, dir string, opts Options) (same bool) {
	t.Helper()
	long := time.Date(2026, 3, 7, 9, 5, 0, 0, time.UTC)
	name := filepath.Join(dir, "style.css")
	if err := os.Chtimes(name, long, long); err != nil {
		t.Fatal(err)
	}
	was, err := os.Stat(name)
	if err != nil {
		t.Fatal(err)
	}
	publish(t, dir, opts, after)
	is, err := os.Stat(name)
	if err != nil {
		t.Fatal(err)
	}
	if !is.ModTime().Equal(long) {
		t.Errorf("the unchanged file's time is %v, want %v", is.ModTime(), long)
	}
	return os.SameFile(was, is)
}

func TestUnchangedFilesStay(t *testing.T) {
	eachWay(t, func(t *testing.T, dir string, opts Options, _ tree) {
		if !keepsTime(t, dir, opts) {
			t.Error("the unchanged file is another, with the same bytes")
		}
	})
}

func TestUnchangedFilesAreCopiedWhereLinksAreRefused(t *testing.T) {
	if !canExchangeHere {
		t.Skip("there is no exchange here, and so no need of links")
	}
	dir := site(t)
	publish(t, dir, Options{}, before)
	refused := errors.New("no links here")
	opts := Options{hooks: hooks{step: func(op, _ string) error {
		if op == "link" {
			return refused
		}
		return nil
	}}}
	if keepsTime(t, dir, opts) {
		t.Error("the unchanged file was linked all the same")
	}
	wantTree(t, dir, after)
	wantAlone(t, dir)
}

func TestSameEditionTouchesNothing(t *testing.T) {
	eachWay(t, func(t *testing.T, dir string, opts Options, kept tree) {
		publish(t, dir, opts, before)
		was, err := os.Stat(dir)
		if err != nil {
			t.Fatal(err)
		}
		report := publish(t, dir, opts, before)
		is, err := os.Stat(dir)
		if err != nil {
			t.Fatal(err)
		}
		if !os.SameFile(was, is) {
			t.Error("the site is another folder")
		}
		// Working inside makes and removes one folder in the site.
		if !was.ModTime().Equal(is.ModTime()) && !strings.HasSuffix(t.Name(), "inside") {
			t.Errorf("the site's time went from %v to %v", was.ModTime(), is.ModTime())
		}
		if want := (Report{Unchanged: len(before)}); !cmp.Equal(want, report) {
			t.Errorf("report %+v", report)
		}
		wantTree(t, dir, joined(before, kept))
		wantAlone(t, dir)
	})
}

func TestAbortLeavesTheSite(t *testing.T) {
	eachWay(t, func(t *testing.T, dir string, opts Options, kept tree) {
		e := put(t, dir, opts, after)
		if err := e.Abort(); err != nil {
			t.Fatal(err)
		}
		if err := e.Abort(); err != nil {
			t.Errorf("aborting twice: %v", err)
		}
		wantTree(t, dir, joined(before, kept))
		wantAlone(t, dir)
		if err := e.Put("late.html", nil); !errors.Is(err, errClosed) {
			t.Errorf("putting after the abort: %v", err)
		}
		if _, err := e.Commit(); !errors.Is(err, errClosed) {
			t.Errorf("committing after the abort: %v", err)
		}
	})
}

func TestAbortOfAFirstEditionMakesNoSite(t *testing.T) {
	dir := site(t)
	if err := put(t, dir, Options{}, before).Abort(); err != nil {
		t.Fatal(err)
	}
	if got := readTree(t, dir); got != nil {
		t.Errorf("there is a site: %v", got)
	}
	wantAlone(t, dir)
}

func TestAbortAfterCommitDoesNothing(t *testing.T) {
	dir := site(t)
	e := put(t, dir, Options{}, before)
	if _, err := e.Commit(); err != nil {
		t.Fatal(err)
	}
	if err := e.Abort(); err != nil {
		t.Fatal(err)
	}
	wantTree(t, dir, before)
}

func TestMissingPagesAreWrittenAgain(t *testing.T) {
	eachWay(t, func(t *testing.T, dir string, opts Options, kept tree) {
		for _, name := range []string{"index.html", "gyles"} {
			if err := os.RemoveAll(filepath.Join(dir, name)); err != nil {
				t.Fatal(err)
			}
		}
		report := publish(t, dir, opts, before)
		if report.Written != 3 {
			t.Errorf("written %v, want the three that were deleted", report.WrittenPaths)
		}
		wantTree(t, dir, joined(before, kept))
	})
}

func TestEditionThatOnlyRemoves(t *testing.T) {
	eachWay(t, func(t *testing.T, dir string, opts Options, kept tree) {
		fewer := tree{"index.html": before["index.html"], "gyles/1/index.html": before["gyles/1/index.html"]}
		report := publish(t, dir, opts, fewer)
		if report.Written != 0 || report.Removed != len(before)-len(fewer) {
			t.Errorf("report %+v", report)
		}
		wantTree(t, dir, joined(fewer, kept))
		wantAlone(t, dir)
	})
}

// TestEditionThatOnlyHandsOver keeps a page and changes nothing else: the list
// must lose it all the same.
func TestEditionThatOnlyHandsOver(t *testing.T) {
	dir := site(t)
	publish(t, dir, Options{}, before)
	rest := joined(before)
	delete(rest, "style.css")
	publish(t, dir, Options{Keep: []string{"style.css"}}, rest)
	wantTree(t, dir, before)
	wantAlone(t, dir)
}

func TestFoldersOfDeletedPagesGo(t *testing.T) {
	eachWay(t, func(t *testing.T, dir string, opts Options, kept tree) {
		for _, name := range []string{"gyles/2/index.html", "deep/er/and/deeper"} {
			if err := os.Remove(filepath.Join(dir, name)); err != nil {
				t.Fatal(err)
			}
		}
		report := publish(t, dir, opts, after)
		if want := []string{"tags", "years/2026"}; !cmp.Equal(want, report.RemovedPaths) {
			t.Errorf("removed %v, want %v", report.RemovedPaths, want)
		}
		wantTree(t, dir, joined(after, kept))
		wantAlone(t, dir)
	})
}

func TestPagesUnderKeptNamesAreLeftOut(t *testing.T) {
	dir := site(t)
	publish(t, dir, Options{}, tree{"robots.txt": "ours", "index.html": "x"})
	plant(t, dir, tree{"robots.txt": "theirs", "well/known.txt": "theirs"})

	opts := Options{Keep: []string{"robots.txt", "well/"}}
	e := put(t, dir, opts, tree{"robots.txt": "ours, new", "index.html": "y", "well/ours.txt": "ours"})
	report, err := e.Commit()
	if err != nil {
		t.Fatal(err)
	}
	if want := []string{"robots.txt", "well/ours.txt"}; !cmp.Equal(want, report.KeptPaths) || report.Kept != 2 {
		t.Errorf("kept %d: %v", report.Kept, report.KeptPaths)
	}
	wantTree(t, dir, tree{"robots.txt": "theirs", "index.html": "y", "well/known.txt": "theirs"})
	wantList(t, dir, tree{"index.html": "y"})

	_, err = Begin(dir, Options{})
	var strangers *StrangersError
	if !errors.As(err, &strangers) || !cmp.Equal(strangers.Unlisted, []string{"robots.txt", "well/"}) {
		t.Errorf("no longer kept, they should be strangers: %v", err)
	}
}

func TestKeptNamesThatAreNotThereCostNothing(t *testing.T) {
	dir := site(t)
	publish(t, dir, Options{}, before)
	was, _ := os.Stat(dir)
	publish(t, dir, Options{Keep: []string{"CNAME"}}, after)
	wantTree(t, dir, after)
	if is, _ := os.Stat(dir); os.SameFile(was, is) == canExchangeHere {
		t.Errorf("the site was exchanged: %t", !canExchangeHere)
	}
}

func TestModeOfTheSiteStays(t *testing.T) {
	if runtime.GOOS == "windows" {
		t.Skip("folders have no such modes here")
	}
	dir := site(t)
	publish(t, dir, Options{}, before)
	if err := os.Chmod(dir, 0o751); err != nil {
		t.Fatal(err)
	}
	publish(t, dir, Options{}, after)
	entry, err := os.Stat(dir)
	if err != nil {
		t.Fatal(err)
	}
	if got := entry.Mode().Perm(); got != 0o751 {
		t.Errorf("the site's mode is %o, want 751", got)
	}
}

func TestEditionWithoutPagesIsRefused(t *testing.T) {
	dir := site(t)
	publish(t, dir, Options{}, before)
	if _, err := put(t, dir, Options{}, nil).Commit(); err == nil {
		t.Error("an empty edition was published")
	}
	wantTree(t, dir, before)
	wantAlone(t, dir)
}

func TestEditionMissingAPageIsRefused(t *testing.T) {
	dir := site(t)
	publish(t, dir, Options{}, before)
	e := put(t, dir, Options{}, after)
	if err := e.Put("../outside", nil); err == nil {
		t.Fatal("a path leading out was taken")
	}
	if _, err := e.Commit(); err == nil || !strings.Contains(err.Error(), "../outside") {
		t.Errorf("the edition was published without its page, or does not name it: %v", err)
	}
	wantTree(t, dir, before)
	wantAlone(t, dir)
}

func TestListIsReadableBySha256sum(t *testing.T) {
	got := string(list{
		"b/index.html": sums(tree{"": "hello"})[""],
		"a page.html":  sums(tree{"": ""})[""],
	}.bytes())
	// From FIPS 180-4 implementations: printf hello | sha256sum; printf '' | sha256sum.
	want := "# gylebook files 1\n" +
		"e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855  a page.html\n" +
		"2cf24dba5fb0a30e26e83b2ac5b9e29e1b161e5c1fa7425e73043362938b9824  b/index.html\n"
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("the list differs (-want +got):\n%s", diff)
	}
}

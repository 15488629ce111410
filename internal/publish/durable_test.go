package publish

import (
	"errors"
	"os"
	"path"
	"path/filepath"
	"strings"
	"sync"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// A recorder stands in the system's place where it is asked to see something onto
// the disk, and writes down that and every change that is made there, several of
// one kind in a row as one.
type recorder struct {
	mu   sync.Mutex
	root string // of the ground
	did  []string
}

// record lets a recorder see a publication into dir.
func record(dir string, opts *Options) *recorder {
	r := &recorder{root: filepath.Dir(dir)}
	if _, err := os.Lstat(filepath.Join(dir, insideName)); err == nil {
		r.root = dir
	}
	opts.hooks.step = func(op, name string) error { r.note(changed(op, name)); return nil }
	opts.hooks.sync = &syncCalls{file: r.synced("file "), folder: r.synced("folder "), fileSystem: r.synced("all of ")}
	return r
}

func (r *recorder) note(what string) {
	r.mu.Lock()
	defer r.mu.Unlock()
	if what != "" && (len(r.did) == 0 || r.did[len(r.did)-1] != what) {
		r.did = append(r.did, what)
	}
}

func (r *recorder) synced(what string) func(*os.File) error {
	return func(f *os.File) error {
		name, err := filepath.Rel(r.root, f.Name())
		r.note("sync " + what + inWorkFolder(filepath.ToSlash(name)))
		return err
	}
}

// inWorkFolder is a name with that of the work folder made plain.
func inWorkFolder(name string) string {
	return strings.Replace(strings.Replace(name, ".site"+insideName, "WORK", 1), insideName, "WORK", 1)
}

// changed is a change in words, "" for one that nothing rests on: pages are told
// by what is done with them alone.
func changed(op, name string) string {
	name = inWorkFolder(name)
	work, inWork := strings.CutPrefix(name, "WORK/")
	switch {
	case op == "fill" && inWork && path.Dir(work) == ".":
		return "write " + name
	case op == "fill" || op == "link":
		return "write pages"
	case (op == "rename" || op == "remove") && inWork && path.Dir(work) == "." && work != lockName && work != stageName:
		return op + " " + name
	case (op == "rename" || op == "exchange") && name == "site":
		return op + " site"
	case op == "rename", op == "remove" && !inWork && name != "WORK":
		return op + " pages"
	}
	return ""
}

// The manners of a publication, as they must reach the disk. Where the machine
// fails between two lines, what stands above is on the disk as far as it was
// synced, and of the rest any part: so nothing may come into the site before its
// bytes are there, nothing of the old site may go before the new one's name is
// there, a roll may not begin before its record is there, and the record may not
// go before what it tells of is there.
var (
	asFirst = []string{"write pages", "sync all of WORK", "rename site", "sync folder WORK", "sync folder ."}

	asExchange = []string{
		"write pages", "write WORK/next", "sync all of WORK", "exchange site", "sync folder WORK", "sync folder .",
		"remove pages",
	}

	asRoll = []string{
		"write pages", "sync all of WORK", "write WORK/record.new", "sync file WORK/record.new", "rename WORK/record", "sync folder WORK",
		"remove pages", "sync all of WORK", "write WORK/cleared", "sync file WORK/cleared", "sync folder WORK",
		"rename pages", "sync all of WORK", "remove WORK/record", "sync folder WORK",
	}
)

func TestWhatIsPublishedLasts(t *testing.T) {
	refused := []string{"write pages", "write WORK/next", "sync all of WORK", "exchange site", "remove WORK/next"}
	want := map[string][]string{
		"exchange": asExchange, "exchange around kept files": asExchange, "roll": asRoll, "roll around kept files": asRoll, "roll from inside": asRoll,
		"roll after a refused exchange": append(refused, asRoll[1:]...),
	}
	eachWay(t, func(t *testing.T, dir string, opts Options, kept tree) {
		name := path.Base(strings.ReplaceAll(t.Name(), "_", " "))
		if name == "exchange" && !canExchangeHere {
			t.Skip("no folders are exchanged on this system")
		}
		r := record(dir, &opts)
		publish(t, dir, opts, after)
		if diff := cmp.Diff(want[name], r.did); diff != "" {
			t.Errorf("it reached the disk otherwise (-want +got):\n%s", diff)
		}
	})
	t.Run("first", func(t *testing.T) {
		dir := site(t)
		opts := Options{}
		r := record(dir, &opts)
		publish(t, dir, opts, after)
		if diff := cmp.Diff(asFirst, r.did); diff != "" {
			t.Errorf("it reached the disk otherwise (-want +got):\n%s", diff)
		}
	})
}

// TestWhatIsFinishedLasts cuts publications off right after the change that
// decides them, and before that is synced: whoever finishes them must not rest on
// it before it is.
func TestWhatIsFinishedLasts(t *testing.T) {
	first := []string{"sync folder WORK", "sync folder ."}
	for _, c := range []struct {
		way   string
		after string // the change that is the last one made
		want  []string
	}{
		{"exchange", "exchange site", append(first, "remove pages")},
		{"roll", "rename WORK/record", append(first, asRoll[6:]...)},
		{"roll", "write WORK/cleared", append(first, asRoll[11:]...)},
	} {
		if c.way == "exchange" && !canExchangeHere {
			continue
		}
		t.Run(c.after, func(t *testing.T) {
			dir := site(t)
			publish(t, dir, Options{}, before)
			opts := ways[c.way].opts
			cut, made := errors.New("cut off"), false
			var one sync.Mutex // files are linked side by side
			opts.hooks.step = func(op, name string) error {
				one.Lock()
				defer one.Unlock()
				if made {
					return cut
				}
				made = changed(op, name) == c.after
				return nil
			}
			if err := tryToPublish(dir, opts, after); !errors.Is(err, cut) {
				t.Fatalf("it was not cut off: %v", err)
			}
			opts = Options{}
			r := record(dir, &opts)
			if err := tryToPublish(dir, opts, nil); err != nil {
				t.Fatal(err)
			}
			if diff := cmp.Diff(c.want, r.did); diff != "" {
				t.Errorf("it was finished otherwise (-want +got):\n%s", diff)
			}
			wantTree(t, dir, after)
		})
	}
}

// TestASyncThatFailsIsAnError lets each call that sees something onto the disk
// fail in turn: none may pass for done.
func TestASyncThatFailsIsAnError(t *testing.T) {
	eachWay(t, func(t *testing.T, dir string, opts Options, kept tree) {
		broken := errors.New("input/output error")
		for fails := 1; ; fails++ {
			calls := 0
			sync := func(*os.File) error {
				if calls++; calls == fails {
					return broken
				}
				return nil
			}
			failing := opts
			failing.hooks.sync = &syncCalls{sync, sync, sync}
			err := tryToPublish(dir, failing, after)
			if calls < fails {
				if err != nil || fails < 3 {
					t.Errorf("after %d calls: %v", calls, err)
				}
				return
			}
			if !errors.Is(err, broken) {
				t.Errorf("the call %d failed, and publishing says %v", fails, err)
			}
			back := opts
			back.hooks.sync = &noSync
			publish(t, dir, back, before)
		}
	})
}

// TestTheSystemIsAsked gives the system's own calls a file that is closed, which
// only a call that never reaches the system takes.
func TestTheSystemIsAsked(t *testing.T) {
	f, err := os.Open(t.TempDir())
	if err != nil {
		t.Fatal(err)
	}
	if err := f.Close(); err != nil {
		t.Fatal(err)
	}
	for name, call := range map[string]func(*os.File) error{"file": systemSync.file, "folder": systemSync.folder, "file system": systemSync.fileSystem} {
		if name != "file" && !canExchangeHere {
			continue // Windows has no such call, and elsewhere it is the whole system's
		}
		if call(f) == nil {
			t.Errorf("syncing a closed %s succeeds", name)
		}
	}
}

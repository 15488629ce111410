package publish

import (
	"encoding/json"
	"errors"
	"fmt"
	"maps"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"sync/atomic"
	"testing"
)

// A life is one run of a publisher in a process of its own, which is killed
// before its step Dies on disk; at 0 it lives.
type life struct {
	Dir   string
	Way   string
	Pages tree
	Dies  int64
}

const lifeVariable = "GYLEBOOK_PUBLISH_LIFE"

// TestMain lives the life that the environment hands it, if it does.
func TestMain(m *testing.M) {
	var l life
	text, child := os.LookupEnv(lifeVariable)
	if !child {
		os.Exit(m.Run())
	}
	if err := json.Unmarshal([]byte(text), &l); err != nil {
		panic(err)
	}
	if err := l.live(); err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
}

func (l life) live() error {
	var steps atomic.Int64
	opts := ways[l.Way].opts
	opts.hooks.sync = &noSync
	opts.hooks.step = func(string, string) error {
		if steps.Add(1) == l.Dies {
			killSelf()
		}
		return nil
	}
	return tryToPublish(l.Dir, opts, l.Pages)
}

// killSelf ends the process as a kill from outside does: nothing of ours runs
// any more.
func killSelf() {
	self, err := os.FindProcess(os.Getpid())
	if err == nil {
		err = self.Kill()
	}
	if err != nil {
		panic(err)
	}
	select {}
}

// lived runs the life and tells whether it came to its end.
func (l life) lived(t *testing.T) bool {
	t.Helper()
	text, err := json.Marshal(l)
	if err != nil {
		t.Fatal(err)
	}
	child := exec.Command(os.Args[0])
	child.Env = append(os.Environ(), lifeVariable+"="+string(text))
	var stderr strings.Builder
	child.Stderr = &stderr
	err = child.Run()
	var exit *exec.ExitError
	switch {
	case err == nil:
		return true
	case errors.As(err, &exit) && stderr.Len() == 0:
		return false
	}
	t.Fatalf("dying at step %d: %v\n%s", l.Dies, err, stderr.String())
	return false
}

// TestKilledAtEachStep kills a publisher before each of its steps, and after
// each of those deaths kills the recovery at each of its own, and looks at the
// site after every death with a reader's eyes.
func TestKilledAtEachStep(t *testing.T) {
	cases := maps.Clone(ways)
	delete(cases, "roll") // it is the same around kept files
	cases["first"] = way{}
	for _, name := range slices.Sorted(maps.Keys(cases)) {
		way := cases[name]
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			for dies := int64(1); ; dies += stride() {
				w := witness{dir: site(t), kept: way.kept, rolls: strings.HasPrefix(name, "roll") || !canExchangeHere}
				if name != "first" {
					w.old = before
					publish(t, w.dir, Options{hooks: hooks{sync: &noSync}}, before)
				}
				if way.prepare != nil {
					way.prepare(t, w.dir)
				}
				l := life{w.dir, name, after, dies}
				if l.lived(t) {
					w.looks(t, "at the end")
					if w.state != isNew || dies < 20 {
						t.Fatalf("lived through %d steps, to a site that is %v", dies-1, w.state)
					}
					t.Logf("%d deaths", dies-1)
					return
				}
				w.looks(t, fmt.Sprintf("killed before step %d", dies))
				w.recovers(t, l)
			}
		})
	}
}

// stride is how far apart the deaths are.
func stride() int64 {
	if testing.Short() {
		return 5
	}
	return 1
}

// A witness sees a site go from old to new.
type witness struct {
	dir       string
	old, kept tree
	rolls     bool
	state     state
	record    bool // it has seen the record of a roll
}

type state int

const (
	isOld state = iota
	isMixed
	isNew
)

// looks reads the site, and fails if it is what no reader may ever see.
func (w *witness) looks(t *testing.T, when string) {
	t.Helper()
	was := w.state
	got := readTree(t, w.dir)
	for p := range got {
		if strings.HasPrefix(p, insideName) {
			delete(got, p)
		}
	}
	switch {
	case w.equals(got, joined(after, w.kept)):
		w.state = isNew
	case got == nil && w.old == nil, w.old != nil && w.equals(got, joined(w.old, w.kept)):
		w.state = isOld
	default:
		w.state = isMixed
		w.allowsMixture(t, when, got)
	}
	if w.state < was {
		t.Fatalf("%s: the site went back from %v to %v", when, was, w.state)
	}
}

// equals tells whether the site holds these files, and the list of them.
func (w *witness) equals(got, want tree) bool {
	pages := maps.Clone(want)
	for p := range w.kept {
		delete(pages, p)
	}
	text, err := os.ReadFile(filepath.Join(w.dir, listName))
	return err == nil && maps.Equal(got, want) && string(text) == string(sums(pages).bytes())
}

// allowsMixture fails unless a roll is under way and each file is whole.
func (w *witness) allowsMixture(t *testing.T, when string, got tree) {
	t.Helper()
	if !w.rolls || !w.hasRecord() {
		t.Fatalf("%s: neither old nor new, and no record to finish it by:\n%v", when, got)
	}
	for p, text := range got {
		if strings.HasSuffix(p, "/") {
			continue // a folder that is emptied or not yet filled
		}
		if !slices.ContainsFunc([]tree{w.old, after, w.kept}, func(whole tree) bool {
			want, ok := whole[p]
			return ok && want == text
		}) {
			t.Fatalf("%s: %s is half a file or a stranger: %q", when, p, text)
		}
	}
	for p, text := range joined(w.kept, tree{"style.css": before["style.css"]}) {
		if got[p] != text {
			t.Fatalf("%s: %s was touched", when, p)
		}
	}
}

func (w *witness) hasRecord() bool {
	for _, work := range []string{filepath.Join(w.dir, insideName), filepath.Join(filepath.Dir(w.dir), ".site"+insideName)} {
		if _, err := os.Lstat(filepath.Join(work, recordName)); err == nil {
			w.record = true
			return true
		}
	}
	return false
}

// recovers begins again and again, each time cut off one step later, until one
// run comes to its end; and then publishes once more.
func (w *witness) recovers(t *testing.T, l life) {
	t.Helper()
	w.hasRecord()
	opts := ways[l.Way].opts
	opts.hooks.sync = &noSync
	for cut, whole := int64(1), false; !whole; cut++ {
		var err error
		if whole, err = cutOff(l.Dir, opts, nil, cut); err != nil {
			t.Fatalf("killed before step %d, then step %d of the recovery: %v", l.Dies, cut, err)
		}
		w.looks(t, fmt.Sprintf("killed before step %d, and before step %d of the recovery", l.Dies, cut))
		w.hasRecord()
	}
	if w.state == isMixed || w.record && w.state != isNew {
		t.Fatalf("killed before step %d: recovery left a state of %v (record: %t)", l.Dies, w.state, w.record)
	}
	if w.state != isOld || w.old != nil {
		wantAlone(t, w.dir)
	}
	third := tree{"index.html": "newer still"}
	publish(t, w.dir, opts, third)
	wantTree(t, w.dir, joined(third, w.kept))
	wantAlone(t, w.dir)
}

// cutOff tries to publish, but lets every step from one on fail, and tells
// whether there were fewer. For the disk that is as good as a kill, and much
// quicker: nothing is changed on it any more.
func cutOff(dir string, opts Options, pages tree, at int64) (whole bool, err error) {
	cut := errors.New("cut off")
	var steps atomic.Int64
	opts.hooks.step = func(string, string) error {
		if steps.Add(1) >= at {
			return cut
		}
		return nil
	}
	err = tryToPublish(dir, opts, pages)
	if errors.Is(err, cut) {
		err = nil
	}
	return steps.Load() < at, err
}

// tryToPublish publishes the pages, or with none begins and aborts.
func tryToPublish(dir string, opts Options, pages tree) error {
	e, err := Begin(dir, opts)
	if err != nil {
		return err
	}
	for p, text := range pages {
		if err := e.Put(p, []byte(text)); err != nil {
			return errors.Join(err, e.Abort())
		}
	}
	if pages == nil {
		return e.Abort()
	}
	_, err = e.Commit()
	return err
}

// TestFailsAtEachStep lets each step on disk fail in turn, as on a full disk.
// The site must stay as it was, or become new, at the latest with the next Begin.
func TestFailsAtEachStep(t *testing.T) {
	eachWay(t, func(t *testing.T, dir string, opts Options, kept tree) {
		if strings.HasSuffix(t.Name(), "/roll") {
			return // it is the same around kept files
		}
		full := errors.New("the disk is full")
		opts.hooks.sync = &noSync
		for fails := int64(1); ; fails += stride() {
			var steps atomic.Int64
			failing := opts
			failing.hooks.step = func(string, string) error {
				if steps.Add(1) == fails {
					return full
				}
				return nil
			}
			err := tryToPublish(dir, failing, after)
			if err != nil && !errors.Is(err, full) {
				t.Fatalf("failing step %d: %v", fails, err)
			}
			if err := put(t, dir, opts, nil).Abort(); err != nil {
				t.Fatal(err)
			}
			if err == nil { // there was another way round this step, as linking has copying
				wantTree(t, dir, joined(after, kept))
				wantList(t, dir, after)
			}
			if got := readTree(t, dir); !maps.Equal(got, joined(before, kept)) && !maps.Equal(got, joined(after, kept)) {
				t.Fatalf("failing step %d (%v) left a mixture: %v", fails, err, got)
			}
			wantAlone(t, dir)
			if steps.Load() < fails {
				t.Logf("%d failures", fails-1)
				return
			}
			publish(t, dir, opts, before)
			if strings.HasSuffix(t.Name(), "inside") {
				plant(t, dir, tree{insideName + "/": ""})
			}
		}
	})
}

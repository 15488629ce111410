package publish

import (
	"errors"
	"fmt"
	"maps"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"sync"
	"sync/atomic"
	"testing"
)

func manyPages(n int, text string) tree {
	pages := tree{"index.html": text}
	for i := range n {
		pages[fmt.Sprintf("gyles/%d/index.html", i)] = fmt.Sprintf("%s %d", text, i)
	}
	return pages
}

func TestPutsAtOnce(t *testing.T) {
	eachWay(t, func(t *testing.T, dir string, opts Options, kept tree) {
		pages := manyPages(60, "new")
		e, err := Begin(dir, opts)
		if err != nil {
			t.Fatal(err)
		}
		var wait sync.WaitGroup
		var doubles atomic.Int32
		for range 3 { // each page three times: two of them must be refused, and only they
			for p, text := range pages {
				wait.Go(func() {
					if e.Put(p, []byte(text)) != nil {
						doubles.Add(1)
					}
				})
			}
		}
		wait.Wait()
		if got, want := int(doubles.Load()), 2*len(pages); got != want {
			t.Errorf("%d Puts were refused, want %d", got, want)
		}
		if _, err := e.Commit(); err == nil || !strings.Contains(err.Error(), "twice") {
			t.Errorf("got %v", err)
		}

		e, err = Begin(dir, opts)
		if err != nil {
			t.Fatal(err)
		}
		for p, text := range pages {
			wait.Go(func() {
				if err := e.Put(p, []byte(text)); err != nil {
					t.Error(err)
				}
			})
		}
		wait.Wait()
		if _, err := e.Commit(); err != nil {
			t.Fatal(err)
		}
		wantTree(t, dir, joined(pages, kept))
		wantList(t, dir, pages)
	})
}

func TestAbortWhilePutting(t *testing.T) {
	dir := site(t)
	publish(t, dir, Options{}, before)
	e, err := Begin(dir, Options{})
	if err != nil {
		t.Fatal(err)
	}
	var wait sync.WaitGroup
	for p, text := range manyPages(100, "new") {
		wait.Go(func() {
			if err := e.Put(p, []byte(text)); err != nil && !errors.Is(err, errClosed) {
				t.Error(err)
			}
		})
	}
	wait.Go(func() {
		if err := e.Abort(); err != nil {
			t.Error(err)
		}
	})
	wait.Wait()
	wantTree(t, dir, before)
	wantAlone(t, dir)
}

// TestReaderDuringExchanges reads the front page by its name all the while, and
// never finds it missing or cut.
func TestReaderDuringExchanges(t *testing.T) {
	if !canExchangeHere {
		t.Skip("there is no exchange here")
	}
	dir := site(t)
	opts := Options{hooks: hooks{sync: &noSync}}
	whole := []string{strings.Repeat("a", 100_000), strings.Repeat("b", 100_000)}
	publish(t, dir, opts, manyPages(5, whole[0]))
	stop := make(chan struct{})
	var wait sync.WaitGroup
	var seen [2]int
	wait.Go(func() {
		for {
			select {
			case <-stop:
				return
			default:
			}
			text, err := os.ReadFile(filepath.Join(dir, "index.html"))
			switch {
			case err != nil:
				t.Error(err)
				return
			case string(text) == whole[0]:
				seen[0]++
			case string(text) == whole[1]:
				seen[1]++
			default:
				t.Errorf("read %d bytes that are neither edition", len(text))
				return
			}
		}
	})
	for i := range 20 {
		publish(t, dir, opts, manyPages(5, whole[(i+1)%2]))
	}
	close(stop)
	wait.Wait()
	if seen[0] == 0 || seen[1] == 0 {
		t.Errorf("the reader saw the editions %v times", seen)
	}
}

func TestSecondEditionIsRefused(t *testing.T) {
	dir := site(t)
	for _, pages := range []tree{before, after} { // of the first site, and of one that is there
		e := put(t, dir, Options{}, pages)
		_, err := Begin(dir, Options{})
		if !errors.Is(err, ErrBusy) {
			t.Errorf("a second edition: %v", err)
		}
		if want := fmt.Sprintf("process %d", os.Getpid()); err != nil && !strings.Contains(err.Error(), want) && canExchangeHere {
			t.Errorf("%v does not name the %s", err, want)
		}
		if _, err := e.Commit(); err != nil {
			t.Fatal(err)
		}
		wantTree(t, dir, pages)
	}
	if err := put(t, dir, Options{}, nil).Abort(); err != nil {
		t.Errorf("after the first was done: %v", err)
	}
}

func TestSecondProcessIsRefused(t *testing.T) {
	dir := site(t)
	e := put(t, dir, Options{}, before)
	child := exec.Command(os.Args[0])
	child.Env = append(os.Environ(), lifeVariable+`={"Dir":`+fmt.Sprintf("%q", dir)+`,"Pages":{"index.html":""}}`)
	out, err := child.CombinedOutput()
	if err == nil || !strings.Contains(string(out), ErrBusy.Error()) {
		t.Errorf("the second process: %v, %s", err, out)
	}
	if err := e.Abort(); err != nil {
		t.Fatal(err)
	}
}

// TestManyPublishers lets many goroutines publish at once. Some are refused;
// the others take turns, and the site is that of one of them.
func TestManyPublishers(t *testing.T) {
	dir := site(t)
	opts := Options{hooks: hooks{sync: &noSync}}
	var wait sync.WaitGroup
	var done atomic.Int32
	for i := range 8 {
		wait.Go(func() {
			for range 10 {
				err := tryToPublish(dir, opts, manyPages(5, fmt.Sprint(i)))
				if err == nil {
					done.Add(1)
				} else if !errors.Is(err, ErrBusy) {
					t.Error(err)
				}
			}
		})
	}
	wait.Wait()
	if done.Load() == 0 {
		t.Error("nobody published")
	}
	got := readTree(t, dir)
	if !maps.Equal(got, manyPages(5, got["index.html"])) {
		t.Errorf("the site is a mixture: %v", got)
	}
	wantAlone(t, dir)
}

// beforeLocking calls do once, when the lock file is open and not yet locked.
func beforeLocking(do func()) Options {
	done := false
	return Options{hooks: hooks{step: func(op, _ string) error {
		if op == "lock" && !done {
			done = true
			do()
		}
		return nil
	}}}
}

func TestSiteThatComesBeforeTheLock(t *testing.T) {
	if !canExchangeHere {
		t.Skip("there is no such step here")
	}
	dir := site(t)
	publish(t, dir, beforeLocking(func() { publish(t, dir, Options{}, before) }), after)
	wantTree(t, dir, after)
	wantAlone(t, dir)
}

// TestLockThatChangesHands locks a file that another edition has removed and a
// third has made anew.
func TestLockThatChangesHands(t *testing.T) {
	if !canExchangeHere {
		t.Skip("there is no such step here")
	}
	dir := site(t)
	publish(t, dir, Options{}, before)
	var third *Edition
	_, err := Begin(dir, beforeLocking(func() {
		remove(t, filepath.Join(filepath.Dir(dir), ".site"+insideName))
		third = put(t, dir, Options{}, after)
	}))
	if !errors.Is(err, ErrBusy) {
		t.Errorf("got %v", err)
	}
	if _, err := third.Commit(); err != nil {
		t.Fatal(err)
	}
	wantTree(t, dir, after)
	wantAlone(t, dir)
}

// TestStrangersWhilePublishing puts files into the site and edits others while
// an edition is open. Nothing of that may be lost.
func TestStrangersWhilePublishing(t *testing.T) {
	mine := tree{"index.html": "mine", "gyles/2/index.html": "mine too", "gyles/1/mine": "new", "mine/x": "new"}
	t.Run("exchange", func(t *testing.T) {
		if !canExchangeHere {
			t.Skip("there is no exchange here")
		}
		dir := site(t)
		publish(t, dir, Options{}, before)
		e := put(t, dir, Options{}, after)
		plant(t, dir, mine)
		_, err := e.Commit()
		var left *LeftBehindError
		if !errors.As(err, &left) {
			t.Fatalf("got %v", err)
		}
		wantTree(t, dir, after)
		wantTree(t, left.Dir, mine)
		if _, err := Begin(dir, Options{}); !errors.As(err, &left) {
			t.Errorf("before they are taken away: %v", err)
		}
		wantTree(t, left.Dir, mine)
		remove(t, left.Dir)
		publish(t, dir, Options{}, before)
		wantTree(t, dir, before)
		wantAlone(t, dir)
	})
	t.Run("roll", func(t *testing.T) {
		dir := site(t)
		publish(t, dir, Options{}, before)
		e := put(t, dir, ways["roll"].opts, after)
		plant(t, dir, mine)
		_, err := e.Commit()
		var strangers *StrangersError
		if !errors.As(err, &strangers) || len(strangers.Edited) != 2 {
			t.Fatalf("got %v", err)
		}
		wantTree(t, dir, joined(before, mine))
		wantAlone(t, dir)
	})
}

// TestEditBetweenDeathAndRecovery edits a page after a roll was cut off. It is
// not overwritten; once it is out of the way, the roll is finished.
func TestEditBetweenDeathAndRecovery(t *testing.T) {
	dir := site(t)
	publish(t, dir, Options{}, before)
	opts := ways["roll"].opts
	cut := errors.New("cut off")
	opts.hooks.step = func(op, name string) error {
		if _, err := os.Lstat(filepath.Join(filepath.Dir(dir), ".site"+insideName, recordName)); err == nil {
			return cut
		}
		return nil
	}
	if err := tryToPublish(dir, opts, after); !errors.Is(err, cut) {
		t.Fatal(err)
	}
	wantTree(t, dir, before)
	plant(t, dir, tree{"index.html": "mine"})
	_, err := Begin(dir, Options{})
	var strangers *StrangersError
	if !errors.As(err, &strangers) || !strings.Contains(err.Error(), "an earlier run") {
		t.Fatalf("got %v", err)
	}
	wantTree(t, dir, joined(before, tree{"index.html": "mine"}))
	remove(t, filepath.Join(dir, "index.html"))
	if err := put(t, dir, Options{}, nil).Abort(); err != nil {
		t.Fatal(err)
	}
	wantTree(t, dir, after)
	wantAlone(t, dir)
}

package live

import (
	"context"
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"syscall"
	"time"

	"github.com/fsnotify/fsnotify"

	"gylebook/internal/journal"
)

// A save is over once there has been quiet for a moment: a short one where an
// editor saved a file or two, a longer one where a program is at work on many. A
// folder that is never quiet is looked at every overdue anyhow.
const (
	quietAfterFew  = 12 * time.Millisecond
	quietAfterMany = 120 * time.Millisecond
	many           = 6
	overdue        = 2 * time.Second
)

// polling is how often the folders are looked at where the system will not watch
// them.
const polling = time.Second

// watcher tells when something below its folders was saved.
type watcher struct {
	roots  []string
	notify *fsnotify.Watcher // nil while the folders are looked at instead
	add    func(string) error
	refuse error // why the system does not watch them
}

// watch begins to watch the folders and all below them. Where the system will
// not, since it has no watches left to give, they are to be looked at.
func watch(roots []string, limit func(string) error) *watcher {
	w := &watcher{roots: roots}
	if w.notify, w.refuse = fsnotify.NewWatcher(); w.refuse != nil {
		w.notify = nil
		return w
	}
	w.add = func(name string) error {
		if limit != nil {
			if err := limit(name); err != nil {
				return err
			}
		}
		return w.notify.Add(name)
	}
	if err := w.lookForFolders(); err != nil {
		w.giveUp(err)
	}
	return w
}

// giveUp lets the system's watches go.
func (w *watcher) giveUp(err error) {
	w.notify.Close()
	w.notify, w.refuse = nil, err
}

func (w *watcher) close() {
	if w.notify != nil {
		w.notify.Close()
	}
}

// reason says in words why the folders are only looked at, "" where they are
// watched.
func (w *watcher) reason() string {
	switch {
	case w.refuse == nil:
		return ""
	case errors.Is(w.refuse, syscall.ENOSPC):
		return "The system has no watches left to give " +
			"(on Linux fs.inotify.max_user_watches is the limit), so the folder is looked at every second instead."
	case errors.Is(w.refuse, syscall.EMFILE):
		return "The system lets this user watch no more folders " +
			"(on Linux fs.inotify.max_user_instances is the limit), so the folder is looked at every second instead."
	}
	return "The system will not watch the folder (" + w.refuse.Error() + "), so it is looked at every second instead."
}

// lookForFolders watches every folder.
func (w *watcher) lookForFolders() error {
	var failed error
	for _, root := range w.roots {
		failed = errors.Join(failed, w.watchBelow(root))
	}
	return failed
}

// watchBelow watches a folder and all below it that are not hidden. One that is
// watched already stays so. Each is watched before it is listed, so that what
// appears in it meanwhile makes an event.
func (w *watcher) watchBelow(top string) error {
	return filepath.WalkDir(top, func(name string, entry fs.DirEntry, err error) error {
		switch {
		case errors.Is(err, fs.ErrNotExist):
			return nil // gone again
		case err != nil:
			return err
		case !entry.IsDir():
			return nil
		case name != top && strings.HasPrefix(entry.Name(), "."):
			return fs.SkipDir
		}
		if err := w.add(name); err != nil && !errors.Is(err, fs.ErrNotExist) {
			return err
		}
		return nil
	})
}

// newFolders watches those among what was saved. A file that was written into one
// before it was watched made no event: the folder's own name stands for it.
func (w *watcher) newFolders(pending map[string]bool) error {
	for name := range pending {
		if name == "" {
			return w.lookForFolders()
		}
		if info, err := os.Lstat(name); err == nil && info.IsDir() {
			if err := w.watchBelow(name); err != nil {
				return err
			}
		}
	}
	return nil
}

// rootsGone tells that one of the folders itself is not there, and so not
// watched.
func (w *watcher) rootsGone() bool {
	return slices.ContainsFunc(w.roots, func(root string) bool {
		_, err := os.Lstat(root)
		return err != nil
	})
}

// run sends the names of what was saved, sorted, after each save, until ctx
// ends. While nobody takes them it gathers more. A name "" stands for more than
// could be told apart.
func (w *watcher) run(ctx context.Context, saves chan<- []string, warned func(string)) {
	if w.notify != nil {
		w.watched(ctx, saves)
	}
	if ctx.Err() != nil {
		return
	}
	if says := w.reason(); says != "" && warned != nil {
		warned(says)
	}
	w.looked(ctx, saves)
}

// looked asks for a look at everything, over and over.
func (w *watcher) looked(ctx context.Context, saves chan<- []string) {
	tick := time.NewTicker(polling)
	defer tick.Stop()
	for {
		select {
		case <-ctx.Done():
			return
		case <-tick.C:
		}
		select {
		case <-ctx.Done():
			return
		case saves <- []string{""}:
		}
	}
}

// burst is what was saved since the last quiet moment.
type burst struct {
	names map[string]bool
	since time.Time
	quiet *time.Timer
}

func (b *burst) note(name string) {
	if len(b.names) == 0 {
		b.since = time.Now()
	}
	b.names[name] = true
	wait := quietAfterFew
	if len(b.names) >= many {
		wait = quietAfterMany
	}
	b.quiet.Reset(max(0, min(wait, overdue-time.Since(b.since))))
}

// watched takes the system's events until ctx ends, or until a new folder cannot
// be watched.
func (w *watcher) watched(ctx context.Context, saves chan<- []string) {
	b := &burst{names: map[string]bool{}, quiet: time.NewTimer(time.Hour)}
	defer b.quiet.Stop()
	look := time.NewTicker(polling)
	defer look.Stop()
	var (
		ready []string
		out   chan<- []string // nil until a save is over
		gone  bool            // a folder of ours is not there
	)
	for {
		select {
		case <-ctx.Done():
			return
		case event, open := <-w.notify.Events:
			if !open {
				return
			}
			if worth(event) {
				b.note(event.Name)
			}
			gone = gone || slices.Contains(w.roots, event.Name) && event.Op&(fsnotify.Remove|fsnotify.Rename) != 0
		case _, open := <-w.notify.Errors: // an overflow, or a folder that went away
			if !open {
				return
			}
			b.note("")
		case <-look.C:
			if was := gone; w.rootsGone() {
				gone = true
			} else if gone = false; was {
				b.note("") // it is back, and nobody watches it
			}
		case <-b.quiet.C:
			if err := w.newFolders(b.names); err != nil {
				w.giveUp(err)
				return
			}
			ready, out = merge(ready, b.names), saves
			clear(b.names)
		case out <- ready:
			ready, out = nil, nil
		}
	}
}

func merge(ready []string, pending map[string]bool) []string {
	for name := range pending {
		ready = append(ready, name)
	}
	slices.Sort(ready)
	return slices.Compact(ready)
}

// worth tells whether an event may have changed the book: not a change of
// rights alone, nor what editors leave beside a file while it is open.
func worth(event fsnotify.Event) bool {
	return event.Op&^fsnotify.Chmod != 0 && !journal.Ignored(filepath.Base(event.Name), nil)
}

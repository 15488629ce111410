package live

import (
	"context"
	"errors"
	"io/fs"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"github.com/fsnotify/fsnotify"

	"gylebook/internal/journal"
)

// A save is over once there has been quiet for settled; a folder that is never
// quiet (an unpacking archive) is looked at every overdue anyhow.
const (
	settled = 40 * time.Millisecond
	overdue = 500 * time.Millisecond
)

// watcher tells when something below its folders was saved.
type watcher struct {
	notify *fsnotify.Watcher
	roots  []string
}

// watch begins to watch the folders and all below them.
func watch(roots []string) (*watcher, error) {
	notify, err := fsnotify.NewWatcher()
	if err != nil {
		return nil, err
	}
	w := &watcher{notify: notify, roots: roots}
	if err := w.lookForFolders(); err != nil {
		notify.Close()
		return nil, err
	}
	return w, nil
}

func (w *watcher) close() { w.notify.Close() }

// lookForFolders watches every folder that is not hidden. One that is watched
// already stays so. Each is watched before it is listed, so that what appears
// in it meanwhile makes an event.
func (w *watcher) lookForFolders() error {
	var failed error
	for _, root := range w.roots {
		failed = errors.Join(failed, filepath.WalkDir(root, func(name string, entry fs.DirEntry, err error) error {
			switch {
			case errors.Is(err, fs.ErrNotExist) && name != root:
				return nil // gone again
			case err != nil:
				return err
			case !entry.IsDir():
				return nil
			case name != root && strings.HasPrefix(entry.Name(), "."):
				return fs.SkipDir
			}
			if err := w.notify.Add(name); err != nil && !errors.Is(err, fs.ErrNotExist) {
				return err
			}
			return nil
		}))
	}
	return failed
}

// run sends the names of what was saved, sorted, after each save, until ctx
// ends. While nobody takes them it gathers more. A name "" stands for more
// events than could be told apart.
func (w *watcher) run(ctx context.Context, saves chan<- []string) {
	var (
		pending = map[string]bool{}
		since   time.Time
		quiet   = time.NewTimer(time.Hour)
		ready   []string
		out     chan<- []string // nil until a save is over
	)
	defer quiet.Stop()
	note := func(name string) {
		if len(pending) == 0 {
			since = time.Now()
		}
		pending[name] = true
		quiet.Reset(max(0, min(settled, overdue-time.Since(since))))
	}
	for {
		select {
		case <-ctx.Done():
			return
		case event, open := <-w.notify.Events:
			if !open {
				return
			}
			if worth(event) {
				note(event.Name)
			}
		case _, open := <-w.notify.Errors: // an overflow, or a folder that went away
			if !open {
				return
			}
			note("")
		case <-quiet.C:
			w.lookForFolders() // a folder that cannot be watched now is tried again at the next save
			ready, out = merge(ready, pending), saves
			clear(pending)
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

package publish

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
)

// ErrBusy says that another edition of the same site is open.
var ErrBusy = errors.New("another run is publishing into this folder")

// lock takes the site's lock. The work folder may vanish meanwhile with an
// edition that is just being closed; then it is made again.
func (g *ground) lock() (*os.File, error) {
	for range 100 {
		f, err := g.takeLock()
		if !errors.Is(err, fs.ErrNotExist) {
			return f, err
		}
		if err := g.makeWork(); err != nil {
			return nil, err
		}
	}
	return nil, fmt.Errorf("%w, over and over", ErrBusy)
}

// unlock lets the lock go, and removes the work folder if nothing is in it. That
// may fail: the next edition may be in it already.
func (g *ground) unlock(f *os.File) error {
	err := errors.Join(g.hooks.step("unlock", g.work), g.dropLock(f))
	_ = g.remove(g.root, g.work)
	return err
}

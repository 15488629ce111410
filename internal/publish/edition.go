package publish

import (
	"bytes"
	"crypto/sha256"
	"errors"
	"fmt"
	"os"
	"path"
	"sync"
)

// Options are the choices that a publication leaves to its caller.
type Options struct {
	// Keep names files and folders in the site that are not ours to touch, as
	// slash paths relative to it.
	Keep []string

	hooks hooks // for tests
}

// An Edition is one set of pages on its way to a site. It holds the site's lock
// until Commit or Abort.
type Edition struct {
	dir    string // as the caller named it
	ground *ground
	lock   *os.File
	old    *survey

	gate   sync.RWMutex // held for reading by Put, for writing by Commit and Abort
	closed bool

	mu      sync.Mutex // guards what follows
	claims  *claims
	pages   list            // all pages put
	changed list            // those that differ from the old site, already staged
	kept    []string        // those left out because they are kept
	folders map[string]bool // folders made in the stage
	failed  error           // the first Put that failed
}

var (
	errClosed  = errors.New("this edition has been committed or aborted already")
	errNoPages = errors.New("the edition has no pages, and an empty site is never published")
)

// Begin opens an edition of the site in dir, which need not exist yet. It first
// finishes or clears away what a killed run left behind. It fails with a
// [StrangersError] if dir holds anything that is neither ours nor kept, with
// [ErrBusy] if another edition is open, and for folders that cannot be a site.
func Begin(dir string, opts Options) (*Edition, error) {
	e, err := begin(dir, opts)
	if err != nil {
		return nil, fmt.Errorf("publishing into %s: %w", dir, err)
	}
	return e, nil
}

func begin(dir string, opts Options) (*Edition, error) {
	claims, err := newClaims(opts.Keep)
	if err != nil {
		return nil, err
	}
	ground, err := openGround(dir, opts.hooks)
	if err != nil {
		return nil, err
	}
	lock, err := ground.lock()
	if err != nil {
		ground.root.Close()
		return nil, err
	}
	e := &Edition{
		dir: dir, ground: ground, lock: lock, claims: claims,
		pages: list{}, changed: list{}, folders: map[string]bool{},
	}
	if err := e.prepare(); err != nil {
		return nil, errors.Join(e.unfinished(err), e.leave())
	}
	return e, nil
}

// prepare brings the site into order and looks it over.
func (e *Edition) prepare() (err error) {
	if err := e.ground.recover(); err != nil {
		return err
	}
	if err := e.ground.seeSite(); err != nil {
		return err
	}
	e.old, err = e.ground.survey(e.claims)
	return err
}

// Put adds a page at a slash path relative to the site. It refuses a path that
// leaves the site, has a backslash or a control character, was put before,
// differs from another only in case, or needs a folder where another needs a
// file. After a failed Put the edition cannot be committed: it would lack a
// page. Put is safe for concurrent use and does not keep body.
func (e *Edition) Put(path string, body []byte) error {
	e.gate.RLock()
	defer e.gate.RUnlock()
	if e.closed {
		return fmt.Errorf("putting %s: %w", path, errClosed)
	}
	if err := e.put(path, body); err != nil {
		err = fmt.Errorf("putting %s: %w", path, err)
		e.mu.Lock()
		defer e.mu.Unlock()
		if e.failed == nil {
			e.failed = err
		}
		return err
	}
	return nil
}

func (e *Edition) put(path string, body []byte) error {
	if ours, err := e.claim(path); err != nil || !ours {
		return err
	}
	sum := sha256.Sum256(body)
	old, there := e.old.present[path]
	changed := !there || old != sum
	if changed {
		if err := e.stage(path, body); err != nil {
			return err
		}
	}
	e.mu.Lock()
	defer e.mu.Unlock()
	e.pages[path] = sum
	if changed {
		e.changed[path] = sum
	}
	return nil
}

// claim takes the path for a page and tells whether it is ours to write.
func (e *Edition) claim(path string) (bool, error) {
	e.mu.Lock()
	defer e.mu.Unlock()
	kept, err := e.claims.page(path)
	if err != nil {
		return false, err
	}
	if kept {
		e.kept = append(e.kept, path)
	}
	return !kept, nil
}

// stage writes a changed page into the stage.
func (e *Edition) stage(p string, body []byte) error {
	if err := e.stageFolder(path.Dir(p)); err != nil {
		return err
	}
	return e.ground.write(e.ground.stage, p, body)
}

// stageFolder makes a folder of the stage, with those around it.
func (e *Edition) stageFolder(dir string) error {
	e.mu.Lock()
	defer e.mu.Unlock()
	if e.folders[dir] {
		return nil
	}
	if e.ground.stage == nil {
		if err := e.ground.makeStage(); err != nil {
			return err
		}
	}
	if dir != "." {
		if err := e.ground.mkdirAll(e.ground.stage, dir); err != nil {
			return err
		}
	}
	for d := dir; !e.folders[d]; d = path.Dir(d) {
		e.folders[d] = true
	}
	return nil
}

// Commit makes the site hold exactly the pages put, and closes the edition,
// whether it succeeds or fails. After a failure the site is as it was, unless
// that struck while files were being moved one by one or the old site was being
// deleted: then the next Begin finishes the work. It refuses an edition without
// a page, and one of which a Put failed.
//
// An [UnfinishedError] says so. A [LeftBehindError] means that the new site is in place, but somebody put
// files of their own into the old one meanwhile; they are safe where it says.
func (e *Edition) Commit() (Report, error) {
	e.gate.Lock()
	defer e.gate.Unlock()
	if e.closed {
		return Report{}, fmt.Errorf("publishing into %s: %w", e.dir, errClosed)
	}
	report, err := e.commit()
	if err := errors.Join(e.unfinished(err), e.leave()); err != nil {
		return report, fmt.Errorf("publishing into %s: %w", e.dir, err)
	}
	return report, nil
}

// unfinished marks an error after which the next Begin has something to finish.
func (e *Edition) unfinished(err error) error {
	var left *LeftBehindError
	if err == nil || !e.ground.unfinished || errors.As(err, &left) {
		return err
	}
	return &UnfinishedError{err}
}

// An UnfinishedError says that the site was begun to be changed and that this was cut
// short: some of its files may be new and some old until the next Begin, which finishes it.
type UnfinishedError struct{ err error }

// Error tells what cut it short.
func (e *UnfinishedError) Error() string {
	return e.err.Error() + "; the site is begun, and the next run finishes it"
}

// Unwrap is what cut it short.
func (e *UnfinishedError) Unwrap() error { return e.err }

func (e *Edition) commit() (Report, error) {
	if e.failed != nil {
		return Report{}, fmt.Errorf("a page is missing: %w", e.failed)
	}
	if len(e.pages) == 0 {
		return Report{}, errNoPages
	}
	report := e.report()
	if len(e.changed) == 0 && bytes.Equal(e.pages.bytes(), e.old.listBytes) {
		return report, nil
	}
	return report, e.replace()
}

// Abort throws the edition away and leaves the site as it was. After a Commit
// or another Abort it does nothing, so that it can be deferred.
func (e *Edition) Abort() error {
	e.gate.Lock()
	defer e.gate.Unlock()
	if e.closed {
		return nil
	}
	if err := e.leave(); err != nil {
		return fmt.Errorf("clearing away what was meant for %s: %w", e.dir, err)
	}
	return nil
}

// leave closes the edition: it clears the stage, unless the next Begin has
// something to finish with it, and lets the lock go.
func (e *Edition) leave() error {
	e.closed = true
	err := e.ground.closeStage()
	if !e.ground.unfinished {
		err = errors.Join(err, e.ground.clear())
	}
	return errors.Join(err, e.ground.unlock(e.lock), e.ground.root.Close())
}

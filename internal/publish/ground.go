package publish

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"sync"
	"syscall"
)

// What lies in the work folder.
const (
	lockName    = "lock"       // held while an edition is open
	stageName   = "stage"      // the new site, or after an exchange the old one
	nextName    = "next"       // the list of the site that an exchange puts in place
	recordName  = "record"     // the changes of a roll that must be finished
	clearedName = "cleared"    // that roll has removed all that it is to remove
	draftName   = "record.new" // the record while it is being written
	probeName   = "probe"      // two folders to try an exchange with
)

// ground is where an edition is worked on: one root over the site and the work
// folder, so that no operation can leave them and files can be renamed between
// them. All changes on disk go through its methods.
type ground struct {
	root  *os.Root
	abs   string // the root's absolute path
	site  string // the site's name in root: its last element, or "." where work lies inside
	work  string // the work folder's name in root
	there bool   // the site exists; known for certain only under the lock

	stage      *os.Root // the stage while files are put into it; its names are short that way
	buffers    sync.Pool
	unfinished bool // the work folder holds what the next Begin has to deal with
	hooks      hooks
}

// hooks are the seams at which tests let a publication fail or die.
type hooks struct {
	step     func(op, name string) error               // called before each change on disk
	exchange func(dir *os.File, one, two string) error // in place of exchangeFolders
	sync     *syncCalls                                // in place of systemSync
}

// syncCalls are the calls that see what was written onto the disk: the bytes of a
// file, the names in a folder, all that waits for the file system of a file.
type syncCalls struct{ file, folder, fileSystem func(*os.File) error }

var systemSync = syncCalls{(*os.File).Sync, syncFolder, flushFileSystem}

// orReal fills in what is not set.
func (h hooks) orReal() hooks {
	if h.step == nil {
		h.step = func(op, name string) error { return nil }
	}
	if h.exchange == nil {
		h.exchange = exchangeFolders
	}
	if h.sync == nil {
		h.sync = &systemSync
	}
	return h
}

// openGround finds the site and makes its work folder.
func openGround(dir string, hooks hooks) (*ground, error) {
	site, there, err := locate(dir)
	if err != nil {
		return nil, err
	}
	hooks = hooks.orReal()
	if there && mustWorkInside(site) {
		return openAt(&ground{abs: site, site: ".", work: insideName, there: true, hooks: hooks})
	}
	around, name := filepath.Split(site)
	beside := &ground{abs: around, site: name, work: "." + name + insideName, there: there, hooks: hooks}
	g, err := openAt(beside)
	if there && (errors.Is(err, fs.ErrPermission) || errors.Is(err, syscall.EROFS)) {
		return openAt(&ground{abs: site, site: ".", work: insideName, there: true, hooks: hooks})
	}
	return g, err
}

// mustWorkInside tells whether the work folder must lie in the site: because
// the folder around it is on another file system, or because a run that was
// killed had it there.
func mustWorkInside(site string) bool {
	_, err := os.Lstat(filepath.Join(site, insideName))
	return err == nil || isMount(site)
}

func openAt(g *ground) (_ *ground, err error) {
	if g.root, err = os.OpenRoot(g.abs); err != nil {
		return nil, err
	}
	if err := g.makeWork(); err != nil {
		g.root.Close()
		return nil, err
	}
	return g, nil
}

// makeWork makes the work folder. Nobody else needs to see into it.
func (g *ground) makeWork() error {
	if err := g.hooks.step("mkdir", g.work); err != nil {
		return err
	}
	err := g.root.Mkdir(g.work, 0o700)
	if !errors.Is(err, fs.ErrExist) {
		return err
	}
	if entry, err := g.root.Lstat(g.work); err == nil && !entry.IsDir() {
		return fmt.Errorf("%s is in the way; move it", g.full(g.work))
	}
	return nil
}

func (g *ground) inSite(p string) string  { return path.Join(g.site, p) }
func (g *ground) inWork(p string) string  { return path.Join(g.work, p) }
func (g *ground) inStage(p string) string { return path.Join(g.work, stageName, p) }

// full gives the absolute path, for messages.
func (g *ground) full(name string) string {
	return filepath.Join(g.abs, filepath.FromSlash(name))
}

// seeSite looks again whether the site exists, now that nobody else makes it.
func (g *ground) seeSite() error {
	is, _, err := g.lookAt(g.root, g.site)
	if err == nil && is != nothing && is != aFolder {
		err = fmt.Errorf("%s has just become something other than a folder", g.full(g.site))
	}
	g.there = is == aFolder
	return err
}

// makeStage makes and opens the stage, with the old site's mode, which it may
// take over.
func (g *ground) makeStage() (err error) {
	name := g.inStage(".")
	if err := g.mkdirAll(g.root, name); err != nil {
		return err
	}
	if g.there {
		old, err := g.root.Stat(g.site)
		if err != nil {
			return err
		}
		const chosen = fs.ModePerm | fs.ModeSetgid | fs.ModeSticky
		if err := g.root.Chmod(name, old.Mode()&chosen|0o700); err != nil {
			return err
		}
	}
	g.stage, err = g.root.OpenRoot(name)
	return err
}

// closeStage lets go of the stage, which is to be renamed or removed: some
// systems refuse that while it is open.
func (g *ground) closeStage() error {
	if g.stage == nil {
		return nil
	}
	defer func() { g.stage = nil }()
	return g.stage.Close()
}

// has tells whether anything stands under a name in the work folder.
func (g *ground) has(name string) bool {
	_, err := g.root.Lstat(g.inWork(name))
	return err == nil
}

// clear empties the work folder but for the lock, in order of name: nextName and
// recordName go before the stage, which without them is known to be of no use.
func (g *ground) clear() error {
	entries, err := fs.ReadDir(g.root.FS(), g.work)
	if err != nil {
		return err
	}
	for _, entry := range entries {
		if entry.Name() == lockName {
			continue
		}
		if err := g.removeAll(g.inWork(entry.Name())); err != nil {
			return err
		}
	}
	return nil
}

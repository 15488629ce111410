package publish

import (
	"errors"
	"io/fs"
	"os"
	"path"
	"slices"
)

// mostCarried is how many kept files and folders are carried over. A publication is not to
// be held up by what is not its own: around more of it files are moved one by one.
const mostCarried = 20_000

// errNotCarried is something kept that cannot be in two folders at once.
var errNotCarried = errors.New("it cannot be carried over")

// carryKept gives all that is kept a second name in the stage, so that the site can change
// places with it whole. Files are one file under both names, so that nothing written into
// one meanwhile is lost. After an error the stage holds a part of it, which is no harm.
func (e *Edition) carryKept() error {
	left := mostCarried
	for _, p := range e.old.keptFolders {
		if err := e.stageFolder(p); err != nil {
			return err
		}
	}
	for _, p := range e.old.kept {
		if err := e.stageFolder(path.Dir(p)); err != nil {
			return err
		}
		if err := e.ground.carry(p, &left); err != nil {
			return err
		}
	}
	return nil
}

// carry carries one name over, with all below it; left is how many more may be.
func (g *ground) carry(p string, left *int) error {
	if *left--; *left < 0 {
		return errNotCarried
	}
	entry, err := g.root.Lstat(g.inSite(p))
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil // it went meanwhile
	case err != nil:
		return err
	case entry.IsDir():
		return g.carryFolder(p, entry, left)
	case entry.Mode().IsRegular():
		if err := g.hooks.step("link", g.inStage(p)); err != nil {
			return err
		}
		return g.root.Link(g.inSite(p), g.inStage(p))
	case entry.Mode()&fs.ModeSymlink != 0:
		return g.carryLink(p)
	}
	return errNotCarried
}

// carryFolder makes a folder like one that is kept. One that another owns, or that its
// owner may not write into, could not be made, or not be cleared away again.
func (g *ground) carryFolder(p string, entry fs.FileInfo, left *int) error {
	const write = 0o200
	if entry.Mode().Perm()&write == 0 {
		return errNotCarried
	}
	if err := g.hooks.step("mkdir", g.inStage(p)); err != nil {
		return err
	}
	if err := g.root.Mkdir(g.inStage(p), 0o700); err != nil {
		return err
	}
	made, err := g.root.Lstat(g.inStage(p))
	if err != nil || !ownersAlike(made, entry) {
		return errors.Join(err, errNotCarried)
	}
	inside, err := fs.ReadDir(g.root.FS(), g.inSite(p))
	if err != nil {
		return err
	}
	for _, name := range inside {
		if err := g.carry(path.Join(p, name.Name()), left); err != nil {
			return err
		}
	}
	const chosen = fs.ModePerm | fs.ModeSetgid | fs.ModeSticky
	return errors.Join(
		g.root.Chmod(g.inStage(p), entry.Mode()&chosen),
		g.root.Chtimes(g.inStage(p), entry.ModTime(), entry.ModTime()),
	)
}

func (g *ground) carryLink(p string) error {
	to, err := g.root.Readlink(g.inSite(p))
	if err != nil {
		return err
	}
	if err := g.hooks.step("link", g.inStage(p)); err != nil {
		return err
	}
	return g.root.Symlink(to, g.inStage(p))
}

// deleteCarried deletes from the old site, after an exchange, what the new one has under
// the same name: the same file, or a link to the same place. It gives the folders it went
// through. What has another file in its place by now stays, and is told of as left behind.
func (g *ground) deleteCarried(old *os.Root) (folders []string, err error) {
	err = fs.WalkDir(old.FS(), ".", func(p string, entry fs.DirEntry, err error) error {
		switch {
		case err != nil:
			return err
		case entry.IsDir():
			folders = append(folders, p)
		case p != listName && g.isCarried(p):
			return g.remove(old, p)
		}
		return nil
	})
	slices.Reverse(folders) // what lies in a folder was found after it
	return folders[:max(0, len(folders)-1)], err
}

func (g *ground) isCarried(p string) bool {
	now, err1 := g.root.Lstat(g.inSite(p))
	was, err2 := g.root.Lstat(g.inStage(p))
	switch {
	case err1 != nil || err2 != nil || now.Mode().Type() != was.Mode().Type():
		return false
	case was.Mode().IsRegular():
		return os.SameFile(now, was)
	case was.Mode()&fs.ModeSymlink == 0:
		return false
	}
	there, err1 := g.root.Readlink(g.inSite(p))
	here, err2 := g.root.Readlink(g.inStage(p))
	return err1 == nil && err2 == nil && there == here
}

package publish

import (
	"errors"
	"fmt"
	"io/fs"
	"maps"
	"os"
	"path"
	"slices"
	"strings"
	"syscall"
)

// A LeftBehindError says that files which were not ours came into the old site
// while the new one was being written. The new site is in place; they were not
// deleted with the old one.
type LeftBehindError struct {
	Dir   string   // where they are now
	Paths []string // relative to it
}

// Error tells where the files are and what to do with them.
func (e *LeftBehindError) Error() string {
	return fmt.Sprintf("the new site is in place, but these files came into the old one meanwhile: %s; "+
		"they are in %s: take what you need, then delete that folder", few(e.Paths), e.Dir)
}

// deleteOld deletes the old site from the stage, as far as it is ours: a file
// only if it has the listed bytes, or another name, by which they stay. The list
// goes last of the files, so that this can be cut off and taken up again.
func (g *ground) deleteOld() error {
	old, err := g.root.OpenRoot(g.inStage("."))
	if err != nil {
		return err
	}
	defer old.Close()
	l, _, err := g.readList(g.inStage(listName))
	if err != nil {
		return err
	}
	err = each(l.byFolder(), func(paths []string) ([][]string, error) {
		return nil, g.deleteFiles(old, paths, l)
	})
	if err != nil {
		return err
	}
	folders, err := g.deleteCarried(old)
	if err != nil {
		return err
	}
	for _, dir := range folders {
		if err := g.removeEmpty(old, dir); err != nil {
			return err
		}
	}
	if err := g.remove(old, listName); err != nil && !errors.Is(err, fs.ErrNotExist) {
		return err
	}
	return g.leaveNothingBehind()
}

// byFolder gives the listed paths by the folder they are in.
func (l list) byFolder() [][]string {
	folders := map[string][]string{}
	for p := range l {
		folders[path.Dir(p)] = append(folders[path.Dir(p)], p)
	}
	return slices.Collect(maps.Values(folders))
}

// deleteFiles deletes listed files that are in one folder of the old site.
func (g *ground) deleteFiles(old *os.Root, paths []string, l list) error {
	here, err := old.OpenRoot(path.Dir(paths[0]))
	if errors.Is(err, fs.ErrNotExist) || errors.Is(err, syscall.ENOTDIR) {
		return nil
	}
	if err != nil {
		return err
	}
	defer here.Close()
	for _, p := range paths {
		if err := g.deleteFile(here, path.Base(p), l[p]); err != nil {
			return err
		}
	}
	return nil
}

func (g *ground) deleteFile(here *os.Root, name string, listed sum) error {
	is, entry, err := g.lookAt(here, name)
	if err != nil || is != aFile {
		return err
	}
	if !hasOtherName(entry) {
		if s, err := g.sumOf(here, name); err != nil || s != listed {
			return err
		}
	}
	return g.remove(here, name)
}

// leaveNothingBehind removes the stage's folder, or tells what is in it still.
func (g *ground) leaveNothingBehind() error {
	if err := g.removeEmpty(g.root, g.inStage(".")); err != nil || !g.has(stageName) {
		return err
	}
	var left []string
	err := fs.WalkDir(g.root.FS(), g.inStage("."), func(name string, entry fs.DirEntry, err error) error {
		if err == nil && !entry.IsDir() {
			left = append(left, strings.TrimPrefix(name, g.inStage(".")+"/"))
		}
		return err
	})
	if err != nil {
		return err
	}
	if len(left) == 0 { // empty folders
		return g.removeAll(g.inStage("."))
	}
	return &LeftBehindError{g.full(g.inStage(".")), left}
}

// removeEmpty removes a folder if it is there and empty.
func (g *ground) removeEmpty(in *os.Root, name string) error {
	failed := g.remove(in, name)
	if failed == nil || errors.Is(failed, fs.ErrNotExist) {
		return nil
	}
	if entries, err := fs.ReadDir(in.FS(), name); err == nil && len(entries) > 0 {
		return nil
	}
	return failed
}

// deepestFirst orders folders so that each comes before those around it, and
// leaves the outermost out.
func deepestFirst(folders map[string]bool) []string {
	names := slices.Sorted(maps.Keys(folders)) // what lies in a folder sorts after it
	slices.Reverse(names)
	return slices.DeleteFunc(names, func(name string) bool { return name == "." })
}

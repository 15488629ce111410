package publish

import (
	"errors"
	"fmt"
	"io/fs"
	"maps"
	"path"
	"slices"
	"sync"
)

// rollForward moves the changes into the site file by file. Once the record of
// them is written they will all be made, if need be by the next Begin.
func (e *Edition) rollForward() error {
	g := e.ground
	if !g.has(path.Join(stageName, listName)) { // a refused exchange has staged it
		if err := e.stageList(); err != nil {
			return err
		}
	}
	changes := e.changes()
	if err := errors.Join(g.checkUntouched(changes), g.checkWritable(changes)); err != nil {
		return err
	}
	if err := g.writeRecord(changes); err != nil {
		return err
	}
	g.unfinished = true
	return g.roll(changes)
}

// writeRecord commits to the changes: it appears whole or not at all, after all
// that it rests on has reached the disk.
func (g *ground) writeRecord(changes []change) error {
	if err := g.flush(); err != nil {
		return err
	}
	if err := g.writeSynced(g.inWork(draftName), recordBytes(changes)); err != nil {
		return err
	}
	if err := g.rename(g.inWork(draftName), g.inWork(recordName)); err != nil {
		return err
	}
	return g.syncFolders(g.work)
}

// roll makes the changes of the record, or what is left of them, and removes
// the record. It may be cut off anywhere and called again: a removal is done
// only before any new file stands, so that on a file system that ignores case
// it cannot hit one; a file that has left the stage is in its place.
func (g *ground) roll(changes []change) error {
	if err := g.mkdirAll(g.root, g.site); err != nil {
		return err
	}
	if err := g.clearAway(changes); err != nil {
		return err
	}
	if err := g.place(changes); err != nil {
		return err
	}
	if err := g.flush(); err != nil {
		return err
	}
	if err := g.remove(g.root, g.inWork(recordName)); err != nil {
		return err
	}
	g.unfinished = false
	return g.syncFolders(g.work)
}

// clearAway deletes what the changes remove, once, and notes that.
func (g *ground) clearAway(changes []change) error {
	gone := list{}
	for _, c := range changes {
		if c.to == nil {
			gone[c.path] = sum{}
		}
	}
	if len(gone) == 0 || g.has(clearedName) {
		return nil
	}
	if err := g.removeFiles(changes, gone); err != nil {
		return err
	}
	if err := g.flush(); err != nil {
		return err
	}
	if err := g.writeSynced(g.inWork(clearedName), nil); err != nil {
		return err
	}
	return g.syncFolders(g.work)
}

// removeFiles deletes what the changes remove, and the folders this empties.
func (g *ground) removeFiles(changes []change, gone list) error {
	for _, c := range changes {
		if c.to != nil || c.from == nil {
			continue
		}
		err := g.remove(g.root, g.inSite(c.path))
		if err != nil && !errors.Is(err, fs.ErrNotExist) {
			return err
		}
	}
	for _, dir := range deepestFirst(gone.folders()) {
		if err := g.removeEmpty(g.root, g.inSite(dir)); err != nil {
			return err
		}
	}
	return nil
}

// place moves the staged files into the site, the list last.
func (g *ground) place(changes []change) error {
	for _, c := range changes {
		if c.to == nil {
			continue
		}
		if err := g.mkdirAll(g.root, g.inSite(path.Dir(c.path))); err != nil {
			return err
		}
		if err := g.placeFile(c.path); err != nil {
			return err
		}
	}
	return g.placeFile(listName)
}

func (g *ground) placeFile(p string) error {
	err := g.rename(g.inStage(p), g.inSite(p))
	if err != nil && !g.has(path.Join(stageName, p)) {
		return nil // placed before a cut
	}
	return err
}

// checkUntouched makes sure that each path still holds what the changes expect,
// or already what they bring, so that no edit made meanwhile is lost.
func (g *ground) checkUntouched(changes []change) error {
	expected := g.expected(changes)
	var mu sync.Mutex
	var edited []string
	err := each(slices.Collect(maps.Keys(expected)), func(p string) ([]string, error) {
		is, s, err := g.look(g.root, g.inSite(p))
		if err != nil || expected[p].allows(is, s) {
			return nil, err
		}
		mu.Lock()
		defer mu.Unlock()
		edited = append(edited, p)
		return nil, nil
	})
	if err != nil || len(edited) == 0 {
		return err
	}
	slices.Sort(edited)
	return &StrangersError{Edited: edited}
}

// checkWritable makes sure that files may be put into, and taken out of, every folder that
// the changes are in, so that they are not begun and then left half made.
func (g *ground) checkWritable(changes []change) error {
	seen := map[string]bool{}
	for _, c := range changes {
		dir := path.Dir(c.path)
		for ; !seen[dir]; dir = path.Dir(dir) {
			seen[dir] = true
			if is, _, err := g.lookAt(g.root, g.inSite(dir)); err != nil {
				return err
			} else if is != aFolder {
				continue // to be made, in the one around it
			}
			if name := g.full(g.inSite(dir)); !mayWrite(name) {
				return fmt.Errorf("its folder %s may not be written to: %w", name, fs.ErrPermission)
			}
			break
		}
	}
	return nil
}

// An expectation is what may stand at a path when its change is made, apart from
// nothing, which is always allowed.
type expectation struct {
	folder bool // which the removals will empty
	sums   []sum
}

func (e expectation) allows(is found, s sum) bool {
	return is == nothing || is == aFolder && e.folder || is == aFile && slices.Contains(e.sums, s)
}

// expected gives what is expected at the path of each change still to be made.
// Where the file system ignores case, a new path may hold what an old one is to
// be rid of.
func (g *ground) expected(changes []change) map[string]expectation {
	cleared := g.has(clearedName)
	sums := map[string][]sum{} // by folded path
	expected := make(map[string]expectation, len(changes))
	for _, c := range changes {
		if c.to == nil && cleared {
			continue // it is gone, and what stands there is another's
		}
		for _, s := range []*sum{c.from, c.to} {
			if s != nil {
				sums[fold(c.path)] = append(sums[fold(c.path)], *s)
			}
		}
		expected[c.path] = expectation{folder: c.from == nil}
	}
	for p, e := range expected {
		e.sums = sums[fold(p)]
		expected[p] = e
	}
	return expected
}

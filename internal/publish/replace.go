package publish

import (
	"errors"
	"path"
	"slices"
)

// replace makes the site hold the edition, by the first way that is open.
func (e *Edition) replace() error {
	if err := e.stageFolder("."); err != nil {
		return err
	}
	if !e.ground.there {
		return e.becomeSite()
	}
	if e.canExchange() {
		if done, err := e.exchange(); done || err != nil {
			return err
		}
	}
	return e.rollForward()
}

// becomeSite makes the stage the first site.
func (e *Edition) becomeSite() error {
	g := e.ground
	if err := e.stageList(); err != nil {
		return err
	}
	if err := g.flush(); err != nil {
		return err
	}
	if err := g.rename(g.inStage("."), g.site); err != nil {
		return err
	}
	return g.syncFolders(g.work, ".")
}

// canExchange tells whether the site may change places with the stage, and
// tries with two empty folders whether the file system can do it.
func (e *Edition) canExchange() bool {
	g := e.ground
	if g.site == "." {
		return false
	}
	one, two := g.inWork(path.Join(probeName, "1")), g.inWork(path.Join(probeName, "2"))
	return errors.Join(g.mkdirAll(g.root, one), g.mkdirAll(g.root, two), g.exchange(one, two)) == nil
}

// exchange lets the completed stage change places with the site, and deletes
// the old one. Where the system refuses, done is false and the site untouched.
func (e *Edition) exchange() (done bool, err error) {
	g := e.ground
	if e.carryKept() != nil {
		return false, nil
	}
	if err := e.completeStage(); err != nil {
		return false, err
	}
	if err := g.write(g.root, g.inWork(nextName), e.pages.bytes()); err != nil {
		return false, err
	}
	if err := g.flush(); err != nil {
		return false, err
	}
	if g.exchange(g.site, g.inStage(".")) != nil {
		return false, g.remove(g.root, g.inWork(nextName))
	}
	g.unfinished = true
	if err := g.syncFolders(g.work, "."); err != nil {
		return true, err
	}
	if err := g.deleteOld(); err != nil {
		return true, err
	}
	g.unfinished = false
	return true, nil
}

// exchange makes two folders change places in one step.
func (g *ground) exchange(one, two string) error {
	if err := g.hooks.step("exchange", one); err != nil {
		return err
	}
	f, err := g.root.Open(".")
	if err != nil {
		return err
	}
	defer f.Close()
	return g.hooks.exchange(f, one, two)
}

// completeStage adds to the stage what stays the same, and the list.
func (e *Edition) completeStage() error {
	g := e.ground
	err := each(e.unchanged(), func(p string) ([]string, error) {
		if err := e.stageFolder(path.Dir(p)); err != nil {
			return nil, err
		}
		return nil, g.linkOrCopy(g.inSite(p), g.inStage(p))
	})
	if err != nil {
		return err
	}
	return e.stageList()
}

// stageList writes the list into the stage, and closes that: it is complete.
func (e *Edition) stageList() error {
	g := e.ground
	return errors.Join(g.write(g.stage, listName, e.pages.bytes()), g.closeStage())
}

// unchanged gives the pages that are not in the stage yet, sorted.
func (e *Edition) unchanged() []string {
	var paths []string
	for p := range e.pages {
		if _, changed := e.changed[p]; !changed {
			paths = append(paths, p)
		}
	}
	slices.Sort(paths)
	return paths
}

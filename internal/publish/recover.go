package publish

import (
	"errors"
	"fmt"
	"io/fs"
)

// recover finishes or clears away what a killed run left in the work folder. That
// run may have been killed between renaming and syncing, so that what is seen here
// is not on the disk yet: nothing may rest on it before it is.
func (g *ground) recover() error {
	var err error
	rolling, staged := g.has(recordName), g.has(stageName)
	if rolling || staged {
		err = g.syncFolders(g.work, ".")
	}
	switch {
	case err != nil:
	case rolling:
		err = g.finishRoll()
	case staged:
		err = g.finishExchange()
	}
	if err != nil {
		g.unfinished = true
		return fmt.Errorf("finishing what an earlier run began: %w", err)
	}
	return g.clear()
}

func (g *ground) finishRoll() error {
	text, err := g.root.ReadFile(g.inWork(recordName))
	if err != nil {
		return err
	}
	changes, err := parseRecord(text)
	if err != nil {
		return fmt.Errorf("reading the record %s: %w", g.full(g.inWork(recordName)), err)
	}
	if err := g.checkUntouched(changes); err != nil {
		return err
	}
	return g.roll(changes)
}

// finishExchange deletes the old site, if the stage holds it; a stage that never
// became the site is left for clear.
func (g *ground) finishExchange() error {
	exchanged, err := g.exchanged()
	if err != nil || !exchanged {
		return err
	}
	return g.deleteOld()
}

// exchanged tells whether the stage holds the old site, having changed places
// with the new one, rather than a new site that never got there.
func (g *ground) exchanged() (bool, error) {
	next, err := g.root.ReadFile(g.inWork(nextName))
	if errors.Is(err, fs.ErrNotExist) {
		return false, nil
	}
	if err != nil {
		return false, err
	}
	now, err := g.root.ReadFile(g.inSite(listName))
	if errors.Is(err, fs.ErrNotExist) {
		return false, nil
	}
	return err == nil && string(now) == string(next), err
}

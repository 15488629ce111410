package scribe

import (
	"crypto/rand"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path"
	"path/filepath"
)

// ErrThere says that a file is there already, and is left as it is.
var ErrThere = errors.New("it is there already, and is left as it is")

// Hold keeps every other Hold on the folder out while do runs, so that two new
// entries begun at one instant do not take one number.
func Hold(dir string, do func() error) error {
	root, err := os.OpenRoot(dir)
	if err != nil {
		return fmt.Errorf("opening the journal: %w", err)
	}
	defer root.Close()
	unlock, err := lock(root, ".begin.lock")
	if err != nil {
		return fmt.Errorf("locking the journal: %w", err)
	}
	return errors.Join(do(), unlock())
}

// Create writes files that are not there yet into a folder, and makes the
// folders they need. Where one of them is there it is ErrThere, and nothing is
// written at all.
func Create(dir string, files []File, folders ...string) error {
	root, err := os.OpenRoot(dir)
	if err != nil {
		return fmt.Errorf("opening the journal: %w", err)
	}
	defer root.Close()
	for _, f := range files {
		if _, err := root.Lstat(filepath.FromSlash(f.Name)); err == nil {
			return fmt.Errorf("creating %s: %w", f.Name, ErrThere)
		} else if !errors.Is(err, fs.ErrNotExist) {
			return fmt.Errorf("creating %s: %w", f.Name, err)
		}
	}
	for _, folder := range folders {
		if err := root.MkdirAll(filepath.FromSlash(folder), 0o755); err != nil {
			return fmt.Errorf("making the folder %s: %w", folder, err)
		}
	}
	for _, f := range files {
		if err := root.MkdirAll(filepath.FromSlash(path.Dir(f.Name)), 0o755); err != nil {
			return fmt.Errorf("making the folder of %s: %w", f.Name, err)
		}
		if err := createOne(root, f); err != nil {
			return fmt.Errorf("creating %s: %w", f.Name, err)
		}
	}
	return nil
}

// createOne writes a file whole or not at all: beside its place, and then under
// its name, which must still be free. Where the file system has no second names,
// it is written in its place.
func createOne(root *os.Root, f File) error {
	name := filepath.FromSlash(f.Name)
	temporary := beside(f.Name, "."+rand.Text()[:8]+".tmp")
	if err := writeNew(root, temporary, f.Text, 0o644); err != nil {
		return errors.Join(err, root.Remove(temporary))
	}
	err := root.Link(temporary, name)
	if errors.Is(err, fs.ErrExist) {
		err = ErrThere
	} else if err != nil {
		err = writeNew(root, name, f.Text, 0o644)
	}
	return errors.Join(err, root.Remove(temporary))
}

package scribe

import (
	"crypto/rand"
	"errors"
	"fmt"
	"io/fs"
	"path"
	"path/filepath"
)

// ErrThere says that a file is there already, and is left as it is.
var ErrThere = errors.New("it is there already, and is left as it is")

// Hold keeps every other Hold on the folder out while do runs, so that two new
// entries begun at one instant do not take one number.
func Hold(dir string, do func() error) error {
	in, err := openFolder(dir)
	if err != nil {
		return err
	}
	defer in.Close()
	unlock, err := in.lock(".begin.lock")
	if err != nil {
		return fmt.Errorf("locking the journal: %w", err)
	}
	return errors.Join(do(), unlock())
}

// Create writes files that are not there yet into a folder, and makes the
// folders they need. Where one of them is there it is ErrThere, and nothing is
// written at all. What Create has written outlasts a failure of the machine.
func Create(dir string, files []File, folders ...string) error {
	in, err := openFolder(dir)
	if err != nil {
		return err
	}
	defer in.Close()
	return in.createAll(files, folders)
}

// createAll is Create in an open folder.
func (in *folder) createAll(files []File, folders []string) error {
	for _, f := range files {
		if _, err := in.Lstat(filepath.FromSlash(f.Name)); err == nil {
			return fmt.Errorf("creating %s: %w", f.Name, ErrThere)
		} else if !errors.Is(err, fs.ErrNotExist) {
			return fmt.Errorf("creating %s: %w", f.Name, err)
		}
	}
	touched := map[string]bool{} // folders with a new name in them
	for _, f := range folders {
		if err := in.makeFolder(f, touched); err != nil {
			return err
		}
	}
	for _, f := range files {
		if err := in.makeFolder(path.Dir(f.Name), touched); err != nil {
			return err
		}
		touched[path.Dir(f.Name)] = true
		if err := in.create(f); err != nil {
			return fmt.Errorf("creating %s: %w", f.Name, err)
		}
	}
	for name := range touched {
		if err := in.syncNames(filepath.FromSlash(name)); err != nil {
			return fmt.Errorf("seeing the new files in %s onto the disk: %w", name, err)
		}
	}
	return nil
}

// makeFolder makes a folder with those around it, and adds these to what has a new
// name in it.
func (in *folder) makeFolder(name string, touched map[string]bool) error {
	if err := in.MkdirAll(filepath.FromSlash(name), 0o755); err != nil {
		return fmt.Errorf("making the folder %s: %w", name, err)
	}
	for name = path.Clean(name); name != "."; name = path.Dir(name) {
		touched[path.Dir(name)] = true
	}
	return nil
}

// create writes a file whole or not at all: beside its place, and then under its
// name, which must still be free. Where the file system has no second names, it is
// written in its place.
func (in *folder) create(f File) error {
	name := filepath.FromSlash(f.Name)
	temporary := beside(f.Name, "."+rand.Text()[:8]+".tmp")
	if err := in.writeNew(temporary, f.Text, 0o644); err != nil {
		return errors.Join(err, in.Remove(temporary))
	}
	err := in.Link(temporary, name)
	if errors.Is(err, fs.ErrExist) {
		err = ErrThere
	} else if err != nil {
		err = in.writeNew(name, f.Text, 0o644)
	}
	return errors.Join(err, in.Remove(temporary))
}

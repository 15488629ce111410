package scribe

import (
	"bytes"
	"crypto/rand"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"time"
)

// How long another jotting into the same entry is waited for, and how often it
// is looked for. Writing one takes a few milliseconds.
const (
	patience = 10 * time.Second
	glance   = 20 * time.Millisecond
)

// ErrBusy says that somebody else writes into the entry and does not finish.
var ErrBusy = errors.New("another jotting is being written into it; try again")

// folder is a journal's folder, with the calls that see what was written in it onto
// the disk.
type folder struct {
	*os.Root
	sync syncCalls
}

// syncCalls are the calls that see the bytes of a file onto the disk, and the names
// in a folder: a new file lasts once both are there.
type syncCalls struct{ file, folder func(*os.File) error }

func openFolder(dir string) (*folder, error) {
	root, err := os.OpenRoot(dir)
	if err != nil {
		return nil, fmt.Errorf("opening the journal: %w", err)
	}
	return &folder{root, syncCalls{(*os.File).Sync, syncFolder}}, nil
}

// syncNames sees the names in a folder onto the disk.
func (in *folder) syncNames(name string) error {
	f, err := in.Open(name)
	if err != nil {
		return err
	}
	return errors.Join(in.sync.folder(f), f.Close())
}

// Save reads an entry, lets make change its bytes, and puts what it made in the
// file's place in one step; the lock beside the file is held all the while. The
// file keeps its permissions. Where make fails, or the file is a link, or it was
// changed meanwhile by somebody who knows nothing of the lock, nothing is
// written. What Save has written outlasts a failure of the machine.
//
// The journal's folder is dir, and file a slash path in it, which no link on the
// way may lead out of.
func Save(dir, file string, make func(raw []byte) (*Edit, error)) (*Edit, error) {
	in, err := openFolder(dir)
	if err != nil {
		return nil, err
	}
	defer in.Close()
	return in.save(file, make)
}

// save is Save in an open folder.
func (in *folder) save(file string, make func(raw []byte) (*Edit, error)) (*Edit, error) {
	unlock, err := in.lock(beside(file, ".lock"))
	if err != nil {
		return nil, fmt.Errorf("locking %s: %w", file, err)
	}
	edit, err := in.replace(filepath.FromSlash(file), make)
	return edit, errors.Join(err, unlock())
}

// beside is the path of a dot-file beside a file, which journals pass over.
func beside(file, suffix string) string {
	return filepath.FromSlash(path.Join(path.Dir(file), "."+path.Base(file)+suffix))
}

// replace does what Save does, under the lock.
func (in *folder) replace(file string, make func(raw []byte) (*Edit, error)) (*Edit, error) {
	raw, was, err := in.readEntry(file)
	if err != nil {
		return nil, err
	}
	edit, err := make(raw)
	if err != nil {
		return nil, err
	}
	temporary := beside(filepath.ToSlash(file), "."+rand.Text()[:8]+".tmp")
	if err := in.writeNew(temporary, edit.After, was.Mode().Perm()); err != nil {
		return nil, errors.Join(fmt.Errorf("writing beside %s: %w", file, err), in.Remove(temporary))
	}
	now, _, err := in.readEntry(file)
	if err == nil && !bytes.Equal(now, raw) {
		err = fmt.Errorf("%s was saved by another program just now; nothing was written: try again", file)
	}
	if err == nil {
		err = in.Rename(temporary, file)
	}
	if err != nil {
		return nil, errors.Join(err, in.Remove(temporary))
	}
	if err := in.syncNames(filepath.Dir(file)); err != nil {
		return nil, fmt.Errorf("%s is written, but the disk does not say that it will last: %w", file, err)
	}
	return edit, nil
}

// readEntry is the bytes of an ordinary file. A link is refused: the journal
// does not follow it either, and renaming over it would leave a copy in its
// place.
func (in *folder) readEntry(file string) ([]byte, fs.FileInfo, error) {
	was, err := in.Lstat(file)
	if err != nil {
		return nil, nil, fmt.Errorf("reading the entry: %w", err)
	}
	if was.Mode()&fs.ModeSymlink != 0 {
		return nil, nil, fmt.Errorf("%s is a link, and links are not written through: jot where it leads", file)
	}
	if !was.Mode().IsRegular() {
		return nil, nil, fmt.Errorf("%s is no ordinary file", file)
	}
	raw, err := in.ReadFile(file)
	if err != nil {
		return nil, nil, fmt.Errorf("reading the entry: %w", err)
	}
	return raw, was, nil
}

// writeNew writes a file that is not there yet, its bytes down to the disk.
func (in *folder) writeNew(name string, data []byte, mode fs.FileMode) error {
	f, err := in.OpenFile(name, os.O_WRONLY|os.O_CREATE|os.O_EXCL, mode)
	if err != nil {
		return err
	}
	_, err = f.Write(data)
	if err == nil {
		err = f.Chmod(mode) // whatever the mask for new files took away
	}
	if err == nil {
		err = in.sync.file(f)
	}
	return errors.Join(err, f.Close())
}

// lock takes the lock file, waiting for whoever has it. What it gives back lets
// the lock go and takes its file away.
func (in *folder) lock(name string) (unlock func() error, err error) {
	for start := time.Now(); ; {
		unlock, err := in.takeLock(name)
		if !errors.Is(err, ErrBusy) {
			return unlock, err
		}
		if time.Since(start) > patience {
			return nil, err
		}
		time.Sleep(glance)
	}
}

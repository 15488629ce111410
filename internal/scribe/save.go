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
	"strings"
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
// file keeps its permissions, its owner and its extended attributes, as far as the system
// lets them be kept. Where make fails, or the file is read-only or has another name, or the file is a link, or it was
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
	in.sweep(file)
	raw, was, err := in.readEntry(file)
	if err != nil {
		return nil, err
	}
	if err := mayReplace(file, was); err != nil {
		return nil, err
	}
	edit, err := make(raw)
	if err != nil {
		return nil, err
	}
	temporary := beside(filepath.ToSlash(file), "."+rand.Text()[:temporaryName]+".tmp")
	if err := in.writeNew(temporary, edit.After, was.Mode().Perm()); err != nil {
		return nil, errors.Join(fmt.Errorf("writing beside %s: %w", file, err), in.Remove(temporary))
	}
	if !in.keepOwner(temporary, was) {
		edit.Remarks = append(edit.Remarks, file+" belongs to whoever ran this now: its owner could not be kept.")
	}
	if !in.keepAttributes(temporary, file) {
		edit.Remarks = append(edit.Remarks, "Extended attributes of "+file+" could not all be kept.")
	}
	if swap := in.swapFile(file); swap != "" {
		edit.Remarks = append(edit.Remarks, "An editor has "+file+" open, or left "+swap+" behind: load the file anew there before you save.")
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

// sweep takes away what a run left beside the file that was killed before it could put it in
// its place. Whoever has the lock knows that nobody is at work there.
func (in *folder) sweep(file string) {
	folder, base := filepath.Dir(file), "."+filepath.Base(file)+"."
	names, err := fs.ReadDir(in.FS(), filepath.ToSlash(folder))
	if err != nil {
		return
	}
	for _, e := range names {
		middle, ours := strings.CutPrefix(e.Name(), base)
		middle, temporary := strings.CutSuffix(middle, ".tmp")
		if ours && temporary && len(middle) == temporaryName && e.Type().IsRegular() {
			_ = in.Remove(filepath.Join(folder, e.Name())) // the next one tries again
		}
	}
}

// temporaryName is how many characters tell a temporary file from others.
const temporaryName = 8

// mayReplace refuses a file that its owner made unwritable, and one that has another name
// in the journal or elsewhere, which would go on having the old bytes.
func mayReplace(file string, was fs.FileInfo) error {
	if was.Mode().Perm()&0o200 == 0 {
		return fmt.Errorf("%s is read-only; nothing was written", file)
	}
	if names := namesOf(was); names > 1 {
		return fmt.Errorf("%s has %d names (hard links), and the others would keep the old text; nothing was written: edit it, or copy it over itself first", file, names)
	}
	return nil
}

// swapFile is the name of what an editor keeps beside a file that it has open, "" for none.
func (in *folder) swapFile(file string) string {
	for _, name := range []string{"." + filepath.Base(file) + ".swp", ".#" + filepath.Base(file), "#" + filepath.Base(file) + "#"} {
		if _, err := in.Lstat(filepath.Join(filepath.Dir(file), name)); err == nil {
			return name
		}
	}
	return ""
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

package store

import (
	"crypto/sha256"
	"fmt"
	"os"
	"path/filepath"
	"time"
)

// folderAge is how long a file is kept after it was last wanted.
const folderAge = 180 * 24 * time.Hour

// Folder is a Shelf on a disk, of one file a name.
type Folder string

// UserFolder is the shelf in the cache folder of whoever runs the program, so that
// publishing twice does not make the same pictures twice. It is nil, which keeps
// nothing, where the machine has no such folder. Only what may be published belongs
// there.
func UserFolder() Shelf {
	cache, err := os.UserCacheDir()
	if err != nil {
		return nil
	}
	folder := Folder(filepath.Join(cache, "gylebook", "store"))
	folder.tidy()
	return folder
}

// Get is what was put under a name. What is not as it was put is not there.
func (f Folder) Get(name string) ([]byte, bool) {
	file := filepath.Join(string(f), name)
	all, err := os.ReadFile(file)
	if err != nil || len(all) <= sha256.Size {
		return nil, false
	}
	sum, data := all[:sha256.Size], all[sha256.Size:]
	if [sha256.Size]byte(sum) != sha256.Sum256(data) {
		return nil, false
	}
	now := time.Now()
	_ = os.Chtimes(file, now, now) // only tells tidy that it is wanted
	return data, true
}

// Put keeps data with its sum before it. A folder that cannot be written to costs time
// when it is wanted next and nothing else, so that it is not told.
func (f Folder) Put(name string, data []byte) { _ = f.put(name, data) }

func (f Folder) put(name string, data []byte) error {
	if err := os.MkdirAll(string(f), 0o700); err != nil {
		return fmt.Errorf("making the folder of what is kept: %w", err)
	}
	draft, err := os.CreateTemp(string(f), "new-*")
	if err != nil {
		return fmt.Errorf("keeping %s: %w", name, err)
	}
	defer os.Remove(draft.Name()) // it has another name once it is whole
	sum := sha256.Sum256(data)
	_, err = draft.Write(append(sum[:], data...))
	if closed := draft.Close(); err == nil {
		err = closed
	}
	if err == nil {
		err = os.Rename(draft.Name(), filepath.Join(string(f), name))
	}
	if err != nil {
		return fmt.Errorf("keeping %s: %w", name, err)
	}
	return nil
}

// tidy throws out what nobody has wanted for long.
func (f Folder) tidy() {
	files, err := os.ReadDir(string(f))
	if err != nil {
		return
	}
	for _, file := range files {
		if info, err := file.Info(); err == nil && info.Mode().IsRegular() && time.Since(info.ModTime()) > folderAge {
			_ = os.Remove(filepath.Join(string(f), file.Name()))
		}
	}
}

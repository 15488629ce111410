package site

import (
	"crypto/sha256"
	"fmt"
	"os"
	"path/filepath"
	"time"
)

// photoAge is how long a made picture is kept after it was last wanted.
const photoAge = 180 * 24 * time.Hour

// photoFolder is a PhotoStore in a folder of the machine's own.
type photoFolder string

// KeptPhotos is a store of made pictures in the cache folder of whoever runs the
// program, so that publishing twice does not shrink the same pictures twice. It
// is nil, which keeps nothing, where the machine has no such folder. It holds
// only what may be published: pictures without their metadata.
func KeptPhotos() PhotoStore {
	cache, err := os.UserCacheDir()
	if err != nil {
		return nil
	}
	folder := photoFolder(filepath.Join(cache, "gylebook", "photos"))
	folder.tidy()
	return folder
}

// Get is a picture by its key. One that is not as it was put is not there.
func (f photoFolder) Get(key string) ([]byte, bool) {
	file := filepath.Join(string(f), key)
	data, err := os.ReadFile(file)
	if err != nil || len(data) <= sha256.Size {
		return nil, false
	}
	sum, made := data[:sha256.Size], data[sha256.Size:]
	if [sha256.Size]byte(sum) != sha256.Sum256(made) {
		return nil, false
	}
	now := time.Now()
	_ = os.Chtimes(file, now, now) // only tells tidy that it is wanted
	return made, true
}

// Put keeps a picture with its sum before it. A folder that cannot be written to
// costs time at the next publishing and nothing else, so that it is not told.
func (f photoFolder) Put(key string, made []byte) {
	_ = f.put(key, made)
}

func (f photoFolder) put(key string, made []byte) error {
	if err := os.MkdirAll(string(f), 0o700); err != nil {
		return fmt.Errorf("making the folder of made pictures: %w", err)
	}
	draft, err := os.CreateTemp(string(f), "new-*")
	if err != nil {
		return fmt.Errorf("keeping a made picture: %w", err)
	}
	defer os.Remove(draft.Name()) // it has another name once it is whole
	sum := sha256.Sum256(made)
	_, err = draft.Write(append(sum[:], made...))
	if closed := draft.Close(); err == nil {
		err = closed
	}
	if err == nil {
		err = os.Rename(draft.Name(), filepath.Join(string(f), key))
	}
	if err != nil {
		return fmt.Errorf("keeping a made picture: %w", err)
	}
	return nil
}

// tidy throws out what nobody has wanted for long.
func (f photoFolder) tidy() {
	files, err := os.ReadDir(string(f))
	if err != nil {
		return
	}
	for _, file := range files {
		if info, err := file.Info(); err == nil && info.Mode().IsRegular() && time.Since(info.ModTime()) > photoAge {
			_ = os.Remove(filepath.Join(string(f), file.Name()))
		}
	}
}

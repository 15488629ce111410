package publish

import (
	"crypto/sha256"
	"errors"
	"io"
	"io/fs"
	"os"
	"syscall"
)

// found is what stands under a name.
type found int

const (
	nothing   found = iota
	aFile           // a regular file, with its sum
	aFolder         // a folder
	aStranger       // a link, device or the like, which we never write
)

// look tells what stands under a name, without following a link.
func (g *ground) look(in *os.Root, name string) (found, sum, error) {
	is, _, err := g.lookAt(in, name)
	if err != nil || is != aFile {
		return is, sum{}, err
	}
	s, err := g.sumOf(in, name)
	return is, s, err
}

// lookAt is look without the sum.
func (g *ground) lookAt(in *os.Root, name string) (found, fs.FileInfo, error) {
	entry, err := in.Lstat(name)
	switch {
	case errors.Is(err, fs.ErrNotExist) || errors.Is(err, syscall.ENOTDIR):
		return nothing, nil, nil
	case err != nil:
		return nothing, nil, err
	case entry.IsDir():
		return aFolder, entry, nil
	case !entry.Mode().IsRegular():
		return aStranger, entry, nil
	}
	return aFile, entry, nil
}

// sumOf reads a file through.
func (g *ground) sumOf(in *os.Root, name string) (sum, error) {
	f, err := in.Open(name)
	if err != nil {
		return sum{}, err
	}
	defer f.Close()
	buffer, _ := g.buffers.Get().(*[32 << 10]byte)
	if buffer == nil {
		buffer = new([32 << 10]byte)
	}
	defer g.buffers.Put(buffer)
	h := sha256.New()
	for {
		n, err := f.Read(buffer[:])
		h.Write(buffer[:n])
		if err == io.EOF {
			return sum(h.Sum(nil)), nil
		}
		if err != nil {
			return sum{}, err
		}
	}
}

package journal

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
)

// Root is the folder dir as a file system that nothing leads out of: no "..", no absolute
// path, no link. All that gylebook reads of a journal it reads through it: ordinary files
// alone, each opened without waiting for anybody to write into it, and none larger than
// MostRead at once.
func Root(dir string) (fs.FS, error) {
	root, err := os.OpenRoot(dir)
	if err != nil {
		return nil, fmt.Errorf("opening the journal: %w", err)
	}
	return &ordinaryFiles{root, root.FS()}, nil
}

// MostRead is how many bytes of one file are read at once: more is no picture, and nothing
// that a story links to.
const MostRead = 256 << 20

// ordinaryFiles is a folder of which nothing but ordinary files can be opened. A pipe would
// keep whoever opens it waiting, and a device give bytes without end; that one was an
// ordinary file a moment ago says nothing.
type ordinaryFiles struct {
	root *os.Root
	all  fs.FS
}

var errNoOrdinaryFile = errors.New("it is no ordinary file")

func (o *ordinaryFiles) Open(name string) (fs.File, error) {
	if !fs.ValidPath(name) {
		return nil, &fs.PathError{Op: "open", Path: name, Err: fs.ErrInvalid}
	}
	f, err := o.root.OpenFile(name, os.O_RDONLY|withoutWaiting, 0)
	if err != nil {
		return nil, err
	}
	info, err := f.Stat()
	if err == nil && !info.Mode().IsRegular() && !info.IsDir() {
		err = &fs.PathError{Op: "open", Path: name, Err: errNoOrdinaryFile}
	}
	if err != nil {
		return nil, errors.Join(err, f.Close())
	}
	return f, nil
}

// ReadFile reads a file that is no larger than MostRead.
func (o *ordinaryFiles) ReadFile(name string) ([]byte, error) {
	f, err := o.Open(name)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	info, err := f.Stat()
	if err != nil {
		return nil, err
	}
	raw, err := readInto(make([]byte, 0, min(max(info.Size(), 0), MostRead)+512), io.LimitReader(f, MostRead+1))
	if err == nil && len(raw) > MostRead {
		err = &fs.PathError{Op: "read", Path: name, Err: fmt.Errorf("it has more than %d MiB", MostRead>>20)}
	}
	return raw, err
}

func (o *ordinaryFiles) Stat(name string) (fs.FileInfo, error)      { return fs.Stat(o.all, name) }
func (o *ordinaryFiles) Lstat(name string) (fs.FileInfo, error)     { return fs.Lstat(o.all, name) }
func (o *ordinaryFiles) ReadLink(name string) (string, error)       { return fs.ReadLink(o.all, name) }
func (o *ordinaryFiles) ReadDir(name string) ([]fs.DirEntry, error) { return fs.ReadDir(o.all, name) }

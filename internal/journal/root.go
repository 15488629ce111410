package journal

import (
	"context"
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
func Root(dir string) (fs.FS, error) { return RootUntil(context.Background(), dir) }

// RootUntil is Root until the context ends: then nothing more is opened, and nothing read on.
func RootUntil(ctx context.Context, dir string) (fs.FS, error) {
	root, err := os.OpenRoot(dir)
	if err != nil {
		return nil, fmt.Errorf("opening the journal: %w", err)
	}
	return &ordinaryFiles{ctx, root, root.FS()}, nil
}

// MostRead is how many bytes of one file are read at once: more is no picture, and nothing
// that a story links to.
const MostRead = 256 << 20

// ordinaryFiles is a folder of which nothing but ordinary files can be opened. A pipe would
// keep whoever opens it waiting, and a device give bytes without end; that one was an
// ordinary file a moment ago says nothing.
type ordinaryFiles struct {
	ctx  context.Context
	root *os.Root
	all  fs.FS
}

var errNoOrdinaryFile = errors.New("it is no ordinary file")

func (o *ordinaryFiles) Open(name string) (fs.File, error) {
	err := o.ctx.Err()
	if !fs.ValidPath(name) {
		err = fs.ErrInvalid
	}
	if err != nil {
		return nil, &fs.PathError{Op: "open", Path: name, Err: err}
	}
	f, err := OpenOrdinary(o.root, name)
	if err != nil {
		return nil, err
	}
	return ordinaryFile{f, o.ctx}, nil
}

// OpenOrdinary opens a folder or an ordinary file of a folder for reading, and refuses
// anything else without waiting for it. What is plainly none is not opened at all, since to
// open a device may set it going.
func OpenOrdinary(in *os.Root, name string) (*os.File, error) {
	info, err := in.Stat(name)
	if err != nil {
		return nil, err
	}
	refused := &fs.PathError{Op: "open", Path: name, Err: errNoOrdinaryFile}
	if !isOrdinary(info) {
		return nil, refused
	}
	f, err := in.OpenFile(name, os.O_RDONLY|withoutWaiting, 0)
	if err != nil {
		return nil, err
	}
	if info, err = f.Stat(); err == nil && !isOrdinary(info) {
		err = refused // another came in its place
	}
	if err != nil {
		return nil, errors.Join(err, f.Close())
	}
	return f, nil
}

func isOrdinary(info fs.FileInfo) bool { return info.Mode().IsRegular() || info.IsDir() }

// ordinaryFile is read until the context ends.
type ordinaryFile struct {
	*os.File
	ctx context.Context
}

func (f ordinaryFile) Read(into []byte) (int, error) {
	if err := f.ctx.Err(); err != nil {
		return 0, err
	}
	return f.File.Read(into[:min(len(into), 1<<20)])
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

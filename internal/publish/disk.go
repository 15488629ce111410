package publish

import (
	"errors"
	"fmt"
	"io"
	"os"
)

func (g *ground) mkdirAll(in *os.Root, name string) error {
	if err := g.hooks.step("mkdir", name); err != nil {
		return err
	}
	return in.MkdirAll(name, 0o755)
}

// write makes a new file.
func (g *ground) write(in *os.Root, name string, body []byte) error {
	return g.create(in, name, func(f *os.File) error {
		_, err := f.Write(body)
		return err
	})
}

// writeSynced makes a new file and sees that its bytes are on the disk.
func (g *ground) writeSynced(name string, body []byte) error {
	return g.create(g.root, name, func(f *os.File) error {
		if _, err := f.Write(body); err != nil {
			return err
		}
		return g.hooks.sync.file(f)
	})
}

func (g *ground) create(in *os.Root, name string, fill func(*os.File) error) error {
	if err := g.hooks.step("create", name); err != nil {
		return err
	}
	f, err := in.OpenFile(name, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o644)
	if err != nil {
		return err
	}
	if err = g.hooks.step("fill", name); err == nil {
		err = fill(f)
	}
	return errors.Join(err, f.Close())
}

// linkOrCopy gives a file a second name, or where that is refused a copy with
// the same time.
func (g *ground) linkOrCopy(from, to string) error {
	if g.hooks.step("link", to) == nil && g.root.Link(from, to) == nil {
		return nil
	}
	f, err := g.root.Open(from)
	if err != nil {
		return err
	}
	defer f.Close()
	was, err := f.Stat()
	if err != nil {
		return err
	}
	err = g.create(g.root, to, func(copy *os.File) error {
		_, err := io.Copy(copy, f)
		return err
	})
	if err != nil {
		return err
	}
	return g.root.Chtimes(to, was.ModTime(), was.ModTime())
}

func (g *ground) rename(from, to string) error {
	if err := g.hooks.step("rename", to); err != nil {
		return err
	}
	return g.root.Rename(from, to)
}

func (g *ground) remove(in *os.Root, name string) error {
	if err := g.hooks.step("remove", name); err != nil {
		return err
	}
	return in.Remove(name)
}

func (g *ground) removeAll(name string) error {
	if err := g.hooks.step("remove all", name); err != nil {
		return err
	}
	return g.root.RemoveAll(name)
}

// flush sees that everything written so far is on the disk.
func (g *ground) flush() error {
	if err := g.hooks.step("flush", g.work); err != nil {
		return err
	}
	f, err := g.root.Open(g.work)
	if err != nil {
		return err
	}
	defer f.Close()
	if err := g.hooks.sync.fileSystem(f); err != nil {
		return fmt.Errorf("flushing to disk: %w", err)
	}
	return nil
}

// syncFolders sees that the names in these folders are on the disk.
func (g *ground) syncFolders(names ...string) error {
	for _, name := range names {
		if err := g.hooks.step("sync", name); err != nil {
			return err
		}
		f, err := g.root.Open(name)
		if err != nil {
			return err
		}
		if err := errors.Join(g.hooks.sync.folder(f), f.Close()); err != nil {
			return err
		}
	}
	return nil
}

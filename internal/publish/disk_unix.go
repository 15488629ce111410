//go:build unix

package publish

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"syscall"

	"golang.org/x/sys/unix"
)

// syncFolder sees that the names in a folder are on the disk. Some network file
// systems cannot sync folders, and have nothing to sync.
func syncFolder(f *os.File) error {
	err := f.Sync()
	if errors.Is(err, syscall.EINVAL) || errors.Is(err, syscall.ENOTSUP) {
		return nil
	}
	return err
}

// isMount tells whether dir and the folder around it are on different mounts.
func isMount(dir string) bool {
	in, err1 := os.Stat(dir)
	around, err2 := os.Stat(filepath.Dir(dir))
	if err1 != nil || err2 != nil {
		return false
	}
	a, ok1 := in.Sys().(*syscall.Stat_t)
	b, ok2 := around.Sys().(*syscall.Stat_t)
	return ok1 && ok2 && a.Dev != b.Dev || isMountPoint(dir)
}

// hasOtherName tells whether the file would outlive the removal of one name.
func hasOtherName(entry fs.FileInfo) bool {
	stat, ok := entry.Sys().(*syscall.Stat_t)
	return ok && stat.Nlink > 1
}

// ownersAlike tells whether two files have one owner and one group.
func ownersAlike(a, b fs.FileInfo) bool {
	is, ok1 := a.Sys().(*syscall.Stat_t)
	like, ok2 := b.Sys().(*syscall.Stat_t)
	return ok1 && ok2 && is.Uid == like.Uid && is.Gid == like.Gid
}

// mayWrite tells whether files may be put into a folder and taken out of it.
func mayWrite(dir string) bool {
	return unix.Faccessat(unix.AT_FDCWD, dir, unix.W_OK|unix.X_OK, unix.AT_EACCESS) == nil
}

// takeLock opens and locks the lock file. It returns fs.ErrNotExist if the
// folder or the file went away meanwhile with the edition that had it.
func (g *ground) takeLock() (*os.File, error) {
	name := g.inWork(lockName)
	if err := g.hooks.step("create", name); err != nil {
		return nil, err
	}
	f, err := g.root.OpenFile(name, os.O_RDWR|os.O_CREATE, 0o644)
	if err != nil {
		return nil, err
	}
	if err = g.hooks.step("lock", name); err == nil {
		err = lockFile(f)
	}
	if err != nil {
		return nil, errors.Join(err, f.Close())
	}
	mine, err1 := f.Stat()
	named, err2 := g.root.Lstat(name)
	if err := errors.Join(err1, err2); err != nil {
		return nil, errors.Join(err, unlockFile(f))
	}
	if !os.SameFile(mine, named) {
		return nil, errors.Join(fs.ErrNotExist, unlockFile(f))
	}
	return f, nil
}

// lockFile locks f and writes our process number into it for whoever is refused.
func lockFile(f *os.File) error {
	err := unix.Flock(int(f.Fd()), unix.LOCK_EX|unix.LOCK_NB)
	if errors.Is(err, unix.EWOULDBLOCK) {
		holder, _ := io.ReadAll(io.LimitReader(f, 20))
		return fmt.Errorf("%w (process %s)", ErrBusy, strings.TrimSpace(string(holder)))
	}
	if err != nil {
		return os.NewSyscallError("flock", err)
	}
	if err := f.Truncate(0); err != nil {
		return err
	}
	_, err = f.WriteAt(fmt.Appendln(nil, os.Getpid()), 0)
	return err
}

// dropLock removes the lock file while it is still locked: whoever opened it
// before sees that it lost its name.
func (g *ground) dropLock(f *os.File) error {
	return errors.Join(g.remove(g.root, g.inWork(lockName)), unlockFile(f))
}

// unlockFile unlocks and closes f. Closing alone would leave it locked while a
// child of this process, started just now, still has a copy of it.
func unlockFile(f *os.File) error {
	return errors.Join(unix.Flock(int(f.Fd()), unix.LOCK_UN), f.Close())
}

//go:build unix

package scribe

import (
	"errors"
	"io/fs"
	"os"

	"golang.org/x/sys/unix"
)

// syncFolder sees the names in a folder onto the disk. Some network file systems
// cannot sync folders, and have nothing to sync.
func syncFolder(f *os.File) error {
	err := f.Sync()
	if errors.Is(err, unix.EINVAL) || errors.Is(err, unix.ENOTSUP) {
		return nil
	}
	return err
}

// takeLock opens and locks the lock file; ErrBusy where another has it. The
// system lets it go when this process ends, however that happens. Whoever locks
// a file that lost its name meanwhile has locked nothing, and is as good as
// refused.
func (in *folder) takeLock(name string) (unlock func() error, err error) {
	f, err := in.OpenFile(name, os.O_RDWR|os.O_CREATE, 0o644)
	if err != nil {
		return nil, err
	}
	err = unix.Flock(int(f.Fd()), unix.LOCK_EX|unix.LOCK_NB)
	switch {
	case errors.Is(err, unix.EWOULDBLOCK):
		return nil, errors.Join(ErrBusy, f.Close())
	case err != nil:
		return nil, errors.Join(os.NewSyscallError("flock", err), f.Close())
	}
	mine, err1 := f.Stat()
	named, err2 := in.Lstat(name)
	if err1 != nil || err2 != nil && !errors.Is(err2, fs.ErrNotExist) {
		return nil, errors.Join(err1, err2, f.Close())
	}
	if err2 != nil || !os.SameFile(mine, named) {
		return nil, errors.Join(ErrBusy, f.Close())
	}
	return func() error {
		return errors.Join(in.Remove(name), unix.Flock(int(f.Fd()), unix.LOCK_UN), f.Close())
	}, nil
}

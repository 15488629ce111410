package publish

import (
	"errors"
	"fmt"
	"io/fs"
	"os"

	"golang.org/x/sys/windows"
)

// flushFileSystem does nothing: flushing a volume takes an administrator here.
func flushFileSystem(*os.File) error { return nil }

// syncFolder does nothing: the file system's own journal guards names here.
func syncFolder(*os.File) error { return nil }

// isMount says no: the stage never changes places with the site here.
func isMount(string) bool { return false }

// hasOtherName says no: files are never linked here.
func hasOtherName(fs.FileInfo) bool { return false }

// ownersAlike says no: nothing is carried into an exchange here.
func ownersAlike(_, _ fs.FileInfo) bool { return false }

// mayWrite says yes: what a folder's list of rights comes to shows only in the writing.
func mayWrite(string) bool { return true }

// takeLock opens the lock file for ourselves alone. The system deletes it when
// it is closed, even by a kill.
func (g *ground) takeLock() (*os.File, error) {
	path := g.full(g.inWork(lockName))
	name, err := windows.UTF16PtrFromString(path)
	if err != nil {
		return nil, err
	}
	handle, err := windows.CreateFile(name, windows.GENERIC_READ|windows.DELETE, 0, nil, windows.OPEN_ALWAYS,
		windows.FILE_ATTRIBUTE_NORMAL|windows.FILE_FLAG_DELETE_ON_CLOSE, 0)
	if errors.Is(err, windows.ERROR_SHARING_VIOLATION) {
		return nil, fmt.Errorf("%w", ErrBusy)
	}
	if err != nil {
		return nil, os.NewSyscallError("CreateFile", err)
	}
	return os.NewFile(uintptr(handle), path), nil
}

// dropLock closes the lock file, and with that deletes it.
func (g *ground) dropLock(f *os.File) error { return f.Close() }

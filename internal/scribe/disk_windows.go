package scribe

import (
	"errors"
	"os"
	"path/filepath"

	"golang.org/x/sys/windows"
)

// syncFolder does nothing: the file system's own journal guards names here.
func syncFolder(*os.File) error { return nil }

// takeLock opens the lock file for ourselves alone; ErrBusy where another has
// it. The system deletes it when it is closed, even by a kill.
func (in *folder) takeLock(name string) (unlock func() error, err error) {
	full, err := windows.UTF16PtrFromString(filepath.Join(in.Name(), name))
	if err != nil {
		return nil, err
	}
	handle, err := windows.CreateFile(full, windows.GENERIC_READ|windows.DELETE, 0, nil, windows.OPEN_ALWAYS,
		windows.FILE_ATTRIBUTE_NORMAL|windows.FILE_FLAG_DELETE_ON_CLOSE, 0)
	if errors.Is(err, windows.ERROR_SHARING_VIOLATION) || errors.Is(err, windows.ERROR_ACCESS_DENIED) {
		return nil, ErrBusy // or it is just being deleted
	}
	if err != nil {
		return nil, os.NewSyscallError("CreateFile", err)
	}
	return func() error { return windows.CloseHandle(handle) }, nil
}

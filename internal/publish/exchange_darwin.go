package publish

import (
	"os"

	"golang.org/x/sys/unix"
)

// exchangeFolders makes two folders below dir change places in one step.
func exchangeFolders(dir *os.File, one, two string) error {
	fd := int(dir.Fd())
	return os.NewSyscallError("renameatx_np", unix.RenameatxNp(fd, one, fd, two, unix.RENAME_SWAP))
}

// flushFileSystem hands everything that waits to the drives, and has the drive
// of f write out what it was handed.
func flushFileSystem(f *os.File) error {
	if err := unix.Sync(); err != nil {
		return os.NewSyscallError("sync", err)
	}
	return f.Sync()
}

// isMountPoint says no: here a mount always shows in the device number.
func isMountPoint(string) bool { return false }

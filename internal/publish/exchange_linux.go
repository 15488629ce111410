package publish

import (
	"os"

	"golang.org/x/sys/unix"
)

// exchangeFolders makes two folders below dir change places in one step.
func exchangeFolders(dir *os.File, one, two string) error {
	fd := int(dir.Fd())
	return os.NewSyscallError("renameat2", unix.Renameat2(fd, one, fd, two, unix.RENAME_EXCHANGE))
}

// flushFileSystem writes out everything that waits for the file system of f.
func flushFileSystem(f *os.File) error {
	return os.NewSyscallError("syncfs", unix.Syncfs(int(f.Fd())))
}

// isMountPoint asks for what device numbers do not show: a folder of the same
// file system mounted here. Kernels before 5.8 cannot tell.
func isMountPoint(dir string) bool {
	var s unix.Statx_t
	err := unix.Statx(unix.AT_FDCWD, dir, unix.AT_SYMLINK_NOFOLLOW, 0, &s)
	return err == nil && s.Attributes&s.Attributes_mask&unix.STATX_ATTR_MOUNT_ROOT != 0
}

//go:build unix && !linux && !darwin

package publish

import (
	"os"

	"golang.org/x/sys/unix"
)

// flushFileSystem asks for everything that waits to be written. Some systems
// return before it is.
func flushFileSystem(*os.File) error {
	return os.NewSyscallError("sync", unix.Sync())
}

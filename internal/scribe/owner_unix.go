//go:build unix

package scribe

import (
	"io/fs"
	"os"
	"syscall"
)

// namesOf is under how many names a file is known.
func namesOf(info fs.FileInfo) uint64 {
	if stat, ok := info.Sys().(*syscall.Stat_t); ok {
		return uint64(stat.Nlink)
	}
	return 1
}

// keepOwner gives a new file the owner and group of the one whose place it takes; false where
// the system does not allow that. The owner alone matters where no group can be given away.
func (in *folder) keepOwner(name string, was fs.FileInfo) bool {
	stat, ok := was.Sys().(*syscall.Stat_t)
	if !ok || int(stat.Uid) == os.Geteuid() && int(stat.Gid) == os.Getegid() {
		return true
	}
	return in.Lchown(name, int(stat.Uid), int(stat.Gid)) == nil || int(stat.Uid) == os.Geteuid()
}

//go:build linux || darwin

package scribe

import (
	"errors"
	"os"
	"strings"

	"golang.org/x/sys/unix"
)

// keepAttributes gives a new file the extended attributes of the one whose place it takes;
// false where one cannot be kept.
func (in *folder) keepAttributes(name, of string) bool {
	from, err := in.Open(of)
	if err != nil {
		return false
	}
	defer from.Close()
	to, err := in.OpenFile(name, os.O_WRONLY, 0)
	if err != nil {
		return false
	}
	defer to.Close()
	size, err := unix.Flistxattr(int(from.Fd()), nil)
	if errors.Is(err, unix.ENOTSUP) || err == nil && size == 0 {
		return true
	}
	list := make([]byte, max(size, 1))
	if size, err = unix.Flistxattr(int(from.Fd()), list); err != nil {
		return false
	}
	kept := true
	for _, attribute := range strings.Split(strings.TrimRight(string(list[:size]), "\x00"), "\x00") {
		value := make([]byte, 64<<10)
		n, err := unix.Fgetxattr(int(from.Fd()), attribute, value)
		if err == nil {
			err = unix.Fsetxattr(int(to.Fd()), attribute, value[:n], 0)
		}
		kept = kept && err == nil
	}
	return kept
}

//go:build !linux && !darwin

package publish

import (
	"errors"
	"os"
)

// exchangeFolders fails: there is no such call here.
func exchangeFolders(*os.File, string, string) error { return errors.ErrUnsupported }

// isMountPoint says no: here a mount always shows in the device number, if at all.
func isMountPoint(string) bool { return false }

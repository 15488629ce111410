//go:build unix

package publish

import (
	"errors"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"syscall"
	"testing"
)

// nobody is the user without rights, by custom (Linux Standard Base; the number by
// common practice).
const nobody = 65534

// asNobody runs a test in a process of a user who may not write everywhere, where
// the one at hand may: root. It tells whether the test has been run so, and its
// caller has nothing left to do.
func asNobody(t *testing.T) (done bool) {
	t.Helper()
	if os.Geteuid() != 0 {
		return false
	}
	dir, err := os.MkdirTemp("", "nobody")
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { os.RemoveAll(dir) })
	binary := filepath.Join(dir, "test")
	if err := errors.Join(copyFile(os.Args[0], binary), os.Chmod(binary, 0o755), os.Chown(dir, nobody, nobody)); err != nil {
		t.Fatal(err)
	}
	child := exec.Command(binary, "-test.run", "^"+t.Name()+"$", "-test.v")
	child.Dir, child.Env = dir, append(os.Environ(), "TMPDIR="+dir, "HOME="+dir)
	child.SysProcAttr = &syscall.SysProcAttr{Credential: &syscall.Credential{Uid: nobody, Gid: nobody}}
	said, err := child.CombinedOutput()
	if err != nil {
		t.Errorf("as user %d: %v\n%s", nobody, err, said)
	}
	return true
}

func copyFile(from, to string) error {
	in, err := os.Open(from)
	if err != nil {
		return err
	}
	defer in.Close()
	out, err := os.Create(to)
	if err != nil {
		return err
	}
	_, err = io.Copy(out, in)
	return errors.Join(err, out.Close())
}

//go:build unix

package main

import (
	"errors"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
)

// nobody is the user without rights, by custom: root may read everything.
const nobody = 65534

// TestUnreadIsNotGone: a folder, an entry or a picture that cannot be read now takes nothing
// off the site that was published before, unless that is asked for.
func TestUnreadIsNotGone(t *testing.T) {
	dir, err := os.MkdirTemp("", "unread")
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { os.RemoveAll(dir) })
	binary := filepath.Join(dir, "gylebook")
	program, err := os.ReadFile(os.Args[0])
	if err != nil {
		t.Fatal(err)
	}
	photo, err := os.ReadFile("../../journal/photos/" + firstPhoto(t))
	if err != nil {
		t.Fatal(err)
	}
	write := func(name string, data []byte, mode fs.FileMode) {
		name = filepath.Join(dir, name)
		if err := errors.Join(os.MkdirAll(filepath.Dir(name), 0o755), os.WriteFile(name, data, mode)); err != nil {
			t.Fatal(err)
		}
	}
	write("gylebook", program, 0o755)
	write("journal/index.md", []byte("---\njournal: Any\n---\n"), 0o644)
	write("journal/gyles/1.md", []byte("---\ngyle: 1\nbeer: One\n---\nA story.\n"), 0o644)
	write("journal/old/2.md", []byte("---\ngyle: 2\nbeer: Two\n---\n![A pint](../p.jpg)\n"), 0o644)
	write("journal/p.jpg", photo, 0o644)
	if os.Geteuid() == 0 {
		err = filepath.WalkDir(dir, func(name string, _ fs.DirEntry, _ error) error { return os.Chown(name, nobody, nobody) })
		if err != nil {
			t.Fatal(err)
		}
	}
	run := func(args ...string) (code int, said string) {
		c := exec.Command(binary, args...)
		c.Dir, c.Env = dir, append(os.Environ(), "HOME="+dir, "TMPDIR="+dir, "GORACE=atexit_sleep_ms=0")
		if os.Geteuid() == 0 {
			c.SysProcAttr = &syscall.SysProcAttr{Credential: &syscall.Credential{Uid: nobody, Gid: nobody}}
		}
		out, _ := c.CombinedOutput()
		return c.ProcessState.ExitCode(), string(out)
	}
	if code, said := run("publish"); code != exitDone {
		t.Fatalf("publishing ends with %d: %s", code, said)
	}
	before := filesIn(t, filepath.Join(dir, "site"))
	for _, name := range []string{"journal/old", "journal/old/2.md", "journal/p.jpg"} {
		full := filepath.Join(dir, name)
		info, err := os.Stat(full)
		if err != nil {
			t.Fatal(err)
		}
		if err := os.Chmod(full, 0); err != nil {
			t.Fatal(err)
		}
		code, said := run("publish")
		if code != exitCannot || !strings.Contains(said, filepath.FromSlash(strings.TrimPrefix(name, "journal/"))) && !strings.Contains(said, "p.jpg") || !strings.Contains(said, "--remove-anyway") {
			t.Errorf("with %s unreadable it ends with %d: %s", name, code, said)
		}
		if now := filesIn(t, filepath.Join(dir, "site")); now != before {
			t.Errorf("with %s unreadable the site has changed:\n%s\nbefore\n%s", name, now, before)
		}
		if err := os.Chmod(full, info.Mode().Perm()); err != nil {
			t.Fatal(err)
		}
	}
	if err := os.Chmod(filepath.Join(dir, "journal/old"), 0); err != nil {
		t.Fatal(err)
	}
	defer os.Chmod(filepath.Join(dir, "journal/old"), 0o755)
	if code, said := run("publish", "--remove-anyway"); code != exitSome || strings.Contains(filesIn(t, filepath.Join(dir, "site")), "gyles/2") {
		t.Errorf("with --remove-anyway it ends with %d: %s", code, said)
	}
}

func firstPhoto(t *testing.T) string {
	t.Helper()
	all, err := filepath.Glob("../../journal/photos/*.jpg")
	if err != nil || len(all) == 0 {
		t.Fatal("the demonstration has no photograph", err)
	}
	return filepath.Base(all[0])
}

// filesIn lists the files below a folder.
func filesIn(t *testing.T, dir string) string {
	t.Helper()
	var names []string
	err := filepath.WalkDir(dir, func(name string, e fs.DirEntry, err error) error {
		if err == nil && !e.IsDir() {
			names = append(names, name)
		}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return strings.Join(names, "\n")
}

//go:build unix

package journal

import (
	"context"
	"errors"
	"io/fs"
	"net"
	"os"
	"path/filepath"
	"syscall"
	"testing"
	"time"
)

// TestOddFilesHoldNobodyUp: pipes, sockets and links in the journal are told of, by whatever
// name they go, and nobody waits for them.
func TestOddFilesHoldNobodyUp(t *testing.T) {
	dir := t.TempDir()
	write := func(name, text string) {
		if err := os.WriteFile(filepath.Join(dir, name), []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	write("index.md", "---\njournal: Any\n---\n")
	write("1.md", "---\ngyle: 1\nbeer: Any\nreadings_from: rows.csv\n---\n")
	for _, name := range []string{"2.md", "rows.csv", "photo.jpg"} {
		if err := syscall.Mkfifo(filepath.Join(dir, name), 0o600); err != nil {
			t.Skipf("no pipes here: %v", err)
		}
	}
	socket, err := net.Listen("unix", filepath.Join(dir, "3.md"))
	if err != nil {
		t.Fatal(err)
	}
	defer socket.Close()
	done := make(chan struct{})
	go func() {
		defer close(done)
		files, err := Root(dir)
		if err != nil {
			t.Error(err)
			return
		}
		j := Read(files, Options{})
		told := map[string]string{}
		for _, e := range j.Errors {
			told[e.Place.File] = e.ID
		}
		for _, name := range []string{"2.md", "3.md", "rows.csv", "photo.jpg"} {
			if told[name] != idNoFile {
				t.Errorf("%s is told of as %q", name, told[name])
			}
			// That it was listed as an ordinary file a moment ago helps nobody.
			if _, err := fs.ReadFile(files, name); err == nil {
				t.Errorf("%s is read", name)
			}
		}
		if len(j.Gyles) != 1 {
			t.Errorf("%d gyles", len(j.Gyles))
		}
	}()
	select {
	case <-done:
	case <-time.After(20 * time.Second):
		t.Fatal("somebody waits for a pipe")
	}
}

// TestGiantsAreNotSwallowed: a file that claims more than is ever read at once is refused.
func TestGiantsAreNotSwallowed(t *testing.T) {
	dir := t.TempDir()
	f, err := os.Create(filepath.Join(dir, "giant.bin"))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	if err := f.Truncate(MostRead + 1); err != nil {
		t.Skipf("no holes in files here: %v", err)
	}
	files, err := Root(dir)
	if err != nil {
		t.Fatal(err)
	}
	var fault *fs.PathError
	if _, err := fs.ReadFile(files, "giant.bin"); !errors.As(err, &fault) || fault.Op != "read" {
		t.Errorf("a giant gives %v", err)
	}
}

// TestADeviceIsNotRead: a device gives bytes without end, or none ever.
func TestADeviceIsNotRead(t *testing.T) {
	files, err := Root("/dev")
	if err != nil {
		t.Skip("no devices here:", err)
	}
	for _, name := range []string{"null", "zero"} {
		if raw, err := fs.ReadFile(files, name); !errors.Is(err, errNoOrdinaryFile) {
			t.Errorf("%s was read to %d bytes: %v", name, len(raw), err)
		}
	}
}

// TestNothingIsReadOnceTheContextHasEnded: neither opened nor read on.
func TestNothingIsReadOnceTheContextHasEnded(t *testing.T) {
	dir := t.TempDir()
	if err := os.WriteFile(filepath.Join(dir, "a.md"), []byte("Words."), 0o600); err != nil {
		t.Fatal(err)
	}
	ctx, stop := context.WithCancel(t.Context())
	files, err := RootUntil(ctx, dir)
	if err != nil {
		t.Fatal(err)
	}
	open, err := files.Open("a.md")
	if err != nil {
		t.Fatal(err)
	}
	defer open.Close()
	stop()
	if _, err := open.Read(make([]byte, 8)); !errors.Is(err, context.Canceled) {
		t.Errorf("read on: %v", err)
	}
	if _, err := fs.ReadFile(files, "a.md"); !errors.Is(err, context.Canceled) {
		t.Errorf("opened: %v", err)
	}
}

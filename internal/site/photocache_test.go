package site

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

// TestPicturesAreKeptBetweenPublishings publishes twice with a store on disk:
// the second time the pictures come out of it.
func TestPicturesAreKeptBetweenPublishings(t *testing.T) {
	folder := photoFolder(filepath.Join(t.TempDir(), "made"))
	files := withPhoto(t, located(t))
	first := rendered(t, build(t, files, Options{Photos: folder}))
	kept, err := os.ReadDir(string(folder))
	if err != nil || len(kept) != 2 {
		t.Fatalf("%d are kept: %v", len(kept), err)
	}
	// A store that is never put to shows that nothing was made again.
	second := rendered(t, build(t, files, Options{Photos: readOnly{folder, t}}))
	for name, data := range first {
		if second[name] != data {
			t.Errorf("%s differs", name)
		}
	}
	for _, k := range kept {
		data, _ := os.ReadFile(filepath.Join(string(folder), k.Name()))
		if strings.Contains(string(data), "Exif") {
			t.Errorf("%s has kept its metadata", k.Name())
		}
	}
}

type readOnly struct {
	PhotoStore
	t *testing.T
}

func (r readOnly) Put(key string, _ []byte) { r.t.Errorf("%s was made again", key) }

func TestADamagedPictureIsNotKept(t *testing.T) {
	folder := photoFolder(t.TempDir())
	folder.Put("a", []byte("a picture"))
	if got, ok := folder.Get("a"); !ok || string(got) != "a picture" {
		t.Fatalf("%q %v", got, ok)
	}
	file := filepath.Join(string(folder), "a")
	data, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	for _, damaged := range [][]byte{data[:len(data)-1], append([]byte{data[0] ^ 1}, data[1:]...), nil} {
		if err := os.WriteFile(file, damaged, 0o600); err != nil {
			t.Fatal(err)
		}
		if _, ok := folder.Get("a"); ok {
			t.Errorf("%q is taken for whole", damaged)
		}
	}
	if _, ok := folder.Get("b"); ok {
		t.Error("what was never put is there")
	}
}

func TestOldPicturesAreThrownOut(t *testing.T) {
	folder := photoFolder(t.TempDir())
	folder.Put("old", []byte("old"))
	folder.Put("new", []byte("new"))
	then := time.Now().Add(-photoAge - time.Hour)
	if err := os.Chtimes(filepath.Join(string(folder), "old"), then, then); err != nil {
		t.Fatal(err)
	}
	folder.tidy()
	if _, ok := folder.Get("old"); ok {
		t.Error("the old one is still there")
	}
	if _, ok := folder.Get("new"); !ok {
		t.Error("the new one is gone")
	}
}

package store

import (
	"os"
	"path/filepath"
	"testing"
	"time"
)

func TestADamagedFileIsNotKept(t *testing.T) {
	folder := Folder(t.TempDir())
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

func TestOldFilesAreThrownOut(t *testing.T) {
	folder := Folder(t.TempDir())
	folder.Put("old", []byte("old"))
	folder.Put("new", []byte("new"))
	then := time.Now().Add(-folderAge - time.Hour)
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

func TestAnAlbumForgetsTheOldest(t *testing.T) {
	const limit = 100
	a := NewAlbum(limit)
	big := make([]byte, limit/2)
	a.Put("first", big)
	a.Put("second", big)
	a.Put("third", big)
	if _, kept := a.Get("first"); kept {
		t.Error("the oldest picture is still kept")
	}
	if _, kept := a.Get("third"); !kept {
		t.Error("the newest picture is not kept")
	}
}

package site

import (
	"bytes"
	"encoding/base64"
	"image"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"testing/fstest"

	"gylebook/internal/store"
)

// shelf is one that counts.
type shelf struct {
	mu         sync.Mutex
	made       map[string][]byte
	hits, puts int
}

func (s *shelf) Get(key string) ([]byte, bool) {
	s.mu.Lock()
	defer s.mu.Unlock()
	data, ok := s.made[key]
	if ok {
		s.hits++
	}
	return data, ok
}

func (s *shelf) Put(key string, made []byte) {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.puts++
	s.made[key] = made
}

func withPhoto(t *testing.T, data []byte) fstest.MapFS {
	files := entries("gyles/1.md", "---\ngyle: 1\nbeer: Plain\ncover: photos/A b.jpg\nphotos: [{file: photos/A b.jpg, alt: A pint, caption: At noon}]\n---\nSee [the picture](<../photos/A b.jpg>).\n")
	files["photos/A b.jpg"] = &fstest.MapFile{Data: data}
	return files
}

func TestPhotosAreMadeOnceAndKept(t *testing.T) {
	files := withPhoto(t, located(t))
	kept := &shelf{made: map[string][]byte{}}
	pages := rendered(t, build(t, files, Options{Store: store.New(kept)}))
	text := pages["gyles/1/index.html"]
	wants(t, text, `alt="A pint"`, `width="600" height="400"`, "480w", "600w", "At noon", `<a href="../../photos/a-b-`)
	if strings.Contains(text, `loading="lazy"`) {
		t.Error("the cover waits")
	}
	sizes := 0
	for name, data := range pages {
		if strings.HasPrefix(name, "photos/a-b-") {
			sizes++
			if _, _, err := image.Decode(strings.NewReader(data)); err != nil {
				t.Error(name, err)
			}
		}
	}
	if sizes != 2 || kept.puts != 2 || kept.hits != 0 {
		t.Errorf("%d sizes, %d put, %d found", sizes, kept.puts, kept.hits)
	}
	again := rendered(t, build(t, files, Options{Store: store.New(kept)}))
	if kept.puts != 2 || kept.hits != 2 {
		t.Errorf("the second time %d put, %d found", kept.puts, kept.hits)
	}
	for name, data := range pages {
		if again[name] != data {
			t.Errorf("%s differs", name)
		}
	}
}

// TestPicturesAreKeptBetweenPublishings publishes twice with a folder on disk: the
// second time the pictures come out of it, without their metadata.
func TestPicturesAreKeptBetweenPublishings(t *testing.T) {
	folder := store.Folder(filepath.Join(t.TempDir(), "made"))
	files := withPhoto(t, located(t))
	first := rendered(t, build(t, files, Options{Store: store.New(folder)}))
	kept, err := os.ReadDir(string(folder))
	if err != nil || len(kept) != 2 {
		t.Fatalf("%d are kept: %v", len(kept), err)
	}
	second := rendered(t, build(t, files, Options{Store: store.New(readOnly{folder, t})}))
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

// readOnly is a folder that is never put to, which shows that nothing was made again.
type readOnly struct {
	store.Folder
	t *testing.T
}

func (r readOnly) Put(name string, _ []byte) { r.t.Errorf("%s was made again", name) }

func TestABrokenPictureIsAFindingAndABox(t *testing.T) {
	data := located(t)
	s := build(t, withPhoto(t, data[:len(data)/2]), Options{})
	wants(t, page(t, s, "gyles/1/index.html"), "picture-broken", `class="broken"`, "its end is missing")
	for _, p := range s.Pages() {
		if strings.HasPrefix(p.Path, "photos/") {
			t.Errorf("%s is published", p.Path)
		}
	}
}

func TestAPictureBrokenInTheMiddleIsAGreyField(t *testing.T) {
	data := bytes.Clone(located(t))
	scan := bytes.Index(data, []byte{0xFF, 0xDA})
	for i := scan + 2; i < len(data)-2; i++ {
		data[i] = 0xFF
	}
	s := build(t, withPhoto(t, data), Options{})
	for name, text := range rendered(t, s) {
		if strings.HasPrefix(name, "photos/") {
			if _, _, err := image.Decode(strings.NewReader(text)); err != nil {
				t.Error(name, err)
			}
		}
	}
	for _, n := range s.Notices() {
		if n.ID == "picture-broken" {
			return
		}
	}
	t.Error("nothing was said")
}

func TestAPictureOfTheStoryIsNotShownTwice(t *testing.T) {
	files := withPhoto(t, located(t))
	files["gyles/1.md"].Data = append(files["gyles/1.md"].Data, "\n![A pint](<../photos/A b.jpg>)\n"...)
	text := page(t, build(t, files, Options{}), "gyles/1/index.html")
	if n := strings.Count(text, "<img"); n != 1 || !strings.Contains(text, `<div class="cover"><figure><img`) {
		t.Errorf("%d pictures", n)
	}
}

// smallest is a lossless WebP of one pixel.
const smallest = "UklGRhoAAABXRUJQVlA4TA0AAAAvAAAAEAcQERGIiP4HAA=="

func TestWebPIsReadAndWordsAreMissed(t *testing.T) {
	data, err := base64.StdEncoding.DecodeString(smallest)
	if err != nil {
		t.Fatal(err)
	}
	files := entries("gyles/1.md", "---\ngyle: 1\nbeer: Plain\nphotos: [{file: photos/a.webp}]\n---\nx\n")
	files["photos/a.webp"] = &fstest.MapFile{Data: data}
	s := build(t, files, Options{})
	wants(t, page(t, s, "gyles/1/index.html"), `width="1" height="1"`, `loading="lazy"`, "[alt-missing]", "has no words for those who cannot see it")
	for name, text := range rendered(t, s) {
		if strings.HasPrefix(name, "photos/") {
			if _, _, err := image.Decode(strings.NewReader(text)); err != nil {
				t.Error(name, err)
			}
		}
	}
}

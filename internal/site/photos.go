package site

import (
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"image"
	"io/fs"
	"maps"
	"path"
	"slices"
	"strconv"
	"strings"
	"sync"

	"gylebook/internal/notice"
	"gylebook/internal/site/picture"
)

// PhotoStore keeps pictures that were made, by a key that names the picture's
// bytes, its width and the recipe. It may forget any of them, and must be safe
// for several goroutines.
type PhotoStore interface {
	Get(key string) ([]byte, bool)
	Put(key string, made []byte)
}

// photoShelf is the pictures of the journal that something shows. A picture is
// looked at when first named, and made when a page of it is first rendered, one
// at a time, since each takes a hundred megabytes.
type photoShelf struct {
	files fs.FS
	store PhotoStore

	mu     sync.Mutex
	photos map[string]*photo // by file
	before map[string]*photo // those that an earlier site looked at
	faults []notice.Notice

	making sync.Mutex
	latest *photo // whose sizes are at hand: they are mostly asked for together
	made   [][]byte
}

// photo is one picture of the journal.
type photo struct {
	file string
	once sync.Once
	sum  [32]byte
	look picture.Look
	err  error // why it cannot be shown
}

func newPhotoShelf(files fs.FS, store PhotoStore) *photoShelf {
	return &photoShelf{files: files, store: store, photos: map[string]*photo{}}
}

// errNoPicture is a picture that is not there, as against one that is broken.
var errNoPicture = errors.New("there is none")

// look is the picture of a file, looked at.
func (s *photoShelf) look(file string) *photo {
	s.mu.Lock()
	p := s.photos[file]
	if p == nil {
		if p = s.before[file]; p == nil {
			p = &photo{file: file}
		}
		s.photos[file] = p
	}
	s.mu.Unlock()
	p.once.Do(func() {
		data, err := s.read(file)
		if err != nil {
			p.err = errNoPicture
			return
		}
		p.sum = sha256.Sum256(data)
		p.look, p.err = picture.Examine(data)
	})
	return p
}

// after takes over what an earlier shelf looked at, but for the files that were
// saved since.
func (s *photoShelf) after(old *photoShelf, touched []string) {
	old.mu.Lock()
	defer old.mu.Unlock()
	s.before = maps.Clone(old.before)
	if s.before == nil {
		s.before = map[string]*photo{}
	}
	maps.Copy(s.before, old.photos)
	for _, file := range touched {
		delete(s.before, file)
	}
}

func (s *photoShelf) read(file string) ([]byte, error) {
	if s.files == nil || !fs.ValidPath(file) {
		return nil, errNoPicture
	}
	info, err := fs.Stat(s.files, file)
	if err != nil || !info.Mode().IsRegular() {
		return nil, errNoPicture
	}
	if info.Size() > picture.MaxBytes {
		return make([]byte, picture.MaxBytes+1), nil // judged by its size alone
	}
	return fs.ReadFile(s.files, file)
}

// path is where the picture of a width is on the site: its own name, so that it
// may be known by it, and a part of its hash, so that a changed picture is never
// taken from a reader's cache.
func (p *photo) path(size image.Point) string {
	base := strings.TrimSuffix(path.Base(p.file), path.Ext(p.file))
	return "photos/" + plainSlug(base) + "-" + hex.EncodeToString(p.sum[:4]) + "-" + strconv.Itoa(size.X) + p.look.Extension
}

func (p *photo) key(size image.Point) string {
	return hex.EncodeToString(p.sum[:]) + "-" + strconv.Itoa(size.X) + "-" + picture.Recipe
}

// pages are the files of all sound pictures looked at so far.
func (s *photoShelf) pages() []Page {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.pagesOf(s.photos)
}

// pagesBefore are the same of those that an earlier site looked at: pages that
// still stand show them.
func (s *photoShelf) pagesBefore() []Page { return s.pagesOf(s.before) }

func (s *photoShelf) pagesOf(photos map[string]*photo) []Page {
	var pages []Page
	for _, p := range photos {
		if p.err != nil {
			continue
		}
		for i, size := range p.look.Sizes() {
			pages = append(pages, Page{p.path(size), func() ([]byte, error) { return s.render(p, i, size), nil }})
		}
	}
	slices.SortFunc(pages, func(a, b Page) int { return strings.Compare(a.Path, b.Path) })
	return pages
}

// render is the picture in one size. One that proves broken only now, in its
// middle, is a grey field of the size that its page promised, and a notice.
func (s *photoShelf) render(p *photo, i int, size image.Point) []byte {
	if s.store != nil {
		if data, ok := s.store.Get(p.key(size)); ok {
			return data
		}
	}
	data, err := s.make(p, i)
	if err == nil {
		if s.store != nil {
			s.store.Put(p.key(size), data)
		}
		return data
	}
	s.mu.Lock()
	n := notice.Notice{Place: notice.Place{File: p.file}, Severity: notice.Look, ID: "picture-broken",
		Says: "the picture " + p.file + " cannot be read to its end, and a grey field stands for it", Do: "Copy it again from where it came.", Source: "common practice, no source"}
	if !slices.Contains(s.faults, n) {
		s.faults = append(s.faults, n)
	}
	s.mu.Unlock()
	blank, _ := picture.Blank(size, p.look.Extension)
	return blank
}

func (s *photoShelf) make(p *photo, i int) ([]byte, error) {
	s.making.Lock()
	defer s.making.Unlock()
	if s.latest == p {
		return s.made[i], nil
	}
	data, err := s.read(p.file)
	if err != nil {
		return nil, err
	}
	if sha256.Sum256(data) != p.sum {
		return nil, fmt.Errorf("%s has changed since it was looked at", p.file)
	}
	made, err := picture.Shrink(data, p.look)
	if err != nil {
		return nil, err
	}
	s.latest, s.made = p, made
	return made[i], nil
}

func (s *photoShelf) notices() []notice.Notice {
	s.mu.Lock()
	defer s.mu.Unlock()
	return slices.Clone(s.faults)
}

var _ = declare(pageKind{path: "photos/*", unlisted: true, pages: (*Site).photoPages})

// photoPages are the files of all pictures that something published shows; for one
// that is wanted, those that are known of without rendering every story.
func (s *Site) photoPages(wanted string) []Page {
	if wanted != "" {
		return append(s.photos.pages(), s.photos.pagesBefore()...)
	}
	s.renderStories()
	s.askAgain()
	for _, g := range s.gyles {
		for _, file := range s.gylePhotos(g) {
			s.photos.look(file)
		}
	}
	return s.photos.pages()
}

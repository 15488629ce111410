package site

import (
	"crypto/sha256"
	"errors"
	"fmt"
	"image"
	"io/fs"
	"maps"
	"path"
	"slices"
	"strings"
	"sync"

	"golang.org/x/text/unicode/norm"

	"gylebook/internal/journal"
	"gylebook/internal/notice"
	"gylebook/internal/site/picture"
	"gylebook/internal/store"
)

// photoShelf is the pictures of the journal that something shows. A picture is
// looked at when first named, and made when a page of it is first rendered, one
// at a time, since each takes a hundred megabytes.
type photoShelf struct {
	files  fs.FS
	listed map[string]journal.File
	kept   *store.Store

	mu     sync.Mutex
	photos map[string]func() *photo // by file
	faults []notice.Notice

	making sync.Mutex
	latest *photo // whose sizes are at hand: they are mostly asked for together
	made   [][]byte
}

// photo is one picture of the journal.
type photo struct {
	file string
	sum  [32]byte
	look picture.Look
	err  error // why it cannot be shown
}

// What is kept of pictures: how one looks, by the file as the folder lists it; the
// bytes made of it, by its own and the size. How long a live site may take to ask
// again is that of stories.
var (
	photoLooks = store.Kind[*photo]{Name: "photo", Rounds: renderedStories.Rounds}
	pictures   = store.Kind[[]byte]{Name: "picture", Codec: asTheyAre{}}
)

// asTheyAre is the codec of bytes.
type asTheyAre struct{}

func (asTheyAre) Encode(data []byte) ([]byte, error) { return data, nil }

func (asTheyAre) Decode(data []byte) ([]byte, error) { return data, nil }

func newPhotoShelf(files fs.FS, listed map[string]journal.File, kept *store.Store) *photoShelf {
	return &photoShelf{files: files, listed: listed, kept: kept, photos: map[string]func() *photo{}}
}

// errNoPicture is a picture that is not there, as against one that is broken.
var errNoPicture = errors.New("there is none")

// look is the picture of a file, looked at.
func (s *photoShelf) look(file string) *photo {
	s.mu.Lock()
	look := s.photos[file]
	if look == nil {
		look = sync.OnceValue(func() *photo {
			listed, is := s.listed[file]
			if !is {
				return s.examine(file)
			}
			return store.Do(s.kept, &photoLooks, store.KeyOf(listed), func() *photo { return s.examine(file) })
		})
		s.photos[file] = look
	}
	s.mu.Unlock()
	return look()
}

func (s *photoShelf) examine(file string) *photo {
	p := &photo{file: file}
	data, err := s.read(file)
	if err != nil {
		p.err = err
		return p
	}
	p.sum = sha256.Sum256(data)
	p.look, p.err = picture.Examine(data)
	return p
}

func (s *photoShelf) read(file string) ([]byte, error) {
	if s.files == nil || !fs.ValidPath(file) {
		return nil, errNoPicture
	}
	info, err := fs.Stat(s.files, file)
	switch {
	case errors.Is(err, fs.ErrNotExist) || err == nil && !info.Mode().IsRegular():
		return nil, errNoPicture
	case err == nil && info.Size() > picture.MaxBytes:
		return make([]byte, picture.MaxBytes+1), nil // judged by its size alone
	}
	data, err := fs.ReadFile(s.files, file)
	if err != nil {
		return nil, fmt.Errorf("%w: %w", errPictureUnread, err)
	}
	return data, nil
}

// errPictureUnread is a picture that is there and cannot be read now.
var errPictureUnread = errors.New("it cannot be read")

// path is where the picture of a width is on the site: its own name, so that it
// may be known by it, and a part of its hash, so that a changed picture is never
// taken from a reader's cache.
func (p *photo) path(size image.Point) string {
	base := strings.TrimSuffix(path.Base(p.file), path.Ext(p.file))
	return fmt.Sprintf("photos/%s-%x-%d%s", plainSlug(norm.NFC.String(base)), p.sum[:4], size.X, p.look.Extension)
}

// pages are the files of all sound pictures looked at so far.
func (s *photoShelf) pages() []Page {
	s.mu.Lock()
	looks := slices.Collect(maps.Values(s.photos))
	s.mu.Unlock()
	var pages []Page
	for _, look := range looks {
		p := look()
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
	key := store.KeyOf(p.sum, size.X, picture.Recipe)
	data, err := store.Try(s.kept, &pictures, key, func() ([]byte, error) { return s.make(p, i) })
	if err == nil {
		return data
	}
	n := notice.Notice{
		Place: notice.Place{File: p.file}, Severity: notice.Look, ID: "picture-broken",
		Says: "the picture " + p.file + " cannot be read to its end, and a grey field stands for it",
		Do:   "Copy it again from where it came.", Source: "common practice, no source",
	}
	s.mu.Lock()
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
// that is wanted and known of, without rendering every story.
func (s *Site) photoPages(wanted string) []Page {
	known := s.photos.pages()
	if slices.ContainsFunc(known, func(p Page) bool { return p.Path == "photos/"+wanted }) {
		return known
	}
	s.renderStories()
	for _, g := range s.gyles {
		for _, file := range s.gylePhotos(g) {
			s.photos.look(file)
		}
	}
	return s.photos.pages()
}

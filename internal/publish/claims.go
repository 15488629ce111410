package publish

import (
	"errors"
	"fmt"
	"io/fs"
	"slices"
	"strings"
	"unicode"
)

// Names that a site may not use for its own pages.
const (
	listName   = ".gylebook-files" // the list of what was written, in the site
	insideName = ".gylebook-stage" // the work folder, where it lies in the site
)

// claims records who has which path, so that no two of them can meet on any
// file system: neither the same path, nor two that differ only in case, nor a
// file where the other needs a folder.
type claims struct {
	taken map[string]claim // by folded path
}

type claim struct {
	path string
	use  use
}

type use int

const (
	folder use = iota // something lies below
	page
	kept // not ours, nor is what lies below
)

func newClaims(keep []string) (*claims, error) {
	c := &claims{taken: map[string]claim{}}
	for _, name := range slices.Sorted(slices.Values(keep)) { // a folder before what is in it
		p := strings.TrimSuffix(name, "/")
		err := checkPath(p)
		if err == nil {
			_, err = c.take(p, kept)
		}
		if err != nil {
			return nil, fmt.Errorf("keep %q: %w", name, err)
		}
	}
	return c, nil
}

// page claims p for a page. It tells whether p lies in what is kept.
func (c *claims) page(p string) (bool, error) {
	if err := checkPath(p); err != nil {
		return false, err
	}
	return c.take(p, page)
}

// take claims p and the folders around it, and tells whether what is kept
// already covers it.
func (c *claims) take(p string, as use) (covered bool, err error) {
	for end := range len(p) + 1 {
		if end < len(p) && p[end] != '/' {
			continue
		}
		part, want := p[:end], folder
		if end == len(p) {
			want = as
		}
		key := fold(part)
		was, taken := c.taken[key]
		switch {
		case !taken:
			c.taken[key] = claim{part, want}
		case was.path != part:
			return false, fmt.Errorf("it differs from %s only in case", was.path)
		case was.use == kept:
			return true, nil
		case want == folder && was.use == folder:
		case want == folder:
			return false, fmt.Errorf("it needs a folder where the page %s stands", was.path)
		case was.use == folder:
			return false, errors.New("it is a folder, holding other pages or kept files")
		default:
			return false, errors.New("it is there twice")
		}
	}
	return false, nil
}

// of tells how exactly this path is claimed, if it is.
func (c *claims) of(p string) (use, bool) {
	was, taken := c.taken[fold(p)]
	return was.use, taken && was.path == p
}

// checkPath refuses paths that leave the site, that the list cannot hold, or
// that are ours. Names that only Windows refuses are left for it to refuse.
func checkPath(p string) error {
	switch {
	case !fs.ValidPath(p) || p == ".":
		return errors.New("it is not a plain slash path inside the site")
	case strings.ContainsRune(p, '\\'):
		return errors.New("it has a backslash; paths use /")
	case strings.ContainsFunc(p, unicode.IsControl):
		return errors.New("it has a control character")
	}
	first, _, _ := strings.Cut(p, "/")
	if f := fold(first); f == fold(listName) || f == fold(insideName) {
		return fmt.Errorf("%s is where the site's own record is kept", first)
	}
	return nil
}

// fold maps paths that differ only in case to the same key, by Unicode's simple
// case folding. It does not unite composed and decomposed letters.
func fold(p string) string {
	return strings.Map(func(r rune) rune {
		least := r
		for f := unicode.SimpleFold(r); f != r; f = unicode.SimpleFold(f) {
			least = min(least, f)
		}
		return least
	}, p)
}

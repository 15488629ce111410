package site

import (
	"slices"
	"strings"

	"gylebook/internal/notice"
)

// markBroken sorts the errors of broken files by the pages that show the file.
func (s *Site) markBroken() {
	if len(s.options.Broken) == 0 {
		return
	}
	s.broken = map[string][]notice.Notice{}
	for _, n := range s.options.Broken {
		home := s.homeOf(n.Place.File)
		s.broken[home] = append(s.broken[home], n)
	}
}

// homeOf is the folder of the pages that show a file: a gyle's, a note's, a
// card's; "" for all pages, where the settings are broken, and board for a file
// with no page of its own.
func (s *Site) homeOf(file string) string {
	if g := s.book.GyleIn(file); s.published(g) {
		return strings.TrimSuffix(gylePath(g), "index.html")
	}
	d := s.book.Journal.Document(file)
	switch {
	case file == s.settings.File:
		return ""
	case s.noteIn[file] != nil:
		return notePath(s.noteIn[file])
	case d != nil && d.Card != nil:
		if subject := s.book.Subject(d.Card.Kind.String(), d.Card.Name.Text); s.shown(subject) {
			return subjectPath(subject)
		}
	}
	return board
}

// board is the home page, which has the errors of every broken file.
const board = "index.html"

// brokenOn are the errors that stand at the top of a page, with their lines as
// typed: whoever writes them reads them there.
func (s *Site) brokenOn(path string) []notice.Notice {
	var all []notice.Notice
	for home, errors := range s.broken {
		if strings.HasPrefix(path, home) || path == board {
			all = append(all, errors...)
		}
	}
	slices.SortStableFunc(all, notice.Compare)
	return all
}

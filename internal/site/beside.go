package site

import (
	"slices"

	"gylebook/internal/journal"
)

// mostRetold is how many stories may stand in front of those of a ground before
// another is laid anew.
const mostRetold = 100

// layBeside lays the ground beside that of the site before, where the books are
// abreast and nothing but gyles differs: which stories there are, on which pages, and
// who is not to be named is the same then. Gyles whose entries were saved have theirs
// in front. It tells whether that could be done.
func (s *Site) layBeside(p *Site) bool {
	if p == nil || !s.options.Live || !p.options.Live || !s.book.Abreast(p.book) || len(p.retold) > mostRetold ||
		!slices.Equal(s.book.Journal.Files, p.book.Journal.Files) {
		return false
	}
	old, documents := p.book.Journal.Documents(), s.book.Journal.Documents()
	if !slices.EqualFunc(documents, old, func(a, b *journal.Document) bool { return a == b || a.File == b.File && a.Gyle != nil && b.Gyle != nil }) {
		return false
	}
	s.ground = &ground{
		notes: p.notes, noteIn: p.noteIn, files: p.files, stories: p.stories, byFile: p.byFile, homes: p.homes, secrets: p.secrets, count: p.count,
		tellings: make([]telling, len(p.tellings)), others: map[string]bool{},
	}
	for i, g := range s.gyles {
		if g != p.gyles[i] {
			s.others[g.File] = true
		}
	}
	for i := range s.tellings {
		t := &s.tellings[i]
		t.before, t.beside = p.tellings[i].latest()
	}
	s.retellBeside(p, old, documents)
	return true
}

// retellBeside is the stories in front of a ground that was laid beside another.
func (s *Site) retellBeside(p *Site, old, documents []*journal.Document) {
	s.retold = map[string]*story{}
	for file, st := range p.retold {
		if s.retold[file] = nil; st != nil {
			again := *st
			again.own = new(telling)
			again.own.before, again.own.beside = st.own.latest()
			s.retold[file] = &again
		}
	}
	for i, d := range documents {
		if d != old[i] {
			s.retold[d.File] = s.inFront(d)
			if st := s.retold[d.File]; st != nil {
				s.tellAs(st, p, p.storyIn(d.File))
			}
		}
	}
}

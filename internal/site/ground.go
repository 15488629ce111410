package site

import (
	"maps"
	"slices"
	"strings"
	"sync"

	"gylebook/internal/journal"
	"gylebook/internal/notice"
	"gylebook/internal/site/markdown"
)

// standsOn tells that all that the pages of another site are made of, but for the
// words of stories, is the same here.
func (s *Site) standsOn(p *Site) bool {
	return s.options.Live && p.options.Live && s.book.SameButStories(p.book) && len(s.options.Touched) == 0 &&
		slices.Equal(s.book.Journal.Files, p.book.Journal.Files)
}

// lay lays the ground. Stories are taken from the site before (nil for none)
// where they would come out the same.
func (s *Site) lay(p *Site) {
	if !s.layBeside(p) {
		s.layAnew(p)
	}
	s.tags = sync.OnceValue(s.collectTags)
}

func (s *Site) layAnew(p *Site) {
	s.ground = new(ground)
	s.files = make(map[string]int64, len(s.book.Journal.Files))
	for _, f := range s.book.Journal.Files {
		s.files[f.Name] = f.Size
	}
	s.layNotes()
	s.layStories(p)
	stories, gyles := s.stories, s.gyles
	s.homes = sync.OnceValue(func() map[string]string { return homesOf(stories) })
	s.secrets = sync.OnceValue(s.collectSecrets)
	s.count = sync.OnceValue(func() string { return gyleCount(gyles) })
}

// inFront is the story of a document, to stand in front of the ground's.
func (s *Site) inFront(d *journal.Document) *story {
	st := s.storyOf(d)
	if st != nil {
		st.own = new(telling)
	}
	return st
}

// retell is the stories whose words are others than on the ground.
func (s *Site) retell(p *Site) map[string]*story {
	retold := maps.Clone(p.retold)
	if retold == nil {
		retold = map[string]*story{}
	}
	old, documents := p.book.Journal.Documents(), s.book.Journal.Documents()
	for i, d := range documents {
		if d != old[i] {
			retold[d.File] = s.inFront(d)
		}
	}
	return retold
}

// layStories lists the stories of all that is published.
func (s *Site) layStories(p *Site) {
	s.stories = make(map[string]*story, len(s.gyles)+len(s.notes))
	for _, d := range s.book.Journal.Documents() {
		if st := s.storyOf(d); st != nil {
			st.place = len(s.byFile)
			s.byFile = append(s.byFile, st)
			s.stories[d.File] = st
		}
	}
	s.tellings = make([]telling, len(s.byFile))
	for _, st := range s.byFile {
		if p != nil {
			s.tellAs(st, p, p.storyIn(st.entry.File))
		}
	}
}

// storyOf is the story of a document, nil where it has none that is published.
func (s *Site) storyOf(d *journal.Document) *story {
	if d.Withheld() || d.Entry().Body == "" {
		return nil
	}
	st := &story{entry: d.Entry()}
	switch {
	case d.Gyle != nil:
		g := s.book.GyleIn(d.File)
		if !s.published(g) {
			return nil
		}
		st.home, st.gyle, st.level = gylePath(g), g.Number.N, 3
	case d.Note != nil:
		n := s.noteIn[d.File]
		if n == nil {
			return nil
		}
		st.home, st.level = notePath(n), 2
	case d.Card != nil:
		subject := s.book.Subject(d.Card.Kind.String(), d.Card.Name.Text)
		if !s.shown(subject) || subject.Card == nil || subject.Card.File != d.File {
			return nil
		}
		st.home, st.level = subjectPath(subject), 2
	case d.File == s.settings.File:
		st.home, st.level = "index.html", 2
	default:
		return nil
	}
	return st
}

// storyIn is the story of a file, nil for none.
func (s *Site) storyIn(file string) *story {
	if st, is := s.retold[file]; is {
		return st
	}
	return s.stories[file]
}

// everyStory is all of them, by file.
func (s *Site) everyStory() []*story {
	if len(s.retold) == 0 {
		return s.byFile
	}
	all := make([]*story, 0, len(s.byFile)+len(s.retold))
	for _, st := range s.byFile {
		if _, is := s.retold[st.entry.File]; !is {
			all = append(all, st)
		}
	}
	for file, st := range s.retold {
		if st != nil {
			at, _ := slices.BinarySearchFunc(all, file, func(st *story, file string) int { return strings.Compare(st.entry.File, file) })
			all = slices.Insert(all, at, st)
		}
	}
	return all
}

// homesOf is the files of stories by the page that each is on.
func homesOf(stories map[string]*story) map[string]string {
	homes := make(map[string]string, len(stories))
	for file, st := range stories {
		homes[st.home] = file
	}
	return homes
}

// storyOn is the story on a page, nil for none.
func (s *Site) storyOn(page string) *story {
	for file, st := range s.retold {
		if st != nil && st.home == page {
			return s.storyIn(file)
		}
	}
	return s.storyIn(s.homes()[page])
}

// warned is a gyle's warnings, and the stories that they were made of: they stand
// while those do.
type warned struct {
	notices []notice.Notice
	stories []*story
}

func (w warned) stands(s *Site) bool {
	for _, st := range w.stories {
		if s.storyIn(st.entry.File) != st {
			return false
		}
	}
	return true
}

// fileWarnings are the faults of a file's own story, with dead links to headings,
// and all the stories that were looked into.
func (s *Site) fileWarnings(file string) (all []notice.Notice, looked []*story) {
	st := s.storyIn(file)
	if st == nil {
		return nil, nil
	}
	all, looked = s.storyWarnings(st)
	return slices.Clone(all), looked
}

// storyWarnings are the same of a story; they are not to be changed.
func (s *Site) storyWarnings(st *story) (all []notice.Notice, looked []*story) {
	dead, others := s.fragmentNotices(st)
	if all = s.told(st).notices; len(dead) > 0 {
		all = slices.Concat(all, dead)
	}
	return all, append(others, st)
}

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

// askAgain asks all that the stories asked, so that the pictures that they show
// are known here too.
func (s *Site) askAgain() {
	for _, st := range s.everyStory() {
		r := &resolver{site: s, story: st}
		for _, q := range s.told(st).asked {
			if q.picture {
				r.picture(q.destination)
			} else if strings.HasPrefix(q.target.Href, markdown.Root+"photos/") {
				r.link(q.destination)
			}
		}
	}
}

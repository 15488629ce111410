package site

import (
	"slices"
	"strings"
	"sync"
	"sync/atomic"

	"gylebook/internal/journal"
	"gylebook/internal/notice"
	"gylebook/internal/parallel"
	"gylebook/internal/site/markdown"
	"gylebook/internal/store"
)

// story is the body of one entry, rendered when first asked for.
type story struct {
	entry    *journal.Entry
	home     string // the path of the page it is on
	gyle     int    // the number that its figures are of without another, 0 for none
	level    int    // of its topmost heading
	rendered atomic.Pointer[renderedStory]
}

// renderedStory is all that is kept of a rendered story.
type renderedStory struct {
	html      string // with markdown.Root and markdown.Own in it
	notices   []notice.Notice
	ids       []string
	links     []markdown.Link // those to headings and files
	questions []question
	excerpt   string // its first words
	begins    string // some more of them
	words     string // a few more of them, for the search
}

// question is one question to the resolver with its answer: if all answers are
// still the same, so is the story.
type question struct {
	picture     bool
	destination string
	target      markdown.Target
	shown       markdown.Picture
}

// renderedStories are kept by their words and the page that they are on. A live site
// asks for all of them to find what is new, which may take as long as a few saves.
var renderedStories = store.Kind[*renderedStory]{Name: "story", Rounds: 16}

// excerptLength and searchWords bound what is kept of a story's words.
const (
	excerptLength = 280
	searchWords   = 60
)

// listStories lists the stories of all that is published.
func (s *Site) listStories() {
	s.stories = make(map[string]*story, len(s.gyles)+len(s.notes))
	for _, d := range s.book.Journal.Documents() {
		if st := s.storyOf(d); st != nil {
			s.byFile = append(s.byFile, st)
			s.stories[d.File] = st
		}
	}
	s.homes = sync.OnceValue(func() map[string]*story {
		homes := make(map[string]*story, len(s.byFile))
		for _, st := range s.byFile {
			homes[st.home] = st
		}
		return homes
	})
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
		st.home, st.level = front, 2
	default:
		return nil
	}
	return st
}

// renderStories renders all of them.
func (s *Site) renderStories() {
	parallel.Each(len(s.byFile), s.options.Workers, func(i int) { s.render(s.byFile[i]) })
}

// story is the rendered story of a file, the zero one where it has none.
func (s *Site) story(file string) *renderedStory {
	st := s.stories[file]
	if st == nil {
		return &renderedStory{}
	}
	return s.render(st)
}

// render is a story as rendered, always the same one.
func (s *Site) render(st *story) *renderedStory {
	if done := st.rendered.Load(); done != nil {
		return done
	}
	key := store.KeyOf(st.entry.File, st.entry.Hash, st.home, st.gyle, st.level)
	still := func(was *renderedStory) bool { return s.answersAlike(st, was.questions) }
	made := store.DoWhile(
		s.options.Store, &renderedStories, key, still, func() *renderedStory { return s.renderAnew(st) },
	)
	st.rendered.CompareAndSwap(nil, made) // else another was faster
	return st.rendered.Load()
}

// answersAlike tells that this site answers all that a story asked as it was answered.
func (s *Site) answersAlike(st *story, asked []question) bool {
	r := &resolver{site: s, story: st}
	return !slices.ContainsFunc(asked, func(q question) bool {
		return q.picture && r.picture(q.destination) != q.shown || !q.picture && r.link(q.destination) != q.target
	})
}

func (s *Site) renderAnew(st *story) *renderedStory {
	r := &resolver{site: s, story: st}
	out := markdown.Render(markdown.Story{Text: st.entry.Body, Prefix: notePrefix(st.home), Level: st.level}, r)
	done := &renderedStory{html: out.HTML, ids: out.IDs, questions: r.asked}
	for _, l := range out.Links {
		if !settled(l) {
			done.links = append(done.links, l)
		}
	}
	done.begins, _ = opening(out.Words, frontNewest)
	done.excerpt, done.words = opening(out.Words, excerptLength)
	for _, f := range out.Faults {
		done.notices = append(done.notices, s.storyNotice(st, f))
	}
	return done
}

// notePrefix begins the ids of a story's footnotes, since several stories may
// stand on one page of a feed reader.
func notePrefix(home string) string {
	return plainSlug(strings.TrimSuffix(home, "/index.html")) + "-"
}

// settled tells a link that nobody asks about again: it leads to no heading and
// to no file to be copied.
func settled(l markdown.Link) bool {
	_, fragment, found := strings.Cut(l.Href, "#")
	return !strings.HasPrefix(l.Href, markdown.Root+"files/") && (!found || ownID(fragment))
}

// ownID tells an id that the pages themselves give, which is taken on trust.
func ownID(id string) bool {
	return id == "" || strings.HasPrefix(id, "p-") || strings.HasPrefix(id, "w-")
}

// storyNotice is a fault of a story as a notice about its file.
func (s *Site) storyNotice(st *story, f markdown.Fault) notice.Notice {
	return notice.Notice{
		Place:    notice.Place{File: st.entry.File, Line: st.entry.BodyLine + f.Line - 1, Column: f.Column},
		Severity: severityOf(f.ID), ID: f.ID, Says: f.Says, Why: f.Why, Do: f.Do, Source: "common practice, no source",
	}
}

// opening is the first words of a story: an excerpt that ends at a word, and the
// different words for the search.
func opening(words string, length int) (excerpt, forSearch string) {
	fields := strings.Fields(words)
	var b strings.Builder
	for _, w := range fields {
		if b.Len()+len(w) > length {
			b.WriteString(" …")
			break
		}
		if b.Len() > 0 {
			b.WriteByte(' ')
		}
		b.WriteString(w)
	}
	seen := map[string]bool{}
	var kept []string
	for _, w := range fields {
		w = strings.ToLower(strings.Trim(w, ".,;:!?()[]“”‘’\"'…–—*/"))
		if len(w) < 3 || seen[w] {
			continue
		}
		seen[w] = true
		if kept = append(kept, w); len(kept) == searchWords {
			break
		}
	}
	return b.String(), strings.Join(kept, " ")
}

package site

import (
	"strings"
	"sync"
	"sync/atomic"

	"gylebook/internal/journal"
	"gylebook/internal/notice"
	"gylebook/internal/site/markdown"
)

// story is the body of one entry, rendered when first asked for.
type story struct {
	entry  *journal.Entry
	home   string // the path of the page it is on
	gyle   int    // the number that its figures are of without another, 0 for none
	level  int    // of its topmost heading
	once   sync.Once
	done   *told
	ready  atomic.Bool // done is done
	before *told       // as it was told in an earlier site, nil for none
}

// told is a rendered story: all that is kept of it.
type told struct {
	html    string // with markdown.Root and markdown.Own in it
	notices []notice.Notice
	ids     []string
	links   []markdown.Link // those to headings and files
	asked   []asked
	excerpt string // its first words
	words   string // a few more of them, for the search
}

// asked is one question to the resolver with its answer: if all answers are
// still the same, so is the story.
type asked struct {
	picture     bool
	destination string
	target      markdown.Target
	shown       markdown.Picture
}

// excerptLength and searchWords bound what is kept of a story's words.
const (
	excerptLength = 280
	searchWords   = 60
)

// renderStories renders all of them.
func (s *Site) renderStories() {
	all := s.everyStory()
	each(len(all), s.options.Workers, func(i int) { s.told(all[i]) })
}

// story is the rendered story of a file, the zero one where it has none.
func (s *Site) story(file string) *told {
	st := s.storyIn(file)
	if st == nil {
		return &told{}
	}
	return s.told(st)
}

func (s *Site) told(st *story) *told {
	st.once.Do(func() {
		if old, ok := s.unchanged(st); ok {
			st.done = old
		} else {
			now := s.tell(st)
			st.done = &now
		}
		st.ready.Store(true)
	})
	return st.done
}

// unchanged is the story as it was told before, if it would come out the same.
func (s *Site) unchanged(st *story) (*told, bool) {
	if st.before == nil {
		return nil, false
	}
	r := &resolver{site: s, story: st}
	for _, q := range st.before.asked {
		if q.picture && r.picture(q.destination) != q.shown || !q.picture && r.link(q.destination) != q.target {
			return nil, false
		}
	}
	return st.before, true
}

// after lets a story be told as an earlier one was, where the words and the page
// are the same.
func (st *story) after(old *story) {
	switch {
	case old == nil || old.entry.Hash != st.entry.Hash || old.home != st.home || old.level != st.level || old.gyle != st.gyle:
	case old.ready.Load():
		st.before = old.done
	default:
		st.before = old.before
	}
}

func (s *Site) tell(st *story) told {
	r := &resolver{site: s, story: st}
	out := markdown.Render(markdown.Story{Text: st.entry.Body, Prefix: notePrefix(st.home), Level: st.level}, r)
	done := told{html: out.HTML, ids: out.IDs, asked: r.asked}
	for _, l := range out.Links {
		if !settled(l) {
			done.links = append(done.links, l)
		}
	}
	done.excerpt, done.words = opening(out.Words)
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
	severity := notice.Look
	if f.ID == "link-to-draft" || f.ID == "alt-missing" {
		severity = notice.Note
	}
	return notice.Notice{
		Place:    notice.Place{File: st.entry.File, Line: st.entry.BodyLine + f.Line - 1, Column: f.Column},
		Severity: severity, ID: f.ID, Says: f.Says, Why: f.Why, Do: f.Do, Source: "common practice, no source",
	}
}

// opening is the first words of a story: an excerpt that ends at a word, and the
// different words for the search.
func opening(words string) (excerpt, forSearch string) {
	fields := strings.Fields(words)
	var b strings.Builder
	for _, w := range fields {
		if b.Len()+len(w) > excerptLength {
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

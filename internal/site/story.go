package site

import (
	"net/url"
	"slices"
	"strings"
	"sync/atomic"

	"gylebook/internal/journal"
	"gylebook/internal/notice"
	"gylebook/internal/site/markdown"
)

// story is the body of one entry, rendered when first asked for.
type story struct {
	entry *journal.Entry
	home  string   // the path of the page it is on
	gyle  int      // the number that its figures are of without another, 0 for none
	level int      // of its topmost heading
	place int      // among the tellings of the ground
	own   *telling // of one that stands in front of the ground's
}

// telling is how a story is told on one ground.
type telling struct {
	done   atomic.Pointer[told]
	before *told // as it was told in an earlier site, nil for none
	// beside tells that this was on the ground that this one was laid beside.
	beside bool
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

	// bound tells that all answers go by what is the same in books abreast, and by
	// the figures of the gyles in these files.
	bound bool
	leans []string
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
	t := s.tellingOf(st)
	if done := t.done.Load(); done != nil {
		return done
	}
	now := t.before
	if now == nil || !s.unchanged(st, t) {
		now = s.tell(st)
	}
	t.done.CompareAndSwap(nil, now) // else another was faster
	return t.done.Load()
}

func (s *Site) tellingOf(st *story) *telling {
	if st.own != nil {
		return st.own
	}
	return &s.tellings[st.place]
}

// unchanged tells that a story would come out as it was told before.
func (s *Site) unchanged(st *story, t *telling) bool {
	if t.beside && t.before.bound {
		return !slices.ContainsFunc(t.before.leans, func(file string) bool { return s.others[file] })
	}
	r := &resolver{site: s, story: st}
	return !slices.ContainsFunc(t.before.asked, func(q asked) bool {
		return q.picture && r.picture(q.destination) != q.shown || !q.picture && r.link(q.destination) != q.target
	})
}

// latest is the story as it was last told, and whether on this ground; nil where it
// never was.
func (t *telling) latest() (last *told, here bool) {
	if done := t.done.Load(); done != nil {
		return done, true
	}
	return t.before, false
}

// tellAs lets a story be told as an earlier one was, where the words and the page
// are the same.
func (s *Site) tellAs(st *story, p *Site, old *story) {
	if old != nil && old.entry.Hash == st.entry.Hash && old.home == st.home && old.level == st.level && old.gyle == st.gyle {
		s.tellingOf(st).before, _ = p.tellingOf(old).latest()
	}
}

func (s *Site) tell(st *story) *told {
	r := &resolver{site: s, story: st}
	out := markdown.Render(markdown.Story{Text: st.entry.Body, Prefix: notePrefix(st.home), Level: st.level}, r)
	done := &told{html: out.HTML, ids: out.IDs, asked: r.asked}
	done.bound, done.leans = r.bounds()
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

// bounds tells whether all that was asked goes by what is the same in books abreast
// and by the figures of gyles, and in which files those are.
func (r *resolver) bounds() (bound bool, leans []string) {
	for _, q := range r.asked {
		scheme, rest, _ := strings.Cut(strings.TrimSpace(q.destination), ":")
		scheme = strings.ToLower(scheme)
		switch {
		case q.picture:
			return false, nil
		case scheme == "figure":
			if file := r.leansOn(rest); file != "" && !slices.Contains(leans, file) {
				leans = append(leans, file)
			}
		case scheme != "gyle" && cardKinds[scheme] == "" && !slices.Contains(abroad, scheme):
			return false, nil
		}
	}
	return true, leans
}

// leansOn is the file of the gyle that a figure in a story is of, "" for none.
func (r *resolver) leansOn(figure string) string {
	id, query, _ := strings.Cut(figure, "?")
	asked, err := url.ParseQuery(query)
	if err != nil {
		asked = url.Values{}
	}
	if g, fault := r.figuresGyle(id, asked.Get("gyle")); fault.Fault.ID == "" {
		return g.File
	}
	return ""
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

package site

import (
	"slices"
	"strings"
	"sync"

	"gylebook/internal/book"
	"gylebook/internal/journal"
	"gylebook/internal/notice"
	"gylebook/internal/rules"
	"gylebook/internal/site/markdown"
	"gylebook/internal/site/view"
)

// collectNotices is what the site alone sees in the journal, by place: the
// stories' faults, links to headings that are not there, pictures.
func (s *Site) collectNotices() []notice.Notice {
	s.renderStories()
	var all []notice.Notice
	for _, st := range s.byFile {
		all = append(all, s.storyNotices(st)...)
	}
	for _, g := range s.gyles {
		all = append(all, s.photoNotices(g)...)
	}
	all = append(all, s.nameNotices()...)
	slices.SortStableFunc(all, notice.Compare)
	for i := range all {
		if g := s.book.GyleIn(all[i].Place.File); s.published(g) {
			all[i].Accepted = acceptedBecause(g.Gyle, all[i].ID)
		}
	}
	return all
}

func acceptedBecause(g *journal.Gyle, id string) string {
	for _, a := range g.Accept {
		if a.Finding.Text == id {
			return a.Because.Text
		}
	}
	return ""
}

// storyNotices are the faults of a story, with its links to a heading that their
// target lacks. They are not to be changed.
func (s *Site) storyNotices(st *story) []notice.Notice {
	all := slices.Clip(s.render(st).notices)
	for _, l := range s.render(st).links {
		address, fragment, found := strings.Cut(l.Href, "#")
		if !found || ownID(fragment) {
			continue
		}
		target := st
		if page, ok := strings.CutPrefix(address, markdown.Root); ok {
			target = s.homes()[page]
		} else if address != markdown.Own {
			continue
		}
		var ids []string
		if target != nil {
			ids = s.render(target).ids
		}
		if slices.Contains(ids, fragment) {
			continue
		}
		do := "Link to the page without #" + fragment + "."
		if len(ids) > 0 {
			do = "The nearest heading there is #" + near(fragment, ids) + "."
		}
		all = append(all, s.storyNotice(st, markdown.Fault{
			Line: l.Line, Column: l.Column, ID: "link-dead", Says: "no heading there has the id " + fragment,
			Why: "The link leads to the top of the page instead.", Do: do,
		}))
	}
	return all
}

// gyleNotices are all of a gyle's, the gravest first, those accepted last.
func (s *Site) gyleNotices(g *book.Gyle) []notice.Notice {
	all := s.presentable(slices.Concat(g.Notices, s.ownNotices(g)))
	slices.SortStableFunc(all, func(a, b notice.Notice) int {
		switch {
		case a.Accepted == "" && b.Accepted != "":
			return -1
		case a.Accepted != "" && b.Accepted == "":
			return 1
		}
		return notice.Graver(a, b)
	})
	return all
}

// ownNotices are those of a gyle that only the site sees. They are found without those
// of all other files, so that a live page does not wait for all other stories.
func (s *Site) ownNotices(g *book.Gyle) []notice.Notice {
	var own []notice.Notice
	if st := s.stories[g.File]; st != nil {
		own = s.storyNotices(st)
	}
	own = slices.Concat(own, s.photoNotices(g))
	slices.SortStableFunc(own, notice.Compare)
	for i := range own {
		own[i].Accepted = acceptedBecause(g.Gyle, own[i].ID)
	}
	return own
}

// knownRules are the rules that the Workings page tells of, by id.
var knownRules = sync.OnceValue(func() map[string]bool {
	known := map[string]bool{}
	for _, r := range rules.Rules() {
		known[r.ID] = true
	}
	return known
})

// notice is one as a page shows it.
func (w pageWriter) notice(n notice.Notice, about view.Link) view.Notice {
	word := n.Severity.String()
	v := view.Notice{
		Severity: word, Word: strings.ToUpper(word[:1]) + word[1:], ID: n.ID,
		Says: sentence(
			n.Says,
		), Why: sentence(n.Why), Do: sentence(n.Do), Source: n.Source, Line: n.Line, About: about, Accepted: n.Accepted,
	}
	place := n.Place
	place.Column = 0
	v.Place = place.String()
	if knownRules()[n.ID] {
		v.Rule = w.to("workings/index.html") + "#r-" + n.ID
	}
	if g := w.book.GyleIn(n.Place.File); w.published(g) && w.options.Files != nil {
		v.Href = w.to(entryPath(g))
	}
	return v
}

func (w pageWriter) noticesOf(all []notice.Notice) []view.Notice {
	out := make([]view.Notice, 0, len(all))
	for _, n := range all {
		out = append(out, w.notice(n, view.Link{}))
	}
	return out
}

// sentence is a text that begins and ends like one.
func sentence(text string) string {
	text = strings.TrimSpace(text)
	if text == "" {
		return ""
	}
	if first := text[:1]; first >= "a" && first <= "z" && !strings.Contains(strings.SplitN(text, " ", 2)[0], ".") {
		text = strings.ToUpper(first) + text[1:]
	}
	if !strings.ContainsAny(text[len(text)-1:], ".!?:") {
		text += "."
	}
	return text
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

// brokenOn are the errors that stand at the top of a page, with their lines as
// typed: whoever writes them reads them there.
func (s *Site) brokenOn(path string) []notice.Notice {
	var all []notice.Notice
	for home, errors := range s.broken {
		if strings.HasPrefix(path, home) || path == board || path == front {
			all = append(all, errors...)
		}
	}
	slices.SortStableFunc(all, notice.Compare)
	return all
}

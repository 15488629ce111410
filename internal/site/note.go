package site

import (
	"cmp"
	"html/template"
	"path"
	"slices"
	"strconv"
	"strings"

	"golang.org/x/text/unicode/norm"

	"gylebook/internal/book"
	"gylebook/internal/journal"
	"gylebook/internal/notice"
	"gylebook/internal/site/markdown"
	"gylebook/internal/site/view"
)

// noteEntry is a note with its place on the site.
type noteEntry struct {
	note *journal.Note
	slug string
}

// title is the note's title, else its file's name.
func (n *noteEntry) title() string {
	if n.note.Title.Text != "" {
		return n.note.Title.Text
	}
	return strings.ReplaceAll(strings.TrimSuffix(path.Base(n.note.File), ".md"), "-", " ")
}

// listNotes lists the published notes, the latest first, and gives each a folder.
func (s *Site) listNotes() {
	s.noteIn = map[string]*noteEntry{}
	taken := map[string]bool{"index.html": true}
	byFile := slices.Clone(s.book.Notes)
	slices.SortFunc(byFile, func(a, b *journal.Note) int { return strings.Compare(a.File, b.File) })
	for _, n := range byFile {
		if n.Draft.Yes() && !s.options.Live {
			continue
		}
		e := &noteEntry{note: n, slug: noteSlug(n.File)}
		for i := 2; taken[e.slug]; i++ {
			e.slug = noteSlug(n.File) + "-" + strconv.Itoa(i)
		}
		taken[e.slug] = true
		s.notes = append(s.notes, e)
		s.noteIn[n.File] = e
	}
	slices.SortStableFunc(s.notes, func(a, b *noteEntry) int { return b.note.On.Time.Compare(a.note.On.Time) })
}

// noteSlug is a note's file as a folder: without notes/ before it and .md after.
func noteSlug(file string) string {
	parts := strings.Split(strings.TrimPrefix(strings.TrimSuffix(file, ".md"), "notes/"), "/")
	for i, p := range parts {
		parts[i] = plainSlug(norm.NFC.String(p))
	}
	slug := strings.Join(parts, "-")
	if book.IsDevice(slug) {
		slug += "-note"
	}
	return slug
}

// plainSlug is a name as part of a path: lower case, letters and digits of every
// language, hyphens between.
func plainSlug(name string) string {
	if slug := markdown.Hyphenated(name, 60); slug != "" {
		return slug
	}
	return "x"
}

// NotesPage is notes.html, the list of them.
type NotesPage struct {
	view.Frame
	Notes []view.Story
}

// NotePage is note.html, one of them.
type NotePage struct {
	view.Frame
	Heading string
	When    string
	Draft   bool
	Tags    []view.Link
	Errors  []view.Notice
	Body    template.HTML
}

var (
	_ = declare(pagesOf[*Site, NotesPage]{
		path: "notes/index.html", template: "notes.html", menu: menu{6, "Notes"}, fill: pageWriter.noteList,
	})
	_ = declare(pagesOf[*noteEntry, NotePage]{
		path: "notes/*/index.html", template: "note.html", fill: pageWriter.note,
		each: func(s *Site) []*noteEntry { return s.notes }, slug: func(n *noteEntry) string { return n.slug },
	})
)

func notePath(n *noteEntry) string { return "notes/" + n.slug + "/index.html" }

func (w pageWriter) noteList(v *NotesPage, _ *Site) {
	v.Title = "Notes"
	v.Description = "What " + cmp.Or(w.settings.Keeper.Text, "the brewer") + " has written beside the brewing."
	v.Notes = w.noteStories(w.notes)
}

func (w pageWriter) note(v *NotePage, n *noteEntry) {
	v.Title, v.Heading, v.When, v.Draft = n.title(), n.title(), w.spell.date(n.note.On), n.note.Draft.Yes()
	v.Description = cmp.Or(n.note.Summary.Text, w.story(n.note.File).excerpt)
	v.Body = template.HTML(w.placed(w.story(n.note.File).html, w.path))
	for _, t := range n.note.Tags {
		v.Tags = append(v.Tags, w.tag(t.Text))
	}
	v.Errors = w.noticesOf(w.fileNotices(n.note.File))
	w.describeNote(&v.Frame, n)
}

// fileNotices are those of a file that is no gyle's.
func (s *Site) fileNotices(file string) []notice.Notice {
	var all []notice.Notice
	for _, n := range s.book.Notices {
		if n.Place.File == file {
			all = append(all, n)
		}
	}
	var own []notice.Notice
	if st := s.stories[file]; st != nil {
		own = slices.Clone(s.storyNotices(st))
	}
	slices.SortStableFunc(own, notice.Compare)
	return s.presentable(append(all, own...))
}

// noteStory is a note in a list.
func (w pageWriter) noteStory(n *noteEntry) view.Story {
	return view.Story{
		Title: view.Link{Text: n.title(), Href: w.to(notePath(n))}, When: w.spell.date(n.note.On),
		Summary: cmp.Or(n.note.Summary.Text, w.story(n.note.File).excerpt),
	}
}

func (w pageWriter) noteStories(notes []*noteEntry) []view.Story {
	var stories []view.Story
	for _, n := range notes {
		stories = append(stories, w.noteStory(n))
	}
	return stories
}

func itoa(n int) string { return strconv.Itoa(n) }

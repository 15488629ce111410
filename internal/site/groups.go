package site

import (
	"slices"
	"strings"

	"gylebook/internal/book"
	"gylebook/internal/site/view"
)

// GroupsPage is groups.html, all tags or all years.
type GroupsPage struct {
	view.Frame
	Groups []GroupRow
}

// GroupRow is one of them.
type GroupRow struct {
	Name  view.Link
	Count string
}

// GroupPage is group.html, the gyles and notes under one tag or of one year.
type GroupPage struct {
	view.Frame
	Heading string
	Rows    []view.GyleRow
	Notes   []view.Story
}

var (
	_ = declare(groupsPage("tags/index.html", "Tags", (*Site).tagsShown, tagPath))
	_ = declare(groupsPage("years/index.html", "Years", (*Site).yearsShown, yearPath))
	_ = declare(groupPage("tags/*/index.html", "Tagged ", (*Site).tagsShown))
	_ = declare(groupPage("years/*/index.html", "The year ", (*Site).yearsShown))
)

func tagPath(t *book.Group) string  { return "tags/" + t.Slug + "/index.html" }
func yearPath(y *book.Group) string { return "years/" + y.Slug + "/index.html" }

func (s *Site) tagsShown() []*book.Group  { return s.groupsShown(s.book.Tags) }
func (s *Site) yearsShown() []*book.Group { return s.groupsShown(s.book.Years) }

// groupsShown are the tags or years that have anything published.
func (s *Site) groupsShown(groups []*book.Group) []*book.Group {
	var shown []*book.Group
	for _, g := range groups {
		if s.groupShown(g) {
			shown = append(shown, g)
		}
	}
	return shown
}

func (s *Site) groupShown(g *book.Group) bool {
	return slices.ContainsFunc(g.Gyles, s.published) || len(s.notesOf(g)) > 0
}

func groupsPage(
	path, title string, shown func(*Site) []*book.Group, pathOf func(*book.Group) string,
) pagesOf[*Site, GroupsPage] {
	fill := func(w pageWriter, v *GroupsPage, s *Site) {
		v.Title = title
		v.Description = "The gyles and notes by " + strings.ToLower(strings.TrimSuffix(title, "s")) + "."
		for _, g := range shown(s) {
			link := view.Link{Text: g.Name, Href: w.to(pathOf(g))}
			count := groupCount(len(w.publishedOf(g.Gyles)), len(w.notesOf(g)))
			v.Groups = append(v.Groups, GroupRow{link, count})
		}
	}
	return pagesOf[*Site, GroupsPage]{path: path, template: "groups.html", under: "gyles/index.html", fill: fill}
}

func groupPage(path, title string, shown func(*Site) []*book.Group) pagesOf[*book.Group, GroupPage] {
	fill := func(w pageWriter, v *GroupPage, g *book.Group) {
		v.Title, v.Heading = title+g.Name, title+g.Name
		v.Rows, v.Notes = w.rowsOf(g.Gyles), w.noteStories(w.notesOf(g))
		v.Description = v.Title + ": " + groupCount(len(v.Rows), len(v.Notes)) + "."
	}
	slug := func(g *book.Group) string { return g.Slug }
	return pagesOf[*book.Group, GroupPage]{
		path: path, template: "group.html", under: "gyles/index.html", each: shown, slug: slug, fill: fill,
	}
}

// notesOf are the published notes of a group.
func (s *Site) notesOf(g *book.Group) []*noteEntry {
	var notes []*noteEntry
	for _, n := range g.Notes {
		if e := s.noteIn[n.File]; e != nil {
			notes = append(notes, e)
		}
	}
	return notes
}

func groupCount(gyles, notes int) string {
	switch {
	case notes == 0:
		return counted(gyles, "gyle")
	case gyles == 0:
		return counted(notes, "note")
	}
	return counted(gyles, "gyle") + " and " + counted(notes, "note")
}

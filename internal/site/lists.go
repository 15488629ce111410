package site

import (
	"net/url"
	"slices"
	"strings"

	"gylebook/internal/book"
	"gylebook/internal/figures"
	"gylebook/internal/site/view"
)

func (s *Site) gylesPage() ([]byte, error) {
	w := s.pageAt("gyles/index.html")
	v := &view.Gyles{Frame: w.frame("gyles", "Gyles", "gyles/"), Rows: w.rowsOf(s.gyles)}
	v.ABVUnit, v.BitternessUnit, v.ColourUnit = s.spell.Into("% vol").Unit, s.spell.Into("IBU").Unit, s.spell.Into("EBC").Unit
	for i := range v.Rows {
		r := &v.Rows[i]
		r.ABV.Unit, r.Bitterness.Unit, r.Colour.Unit = "", "", ""
	}
	v.Description = "Every gyle in one table: " + s.count() + "."
	for _, stage := range figures.Stages() {
		v.Stages = append(v.Stages, stage.String())
	}
	for _, row := range v.Rows {
		v.Styles = append(v.Styles, row.Style.Text)
		v.Yeasts = append(v.Yeasts, strings.Split(row.Yeasts, "|")...)
	}
	v.Styles, v.Yeasts = distinct(v.Styles), distinct(v.Yeasts)
	for _, y := range s.book.Years {
		if len(s.publishedOf(y.Gyles)) > 0 {
			v.Years = append(v.Years, y.Name)
		}
	}
	return s.theme.page("gyles.html", v)
}

// distinct is what there is of some texts, each once, in order.
func distinct(texts []string) []string {
	slices.Sort(texts)
	return slices.DeleteFunc(slices.Compact(texts), func(t string) bool { return t == "" })
}

// groupShown tells whether a tag or year has anything published.
func (s *Site) groupShown(g *book.Group) bool {
	for _, x := range g.Gyles {
		if s.published(x) {
			return true
		}
	}
	for _, n := range g.Notes {
		if s.noteIn[n.File] != nil {
			return true
		}
	}
	return false
}

func (s *Site) groupPages() []Page {
	var pages []Page
	add := func(groups []*book.Group, path func(*book.Group) string, title func(*book.Group) string) {
		for _, g := range groups {
			if s.groupShown(g) {
				pages = append(pages, Page{path(g), func() ([]byte, error) { return s.groupPage(g, path(g), title(g)) }})
			}
		}
	}
	add(s.book.Tags, tagPath, func(g *book.Group) string { return "Tagged " + g.Name })
	add(s.book.Years, yearPath, func(g *book.Group) string { return "The year " + g.Name })
	return pages
}

func (s *Site) groupPage(g *book.Group, path, title string) ([]byte, error) {
	w := s.pageAt(path)
	v := &view.Group{Frame: w.frame("group", title, "gyles/"), Heading: title, Rows: w.rowsOf(g.Gyles)}
	for _, n := range g.Notes {
		if e := s.noteIn[n.File]; e != nil {
			v.Notes = append(v.Notes, w.noteStory(e))
		}
	}
	v.Description = title + ": " + groupCount(len(v.Rows), len(v.Notes)) + "."
	return s.theme.page("group.html", v)
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

func (s *Site) groupsPage(path, title string, groups []*book.Group, at func(*book.Group) string) ([]byte, error) {
	w := s.pageAt(path)
	v := &view.Groups{Frame: w.frame("groups", title, "gyles/")}
	v.Description = "The gyles and notes by " + strings.ToLower(strings.TrimSuffix(title, "s")) + "."
	for _, g := range groups {
		if !s.groupShown(g) {
			continue
		}
		notes := 0
		for _, n := range g.Notes {
			if s.noteIn[n.File] != nil {
				notes++
			}
		}
		v.Groups = append(v.Groups, view.GroupRow{Name: view.Link{Text: g.Name, Href: w.to(at(g))}, Count: groupCount(len(s.publishedOf(g.Gyles)), notes)})
	}
	return s.theme.page("groups.html", v)
}

// indexPages are the lists of things, tags, years and families.
func (s *Site) indexPages() []Page {
	pages := []Page{
		{"larder/index.html", func() ([]byte, error) { return s.larderPage() }},
		{"styles/index.html", func() ([]byte, error) {
			return s.subjectsPage("styles/index.html", "Styles", "What is customary for each, and what was brewed.", "larder/", "style")
		}},
		{"vessels/index.html", func() ([]byte, error) {
			return s.subjectsPage("vessels/index.html", "Vessels", "What each holds and takes, and what has been in it.", "larder/", "vessel")
		}},
		{"tags/index.html", func() ([]byte, error) { return s.groupsPage("tags/index.html", "Tags", s.book.Tags, tagPath) }},
		{"years/index.html", func() ([]byte, error) { return s.groupsPage("years/index.html", "Years", s.book.Years, yearPath) }},
		{"families/index.html", s.familiesPage},
	}
	if !s.private.Tasters {
		pages = append(pages, Page{"tasters/index.html", func() ([]byte, error) {
			return s.subjectsPage("tasters/index.html", "Tasters", "Who tasted what.", "larder/", "taster")
		}})
	}
	return pages
}

func (s *Site) searchPage() ([]byte, error) {
	w := s.pageAt("search/index.html")
	v := &view.Search{Frame: w.frame("search", "Search", "search/")}
	v.Description = "Search the whole book."
	return s.theme.page("search.html", v)
}

// notFoundPage is served for any address at any depth, so its links begin at the
// path of the public address where there is one.
func (s *Site) notFoundPage() ([]byte, error) {
	w := s.pageAt("404.html")
	if s.options.Live {
		w.root = "/"
	} else if u, err := url.Parse(s.address()); err == nil && u.Host != "" {
		w.root = u.EscapedPath()
	}
	v := &view.NotFound{Frame: w.frame("404", "Nothing here", "-")}
	return s.theme.page("404.html", v)
}

package site

import (
	"cmp"
	"html/template"
	"math"
	"strings"
	"unicode/utf8"

	"gylebook/internal/book"
	"gylebook/internal/site/view"
)

// FamiliesPage is families.html, the families of two gyles or more.
type FamiliesPage struct {
	view.Frame
	Families []FamilyRow
}

// FamilyRow is one of them.
type FamilyRow struct {
	Name    view.Link
	Members []view.Link
}

// FamilyPage is family.html, one of them, its revisions side by side.
type FamilyPage struct {
	view.Frame
	Heading string
	Lineage template.HTML
	Members []view.Link
	Rows    []FamilyLine
	Steps   []Step
}

// FamilyLine is one figure or ingredient across the family.
type FamilyLine struct {
	Label string
	Cells []FamilyCell
}

// FamilyCell is what one of the gyles has there; Differs tells it from the gyle
// before it.
type FamilyCell struct {
	Text    string
	Differs bool
}

// Step is what one revision changed and what it did.
type Step struct {
	From, To view.Link
	Changed  []string
	Did      []string
	Asked    []string // what the earlier entry meant to change
}

var (
	_ = declare(pagesOf[*Site, FamiliesPage]{
		path: "families/index.html", template: "families.html", menu: menu{4, "Families"}, fill: pageWriter.families,
	})
	_ = declare(pagesOf[*book.Family, FamilyPage]{
		path: "families/*/index.html", template: "family.html", fill: pageWriter.family,
		each: (*Site).familiesShown, slug: func(f *book.Family) string { return f.Slug },
	})
)

func familyPath(f *book.Family) string { return "families/" + f.Slug + "/index.html" }

// familiesShown are those of which two gyles are published.
func (s *Site) familiesShown() []*book.Family {
	var shown []*book.Family
	for _, f := range s.book.Families {
		if len(s.publishedOf(f.Gyles)) > 1 {
			shown = append(shown, f)
		}
	}
	return shown
}

func (w pageWriter) families(v *FamiliesPage, _ *Site) {
	v.Title, v.Description = "Families", "Gyles that revise one another, side by side."
	for _, f := range w.familiesShown() {
		link := view.Link{Text: f.Name, Href: w.to(familyPath(f))}
		v.Families = append(v.Families, FamilyRow{Name: link, Members: w.numberedAll(w.publishedOf(f.Gyles))})
	}
}

func (w pageWriter) family(v *FamilyPage, f *book.Family) {
	gyles := w.publishedOf(f.Gyles)
	v.Title, v.Heading = f.Name+", a family", f.Name
	v.Description = counted(len(gyles), "gyle") + " of one family, side by side."
	v.Lineage, v.Members = w.lineageChart(gyles, nil), w.numberedAll(gyles)
	for _, r := range book.SideBySide(gyles) {
		line := FamilyLine{Label: r.Label}
		for i, c := range r.Cells {
			line.Cells = append(line.Cells, FamilyCell{Text: held(c.Text), Differs: i > 0 && c.Text != r.Cells[i-1].Text})
		}
		v.Rows = append(v.Rows, line)
	}
	for _, step := range f.Steps() {
		if w.published(step.From) && w.published(step.To) {
			v.Steps = append(v.Steps, w.step(step))
		}
	}
}

// held keeps a short text on one line.
func held(text string) string {
	if utf8.RuneCountInString(text) > 24 {
		return text
	}
	return strings.ReplaceAll(text, " ", "\u00a0")
}

func (w pageWriter) step(s book.Step) Step {
	out := Step{From: w.numbered(s.From), To: w.numbered(s.To), Asked: texts(s.From.Next)}
	for _, c := range s.Recipe {
		out.Changed = append(out.Changed, changed(c))
	}
	for _, c := range s.Results {
		out.Did = append(out.Did, came(c))
	}
	return out
}

// changed is what a revision did to the recipe.
func changed(c book.Change) string {
	switch {
	case !c.Was.Known:
		return c.Label + ": " + cmp.Or(c.Is.Text, "added") + ", new"
	case !c.Is.Known:
		return c.Label + ": " + cmp.Or(c.Was.Text, "it") + " left out"
	}
	return c.Label + ": " + c.Was.Text + " to " + c.Is.Text
}

// came is what came of it, with whether the readings can tell.
func came(c book.Change) string {
	text := changed(c)
	switch {
	case !c.Was.Known || !c.Is.Known || math.IsNaN(c.By):
		return text
	case c.Clear():
		return text
	}
	return text + "; the readings cannot tell the two apart"
}

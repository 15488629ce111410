package site

import (
	"math"
	"slices"

	"gylebook/internal/book"
	"gylebook/internal/site/view"
)

func (s *Site) familyPages() []Page {
	var pages []Page
	for _, f := range s.book.Families {
		if len(s.publishedOf(f.Gyles)) > 1 {
			pages = append(pages, Page{familyPath(f), func() ([]byte, error) { return s.familyPage(f) }})
		}
	}
	return pages
}

func (s *Site) familiesPage() ([]byte, error) {
	w := s.pageAt("families/index.html")
	v := &view.Families{Frame: w.frame("families", "Families", "families/")}
	v.Description = "Gyles that revise one another, side by side."
	for _, f := range s.book.Families {
		if gyles := s.publishedOf(f.Gyles); len(gyles) > 1 {
			v.Families = append(v.Families, view.FamilyRow{Name: view.Link{Text: f.Name, Href: w.to(familyPath(f))}, Members: w.numberedAll(gyles)})
		}
	}
	return s.theme.page("families.html", v)
}

func (s *Site) familyPage(f *book.Family) ([]byte, error) {
	w := s.pageAt(familyPath(f))
	gyles := s.publishedOf(f.Gyles)
	v := &view.Family{Frame: w.frame("family", f.Name+", a family", "families/"), Heading: f.Name, Lineage: w.lineageChart(gyles, nil), Members: w.numberedAll(gyles)}
	v.Description = counted(len(gyles), "gyle") + " of one family, side by side."
	for _, r := range book.SideBySide(gyles) {
		line := view.FamilyLine{Label: r.Label}
		for i, c := range r.Cells {
			line.Cells = append(line.Cells, view.FamilyCell{Text: held(c.Text), Differs: i > 0 && c.Text != r.Cells[i-1].Text})
		}
		v.Rows = append(v.Rows, line)
	}
	for _, step := range f.Steps() {
		if s.published(step.From) && s.published(step.To) {
			v.Steps = append(v.Steps, w.step(step))
		}
	}
	return s.theme.page("family.html", v)
}

// held keeps a short text on one line.
func held(text string) string {
	out := []rune(text)
	if len(out) > 24 {
		return text
	}
	for i, r := range out {
		if r == ' ' {
			out[i] = '\u00a0'
		}
	}
	return string(out)
}

func (w pageWriter) step(s book.Step) view.Step {
	out := view.Step{From: w.numbered(s.From), To: w.numbered(s.To)}
	for _, c := range s.Recipe {
		out.Changed = append(out.Changed, changed(c))
	}
	for _, c := range s.Results {
		out.Did = append(out.Did, came(c))
	}
	for _, n := range s.From.Next {
		out.Asked = append(out.Asked, n.Text)
	}
	return out
}

// changed is what a revision did to the recipe.
func changed(c book.Change) string {
	switch {
	case !c.Was.Known:
		return c.Label + ": " + s2(c.Is.Text, "added") + ", new"
	case !c.Is.Known:
		return c.Label + ": " + s2(c.Was.Text, "it") + " left out"
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

func (s *Site) trendsPage() ([]byte, error) {
	w := s.pageAt("trends/index.html")
	v := &view.Trends{Frame: w.frame("trends", "Trends", "trends/")}
	v.Description = "Aims against results across the journal: yield, losses, attenuation."
	t := s.book.Trends()
	all := slices.Concat([]book.Series{t.BrewhouseYield, t.MashYield, t.BoilOff}, t.Losses, t.Attenuation)
	for i, series := range all {
		w.trend(v, series, "c-trend-"+itoa(i), false)
	}
	for i, series := range t.Aims {
		w.trend(v, series, "c-off-"+itoa(i), true)
	}
	return s.theme.page("trends.html", v)
}

// trend is one series; off says that it is what results are off their aims by.
func (w pageWriter) trend(v *view.Trends, s book.Series, prefix string, off bool) {
	table := newTable("", "", "Gyle", "#Result", "#Aim", "#Off by")
	shown := 0
	for i := len(s.Points) - 1; i >= 0; i-- {
		p := s.Points[i]
		if !w.published(p.Gyle) {
			continue
		}
		shown++
		if shown > 12 {
			continue
		}
		result := w.spell.measure(p.Value, p.PlusMinus, s.Unit, 1)
		aim, by := view.Measure{}, ""
		if off {
			aim = w.spell.measure(p.Aim, math.NaN(), s.Unit, aimDecimals(s.Unit))
			by = result.String()
			result = w.spell.measure(p.Got, p.PlusMinus, s.Unit, aimDecimals(s.Unit))
		}
		table.row(w.numbered(p.Gyle), result, aim, by)
	}
	if shown == 0 {
		return
	}
	title := s.Label
	if s.Of != "" {
		title += ", " + s.Of
	}
	if off {
		title += ", off its aim"
	}
	trend := view.Trend{ID: "p-" + prefix[2:], Title: title, Table: table.done(), Chart: w.seriesChart(prefix, s, 0, 0, "")}
	if s.Learned.Enough() {
		trend.Says = "Of the latest " + itoa(s.Learned.Gyles) + " settled gyles the middle one " + w.middle(s, off)
	}
	trend.Says = phrase(" ", trend.Says, plannedBy(s, off))
	if shown > 12 {
		trend.Table.Note = "The latest 12 of " + itoa(shown) + " gyles."
	}
	v.Trends = append(v.Trends, trend)
}

func aimDecimals(unit string) int {
	if unit == "SG" {
		return 3
	}
	return 1
}

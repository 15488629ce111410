package site

import (
	"gylebook/internal/book"
	"gylebook/internal/site/view"
)

func workingsPath(g *book.Gyle) string { return "gyles/" + g.Slug + "/workings/index.html" }

// gyleWorkingsPage is how each of a gyle's figures was worked out. It is a page
// of its own, since the workings weigh as much as all else on the gyle's.
func (s *Site) gyleWorkingsPage(g *book.Gyle) ([]byte, error) {
	w := s.pageAt(workingsPath(g))
	v := &view.GyleWorkings{Frame: w.frame("gyle-workings", "Workings, gyle "+g.Slug+", "+beer(g), "gyles/"), Number: g.Slug, Beer: beer(g), Gyle: w.numbered(g)}
	s.ribbon(&v.Frame, colourOf(g))
	v.Description = "How each figure of gyle " + g.Slug + ", " + beer(g) + ", was worked out."
	if !g.Unread {
		v.Workings, v.Doubts = w.workings(g, nil)
		v.Units = w.formulaUnits()
	}
	return s.theme.page("gyle-workings.html", v)
}

// formulaUnits says in what units workings are, where the settings ask for others.
func (w pageWriter) formulaUnits() string {
	if !w.spell.Converts() {
		return ""
	}
	return "Workings stay in litres, kilograms, °C, bar and EBC: a formula holds only in the units of its constants."
}

// otherWorkings is how many kinds of figure stand there beside those shown.
func otherWorkings(g *book.Gyle, shown int) string {
	kinds := map[string]bool{}
	for _, f := range g.Sheet.Figures {
		kinds[f.ID] = true
	}
	if more := len(kinds) - shown; more > 0 {
		return counted(more, "more figure")
	}
	return ""
}

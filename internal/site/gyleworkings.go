package site

import (
	"strings"

	"gylebook/internal/book"
	"gylebook/internal/figures"
	"gylebook/internal/site/view"
)

func workingsPath(g *book.Gyle) string { return "gyles/" + g.Slug + "/workings/index.html" }

// GyleWorkingsPage is gyle-workings.html: how each of a gyle's figures was worked out.
// It is a page of its own, since the workings weigh as much as all else on the gyle's.
type GyleWorkingsPage struct {
	view.Frame
	Number, Beer string
	Gyle         view.Link
	Units        string // in what units the workings are, "" where in those of all pages
	Workings     []view.Working
	Accounts     []view.Table // of each container: what came in, what went out, what is held
	Asides       view.Table   // what was noted beside lines of the entry
	Doubts       view.Table   // what each reading and formula that matters is doubted by, and why
}

var _ = declare(pagesOf[*book.Gyle, GyleWorkingsPage]{
	path: "gyles/*/workings/index.html", template: "gyle-workings.html", each: (*Site).gylesShown, slug: gyleSlug,
	fill: pageWriter.gyleWorkings,
})

func (w pageWriter) gyleWorkings(v *GyleWorkingsPage, g *book.Gyle) {
	v.Title = "Workings, gyle " + g.Slug + ", " + beer(g)
	v.Number, v.Beer, v.Gyle = g.Slug, beer(g), w.numbered(g)
	w.ribbon(&v.Frame, colourOf(g))
	v.Description = "How each figure of gyle " + g.Slug + ", " + beer(g) + ", was worked out."
	if !g.Unread {
		v.Workings, v.Doubts = w.workings(g, nil)
		v.Units = w.formulaUnits()
		v.Accounts = w.accounts(g)
		v.Asides = w.asides(g)
	}
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
	kinds := map[figures.ID]bool{}
	for _, f := range g.Sheet.Figures {
		kinds[f.ID] = true
	}
	if more := len(kinds) - shown; more > 0 {
		return counted(more, "more figure")
	}
	return ""
}

// asides are what was noted beside lines of the entry, and who did it where that is not
// private.
func (w pageWriter) asides(g *book.Gyle) view.Table {
	t := w.newTable("p-asides", "", "Beside", "Noted", "~From")
	for _, a := range g.Asides {
		of, what, _ := strings.Cut(a.Key, "].")
		by := what == "by"
		if by && w.private.Tasters {
			continue
		}
		text := a.Text
		if by {
			text = "by " + text
		}
		t.row(of+"]", text, placeIn(g, a.Where))
	}
	return t.done()
}

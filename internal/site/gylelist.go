package site

import (
	"slices"
	"strings"

	"gylebook/internal/figures"
	"gylebook/internal/site/view"
)

// GylesPage is gyles.html, the table of all gyles.
type GylesPage struct {
	view.Frame
	Rows   []view.GyleRow
	Stages []string
	Styles []string
	Yeasts []string
	Years  []string
	// The units of the columns, which stand in their heads.
	ABVUnit, BitternessUnit, ColourUnit string
}

var _ = declare(pagesOf[*Site, GylesPage]{
	path: "gyles/index.html", template: "gyles.html", menu: menu{2, "Gyles"}, fill: pageWriter.gyleList,
})

func (w pageWriter) gyleList(v *GylesPage, _ *Site) {
	v.Title, v.Description = "Gyles", "Every gyle in one table: "+w.count()+"."
	v.Rows = w.rowsOf(w.gyles)
	v.ABVUnit, v.BitternessUnit, v.ColourUnit = w.spell.Into("% vol").Unit, w.spell.Into("IBU").Unit, w.spell.Into("EBC").Unit
	for i := range v.Rows {
		r := &v.Rows[i]
		r.ABV.Unit, r.Bitterness.Unit, r.Colour.Unit = "", "", ""
	}
	for _, stage := range figures.Stages() {
		v.Stages = append(v.Stages, stage.String())
	}
	for _, row := range v.Rows {
		v.Styles = append(v.Styles, row.Style.Text)
		v.Yeasts = append(v.Yeasts, strings.Split(row.Yeasts, "|")...)
	}
	v.Styles, v.Yeasts = distinct(v.Styles), distinct(v.Yeasts)
	for _, y := range w.book.Years {
		if len(w.publishedOf(y.Gyles)) > 0 {
			v.Years = append(v.Years, y.Name)
		}
	}
}

// distinct is what there is of some texts, each once, in order.
func distinct(texts []string) []string {
	slices.Sort(texts)
	return slices.DeleteFunc(slices.Compact(texts), func(t string) bool { return t == "" })
}

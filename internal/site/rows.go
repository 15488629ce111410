package site

import (
	"math"
	"strconv"
	"strings"

	"gylebook/internal/book"
	"gylebook/internal/figures"
	"gylebook/internal/notice"
	"gylebook/internal/site/view"
)

// row is a gyle in a list on this page. What does not depend on the page is made
// once, since a gyle stands in a dozen lists.
func (w pageWriter) row(g *book.Gyle) view.GyleRow {
	kept, ok := w.rows.Load(g)
	if !ok {
		facts := w.rowFacts(g)
		kept, _ = w.rows.LoadOrStore(g, &facts)
	}
	row := *kept.(*view.GyleRow)
	row.Beer = w.gyle(g)
	row.Style = w.named("style", g.Style)
	for _, t := range g.Tags {
		row.Tags = append(row.Tags, w.tag(t.Text))
	}
	return row
}

func (w pageWriter) rowsOf(gyles []*book.Gyle) []view.GyleRow {
	var rows []view.GyleRow
	for _, g := range gyles {
		if w.published(g) {
			rows = append(rows, w.row(g))
		}
	}
	return rows
}

func (s *Site) rowFacts(g *book.Gyle) view.GyleRow {
	row := view.GyleRow{
		Number: g.Slug, Brewed: s.spell.tableDay(g.Begun), BrewedSort: s.spell.sortable(g.Begun),
		Stage: g.Sheet.Stage.String(),
		Line:  s.standing(g), Summary: g.Summary.Text, Draft: g.Draft.Yes(), Worst: worst(g.Notices),
	}
	var yeasts []string
	for _, y := range g.Yeast {
		yeasts = append(yeasts, y.Yeast.Name)
	}
	row.Yeasts = strings.Join(distinct(yeasts), "|")
	row.OG, row.OGSort = s.sorted(g, "og", "og-expected")
	row.FG, row.FGSort = s.sorted(g, "fg", "fg-expected")
	row.ABV, row.ABVSort = s.sorted(g, "abv-conditioned", "abv")
	row.Bitterness, row.BitternessSort = s.sorted(g, "bitterness")
	row.Colour, row.ColourSort = s.sorted(g, "colour")
	row.Shade = shade(colourOf(g))
	if f, ok := g.Sheet.First(figures.IDPintsLeft); ok && g.Sheet.Stage < figures.Empty {
		row.Pints = s.roughly(f) + " left"
	}
	return row
}

// roughly is a figure as a whole number, for lists.
func (s *Site) roughly(f figures.Figure) string {
	m := s.spell.measure(f.Value, math.NaN(), f.Unit, 0)
	return m.String()
}

// sorted is the first of these figures that the gyle has, with a number to sort
// by.
func (s *Site) sorted(g *book.Gyle, ids ...figures.ID) (view.Measure, string) {
	for _, id := range ids {
		if f, ok := g.Sheet.First(id); ok {
			return s.spell.figure(f), strconv.FormatFloat(f.Value, 'f', 4, 64)
		}
	}
	return view.Measure{}, ""
}

// colourOf is the beer's colour in EBC, else the one aimed at; NaN for neither.
func colourOf(g *book.Gyle) float64 {
	if f, ok := g.Sheet.First(figures.IDColour); ok {
		return f.Value
	}
	if g.Aim.Colour.Written() {
		return float64(g.Aim.Colour.Value)
	}
	return math.NaN()
}

// worst is the gravest of a gyle's warnings that is not accepted, "" for none
// above a note.
func worst(notices []notice.Notice) string {
	gravest := notice.Note
	for _, n := range notices {
		if n.Accepted == "" {
			gravest = max(gravest, n.Severity)
		}
	}
	if gravest == notice.Note {
		return ""
	}
	return gravest.String()
}

// collectTags are the tags that have a page, by name.
func (s *Site) collectTags() map[string]*book.Group {
	tags := map[string]*book.Group{}
	for _, t := range s.book.Tags {
		if s.groupShown(t) {
			tags[foldTag(t.Name)] = t
		}
	}
	return tags
}

// foldTag is a tag however it is spaced and in whatever case.
func foldTag(name string) string { return strings.ToLower(strings.Join(strings.Fields(name), " ")) }

// tag is a link to a tag's page.
func (w pageWriter) tag(name string) view.Link {
	if t := w.tags()[foldTag(name)]; t != nil {
		return view.Link{Text: name, Href: w.to(tagPath(t))}
	}
	return view.Link{Text: name}
}

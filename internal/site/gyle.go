package site

import (
	"fmt"
	"html/template"
	"io/fs"
	"slices"
	"strconv"
	"strings"

	"gylebook/internal/book"
	"gylebook/internal/figures"
	"gylebook/internal/journal"
	"gylebook/internal/notice"
	"gylebook/internal/site/view"
)

func entryPath(g *book.Gyle) string { return "gyles/" + g.Slug + "/entry.md" }

// gylePages are the files of one gyle.
func (s *Site) gylePages(g *book.Gyle) []Page {
	folder := "gyles/" + g.Slug + "/"
	pages := []Page{
		{folder + "index.html", func() ([]byte, error) { return s.gylePage(g) }},
		{folder + "copper-card/index.html", func() ([]byte, error) { return s.copperCardPage(g) }},
		{folder + "labels/index.html", func() ([]byte, error) { return s.labelsPage(g) }},
		{workingsPath(g), func() ([]byte, error) { return s.gyleWorkingsPage(g) }},
		{folder + "figures.json", func() ([]byte, error) {
			return figures.Encode(book.Publish(g.Sheet, s.gyleNotices(g), s.scrub))
		}},
	}
	if s.options.Files != nil {
		pages = append(pages, Page{entryPath(g), func() ([]byte, error) { return s.entry(g) }})
	}
	return pages
}

// entry is a gyle's source as it may be published.
func (s *Site) entry(g *book.Gyle) ([]byte, error) {
	raw, err := fs.ReadFile(s.options.Files, g.File)
	if err != nil {
		return nil, fmt.Errorf("reading an entry to publish its source: %w", err)
	}
	return s.hush(g, journal.Redact(raw, s.private)), nil
}

// redirectPages lead from old numbers to where the gyles are now. A number that
// another gyle has by now is that gyle's.
func (s *Site) redirectPages() []Page {
	taken := map[string]bool{}
	for _, g := range s.gyles {
		taken[g.Slug] = true
	}
	var pages []Page
	for _, g := range s.gyles {
		for _, old := range g.Formerly {
			slug := strconv.Itoa(old.N)
			if taken[slug] {
				continue
			}
			taken[slug] = true
			path := "gyles/" + slug + "/index.html"
			pages = append(pages, Page{path, func() ([]byte, error) {
				w := s.pageAt(path)
				v := &view.Redirect{Frame: w.frame("redirect", beer(g), "gyles/"), To: w.numbered(g)}
				v.Canonical = s.public(gylePath(g))
				return s.theme.page("redirect.html", v)
			}})
		}
	}
	return pages
}

func (s *Site) gylePage(g *book.Gyle) ([]byte, error) {
	w := s.pageAt(gylePath(g))
	v := &view.Gyle{Frame: w.frame("gyle", "Gyle "+g.Slug+", "+beer(g), "gyles/")}
	v.Number, v.Beer, v.Summary, v.Draft = g.Slug, beer(g), g.Summary.Text, g.Draft.Yes()
	v.Style, v.Follows = w.named("style", g.Style), w.numbered(g.Follows)
	s.ribbon(&v.Frame, colourOf(g))
	for _, t := range g.Tags {
		v.Tags = append(v.Tags, w.tag(t.Text))
	}
	v.Folio, v.Said, v.Cover = w.folio(g), w.said(g), w.cover(g)
	v.Description = s2(g.Summary.Text, plainPhrases(v.Said))
	w.warn(v, g)
	v.Story = template.HTML(w.placed(s.story(g.File).html, w.path))
	if !g.Unread {
		v.Verdict = w.verdict(g)
		v.Clock = w.clockOnPage(g)
		w.results(v, g)
		w.recipe(v, g)
		w.cellar(v, g)
		w.tasted(v, g)
		w.nextTime(v, g)
		w.planning(v, g)
	}
	w.relatives(v, g)
	v.Used = unlinked(v.Used, v.Tables)
	w.around(v, g)
	v.Photos = w.gallery(g)
	v.CardHref, v.LabelHref, v.JSONHref = w.to("gyles/"+g.Slug+"/copper-card/index.html"), w.to("gyles/"+g.Slug+"/labels/index.html"), w.to("gyles/"+g.Slug+"/figures.json")
	v.EntryFile = g.File
	if s.options.Files != nil {
		v.EntryHref = w.to(entryPath(g))
	}
	v.Cautions = cautions(g)
	w.describeGyle(&v.Frame, g)
	return s.theme.page("gyle.html", v)
}

// warn sorts the gyle's notices: what could not be read, what wants seeing to,
// what is accepted.
func (w pageWriter) warn(v *view.Gyle, g *book.Gyle) {
	for _, n := range w.gyleNotices(g) {
		shown := w.notice(n, view.Link{})
		switch {
		case n.Severity == notice.Unreadable:
			v.Errors = append(v.Errors, shown)
		case n.Accepted != "":
			v.Accepted = append(v.Accepted, shown)
		default:
			v.Notices = append(v.Notices, shown)
		}
	}
}

// folio is the short facts of the margin.
func (w pageWriter) folio(g *book.Gyle) []string {
	var facts []string
	switch {
	case !g.Brewed.Written():
	case g.Sheet.Stage == figures.Paper:
		facts = append(facts, "to be brewed "+w.spell.narrowDay(g.Brewed.Time))
	default:
		facts = append(facts, "brewed "+w.spell.narrowDay(g.Brewed.Time))
	}
	stage := g.Sheet.Stage.String()
	if day := dayOf(g, w.book.Now); day > 0 && g.Sheet.Stage > figures.Paper && g.Sheet.Stage < figures.Empty {
		stage += ", day " + strconv.Itoa(day)
	}
	return append(facts, stage)
}

// relatives is what the gyle has to do with others.
func (w pageWriter) relatives(v *view.Gyle, g *book.Gyle) {
	v.Revised, v.Drawn, v.Parted = w.numberedAll(g.Revised), w.numberedAll(g.Drawn), w.numberedAll(g.Parted)
	if g.Family != nil && len(w.publishedOf(g.Family.Gyles)) > 1 {
		v.Family = view.Link{Text: g.Family.Name, Href: w.to(familyPath(g.Family))}
		v.Lineage = w.lineageChart(w.publishedOf(g.Family.Gyles), g)
	}
	seen := map[*book.Subject]bool{}
	for _, u := range g.Uses() {
		if u.Subject == nil || seen[u.Subject] && u.Amount == "" || u.Subject.Kind == "taster" && w.private.Tasters {
			continue
		}
		seen[u.Subject] = true
		v.Used = append(v.Used, view.Used{What: w.subject(u.Subject), Kind: u.Subject.Kind, Amount: u.Amount})
	}
	if !w.private.Costs && len(g.Costs) > 0 {
		v.Costs = w.costs(g)
	}
}

// unlinked are the things used that no table of the page links to already.
func unlinked(used []view.Used, tables []view.Table) []view.Used {
	linked := map[string]bool{}
	for _, t := range tables {
		for _, row := range t.Rows {
			for _, c := range row {
				linked[c.Href] = true
			}
		}
	}
	return slices.DeleteFunc(used, func(u view.Used) bool { return u.What.Href != "" && linked[u.What.Href] })
}

// around links to the gyles brewed before and after.
func (w pageWriter) around(v *view.Gyle, g *book.Gyle) {
	i := slices.Index(w.gyles, g)
	if i > 0 {
		v.After = w.numbered(w.gyles[i-1])
	}
	if i >= 0 && i+1 < len(w.gyles) {
		v.Before = w.numbered(w.gyles[i+1])
	}
}

func (w pageWriter) costs(g *book.Gyle) view.Table {
	t := view.Table{ID: "p-costs", Title: "Costs", Columns: []view.Column{{Head: "On what"}, {Head: "Paid"}}}
	sums := map[string]float64{}
	var currencies []string
	for _, c := range g.Costs {
		if !c.Paid.Written() {
			continue
		}
		if _, ok := sums[c.Paid.Currency]; !ok {
			currencies = append(currencies, c.Paid.Currency)
		}
		sums[c.Paid.Currency] += c.Paid.Sum
		t.Rows = append(t.Rows, []view.Cell{{Text: c.What.Text}, {Text: money(c.Paid.Sum, c.Paid.Currency)}})
	}
	for _, currency := range currencies {
		t.Rows = append(t.Rows, []view.Cell{{Text: "In all"}, {Text: money(sums[currency], currency)}})
	}
	return t
}

func money(sum float64, currency string) string {
	return strconv.FormatFloat(sum, 'f', 2, 64) + "\u00a0" + currency
}

func plainPhrases(phrases []view.Phrase) string {
	var b strings.Builder
	for _, p := range phrases {
		b.WriteString(p.Text)
	}
	return b.String()
}

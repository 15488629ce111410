package site

import (
	"cmp"
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

// GylePage is gyle.html, one gyle's page.
type GylePage struct {
	view.Frame
	view.Gyle // its Workings are of the figures that are aimed at
	Number    string
	Beer      string
	Style     view.Link
	Folio     []string // short facts for the margin
	Follows   view.Link
	Tags      []view.Link
	Draft     bool
	Said      []Phrase // the headline, a sentence
	Summary   string
	Clock     view.BrewClock
	Cover     view.Picture
	Errors    []view.Notice // what could not be read
	Dangers   []view.Notice // in full, accepted or not
	Lesser    []view.Notice // the other warnings, the gravest first
	LesserSay string        // how many they are: "1 to mend, 2 to look at"
	Aims      []Aim
	Story     template.HTML
	Footnotes template.HTML // those of the story
	Praise    *Tasting      // the best thing a taster said, nil for none
	Ferment   template.HTML // chart
	Condition template.HTML // chart
	Left      template.HTML // chart
	WentIn    []view.Table  // grist, hops, yeast and what else went in
	Brewed    []view.Table  // the rest of brew day, and the readings
	Cellar    []view.Table
	Tastings  []Tasting
	Tasted    string // what the tasters said together
	Next      []string
	Plan      *Plan // nil without a party to come
	CameTrue  *CameTrue
	Revised   []view.Link
	Drawn     []view.Link // the gyles it was drawn from
	Parted    []view.Link // the gyles drawn from it
	Family    view.Link
	Lineage   template.HTML // chart
	Used      []Used
	Costs     view.Table
	Photos    []view.Picture
	Cautions  []string
	EntryHref string // the source, as published
	EntryFile string
	JSONHref  string
	CardHref  string
	LabelHref string
	Before    view.Link // the gyle brewed before
	After     view.Link

	WorkingsHref  string // the page of all workings, gyle-workings.html
	OtherWorkings string // how many more stand there: "41 more figures"
}

// Used is a thing with a page of its own that the gyle used.
type Used struct {
	What   view.Link
	Kind   string
	Amount string
}

// RedirectPage is redirect.html, at an address that a gyle had before.
type RedirectPage struct {
	view.Frame
	To view.Link
}

var (
	_ = declare(pagesOf[*book.Gyle, GylePage]{
		path: "gyles/*/index.html", template: "gyle.html", each: (*Site).gylesShown, slug: gyleSlug, fill: pageWriter.gylePage,
	})
	_ = declare(pagesOf[formerNumber, RedirectPage]{
		path: "gyles/*/index.html", template: "redirect.html", unlisted: true,
		each: (*Site).formerNumbers, slug: func(n formerNumber) string { return n.slug }, fill: pageWriter.redirect,
	})
	_ = declare(filesOf[*book.Gyle]{
		path: "gyles/*/figures.json", each: (*Site).gylesShown, slug: gyleSlug,
		render: func(s *Site, _ string, g *book.Gyle) ([]byte, error) {
			return figures.Encode(book.Publish(g.Sheet, s.gyleNotices(g), s.scrub))
		},
	})
	_ = declare(filesOf[*book.Gyle]{
		path: "gyles/*/entry.md", each: (*Site).gylesWithSource, slug: gyleSlug, render: (*Site).entry,
	})
)

func gylePath(g *book.Gyle) string  { return "gyles/" + g.Slug + "/index.html" }
func entryPath(g *book.Gyle) string { return "gyles/" + g.Slug + "/entry.md" }
func gyleSlug(g *book.Gyle) string  { return g.Slug }

func (s *Site) gylesShown() []*book.Gyle { return s.gyles }

// gylesWithSource are those whose entries are at hand to be published.
func (s *Site) gylesWithSource() []*book.Gyle {
	if s.options.Files == nil {
		return nil
	}
	return s.gyles
}

// entry is a gyle's source as it may be published.
func (s *Site) entry(_ string, g *book.Gyle) ([]byte, error) {
	raw, err := fs.ReadFile(s.options.Files, g.File)
	if err != nil {
		return nil, fmt.Errorf("reading an entry to publish its source: %w", err)
	}
	return s.hush(g, journal.Redact(raw, s.private)), nil
}

// formerNumber is a number that a gyle had before.
type formerNumber struct {
	slug string
	now  *book.Gyle
}

// formerNumbers lead to where the gyles are now. A number that another gyle has by now
// is that gyle's.
func (s *Site) formerNumbers() []formerNumber {
	taken := map[string]bool{}
	for _, g := range s.gyles {
		taken[g.Slug] = true
	}
	var former []formerNumber
	for _, g := range s.gyles {
		for _, old := range g.Formerly {
			if slug := itoa(old.N); !taken[slug] {
				taken[slug] = true
				former = append(former, formerNumber{slug, g})
			}
		}
	}
	return former
}

func (w pageWriter) redirect(v *RedirectPage, n formerNumber) {
	v.Title, v.To, v.Canonical = beer(n.now), w.numbered(n.now), w.public(gylePath(n.now))
}

func (w pageWriter) gylePage(v *GylePage, g *book.Gyle) {
	v.Title = "Gyle " + g.Slug + ", " + beer(g)
	v.Number, v.Beer, v.Summary, v.Draft = g.Slug, beer(g), g.Summary.Text, g.Draft.Yes()
	v.Style, v.Follows = w.named("style", g.Style), w.numbered(g.Follows)
	w.ribbon(&v.Frame, colourOf(g))
	for _, t := range g.Tags {
		v.Tags = append(v.Tags, w.tag(t.Text))
	}
	v.Folio, v.Said = w.folio(g), w.said(g)
	v.Description = cmp.Or(g.Summary.Text, plainPhrases(v.Said))
	w.warn(v, g)
	w.tell(v, g)
	if !g.Unread {
		v.Gyle = w.report(g, headlines())
		v.Clock = w.clockOnPage(g)
		w.results(v, g)
		w.recipe(v, g)
		w.cellar(v, g)
		w.tasted(v, g)
		v.CameTrue = w.cameTrue(g)
		w.planning(v, g)
	}
	w.relatives(v, g)
	v.Used = unlinked(v.Used, slices.Concat(v.WentIn, v.Brewed, v.Cellar))
	w.around(v, g)
	v.Photos = w.gallery(g)
	v.CardHref, v.LabelHref = w.to(copperCardPath(g)), w.to(labelsPath(g))
	v.JSONHref, v.EntryFile = w.to("gyles/"+g.Slug+"/figures.json"), g.File
	if w.options.Files != nil {
		v.EntryHref = w.to(entryPath(g))
	}
	v.Cautions = cautions(g)
	w.describeGyle(&v.Frame, g)
}

// warn sorts the gyle's notices: what could not be read, dangers, and all the rest. A
// danger that the brewer accepts is one to whoever reads of it.
func (w pageWriter) warn(v *GylePage, g *book.Gyle) {
	var lesser []notice.Notice
	for _, n := range w.gyleNotices(g) {
		switch n.Severity {
		case notice.Unreadable:
			v.Errors = append(v.Errors, w.notice(n, view.Link{}))
		case notice.Danger:
			v.Dangers = append(v.Dangers, w.notice(n, view.Link{}))
		default:
			lesser = append(lesser, n)
		}
	}
	v.Lesser, v.LesserSay = w.noticesOf(lesser), countedBySeverity(lesser)
}

// countedBySeverity says how many notices there are of each severity.
func countedBySeverity(all []notice.Notice) string {
	var unread, danger, mend, look, note, accepted int
	for _, n := range all {
		switch {
		case n.Severity == notice.Unreadable:
			unread++
		case n.Severity == notice.Danger:
			danger++
		case n.Accepted != "":
			accepted++
		case n.Severity == notice.Mend:
			mend++
		case n.Severity == notice.Look:
			look++
		default:
			note++
		}
	}
	var parts []string
	for _, c := range []struct {
		n    int
		says string
	}{{unread, " not read"}, {danger, " of danger"}, {mend, " to mend"}, {look, " to look at"}, {note, " to note"}, {accepted, " seen and accepted"}} {
		if c.n > 0 {
			parts = append(parts, itoa(c.n)+c.says)
		}
	}
	return strings.Join(parts, ", ")
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
func (w pageWriter) relatives(v *GylePage, g *book.Gyle) {
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
		v.Used = append(v.Used, Used{What: w.subject(u.Subject), Kind: u.Subject.Kind, Amount: u.Amount})
	}
	if !w.private.Costs && len(g.Costs) > 0 {
		v.Costs = w.costs(g)
	}
}

// unlinked are the things used that no table of the page links to already.
func unlinked(used []Used, tables []view.Table) []Used {
	linked := map[string]bool{}
	for _, t := range tables {
		for _, row := range t.Rows {
			for _, c := range row {
				linked[c.Href] = true
			}
		}
	}
	return slices.DeleteFunc(used, func(u Used) bool { return u.What.Href != "" && linked[u.What.Href] })
}

// around links to the gyles brewed before and after.
func (w pageWriter) around(v *GylePage, g *book.Gyle) {
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

func plainPhrases(phrases []Phrase) string {
	var b strings.Builder
	for _, p := range phrases {
		b.WriteString(p.Text)
	}
	return b.String()
}

package site

import (
	"cmp"
	"html/template"
	"slices"
	"strings"

	"gylebook/internal/book"
	"gylebook/internal/site/view"
)

// larderKinds are the kinds of card of the larder, in the order of a brew day.
var larderKinds = []struct{ kind, title string }{
	{"malt", "Malts and adjuncts"}, {"sugar", "Sugars and syrups"}, {"hop", "Hops"}, {"yeast", "Yeasts"}, {"water", "Waters"}, {"salt", "Salts"},
	{"fruit", "Fruit and juice"}, {"fining", "Finings"}, {"cleaner", "Cleaners"}, {"instrument", "Instruments"},
}

// mostUses is how many uses a thing's page lists.
const mostUses = 300

// SubjectsPage is subjects.html, a list of things that have pages: the larder, the
// styles, the vessels, the tasters.
type SubjectsPage struct {
	view.Frame
	Lead   string
	Groups []SubjectGroup
}

// SubjectGroup is the subjects of one kind.
type SubjectGroup struct {
	ID, Title string
	Subjects  []SubjectRow
}

// SubjectRow is one of them.
type SubjectRow struct {
	Name view.Link
	Used string
	Says string
}

// SubjectPage is subject.html, the page of one thing.
type SubjectPage struct {
	view.Frame
	Name, KindOf string
	Also         string
	Facts        []view.Property
	Source       string
	BuiltIn      bool
	NoCard       bool
	Body         template.HTML
	Lead         string // what came of it, in a sentence
	Charts       []template.HTML
	Learnt       string     // what the next gyle with a yeast is expected by
	History      view.Table // of a vessel: what was in it, when, at what pressure
	Uses         []UseRow
	Tastings     []TastingRow
}

// UseRow is one gyle's use of a subject.
type UseRow struct {
	Gyle        view.GyleRow
	Amount      string
	Attenuation view.Measure
}

// TastingRow is a tasting on its taster's page.
type TastingRow struct {
	Gyle view.Link
	Tasting
}

var (
	_ = declare(pagesOf[*Site, SubjectsPage]{
		path: "larder/index.html", template: "subjects.html", menu: menu{3, "Larder"}, fill: pageWriter.larder,
	})
	_ = declare(subjectsPage("style", "Styles", "What is customary for each, and what was brewed."))
	_ = declare(subjectsPage("vessel", "Vessels", "What each holds and takes, and what has been in it."))
	_ = declare(subjectsPage("taster", "Tasters", "Who tasted what."))
	_ = declare(pagesOf[*book.Subject, SubjectPage]{
		path: "*/index.html", template: "subject.html", under: larderPath, fill: pageWriter.subjectPage,
		each: (*Site).subjectsShown, slug: subjectFolder,
	})
)

const larderPath = "larder/index.html"

func subjectPath(s *book.Subject) string { return subjectFolder(s) + "/index.html" }

// subjectFolder is where a thing's page is.
func subjectFolder(s *book.Subject) string {
	switch s.Kind {
	case "style", "vessel", "taster":
		return s.Kind + "s/" + s.Slug
	}
	return "larder/" + s.Kind + "/" + s.Slug
}

func (s *Site) subjectsShown() []*book.Subject {
	return slices.DeleteFunc(slices.Clone(s.book.Subjects), func(subject *book.Subject) bool { return !s.shown(subject) })
}

// subjectsPage declares the list of one kind of thing.
func subjectsPage(kind, title, lead string) pagesOf[*Site, SubjectsPage] {
	return pagesOf[*Site, SubjectsPage]{
		path: kind + "s/index.html", template: "subjects.html", under: larderPath,
		each: where(func(s *Site) bool { return kind != "taster" || !s.private.Tasters }),
		fill: func(w pageWriter, v *SubjectsPage, _ *Site) {
			v.Title, v.Lead, v.Description = title, lead, lead
			v.Groups = []SubjectGroup{{Subjects: w.subjectRows(kind)}}
		},
	}
}

func (w pageWriter) larder(v *SubjectsPage, _ *Site) {
	v.Title = "Larder"
	v.Lead = "Everything the gyles are made of and worked with, where it was used and what came of it."
	v.Description = v.Lead
	v.Groups = append(v.Groups, SubjectGroup{ID: "p-more", Title: "Elsewhere", Subjects: w.elsewhere()})
	for _, k := range larderKinds {
		if rows := w.subjectRows(k.kind); len(rows) > 0 {
			v.Groups = append(v.Groups, SubjectGroup{ID: "p-" + k.kind, Title: k.title, Subjects: rows})
		}
	}
}

// elsewhere are the lists that stand beside the larder.
func (w pageWriter) elsewhere() []SubjectRow {
	rows := []SubjectRow{
		{Name: view.Link{Text: "Styles", Href: w.to("styles/index.html")}, Says: "what is customary"},
		{Name: view.Link{Text: "Vessels", Href: w.to("vessels/index.html")}, Says: "what holds the beer"},
		{Name: view.Link{Text: "Tags", Href: w.to("tags/index.html")}, Says: "words to find a beer by"},
		{Name: view.Link{Text: "Years", Href: w.to("years/index.html")}, Says: "a year of brewing a page"},
	}
	if !w.private.Tasters {
		rows = append(rows, SubjectRow{Name: view.Link{Text: "Tasters", Href: w.to("tasters/index.html")}, Says: "who tasted what"})
	}
	return rows
}

func (w pageWriter) subjectRows(kind string) []SubjectRow {
	var rows []SubjectRow
	for _, subject := range w.subjectsShown() {
		if subject.Kind != kind {
			continue
		}
		row := SubjectRow{Name: w.subject(subject), Used: "not used yet"}
		row.Name.Text = shownName(subject)
		if gyles := usedIn(w.publishedUses(subject)); gyles > 0 {
			row.Used = "in " + counted(gyles, "gyle")
		}
		row.Says = plainFacts(w.facts(subject))
		rows = append(rows, row)
	}
	return rows
}

// usedIn is in how many gyles.
func usedIn(uses []book.Use) int {
	seen := map[*book.Gyle]bool{}
	for _, u := range uses {
		seen[u.Gyle] = true
	}
	return len(seen)
}

func plainFacts(facts []view.Property) string {
	var parts []string
	for _, f := range facts[:min(len(facts), 3)] {
		parts = append(parts, f.Name+" "+f.Value)
	}
	return strings.Join(parts, ", ")
}

func (w pageWriter) subjectPage(v *SubjectPage, subject *book.Subject) {
	v.Name, v.KindOf, v.NoCard = shownName(subject), subject.Kind, subject.Card == nil
	v.Title = v.Name
	if card := subject.Card; card != nil {
		v.BuiltIn, v.Source = card.BuiltIn, card.Source.Text
		if subject.Kind != "taster" {
			v.Also = strings.Join(texts(card.Also), ", ")
		}
		if !card.BuiltIn {
			v.Body = template.HTML(w.placed(w.story(card.File).html, w.path))
		}
	}
	v.Facts = w.facts(subject)
	uses := w.publishedUses(subject)
	v.Lead = usedLead(uses)
	v.Description = cmp.Or(v.Lead, v.Name)
	w.charts(v, subject)
	switch subject.Kind {
	case "taster":
		v.Tastings = w.tastingsBy(subject)
	case "vessel":
		v.History = w.vesselHistory(subject, uses)
		w.uses(v, uses)
	default:
		w.uses(v, uses)
	}
}

func usedLead(uses []book.Use) string {
	gyles := usedIn(uses)
	if gyles == 0 {
		return "Not used yet."
	}
	text := "Used in " + counted(gyles, "gyle")
	if gyles > mostUses {
		text += "; the latest are below"
	}
	return text + "."
}

// uses are the gyles, each once, with all that it used of the thing.
func (w pageWriter) uses(v *SubjectPage, uses []book.Use) {
	at := map[*book.Gyle]int{}
	for _, u := range uses {
		if i, ok := at[u.Gyle]; ok {
			v.Uses[i].Amount = phrase("; ", v.Uses[i].Amount, u.Amount)
			continue
		}
		if len(v.Uses) == mostUses {
			break
		}
		at[u.Gyle] = len(v.Uses)
		row := UseRow{Gyle: w.row(u.Gyle), Amount: u.Amount}
		if u.Subject != nil && u.Subject.Kind == "yeast" {
			row.Attenuation, _ = w.sorted(u.Gyle, "apparent-attenuation")
		}
		v.Uses = append(v.Uses, row)
	}
}

// charts are what came of a thing: a yeast's attenuation across the journal.
func (w pageWriter) charts(v *SubjectPage, subject *book.Subject) {
	if subject.Kind != "yeast" {
		return
	}
	for _, series := range w.book.Trends().Attenuation {
		if series.Subject != subject {
			continue
		}
		v.Learnt = w.learnt(series)
		low, high := 0.0, 0.0
		if subject.Card != nil && subject.Card.Yeast != nil {
			low, high = float64(subject.Card.Yeast.Attenuates.Low), float64(subject.Card.Yeast.Attenuates.High)
		}
		if drawn := w.seriesChart("c-attenuation", series, low, high, "the card’s range"); drawn != "" {
			v.Charts = append(v.Charts, drawn)
		}
	}
}

// tastingsBy are a taster's tastings, the latest gyle first.
func (w pageWriter) tastingsBy(subject *book.Subject) []TastingRow {
	var rows []TastingRow
	for _, g := range w.gyles {
		for _, t := range g.Tastings {
			if t.By.Name != "" && w.book.Subject("taster", t.By.Name) == subject {
				rows = append(rows, TastingRow{Gyle: w.numbered(g), Tasting: w.tasting(g, t)})
			}
		}
	}
	return rows
}

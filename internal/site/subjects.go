package site

import (
	"html/template"
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

func (s *Site) larderPage() ([]byte, error) {
	w := s.pageAt("larder/index.html")
	v := &view.Subjects{Frame: w.frame("subjects", "Larder", "larder/"), Lead: "Everything the gyles are made of and worked with, where it was used and what came of it."}
	v.Description = v.Lead
	v.Groups = append(v.Groups, view.SubjectGroup{ID: "p-more", Title: "Elsewhere", Subjects: w.elsewhere()})
	for _, k := range larderKinds {
		if rows := w.subjectRows(k.kind); len(rows) > 0 {
			v.Groups = append(v.Groups, view.SubjectGroup{ID: "p-" + k.kind, Title: k.title, Subjects: rows})
		}
	}
	return s.theme.page("subjects.html", v)
}

// elsewhere are the lists that stand beside the larder.
func (w pageWriter) elsewhere() []view.SubjectRow {
	rows := []view.SubjectRow{
		{Name: view.Link{Text: "Styles", Href: w.to("styles/index.html")}, Says: "what is customary"},
		{Name: view.Link{Text: "Vessels", Href: w.to("vessels/index.html")}, Says: "what holds the beer"},
		{Name: view.Link{Text: "Tags", Href: w.to("tags/index.html")}, Says: "words to find a beer by"},
		{Name: view.Link{Text: "Years", Href: w.to("years/index.html")}, Says: "a year of brewing a page"},
	}
	if !w.private.Tasters {
		rows = append(rows, view.SubjectRow{Name: view.Link{Text: "Tasters", Href: w.to("tasters/index.html")}, Says: "who tasted what"})
	}
	return rows
}

func (w pageWriter) subjectRows(kind string) []view.SubjectRow {
	var rows []view.SubjectRow
	for _, subject := range w.book.Subjects {
		if subject.Kind != kind || !w.shown(subject) {
			continue
		}
		row := view.SubjectRow{Name: w.subject(subject), Used: "not used yet"}
		if kind == "taster" {
			row.Name.Text = tasterName(subject, subject.Name)
		}
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

func (s *Site) subjectsPage(path, title, lead, part, kind string) ([]byte, error) {
	w := s.pageAt(path)
	v := &view.Subjects{Frame: w.frame("subjects", title, part), Lead: lead}
	v.Description = lead
	v.Groups = []view.SubjectGroup{{Subjects: w.subjectRows(kind)}}
	return s.theme.page("subjects.html", v)
}

func (s *Site) subjectPages() []Page {
	var pages []Page
	for _, subject := range s.book.Subjects {
		if s.shown(subject) {
			pages = append(pages, Page{subjectPath(subject), func() ([]byte, error) { return s.subjectPage(subject) }})
		}
	}
	return pages
}

func (s *Site) subjectPage(subject *book.Subject) ([]byte, error) {
	w := s.pageAt(subjectPath(subject))
	name := subject.Name
	if subject.Kind == "taster" {
		name = tasterName(subject, name)
	}
	v := &view.Subject{Frame: w.frame("subject", name, "larder/"), Name: name, KindOf: subject.Kind, NoCard: subject.Card == nil}
	if card := subject.Card; card != nil {
		v.BuiltIn, v.Source = card.BuiltIn, card.Source.Text
		var also []string
		for _, t := range card.Also {
			also = append(also, t.Text)
		}
		if subject.Kind != "taster" {
			v.Also = strings.Join(also, ", ")
		}
		if !card.BuiltIn {
			v.Body = template.HTML(w.placed(s.story(card.File).html, w.path))
		}
	}
	v.Facts = w.facts(subject)
	uses := w.publishedUses(subject)
	v.Lead = usedLead(uses)
	v.Description = s2(v.Lead, name)
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
	return s.theme.page("subject.html", v)
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
func (w pageWriter) uses(v *view.Subject, uses []book.Use) {
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
		row := view.UseRow{Gyle: w.row(u.Gyle), Amount: u.Amount}
		if u.Subject != nil && u.Subject.Kind == "yeast" {
			row.Attenuation, _ = w.sorted(u.Gyle, "apparent-attenuation")
		}
		v.Uses = append(v.Uses, row)
	}
}

// charts are what came of a thing: a yeast's attenuation across the journal.
func (w pageWriter) charts(v *view.Subject, subject *book.Subject) {
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
func (w pageWriter) tastingsBy(subject *book.Subject) []view.TastingRow {
	var rows []view.TastingRow
	for _, g := range w.gyles {
		for _, t := range g.Tastings {
			if t.By.Name != "" && w.book.Subject("taster", t.By.Name) == subject {
				rows = append(rows, view.TastingRow{Gyle: w.numbered(g), Tasting: w.tasting(g, t)})
			}
		}
	}
	return rows
}

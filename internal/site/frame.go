package site

import (
	"strconv"
	"strings"

	"gylebook/internal/book"
	"gylebook/internal/site/view"
)

// bookTitle is the journal's title.
func (s *Site) bookTitle() string {
	if title := strings.TrimSpace(s.settings.Title.Text); title != "" {
		return title
	}
	return "A brewing book"
}

// frame is what every page has. Part is the first folder of the navigation's
// link that the page belongs under, "" for the board.
func (w pageWriter) frame(kind, title, part string) view.Frame {
	language := s2(w.settings.Language.Text, "en")
	f := view.Frame{
		API: view.APIVersion, Kind: kind, Title: title, Book: w.bookTitle(), Keeper: w.settings.Keeper.Text, Language: language, Root: w.root,
		Canonical: w.public(w.path), WorkedOut: w.spell.day(w.book.Now), Version: w.options.Version, Copyright: w.settings.Copyright.Text,
		Gyles: w.count(), Live: w.options.Live, Broken: w.noticesOf(w.brokenOn(w.path)),
	}
	for _, n := range []struct{ text, part string }{
		{"Board", ""}, {"Gyles", "gyles/"}, {"Larder", "larder/"}, {"Families", "families/"}, {"Trends", "trends/"}, {"Notes", "notes/"}, {"Workings", "workings/"}, {"Search", "search/"},
	} {
		f.Nav = append(f.Nav, view.NavLink{Link: view.Link{Text: n.text, Href: w.to(n.part + "index.html")}, Here: n.part == part})
	}
	return f
}

// s2 is the first text that is not empty.
func s2(first, second string) string {
	if first != "" {
		return first
	}
	return second
}

// gyleCount says how many gyles there are, and since when.
func gyleCount(gyles []*book.Gyle) string {
	text := counted(len(gyles), "gyle")
	first := 0
	for _, g := range gyles {
		if y := g.Begun.Year(); !g.Begun.IsZero() && (first == 0 || y < first) {
			first = y
		}
	}
	if first > 0 {
		text += " since " + strconv.Itoa(first)
	}
	return text
}

// counted is a number with its noun.
func counted(n int, noun string) string {
	if n == 1 {
		return "1 " + noun
	}
	return strconv.Itoa(n) + " " + noun + "s"
}

// ribbon sets the colour along the top of a page.
func (s *Site) ribbon(f *view.Frame, ebc float64) {
	f.Ribbon = shade(ebc)
	if f.Ribbon != "" {
		f.RibbonSays = "The beer's colour, about " + s.spell.measure(ebc, 0, "EBC", 0).String() + ": that of " + colourWords(ebc)
	}
}

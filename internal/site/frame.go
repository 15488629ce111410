package site

import (
	"cmp"
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

// frame is what every page of a kind has. Its title is for the page to say.
func (w pageWriter) frame(k pageKind) view.Frame {
	f := view.Frame{
		API: view.APIVersion, Kind: strings.TrimSuffix(k.template, ".html"), Book: w.bookTitle(), Root: w.root,
		Keeper: w.settings.Keeper.Text, Language: cmp.Or(w.settings.Language.Text, "en"), Canonical: w.public(w.path),
		WorkedOut: w.spell.day(w.book.Now), Version: w.options.Version, Copyright: w.settings.Copyright.Text,
		Gyles: w.count(), Live: w.options.Live, Broken: w.noticesOf(w.brokenOn(w.path)),
	}
	for _, m := range menuPages() {
		link := view.Link{Text: m.menu.word, Href: w.to(m.path)}
		f.Nav = append(f.Nav, view.NavLink{Link: link, Here: m.path == cmp.Or(k.under, k.path)})
	}
	return f
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

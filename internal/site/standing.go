package site

import (
	"slices"
	"strings"
	"time"

	"gylebook/internal/book"
)

// standing is where a gyle stands, in a few words: the book's parts with dates
// pages write them. A private party is left out, and so is what is said elsewhere.
func (s *Site) standing(g *book.Gyle, elsewhere ...string) string {
	var parts []string
	for _, p := range g.Status.Parts {
		if p.About == "party" && s.private.Party || slices.Contains(elsewhere, p.About) {
			continue
		}
		text := p.Text
		if !p.Date.IsZero() {
			text = strings.TrimSuffix(text, p.Date.Format(time.DateOnly)) + s.nearDay(p.Date)
		}
		parts = append(parts, text)
	}
	return strings.ReplaceAll(strings.Join(parts, ", "), " ± ", "\u00a0±\u00a0")
}

// nearDay is a date, without its year where that is the present one.
func (s *Site) nearDay(t time.Time) string {
	if t.In(s.spell.zone).Year() == s.book.Now.In(s.spell.zone).Year() {
		return s.spell.shortDay(t)
	}
	return s.spell.day(t)
}

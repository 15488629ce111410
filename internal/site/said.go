package site

import (
	"gylebook/internal/book"
	"gylebook/internal/figures"
	"gylebook/internal/site/view"
)

// Phrase is a piece of a sentence; Strong ones stand out.
type Phrase struct {
	Text   string
	Strong bool
}

// sayer puts a sentence together from what there is.
type sayer struct {
	w       pageWriter
	g       *book.Gyle
	phrases []Phrase
}

func (s *sayer) plain(text string) { s.phrases = append(s.phrases, Phrase{Text: text}) }
func (s *sayer) strong(text string) {
	s.phrases = append(s.phrases, Phrase{Text: text, Strong: true})
}

// comma goes between what is said and what follows.
func (s *sayer) comma(text string) {
	if len(s.phrases) > 0 {
		s.plain(text)
	}
}

// said is the headline as a sentence a brewer would say: how strong, how bitter,
// what colour, how much there was and is, and until when. Only the strength has
// its ± here; those of the others stand in the table below it.
func (w pageWriter) said(g *book.Gyle) []Phrase {
	s := &sayer{w: w, g: g}
	if g.Sheet.Stage <= figures.Copper {
		s.aims()
	} else {
		s.results()
	}
	if standing := w.standing(g, "pints"); standing != "" {
		s.comma("; ")
		s.plain(standing)
	}
	if len(s.phrases) > 0 {
		s.plain(".")
	}
	return s.phrases
}

// results are what it has come to.
func (s *sayer) results() {
	if f, ok := s.first(figures.IDABVConditioned, "abv"); ok {
		m := s.w.spell.figure(f)
		s.strong(m.Value + "\u00a0%" + with("\u00a0±", m.PlusMinus))
		if f.Provisional {
			s.plain(" so far")
		}
	}
	if f, ok := s.first(figures.IDBitterness); ok {
		s.comma(", ")
		s.strong(view.Measure{Value: s.w.spell.figure(f).Value, Unit: "IBU"}.String())
	}
	if f, ok := s.first(figures.IDColour); ok {
		s.comma(", ")
		s.plain("the colour of " + colourWords(f.Value))
	}
	s.pints()
}

// pints are how many there were, and how many there are.
func (s *sayer) pints() {
	all, ok := s.first(figures.IDPints)
	if !ok {
		return
	}
	s.comma(", ")
	s.strong(s.w.roughly(all) + " racked")
	if left, ok := s.first(figures.IDPintsLeft); ok && s.g.Sheet.Stage < figures.Empty {
		if n := s.w.spell.measure(left.Value, 0, left.Unit, 0).Value; n != s.w.spell.measure(all.Value, 0, all.Unit, 0).Value {
			s.plain(", ")
			s.strong(n + " left")
		}
	}
}

// aims are what it is to be, before there is beer.
func (s *sayer) aims() {
	aim := s.g.Aim
	for _, m := range []view.Measure{ofVolume(s.w.spell.value(aim.ABV)), s.w.spell.value(aim.Bitterness)} {
		if m.Value == "" {
			continue
		}
		if len(s.phrases) == 0 {
			s.plain("Aims at ")
		} else {
			s.plain(" and ")
		}
		s.strong(m.String())
	}
	if aim.Colour.Written() {
		if len(s.phrases) == 0 {
			s.plain("Is to be ")
		} else {
			s.plain(", ")
		}
		s.plain("the colour of " + colourWords(float64(aim.Colour.Value)))
	}
	if f, ok := s.first(figures.IDOGExpected); ok {
		s.comma("; ")
		s.plain("the grist should give ")
		s.strong(s.w.spell.figure(f).String())
	}
}

func (s *sayer) first(ids ...figures.ID) (figures.Figure, bool) {
	for _, id := range ids {
		if f, ok := s.g.Sheet.First(id); ok {
			return f, true
		}
	}
	return figures.Figure{}, false
}

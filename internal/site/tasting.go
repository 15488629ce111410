package site

import (
	"math"
	"strings"

	"gylebook/internal/book"
	"gylebook/internal/journal"
	"gylebook/internal/quantity"
	"gylebook/internal/site/view"
)

// Tasting is what one taster said.
type Tasting struct {
	When, By, Score, How string
	ByHref               string
	Found                []string
	Text                 string
}

// tasted is what the tasters said, one by one and together, and what to change.
func (w pageWriter) tasted(v *GylePage, g *book.Gyle) {
	for _, t := range g.Tastings {
		v.Tastings = append(v.Tastings, w.tasting(g, t))
	}
	v.Tasted, v.Praise = together(g.Tasted), w.praise(g)
	v.Next = texts(g.Next)
}

// praise is the tasting with words that scored highest, nil where none is scored.
func (w pageWriter) praise(g *book.Gyle) *Tasting {
	var best *Tasting
	highest := 0.0
	for _, t := range g.Tastings {
		if share := float64(t.Score.Value) / outOf(t); t.Text.Text != "" && share > highest {
			said := w.tasting(g, t)
			best, highest = &said, share
		}
	}
	return best
}

// outOf is the most that a taster could have given.
func outOf(t journal.Tasting) float64 {
	if t.OutOf.Written() {
		return float64(t.OutOf.Value)
	}
	return 50
}

func (w pageWriter) tasting(g *book.Gyle, t journal.Tasting) Tasting {
	out := Tasting{When: w.spell.moment(t.When), Text: w.scrub(t.Text.Text)}
	link := w.taster(t.By)
	out.By, out.ByHref = link.Text, link.Href
	if t.Score.Written() {
		out.Score = quantity.Plain(float64(t.Score.Value)) + " of " + quantity.Plain(outOf(t))
	}
	from := with("from", w.packageNamed(g, t.Package))
	out.How = w.phrase(", ", from, drawnThrough(t.Through.Word), w.with("at", t.At), sparkler(t.Sparkler))
	out.Found = texts(t.Found)
	return out
}

// drawnThrough says how a glass was drawn.
func drawnThrough(by journal.Dispense) string {
	switch by {
	case "":
		return ""
	case journal.PouredByHand:
		return "poured straight"
	case journal.Gravity:
		return "drawn by gravity"
	}
	return "through the " + string(by)
}

// taster is who tasted: by the name the card gives to publish, and with a page,
// unless tasters are private.
func (w pageWriter) taster(name journal.Name) view.Link {
	if name.Name == "" {
		return view.Link{}
	}
	if w.private.Tasters {
		return view.Link{Text: friend}
	}
	subject := w.book.Subject("taster", name.Name)
	link := w.subject(subject)
	link.Text = tasterName(subject, name.Name)
	return link
}

// shownName is a thing's name as it is published.
func shownName(subject *book.Subject) string {
	if subject.Kind == "taster" {
		return tasterName(subject, subject.Name)
	}
	return subject.Name
}

// tasterName is the name to publish.
func tasterName(subject *book.Subject, typed string) string {
	if subject != nil && subject.Card != nil && subject.Card.Taster != nil && subject.Card.Taster.ShownAs.Text != "" {
		return subject.Card.Taster.ShownAs.Text
	}
	return typed
}

// together is what several tasters said, in a sentence.
func together(t book.Tasted) string {
	if t.Tastings < 2 {
		return ""
	}
	text := counted(t.Tasters, "taster") + ", " + counted(t.Tastings, "tasting")
	if !math.IsNaN(t.Score) {
		value := quantity.Fixed(100*t.Score, 0)
		if !math.IsNaN(t.PlusMinus) && t.PlusMinus > 0 {
			v, pm := quantity.Rounded(100*t.Score, 100*t.PlusMinus)
			value = v + "\u00a0±\u00a0" + pm
		}
		text += "; " + value + " of 100 on the mean"
	}
	var words []string
	for _, w := range t.Words {
		if w.Tasters > 1 {
			words = append(words, w.Word+" ("+itoa(w.Tasters)+")")
		}
	}
	if len(words) > 0 {
		text += "; more than one found it " + strings.Join(words, ", ")
	}
	return text + "."
}

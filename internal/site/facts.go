package site

import (
	"fmt"

	"gylebook/internal/book"
	"gylebook/internal/journal"
	"gylebook/internal/site/view"
)

// facts are what a thing's card says of it, as the vocabulary labels them.
func (w pageWriter) facts(subject *book.Subject) []view.Property {
	if subject.Card == nil {
		return nil
	}
	var facts []view.Property
	for _, f := range subject.Card.Facts() {
		text := w.spell.fact(f.Value)
		if v := subject.Card.Vessel; v != nil && f.Value == any(v.Material) {
			text = phrase(" ", v.Glass.String(), text) // brown glass
		}
		if text != "" {
			facts = append(facts, view.Property{Name: f.Label, Value: text})
		}
	}
	return facts
}

// fact is one fact of a card in words, "" for one that is not written.
func (s speller) fact(value any) string {
	switch v := value.(type) {
	case journal.Flag:
		return map[bool]string{v.Yes(): "yes", v.No(): "no"}[true]
	case journal.Whole:
		if v.Written() {
			return itoa(v.N)
		}
	case journal.Ranged:
		if v.Written() {
			return s.between(v.Ends())
		}
	case journal.Quantified:
		if v.Written() {
			return s.amount(v.Canonical()).String()
		}
	case fmt.Stringer:
		return v.String()
	}
	return ""
}

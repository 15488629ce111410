package site

import (
	"gylebook/internal/book"
	"gylebook/internal/site/view"
)

// facts are what a thing's card says of it, as the vocabulary labels them.
func (w pageWriter) facts(subject *book.Subject) []view.Property {
	if subject.Card == nil {
		return nil
	}
	var facts []view.Property
	for _, f := range subject.Card.Facts() {
		text := w.text(f.Value)
		if v := subject.Card.Vessel; v != nil && f.Value == any(v.Material) {
			text = w.phrase(" ", v.Glass, text) // brown glass
		}
		if text != "" {
			facts = append(facts, view.Property{Name: f.Label, Value: text})
		}
	}
	return facts
}

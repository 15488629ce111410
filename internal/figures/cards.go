package figures

import "gylebook/internal/journal"

// foundCard is a card that was looked up, nil where there is none. A gyle asks for
// the same few over and over, and a look into the larder costs more than one
// into a short list.
type foundCard struct {
	kind, name string
	card       *journal.Card
}

// card is the card of a name in the larder, nil where there is none.
func (s *Sheet) card(kind string, name journal.Name) *journal.Card {
	return s.cardCalled(kind, name.Name)
}

func (s *Sheet) cardCalled(kind, name string) *journal.Card {
	if s.Larder == nil || name == "" {
		return nil
	}
	for i := range s.cards {
		if found := &s.cards[i]; found.name == name && found.kind == kind {
			return found.card
		}
	}
	card := s.Larder.Card(kind, name)
	s.cards = append(s.cards, foundCard{kind, name, card})
	return card
}

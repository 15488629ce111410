package figures

import "gylebook/internal/journal"

// card is the card of a name in the larder, nil where there is none.
func (s *Sheet) card(kind journal.CardKind, name journal.Name) *journal.Card {
	return s.cardCalled(kind, name.Name)
}

func (s *Sheet) cardCalled(kind journal.CardKind, name string) *journal.Card {
	if s.Larder == nil || name == "" {
		return nil
	}
	return s.Larder.Card(kind, name)
}

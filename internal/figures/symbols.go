package figures

import (
	"gylebook/internal/journal"
	"gylebook/internal/quantity"
)

// sym is a symbol of a formula with its number, rounded as far as its doubt
// supports and one digit more, so that a reader can follow the sum.
func sym[Q ~float64](name string, e Estimate[Q], unit string) symbol {
	if !e.known {
		return symbol{name, "unknown"}
	}
	text, _ := quantity.Rounded(float64(e.Value), float64(e.PlusMinus())/10)
	if unit != "" {
		text += " " + unit
	}
	return symbol{name, text}
}

// card is the card of a name in the larder, nil where there is none.
func (s *Sheet) card(kind string, name journal.Name) *journal.Card {
	if s.Larder == nil || name.Name == "" {
		return nil
	}
	return s.Larder.Card(kind, name.Name)
}

// number0 prints a whole number.
func number0(x float64) string { return quantity.Fixed(x, 0) }

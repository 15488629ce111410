package assay

import "gylebook/internal/journal"

// What cards say. Of a name that no card knows nothing is written.

func factsOf[T any](card *journal.Card, of func(*journal.Card) *T) (facts T) {
	if card != nil && of(card) != nil {
		facts = *of(card)
	}
	return facts
}

// MaltFacts is what the card of a line of the grist says of it as a malt.
func MaltFacts(card *journal.Card) journal.Malt {
	return factsOf(card, func(k *journal.Card) *journal.Malt { return k.Malt })
}

// SugarFacts is what the card of a line of the grist says of it as a sugar.
func SugarFacts(card *journal.Card) journal.Sugar {
	return factsOf(card, func(k *journal.Card) *journal.Sugar { return k.Sugar })
}

// FiningFacts is what a card says of a fining.
func FiningFacts(card *journal.Card) journal.FiningCard {
	return factsOf(card, func(k *journal.Card) *journal.FiningCard { return k.Fining })
}

// YeastCard is what the card of a pitch says.
func (c *Case) YeastCard(p journal.Pitch) journal.Yeast {
	return factsOf(c.Card(journal.CardYeast, p.Yeast), func(k *journal.Card) *journal.Yeast { return k.Yeast })
}

// SugarCard is what the card of a sugar says.
func (c *Case) SugarCard(name journal.Name) journal.Sugar {
	return SugarFacts(c.Card(journal.CardSugar, name))
}

// FiningCard is what the card of a fining says.
func (c *Case) FiningCard(name journal.Name) journal.FiningCard {
	return FiningFacts(c.Card(journal.CardFining, name))
}

// HopCard is what the card of a line of hops says.
func (c *Case) HopCard(h journal.Hop) journal.HopCard {
	return factsOf(c.Card(journal.CardHop, h.Hop), func(k *journal.Card) *journal.HopCard { return k.Hop })
}

// WaterCard is what the card of the liquor says.
func (c *Case) WaterCard() journal.Water {
	return factsOf(c.Card(journal.CardWater, c.Gyle.Liquor.Water), func(k *journal.Card) *journal.Water { return k.Water })
}

// StyleCard is what the card of the beer's style says.
func (c *Case) StyleCard() journal.Style {
	return factsOf(c.Card(journal.CardStyle, c.Gyle.Style), func(k *journal.Card) *journal.Style { return k.Style })
}

package site

import (
	"gylebook/internal/book"
	"gylebook/internal/journal"
	"gylebook/internal/quantity"
	"gylebook/internal/site/view"
)

// factSheet collects the facts of a card that are written.
type factSheet struct {
	spell speller
	facts []view.Property
}

func (f *factSheet) text(name, value string) {
	if value != "" {
		f.facts = append(f.facts, view.Property{Name: name, Value: value})
	}
}

func (f *factSheet) flag(name string, v journal.Flag) {
	switch {
	case v.Yes():
		f.text(name, "yes")
	case v.No():
		f.text(name, "no")
	}
}

func factOf[Q quantity.Quantity](f *factSheet, name string, v journal.Value[Q]) {
	f.text(name, value(f.spell, v).String())
}

func rangeOf[Q quantity.Quantity](f *factSheet, name string, v journal.RangeOf[Q]) {
	if !v.Written() {
		return
	}
	low, high := amount(f.spell, quantity.Amount[Q]{Value: v.Low}), amount(f.spell, quantity.Amount[Q]{Value: v.High})
	if low == high {
		f.text(name, low.String())
		return
	}
	if low.Unit == high.Unit {
		low.Unit = ""
	}
	f.text(name, low.String()+" to "+high.String())
}

// facts are what a thing's card says of it.
func (w pageWriter) facts(subject *book.Subject) []view.Property {
	c := subject.Card
	if c == nil {
		return nil
	}
	f := &factSheet{spell: w.spell}
	switch {
	case c.Malt != nil:
		factOf(f, "extract", c.Malt.Extract)
		factOf(f, "colour", c.Malt.Colour)
		f.text("cereal", c.Malt.Cereal.String())
		f.text("class", c.Malt.Class.String())
		f.flag("gluten", c.Malt.Gluten)
	case c.Sugar != nil:
		factOf(f, "extract", c.Sugar.Extract)
		factOf(f, "colour", c.Sugar.Colour)
		factOf(f, "fermentable", c.Sugar.Fermentable)
		factOf(f, "carbon dioxide, by weight", c.Sugar.CO2)
	case c.Hop != nil:
		factOf(f, "alpha", c.Hop.Alpha)
		if c.Hop.Crop.Written() {
			f.text("crop", itoa(c.Hop.Crop.N))
		}
		factOf(f, "keeps, after six months at 20 °C", c.Hop.Keeps)
	case c.Yeast != nil:
		rangeOf(f, "attenuates", c.Yeast.Attenuates)
		rangeOf(f, "works at", c.Yeast.WorksAt)
		f.text("settles", c.Yeast.Settles.String())
		factOf(f, "live cells", c.Yeast.Cells)
		f.flag("goes on for months", c.Yeast.Superattenuates)
	case c.Water != nil:
		w.ions(f, c.Water)
	case c.Vessel != nil:
		f.text("kind", c.Vessel.Is.String())
		factOf(f, "to the brim", c.Vessel.Capacity)
		factOf(f, "rated by the maker", c.Vessel.Rated)
		f.flag("relief valve", c.Vessel.Relief)
		factOf(f, "opens at", c.Vessel.Opens)
		f.text("made of", phrase(" ", c.Vessel.Glass.String(), c.Vessel.Material.String()))
	case c.Instrument != nil:
		f.text("measures", c.Instrument.Measures.String())
		f.text("smallest step", c.Instrument.Resolution.Text)
		f.text("within", c.Instrument.Within.Text)
		f.text("reads too high by", c.Instrument.Bias.Text)
		factOf(f, "marked for", c.Instrument.CalibratedAt)
	case c.Style != nil:
		w.custom(f, c.Style)
	case c.Fruit != nil:
		factOf(f, "sugar", c.Fruit.Sugar)
	case c.Salt != nil:
		w.saltFacts(f, c.Salt)
	case c.Fining != nil:
		f.flag("vegan", c.Fining.Vegan)
		f.flag("vegetarian", c.Fining.Vegetarian)
		f.text("allergen", c.Fining.Allergen.Text)
		factOf(f, "keeps", c.Fining.Keeps)
	case c.Cleaner != nil:
		f.text("kind", c.Cleaner.Is.String())
		f.flag("must be rinsed", c.Cleaner.Rinse)
	}
	return f.facts
}

func (w pageWriter) ions(f *factSheet, water *journal.Water) {
	factOf(f, "calcium", water.Calcium)
	factOf(f, "magnesium", water.Magnesium)
	factOf(f, "sodium", water.Sodium)
	factOf(f, "sulphate", water.Sulphate)
	factOf(f, "chloride", water.Chloride)
	factOf(f, "bicarbonate", water.Bicarbonate)
	factOf(f, "alkalinity, as calcium carbonate", water.Alkalinity)
	factOf(f, "pH", water.PH)
	f.text("from", water.From.String())
}

func (w pageWriter) custom(f *factSheet, s *journal.Style) {
	rangeOf(f, "original gravity", s.OG)
	rangeOf(f, "final gravity", s.FG)
	rangeOf(f, "alcohol", s.ABV)
	rangeOf(f, "bitterness", s.Bitterness)
	rangeOf(f, "colour", s.Colour)
	rangeOf(f, "condition", s.Condition)
}

func (w pageWriter) saltFacts(f *factSheet, s *journal.SaltCard) {
	f.text("formula", s.Formula.Text)
	factOf(f, "calcium", s.Calcium)
	factOf(f, "magnesium", s.Magnesium)
	factOf(f, "sodium", s.Sodium)
	factOf(f, "sulphate", s.Sulphate)
	factOf(f, "chloride", s.Chloride)
	factOf(f, "bicarbonate", s.Bicarbonate)
}

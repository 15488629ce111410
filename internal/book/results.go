package book

import (
	"math"

	"gylebook/internal/figures"
	"gylebook/internal/quantity"
)

// results are the figures that tell what a revision did.
var results = []string{"og", "fg", "apparent-attenuation", "abv", "bitterness", "colour", "condition"}

func resultLines(g *Gyle) []line {
	var all []line
	for _, id := range results {
		f, ok := whole(g.Sheet, id)
		if !ok {
			continue
		}
		all = append(all, line{part: OfResult, key: id, label: f.Label, figure: id, cell: figureCell(f)})
	}
	if g.Tasted.Scored > 0 {
		all = append(all, line{part: OfResult, key: "score", label: "Score", cell: scoreCell(g.Tasted)})
	}
	return all
}

// whole is a figure of the gyle as a whole, else of its first container.
func whole(s *figures.Sheet, id string) (figures.Figure, bool) {
	if f, ok := s.Find(id, ""); ok {
		return f, true
	}
	return s.First(id)
}

func figureCell(f figures.Figure) Cell {
	return Cell{Known: true, Value: f.Value, PlusMinus: f.PlusMinus, Unit: f.Unit, Share: math.NaN(), Provisional: f.Provisional, Text: measure(f)}
}

func scoreCell(t Tasted) Cell {
	c := Cell{Known: true, Value: 100 * t.Score, PlusMinus: 100 * t.PlusMinus, Unit: "%", Share: math.NaN()}
	value, plusMinus := quantity.Fixed(c.Value, 0), ""
	if c.PlusMinus > 0 {
		value, plusMinus = quantity.Rounded(c.Value, c.PlusMinus)
	}
	c.Text = phrase(value, with("±", plusMinus), "%")
	return c
}

// measure is a figure as a sentence has it: 1.42 ± 0.15 vol.
func measure(f figures.Figure) string {
	spelt := f.Spelt(quantity.Spelling{})
	if spelt.Unit == "SG" {
		spelt.Unit = ""
	}
	return spelt.String()
}

// dateUnit is the unit of figures that are dates.
const dateUnit = "date"

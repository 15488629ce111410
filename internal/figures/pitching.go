package figures

import (
	"math"
	"time"

	"gylebook/internal/brewing"
	"gylebook/internal/journal"
	q "gylebook/internal/quantity"
)

var (
	kindPitchingRate = &Kind{
		ID: IDPitchingRate, Label: "Pitching rate", Unit: "million/mL/°P", Decimals: 2,
		Says:    "Live cells that went in with the first yeast, for each millilitre of wort and degree Plato. Cells as written; else by weight or volume at the count on the yeast's card, else at what packets and slurries usually hold. What was packed or harvested is taken to die off with age. What grew in a starter is known only where it was counted.",
		Formula: "{R} = {N} ÷ ({V} × 1000 × P), P from {OG}",
		Symbols: []string{"R: million cells per mL and °P", "N: live cells, millions", "V: wort, L", "OG: original gravity"},
		Valid:   "original gravity 1.004 to 1.150", Source: "definition; G. J. Fix, An Analysis of Brewing Techniques (1997), as quoted, for what is usual",
		Checked: "two worked sums and a rule of thumb, within the digits they print",
	}
	yeastKinds = []*Kind{kindPitchingRate}
)

// What yeast holds where neither the entry nor a card says, in live cells when
// packed or harvested.
const (
	driedCells, driedCellsOff   = 13e9, 7e9     // a gram: 6 to 20 (yeast suppliers, from memory)
	slurryCells, slurryCellsOff = 1.0e9, 0.6e9  // a millilitre, settled (common practice, no source)
	liquidCells, liquidCellsOff = 1.0e9, 0.75e9 // a millilitre of a maker's pack (common practice, no source)
)

// How liquid yeast and slurry die off: about a fifth of the cells in a month, by
// half that and double that; past half a year nobody knows (common practice, no
// source; makers' figures disagree).
const (
	diesMonthly = 0.2
	month       = 30 * 24 * time.Hour
	tooOld      = 183 * 24 * time.Hour
)

// pitched is the rate of the first yeast.
func pitching(b *bench) {
	if b.begunAsBeer() {
		return
	}
	live := exactly(q.Cells(0))
	if len(b.Gyle.Yeast) == 0 {
		live = missing[q.Cells]("yeast[0].cells")
	}
	note := ""
	for i := range b.Gyle.Yeast {
		p := &b.Gyle.Yeast[i]
		if b.pitchedFirst(p) {
			live = sum(b, live, b.liveCells(i, p))
			if p.Starter.Written() && p.Cells.Written() {
				note = "the cells as written: what grew in the starter is in it only if they were counted after"
			}
		}
	}
	wort := first(b.fermenterVolume(), read(b, b.Gyle.Aim.Volume, "aim.volume", asWished))
	og := b.ogOrExpected()
	rate := from3(b, brewing.PitchingRate, live, wort, og)
	f := add(b, kindPitchingRate, "", rate, sym("R", rate, ""), sym("N", millions(b, live), ""), sym("V", wort, ""), sym("OG", og, ""))
	if f != nil {
		f.Note = note
	}
}

func millions(b *bench, n Estimate[q.Cells]) Estimate[q.Number] {
	return times[q.Number](b, n, 1e-6)
}

// pitchedFirst tells whether yeast went in with the first, and not a week later or
// into the bottles.
func (b *bench) pitchedFirst(p *journal.Pitch) bool {
	return !p.Pitched.Written() || p.Pitched.Middle().Sub(b.pitchedAt()).Abs() < 24*time.Hour
}

// liveCells are the live cells of one yeast as it goes in.
func (b *bench) liveCells(i int, p *journal.Pitch) Estimate[q.Cells] {
	of := key("yeast", i, "")
	liquid := p.Sold.Is(journal.LiquidYeast)
	switch {
	case p.Cells.Written() && liquid && !p.Cells.Typed && !p.Starter.Written():
		return b.survived(i, p, read(b, p.Cells, of+"cells", ofCells)) // as the pack states them
	case p.Cells.Written():
		return read(b, p.Cells, of+"cells", ofCells)
	case p.Starter.Written():
		return withheld[q.Cells]("how far yeast grows in a starter differs too much from one to the next: count it, and write " + of + "cells")
	case p.Sold.Is(journal.YeastSlurry) || liquid:
		return b.survived(i, p, b.cellsIn(p, as[q.Number](read(b, p.Volume, of+"volume", ofFill)), 1000))
	case p.Sold.Is(journal.DriedYeast) || p.Weight.Written():
		return b.cellsIn(p, as[q.Number](read(b, p.Weight, of+"weight", ofSmall)), 1)
	}
	return missing[q.Cells](of + "cells")
}

// cellsIn is so much yeast times its cells: litres or grams, times how many
// millilitres or grams are in one of them.
func (b *bench) cellsIn(p *journal.Pitch, amount Estimate[q.Number], times float64) Estimate[q.Cells] {
	return from2(b, func(amount q.Number, density q.CellDensity) (q.Cells, error) {
		return q.Cells(float64(amount) * times * float64(density)), nil
	}, amount, b.cellDensity(p))
}

// cellDensity is the cells in a gram of dried yeast or a millilitre of any other,
// by the yeast's card where that is of the same form.
func (b *bench) cellDensity(p *journal.Pitch) Estimate[q.CellDensity] {
	slurry := p.Sold.Is(journal.YeastSlurry)
	if card := b.card(journal.CardYeast, p.Yeast); card != nil && card.Yeast != nil && card.Yeast.Cells.Written() && !slurry {
		return read(b, card.Yeast.Cells, card.Yeast.Cells.Key, ofCellDensity)
	}
	switch {
	case slurry:
		return customary(b, q.CellDensity(slurryCells), slurryCellsOff, "cells/mL", "live cells in settled slurry", "0.4 to 1.6 thousand million a millilitre (common practice, no source)")
	case p.Sold.Is(journal.LiquidYeast):
		return customary(b, q.CellDensity(liquidCells), liquidCellsOff, "cells/mL", "live cells in a pack of liquid yeast", "a quarter to 1.75 thousand million a millilitre (common practice, no source)")
	}
	return customary(b, q.CellDensity(driedCells), driedCellsOff, "cells/g", "live cells in dried yeast", "6 to 20 thousand million a gram (yeast suppliers, from memory)")
}

// survived is what is left of cells since they were packed or harvested; all of
// them where that day is not written.
func (b *bench) survived(i int, p *journal.Pitch, packed Estimate[q.Cells]) Estimate[q.Cells] {
	age := b.pitchedAt().Sub(p.Packed.Middle())
	if !p.Packed.Written() || age <= 0 || b.pitchedAt().IsZero() {
		return packed
	}
	if age > tooOld {
		return withheld[q.Cells]("how many cells live after half a year nobody can say: count them, and write " + key("yeast", i, "cells"))
	}
	months := age.Hours() / month.Hours()
	middle := math.Pow(1-diesMonthly, months)
	off := (math.Pow(1-diesMonthly/2, months) - math.Pow(1-2*diesMonthly, months)) / 2
	alive := customary(b, q.Number(middle), off, "", "how much of "+p.Yeast.Name+" still lives", "a fifth dies in a month, or half as much, or twice as much (common practice, no source)")
	return from2(b, func(n q.Cells, alive q.Number) (q.Cells, error) { return n * q.Cells(min(max(alive, 0), 1)), nil }, packed, alive)
}

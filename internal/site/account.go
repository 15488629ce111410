package site

import (
	"gylebook/internal/book"
	"gylebook/internal/figures"
	"gylebook/internal/quantity"
	"gylebook/internal/site/view"
)

// accounts are what each container of a gyle took in, gave off and holds, line by line.
// Like all workings they stay in litres and grams.
func (w pageWriter) accounts(g *book.Gyle) []view.Table {
	if g.Sheet.Stage < figures.Working {
		return nil
	}
	var all []view.Table
	questions := g.Sheet.Inquire()
	for _, c := range g.Sheet.Containers() {
		if account, ok := questions.Account(c); ok {
			all = append(all, w.accountTable(g, account))
		}
	}
	return all
}

func (w pageWriter) accountTable(g *book.Gyle, account figures.Account) view.Table {
	c := account.Container
	t := w.newTable("p-account-"+itoa(c.Index), w.packageName(g, c.Index), "When", "What", "#Gas in", "#Gas out", "#Gas held", "#Beer out", "#Beer held", "~From")
	for _, l := range account.Lines {
		t.row(w.spell.tableDay(l.When), l.What, amountOf(l.In.Grams(), 2, "g"), amountOf(l.Out.Grams(), 2, "g"), quantity.Fixed(l.Held.Grams(), 2)+" g",
			amountOf(l.Drawn.Litres(), 2, "L"), quantity.Fixed(l.Beer.Litres(), 2)+" L", lineOf(g, l))
	}
	last := account.Lines[len(account.Lines)-1]
	t.Note = "Gas is carbon dioxide: dissolved, above the beer and still to come. At the end " + quantity.Fixed(last.Held.Grams(), 2) + " g in " +
		quantity.Fixed(last.Beer.Litres(), 2) + " L, which is " + quantity.Fixed(last.Held.Grams()/quantity.GramsPerVolume/last.Beer.Litres(), 2) + " vol in all."
	return t.done()
}

// amountOf is an amount that came or went, "" for none.
func amountOf(x float64, decimals int, unit string) string {
	if text := quantity.Fixed(x, decimals); text != quantity.Fixed(0, decimals) {
		return text + " " + unit
	}
	return ""
}

// lineOf is where a line of an account stands in the entry; what comes of several is told
// by the working of the gas.
func lineOf(g *book.Gyle, l figures.AccountLine) string {
	if !l.Where.Written() {
		return ""
	}
	return placeIn(g, l.Where)
}

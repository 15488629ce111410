package book

import (
	"math"

	"gylebook/internal/figures"
	"gylebook/internal/quantity"
)

// Part is what a row of a family's table is about.
type Part string

// The parts of a table, in its order: the recipe first, then what came of it.
const (
	OfAim    Part = "aim"
	OfGrist  Part = "grist"
	OfMash   Part = "mash"
	OfCopper Part = "copper"
	OfHops   Part = "hops"
	OfYeast  Part = "yeast"
	OfResult Part = "result"
)

// Row is one thing of several gyles, side by side.
type Row struct {
	Part    Part
	Label   string     // "pale malt", "goldings at 60 min", "Final gravity"
	Subject *Subject   // what the label names, nil for what has no page
	Figure  figures.ID // the id of the figure that it is or aims at, or ""
	// Used says that the row is of something used: a gyle without it did
	// without, where elsewhere it only was not written down.
	Used  bool
	Cells []Cell // one for each gyle
	key   string
}

// Cell is one gyle's side of a row. The zero Cell is a side that has nothing
// there.
type Cell struct {
	Known bool
	// Value is in the row's unit; PlusMinus is U = 2u, NaN where no doubt is
	// reckoned, as for what was weighed out.
	Value, PlusMinus float64
	Unit             string
	// Share is the part of the grist's weight in per cent, NaN elsewhere.
	Share       float64
	Provisional bool
	// Text is the value as printed, with its ± and unit.
	Text string
	// manner is what besides the number makes it what it is, in words that are
	// the same in any unit: a hop's alpha, a rest's length.
	manner string
}

// line is one gyle's contribution to a row.
type line struct {
	part    Part
	key     string // what makes two gyles' lines one row
	label   string
	subject *Subject
	figure  figures.ID
	used    bool
	cell    Cell
}

// SideBySide sets gyles side by side: a cell of each row for each of them, in
// their order; each part in the order in which its lines first appear. It is
// worked out when asked for, since the table of a long family grows with the
// square of its length.
func SideBySide(gyles []*Gyle) []Row {
	var rows []Row
	at := map[string]int{}
	for i, g := range gyles {
		for _, l := range linesOf(g) {
			key := string(l.part) + " " + l.key
			n, known := at[key]
			if !known {
				n = len(rows)
				at[key] = n
				rows = append(rows, Row{
					Part: l.part, Label: l.label, Subject: l.subject, Figure: l.figure, Used: l.used,
					Cells: make([]Cell, len(gyles)), key: key,
				})
			}
			rows[n].Cells[i] = merged(rows[n].Cells[i], l.cell)
		}
	}
	ordered := make([]Row, 0, len(rows))
	for _, part := range []Part{OfAim, OfGrist, OfMash, OfCopper, OfHops, OfYeast, OfResult} {
		for _, r := range rows {
			if r.Part == part {
				ordered = append(ordered, r)
			}
		}
	}
	return ordered
}

// merged is two lines of one gyle in one row, as one malt weighed twice.
func merged(a, b Cell) Cell {
	if !a.Known {
		return b
	}
	if !b.Known || a.Unit != b.Unit || a.Unit == "" {
		a.Text = listed(a.Text, b.Text)
		return a
	}
	a.Value += b.Value
	a.Share += b.Share
	if a.manner != b.manner {
		a.manner = listed(a.manner, b.manner)
	}
	a.Text += " + " + b.Text
	return a
}

// results are the figures that tell what a revision did.
var results = []figures.ID{
	figures.IDOG, figures.IDFG, figures.IDApparentAttenuation, figures.IDABV, figures.IDBitterness, figures.IDColour, figures.IDCondition,
}

func resultLines(g *Gyle) []line {
	var all []line
	for _, id := range results {
		f, ok := whole(g.Sheet, id)
		if !ok {
			continue
		}
		all = append(all, line{part: OfResult, key: string(id), label: f.Label, figure: id, cell: figureCell(f)})
	}
	if g.Tasted.Scored > 0 {
		all = append(all, line{part: OfResult, key: "score", label: "Score", cell: scoreCell(g.Tasted)})
	}
	return all
}

// whole is a figure of the gyle as a whole, else of its first container.
func whole(s *figures.Sheet, id figures.ID) (figures.Figure, bool) {
	if f, ok := s.Find(id, ""); ok {
		return f, true
	}
	return s.First(id)
}

func figureCell(f figures.Figure) Cell {
	return Cell{
		Known: true, Value: f.Value, PlusMinus: f.PlusMinus, Unit: f.Unit, Share: math.NaN(),
		Provisional: f.Provisional, Text: measure(f),
	}
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

package assay

import (
	"math"
	"time"

	"gylebook/internal/figures"
	"gylebook/internal/journal"
	q "gylebook/internal/quantity"
)

func EndOf(m journal.Moment) time.Time {
	if m.DateOnly {
		return m.Time.AddDate(0, 0, 1)
	}
	return m.Time
}

func Day(m journal.Moment) string { return m.Time.Format("2 January 2006") }

func (c *Case) DrawnFrom() bool { return len(c.Gyle.DrawnFrom) > 0 }

// SG prints a gravity as brewers say it.
func SG(g q.Gravity) string { return q.Fixed(g.SG(), 3) }

// DoubtOf is a ± that may be absent.
func DoubtOf(plusMinus float64) float64 {
	if math.IsNaN(plusMinus) {
		return 0
	}
	return plusMinus
}

// LastOf is the last line of the entry that a figure rests on, else the last of
// a card.
func (c *Case) LastOf(f figures.Figure) journal.Where {
	var last journal.Where
	for _, w := range f.From() {
		if w.File == c.Gyle.Number.File || last.File != c.Gyle.Number.File {
			last = w
		}
	}
	return last
}

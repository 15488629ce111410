package figures

import (
	"slices"
	"time"

	"gylebook/internal/journal"
	q "gylebook/internal/quantity"
)

// What is left is one reckoning, asked at any moment: the figure is its last
// answer, and a chart shows them all.

// Left is what could still be drawn once something had left the containers.
type Left struct {
	When   time.Time
	Volume q.Volume
	What   string // what left: filled, for the beginning, then poured, dumped, drawn off or emptied
}

// departures are a gyle's beer in its containers and what has left them.
type departures struct {
	begun    time.Time // zero where nobody says
	holdings []holding
	events   []departure // what has come, in order
}

// holding is the beer in the containers of one line.
type holding struct{ contents, sediment Estimate[q.Volume] }

// departure is beer that left the containers.
type departure struct {
	at     time.Time
	what   string
	volume Estimate[q.Volume] // not of what was emptied: that is all there was
	of     int                // the holding, or anyOf
	where  journal.Where
}

const (
	anyOf   = -1 // nobody says which
	emptied = "emptied"
)

// left is what can still be drawn.
func (b *bench) left() {
	a := b.departed()
	volume, sediment, drawn := exactly(q.Volume(0)), exactly(q.Volume(0)), exactly(q.Volume(0))
	a.after(len(a.events), func(h holding) {
		volume, sediment = sum(b, volume, h.contents), sum(b, sediment, h.sediment)
	}, func(d departure) {
		drawn = sum(b, drawn, d.volume)
	})
	left := from3(b, func(v, sediment, drawn q.Volume) (q.Number, error) {
		return asPints(max(0, v-sediment-drawn))
	}, volume, sediment, drawn)
	add(b, kindPintsLeft, "", left, sym("n", left, ""), sym("V", volume, "L"), sym("s", sediment, "L"), sym("p", drawn, "L"))
}

// leftOverTime is the course of what is left: see LeftOverTime.
func (b *bench) leftOverTime() []Left {
	if _, known := b.Find(kindPintsLeft.ID, ""); !known {
		return nil
	}
	a := b.departed()
	begun := a.begun
	if len(a.events) > 0 && (begun.IsZero() || a.events[0].at.Before(begun)) {
		begun = a.events[0].at
	}
	var course []Left
	for i, e := range append([]departure{{at: begun, what: "filled"}}, a.events...) {
		if litres, known := a.litresAfter(i); known {
			course = append(course, Left{When: e.at, Volume: litres, What: e.what})
		}
	}
	return course
}

// after tells what stands once so many of the events have come, and what has been
// taken of that. What left a container goes with it when it is emptied; what was drawn from
// nobody says which goes with those that have been emptied since, as far as they held it.
func (a *departures) after(events int, in func(holding), out func(departure)) {
	gone := func(of int) bool {
		return slices.ContainsFunc(a.events[:events], func(e departure) bool { return e.what == emptied && e.of == of })
	}
	emptiedHeld := q.Volume(0)
	for i, h := range a.holdings {
		if !gone(i) {
			in(h)
		} else if h.contents.known {
			emptiedHeld += h.contents.Value
		}
	}
	for i, e := range a.events[:events] {
		switch {
		case e.what == emptied || e.of != anyOf && gone(e.of):
		case e.of == anyOf && e.volume.Value <= emptiedHeld && emptiedAfter(a.events[i:events]):
			emptiedHeld -= e.volume.Value
		default:
			out(e)
		}
	}
}

func emptiedAfter(events []departure) bool {
	return slices.ContainsFunc(events, func(e departure) bool { return e.what == emptied })
}

// litresAfter is what can be drawn once so many of the events have come.
func (a *departures) litresAfter(events int) (total q.Volume, known bool) {
	known = true
	a.after(events, func(h holding) {
		total += h.contents.Value - h.sediment.Value
		known = known && h.contents.known && h.sediment.known
	}, func(d departure) {
		total -= d.volume.Value
		known = known && d.volume.known
	})
	return max(0, total), known
}

// sediment is what stays behind in a container with the yeast (common practice,
// no source): a third to two thirds of a litre in a bag, more in a cask, a
// finger's breadth in each bottle.
func (b *bench) sediment(c Container) Estimate[q.Volume] {
	each, doubt := q.Volume(0.5), 0.2
	switch {
	case c.Is(journal.Bottle):
		each, doubt = 0.02, 0.01
	case c.Is(journal.Cask):
		each, doubt = 0.75, 0.25
	case c.Is(journal.Keg), c.Is(journal.PressureBarrel):
		each, doubt = 0.5, 0.3
	}
	n := q.Volume(c.Count())
	return customary(b, each*n, doubt*float64(n), "L", "the sediment in "+c.Name()+" "+c.Key, "what stays behind with the yeast (common practice, no source)")
}

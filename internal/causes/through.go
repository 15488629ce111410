package causes

import (
	"fmt"
	"slices"

	"gylebook/internal/assay"
	"gylebook/internal/figures"
	"gylebook/internal/journal"
)

// What a glass came through: by its tasting, else as the gyle is served. A bottle
// is poured, whatever the rest of the gyle comes through.

// throughOf is what a taster's beer came through; not written where nobody says.
func (x *exam) throughOf(t journal.Tasting) journal.Choice[journal.Dispense] {
	if t.Through.Written() {
		return t.Through
	}
	if k, ok := x.containerOf(t); ok && k.Is(journal.Bottle) {
		return journal.Choice[journal.Dispense]{}
	}
	return x.Gyle.Served.Through
}

// isStraight tells whether a way out of the container has no line.
func isStraight(through journal.Choice[journal.Dispense]) bool {
	return through.Is(journal.PouredByHand, journal.Gravity)
}

// straight tells whether a taster's beer came through no line.
func (x *exam) straight(t journal.Tasting) bool {
	if t.Through.Written() {
		return isStraight(t.Through)
	}
	k, known := x.containerOf(t)
	return known && k.Is(journal.Bottle) || isStraight(x.Gyle.Served.Through)
}

// bottled tells whether everything that the word was found in is bottles, or
// poured straight from what it stood in. Where no tasting says from which
// container, it is so if all there are are bottles.
func (x *exam) bottled() bool {
	var unsaid []journal.Tasting
	for _, t := range x.found {
		switch {
		case t.Through.Written() && !isStraight(t.Through):
			return false
		case !t.Through.Written():
			unsaid = append(unsaid, t)
		}
	}
	if len(unsaid) == 0 || isStraight(x.Gyle.Served.Through) {
		return true
	}
	from := x.fromOf(unsaid)
	return len(from) > 0 && !slices.ContainsFunc(from, func(k figures.Container) bool { return !k.Is(journal.Bottle) })
}

// throughLine compares glasses drawn through a line with those poured without.
func throughLine(x *exam) Sign {
	if x.bottled() {
		return tells(Against, "it was poured without a line", x.found[0].Where)
	}
	poured := func(t journal.Tasting) bool { return isStraight(t.Through) }
	if i := slices.IndexFunc(x.found, poured); i >= 0 {
		return tells(Against, "it was found in a glass that came through no line too", x.found[i].Through.Where)
	}
	with, without := x.containersTasted()
	bottle := func(k figures.Container) bool { return k.Is(journal.Bottle) }
	i := slices.IndexFunc(x.others, poured)
	switch {
	case slices.ContainsFunc(with, bottle):
		return tells(Against, "it was found in the bottles too, which no line touches", x.found[0].Where)
	case i >= 0 && slices.ContainsFunc(x.found, func(t journal.Tasting) bool { return x.throughOf(t).Written() }):
		return hints(For, "it was found through the line, and not said of a glass that came through none", x.others[i].Through.Where)
	case len(with) > 0 && slices.ContainsFunc(without, bottle):
		return hints(For, "it was found through the line, and not said of the bottles", x.found[0].Where)
	}
	return unknown
}

// lineOld is how long before the first glass with the word that came through the
// line it was cleaned.
func lineOld(x *exam) Sign {
	if x.bottled() {
		return silent
	}
	lined := slices.DeleteFunc(slices.Clone(x.found), x.straight)
	said := func(t journal.Tasting) bool { return x.throughOf(t).Written() }
	if !x.Gyle.Served.Through.Written() && !slices.ContainsFunc(lined, said) {
		return needing("served.through or tastings[].through")
	}
	t, ok := datedOf(lined, -1)
	if !ok {
		return needing("tastings[].when")
	}
	var last journal.Deed
	for _, d := range x.Deeds(journal.Cleaned) {
		if assay.LineDeed(d) && !d.When.Time.After(assay.EndOf(t.When)) && (!last.Where.Written() || d.When.Time.After(last.When.Time)) {
			last = d
		}
	}
	if !last.Where.Written() {
		return unknown
	}
	days := max(0, daysApart(last.When.Middle(), t.When.Middle()))
	r := reading{Figure: number(days, 0.5, "days", last.Where), says: "the line had been cleaned on that day"}
	if days >= 1 {
		r.says = fmt.Sprintf("the line had been cleaned %s before that glass", wholeDays(days))
	}
	return x.held(r, assay.LinesEvery, assay.LinesEvery)
}

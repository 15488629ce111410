package figures

import (
	"slices"
	"time"

	"gylebook/internal/journal"
	q "gylebook/internal/quantity"
)

// What went into the containers and what has left them, as an account of both.

// departed is made once, while the sheet is worked out.
func (b *bench) departed() *departures {
	return b.memoDeparted.once(func() *departures {
		vessels := max(len(b.Containers()), 1)
		a := &departures{
			begun: b.begunAsContents(), holdings: make([]holding, 0, vessels),
			events: make([]departure, 0, len(b.Gyle.Poured)+vessels),
		}
		spells := make([]spell, 0, vessels)
		for _, c := range b.Containers() {
			a.holdings = append(a.holdings, holding{b.contents(c), b.sediment(c)})
			spells = append(spells, spell{b.Broached(c), b.ranOut(c)})
		}
		if len(a.holdings) == 0 {
			a.holdings = append(a.holdings, holding{b.rackedVolume(), exactly(q.Volume(0))})
			spells = append(spells, spell{b.Gyle.Served.Broached, b.Gyle.Served.Emptied})
		}
		b.addDepartures(a, spells)
		for i, open := range spells {
			if b.past(open.emptied) {
				a.events = append(a.events, departure{at: b.cameAt(open.emptied), what: emptied, of: i})
			}
		}
		slices.SortStableFunc(a.events, func(x, y departure) int { return x.at.Compare(y.at) })
		return a
	})
}

// addDepartures adds what was poured, dumped and drawn off into other gyles. What
// others took on the day of filling or before came out of the fermenter, and was
// never in the containers.
func (b *bench) addDepartures(a *departures, spells []spell) {
	for i := range b.Gyle.Poured {
		p := &b.Gyle.Poured[i]
		if b.past(p.When) {
			volume := read(b, p.Volume, keyOf(p.Volume.Where, "poured", i, "volume"), ofFill)
			a.events = append(a.events, departure{b.cameAt(p.When), "poured", volume, sourceOf(spells, p.Package, p.When), p.Where})
		}
	}
	for i := range b.Gyle.Done {
		d := &b.Gyle.Done[i]
		if b.wasDumped(d) && (d.Package.Written() || b.afterFilling(d.When)) {
			a.events = append(a.events, departure{b.cameAt(d.When), "dumped", b.dumpedIn(i), sourceOf(spells, d.Package, d.When), d.Where})
		}
	}
	for _, d := range b.Taken {
		if d.Volume.Written() && b.past(d.On) && b.afterFilling(d.On) {
			volume := read(b, d.Volume, d.Volume.Key, ofVolume)
			a.events = append(a.events, departure{b.cameAt(d.On), "drawn off", volume, sourceOf(spells, journal.Whole{}, d.On), d.Where})
		}
	}
}

// spell is for how long a container stood open.
type spell struct{ broached, emptied journal.Moment }

// sourceOf is the container that something came out of: the one that is named, the
// only one, or the only one that stood open then.
func sourceOf(spells []spell, named journal.Whole, when journal.Moment) int {
	if named.Written() && named.N >= 0 && named.N < len(spells) {
		return named.N
	}
	if len(spells) == 1 {
		return 0
	}
	of := anyOf
	for i, open := range spells {
		if !open.at(when) {
			continue
		}
		if of != anyOf {
			return anyOf
		}
		of = i
	}
	return of
}

// at tells whether a container was broached by a moment and not yet emptied; on the
// day that either happened, it was.
func (o spell) at(when journal.Moment) bool {
	return o.broached.Written() && !o.broached.Time.After(end(when)) && !(o.emptied.Written() && end(o.emptied).Before(when.Time))
}

// end is the last of a moment: of a bare date, the end of its day.
func end(m journal.Moment) time.Time {
	if m.DateOnly {
		return m.Time.AddDate(0, 0, 1)
	}
	return m.Time
}

// cameAt is when something that has come did so: by a bare date, at noon, or now
// where that is to come.
func (b *bench) cameAt(m journal.Moment) time.Time {
	if at := m.Middle(); at.Before(b.Now) {
		return at
	}
	return b.Now
}

// ranOut is when a container was emptied. Once everything was, so was each.
func (s *Sheet) ranOut(c Container) journal.Moment {
	if m := s.Emptied(c); s.past(m) || s.Stage < Empty {
		return m
	}
	return s.Gyle.Served.Emptied
}

// begunAsContents is when the first container was filled; zero where nobody says.
func (s *Sheet) begunAsContents() time.Time {
	begun := time.Time{}
	take := func(m journal.Moment) {
		if m.Written() && (begun.IsZero() || m.Middle().Before(begun)) {
			begun = m.Middle()
		}
	}
	take(s.Gyle.Racked.On)
	if s.begunAsBeer() {
		for _, d := range s.Gyle.DrawnFrom {
			take(d.On)
		}
	}
	for _, c := range s.Containers() {
		take(s.Filled(c))
	}
	return begun
}

package figures

import (
	"cmp"
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

// account is a gyle's beer from its containers on.
type account struct {
	begun    time.Time // zero where nobody says
	holdings []holding
	events   []departure // what has come, in order
}

// holding is the beer in the containers of one line.
type holding struct {
	contents, sediment Estimate[q.Volume]
	broached, emptied  journal.Moment
}

// departure is beer that left the containers.
type departure struct {
	at     time.Time
	what   string
	volume Estimate[q.Volume] // not of what was emptied: that is all there was
	of     int                // the holding, or anyOf
}

const (
	anyOf   = -1 // nobody says which
	emptied = "emptied"
)

// left is what can still be drawn.
func (s *Sheet) left() {
	a := s.account()
	volume, sediment, drawn := exactly(q.Volume(0)), exactly(q.Volume(0)), exactly(q.Volume(0))
	a.after(len(a.events), func(h holding) {
		volume, sediment = sum(s, volume, h.contents), sum(s, sediment, h.sediment)
	}, func(d departure) {
		drawn = sum(s, drawn, d.volume)
	})
	left := from3(s, func(v, sediment, drawn q.Volume) (q.Number, error) {
		return asPints(max(0, v-sediment-drawn))
	}, volume, sediment, drawn)
	add(s, kindPintsLeft, "", left, sym("n", left, ""), sym("V", volume, "L"), sym("s", sediment, "L"), sym("p", drawn, "L"))
}

// LeftOverTime is what could be drawn when the containers were filled, and after
// each thing that has left them since. Its last point is the figure pints-left. It
// is empty where that is not known, and lacks what no volume tells.
func (s *Sheet) LeftOverTime() []Left {
	if _, known := s.Find(kindPintsLeft.ID, ""); !known {
		return nil
	}
	a := s.account()
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
// taken of that. What left a container goes with it when it is emptied.
func (a *account) after(events int, in func(holding), out func(departure)) {
	gone := func(of int) bool {
		return slices.ContainsFunc(a.events[:events], func(e departure) bool { return e.what == emptied && e.of == of })
	}
	for i, h := range a.holdings {
		if !gone(i) {
			in(h)
		}
	}
	for _, e := range a.events[:events] {
		if e.what != emptied && (e.of == anyOf || !gone(e.of)) {
			out(e)
		}
	}
}

// litresAfter is what can be drawn once so many of the events have come.
func (a *account) litresAfter(events int) (total q.Volume, known bool) {
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

// account is made once, while the sheet is worked out.
func (s *Sheet) account() *account {
	return s.memoAccount.once(func() *account {
		a := &account{begun: s.begunAsContents()}
		for _, c := range s.Containers() {
			a.holdings = append(a.holdings, holding{contents: s.contents(c), sediment: s.sediment(c), broached: s.Broached(c), emptied: s.ranOut(c)})
		}
		if len(a.holdings) == 0 {
			a.holdings = []holding{{contents: s.rackedVolume(), sediment: exactly(q.Volume(0)), emptied: s.Gyle.Served.Emptied}}
		}
		s.departures(a)
		for i, h := range a.holdings {
			if s.past(h.emptied) {
				a.events = append(a.events, departure{at: s.cameAt(h.emptied), what: emptied, of: i})
			}
		}
		slices.SortStableFunc(a.events, func(x, y departure) int { return cmp.Compare(x.at.UnixNano(), y.at.UnixNano()) })
		return a
	})
}

// departures adds what was poured, dumped and drawn off into other gyles. What
// others took on the day of filling or before came out of the fermenter, and was
// never in the containers.
func (s *Sheet) departures(a *account) {
	for i, p := range s.Gyle.Poured {
		if s.past(p.When) {
			volume := read(s, p.Volume, keyOf(p.Volume.Where, "poured", i, "volume"), ofFill)
			a.events = append(a.events, departure{s.cameAt(p.When), "poured", volume, a.source(p.Package, p.When)})
		}
	}
	for i, d := range s.Gyle.Done {
		if s.wasDumped(d) && (d.Package.Written() || s.afterFilling(d.When)) {
			a.events = append(a.events, departure{s.cameAt(d.When), "dumped", s.dumpedIn(i), a.source(d.Package, d.When)})
		}
	}
	for _, d := range s.Taken {
		if d.Volume.Written() && s.past(d.On) && s.afterFilling(d.On) {
			volume := read(s, d.Volume, d.Volume.Key, ofVolume)
			a.events = append(a.events, departure{s.cameAt(d.On), "drawn off", volume, a.source(journal.Whole{}, d.On)})
		}
	}
}

// source is the holding that something came out of: the one that is named, the
// only one, or the only one that stood open then.
func (a *account) source(named journal.Whole, when journal.Moment) int {
	if named.Written() && named.N >= 0 && named.N < len(a.holdings) {
		return named.N
	}
	if len(a.holdings) == 1 {
		return 0
	}
	of := anyOf
	for i, h := range a.holdings {
		if !h.openAt(when) {
			continue
		}
		if of != anyOf {
			return anyOf
		}
		of = i
	}
	return of
}

// openAt tells whether a container was broached by a moment and not yet emptied;
// on the day that either happened, it was.
func (h holding) openAt(when journal.Moment) bool {
	return h.broached.Written() && !h.broached.Time.After(end(when)) && !(h.emptied.Written() && end(h.emptied).Before(when.Time))
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
func (s *Sheet) cameAt(m journal.Moment) time.Time {
	if at := m.Middle(); at.Before(s.Now) {
		return at
	}
	return s.Now
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
	for _, c := range s.Containers() {
		take(s.Filled(c))
	}
	return begun
}

// sediment is what stays behind in a container with the yeast (common practice,
// no source): a third to two thirds of a litre in a bag, more in a cask, a
// finger's breadth in each bottle.
func (s *Sheet) sediment(c Container) Estimate[q.Volume] {
	each, doubt := q.Volume(0.5), 0.2
	switch {
	case c.Is("bottle"):
		each, doubt = 0.02, 0.01
	case c.Is("cask"):
		each, doubt = 0.75, 0.25
	case c.Is("keg"), c.Is("pressure barrel"):
		each, doubt = 0.5, 0.3
	}
	n := q.Volume(c.Count())
	return customary(s, each*n, doubt*float64(n), "L", "the sediment in "+c.Name()+" "+c.Key, "what stays behind with the yeast (common practice, no source)")
}

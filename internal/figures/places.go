package figures

import (
	"slices"
	"time"

	"gylebook/internal/journal"
	q "gylebook/internal/quantity"
)

// place is where a container stands, or is to stand, for a while.
type place struct {
	heat  journal.Value[q.Temperature]
	from  time.Time // zero: since it was filled
	to    time.Time // zero: no end is named
	usual bool      // the usual heat there, and no warmest of it is named
	most  bool      // the warmest there, not what it usually is
	over  bool      // that it is behind the container
}

// placesOf are the places of a container, found once.
func (b *bench) placesOf(c Container) []place {
	return b.ofContainer[c.Index].places.once(func() []place { return b.places(c) })
}

// places are all that the entry names for a container after it was filled.
func (s *Sheet) places(c Container) []place {
	all, moves := make([]place, 0, 8), s.moves(c)
	add := func(heat journal.Value[q.Temperature], from, to time.Time, usual bool) {
		if heat.Written() {
			all = append(all, place{heat: heat, from: from, to: to, usual: usual, over: s.over(c, moves, from, to)})
		}
	}
	addMost := func(heat journal.Value[q.Temperature], from, to time.Time) {
		if add(heat, from, to, false); heat.Written() {
			all[len(all)-1].most = true
		}
	}
	conditioned, cellared, filled := s.Conditioned(c), s.Cellared(c), start(s.Filled(c))
	until := end0(conditioned.To)
	if until.IsZero() && cellared.At.Written() {
		until = start(cellared.From)
	}
	from := orElse(start(conditioned.From), filled)
	addMost(conditioned.Warmest, from, until)
	add(conditioned.At, from, until, !conditioned.Warmest.Written())
	from = orElse(start(cellared.From), orElse(end0(conditioned.To), filled))
	addMost(cellared.Warmest, from, time.Time{})
	add(cellared.At, from, time.Time{}, !cellared.Warmest.Written())
	add(c.Package.Gas.At, start(c.Package.Gas.From), end0(c.Package.Gas.To), true)
	for i, m := range moves {
		until := s.movedOn(c, moves, m.at)
		if m.read && i+1 < len(moves) && moves[i+1].read && (until.IsZero() || moves[i+1].at.Before(until)) {
			until = moves[i+1].at // a later reading of where it stands
		}
		add(m.heat, m.at, until, !m.read)
	}
	if s.past(s.Broached(c)) {
		add(s.Gyle.Served.At, start(s.Broached(c)), time.Time{}, true)
	}
	return all
}

// move is a heat that a container was brought to, or read at, on a day.
type move struct {
	at   time.Time
	heat journal.Value[q.Temperature]
	read bool
}

// moves are what was done to a container's heat, and what was read of it.
func (s *Sheet) moves(c Container) []move {
	var all []move
	for i := range s.Gyle.Done {
		d := &s.Gyle.Done[i]
		if (d.Did.Is(journal.Moved, journal.Chilled, journal.Warmed)) && aboutPackage(d, c) && d.At.Written() && s.afterFilled(c, d.When) {
			all = append(all, move{start(d.When), d.At, false})
		}
	}
	for i := range s.Gyle.Readings {
		r := &s.Gyle.Readings[i]
		if r.Package.Written() && r.Package.N == c.Index && r.Temp.Written() && r.When.Written() {
			all = append(all, move{start(r.When), r.Temp, true})
		}
	}
	slices.SortStableFunc(all, func(a, b move) int { return a.at.Compare(b.at) })
	return all
}

// afterFilled tells whether a moment is after a container was filled, or may be: what
// tells only by when it was filled rules nothing out.
func (s *Sheet) afterFilled(c Container, m journal.Moment) bool {
	filled := first1(c.Package.On, s.Gyle.Racked.On)
	return !m.Written() || !filled.Written() || !end(m).Before(filled.Time)
}

// movedOn is when a container was next brought to another place after a moment; zero
// where nobody says.
func (s *Sheet) movedOn(c Container, moves []move, after time.Time) (next time.Time) {
	take := func(t time.Time) {
		if !t.IsZero() && t.After(after) && (next.IsZero() || t.Before(next)) {
			next = t
		}
	}
	for _, m := range moves {
		if !m.read {
			take(m.at)
		}
	}
	if cellared := s.Cellared(c); cellared.At.Written() {
		take(start(cellared.From))
	}
	take(start(s.Conditioned(c).From))
	return next
}

func start(m journal.Moment) time.Time {
	if !m.Written() {
		return time.Time{}
	}
	return m.Time
}

func orElse(t, otherwise time.Time) time.Time {
	if t.IsZero() {
		return otherwise
	}
	return t
}

// end0 is the end of a moment, zero for one that is not written.
func end0(m journal.Moment) time.Time {
	if !m.Written() {
		return time.Time{}
	}
	return end(m)
}

// over tells whether a place is behind a container: by its own end, or because the
// container was moved, chilled or warmed since it came there.
func (s *Sheet) over(c Container, moves []move, from, to time.Time) bool {
	if !to.IsZero() && !to.After(s.Now) {
		return true
	}
	moved := s.movedOn(c, moves, from)
	return !from.IsZero() && !moved.IsZero() && !moved.After(s.Now)
}

// How warm a place may be that the entry does not name, in °C (common practice, no
// source): a room, and what a summer's day adds to a usual heat, less where that is a
// refrigerator's.
const (
	unnamedRoom, unnamedRoomOff = 25.0, 5.0
	summersDay                  = 6.0
	coldsDay                    = 2.0
	coldPlace, coolPlace        = 4.0, 10.0
)

// warmest is the warmest place that a container still has ahead of it, and the same
// with a summer's day where only a usual heat is named. While nobody says where it stands,
// a warm room is taken. It is never colder than its cellar.
func (b *bench) warmest(c Container) likelyAndWorst[q.Temperature] {
	return b.ofContainer[c.Index].warmest.once(func() likelyAndWorst[q.Temperature] {
		named, any := b.warmestNamed(c)
		if any && b.PlaceNamed(c) {
			return b.notBelowCellar(c, named)
		}
		room := customary(b, q.Celsius(unnamedRoom), unnamedRoomOff, "°C", "where "+c.Called()+" stands",
			"taken as 25 ± 5 °C: nothing says where it stands (common practice for a room, no source)")
		out := likelyAndWorst[q.Temperature]{room, room}
		if any && named.likely.Value > room.Value {
			out.likely = named.likely
		}
		if any && named.worst.Value+named.worst.PlusMinus() > room.Value+room.PlusMinus() {
			out.worst = named.worst
		}
		return b.notBelowCellar(c, out)
	})
}

// warmestNamed is the warmest of the places that an entry names and that are ahead.
func (b *bench) warmestNamed(c Container) (w likelyAndWorst[q.Temperature], any bool) {
	var likely, worst journal.Value[q.Temperature]
	worstHeat := 0.0
	for _, p := range b.placesOf(c) {
		if p.over || !limitsOf(p.heat.Value.Kind()).hold(float64(p.heat.Value)) {
			continue
		}
		heat := p.heat.Value.Celsius() + p.summer()
		if !any || heat > worstHeat {
			worst, worstHeat = p.heat, heat
		}
		if !any || p.heat.Value > likely.Value {
			likely = p.heat
		}
		any = true
	}
	if !any {
		return w, false
	}
	summer := q.Temperature(worstHeat) - q.Temperature(worst.Value.Celsius())
	w.likely = read(b, likely, likely.Key, ofHeat)
	w.worst = from1(b, func(t q.Temperature) (q.Temperature, error) { return t + summer, nil }, read(b, worst, worst.Key, ofHeat))
	return w, true
}

func (b *bench) notBelowCellar(c Container, w likelyAndWorst[q.Temperature]) likelyAndWorst[q.Temperature] {
	cellar := b.cellarHeat(c)
	if !cellar.known {
		return w
	}
	if w.likely.known && w.likely.Value < cellar.Value {
		w.likely = cellar
	}
	if w.worst.known && w.worst.Value < cellar.Value {
		w.worst = cellar
	}
	return w
}

// summer is what a warm day may add to a usual heat.
func (p place) summer() float64 {
	if !p.usual {
		return 0
	}
	return coldsDay + (summersDay-coldsDay)*ramp(p.heat.Value.Celsius(), coldPlace, coolPlace)
}

// StoodAt is the warmest heat that the entry names for where a container has stood so
// far, and its line; not written where it names none.
func (s *Sheet) StoodAt(c Container) (q.Temperature, journal.Where) {
	var hottest journal.Value[q.Temperature]
	for _, p := range s.places(c) {
		if !p.from.After(s.Now) && (!hottest.Written() || p.heat.Value > hottest.Value) {
			hottest = p.heat
		}
	}
	return hottest.Value, hottest.Where
}

// WarmestPlace is the warmest heat that the entry names for where a container still is to
// stand, and its line; not written where it names none.
func (s *Sheet) WarmestPlace(c Container) (q.Temperature, journal.Where) {
	var hottest journal.Value[q.Temperature]
	for _, p := range s.places(c) {
		if !p.over && (!hottest.Written() || p.heat.Value > hottest.Value) {
			hottest = p.heat
		}
	}
	return hottest.Value, hottest.Where
}

// PlaceNamed tells whether the entry names where a container stands from now on, or from
// when it is filled: all of the time, but for a day on the way from one place to another.
func (s *Sheet) PlaceNamed(c Container) bool { return s.standsNamed(c, s.places(c)) }

// aDayOnTheWay is how long beer may be between two places that are named.
const aDayOnTheWay = 24 * time.Hour

func (s *Sheet) standsNamed(c Container, places []place) bool {
	filled := start(first1(c.Package.On, s.Gyle.Racked.On))
	now := filled
	if now.Before(s.Now) {
		now = s.Now
	}
	if s.movedNowhere(c, now, time.Time{}, journal.Moved, journal.Warmed) {
		return false
	}
	standsOn := func(at time.Time, within time.Duration) bool {
		return slices.ContainsFunc(places, func(p place) bool {
			return !p.from.After(at.Add(within)) && (p.to.IsZero() || p.to.After(at))
		})
	}
	onTheWay := time.Duration(0) // from the filling, or from a place that it has just left, and not from nowhere
	lately := func(t time.Time) bool { return !t.IsZero() && !t.After(now) && now.Sub(t) <= aDayOnTheWay }
	if lately(filled) || slices.ContainsFunc(places, func(p place) bool { return lately(p.to) }) {
		onTheWay = aDayOnTheWay
	}
	return standsOn(now, onTheWay) &&
		!slices.ContainsFunc(places, func(p place) bool { return p.to.After(now) && !standsOn(p.to, aDayOnTheWay) })
}

// movedNowhere tells whether at any time from one moment to another, zero for no end, the
// last that was done to a container's heat is one of some deeds of which nobody says how
// warm it became.
func (s *Sheet) movedNowhere(c Container, from, to time.Time, did ...journal.Act) bool {
	moves := s.moves(c)
	return slices.ContainsFunc(s.Gyle.Done, func(d journal.Deed) bool {
		if !d.Did.Is(did...) || d.At.Written() || !aboutPackage(&d, c) || !s.afterFilled(c, d.When) {
			return false
		}
		at := start(d.When)
		next := s.movedOn(c, moves, at)
		return (to.IsZero() || !at.After(to)) && (next.IsZero() || next.After(from))
	})
}

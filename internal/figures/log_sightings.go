package figures

import (
	"iter"
	"math"
	"slices"
	"time"

	q "gylebook/internal/quantity"
)

// bias is what to add to a gravity that the logger wrote at a moment, with all its
// doubt.
func (l *logged) bias(b *bench, t time.Time) Estimate[q.Gravity] {
	days := l.day(t) - l.line.middle
	drifted := times[q.Number](b, l.drift, days)
	return from1(b, func(points q.Number) (q.Gravity, error) {
		return q.Gravity(points) * q.Point, nil
	}, sum(b, l.offset, drifted, l.trend))
}

// sighting is a bin set right, with the doubts that all of them share and its own.
func (l *logged) sighting(w *bench, b bin) GravityReading {
	file := w.Gyle.Logger.Where
	own := input(w, q.SG(1+b.points/1000), Input{
		What: "the logger's rows of some hours", Where: file, Uncertainty: b.u / 1000, Unit: "SG", Reason: "their spread ÷ √n",
	})
	r := GravityReading{Index: -1, When: b.when, Where: file, Gravity: sum(w, own, l.bias(w, b.when)), Logged: true}
	if !math.IsNaN(b.heat) {
		r.Temp.Value, r.Temp.Where = q.Celsius(math.Round(10*b.heat)/10), file
		r.Temp.Unit = r.Temp.Value.Kind().Canonical().Symbol
	}
	return r
}

// look makes the sightings: one for every few hours, and one of the last hour.
func (l *logged) look(b *bench) {
	for _, lot := range l.rows.bins(l.pitched) {
		l.sightings = append(l.sightings, l.sighting(b, lot))
	}
	for i := len(l.rows.points) - 1; i >= 0; i-- {
		if last := l.rows.when(i); !math.IsNaN(l.rows.points[i]) && last.After(l.pitched) {
			lot, _ := l.rows.between(maxTime(last.Add(-sameHour), l.pitched), last.Add(time.Second))
			l.now = l.sighting(b, lot)
			l.now.When = last
			return
		}
	}
}

// supersedes tells whether the logger shows the beer clearly lower than the last
// reading by hand, or there is none: then that reading is not the final one.
func (l *logged) supersedes(hand Estimate[q.Gravity]) bool {
	now := l.now.Gravity
	switch {
	case !now.known:
		return false
	case !hand.known:
		return true
	}
	return hand.Value.Points()-now.Value.Points() > max(leastNews, 1000*float64(now.PlusMinus()))
}

// loggedNote says of a gravity that it is the logger's, "" of any other.
func (b *bench) loggedNote(g Estimate[q.Gravity]) string {
	if l := b.logOf(); l != nil && l.now.Gravity.known && g.Value == l.now.Gravity.Value {
		return "by the logger, its offset allowed for"
	}
	return ""
}

// leastNews is by how many points a logger must have fallen since a reading by hand
// to say something new: a level beer may fall by one, and a float wander by another.
const leastNews = 2.0

// vouchedFor are the logger's sightings that may show that the beer stood still:
// those of a logger that was read beside two readings by hand at least, the last of
// which it may have been set right by.
func (b *bench) vouchedFor() []GravityReading {
	if l := b.logOf(); l != nil && len(l.matches) >= 2 {
		return l.sightings
	}
	return nil
}

// fallenSince tells whether the logger shows the beer falling on after the last
// reading by hand, by two sightings running.
func (l *logged) fallenSince(last GravityReading, st Stability) bool {
	low := math.Inf(1)
	for _, r := range st.Level {
		low = min(low, r.Gravity.Value.Points())
	}
	running := 0
	for _, r := range l.sightings {
		switch {
		case !r.When.After(last.When):
		case r.Gravity.Value.Points() < low-leastNews:
			running++
		default:
			running = 0
		}
		if running == 2 {
			return len(l.matches) > 0
		}
	}
	return false
}

// sightings are the sightings of the gyle's logger after pitching, set right by what
// was read by hand, one for every six hours; none where it has no logger.
func (b *bench) sightings() []GravityReading {
	if l := b.logOf(); l != nil {
		return l.sightings
	}
	return nil
}

// byTime joins readings in order of time; of one moment, those by hand come last.
func byTime(hand, logger []GravityReading) []GravityReading {
	if len(logger) == 0 {
		return hand
	}
	all := slices.Concat(logger, hand)
	slices.SortStableFunc(all, func(a, b GravityReading) int { return a.When.Compare(b.When) })
	return all
}

// LogPoint is one row of the logger's file as the beer's: its gravity set right,
// and its heat. Either is NaN where the row has none, or one that cannot be.
type LogPoint struct {
	When    time.Time
	Gravity float64 // SG
	Temp    float64 // °C
}

// LogTrace goes through the logger's whole record of the beer, row by row.
func (i *Inquiry) LogTrace() iter.Seq[LogPoint] {
	return func(yield func(LogPoint) bool) {
		l := i.logOf()
		if l == nil || l.rows.log == nil {
			return
		}
		gravities, heats := limitsOf(q.Gravity(1).Kind()), limitsOf(q.Temperature(0).Kind())
		for i := l.rows.from; i < l.rows.to; i++ {
			p := LogPoint{When: time.Unix(l.rows.log.Second(i), 0).In(l.pitched.Location()), Gravity: math.NaN(), Temp: l.rows.log.Temp(i)}
			if g := l.rows.gravity(i); gravities.hold(g) {
				p.Gravity = 1 + l.corrected(p.When, 1000*(g-1))/1000
			}
			if !heats.hold(p.Temp) {
				p.Temp = math.NaN()
			}
			if !yield(p) {
				return
			}
		}
	}
}

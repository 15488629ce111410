package figures

import (
	"math"
	"time"
)

// LogCheck is what speaks against a logger's file.
type LogCheck struct {
	// Off is the reading by hand that the logger, set right, is farthest from, by
	// how many points it stands above it, and the ± (2u) of that. A logger that was
	// set right by one reading agrees with it, and is off by nothing.
	Off          GravityReading
	OffBy        float64
	OffPlusMinus float64
	// Jumped is when the logger's gravity changed most within an hour, and by how
	// many points. A single row that stands out is passed over.
	Jumped   time.Time
	JumpedBy float64
	// Rows is how many of its rows are about this beer, and Impossible how many of
	// them have a gravity that no beer has.
	Rows, Impossible int
}

// settles is how long a float may toss about after the yeast went in and the wort
// was roused.
const settles = 2 * time.Hour

func (l *logged) examine() {
	l.check.Rows, l.check.Impossible = len(l.rows.points), l.rows.impossible
	for i, m := range l.matches {
		off := l.corrected(m.hand.When, m.logger.points) - m.hand.Gravity.Value.Points()
		if math.Abs(off) > math.Abs(l.check.OffBy) {
			l.check.Off, l.check.OffBy, l.check.OffPlusMinus = m.hand, off, 2*l.pairs[i].u
		}
	}
	l.check.Jumped, l.check.JumpedBy = l.worstJump()
}

// worstJump is the largest change of gravity within an hour once the float has
// settled, by the medians of three rows each.
func (l *logged) worstJump() (at time.Time, by float64) {
	var high, low window
	var seen [3]float64
	var begun, middle, second int64
	rows, pitched := 0, l.pitched.Unix()
	for i, g := range l.rows.points {
		now := l.rows.log.Second(l.rows.from + i)
		if math.IsNaN(g) || now <= pitched {
			continue
		}
		if rows == 0 {
			begun = now
		}
		middle, second = second, now
		seen[rows%3] = g
		if rows++; rows < 3 || middle-begun < int64(settles.Seconds()) {
			continue
		}
		m := max(min(seen[0], seen[1]), min(max(seen[0], seen[1]), seen[2]))
		for _, change := range []float64{m - low.least(middle, m), m + high.least(middle, -m)} {
			if math.Abs(change) > math.Abs(by) {
				at, by = time.Unix(middle, 0).In(l.pitched.Location()), change
			}
		}
	}
	return at, by
}

// window keeps what may yet be the least value of the last hour, in order of time
// and so of rising value.
type window []struct {
	second int64
	value  float64
}

// least takes in a value and is the least of the hour that ends with it.
func (w *window) least(second int64, value float64) float64 {
	all := *w
	for len(all) > 0 && all[len(all)-1].value >= value {
		all = all[:len(all)-1]
	}
	all = append(all, struct {
		second int64
		value  float64
	}{second, value})
	for second-all[0].second > int64(time.Hour.Seconds()) {
		all = all[1:]
	}
	*w = all
	return all[0].value
}

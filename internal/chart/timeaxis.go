package chart

import (
	"strconv"
	"time"
)

// period is a distance between ticks that a calendar has: so many of one unit.
type period struct {
	unit   byte // 'm'inutes, 'd'ays, 'M'onths, 'y'ears
	count  int
	length float64 // seconds, about
}

const (
	minute = 60.0
	day    = 24 * 60 * minute
)

// periods run from the shortest. Days and weeks are counted from the first day
// of the axis, not from Monday: brewers count from the pitching.
func periods() []period {
	var all []period
	add := func(unit byte, length float64, counts ...int) {
		for _, n := range counts {
			all = append(all, period{unit, n, length * float64(n)})
		}
	}
	add('m', minute, 1, 2, 5, 10, 20, 30, 60, 120, 180, 360, 720)
	add('d', day, 1, 2, 3, 4, 7, 14)
	add('M', 30.44*day, 1, 2, 3, 6)
	add('y', 365.25*day, 1, 2, 5, 10, 20, 50, 100, 200, 500, 1000, 2000)
	return all
}

// timeAxis is the horizontal axis of a chart over time.
type timeAxis struct {
	scale
	period
	zone *time.Location
}

// newTimeAxis rules the span so that a tick has about 48 units of room. From
// four days on, the axis begins at midnight, so that whole days are counted.
func newTimeAxis(s span, zone *time.Location, from, to float64) timeAxis {
	if zone == nil {
		zone = time.UTC
	}
	s.stretch(6 * 60 * minute)
	if s.hi-s.lo >= 4*day {
		first := moment(s.lo).In(zone)
		s.lo = seconds(time.Date(first.Year(), first.Month(), first.Day(), 0, 0, 0, 0, zone))
	}
	a := timeAxis{scale: scale{s.lo, s.hi, from, to}, zone: zone}
	most := (to - from) / 48
	for _, a.period = range periods() {
		if (s.hi-s.lo)/a.length <= most {
			break
		}
	}
	return a
}

func moment(seconds float64) time.Time { return time.Unix(int64(seconds), 0) }

// ticks are the moments at which the axis is marked. Their number is bounded,
// whatever a time zone does to its clocks.
func (a timeAxis) ticks() []time.Time {
	var all []time.Time
	start := moment(a.lo).In(a.zone)
	for i := range 64 {
		t := a.tick(start, i)
		s := seconds(t)
		if s > a.hi {
			break
		}
		if s >= a.lo && (len(all) == 0 || t.After(all[len(all)-1])) {
			all = append(all, t)
		}
	}
	return all
}

// tick is the nth tick from the last one at or before the start.
func (a timeAxis) tick(start time.Time, n int) time.Time {
	y, m, d := start.Date()
	n *= a.count
	switch a.unit {
	case 'y':
		return time.Date(y-y%a.count+n, 1, 1, 0, 0, 0, 0, a.zone)
	case 'M':
		return time.Date(y, m-(m-1)%time.Month(a.count)+time.Month(n), 1, 0, 0, 0, 0, a.zone)
	case 'd':
		return time.Date(y, m, d+n, 0, 0, 0, 0, a.zone)
	}
	passed := 60*start.Hour() + start.Minute()
	return time.Date(y, m, d, 0, passed-passed%a.count+n, 0, 0, a.zone)
}

// label is what a tick says, given the one labelled before it (zero: none):
// only what has changed, so that a month or a year is named once.
func (a timeAxis) label(t, before time.Time) string {
	midnight := t.Hour() == 0 && t.Minute() == 0
	newYear := !before.IsZero() && t.Year() != before.Year()
	switch {
	case a.unit == 'y':
		return strconv.Itoa(t.Year())
	case a.unit == 'M' && (before.IsZero() || newYear):
		return t.Format("Jan 2006")
	case a.unit == 'M':
		return t.Format("Jan")
	case newYear:
		return t.Format("2 Jan 2006")
	case a.unit == 'm' && before.IsZero() && !midnight:
		return t.Format("2 Jan 15:04")
	case a.unit == 'm' && !midnight:
		return t.Format("15:04")
	case a.unit == 'm' || before.IsZero() || t.Month() != before.Month():
		return t.Format("2 Jan")
	}
	return t.Format("2")
}

// rule draws the ticks below a panel. They are short: lines through the whole
// panel would be taken for events.
func (a timeAxis) rule(p *pen, foot float64) {
	var t trace
	for _, tick := range a.ticks() {
		t.upright(a.at(seconds(tick)), foot, foot+5)
	}
	p.path("axis", t.String())
}

// name sets the labels of the ticks on the baseline y, between left and right,
// passing over those for which there is no room.
func (a timeAxis) name(p *pen, y, left, right float64) {
	var before time.Time
	free := left
	for _, tick := range a.ticks() {
		label := a.label(tick, before)
		half := breadth(label) / 2
		x := min(max(a.at(seconds(tick)), left+half), right-half)
		if x-half < free {
			continue
		}
		p.text("", x, y, middle, label)
		free, before = x+half+6, tick
	}
}

// says tells a moment in words.
func (a timeAxis) says(s float64) string { return moment(s).In(a.zone).Format("2 January 2006") }

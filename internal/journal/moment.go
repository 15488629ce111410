package journal

import (
	"errors"
	"fmt"
	"strings"
	"time"
)

func (*Moment) shape() leafShape { return leafShape{name: "moment"} }

func (m *Moment) take(r *reading, s scalar, f *field) {
	t, dateOnly, err := ParseMoment(s.text, r.zone)
	if err != nil {
		do := ""
		var wrong *MomentError
		if errors.As(err, &wrong) {
			do = meant(wrong.Fix)
		}
		if do == "" {
			do = r.momentHint(s.text, f)
		}
		r.wrong(s.node, idNotADate, s.Key, fmt.Sprintf("%s %v: expected %s", quote(s.text), err, wantedMoment), do)
		return
	}
	*m = Moment{Time: t, DateOnly: dateOnly, Where: s.Where}
}

const wantedMoment = "a date such as 2026-03-07, or with its time, 2026-03-07 16:10"

// MomentError is what ParseMoment found wrong.
type MomentError struct {
	Found string // what is wrong with the text, to be said of it: "is no date"
	Fix   string // the likely meaning, or ""
}

// Error says it in one line.
func (e *MomentError) Error() string { return e.Found }

// ParseMoment reads a date, a date with a time (a space or T between them,
// seconds if wished) or RFC 3339. Without an offset the time is the zone's
// clock.
//
// Where the clock is put forward, an hour of it never was: such a time is read
// as if the clock had not been moved yet, so 01:30 becomes 02:30. Where it is
// put back, an hour comes twice: the first of the two is meant.
//
// An error is always a *MomentError.
func ParseMoment(text string, zone *time.Location) (t time.Time, dateOnly bool, err error) {
	c := clockText{rest: text}
	year, month, day := c.digits(4), c.after('-', 2), c.after('-', 2)
	if c.failed {
		return time.Time{}, false, &MomentError{Found: "is no date", Fix: padded(text)}
	}
	if day < 1 || month < 1 || month > 12 || day > daysIn(year, month) || year < 1 {
		return time.Time{}, false, &MomentError{Found: "names a day that is not"}
	}
	date := time.Date(year, time.Month(month), day, 0, 0, 0, 0, time.UTC)
	if c.rest == "" {
		return onClock(date, zone), true, nil
	}
	if !c.take(' ') && !c.take('T') {
		return time.Time{}, false, &MomentError{Found: fmt.Sprintf("has %q after the day", shorten(c.rest, 12))}
	}
	wall, offset, found := c.time(date)
	if found != "" {
		return time.Time{}, false, &MomentError{Found: found, Fix: padded(text)}
	}
	if offset == nil {
		return onClock(wall, zone), false, nil
	}
	return onClock(wall, offset), false, nil
}

// time reads what follows the date, or tells what it found wrong.
func (c *clockText) time(date time.Time) (wall time.Time, offset *time.Location, found string) {
	hour, minute, second, nanos := c.digits(2), c.after(':', 2), 0, 0
	if !c.failed && strings.HasPrefix(c.rest, ":") {
		second = c.after(':', 2)
		nanos = c.fraction()
	}
	offset = c.offset()
	switch {
	case c.failed:
		return wall, nil, "has no time of day after the date"
	case c.rest != "":
		return wall, nil, fmt.Sprintf("has %q after the time", shorten(c.rest, 12))
	case hour > 23 || minute > 59 || second > 59:
		return wall, nil, "names a time of day that is not"
	}
	return time.Date(date.Year(), date.Month(), date.Day(), hour, minute, second, nanos, time.UTC), offset, ""
}

// clockText reads fixed numbers of digits from the left.
type clockText struct {
	rest   string
	failed bool
}

func (c *clockText) take(b byte) bool {
	if c.rest == "" || c.rest[0] != b {
		return false
	}
	c.rest = c.rest[1:]
	return true
}

func (c *clockText) digits(n int) int {
	if c.failed || len(c.rest) < n || strings.Trim(c.rest[:n], "0123456789") != "" {
		c.failed = true
		return 0
	}
	value := 0
	for _, digit := range c.rest[:n] {
		value = 10*value + int(digit-'0')
	}
	c.rest = c.rest[n:]
	if c.rest != "" && c.rest[0] >= '0' && c.rest[0] <= '9' {
		c.failed = true
	}
	return value
}

func (c *clockText) after(sep byte, n int) int {
	if c.failed || !c.take(sep) {
		c.failed = true
		return 0
	}
	return c.digits(n)
}

// fraction reads a fraction of a second, to the nanosecond.
func (c *clockText) fraction() int {
	if c.failed || !c.take('.') {
		return 0
	}
	n := len(c.rest) - len(strings.TrimLeft(c.rest, "0123456789"))
	if n == 0 || n > 9 {
		c.failed = true
		return 0
	}
	nanos := c.digits(n)
	for range 9 - n {
		nanos *= 10
	}
	return nanos
}

// offset reads Z or ±hh:mm, nil where neither stands.
func (c *clockText) offset() *time.Location {
	if c.failed || c.rest == "" {
		return nil
	}
	if c.take('Z') {
		return time.UTC
	}
	sign := 1
	if c.rest[0] == '-' {
		sign = -1
	}
	if !c.take('+') && !c.take('-') {
		return nil
	}
	hours, minutes := c.digits(2), c.after(':', 2)
	if hours > 23 || minutes > 59 {
		c.failed = true
	}
	return time.FixedZone("", sign*(hours*3600+minutes*60))
}

func daysIn(year, month int) int {
	return time.Date(year, time.Month(month)+1, 0, 0, 0, 0, 0, time.UTC).Day()
}

// onClock is the instant at which the zone's clock shows what wall, in UTC,
// shows. See ParseMoment for the hours that come twice or never.
func onClock(wall time.Time, zone *time.Location) time.Time {
	near := time.Date(wall.Year(), wall.Month(), wall.Day(), wall.Hour(), wall.Minute(), wall.Second(), wall.Nanosecond(), zone)
	start, end := near.ZoneBounds()
	candidates := []time.Time{near}
	for _, edge := range []time.Time{start.Add(-1), start, end} {
		if !edge.IsZero() && edge.Year() > 0 {
			_, seconds := edge.Zone()
			candidates = append(candidates, wall.Add(-time.Duration(seconds)*time.Second).In(zone))
		}
	}
	var first, last time.Time
	for _, t := range candidates {
		if sameClock(t, wall) && (first.IsZero() || t.Before(first)) {
			first = t
		}
		if last.IsZero() || t.After(last) {
			last = t
		}
	}
	if first.IsZero() {
		return last
	}
	return first
}

func sameClock(t, wall time.Time) bool {
	return t.YearDay() == wall.YearDay() && t.Year() == wall.Year() && t.Hour() == wall.Hour() && t.Minute() == wall.Minute() && t.Second() == wall.Second()
}

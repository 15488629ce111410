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
	if err != nil { // 12 Oct 2026, or 14/03/2026: another way to write what can be one day only
		if surely, day, at := ParseMoment(padded(s.text), r.zone); at == nil {
			t, dateOnly, err = surely, day, nil
		}
	}
	if err != nil {
		do := ""
		var wrong *MomentError
		if errors.As(err, &wrong) {
			do = writeIfMeant(wrong.Fix)
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
	const day = len(time.DateOnly)
	if len(text) < day || len(text) > day && startsWithDigit(text[day:]) {
		return t, false, &MomentError{Found: "is no date", Fix: padded(text)}
	}
	date, err := time.Parse(time.DateOnly, text[:day])
	switch {
	case err != nil && !strings.HasSuffix(err.Error(), "out of range"):
		return t, false, &MomentError{Found: "is no date", Fix: padded(text)}
	case err != nil || date.Year() < 1:
		return t, false, &MomentError{Found: "names a day that is not"}
	case len(text) == day:
		return onClock(date, zone), true, nil
	case text[day] != ' ' && text[day] != 'T':
		return t, false, &MomentError{Found: fmt.Sprintf("has %q after the day", shorten(text[day:], 12))}
	}
	clock, zone, found := cutOffset(text[day+1:], zone)
	if found == "" {
		t, found = timeOfDay(text[:day], clock)
	}
	if found != "" {
		return time.Time{}, false, &MomentError{Found: found, Fix: padded(text)}
	}
	return onClock(t, zone), false, nil
}

// cutOffset takes Z or ±hh:mm from the end of a time, and the zone that it stands
// for; without one, the zone stays as it was.
func cutOffset(text string, zone *time.Location) (clock string, of *time.Location, found string) {
	if clock, utc := strings.CutSuffix(text, "Z"); utc {
		return clock, time.UTC, ""
	}
	at := strings.LastIndexAny(text, "+-")
	if at < 0 {
		return text, zone, ""
	}
	ahead, err := time.Parse("15:04", text[at+1:]) // -07:00 would take 24:60 as well
	if err != nil || len(text[at:]) != len("-07:00") || !startsWithDigit(text[at+1:]) {
		return "", nil, noClock
	}
	seconds := ahead.Hour()*3600 + ahead.Minute()*60
	if text[at] == '-' {
		seconds = -seconds
	}
	return text[:at], time.FixedZone("", seconds), ""
}

const noClock = "has no time of day after the date"

// timeOfDay is a day with hh:mm, with seconds and their fraction if wished, on a
// clock in UTC; or what is wrong with it. The standard library would read 9:05, a
// fraction after a comma and one that no clock shows as well.
func timeOfDay(day, clock string) (t time.Time, found string) {
	if len(clock) < len("15:04") || clock[2] != ':' || !startsWithDigit(clock) || strings.Contains(clock, ",") ||
		len(clock) > len("15:04:05.000000000") {
		return t, noClock
	}
	layout := "2006-01-02 15:04"
	if len(clock) > len("15:04") && clock[len("15:04")] == ':' {
		layout = time.DateTime
	}
	t, err := time.Parse(layout, day+" "+clock)
	var wrong *time.ParseError
	switch {
	case err == nil:
		return t, ""
	case errors.As(err, &wrong) && strings.HasPrefix(wrong.Message, ": extra text: "):
		return t, "has " + strings.TrimPrefix(wrong.Message, ": extra text: ") + " after the time"
	case strings.HasSuffix(err.Error(), "out of range"):
		return t, "names a time of day that is not"
	}
	return t, noClock
}

// onClock is the instant at which the zone's clock shows what wall, in UTC,
// shows. See ParseMoment for the hours that come twice or never, of which the
// standard library takes either.
func onClock(wall time.Time, zone *time.Location) time.Time {
	near := time.Date(wall.Year(), wall.Month(), wall.Day(), wall.Hour(), wall.Minute(), wall.Second(),
		wall.Nanosecond(), zone)
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
	return t.YearDay() == wall.YearDay() && t.Year() == wall.Year() && t.Hour() == wall.Hour() &&
		t.Minute() == wall.Minute() && t.Second() == wall.Second()
}

package site

import (
	"strconv"
	"time"

	"gylebook/internal/book"
	"gylebook/internal/journal"
)

// day is a date as it reads: 7 March 2026.
func (s speller) day(t time.Time) string {
	if t.IsZero() {
		return ""
	}
	t = t.In(s.zone)
	return strconv.Itoa(t.Day()) + "\u00a0" + t.Month().String() + "\u00a0" + strconv.Itoa(t.Year())
}

// shortDay is a date without its year.
func (s speller) shortDay(t time.Time) string {
	if t.IsZero() {
		return ""
	}
	t = t.In(s.zone)
	return strconv.Itoa(t.Day()) + "\u00a0" + t.Month().String()
}

// tableDay is a date for a table: 7 Mar 2026.
func (s speller) tableDay(t time.Time) string {
	if t.IsZero() {
		return ""
	}
	return t.In(s.zone).Format("2\u00a0Jan\u00a02006")
}

// tableMoment is a moment for a table, with its hour where one was written.
func (s speller) tableMoment(m journal.Moment) string {
	switch {
	case !m.Written():
		return ""
	case m.DateOnly:
		return s.tableDay(m.Time)
	}
	return s.tableDay(m.Time) + ", " + m.Time.In(s.zone).Format("15:04")
}

// narrowDay is a date for the margin, which may break before the year.
func (s speller) narrowDay(t time.Time) string {
	t = t.In(s.zone)
	return s.shortDay(t) + " " + strconv.Itoa(t.Year())
}

// moment is a date, with its hour where one was written.
func (s speller) moment(m journal.Moment) string {
	if !m.Written() {
		return ""
	}
	if m.DateOnly {
		return s.day(m.Time)
	}
	return s.day(m.Time) + ", " + m.Time.In(s.zone).Format("15:04")
}

// date is the day of a moment, "" where it was not written.
func (s speller) date(m journal.Moment) string {
	if !m.Written() {
		return ""
	}
	return s.day(m.Time)
}

// sortable is a date as text that sorts.
func (s speller) sortable(t time.Time) string {
	if t.IsZero() {
		return ""
	}
	return t.In(s.zone).Format("2006-01-02")
}

// dayOf is the day of its life that a gyle is in, brew day being the first; 0
// where it has not begun.
func dayOf(g *book.Gyle, now time.Time) int {
	if g.Begun.IsZero() || g.Begun.After(now) {
		return 0
	}
	return int(now.Sub(g.Begun).Hours()/24) + 1
}

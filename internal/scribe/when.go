package scribe

import (
	"fmt"
	"regexp"
	"strings"
	"time"

	"gylebook/internal/journal"
)

// When is the moment of a jotting, as it is written into the entry.
type When struct {
	Text   string // 2026-03-07 16:10
	Day    string // 2026-03-07
	Chosen bool   // it was said, and is not just the time of jotting
}

// form is how a moment of the journal's clock is written.
const form = "2006-01-02 15:04"

// Now is the moment of jotting, to the minute by the journal's clock. In the
// hour that comes twice when clocks go back, only an offset tells the second one
// from the first.
func Now(now time.Time, zone *time.Location) When {
	now = now.In(zone).Truncate(time.Minute)
	w := When{Text: now.Format(form), Day: now.Format(time.DateOnly)}
	if read, _, err := journal.ParseMoment(w.Text, zone); err != nil || !read.Equal(now) {
		w.Text = now.Format("2006-01-02T15:04:05Z07:00")
	}
	return w
}

var hourPattern = regexp.MustCompile(`^\d\d?:\d\d$`)

// At is the moment that somebody named: a date, a date and time, or a time of
// today, which must not be still to come.
func At(text string, now time.Time, zone *time.Location) (When, error) {
	now = now.In(zone)
	if hourPattern.MatchString(text) {
		full := now.Format(time.DateOnly) + " " + fmt.Sprintf("%05s", text)
		t, _, err := journal.ParseMoment(full, zone)
		switch {
		case err != nil:
			return When{}, &Refusal{Reason: fmt.Sprintf("--when %s: %q %v", text, full, err)}
		case t.After(now):
			return When{}, &Refusal{Reason: fmt.Sprintf("--when %s: that is still to come today; if yesterday is "+
				"meant, say --when %q", text, now.AddDate(0, 0, -1).Format(time.DateOnly)+" "+full[11:])}
		}
		return When{Text: full, Day: full[:10], Chosen: true}, nil
	}
	t, dateOnly, err := journal.ParseMoment(text, zone)
	if err != nil {
		return When{}, &Refusal{Reason: fmt.Sprintf("--when: %q %v: expected 16:10, 2026-03-07 or \"2026-03-07 16:10\"",
			text, err)}
	}
	w := When{Text: text, Day: t.In(zone).Format(time.DateOnly), Chosen: true}
	if !dateOnly && len(text) == len(form) {
		w.Text = t.In(zone).Format(form)
		if read, _, _ := journal.ParseMoment(w.Text, zone); !read.Equal(t) {
			w.Text = text
		}
	}
	return w, nil
}

var dayPattern = regexp.MustCompile(`^\d{4}-\d\d-\d\d(T\S+)?$`)

// Timed takes the moment off the end of a jotting's words: @16:10, at 16:10,
// @2026-05-02 or @2026-05-02 08:15; "" where none is there.
func Timed(words []string) (rest []string, at string) {
	for i := max(0, len(words)-3); i < len(words); i++ {
		mark, glued := strings.CutPrefix(words[i], "@")
		tail := append([]string{mark}, words[i+1:]...)
		if words[i] == "@" || words[i] == "at" {
			tail = words[i+1:]
		} else if !glued {
			continue
		}
		hour := len(tail) == 1 && hourPattern.MatchString(tail[0])
		day := len(tail) > 0 && dayPattern.MatchString(tail[0]) && (len(tail) == 1 ||
			len(tail) == 2 && hourPattern.MatchString(tail[1]))
		if hour || day {
			return words[:i], strings.Join(tail, " ")
		}
	}
	return words, ""
}

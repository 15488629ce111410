package site

import (
	"cmp"
	"fmt"
	"strings"
	"time"
	"unicode/utf8"

	"gylebook/internal/book"
	"gylebook/internal/quantity"
)

// The calendar is RFC 5545, by hand: it is twenty lines, and the two things that
// libraries get wrong (CRLF, and folding at 75 octets without cutting a letter)
// are the two that matter.

// calendarPast is how long an event stays in the calendar.
const calendarPast = 400 * 24 * time.Hour

var _ = declare(filesOf[*Site]{path: "calendar.ics", render: (*Site).calendar})

func (s *Site) calendar(string, *Site) ([]byte, error) {
	var c calendar
	c.line("BEGIN", "VCALENDAR")
	c.line("VERSION", "2.0")
	c.line("PRODID", "-//gylebook//gylebook//EN")
	c.text("NAME", s.bookTitle())
	c.text("X-WR-CALNAME", s.bookTitle())
	for _, e := range s.events() {
		if s.book.Now.Sub(e.At) < calendarPast {
			s.event(&c, e)
		}
	}
	c.line("END", "VCALENDAR")
	return []byte(c.String()), nil
}

func (s *Site) event(c *calendar, e book.Event) {
	c.line("BEGIN", "VEVENT")
	c.line("UID", e.UID(s.book))
	c.line("DTSTAMP", utc(s.book.Now))
	if e.AllDay {
		day := e.At.In(s.spell.zone)
		c.line("DTSTART;VALUE=DATE", day.Format("20060102"))
		c.line("DTEND;VALUE=DATE", day.AddDate(0, 0, 1).Format("20060102"))
		c.line("TRANSP", "TRANSPARENT")
	} else {
		c.line("DTSTART", utc(e.At))
		c.line("DURATION", "PT30M")
	}
	summary := beer(e.Gyle) + ": " + lowerFirst(e.Says)
	if e.PlusMinus > 0 {
		summary += " (± " + cmp.Or(dayCount(e.PlusMinus), quantity.Plain(e.PlusMinus)) + ")"
	}
	c.text("SUMMARY", summary)
	if e.Planned || e.What == book.Reckoned {
		c.line("STATUS", "TENTATIVE")
	} else {
		c.line("STATUS", "CONFIRMED")
	}
	if at := s.public(gylePath(e.Gyle)); at != "" {
		c.line("URL", at)
	}
	c.line("END", "VEVENT")
}

func utc(t time.Time) string { return t.UTC().Format("20060102T150405Z") }

// calendar writes content lines.
type calendar struct{ strings.Builder }

var calendarEscapes = strings.NewReplacer(`\`, `\\`, ";", `\;`, ",", `\,`, "\r\n", `\n`, "\n", `\n`, "\r", `\n`)

// text writes a property whose value is text (RFC 5545, 3.3.11).
func (c *calendar) text(name, value string) { c.line(name, calendarEscapes.Replace(value)) }

// line writes a content line, folded at 75 octets between letters (3.1).
func (c *calendar) line(name, value string) {
	rest := strings.Map(func(r rune) rune {
		if r < ' ' || r == 0x7F {
			return -1
		}
		return r
	}, fmt.Sprintf("%s:%s", name, value))
	room := 75
	for len(rest) > room {
		cut := room
		for !utf8.RuneStart(rest[cut]) {
			cut--
		}
		c.WriteString(rest[:cut] + "\r\n ")
		rest = rest[cut:]
		room = 74 // the blank counts
	}
	c.WriteString(rest + "\r\n")
}

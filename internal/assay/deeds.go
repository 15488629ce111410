package assay

import (
	"fmt"
	"math"
	"time"

	"gylebook/internal/figures"
	"gylebook/internal/journal"
	q "gylebook/internal/quantity"
)

// Drawn are the containers that are broached, not empty, and drawn through
// something.
func (c *Case) Drawn() []figures.Container {
	var drawn []figures.Container
	for _, k := range c.Live() {
		if c.OpenedYet(k) && !k.Is(journal.Bottle) {
			drawn = append(drawn, k)
		}
	}
	return drawn
}

// LineDeed tells whether a deed may have been done to the line or pump.
func LineDeed(d journal.Deed) bool {
	return !d.What.Written() || HasWord(d.What.Text, "line*", "pump*", "engine*", "tap*", "everything", "all")
}

// LastCleaned is when the last of the cleanings that fit was done.
func (c *Case) LastCleaned(fits func(journal.Deed) bool) (last journal.Moment, any bool) {
	for _, d := range c.Deeds(journal.Cleaned) {
		if fits(d) && (!any || !d.When.Time.Before(last.Time)) {
			last, any = d.When, true
		}
	}
	return last, any
}

func AnyDeed(journal.Deed) bool { return true }

// CleanedNear tells whether something was cleaned so shortly before a moment that it
// was still clean, or on its day.
func (c *Case) CleanedNear(m journal.Moment, fits func(journal.Deed) bool) bool {
	for _, d := range c.Deeds(journal.Cleaned) {
		if fits(d) && !EndOf(d.When).Before(m.Time.Add(-c.Habits.Span(CleanFor))) && d.When.Time.Before(EndOf(m)) {
			return true
		}
	}
	return false
}

// CleanedSince tells whether something was cleaned after a moment, or so shortly
// before it that it was still clean.
func (c *Case) CleanedSince(m journal.Moment, fits func(journal.Deed) bool) bool {
	last, any := c.LastCleaned(fits)
	return any && (!m.Written() || !EndOf(last).Before(m.Time.Add(-c.Habits.Span(CleanFor))))
}

// CleanerKind is what a cleaner is, by its card; "" where nobody knows.
func (c *Case) CleanerKind(d journal.Deed) (kind journal.CleanerKind, rinse bool) {
	card := c.Card(journal.CardCleaner, d.With)
	if card == nil || card.Cleaner == nil {
		return "", false
	}
	// A card that says nothing of a rinse: it is needed.
	return card.Cleaner.Is.Word, !card.Cleaner.Rinse.No()
}

// Followed tells whether a deed of a kind came after a cleaning, for the same
// thing as far as their words can tell.
func (c *Case) Followed(clean journal.Deed, kind journal.Act) bool {
	for _, d := range c.Deeds(kind) {
		if !EndOf(d.When).Before(clean.When.Time) && SameThing(d, clean) {
			return true
		}
	}
	return false
}

// SameThing tells whether two deeds may have been done to one thing: they share
// a word, or one of them names nothing.
func SameThing(a, b journal.Deed) bool {
	if !a.What.Written() || !b.What.Written() {
		return true
	}
	for _, w := range thingWords(a.What.Text) {
		if HasWord(b.What.Text, w, w+"s") || len(w) > 3 && HasWord(b.What.Text, w[:len(w)-1]) {
			return true
		}
	}
	return false
}

// Deeds are what was done so far, of the given kinds, in the entry's order.
func (c *Case) Deeds(kinds ...journal.Act) []journal.Deed {
	var done []journal.Deed
	for _, d := range c.Gyle.Done {
		if d.Did.Is(kinds...) && c.Come(d.When) {
			done = append(done, d)
		}
	}
	return done
}

// Concerns tells whether a deed was done to a container, or to all.
func Concerns(d journal.Deed, k figures.Container) bool {
	return !d.Package.Written() || d.Package.N == k.Index
}

// Distance is how far a figure lies from a value, with the figure's ±.
func Distance(f figures.Figure, from float64) figures.Figure {
	f.Value = math.Abs(f.Value - from)
	return f
}

// InPoints is a gravity's figure in points.
func InPoints(f figures.Figure) figures.Figure {
	f.Value, f.PlusMinus = q.Gravity(f.Value).Points(), 1000*f.PlusMinus
	return f
}

// Points prints how many points, as far as their doubt supports.
func Points(f figures.Figure) string {
	value, off := q.Rounded(f.Value, f.PlusMinus)
	if off == "" {
		return value + " points"
	}
	return value + " ± " + off + " points"
}

// DaysOf prints a span in whole days, as in "for 3 days".
func DaysOf(d time.Duration) string {
	n := int(math.Round(d.Hours() / 24))
	if n == 1 {
		return "a day"
	}
	return fmt.Sprintf("%d days", n)
}

// MonthsIn is a span in months.
func MonthsIn(d time.Duration) float64 { return float64(d) / float64(spanUnits["months"]) }

// SpanOf is a length of time as a brewer says it: 31 hours, 3 days.
func SpanOf(d time.Duration) string {
	if d < 48*time.Hour {
		return fmt.Sprintf("%.0f hours", d.Hours())
	}
	return DaysOf(d)
}

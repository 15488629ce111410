package assay

import (
	"fmt"
	"math"
	"time"

	"gylebook/internal/figures"
	"gylebook/internal/journal"
	q "gylebook/internal/quantity"
)

// Habits are the limits of habit and taste in force: the settings' where they have
// one, else those of thresholds.go. What a card says of its own yeast goes before
// both. Nothing that keeps people safe is among them.
type Habits struct {
	ReadingsEvery, LinesCleaned, CleanFor, SettleFor Length
	// mashHeat, worksAt and serveAt are in °C, yield is in %.
	MashHeat, MashPH, Yield, WorksAt, ServeAt Range
	OpenedHops                                UpTo // months
	PintsEach                                 UpTo // UK pints
	OverAim                                   UpTo // volumes
	// levelOwn tells that the settings ask for gravities that agree for longer than
	// the 48 hours that always hold: how long is figures.Stability's to say.
	LevelOwn bool
}

// lasting, band and upTo are a length of time, a range and a number; own tells that
// the settings have it.
type (
	Length struct {
		time.Duration
		Own bool
	}
	Range struct {
		Low, High float64
		Own       bool
	}
	UpTo struct {
		Most float64
		Own  bool
	}
)

// TradeHabits are the limits where no setting speaks. What a beer tastes of is asked
// of these alone: a habit is no evidence.
func TradeHabits() Habits {
	return Habits{
		ReadingsEvery: Length{Duration: sparseAfter}, LinesCleaned: Length{Duration: LineDays},
		CleanFor: Length{Duration: cleanBefore}, SettleFor: Length{Duration: SettleFor},
		MashHeat: Range{Low: mashLow, High: mashHigh}, MashPH: Range{Low: MashPHLow, High: MashPHHigh},
		Yield: Range{Low: yieldLow, High: yieldHigh}, WorksAt: Range{Low: coldestPitch, High: warmestPitch},
		ServeAt:    Range{Low: ServeCold, High: ServeWarm},
		OpenedHops: UpTo{Most: hopsOpen}, PintsEach: UpTo{Most: MostPints}, OverAim: UpTo{Most: overAim},
	}
}

// HabitsOf are the limits in force in a journal.
func HabitsOf(s *journal.Settings) Habits {
	l := TradeHabits()
	if s == nil {
		return l
	}
	own := s.Limits
	l.ReadingsEvery.unless(own.ReadingsEvery)
	l.LinesCleaned.unless(own.LinesCleanedEvery)
	l.CleanFor.unless(own.CleanFor)
	l.SettleFor.unless(own.SettleFor)
	outrank(&l.MashHeat, own.MashHeat)
	outrank(&l.MashPH, own.MashPH)
	outrank(&l.Yield, own.Yield)
	outrank(&l.WorksAt, own.WorksAt)
	outrank(&l.ServeAt, own.ServeAt)
	if v := own.OpenedHopsKeep; v.Written() {
		l.OpenedHops = UpTo{MonthsIn(v.Value.Span()), true}
	}
	if v := own.PintsEach; v.Written() {
		l.PintsEach = UpTo{float64(v.Value / q.UKPint), true}
	}
	if v := own.ConditionWithin; v.Written() {
		l.OverAim = UpTo{v.Value.Volumes(), true}
	}
	l.LevelOwn = own.LevelFor.Value > journal.LevelAtLeast
	return l
}

// unless takes a setting in place of the trade's, where one is written.
func (l *Length) unless(own journal.Value[q.Duration]) {
	if own.Written() {
		*l = Length{own.Value.Span(), true}
	}
}

// outrank puts a setting in place of the trade's, where one is written.
func outrank[Q q.Quantity](b *Range, own journal.RangeOf[Q]) {
	if own.Written() {
		*b = Range{float64(own.Low), float64(own.High), true}
	}
}

// OwnOrTrade is one wording where the settings have the limit, another where not.
func OwnOrTrade(own bool, settings, trade string) string {
	if own {
		return settings
	}
	return trade
}

// RightBetween is a range of heat as the end of a sentence: 62 to 70 °C is right.
func (c *Case) RightBetween(b Range) string {
	return c.Units.Between(b.Low, b.High, "°C") + OwnOrTrade(b.Own, " is right by your settings", " is right")
}

// String is the length of time as a brewer says it: 36 hours, 14 days.
func (l Length) String() string { return lengthOf(l.Duration) }

// lengthOf is a limit of time as it was set, in hours up to two days.
func lengthOf(d time.Duration) string {
	hours := math.Round(10*d.Hours()) / 10
	switch {
	case hours == 1:
		return "an hour"
	case hours <= 48:
		return q.Plain(hours) + " hours"
	}
	return q.Plain(math.Round(10*hours/24)/10) + " days"
}

// ApartBy is how long two gravities that agree must lie apart: 48 hours, unless the
// settings ask for longer.
func (c *Case) ApartBy() string {
	return q.Plain(math.Round(10*c.Stability().Needs.Hours())/10) + " hours"
}

// LevelHours is for how many hours gravities agree; none is rounded up where they are
// held against hours that the settings ask for.
func (c *Case) LevelHours(d time.Duration) string {
	hours := math.Round(d.Hours())
	if c.Habits.LevelOwn {
		hours = math.Floor(d.Hours())
	}
	return fmt.Sprintf("%.0f hours", hours)
}

// ReadingsEvery is how long a fermentation may go without a gravity.
func ReadingsEvery(s *figures.Sheet) time.Duration {
	return HabitsOf(s.Settings).ReadingsEvery.Duration
}

// Months is a number of months as a sentence has it.
func Months(n float64) string { return fmt.Sprintf("%s months", q.Plain(math.Round(10*n)/10)) }

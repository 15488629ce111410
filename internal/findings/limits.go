package findings

import (
	"fmt"
	"math"
	"time"

	"gylebook/internal/figures"
	"gylebook/internal/journal"
	q "gylebook/internal/quantity"
)

// limits are the limits of habit and taste in force: the settings' where they have
// one, else those of thresholds.go. What a card says of its own yeast goes before
// both. Nothing that keeps people safe is among them.
type limits struct {
	readingsEvery, linesCleaned, cleanFor, settleFor lasting
	// mashHeat, worksAt and serveAt are in °C, yield is in %.
	mashHeat, mashPH, yield, worksAt, serveAt band
	openedHops                                upTo // months
	pintsEach                                 upTo // UK pints
	overAim                                   upTo // volumes
	// levelOwn tells that the settings ask for gravities that agree for longer than
	// the 48 hours that always hold: how long is figures.Stability's to say.
	levelOwn bool
}

// lasting, band and upTo are a length of time, a range and a number; own tells that
// the settings have it.
type (
	lasting struct {
		time.Duration
		own bool
	}
	band struct {
		low, high float64
		own       bool
	}
	upTo struct {
		most float64
		own  bool
	}
)

// tradeLimits are the limits where no setting speaks. What a beer tastes of is asked
// of these alone: a habit is no evidence.
func tradeLimits() limits {
	return limits{
		readingsEvery: lasting{Duration: sparseAfter}, linesCleaned: lasting{Duration: lineDays},
		cleanFor: lasting{Duration: cleanBefore}, settleFor: lasting{Duration: settleFor},
		mashHeat: band{low: mashLow, high: mashHigh}, mashPH: band{low: mashPHLow, high: mashPHHigh},
		yield: band{low: yieldLow, high: yieldHigh}, worksAt: band{low: coldestPitch, high: warmestPitch},
		serveAt:    band{low: serveCold, high: serveWarm},
		openedHops: upTo{most: hopsOpen}, pintsEach: upTo{most: mostPints}, overAim: upTo{most: overAim},
	}
}

// limitsOf are the limits in force in a journal.
func limitsOf(s *journal.Settings) limits {
	l := tradeLimits()
	if s == nil {
		return l
	}
	own := s.Limits
	l.readingsEvery.unless(own.ReadingsEvery)
	l.linesCleaned.unless(own.LinesCleanedEvery)
	l.cleanFor.unless(own.CleanFor)
	l.settleFor.unless(own.SettleFor)
	outrank(&l.mashHeat, own.MashHeat)
	outrank(&l.mashPH, own.MashPH)
	outrank(&l.yield, own.Yield)
	outrank(&l.worksAt, own.WorksAt)
	outrank(&l.serveAt, own.ServeAt)
	if v := own.OpenedHopsKeep; v.Written() {
		l.openedHops = upTo{monthsOf(v.Value.Span()), true}
	}
	if v := own.PintsEach; v.Written() {
		l.pintsEach = upTo{float64(v.Value / q.UKPint), true}
	}
	if v := own.ConditionWithin; v.Written() {
		l.overAim = upTo{v.Value.Volumes(), true}
	}
	l.levelOwn = own.LevelFor.Value > journal.LevelAtLeast
	return l
}

// unless takes a setting in place of the trade's, where one is written.
func (l *lasting) unless(own journal.Value[q.Duration]) {
	if own.Written() {
		*l = lasting{own.Value.Span(), true}
	}
}

// outrank puts a setting in place of the trade's, where one is written.
func outrank[Q q.Quantity](b *band, own journal.RangeOf[Q]) {
	if own.Written() {
		*b = band{float64(own.Low), float64(own.High), true}
	}
}

// asks is one wording where the settings have the limit, another where not.
func asks(own bool, settings, trade string) string {
	if own {
		return settings
	}
	return trade
}

// right is a range of heat as the end of a sentence: 62 to 70 °C is right.
func (c *Case) right(b band) string {
	return c.units.Between(b.low, b.high, "°C") + asks(b.own, " is right by your settings", " is right")
}

// String is the length of time as a brewer says it: 36 hours, 14 days.
func (l lasting) String() string { return lengthOf(l.Duration) }

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

// apartBy is how long two gravities that agree must lie apart: 48 hours, unless the
// settings ask for longer.
func (c *Case) apartBy() string {
	return q.Plain(math.Round(10*c.Stability().Needs.Hours())/10) + " hours"
}

// levelHours is for how many hours gravities agree; none is rounded up where they are
// held against hours that the settings ask for.
func (c *Case) levelHours(d time.Duration) string {
	hours := math.Round(d.Hours())
	if c.limits.levelOwn {
		hours = math.Floor(d.Hours())
	}
	return fmt.Sprintf("%.0f hours", hours)
}

// ReadingsEvery is how long a fermentation may go without a gravity.
func ReadingsEvery(s *figures.Sheet) time.Duration {
	return limitsOf(s.Settings).readingsEvery.Duration
}

// months is a number of months as a sentence has it.
func months(n float64) string { return fmt.Sprintf("%s months", q.Plain(math.Round(10*n)/10)) }

package assay

import (
	"fmt"
	"math"
	"time"

	"gylebook/internal/figures"
	"gylebook/internal/journal"
	q "gylebook/internal/quantity"
)

// Habits are the limits of habit and taste that the settings of a journal have moved,
// by their numbers. What a card says of its own yeast goes before them; where neither
// speaks, the trade's limit holds. What a beer tastes of is asked without any: a habit
// is no evidence.
type Habits map[*Limit]float64

// HabitsOf are those of a journal.
func HabitsOf(s *journal.Settings) Habits {
	h := Habits{}
	if s == nil {
		return h
	}
	own := s.Limits
	for limit, v := range map[*Limit]journal.Value[q.Duration]{
		ReadingsEvery: own.ReadingsEvery, LinesEvery: own.LinesCleanedEvery, CleanFor: own.CleanFor,
		SettleFor: own.SettleFor, HopsOpen: own.OpenedHopsKeep,
	} {
		if v.Written() {
			h[limit] = float64(v.Value.Span()) / float64(spanUnits[limit.Unit])
		}
	}
	moveEnds(h, MashLow, MashHigh, own.MashHeat)
	moveEnds(h, MashPHLow, MashPHHigh, own.MashPH)
	moveEnds(h, YieldLow, YieldHigh, own.Yield)
	moveEnds(h, PitchCoolest, PitchWarmest, own.WorksAt)
	moveEnds(h, ServeCold, ServeWarm, own.ServeAt)
	if v := own.PintsEach; v.Written() {
		h[MostPints] = float64(v.Value / q.UKPint)
	}
	if v := own.ConditionWithin; v.Written() {
		h[OverAim] = v.Value.Volumes()
	}
	return h
}

// moveEnds puts both ends of a setting in place of the trade's, where one is written.
func moveEnds[Q q.Quantity](h Habits, low, high *Limit, own journal.RangeOf[Q]) {
	if own.Written() {
		h[low], h[high] = float64(own.Low), float64(own.High)
	}
}

// Own tells whether the settings have moved a limit.
func (h Habits) Own(l *Limit) bool {
	_, own := h[l]
	return own
}

// In is a limit in force, in its unit.
func (h Habits) In(l *Limit) float64 {
	if own, ok := h[l]; ok {
		return own
	}
	return l.Number
}

// Span is a limit of time in force.
func (h Habits) Span(l *Limit) time.Duration {
	return time.Duration(h.In(l) * float64(spanUnits[l.Unit]))
}

// OwnOrTrade is one wording where the settings have moved a limit, another where not.
func (h Habits) OwnOrTrade(l *Limit, settings, trade string) string {
	if h.Own(l) {
		return settings
	}
	return trade
}

// Length is a limit of time in force as a brewer says it, in hours up to two days: 36
// hours, 14 days.
func (h Habits) Length(l *Limit) string {
	hours := math.Round(10*h.Span(l).Hours()) / 10
	switch {
	case hours == 1:
		return "an hour"
	case hours <= 48:
		return q.Plain(hours) + " hours"
	}
	return q.Plain(math.Round(10*hours/24)/10) + " days"
}

// Outside compares a figure with both ends of a range that the settings may move.
func (c *Case) Outside(f figures.Figure, low, high *Limit) Certainty {
	return Outside(f, c.Habits.In(low), c.Habits.In(high))
}

// Between is a range in force as a sentence has it: 62 to 70 °C.
func (c *Case) Between(low, high *Limit) string {
	return c.Units.Between(c.Habits.In(low), c.Habits.In(high), low.Unit)
}

// RightBetween is a range in force as the end of a sentence: 62 to 70 °C is right.
func (c *Case) RightBetween(low, high *Limit) string {
	return c.Between(low, high) + c.Habits.OwnOrTrade(low, " is right by your settings", " is right")
}

// LevelOwn tells that the settings ask for gravities that agree for longer than the 48
// hours that always hold.
func (c *Case) LevelOwn() bool { return c.Stability().Needs > journal.LevelAtLeast.Span() }

// ApartBy is how long two gravities that agree must lie apart: 48 hours, unless the
// settings ask for longer.
func (c *Case) ApartBy() string {
	return q.Plain(math.Round(10*c.Stability().Needs.Hours())/10) + " hours"
}

// LevelHours is for how many hours gravities agree; none is rounded up where they are
// held against hours that the settings ask for.
func (c *Case) LevelHours(d time.Duration) string {
	hours := math.Round(d.Hours())
	if c.LevelOwn() {
		hours = math.Floor(d.Hours())
	}
	return fmt.Sprintf("%.0f hours", hours)
}

package figures

import (
	"slices"
	"time"

	"gylebook/internal/journal"
)

// Stability is whether the gravity has stood still, and on what evidence.
type Stability struct {
	Stable bool
	// Level are the last readings that agree within the instrument's own error,
	// in order of time; Span is how long they cover.
	Level []GravityReading
	Span  time.Duration
	// Needs is how long they must cover: 48 hours, or what the settings ask beyond
	// that.
	Needs time.Duration
}

// AtLeast tells whether the gravity stood still for the 48 hours that no setting
// shortens, though the settings may ask for more.
func (st Stability) AtLeast() bool { return len(st.Level) >= 2 && st.Span >= levelFor }

// What stands still: readings within one point of each other over at least 48
// hours (home-brewing magazines' and suppliers' advice on finishing; the point
// is a hydrometer's division).
const (
	levelWithin = 1.0 // points
	levelFor    = time.Duration(journal.LevelAtLeast) * time.Minute
)

// standing looks back from the last reading before sealing. A float that hops hold
// down stands still whatever the beer does: so where a logger's sightings reach
// back farther than the readings by hand, the last word is still a reading by
// hand, and the logger must agree with one before that. A logger that has fallen
// on since takes the last word away again.
func (b *bench) standing() Stability { return b.memoStability.once(b.standingStill) }

func (b *bench) standingStill() Stability {
	st := b.level()
	st.Needs = levelFor
	if b.Settings != nil && b.Settings.Limits.LevelFor.Written() {
		st.Needs = max(levelFor, b.Settings.Limits.LevelFor.Value.Span())
	}
	st.Stable = len(st.Level) >= 2 && st.Span >= st.Needs
	return st
}

// level is the last readings that are level with one another.
func (b *bench) level() Stability {
	hand := b.beforeSealing()
	if len(hand) == 0 {
		return Stability{}
	}
	last := hand[len(hand)-1]
	st := levelUpTo(hand, last)
	if farther := levelUpTo(byTime(hand, b.vouchedFor()), last); farther.Span > st.Span {
		st = farther
	}
	if l := b.logOf(); l != nil && l.fallenSince(last, st) {
		return Stability{Level: []GravityReading{last}}
	}
	return st
}

// levelUpTo is how far back from a reading all the others are level with it.
func levelUpTo(all []GravityReading, last GravityReading) Stability {
	end := slices.IndexFunc(all, func(r GravityReading) bool { return r.Index == last.Index && !r.Logged })
	start := end
	low, high := last.Gravity.Value.Points(), last.Gravity.Value.Points()
	for start > 0 {
		points := all[start-1].Gravity.Value.Points()
		if max(high, points)-min(low, points) > levelWithin+roundingOfPoints {
			break
		}
		low, high = min(low, points), max(high, points)
		start--
	}
	return Stability{Level: all[start : end+1], Span: last.When.Sub(all[start].When)}
}

// roundingOfPoints keeps two readings of 1.011 and 1.010 within a point though
// their temperature corrections differ by a few hundredths of one.
const roundingOfPoints = 0.25

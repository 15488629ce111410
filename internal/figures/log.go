package figures

import (
	"fmt"
	"math"
	"time"

	"gylebook/internal/journal"
	q "gylebook/internal/quantity"
)

// How a logger's file is used.
//
// A float writes a thousand gravities and knows none of them better than the
// first: whatever its scale is off by, all of them share. So its rows are taken
// some hours together, each lot as one sighting; the hydrometer's readings of the
// same hour say how far off its scale is, and whether that drifts; and the doubt
// of this is one input for all sightings. The final gravity of beer that is
// packaged rests on the hydrometer where there is one.

var (
	kindLoggerOffset = &Kind{
		ID: IDLoggerOffset, Label: "Logger's offset", Unit: "points", Decimals: 1,
		Says:    "What is added to the logger's gravities, so that they agree with what was read by hand within the hour. All of its rows share the doubt of this: many rows are not many readings.",
		Formula: "{a} = Σ w (hand − logger) ÷ Σ w over {n}, w = 1 ÷ u², those far off counting for less",
		Symbols: []string{"a: offset at the middle of those readings, points of gravity", "n: readings by hand within an hour of the logger's"},
		Valid:   "readings by hand with their hour; a float that swims free",
		Source:  "weighted least squares, as JCGM 100:2008, H.3 (calibration of a thermometer); outliers by Huber's rule (Ann. Math. Statist. 35 (1964) 73)",
		Checked: "the worked thermometer of JCGM 100:2008, H.3, and simulated logs with a known offset and drift",
	}
	kindLoggerDrift = &Kind{
		ID: IDLoggerDrift, Label: "Logger's drift", Unit: "points a day", Decimals: 2,
		Says:    "By how much the offset grows in a day: yeast and hops that settle on a float weigh it down, bubbles lift it.",
		Formula: "{b} = Σ w ({t} − mean) (hand − logger) ÷ Σ w ({t} − mean)²",
		Symbols: []string{"b: drift, points a day", "t: days"},
		Valid:   "three readings by hand or more, over three days or more",
		Source:  kindLoggerOffset.Source, Checked: kindLoggerOffset.Checked,
	}
	loggerKinds = []*Kind{kindLoggerOffset, kindLoggerDrift}
)

const (
	// binned is how much of a log is taken as one sighting.
	binned = 6 * time.Hour
	// sameHour is how far apart a reading by hand and the logger's rows may be for
	// the one to correct the other. Beer at work falls by no more than fastestFall
	// meanwhile.
	sameHour    = time.Hour
	fastestFall = 0.5 // points an hour
	// driftReadings over driftSpan are the least that tell a drift from scatter: two
	// readings make a line through anything.
	driftReadings = 3
	driftSpan     = 72 * time.Hour
	// sightingU is the scatter of one reading by hand, in points: half a division
	// and what is in the jar. What all readings of an instrument share is apart.
	hydrometerU    = 0.5
	refractometerU = 1.5
)

// What a logger is taken for: two points of one log tell a change of a point, and
// where nothing was read by hand its scale may be three points off.
var (
	ofLogger      = doubt{of: "gravity, by logger, before a hydrometer sets its scale right", fixed: 0.003, unit: "SG", reason: "a floating logger's scale, ± 0.003 until a hydrometer sets it right (common practice, no source)"}
	ofLoggerTrend = doubt{of: "change of gravity, by logger", fixed: 0.001, unit: "SG", reason: "a floating logger tells a change to ± 0.001 (common practice, no source)"}
)

// logged is a logger's file as the figures use it.
type logged struct {
	rows    logRows // without their points, which are as many as the file is long
	pitched time.Time
	matches []match
	line    straight
	pairs   []pair
	// offset and drift are what to add to the logger's gravities, in points at the
	// line's middle and in points a day. They are known where something was read by
	// hand; else offset is nought with its doubt, and drift exactly nought.
	offset, drift Estimate[q.Number]
	trend         Estimate[q.Number]
	sightings     []GravityReading
	now           GravityReading // of the last hour, the zero GravityReading where there is none
	check         LogCheck
}

// match is a reading by hand beside what the logger wrote within the hour.
type match struct {
	hand   GravityReading
	logger bin
	u      float64 // standard uncertainty of the logger's part, points
}

// logOf is the gyle's log worked out, nil where it has none that speaks of beer.
func (b *bench) logOf() *logged {
	return b.memoLog.once(func() *logged {
		rows := b.loggedRows()
		if len(rows.points) == rows.impossible {
			if rows.impossible == 0 {
				return nil
			}
			return &logged{check: LogCheck{Rows: len(rows.points), Impossible: rows.impossible}}
		}
		l := &logged{rows: rows, pitched: b.pitchedAt()}
		l.matchWith(b.gravityReadings(), b.Gyle.Readings)
		l.correct(b)
		l.look(b)
		l.examine()
		l.rows.points = nil
		return l
	})
}

// matchWith pairs the readings by hand that name their hour with the logger's rows
// about it.
func (l *logged) matchWith(hand []GravityReading, readings []journal.Reading) {
	for _, h := range hand {
		if when := readings[h.Index].When; !when.Written() || when.DateOnly {
			continue
		}
		b, ok := l.rows.between(h.When.Add(-sameHour), h.When.Add(sameHour+time.Second))
		if !ok {
			continue
		}
		late := b.when.Sub(h.When).Hours()
		own := 1000 * standard(ofLoggerTrend.fixed)
		l.matches = append(l.matches, match{h, b, math.Sqrt(own*own + b.u*b.u + fastestFall*fastestFall*late*late/3)})
	}
}

// correct finds the offset, and the drift where the readings by hand tell it.
func (l *logged) correct(b *bench) {
	l.trend = customary(b, q.Number(0), 1000*ofLoggerTrend.fixed, "points", "the logger's trend", ofLoggerTrend.reason)
	if len(l.matches) == 0 {
		half, reason := ofLogger.fixed, ofLogger.reason
		l.offset, l.drift = customary(b, q.Number(0), 1000*half, "points", "the logger's scale", reason), exactly(q.Number(0))
		return
	}
	for _, m := range l.matches {
		l.pairs = append(l.pairs, pair{l.day(m.hand.When), m.hand.Gravity.Value.Points() - m.logger.points, math.Hypot(ownU(m.hand), m.u)})
	}
	span := l.matches[len(l.matches)-1].hand.When.Sub(l.matches[0].hand.When)
	l.line = straightThrough(l.pairs, len(l.matches) >= driftReadings && span >= driftSpan)
	l.offset = l.weighted(b, l.line.level, "the logger's scatter beside the hydrometer")
	l.drift = exactly(q.Number(0))
	if l.line.slope != nil {
		l.drift = l.weighted(b, l.line.slope, "the logger's scatter, as to its drift")
	}
}

// ownU is the scatter of one reading by hand, in points.
func ownU(r GravityReading) float64 {
	if r.Refractometer {
		return refractometerU
	}
	return hydrometerU
}

// weighted is a weighted sum of what the logger is off by: with all the doubts of
// the readings by hand, and the logger's own scatter. Where the pairs scatter more
// than both explain, the logger is to blame for the rest.
func (l *logged) weighted(b *bench, weights []float64, what string) Estimate[q.Number] {
	parts := make([]Estimate[q.Number], 0, len(weights)+1)
	for i, w := range weights {
		m := l.matches[i]
		parts = append(parts, from1(b, func(g q.Gravity) (q.Number, error) {
			return q.Number(w * (g.Points() - m.logger.points)), nil
		}, m.hand.Gravity))
	}
	u := math.Hypot(scatter(weights, func(i int) float64 { return l.matches[i].u }),
		math.Sqrt(l.line.strain-1)*scatter(weights, func(i int) float64 { return l.pairs[i].u }))
	off := input(b, q.Number(0), Input{What: what, Uncertainty: u, Unit: "points", Reason: "their spread, ± 0.001 for the trend of a float (common practice, no source), and the time between them"})
	return sum(b, append(parts, off)...)
}

// day is a moment in days since pitching.
func (l *logged) day(t time.Time) float64 { return t.Sub(l.pitched).Hours() / 24 }

// corrected is a gravity that the logger wrote, in points, set right.
func (l *logged) corrected(t time.Time, points float64) float64 {
	return points + float64(l.offset.Value) + float64(l.drift.Value)*(l.day(t)-l.line.middle)
}

// logging puts what the logger is off by on the sheet.
func logging(b *bench) {
	l := b.logOf()
	if l == nil || b.Stage < Working || len(l.sightings) == 0 {
		return
	}
	if len(l.matches) == 0 {
		lack := &Lack{Needs: []string{"readings[+].gravity"}, Because: "nothing was read by hand within an hour of the logger's rows"}
		b.lacks(kindLoggerOffset, "", lack)
		b.lacks(kindLoggerDrift, "", lack)
		return
	}
	count := fmt.Sprintf("%d readings by hand", len(l.matches))
	if len(l.matches) == 1 {
		count = "one reading by hand"
	}
	add(b, kindLoggerOffset, "", l.offset, sym("a", l.offset, "points"), inWords("n", count))
	if l.line.slope == nil {
		b.lacks(kindLoggerDrift, "", &Lack{Needs: []string{"readings[+].gravity"}, Because: "a drift shows from three readings by hand over three days"})
		return
	}
	add(b, kindLoggerDrift, "", l.drift, sym("b", l.drift, "points a day"), inWords("t", "t"))
}

package causes

import (
	"fmt"
	"strings"

	"gylebook/internal/assay"
	"gylebook/internal/journal"
)

// rackingCauses are about when the beer left its yeast, and how old it was.
func rackingCauses() []Cause {
	return []Cause{
		{
			ID: "off-yeast-early", Name: "it left its yeast too early", Source: tasteFaults,
			Now: "What is not sealed yet: stand it at {18 to 20 °C} for two days before it is.", Next: "Leave it on the yeast, at {18 to 20 °C}, for three days after the gravity stands still.",
			Tests: []Test{
				{For: "racked within 48 hours of the first gravity that stood level", Against: "72 hours after it, or later", Weight: Measurement, Needs: "readings[].gravity, two that agree before racking", look: rackedSoon},
				{For: "chilled with more than 3 points still to fall", Weight: Circumstance, Needs: "readings[].temp", look: chilledSoon},
			},
		},
		{
			ID: "long-on-yeast", Name: "it stood on its yeast for too long", Source: assay.CommonPractice,
			Next: "Rack it within three weeks.",
			Tests: []Test{
				{For: "over 28 days from pitching to racking", Against: "under 21 days", Weight: Measurement, Needs: "racked.on", look: rackedLate},
			},
		},
		{
			ID: "young", Name: "it was young", Source: assay.CommonPractice,
			Now: "Wait a fortnight and taste it again.", Next: "Give it three to four weeks.",
			Tests: []Test{
				{For: "tasted within 10 days of pitching", Against: "28 days after it, or later", Weight: Measurement, Needs: "tastings[].when", look: tastedYoung},
			},
		},
	}
}

// rackedAt is when the beer was taken off its yeast: racked, else the first
// filled.
func (x *exam) rackedAt() journal.Moment {
	if x.Gyle.Racked.On.Written() {
		return x.Gyle.Racked.On
	}
	var first journal.Moment
	for _, k := range x.Containers() {
		if on := x.Filled(k); on.Written() && (!first.Written() || on.Time.Before(first.Time)) {
			first = on
		}
	}
	return first
}

func rackedSoon(x *exam) Sign {
	level, at := x.Stability().Level, x.rackedAt()
	if len(level) < 2 || !at.Written() {
		return unknown
	}
	stood := at.Middle().Sub(level[0].When)
	says := fmt.Sprintf("it was racked %s after the first gravity that stood level", hoursOf(stood))
	return x.judged(hours(stood, at.HalfWidth(), level[0].Where), onYeastShort, onYeastLong, says)
}

// chilledSoon is the finding's own test: see chilled-early.
func chilledSoon(x *exam) Sign {
	if len(x.HeatReadings()) < 2 {
		return unknown
	}
	if chill, ok := x.EarlyChill(); ok {
		return tells(For, clause(chill.Says), chill.Where)
	}
	return silent
}

// clause is a sentence as part of another.
func clause(sentence string) string {
	s := strings.TrimSuffix(sentence, ".")
	for _, head := range []string{"The ", "It ", "No ", "After "} {
		if strings.HasPrefix(s, head) {
			return strings.ToLower(s[:1]) + s[1:]
		}
	}
	return s
}

func rackedLate(x *exam) Sign {
	at, since := x.rackedAt(), x.PitchedAt()
	if !at.Written() || since.IsZero() {
		return unknown
	}
	days := daysApart(since, at.Middle())
	if days < 0 {
		return unknown
	}
	return x.judged(number(days, 0.5, "days", at.Where), onYeastDays, offYeastDays, fmt.Sprintf("it stood on its yeast for %s", wholeDays(days)))
}

// tastedYoung looks at the last tasting with the word: what is still there in a
// grown-up beer is not its youth.
func tastedYoung(x *exam) Sign {
	t, ok := x.last()
	since := x.PitchedAt()
	if !ok || since.IsZero() {
		return unknown
	}
	days := daysApart(since, t.When.Middle())
	if days < 0 {
		return unknown // one of the dates is wrong
	}
	return x.judged(number(days, 0.5, "days", t.When.Where), youngDays, grownDays, fmt.Sprintf("it was %s old when it was tasted", wholeDays(days)))
}

package causes

import (
	"fmt"
	"strings"
	"time"

	"gylebook/internal/assay"
	"gylebook/internal/figures"
	"gylebook/internal/journal"
	q "gylebook/internal/quantity"
)

// fermentationCauses are about where the fermentation stopped.
func fermentationCauses() []Cause {
	const source = "a brewing school's mash figures; the limits are common practice"
	return []Cause{
		{
			ID: "fermented-far", Name: "it fermented further than was meant", Source: source,
			Now:  "A little more condition, or a sparkler, gives it some body.",
			Next: "Mash {1 to 2 K} warmer, with less sugar, or choose a yeast that stops sooner.",
			Tests: []Test{
				{For: "final gravity %s or more under its aim", Against: "within %q of it, or over", Weight: Measurement,
					of: under(fgOff), pro: fgUnder, con: fgOnAim},
				{For: "attenuation above the yeast's card", Against: "in the lower half of it", Weight: Circumstance, Needs: needsYeastCard,
					look: attenuatedFar},
				{For: "mashed at %s or cooler", Against: "at %s or warmer", Weight: Circumstance, Needs: "mash.rests[].at",
					of: mashedAt, pro: mashDry, con: mashNotDry},
				{For: "sugar over %s of the grist", Weight: Circumstance, Needs: "grist[].weight",
					of: inGrist("sugar", fermentsOut), pro: sugarMuch},
			},
		},
		{
			ID: "unfermented", Name: "sugar was left that could have fermented", Source: source,
			Now:  "If the gravity still falls, treat what is sealed as under pressure: keep it cold and vent what can be vented.",
			Next: "Mash {1 to 2 K} cooler, pitch more yeast, and see two gravities agree before you rack.",
			Tests: []Test{
				{For: "final gravity %s or more over its aim", Against: "within %q of it, or under", Weight: Measurement,
					of: fgOff, pro: fgOver, con: fgOnAim},
				{For: "attenuation below the yeast's card", Against: "in the upper half of it", Weight: Circumstance, Needs: needsYeastCard,
					look: attenuatedLittle},
				{For: "mashed at %s or warmer", Against: "at %s or cooler", Weight: Circumstance, Needs: "mash.rests[].at",
					of: mashedAt, pro: mashSweet, con: mashNotSweet},
				pitchedLittle(Circumstance),
			},
		},
	}
}

// attenuates is the range of the first yeast's card, in %, and where it stands.
func (x *exam) attenuates() (low, high float64, ok bool) {
	for _, p := range x.Gyle.Yeast {
		if a := x.YeastCard(p).Attenuates; a.Written() {
			return float64(a.Low), float64(a.High), true
		}
	}
	return 0, 0, false
}

// attenuation is the apparent one, beside the card.
func (x *exam) attenuation() (r reading, low, high float64) {
	f, known := x.Find(figures.IDApparentAttenuation, "")
	low, high, carded := x.attenuates()
	if !known || !carded {
		return without(unknown), low, high
	}
	const says = "it attenuated by %s, and its yeast's card says %s to %s %%"
	return reading{Figure: f, says: fmt.Sprintf(says, x.Measure(f), q.Plain(low), q.Plain(high))}, low, high
}

func attenuatedFar(x *exam) Sign {
	r, low, high := x.attenuation()
	return x.beyondCard(r, high, (low+high)/2, assay.Over(r.Figure, high))
}

func attenuatedLittle(x *exam) Sign {
	r, low, high := x.attenuation()
	return x.beyondCard(r, low, (low+high)/2, assay.Under(r.Figure, low))
}

// beyondCard lets a sign only may where the figure's ± reaches back over the end of a
// card's range: a range is no aim, and its end belongs to it.
func (x *exam) beyondCard(r reading, end, middle float64, sure assay.Certainty) Sign {
	if r.says == "" {
		return r.instead
	}
	s := x.judged(r, end, middle)
	s.May = s.May || s.Voice == For && sure != assay.Surely
	return s
}

func mashedAt(x *exam) reading {
	rest, ok := x.ConversionRest()
	return x.measured(rest, ok, "it was mashed at %s")
}

// rackingCauses are about when the beer left its yeast, and how old it was.
func rackingCauses() []Cause {
	return []Cause{
		{
			ID: "off-yeast-early", Name: "it left its yeast too early", Source: tasteFault,
			Now:  "What is not sealed yet: stand it at {18 to 20 °C} for two days before it is.",
			Next: "Leave it on the yeast, at {18 to 20 °C}, for three days after the gravity stands still.",
			Tests: []Test{
				{For: "racked within %s of the first gravity that stood level", Against: "%s after it, or later", Weight: Measurement,
					Needs: "readings[].gravity, two that agree before racking", of: rackedSoon, pro: soonOffYeast, con: lateOffYeast},
				{For: say("chilled with more than %s still to fall", assay.ChilledLeft), Weight: Circumstance, Needs: "readings[].temp",
					look: chilledSoon},
			},
		},
		{
			ID: "long-on-yeast", Name: "it stood on its yeast for too long", Source: common,
			Next: "Rack it within three weeks.",
			Tests: []Test{
				{For: "over %s from pitching to racking", Against: "under %s", Weight: Measurement, Needs: "racked.on",
					of: rackedLate, pro: longOnYeast, con: shortOnYeast},
			},
		},
		{
			ID: "young", Name: "it was young", Source: common,
			Now: "Wait a fortnight and taste it again.", Next: "Give it three to four weeks.",
			Tests: []Test{
				{For: "tasted within %s of pitching", Against: "%s after it, or later", Weight: Measurement, Needs: "tastings[].when",
					of: tastedYoung, pro: youngDays, con: grownDays},
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

func rackedSoon(x *exam) reading {
	level, at := x.Stability().Level, x.rackedAt()
	if len(level) < 2 || !at.Written() {
		return without(unknown)
	}
	stood := at.Middle().Sub(level[0].When)
	says := fmt.Sprintf("it was racked %s after the first gravity that stood level", hoursOf(stood))
	return reading{Figure: hours(stood, at.HalfWidth(), level[0].Where), says: says}
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

func rackedLate(x *exam) reading {
	return x.sincePitching(x.rackedAt(), "it stood on its yeast for %s")
}

// tastedYoung looks at the last tasting with the word: what is still there in a
// grown-up beer is not its youth.
func tastedYoung(x *exam) reading {
	t, _ := x.lastTasting()
	return x.sincePitching(t.When, "it was %s old when it was tasted")
}

// sincePitching is how many days after pitching a moment came; unknown where one of
// the two is not written or cannot be right.
func (x *exam) sincePitching(m journal.Moment, says string) reading {
	since := x.PitchedAt()
	days := daysApart(since, m.Middle())
	if !m.Written() || since.IsZero() || days < 0 {
		return without(unknown)
	}
	return reading{Figure: number(days, 0.5, "days", m.Where), says: fmt.Sprintf(says, wholeDays(days))}
}

// hours is a span as a figure of its own.
func hours(d, off time.Duration, where journal.Where) figures.Figure {
	return number(d.Hours(), off.Hours(), "hours", where)
}

// hoursOf prints a span in hours, in days from three of them on.
func hoursOf(d time.Duration) string {
	if d >= 72*time.Hour {
		return assay.DaysOf(d)
	}
	return fmt.Sprintf("%.0f hours", d.Hours())
}

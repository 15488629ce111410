package findings

import (
	"fmt"
	"slices"
	"time"

	"gylebook/internal/figures"
	"gylebook/internal/journal"
	"gylebook/internal/notice"
	q "gylebook/internal/quantity"
)

// fermentRules are about the first days of fermentation.
func fermentRules() []Rule {
	return []Rule{
		{
			ID: "slow-start", Watches: from(figures.Working), Worst: notice.Mend, Source: commonPractice,
			When:    "fallen by less than 3 points 36 hours (look) or 60 hours (mend) after pitching",
			Example: Example{In: "working", Raises: []string{"readings[0].gravity=1.041"}, Spares: []string{"readings[0].gravity=1.036"}, On: "2026-03-05"},
			look:    slowStart,
		},
		{
			ID: "too-hot", Watches: from(figures.Working), Worst: notice.Look, Source: commonPractice,
			When:    "in the first 72 hours more than 2 °C above the yeast's card, or over 24 °C without one",
			Example: Example{In: "working", Raises: []string{"readings[0].temp=27 C"}, Spares: []string{"readings[0].temp=23 C"}, On: "2026-03-04"},
			look:    tooHot,
		},
		{
			ID: "chilled-early", Watches: from(figures.Working), Worst: notice.Look, Source: commonPractice,
			When:    "cooled by 3 °C at a quarter of a degree an hour or faster, with more than 3 points left to fall",
			Example: Example{In: "working", Raises: []string{"readings[+].when=2026-03-04 21:00", "readings[3].gravity=1.016", "readings[3].temp=14 C"}, Spares: []string{"readings[+].when=2026-03-04 21:00", "readings[3].gravity=1.016", "readings[3].temp=18 C"}, On: "2026-03-05"},
			look:    chilledEarly,
		},
	}
}

func slowStart(c *Case) []Found {
	if drawnFrom(c) || c.PitchedAt().IsZero() {
		return nil
	}
	last, fallen, ok := c.lastFall()
	if !ok || over(fallen, begunBy) >= Probably {
		return nil
	}
	since := last.When.Sub(c.PitchedAt())
	if since < slowLook {
		return nil
	}
	f := Found{
		Severity: notice.Look, Where: last.Where,
		Says: fmt.Sprintf("%.0f hours after pitching it has fallen by no more than %s.", since.Hours(), points(atLeastNought(fallen))),
		Why:  "Weak or cold yeast gives spoilage its chance.",
		Do:   c.text("Bring it to {20 °C}, rouse it gently, and read it again tomorrow."),
	}
	switch {
	case c.Stage != figures.Working:
		f = nextTime(f, "pitch fresher yeast, more of it, or warmer.")
	case since >= slowMend:
		f.Severity = notice.Mend
		f.Do = c.text("Bring it to {20 °C}, rouse it, and pitch fresh yeast today. Smell it first: sour or drains means let it go.")
	}
	return []Found{f}
}

func atLeastNought(f figures.Figure) figures.Figure {
	f.Value = max(f.Value, 0)
	return f
}

func tooHot(c *Case) []Found {
	var pitch journal.Pitch
	if len(c.Gyle.Yeast) > 0 {
		pitch = c.Gyle.Yeast[0]
	}
	_, high, whose := c.workable(pitch, hotOverCard)
	var hottest figures.Figure
	for _, r := range c.heats() {
		if r.when.Sub(c.PitchedAt()) <= youngFor && r.heat.Value > hottest.Value {
			hottest = r.heat
		}
	}
	if hottest.Kind == nil || over(hottest, high) < Probably {
		return nil
	}
	f := Found{
		Severity: notice.Look, Where: c.lastOf(hottest),
		Says: fmt.Sprintf("It worked at %s in its first three days; %s.", c.measure(hottest), whose),
		Why:  "Early heat makes fusel and solvent notes that no rest takes out.",
		Do:   c.text("Cool it gently, {K|a degree or two|two or three degrees} in six hours: wet towels and a draught will do."),
	}
	if c.Stage != figures.Working || !c.within(c.PitchedAt(), youngFor+firstDay) || c.cooledSince(high) {
		f = nextTime(f, "keep it cooler for the first three days.")
	}
	return []Found{f}
}

// chilledEarly looks for a steep fall of the beer's heat while there was still
// something to ferment.
func chilledEarly(c *Case) []Found {
	if c.Stability().AtLeast() {
		return nil
	}
	left, line, ok := c.leftToFall()
	if !ok || over(left, chilledLeft) < Probably {
		return nil
	}
	was, is, found := steepest(c.heats())
	if found {
		fall, hours := was.heat.Value-is.heat.Value, is.when.Sub(was.when).Hours()
		f := Found{
			Severity: notice.Look, Where: c.lastOf(is.heat),
			Says: fmt.Sprintf("It cooled by %s in %.0f hours with about %.0f points still to fall.", c.units.Fixed(fall, "K", 0), hours, left.Value),
			Why:  "The yeast drops out, and the butter it would have cleared away stays.",
			Do:   c.text("Bring it back to {18 or 20 °C}, rouse it gently, and wait for two gravities that agree."),
		}
		if !line.Written() || c.Stage != figures.Working {
			f = nextTime(f, "keep it warm until the gravity has stood still for three days.")
		}
		return []Found{f}
	}
	return nil
}

// steepest is the first fall of the heat that chills yeast, from where it began.
func steepest(heats []heatAt) (was, is heatAt, found bool) {
	for i, is := range heats {
		for _, was := range heats[:i] {
			fall, hours := was.heat.Value-is.heat.Value, is.when.Sub(was.when).Hours()
			if fall >= chilledBy && hours > 0 && fall/hours >= chilledRate {
				return was, is, true
			}
		}
	}
	return was, is, false
}

// leftToFall is how many points the last gravity stands above what the yeast
// should reach, and the line it was read on.
func (c *Case) leftToFall() (figures.Figure, journal.Where, bool) {
	last, _, ok := c.lastFall()
	expected, off := c.ExpectedByYeast()
	if !ok || expected == 0 {
		return figures.Figure{}, journal.Where{}, false
	}
	return figures.Figure{Value: last.Gravity.Value.Points() - expected.Points(), PlusMinus: 1000 * off}, last.Where, true
}

// heatAt is one reading of the beer's heat.
type heatAt struct {
	when time.Time
	heat figures.Figure
}

// heats are the readings of the beer's heat after pitching, the logger's every six
// hours among them, in order of time.
func (c *Case) heats() []heatAt {
	var heats []heatAt
	for _, r := range c.Gyle.Readings {
		heat, ok := figures.AsRead(r.Temp)
		if ok && c.Come(r.When) && !r.Package.Written() && r.When.Middle().After(c.PitchedAt()) {
			heats = append(heats, heatAt{r.When.Middle(), heat})
		}
	}
	for _, r := range c.Logged() {
		if heat, ok := figures.AsRead(r.Temp); ok {
			heats = append(heats, heatAt{r.When, heat})
		}
	}
	slices.SortStableFunc(heats, func(a, b heatAt) int { return a.when.Compare(b.when) })
	return heats
}

// lastHeat is the last reading of the beer's heat after pitching.
func (c *Case) lastHeat() (figures.Figure, bool) {
	var last figures.Figure
	found := false
	for _, r := range c.heats() {
		last, found = r.heat, true
	}
	return last, found
}

// lastFall is the last reading after pitching and how far it has fallen from the
// original gravity, in points.
func (c *Case) lastFall() (figures.GravityReading, figures.Figure, bool) {
	var last figures.GravityReading
	found := false
	for _, r := range c.Sightings() {
		if c.AfterPitching(r) {
			last, found = r, true
		}
	}
	og, ok := c.Find("og", "")
	if !found || !ok {
		return last, figures.Figure{}, false
	}
	// The instrument's own bias is in both and cancels: what is left is a
	// division's half either way.
	fallen := og
	fallen.Value, fallen.PlusMinus = q.Gravity(og.Value).Points()-last.Gravity.Value.Points(), fallDoubt
	if last.Logged {
		fallen.PlusMinus = last.Gravity.PlusMinus().SG() * 1000 // another instrument: nothing cancels
	}
	return last, fallen, true
}

package rules

import (
	"fmt"

	"gylebook/internal/assay"
	"gylebook/internal/figures"
	"gylebook/internal/journal"
	"gylebook/internal/notice"
)

// fermentRules are about the first days of fermentation.
func fermentRules() []Rule {
	return []Rule{
		{
			ID: "slow-start", Watches: from(figures.Working), Worst: notice.Mend, Source: assay.CommonPractice,
			When:    "fallen by less than 3 points 36 hours (look) or 60 hours (mend) after pitching",
			Example: Example{In: "working", Raises: []string{"readings[0].gravity=1.041"}, Spares: []string{"readings[0].gravity=1.036"}, On: "2026-03-05"},
			look:    slowStart,
		},
		{
			ID: "too-hot", Watches: from(figures.Working), Worst: notice.Look, Source: assay.CommonPractice,
			When:    "in the first 72 hours more than 2 °C above the yeast's card, or over 24 °C without one",
			Example: Example{In: "working", Raises: []string{"readings[0].temp=27 C"}, Spares: []string{"readings[0].temp=23 C"}, On: "2026-03-04"},
			look:    tooHot,
		},
		{
			ID: "chilled-early", Watches: from(figures.Working), Worst: notice.Look, Source: assay.CommonPractice,
			When:    "cooled by 3 °C at a quarter of a degree an hour or faster, with more than 3 points left to fall",
			Example: Example{In: "working", Raises: []string{"readings[+].when=2026-03-04 21:00", "readings[3].gravity=1.016", "readings[3].temp=14 C"}, Spares: []string{"readings[+].when=2026-03-04 21:00", "readings[3].gravity=1.016", "readings[3].temp=18 C"}, On: "2026-03-05"},
			look:    chilledEarly,
		},
	}
}

func slowStart(c *inspection) []Found {
	if c.DrawnFrom() || c.PitchedAt().IsZero() {
		return nil
	}
	last, fallen, ok := c.LastFall()
	if !ok || assay.Over(fallen, assay.BegunBy) >= assay.Probably {
		return nil
	}
	since := last.When.Sub(c.PitchedAt())
	if since < assay.SlowLook {
		return nil
	}
	f := Found{
		Severity: notice.Look, Where: last.Where,
		Says: fmt.Sprintf("%.0f hours after pitching it has fallen by no more than %s.", since.Hours(), assay.Points(assay.AtLeastNought(fallen))),
		Why:  "Weak or cold yeast gives spoilage its chance.",
		Do:   c.Text("Bring it to {20 °C}, rouse it gently, and read it again tomorrow."),
	}
	switch {
	case c.Stage != figures.Working:
		f = nextTime(f, "pitch fresher yeast, more of it, or warmer.")
	case since >= slowMend:
		f.Severity = notice.Mend
		f.Do = c.Text("Bring it to {20 °C}, rouse it, and pitch fresh yeast today. Smell it first: sour or drains means let it go.")
	}
	return []Found{f}
}

func tooHot(c *inspection) []Found {
	var pitch journal.Pitch
	if len(c.Gyle.Yeast) > 0 {
		pitch = c.Gyle.Yeast[0]
	}
	_, high, whose := c.Workable(pitch, assay.HotOverCard)
	var hottest figures.Figure
	for _, r := range c.HeatReadings() {
		if r.When.Sub(c.PitchedAt()) <= assay.YoungFor && r.Heat.Value > hottest.Value {
			hottest = r.Heat
		}
	}
	if hottest.Kind == nil || assay.Over(hottest, high) < assay.Probably {
		return nil
	}
	f := Found{
		Severity: notice.Look, Where: c.LastOf(hottest),
		Says: fmt.Sprintf("It worked at %s in its first three days; %s.", c.Measure(hottest), whose),
		Why:  "Early heat makes fusel and solvent notes that no rest takes out.",
		Do:   c.Text("Cool it gently, {K|a degree or two|two or three degrees} in six hours: wet towels and a draught will do."),
	}
	if c.Stage != figures.Working || !c.within(c.PitchedAt(), assay.YoungFor+assay.FirstDay) || c.cooledSince(high) {
		f = nextTime(f, "keep it cooler for the first three days.")
	}
	return []Found{f}
}

func chilledEarly(c *inspection) []Found {
	chill, ok := c.EarlyChill()
	if !ok {
		return nil
	}
	f := Found{
		Severity: notice.Look, Where: chill.Where, Says: chill.Says,
		Why: "The yeast drops out, and the butter it would have cleared away stays.",
		Do:  c.Text("Bring it back to {18 or 20 °C}, rouse it gently, and wait for two gravities that agree."),
	}
	if !chill.Line.Written() || c.Stage != figures.Working {
		f = nextTime(f, "keep it warm until the gravity has stood still for three days.")
	}
	return []Found{f}
}

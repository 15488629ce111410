package rules

import (
	"fmt"

	"gylebook/internal/assay"
	"gylebook/internal/figures"
	"gylebook/internal/journal"
	"gylebook/internal/notice"
)

// pitchRules are about the yeast as it goes in.
func pitchRules() []Rule {
	return []Rule{
		{
			ID: "pitched-warm", Watches: from(figures.Copper), Worst: notice.Mend, Source: assay.CommonPractice,
			When:    "pitched more than 3 °C above the yeast's card, or over 24 °C without one (limits.works_at may say otherwise); a note once the first day is over",
			Example: Example{In: "working", Raises: []string{"yeast[0].at=28 C"}, Spares: []string{"yeast[0].at=25 C"}, On: "2026-03-02"},
			look:    pitchedWarm,
		},
		{
			ID: "pitched-cold", Watches: from(figures.Copper), Worst: notice.Mend, Source: assay.CommonPractice,
			When:    "pitched below the yeast's card, or under 14 °C without one (limits.works_at may say otherwise); a note once it has begun to fall",
			Example: Example{In: "working", Raises: []string{"yeast[0].at=12 C"}, Spares: []string{"yeast[0].at=16 C"}, On: "2026-03-02"},
			look:    pitchedCold,
		},
		{
			ID: "under-pitched", Watches: from(figures.Copper), Worst: notice.Mend, Source: "home-brewing magazines on pitching rates",
			When:    "under 0.75 million cells per mL and °P (note), or under 0.5 (mend) until the first day is over",
			Example: Example{In: "pitching", Raises: []string{"yeast[0].cells=40e9 cells"}, Spares: []string{"yeast[0].cells=180e9 cells"}, On: "2026-03-01"},
			look:    underPitched,
		},
	}
}

func pitchedWarm(c *inspection) []Found {
	var found []Found
	for _, p := range c.Gyle.Yeast {
		heat, ok := figures.AsRead(p.At)
		_, high, whose := c.Workable(p, assay.PitchedOverCard)
		if !ok || assay.Over(heat, high) < assay.Probably {
			continue
		}
		f := Found{
			Severity: notice.Mend, Where: c.LastOf(heat),
			Says: fmt.Sprintf("The %s goes in at %s; %s.", p.Yeast.Name, c.Measure(heat), whose),
			Why:  "Yeast that starts hot makes solvent and fusel notes, and they stay.",
			Do:   "Cool the wort before the yeast goes in.",
		}
		if c.Stage > figures.Copper {
			f.Says = fmt.Sprintf("The %s went in at %s; %s.", p.Yeast.Name, c.Measure(heat), whose)
			f.Do = "Stand it in cold water and bring it down over the next few hours."
			if !c.firstDay(p) || c.cooledSince(high) {
				f = nextTime(f, "cool the wort further before the yeast goes in.")
			}
		}
		found = append(found, f)
	}
	return found
}

// cooledSince tells whether the last reading of the beer's heat is no warmer
// than the limit.
func (c *inspection) cooledSince(limit float64) bool {
	last, ok := c.LastHeat()
	return ok && last.Value <= limit
}

func (c *inspection) firstDay(p journal.Pitch) bool {
	return c.Stage == figures.Working && c.within(p.Pitched.Middle(), assay.FirstDay)
}

func pitchedCold(c *inspection) []Found {
	var found []Found
	for _, p := range c.Gyle.Yeast {
		heat, ok := figures.AsRead(p.At)
		low, _, whose := c.Workable(p, 0)
		if !ok || assay.Under(heat, low) != assay.Surely {
			continue
		}
		f := Found{
			Severity: notice.Mend, Where: c.LastOf(heat),
			Says: fmt.Sprintf("The %s goes in at %s; %s.", p.Yeast.Name, c.Measure(heat), whose),
			Why:  "Cold yeast starts slowly, and other things start first.",
			Do:   "Warm the wort before the yeast goes in.",
		}
		if c.Stage > figures.Copper {
			f.Says = fmt.Sprintf("The %s went in at %s; %s.", p.Yeast.Name, c.Measure(heat), whose)
			f.Do = "Move it somewhere warmer and wrap it up."
			if c.Stage != figures.Working || c.begun() || c.cooledSince(low) && !c.firstDay(p) {
				f = nextTime(f, "let the wort stay warmer, or warm it before the yeast goes in.")
			}
		}
		found = append(found, f)
	}
	return found
}

// begun tells whether a reading shows the gravity well under way.
func (c *inspection) begun() bool {
	_, fallen, ok := c.LastFall()
	return ok && assay.Over(fallen, assay.BegunBy) >= assay.Probably
}

// vague tells whether a rate is known so little that a packet's own spread is all
// there is to it: nobody need worry over that.
func vague(rate figures.Figure) bool { return rate.PlusMinus > rate.Value/2 }

func underPitched(c *inspection) []Found {
	rate, ok := c.Find("pitching-rate", "")
	if !ok || assay.Under(rate, assay.PitchLow) < assay.Probably || vague(rate) && assay.Under(rate, assay.PitchLow) != assay.Surely {
		return nil
	}
	low := assay.Under(rate, pitchLowest)
	f := Found{
		Severity: notice.Note, Where: c.LastOf(rate),
		Says: fmt.Sprintf("The pitch is %s million cells per mL and °P, and 0.75 to 1.0 is the rule for ale.", assay.Bare(rate)),
		Why:  "Too little yeast starts late, tires early, and leaves butter and green apple behind.",
		Do:   "Pitch another packet, or a starter, while it is still young.",
	}
	mendable := c.Stage == figures.Copper || c.Stage == figures.Working && c.within(c.PitchedAt(), assay.FirstDay)
	switch {
	case !mendable:
		f = nextTime(f, "pitch more yeast, or grow it in a starter.")
	case low >= assay.Probably:
		f.Severity = notice.Mend
	}
	return []Found{f}
}

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
			ID: "pitched-warm", Watches: from(figures.Copper), Worst: notice.Mend, Source: common,
			When: say("pitched more than %s above the yeast's card, or over %s without one (limits.works_at may say otherwise); "+
				"a note once the first day is over", assay.PitchedOverCard, assay.PitchWarmest),
			Why:  "Yeast that starts hot makes solvent and fusel notes, and they stay.",
			look: per(pitches, pitchedWarm),
		},
		{
			ID: "pitched-cold", Watches: from(figures.Copper), Worst: notice.Mend, Source: common,
			When: say("pitched below the yeast's card, or under %s without one (limits.works_at may say otherwise); "+
				"a note once it has begun to fall", assay.PitchCoolest),
			Why:  "Cold yeast starts slowly, and other things start first.",
			look: per(pitches, pitchedCold),
		},
		{
			ID: "under-pitched", Watches: from(figures.Copper), Worst: notice.Mend, Source: assay.PitchingRates,
			When: say("under %s (note), or under %d (mend) until the first day is over", assay.PitchLow, pitchLowest),
			Why:  "Too little yeast starts late, tires early, and leaves butter and green apple behind.",
			Do:   "Pitch another packet, or a starter, while it is still young.",
			Next: "pitch more yeast, or grow it in a starter.", mendable: (*inspection).pitchable,
			look: once(underPitched),
		},
	}
}

func pitchedWarm(c *inspection, p journal.Pitch) Found {
	heat, ok := figures.AsRead(p.At)
	_, high, whose := c.Workable(p, assay.PitchedOverCard.Number)
	if !ok || !assay.IsOver(heat, high) {
		return Found{}
	}
	f := c.pitchedAt(p, heat, whose, "Cool the wort before the yeast goes in.", "Stand it in cold water and bring it down over the next few hours.")
	if c.Stage > figures.Copper && (!c.firstDay(p) || c.cooledSince(high)) {
		f.Next = "cool the wort further before the yeast goes in."
	}
	return f
}

func pitchedCold(c *inspection, p journal.Pitch) Found {
	heat, ok := figures.AsRead(p.At)
	low, _, whose := c.Workable(p, 0)
	if !ok || assay.Under(heat, low) != assay.Surely {
		return Found{}
	}
	f := c.pitchedAt(p, heat, whose, "Warm the wort before the yeast goes in.", "Move it somewhere warmer and wrap it up.")
	if c.Stage > figures.Working || c.Stage == figures.Working && (c.begun() || c.cooledSince(low) && !c.firstDay(p)) {
		f.Next = "let the wort stay warmer, or warm it before the yeast goes in."
	}
	return f
}

// pitchedAt is yeast that goes in at a heat, or went in, and what to do before and
// after that.
func (c *inspection) pitchedAt(p journal.Pitch, heat figures.Figure, whose, before, after string) Found {
	in := c.Stage > figures.Copper
	return Found{
		Where: c.LastOf(heat),
		Says:  fmt.Sprintf("The %s %s in at %s; %s.", p.Yeast.Name, either(in, "went", "goes"), c.Measure(heat), whose),
		Do:    either(in, after, before),
	}
}

// cooledSince tells whether the last reading of the beer's heat is no warmer
// than the limit.
func (c *inspection) cooledSince(limit float64) bool {
	last, ok := c.LastHeat()
	return ok && last.Value <= limit
}

func (c *inspection) firstDay(p journal.Pitch) bool {
	return c.working() && c.within(p.Pitched.Middle(), assay.FirstDay.Duration())
}

// begun tells whether a reading shows the gravity well under way.
func (c *inspection) begun() bool {
	_, fallen, ok := c.LastFall()
	return ok && assay.IsOver(fallen, assay.BegunBy)
}

// pitchable tells whether more yeast can still be pitched.
func (c *inspection) pitchable() bool {
	return c.Stage == figures.Copper || c.working() && c.within(c.PitchedAt(), assay.FirstDay.Duration())
}

func underPitched(c *inspection) Found {
	rate, ok := c.Find(figures.IDPitchingRate, "")
	short := assay.Under(rate, assay.PitchLow)
	// Where a packet's own spread is all there is to a rate, nobody need worry over it.
	vague := rate.PlusMinus > rate.Value/2
	if !ok || short < assay.Probably || vague && short != assay.Surely {
		return Found{}
	}
	const says = "The pitch is %s million cells per mL and °P, and %d to %.1d is the rule for ale."
	return Found{
		note: !assay.IsUnder(rate, pitchLowest), Where: c.LastOf(rate),
		Says: fmt.Sprintf(says, assay.Bare(rate), assay.PitchLow, assay.PitchEnough),
	}
}

package causes

import (
	"fmt"

	"gylebook/internal/assay"
	"gylebook/internal/figures"
	"gylebook/internal/journal"
	q "gylebook/internal/quantity"
)

// copperCauses come of the boil.
func copperCauses() []Cause {
	return []Cause{
		{
			ID: "short-boil", Name: "the boil was short or weak", Source: tasteFault,
			Next: "Boil for an hour, open and rolling, and cool it quickly.",
			Tests: []Test{
				{For: boiledTooShort(), Against: "%s or more", Weight: Measurement, Needs: "copper.boiled", look: boiledShort, con: boilShort},
				{For: "under %s boiled off in an hour", Against: "%s or more", Weight: Circumstance,
					Needs: "copper.before.volume and copper.after.volume", of: boilOff, pro: boilTimid, con: boilStrong},
				{For: "lager malt in the grist: it brings more of what a boil drives off", Weight: Circumstance, Needs: "grist",
					look: lagerMalt},
			},
		},
		{
			ID: "scorched", Name: "wort scorched on the base of the copper", Source: common,
			Now:  "Blend it with another beer.",
			Next: "Stir the copper while it heats, with a gentler flame, and take it off while syrup goes in.",
			Tests: []Test{
				{For: "a note of a burnt base", Weight: Measurement, Needs: "readings[].note",
					look: noteOf(unknown, "scorch*", "burnt", "burned", "caught")},
				{For: "a flame under the copper", Weight: Circumstance, Needs: "copper.fuel", look: flameUnder},
				{For: "wort of %s or more, or syrup in the copper", Against: "thin wort, %s or less", Weight: Circumstance,
					Needs: "copper.after.gravity", of: thickWort, pro: wortThick, con: wortThin},
			},
		},
	}
}

// boiledTooShort is when boiledShort speaks for a cause.
func boiledTooShort() string { return say("boiled for less than %s, or not at all", boilShort) }

func boiledShort(x *exam) Sign {
	boiled := x.Gyle.Copper.Boiled
	switch minutes := boiled.Value.Minutes(); {
	case boiled.None:
		return tells(For, "it was not boiled", boiled.Where)
	case !boiled.Written():
		return unknown
	default:
		// A boil of 60 minutes by the kitchen clock is one of 60.
		r := reading{Figure: number(minutes, 0, "minutes", boiled.Where), says: fmt.Sprintf("it boiled for %s minutes", q.Plain(minutes))}
		return x.judged(r, boilShort.Number-1, boilShort.Number)
	}
}

func boilOff(x *exam) reading {
	share, ok := x.BoilOffShare()
	switch {
	case x.Gyle.Copper.Boiled.None:
		return without(silent)
	case !ok:
		return without(unknown)
	}
	return reading{Figure: share, says: fmt.Sprintf("%s %% boiled off in an hour", assay.Bare(share))}
}

// lagerMalt tells whether the grist has malt that is kilned so gently that it
// keeps more of what becomes sweetcorn.
func lagerMalt(x *exam) Sign {
	return x.inTheGrist(tells, "lager", "pilsner", "pilsener", "pils")
}

// inTheGrist is a sign of a line of the grist that has one of some words in its name.
func (x *exam) inTheGrist(speaks func(Voice, string, journal.Where) Sign, words ...string) Sign {
	if len(x.Gyle.Grist) == 0 {
		return unknown
	}
	if name, where := x.grainCalled(words...); name != "" {
		return speaks(For, fmt.Sprintf("there is %s in the grist", name), where)
	}
	return silent
}

func flameUnder(x *exam) Sign {
	fuel := x.Gyle.Copper.Fuel
	switch {
	case !fuel.Written():
		return unknown
	case fuel.Is(journal.MainsGas, journal.BottledGas, journal.Charcoal, journal.WoodFire):
		return hints(For, fmt.Sprintf("the copper stood over a flame (%s)", fuel.Word), fuel.Where)
	}
	return silent
}

func thickWort(x *exam) reading {
	for _, g := range x.Gyle.Grist {
		if g.Syrup.Written() && !g.Into.Is(journal.IntoFermenter) {
			return without(hints(For, fmt.Sprintf("%s went into the copper, and sinks", g.Syrup.Name), g.Where))
		}
	}
	f, ok := x.Find(figures.IDOG, "")
	return x.measured(f, ok && len(x.Gyle.DrawnFrom) == 0, "the wort was at %s")
}

// lateHops are hops that leave some of their aroma: dry, steeped, or boiled for
// no longer than a quarter of an hour.
func lateHops(h journal.Hop) bool {
	return h.Dry.Written() || h.Steeped.Written() || h.Boiled.Written() && h.Boiled.Value.Minutes() <= lateBoil.Number
}

func dryHops(h journal.Hop) bool { return h.Dry.Written() }

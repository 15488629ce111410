package causes

import (
	"fmt"

	"gylebook/internal/assay"
	"gylebook/internal/journal"
	q "gylebook/internal/quantity"
)

// copperCauses come of the boil.
func copperCauses() []Cause {
	return []Cause{
		{
			ID: "short-boil", Name: "the boil was short or weak", Source: tasteFaults,
			Next: "Boil for an hour, open and rolling, and cool it quickly.",
			Tests: []Test{
				{For: "boiled for less than 60 minutes, or not at all", Against: "60 minutes or more", Weight: Measurement, Needs: "copper.boiled", look: boiledShort},
				{For: "under 5 % boiled off in an hour", Against: "8 % or more", Weight: Circumstance, Needs: "copper.before.volume and copper.after.volume", look: boiledTimidly},
				{For: "lager malt in the grist: it brings more of what a boil drives off", Weight: Circumstance, Needs: "grist", look: lagerMalt},
			},
		},
		{
			ID: "scorched", Name: "wort scorched on the base of the copper", Source: assay.CommonPractice,
			Now: "Blend it with another beer.", Next: "Stir the copper while it heats, with a gentler flame, and take it off while syrup goes in.",
			Tests: []Test{
				{For: "a note of a burnt base", Weight: Measurement, Needs: "readings[].note", look: baseBurnt},
				{For: "a flame under the copper", Weight: Circumstance, Needs: "copper.fuel", look: flameUnder},
				{For: "wort of 1.060 or more, or syrup in the copper", Against: "thin wort, 1.045 or less", Weight: Circumstance, Needs: "copper.after.gravity", look: thickWort},
			},
		},
	}
}

func boiledShort(x *exam) Sign {
	boiled := x.Gyle.Copper.Boiled
	switch {
	case boiled.None:
		return tells(For, "it was not boiled", boiled.Where)
	case !boiled.Written():
		return unknown
	}
	minutes := boiled.Value.Minutes()
	// A boil of 60 minutes by the kitchen clock is one of 60.
	f := number(minutes, 0, "min", boiled.Where)
	return x.judged(f, boilShort-1, boilShort, fmt.Sprintf("it boiled for %s minutes", q.Plain(minutes)))
}

func boiledTimidly(x *exam) Sign {
	if x.Gyle.Copper.Boiled.None {
		return silent
	}
	f, ok := x.Find("boil-off", "")
	before := x.Gyle.Copper.Before.Volume
	if !ok || !before.Written() || before.Value <= 0 {
		return unknown
	}
	share := 100 / before.Value.Litres()
	f.Value, f.PlusMinus = f.Value*share, f.PlusMinus*share
	return x.judged(f, boilTimid, boilStrong, fmt.Sprintf("%s %% boiled off in an hour", assay.Bare(f)))
}

// lagerMalt tells whether the grist has malt that is kilned so gently that it
// keeps more of what becomes sweetcorn.
func lagerMalt(x *exam) Sign {
	if len(x.Gyle.Grist) == 0 {
		return unknown
	}
	for _, g := range x.Gyle.Grist {
		if assay.HasWord(g.Malt.Name, "lager", "pilsner", "pilsener", "pils") {
			return tells(For, fmt.Sprintf("there is %s in the grist", g.Malt.Name), g.Where)
		}
	}
	return silent
}

func baseBurnt(x *exam) Sign {
	if what, where, ok := x.noted("scorch*", "burnt", "burned", "caught"); ok {
		return tells(For, fmt.Sprintf("a note says “%s”", what), where)
	}
	return unknown
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

func thickWort(x *exam) Sign {
	for _, g := range x.Gyle.Grist {
		if g.Syrup.Written() && !g.Into.Is(journal.IntoFermenter) {
			return hints(For, fmt.Sprintf("%s went into the copper, and sinks", g.Syrup.Name), g.Where)
		}
	}
	f, ok := x.Find("og", "")
	if !ok || len(x.Gyle.DrawnFrom) > 0 {
		return unknown
	}
	return x.judged(f, wortThick, wortThin, fmt.Sprintf("the wort was at %s", assay.Bare(f)))
}

// lateHops are hops that leave some of their aroma: dry, steeped, or boiled for
// no longer than a quarter of an hour.
func lateHops(h journal.Hop) bool {
	return h.Dry.Written() || h.Steeped.Written() || h.Boiled.Written() && h.Boiled.Value.Minutes() <= lateBoil
}

package causes

import (
	"fmt"

	"gylebook/internal/assay"
	"gylebook/internal/figures"
	"gylebook/internal/journal"
)

// liquorCauses come with the water, or from what it touches.
func liquorCauses() []Cause {
	return []Cause{
		{
			ID: "chlorine", Name: "chlorine met the wort", Source: tasteFaults,
			Next: "Crush half a sulphite tablet into the liquor before you heat it, and rinse bleach off with hot water.",
			Tests: []Test{
				{For: "mains liquor with nothing done against chlorine", Against: "chlorine was dealt with, or there was none", Weight: Measurement, Needs: "liquor.chlorine", look: chlorinated},
				{For: "bleach used and no rinse noted", Weight: Circumstance, Needs: "done[].with", look: bleachLeft},
			},
		},
		{
			ID: "sulphate", Name: "the liquor is rich in sulphate", Source: assay.CommonPractice,
			Next: "Leave out the gypsum, or add calcium chloride: sulphate to chloride towards 1.5.",
			Tests: []Test{
				{For: "over 3 times as much sulphate as chloride", Against: "less than twice as much", Weight: Measurement, Needs: "liquor.water, with a card of its ions", look: sulphateRatio},
				{For: "sulphate over 300 mg/L", Against: "under 150 mg/L", Weight: Circumstance, Needs: "liquor.water, with a card of its ions", look: sulphateRich},
			},
		},
		{
			ID: "metal", Name: "iron or a poor fitting touched it", Source: assay.CommonPractice,
			Next: "Have the liquor's iron measured, and use plastic, glass, or steel that has been passivated.",
			Tests: []Test{
				{For: "liquor from a well", Against: "from the mains, from rain or from bottles", Weight: Circumstance, Needs: "liquor.water, with a card that says where it is from", look: ironInLiquor},
				{For: "a note of rust, or of new steel", Weight: Measurement, Needs: "packages[].note", look: rusty},
				{Against: "it stood in plastic or glass", Weight: Circumstance, Needs: "packages[].vessel", look: noMetal},
			},
		},
	}
}

const tasteFaults = "home-brewing magazines' pages on taste faults"

func chlorinated(x *exam) Sign {
	chlorine := x.Gyle.Liquor.Chlorine
	switch {
	case chlorine.Is(journal.NoChlorine) && x.MainsLiquor():
		return hints(For, "the liquor is from the mains, though chlorine is noted as none", chlorine.Where)
	case chlorine.Is(journal.ChlorineStood):
		return hints(Against, "the liquor stood, which drives chlorine off, but not chloramine", chlorine.Where)
	case chlorine.Is(journal.NoChlorine):
		return tells(Against, "the liquor had no chlorine in it", chlorine.Where)
	case chlorine.Written():
		return tells(Against, fmt.Sprintf("chlorine was dealt with (%s)", chlorine.Word), chlorine.Where)
	case x.MainsLiquor():
		return tells(For, "the liquor is from the mains, and nothing is noted against chlorine", x.Gyle.Liquor.Water.Where)
	}
	return unknown
}

// bleachLeft tells whether bleach was used and not rinsed off. Bleach that was
// rinsed, or none, is what most entries have, and tells nothing.
func bleachLeft(x *exam) Sign {
	deeds := x.Deeds(journal.Cleaned)
	for _, d := range deeds {
		if kind, _ := x.CleanerKind(d); kind == journal.Hypochlorite && !x.Followed(d, journal.Rinsed) {
			return tells(For, fmt.Sprintf("%s was used, and no rinse is noted after it", d.With.Name), d.Where)
		}
	}
	if len(deeds) == 0 {
		return unknown
	}
	return silent
}

func sulphateRatio(x *exam) Sign {
	f, ok := x.First("sulphate-chloride")
	if !ok {
		return unknown
	}
	return x.judged(f, sulphateChloride, sulphateEven, fmt.Sprintf("sulphate to chloride is %s", assay.Bare(f)))
}

func sulphateRich(x *exam) Sign {
	f, ok := x.Find("ion", "sulphate")
	if !ok {
		return unknown
	}
	return x.judged(f, sulphateMuch, sulphateFew, fmt.Sprintf("the liquor has %s of sulphate", x.Measure(f)))
}

func ironInLiquor(x *exam) Sign {
	water := x.Gyle.Liquor.Water
	card := x.Card("water", water)
	var from journal.WaterSource
	if card != nil && card.Water != nil {
		from = card.Water.From.Word
	}
	switch {
	case from == journal.WellWater || from == "" && assay.HasWord(water.Name, "well", "spring", "borehole"):
		return hints(For, "the liquor is from a well, which may have iron in it", water.Where)
	case from == journal.FilteredWater || from == "" && !x.MainsLiquor():
		return unknown
	}
	return hints(Against, "the liquor is not from a well", water.Where)
}

func rusty(x *exam) Sign {
	if what, where, ok := x.noted("rust*", "unpassivated", "corrod*"); ok {
		return tells(For, fmt.Sprintf("a note says “%s”", what), where)
	}
	return unknown
}

// noMetal tells whether the beer stood in nothing but plastic and glass.
func noMetal(x *exam) Sign {
	if len(x.Containers()) == 0 {
		return unknown
	}
	var where journal.Where
	for _, k := range x.from() {
		if !nonMetal(k) {
			return silent
		}
		where = assay.WhereOf(k)
	}
	return tells(Against, "it stood in plastic or glass", where)
}

func nonMetal(k figures.Container) bool {
	if k.Vessel != nil && k.Vessel.Material.Written() {
		return k.Vessel.Material.Is(journal.GlassMade, journal.PlasticMade)
	}
	return k.Is(journal.SoftBag, journal.Bottle, journal.PressureBarrel)
}

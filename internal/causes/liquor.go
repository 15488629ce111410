package causes

import (
	"fmt"

	"gylebook/internal/assay"
	"gylebook/internal/figures"
	"gylebook/internal/journal"
)

// liquorCauses come with the water, or from what it touches.
func liquorCauses() []Cause {
	const ions = "liquor.water, with a card of its ions"
	return []Cause{
		{
			ID: "chlorine", Name: "chlorine met the wort", Source: tasteFault,
			Next: "Crush half a sulphite tablet into the liquor before you heat it, and rinse bleach off with hot water.",
			Tests: []Test{
				{For: "mains liquor with nothing done against chlorine", Against: "chlorine was dealt with, or there was none",
					Weight: Measurement, Needs: "liquor.chlorine", look: chlorinated},
				{For: "bleach used and no rinse noted", Weight: Circumstance, Needs: "done[].with", look: bleachLeft},
			},
		},
		{
			ID: "sulphate", Name: "the liquor is rich in sulphate", Source: common,
			Next: "Leave out the gypsum, or add calcium chloride: sulphate to chloride towards 1.5.",
			Tests: []Test{
				{For: "over %s as much sulphate as chloride", Against: "less than %q as much", Weight: Measurement, Needs: ions,
					of: sulphateToChloride, pro: sulphateTimes, con: sulphateEven},
				{For: "sulphate over %s", Against: "under %s", Weight: Circumstance, Needs: ions,
					of: figure(figures.IDIon, "sulphate", "the liquor has %s of sulphate"), pro: sulphateMuch, con: sulphateFew},
			},
		},
		{
			ID: "metal", Name: "iron or a poor fitting touched it", Source: common,
			Next: "Have the liquor's iron measured, and use plastic, glass, or steel that has been passivated.",
			Tests: []Test{
				{For: "liquor from a well", Against: "from the mains, from rain or from bottles", Weight: Circumstance,
					Needs: "liquor.water, with a card that says where it is from", look: ironInLiquor},
				{For: "a note of rust, or of new steel", Weight: Measurement, Needs: "packages[].note",
					look: noteOf(unknown, "rust*", "unpassivated", "corrod*")},
				{Against: "it stood in plastic or glass", Weight: Circumstance, Needs: "packages[].vessel", look: noMetal},
			},
		},
	}
}

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
	if len(x.Deeds(journal.Cleaned)) == 0 {
		return unknown
	}
	if left, used := x.notRinsed(journal.Hypochlorite); used && left.Says != "" {
		return left
	}
	return silent
}

// notRinsed is the first cleaning with a kind of cleaner that no rinse followed; used
// tells whether there was any such cleaning.
func (x *exam) notRinsed(kind journal.CleanerKind) (left Sign, used bool) {
	for _, d := range x.Deeds(journal.Cleaned) {
		if is, _ := x.CleanerKind(d); is != kind {
			continue
		}
		used = true
		if !x.Followed(d, journal.Rinsed) {
			return tells(For, fmt.Sprintf("%s was used, and no rinse is noted after it", d.With.Name), d.Where), used
		}
	}
	return Sign{}, used
}

func sulphateToChloride(x *exam) reading {
	f, ok := x.First(figures.IDSulphateChloride)
	if !ok {
		return without(unknown)
	}
	return reading{Figure: f, says: fmt.Sprintf("sulphate to chloride is %s", assay.Bare(f))}
}

func ironInLiquor(x *exam) Sign {
	water, from := x.Gyle.Liquor.Water, x.WaterCard().From.Word
	switch {
	case from == journal.WellWater || from == "" && assay.HasWord(water.Name, "well", "spring", "borehole"):
		return hints(For, "the liquor is from a well, which may have iron in it", water.Where)
	case from == journal.FilteredWater || from == "" && !x.MainsLiquor():
		return unknown
	}
	return hints(Against, "the liquor is not from a well", water.Where)
}

// noteOf is the test of a note that has one of some words; nothing is concluded where
// there is none.
func noteOf(none Sign, words ...string) func(*exam) Sign {
	return func(x *exam) Sign {
		if what, where, ok := x.noted(words...); ok {
			return tells(For, fmt.Sprintf("a note says “%s”", what), where)
		}
		return none
	}
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

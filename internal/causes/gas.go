package causes

import (
	"fmt"

	"gylebook/internal/assay"
	"gylebook/internal/figures"
	"gylebook/internal/journal"
)

// gasCauses are about the condition and the head.
func gasCauses() []Cause {
	return []Cause{
		{
			ID: "low-condition", Name: "there was too little gas in it", Source: assay.CommonPractice,
			Now: "Unopened, stand it at {18 °C} for three days; else serve it cool, and soon.", Next: "Prime for the volume that was really racked, check the seal, and condition it warm.",
			Tests: []Test{
				{For: "condition 0.2 vol or more under its aim or style", Against: "within 0.1 vol of it, or over, and not open for days", Weight: Measurement, look: gasShortWhenSealed},
				{For: "conditioned at 12 °C or cooler", Next: "Condition it at {16 to 18 °C} before it goes into the cool.", Weight: Circumstance, Needs: "conditioned.at", look: conditionedCold},
				{For: "open for 3 days or more when it was first found so", Next: "Fill smaller containers, and drink one within three days of opening it.", Weight: Circumstance, Needs: "served.broached", look: openLong},
				{For: "the glass at 14 °C or warmer, each time", Next: "Keep it, and serve it, at {11 to 13 °C}.", Weight: Circumstance, Needs: "tastings[].at", look: glassTooWarm},
			},
		},
		{
			ID: "high-condition", Name: "there was too much gas in it", Source: assay.CommonPractice,
			Now: "Chill it first, then vent it; keep away from glass that may burst.", Next: "See two gravities agree before you seal it, and weigh the sugar for the volume that was racked.",
			Tests: []Test{
				{For: "condition 0.3 vol or more over its aim or style", Against: "within 0.1 vol of it, or under, and the gravity has not fallen since", Weight: Measurement, look: gasOverAim},
				{For: "fallen by 2 points or more since it was racked", Against: "by less than a point", Weight: Measurement, Needs: needsGlass, look: fellSealed},
				{For: "gravity still to fall when it was sealed, worth a quarter of a volume", Against: "a tenth of one or less, and the gravity has not fallen since", Weight: Circumstance, Needs: "readings[].gravity, two that agree before racking", look: sealedSoon},
				{For: "primed for 5 % more beer than was racked", Weight: Circumstance, Needs: "racked.volume", look: primedForMore},
			},
		},
		{
			ID: "head-lost", Name: "something breaks the head", Source: assay.CommonPractice,
			Now: "Rinse a clean glass in plain water and pour again; a sparkler helps.", Next: "Put 3 to 5 % of wheat in the grist, and rinse detergent off.",
			Tests: []Test{
				{For: "detergent used, and no rinse noted", Weight: Measurement, Needs: "done[].with, for the glasses", look: detergentLeft},
				{For: "condition 0.2 vol or more under its aim or style", Against: "within 0.1 vol of it, or over", Weight: Circumstance, look: gasShort},
				{For: "no wheat in the grist", Against: "3 % or more", Weight: Circumstance, Needs: "grist[].weight", look: wheatShare},
			},
		},
	}
}

func gasShort(x *exam) Sign {
	off, says, lacking := x.conditionOff()
	if says == "" {
		return lacking
	}
	return x.judged(less(off), gasUnder, gasOnAim, says)
}

func gasOverAim(x *exam) Sign {
	off, says, lacking := x.conditionOff()
	if says == "" {
		return lacking
	}
	return x.unlessFallen(x.judged(off, gasOver, gasOnAim, says))
}

// gasShortWhenSealed passes over a condition that was right once: what is reckoned
// for a sealed container says nothing of one that has been open for days.
func gasShortWhenSealed(x *exam) Sign {
	s := gasShort(x)
	if s.Voice == Against && openLong(x).Voice == For {
		return silent
	}
	return s
}

// unlessFallen passes over what was reckoned to come, where a glass shows that
// more came.
func (x *exam) unlessFallen(s Sign) Sign {
	if s.Voice == Against && fellSealed(x).Voice == For {
		return silent
	}
	return s
}

func conditionedCold(x *exam) Sign {
	for _, k := range x.from() {
		if k.Package.Gas.Set.Written() {
			return silent // its gas is from a cylinder
		}
		f, ok := figures.AsRead(x.Conditioned(k).At)
		if !ok {
			continue
		}
		return x.judged(f, conditionCold, conditionFit, fmt.Sprintf("it was conditioned at %s", x.Measure(f))).onlyFor()
	}
	return unknown
}

// openLong looks at the first time that the word was found: what was so on the
// first day is not the air that came in afterwards.
func openLong(x *exam) Sign {
	days, k, ok := x.openFor()
	switch {
	case ok:
		return x.judged(days, openFlat, openFresh, fmt.Sprintf("%s had been open for %s", x.called(k), wholeDays(days.Value))).onlyFor()
	case x.bottled() || x.gassed():
		return silent
	}
	return unknown
}

// gassed tells whether all that the word was found in stands under gas.
func (x *exam) gassed() bool {
	from := x.from()
	for _, k := range from {
		if !k.Package.Gas.Set.Written() {
			return false
		}
	}
	return len(from) > 0
}

func glassTooWarm(x *exam) Sign {
	f, ok := x.coolestGlass()
	if !ok {
		return unknown
	}
	return x.judged(f, glassWarm, glassFit, fmt.Sprintf("the glass was at %s", x.Measure(f))).onlyFor()
}

func sealedSoon(x *exam) Sign {
	f, ok := x.Find("co2-to-come", "")
	level := x.Stability().Level
	if !ok || len(level) < 2 {
		return unknown
	}
	f = f.At(level[len(level)-1].Where)
	if f.Value == 0 {
		return x.unlessFallen(x.judged(f, assay.FallsBy.Number, assay.FallsBy.Number*0.4, "no gravity was still to fall when it was sealed"))
	}
	return x.unlessFallen(x.judged(f, assay.FallsBy.Number, assay.FallsBy.Number*0.4, fmt.Sprintf("gravity still to fall when it was sealed is worth %s", x.Measure(f))))
}

func primedForMore(x *exam) Sign {
	worked, racked := x.Gyle.Priming.Worked, x.Gyle.Racked.Volume
	switch {
	case !x.Gyle.Priming.Written():
		return silent
	case !racked.Written():
		return unknown
	case !worked.Written() || worked.Value.Litres() < racked.Value.Litres()*(1+assay.WrongVolumeLook.Number/100):
		return silent
	}
	return tells(For, fmt.Sprintf("the sugar was worked out for %s, and %s were racked", x.Units.Fixed(worked.Value.Litres(), "L", 1), x.Units.Fixed(racked.Value.Litres(), "L", 1)), worked.Where)
}

func detergentLeft(x *exam) Sign {
	sign := unknown
	for _, d := range x.Deeds(journal.Cleaned) {
		if kind, _ := x.CleanerKind(d); kind != journal.Detergent {
			continue
		}
		if !x.Followed(d, journal.Rinsed) {
			return tells(For, fmt.Sprintf("%s was used, and no rinse is noted after it", d.With.Name), d.Where)
		}
		sign = silent
	}
	return sign
}

func wheatShare(x *exam) Sign {
	f, names, ok := x.gristShare(wheaten)
	if !ok {
		return unknown
	}
	if f.Value == 0 {
		return hints(For, "there is no wheat in the grist", journal.Where{})
	}
	return x.judged(f, 0, wheatForHead, share("wheat", f, names))
}

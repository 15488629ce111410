package causes

import (
	"fmt"
	"slices"

	"gylebook/internal/assay"
	"gylebook/internal/figures"
	"gylebook/internal/journal"
	q "gylebook/internal/quantity"
)

// gasCauses are about the condition and the head.
func gasCauses() []Cause {
	const short, shortNot = "condition %s or more under its aim or style", "within %s of it, or over"
	return []Cause{
		{
			ID: "low-condition", Name: "there was too little gas in it", Source: common,
			Now:  "Unopened, stand it at {18 °C} for three days; else serve it cool, and soon.",
			Next: "Prime for the volume that was really racked, check the seal, and condition it warm.",
			Tests: []Test{
				{For: short, Against: shortNot + ", and not open for days", Weight: Measurement,
					of: unless(openTooFlat, under(conditionOff)), pro: gasUnder, con: gasOnAim},
				{For: "conditioned at %s or cooler", Next: "Condition it at {16 to 18 °C} before it goes into the cool.",
					Weight: Circumstance, Needs: "conditioned.at", of: conditionedAt, pro: conditionCold, con: conditionFit},
				openLong(),
				{For: "the glass at %s or warmer, each time", Next: "Keep it, and serve it, at {11 to 13 °C}.",
					Weight: Circumstance, Needs: "tastings[].at", of: coolestGlass("the glass was at %s"), pro: glassWarm, con: glassFit},
			},
		},
		{
			ID: "high-condition", Name: "there was too much gas in it", Source: common,
			Now:  "Chill it first, then vent it; keep away from glass that may burst.",
			Next: "See two gravities agree before you seal it, and weigh the sugar for the volume that was racked.",
			Tests: []Test{
				{For: "condition %s or more over its aim or style", Against: "within %s of it, or under, and the gravity has not fallen since",
					Weight: Measurement, of: unless((*exam).hasFallen, conditionOff), pro: gasOver, con: gasOnAim},
				fellSealed(Measurement),
				{For: "gravity still to fall when it was sealed, worth %q", Against: "a tenth of one or less, and the gravity has not fallen since",
					Weight: Circumstance, Needs: "readings[].gravity, two that agree before racking",
					of: unless((*exam).hasFallen, sealedSoon), pro: assay.FallsBy, con: fallsNot},
				{For: say("primed for %s more beer than was racked", assay.WrongVolumeLook), Weight: Circumstance, Needs: "racked.volume",
					look: primedForMore},
			},
		},
		{
			ID: "head-lost", Name: "something breaks the head", Source: common,
			Now:  "Rinse a clean glass in plain water and pour again; a sparkler helps.",
			Next: "Put 3 to 5 % of wheat in the grist, and rinse detergent off.",
			Tests: []Test{
				{For: "detergent used, and no rinse noted", Weight: Measurement, Needs: "done[].with, for the glasses", look: detergentLeft},
				{For: short, Against: shortNot, Weight: Circumstance, of: under(conditionOff), pro: gasUnder, con: gasOnAim},
				{For: "no wheat in the grist", Against: "%s or more", Weight: Circumstance, Needs: "grist[].weight",
					of: wheatShare, con: wheatForHead},
			},
		},
	}
}

// unless passes over what would speak against a cause, where something shows that what
// was reckoned for the sealed beer is no longer so.
func unless(changed func(*exam) bool, of func(*exam) reading) func(*exam) reading {
	return func(x *exam) reading {
		r := of(x)
		r.overtaken = r.says != "" && changed(x)
		return r
	}
}

// openTooFlat tells whether the beer was open for days.
func openTooFlat(x *exam) bool { return openLong().sign(x).Voice == For }

func conditionedAt(x *exam) reading {
	for _, k := range x.from() {
		if k.Package.Gas.Set.Written() {
			return without(silent) // its gas is from a cylinder
		}
		if f, ok := figures.AsRead(x.Conditioned(k).At); ok {
			return x.measured(f, ok, "it was conditioned at %s")
		}
	}
	return without(unknown)
}

// openLong is the test of the first time that the word was found: what was so on the
// first day is not the air that came in afterwards.
func openLong() Test {
	return Test{
		For: "open for %s or more when it was first found so", Weight: Circumstance, Needs: "served.broached",
		Next: "Fill smaller containers, and drink one within three days of opening it.",
		of: func(x *exam) reading {
			days, k, ok := x.openFor()
			switch {
			case ok:
				return reading{Figure: days, says: fmt.Sprintf("%s had been open for %s", x.called(k), wholeDays(days.Value))}
			case x.bottled() || x.gassed():
				return without(silent)
			}
			return without(unknown)
		},
		pro: openFlat, con: openFresh,
	}
}

// gassed tells whether all that the word was found in stands under gas.
func (x *exam) gassed() bool {
	from := x.from()
	return len(from) > 0 && !slices.ContainsFunc(from, func(k figures.Container) bool { return !k.Package.Gas.Set.Written() })
}

func sealedSoon(x *exam) reading {
	f, ok := x.Find(figures.IDCO2ToCome, "")
	level := x.Stability().Level
	if !ok || len(level) < 2 {
		return without(unknown)
	}
	r := x.measured(f.At(level[len(level)-1].Where), ok, "gravity still to fall when it was sealed is worth %s")
	if f.Value == 0 {
		r.says = "no gravity was still to fall when it was sealed"
	}
	return r
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
	litres := func(v journal.Value[q.Volume]) string { return x.Units.Fixed(v.Value.Litres(), "L", 1).String() }
	return tells(For, fmt.Sprintf("the sugar was worked out for %s, and %s were racked", litres(worked), litres(racked)), worked.Where)
}

func detergentLeft(x *exam) Sign {
	left, used := x.notRinsed(journal.Detergent)
	switch {
	case left.Says != "":
		return left
	case used:
		return silent
	}
	return unknown
}

func wheatShare(x *exam) reading {
	r := inGrist("wheat", wheaten)(x)
	if r.says != "" && r.Value == 0 {
		return without(hints(For, r.says, journal.Where{}))
	}
	return r
}

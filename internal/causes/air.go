package causes

import (
	"fmt"
	"strings"

	"gylebook/internal/assay"
	"gylebook/internal/figures"
	"gylebook/internal/journal"
	q "gylebook/internal/quantity"
)

// airCauses are about oxygen, age and light.
func airCauses() []Cause {
	return []Cause{
		{
			ID: "oxygen", Name: "air got at it", Source: tasteFault,
			Now: "Drink it soon, and keep it cold.", Next: "Move it less, closed, filled from the bottom, with little air above it.",
			Tests: []Test{
				{For: "racked open, stirred, opened or left with room for air, twice or more; once, it may",
					Against: "racked closed, and none of these", Weight: Measurement, Needs: "racked.moved", look: airedTimes},
			},
		},
		{
			ID: "age", Name: "it was old, or kept warm", Source: common + "; once broached, trade sources differ",
			Now: "Drink it up.", Next: "Fill smaller containers, keep them cool, and drink them fresher.",
			Tests: []Test{
				{For: "unopened for longer than its kind of container keeps", Against: "for less than half of that", Weight: Measurement,
					Needs: "racked.on", of: keptFor},
				openTooLong(),
				{For: say("stored at %s or warmer", storeWarm), Against: say("at %s or cooler, and not open for too long", storeCool),
					Weight: Circumstance, Needs: "cellared.at", look: storedWarm},
			},
		},
		{
			ID: "light-struck", Name: "light got at it", Source: tasteFault,
			Now: "Drink the bottles that stood in the dark.", Next: "Use brown glass, a bag or a cask, and keep it out of the sun.",
			Tests: []Test{
				{For: "clear or green glass", Against: "brown glass, a bag, a cask, a barrel or a keg", Weight: Measurement,
					Needs: "packages[].vessel, with a card that says the colour of its glass", look: litGlass},
			},
		},
	}
}

// airedTimes counts as oxygen-count does, for containers that are empty by now
// too.
func airedTimes(x *exam) Sign {
	times, where := x.Airings(true, x.from(), x.called)
	racked := x.Gyle.Racked.Moved
	switch {
	case len(times) >= 2:
		return tells(For, "air got at it: "+strings.Join(times, ", "), where)
	case len(times) == 1:
		return hints(For, "air got at it: "+times[0], where)
	case racked.Is(journal.MovedClosed):
		return tells(Against, "it was racked closed, and nothing else that lets air in is noted", racked.Where)
	}
	return unknown
}

// openTooLong is the test of the first tasting with the word, as keptFor.
func openTooLong() Test {
	return Test{
		For: "open for longer than its kind of container keeps", Against: "for less than half of that", Weight: Measurement,
		Needs: "served.broached", Next: "Fill smaller containers, and finish one while it keeps.",
		of: func(x *exam) reading {
			days, k, ok := x.openFor()
			switch {
			case ok:
				keeps := figures.KeepingOf(k)
				days.PlusMinus = max(days.PlusMinus, keeps.BroachOff)
				open := "less than a day"
				if days.Value >= 0.75 {
					open = wholeDays(days.Value)
				}
				const says = "%s had been open for %s; about %s is what its kind keeps"
				r := reading{Figure: days, says: fmt.Sprintf(says, x.called(k), open, q.Plain(keeps.Broached))}
				return r.within(keeps.Broached, keeps.Broached/2)
			case x.bottled():
				return without(silent)
			}
			return without(unknown)
		},
	}
}

func keptFor(x *exam) reading {
	t, k, missing := x.tastedFrom(x.firstTasting())
	if missing != "" {
		return without(needing(missing))
	}
	filled, keeps := x.Filled(k), figures.KeepingOf(k)
	days := daysApart(filled.Middle(), t.When.Middle())
	if !filled.Written() || days < 0 {
		return without(unknown)
	}
	says := fmt.Sprintf("it had been in %s for %s; about %s is what its kind keeps", x.called(k), wholeDays(days), q.Plain(keeps.Keeps))
	return reading{Figure: number(days, keeps.KeepsOff, "days", filled.Where), says: says}.within(keeps.Keeps, keeps.Keeps/2)
}

func storedWarm(x *exam) Sign {
	for _, k := range x.from() {
		kept := x.Cellared(k)
		heat := kept.Warmest
		if !heat.Written() {
			heat = kept.At
		}
		f, ok := figures.AsRead(heat)
		if !ok {
			continue
		}
		s := x.held(x.measured(f, ok, "it was kept at %s"), storeWarm, storeCool)
		if s.Voice != For && openTooLong().sign(x).Voice == For {
			return silent // a cool cellar keeps no cask that is open
		}
		return s
	}
	return unknown
}

func litGlass(x *exam) Sign {
	for _, k := range x.from() {
		switch {
		case k.Vessel == nil:
		case k.Vessel.Glass.Is(journal.ClearGlass, journal.GreenGlass):
			return tells(For, fmt.Sprintf("%s is of %s glass", x.called(k), k.Vessel.Glass.Word), assay.WhereOf(k))
		case k.Vessel.Glass.Is(journal.BrownGlass):
			return tells(Against, fmt.Sprintf("%s is of brown glass", x.called(k)), assay.WhereOf(k))
		case !k.Is(journal.Bottle, journal.OtherVessel):
			return tells(Against, fmt.Sprintf("no light comes into %s", x.called(k)), assay.WhereOf(k))
		}
	}
	return unknown
}

// servingCauses are about the glass itself.
func servingCauses() []Cause {
	return []Cause{
		{
			ID: "serving", Name: "it was served too cold or too warm", Source: assay.BarChecklist,
			Now:  say("Bring it to {%d to %s} and taste it again.", serveFrom, serveTo),
			Next: "Note the heat in the glass with each tasting.",
			Tests: []Test{
				{For: say("the glass under %d or over %s", serveTooCold, serveTooWarm), Against: say("found at %d to %s too", serveFrom, serveTo),
					Weight: Measurement, Needs: "tastings[].at", look: servedWrong},
			},
		},
	}
}

// servedWrong looks at all glasses with the word: one that was served right is
// enough to speak against the serving.
func servedWrong(x *exam) Sign {
	sign := unknown
	for _, t := range x.found {
		f, ok := figures.AsRead(x.heatOf(t))
		if !ok {
			continue
		}
		r := x.measured(f, ok, "the glass was at %s")
		cold, warm := x.held(r, serveTooCold, serveFrom), x.held(r, serveTooWarm, serveTo)
		switch {
		case cold.Voice == Against && warm.Voice == Against:
			warm.May = cold.May || warm.May
			return warm
		case cold.Voice == For:
			sign = cold
		case warm.Voice == For:
			sign = warm
		case sign.Voice == Unknown:
			sign = silent
		}
	}
	return sign
}

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
			ID: "oxygen", Name: "air got at it", Source: tasteFaults,
			Now: "Drink it soon, and keep it cold.", Next: "Move it less, closed, filled from the bottom, with little air above it.",
			Tests: []Test{
				{For: "racked open, stirred, opened or left with room for air, twice or more; once, it may", Against: "racked closed, and none of these", Weight: Measurement, Needs: "racked.moved", look: airedTimes},
			},
		},
		{
			ID: "age", Name: "it was old, or kept warm", Source: assay.CommonPractice + "; once broached, trade sources differ",
			Now: "Drink it up.", Next: "Fill smaller containers, keep them cool, and drink them fresher.",
			Tests: []Test{
				{For: "unopened for longer than its kind of container keeps", Against: "for less than half of that", Weight: Measurement, Needs: "racked.on", look: keptLong},
				{For: "open for longer than its kind of container keeps", Next: "Fill smaller containers, and finish one while it keeps.", Against: "for less than half of that", Weight: Measurement, Needs: "served.broached", look: openTooLong},
				{For: "stored at 18 °C or warmer", Against: "at 13 °C or cooler, and not open for too long", Weight: Circumstance, Needs: "cellared.at", look: storedWarm},
			},
		},
		{
			ID: "light-struck", Name: "light got at it", Source: tasteFaults,
			Now: "Drink the bottles that stood in the dark.", Next: "Use brown glass, a bag or a cask, and keep it out of the sun.",
			Tests: []Test{
				{For: "clear or green glass", Against: "brown glass, a bag, a cask, a barrel or a keg", Weight: Measurement, Needs: "packages[].vessel, with a card that says the colour of its glass", look: litGlass},
			},
		},
	}
}

// airedTimes counts as oxygen-count does, for containers that are empty by now
// too.
func airedTimes(x *exam) Sign {
	times, where := x.airingsEver()
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

func (x *exam) airingsEver() (times []string, where journal.Where) {
	tell := func(at journal.Where, what string) {
		if len(times) == 0 {
			where = at
		}
		times = append(times, what)
	}
	if racked := x.Gyle.Racked; racked.Moved.Is(journal.MovedOpen) {
		tell(racked.Moved.Where, "racked open")
	}
	for _, d := range x.Deeds(journal.Stirred, journal.Opened) {
		if x.SlowedBy(d.When) {
			tell(d.Where, d.Did.String()+" on "+d.When.Time.Format("2 January"))
		}
	}
	for _, k := range x.from() {
		if x.PartFilled(k) {
			tell(assay.WhereOf(k), "room for air in "+x.called(k))
		}
	}
	return times, where
}

// openTooLong and keptLong look at the first tasting with the word.
func openTooLong(x *exam) Sign {
	days, k, ok := x.openFor()
	switch {
	case ok:
		keeps := figures.KeepingOf(k)
		days.PlusMinus = max(days.PlusMinus, keeps.BroachOff)
		return x.judged(days, keeps.Broached, keeps.Broached/2, fmt.Sprintf("%s had been open for %s; about %s is what its kind keeps", x.called(k), daysOpen(days.Value), q.Plain(keeps.Broached)))
	case x.bottled():
		return silent
	}
	return unknown
}

// daysOpen prints for how long a container was open.
func daysOpen(days float64) string {
	if days < 0.75 {
		return "less than a day"
	}
	return wholeDays(days)
}

func keptLong(x *exam) Sign {
	t, ok := x.first()
	if !ok {
		return needing("tastings[].when")
	}
	k, ok := x.containerOf(t)
	if !ok {
		return needing("tastings[].package")
	}
	filled := x.Filled(k)
	if !filled.Written() {
		return unknown
	}
	keeps := figures.KeepingOf(k)
	days := daysApart(filled.Middle(), t.When.Middle())
	if days < 0 {
		return unknown
	}
	return x.judged(number(days, keeps.KeepsOff, "days", filled.Where), keeps.Keeps, keeps.Keeps/2, fmt.Sprintf("it had been in %s for %s; about %s is what its kind keeps", x.called(k), wholeDays(days), q.Plain(keeps.Keeps)))
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
		s := x.judged(f, storeWarm, storeCool, fmt.Sprintf("it was kept at %s", x.Measure(f)))
		if openTooLong(x).Voice == For {
			return s.onlyFor() // a cool cellar keeps no cask that is open
		}
		return s
	}
	return unknown
}

func litGlass(x *exam) Sign {
	for _, k := range x.from() {
		switch {
		case k.Vessel != nil && k.Vessel.Glass.Is(journal.ClearGlass, journal.GreenGlass):
			return tells(For, fmt.Sprintf("%s is of %s glass", x.called(k), k.Vessel.Glass.Word), assay.WhereOf(k))
		case k.Vessel != nil && k.Vessel.Glass.Is(journal.BrownGlass):
			return tells(Against, fmt.Sprintf("%s is of brown glass", x.called(k)), assay.WhereOf(k))
		case k.Vessel != nil && !k.Is(journal.Bottle, journal.OtherVessel):
			return tells(Against, fmt.Sprintf("no light comes into %s", x.called(k)), assay.WhereOf(k))
		}
	}
	return unknown
}

package rules

import (
	"fmt"
	"math"
	"strings"

	"gylebook/internal/assay"
	"gylebook/internal/figures"
	"gylebook/internal/journal"
	"gylebook/internal/notice"
	q "gylebook/internal/quantity"
)

const solubility = "R. F. Weiss, Mar. Chem. 2 (1974) 203, × 0.936 for beer"

// sealed are the stages in which the beer is closed in, or may be where nobody says.
var sealed = []figures.Stage{figures.Working, figures.Maturing, figures.Pouring}

// sealingRules are about gas and pressure in any container; bagRules, caskRules
// and bottleRules about what one kind of it can do.
func sealingRules() []Rule {
	return []Rule{
		{
			ID: "primed-wrong-volume", group: ofGas, Watches: from(figures.Working), Worst: notice.Mend, Source: "worked: 64 g of sucrose is 0.83 vol in 20 L and 0.90 in 18.5",
			When: say("sugar worked out for a volume %s (look) or %s (mend) off the one it went into; "+
				"look where the condition meets the aim all the same", assay.WrongVolumeLook, wrongVolumeMend),
			look: primedWrongVolume,
		},
		{
			ID: "over-condition", group: ofGas, Watches: sealed, Worst: notice.Look, Source: common,
			When: say("more than %s above the aim (limits.condition_within may say otherwise)", assay.OverAim),
			look: overCondition,
		},
		{
			ID: "pressure-high", group: ofGas, Watches: sealed, Worst: notice.Danger, Source: solubility,
			When: say("at the warmest place, %s (mend) or all (danger) of the maker's rating", shareOfRating),
			look: pressureHigh,
		},
		{
			ID: "rating-unknown", group: ofGas, Watches: sealed, Worst: notice.Danger, Source: common,
			When: "sealed, keeps its shape, and no maker's figure: look until its pressure passes the ceiling for its kind, then danger",
			look: ratingUnknown,
		},
		{
			ID: "place-too-hot", group: ofGas, Watches: sealed, Worst: notice.Danger, Source: solubility,
			When: say("a place of over %s that a closed container still has ahead of it", hottestPlace),
			Why:  "Beer that warm gives off nearly all of its gas, and no pressure can be told for it.",
			look: placeTooHot,
		},
		{
			ID: "place-warmer", group: ofGas, Watches: sealed, Worst: notice.Mend, Source: common,
			When: "a place noted that is warmer than the warmest it was reckoned for",
			look: placeWarmer,
		},
		{
			ID: "headspace-odd", Watches: sealed, Worst: notice.Look, Source: common,
			When: say("less than %d or more than %s of room above the beer in a container that keeps its shape",
				headspaceLow, assay.HeadspaceHigh),
			look: headspaceOdd,
		},
	}
}

// the is a container at the head of a sentence.
func the(k figures.Container) string {
	return assay.Capital(k.Called())
}

// primedWrongVolume compares the volume that the sugar was worked out for with
// the one it went into. While the beer is in hand it can be put right; once it is
// closed in, each container is told what it will really come to.
func primedWrongVolume(c *inspection) []Found {
	p := c.Gyle.Priming
	racked := c.Gyle.Racked.Volume
	if !p.Worked.Written() || !p.Weight.Written() || !racked.Written() || racked.Value <= 0 {
		return nil
	}
	share := 100*p.Worked.Value.Litres()/racked.Value.Litres() - 100
	severity := notice.Mend
	switch {
	case math.Abs(share) < assay.WrongVolumeLook.Number:
		return nil
	case math.Abs(share) < wrongVolumeMend.Number:
		severity = notice.Look
	}
	f := Found{
		Severity: severity, Where: p.Worked.Where,
		Says: fmt.Sprintf("The sugar was worked out for %s, and %s were racked: %.0f %% %s.", c.Exactly(p.Worked.Value.Litres(), "L"), c.Exactly(racked.Value.Litres(), "L"), math.Abs(share), moreOrLess(share)),
		Why:  moreOrLessGas(share),
		Do:   c.weighAgain(),
	}
	switch {
	case c.Stage == figures.Empty:
		return []Found{nextTime(f, "weigh the sugar for what was really racked.")}
	case c.Stage < figures.Maturing || len(c.Live()) == 0:
		return []Found{f}
	}
	worst, any := figures.Container{}, false
	gas := 0.0
	for _, k := range c.Live() {
		reached, ok := c.Find(figures.IDCondition, k.Key)
		if own := k.Package.Priming.Written(); !own && !k.Forced() && ok && (!any || reached.Value > gas) {
			worst, any, gas = k, true, reached.Value
		}
	}
	if !any {
		return []Found{f}
	}
	return []Found{c.primedWrong(f, share, worst)}
}

// primedWrong is what the wrong weight of sugar comes to, in the container that it
// comes to most in.
func (c *inspection) primedWrong(f Found, share float64, k figures.Container) Found {
	reached, ok := c.Find(figures.IDCondition, k.Key)
	if ok {
		f.Says += fmt.Sprintf(" %s comes to %s%s.", the(k), c.Measure(reached), c.against())
	}
	aim := c.Gyle.Aim.Condition
	if ok && aim.Written() && assay.Distance(reached, aim.Value.Volumes()).Value <= rightAllTheSame.Number {
		f.Severity, f.Do = notice.Look, "It comes out right all the same: leave it as it is. Next time weigh the sugar for what was really racked."
		return f
	}
	if share < 0 {
		f.Do = "It can be served as it is; next time weigh the sugar for what was really racked."
		return f
	}
	if takes := c.takes(k); takes != "" {
		f.Why += " " + takes
	}
	f.Do = c.relief(k)
	return f
}

// against is the condition aimed at, as the end of a sentence.
func (c *inspection) against() string {
	if aim := c.Gyle.Aim.Condition; aim.Written() {
		return ", against " + q.Plain(aim.Value.Volumes()) + " aimed at"
	}
	return ""
}

// weighAgain is the sugar for the beer really racked, where it is known.
func (c *inspection) weighAgain() string {
	sugar := c.Gyle.Priming.Sugar.Name
	if f, ok := c.Find(figures.IDPrimingSugar, first(sugar, "sucrose")); ok && f.Value > 0 {
		return fmt.Sprintf("Weigh %s of %s instead, if it is not in yet.", c.Measure(f), first(sugar, "sucrose"))
	}
	return "Weigh the sugar again for what was really racked, if it is not in yet."
}

func first(name, otherwise string) string {
	if name != "" {
		return name
	}
	return otherwise
}

func moreOrLessGas(share float64) string {
	if share > 0 {
		return "The same sugar in less beer is more gas."
	}
	return "The same sugar in more beer is less gas."
}

func moreOrLess(share float64) string {
	if share > 0 {
		return "too much"
	}
	return "too little"
}

func overCondition(c *inspection) []Found {
	aim := c.Gyle.Aim.Condition
	if !aim.Written() {
		return nil
	}
	var found []Found
	allowed := c.Habits.In(assay.OverAim)
	for _, k := range c.Live() {
		f, ok := c.Find(figures.IDCondition, k.Key)
		if !ok || !assay.IsOver(f, aim.Value.Volumes()+allowed) {
			continue
		}
		sure := assay.Over(f, aim.Value.Volumes()+allowed)
		found = append(found, Found{
			Severity: notice.Look, Where: assay.WhereOf(k), Of: k.Key,
			Says: fmt.Sprintf("%s %s reach %s, against %s aimed at%s.", the(k), sure.Verb("will", "may"), c.Measure(f), q.Plain(aim.Value.Volumes()), c.Habits.OwnOrTrade(assay.OverAim, " (your settings allow "+q.Plain(allowed)+" over it)", "")),
			Why:  strings.TrimSpace("Beer that far over its aim fobs in the line and prickles in the glass. " + c.takes(k)),
			Do:   c.relief(k),
		})
	}
	return found
}

func pressureHigh(c *inspection) []Found {
	var found []Found
	for _, k := range c.Live() {
		f, ok := c.Find(figures.IDPressureWarmest, k.Key)
		if k.Vessel == nil || !k.Vessel.Rated.Written() || k.Is(journal.PressureBarrel) {
			continue
		}
		rated := k.Vessel.Rated.Value.Bar()
		if !ok {
			if f, beyond := c.beyondReckoning(k); beyond {
				found = append(found, f)
			}
			continue
		}
		severity := notice.Mend
		switch {
		case assay.Over(f, rated) == assay.Perhaps && k.Is(journal.Cask) && c.Gyle.Racked.Early.Yes():
			// Racked early on purpose, its spile is watched: not-finished says how.
		case assay.Over(f, rated) >= assay.Perhaps:
			severity = notice.Danger
		case assay.Over(f, rated*shareOfRating.Number/100) < assay.Probably:
			continue
		}
		found = append(found, Found{
			Severity: severity, Where: assay.WhereOf(k), Of: k.Key,
			Says: fmt.Sprintf("At the warmest %s %s reach %s; its maker allows %s.", k.Called(), assay.Over(f, rated*shareOfRating.Number/100).Verb("will", "may"), c.Measure(f), c.PressureAtMost(rated)),
			Why:  "Nothing is left for a warm day or an odd reading." + c.placeTaken(k),
			Do:   c.relief(k),
		})
	}
	return found
}

func placeWarmer(c *inspection) []Found {
	var found []Found
	for _, k := range c.Live() {
		stated := c.Conditioned(k).Warmest
		heat, at := c.WarmestPlace(k)
		if !stated.Written() || !at.Written() || at.Key == c.Gyle.Served.At.Key || heat.Celsius() <= stated.Value.Celsius()+0.5 {
			continue
		}
		found = append(found, Found{
			Severity: notice.Mend, Where: at, Of: k.Key,
			Says: fmt.Sprintf("%s stood at %s, warmer than the %s it was reckoned for.", the(k), c.Heat(heat.Celsius()), c.Heat(stated.Value.Celsius())),
			Why:  "Pressure rises with the warmest place, not with the usual one.",
			Do:   "Move it back to the cool, and correct the warmest heat (conditioned.warmest) so that the pressure is right.",
		})
	}
	return found
}

func headspaceOdd(c *inspection) []Found {
	var found []Found
	for _, k := range c.Live() {
		f, ok := c.RoomWhenFilled(k)
		capacity := c.CapacityOf(k)
		if !ok || capacity <= 0 || !k.Rigid() || k.Is(journal.Keg, journal.PressureBarrel) {
			continue // these are seldom full, and have a valve
		}
		share := f
		share.Value, share.PlusMinus = 100*f.Value/capacity, 100*assay.DoubtOf(f.PlusMinus)/capacity
		low := assay.Under(share, headspaceLow) == assay.Surely
		if !low && assay.Over(share, assay.HeadspaceHigh) != assay.Surely {
			continue
		}
		out := Found{
			Severity: notice.Look, Where: assay.WhereOf(k), Of: k.Key,
			Says: fmt.Sprintf("%s has %s %% of room above the beer; %d to %d is right.", the(k), q.Fixed(share.Value, 0), headspaceLow, assay.HeadspaceHigh),
			Why:  "The air in it stales the beer.",
			Do:   "Drink these first, and fill higher next time.",
		}
		if low {
			out.Why = "Beer that warms up needs room, or it lifts the cap or the shive."
			out.Do = "Keep it cool, and leave a little more room next time."
		}
		found = append(found, out)
	}
	return found
}

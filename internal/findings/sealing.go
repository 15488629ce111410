package findings

import (
	"fmt"

	"gylebook/internal/figures"
	"gylebook/internal/notice"
	q "gylebook/internal/quantity"
)

const solubility = "R. F. Weiss, Mar. Chem. 2 (1974) 203, × 0.936 for beer"

// sealed are the stages in which the beer is closed in.
var sealed = []figures.Stage{figures.Maturing, figures.Pouring}

// sealingRules are about gas and pressure in any container; bagRules, caskRules
// and bottleRules about what one kind of it can do.
func sealingRules() []Rule {
	return []Rule{
		{
			ID: "primed-wrong-volume", Watches: from(figures.Working), Worst: notice.Mend, Source: "worked: 64 g of sucrose is 0.83 vol in 20 L and 0.90 in 18.5",
			When:    "sugar worked out for a volume 5 % (look) or 10 % (mend) off the one it went into",
			Example: Example{In: "bottled", Raises: []string{"priming.worked_for=22.5 L"}, Spares: []string{"priming.worked_for=20.5 L"}},
			look:    primedWrongVolume,
		},
		{
			ID: "over-condition", Watches: sealed, Worst: notice.Look, Source: commonPractice,
			When:    "more than 0.3 vol above the aim",
			Example: Example{In: "bottled", Raises: []string{"priming.weight=130 g"}, Spares: []string{"priming.weight=100 g"}},
			look:    overCondition,
		},
		{
			ID: "pressure-high", Watches: sealed, Worst: notice.Danger, Source: solubility,
			When:    "at the warmest place, 80 % (mend) or all (danger) of the maker's rating",
			Example: Example{In: "bottled", Raises: []string{"packages[0].vessel=weak bottle", "conditioned.warmest=32 C"}, Spares: []string{"packages[0].vessel=plated bottle"}},
			look:    pressureHigh,
		},
		{
			ID: "rating-unknown", Watches: sealed, Worst: notice.Danger, Source: commonPractice,
			When:    "sealed, keeps its shape, and no maker's figure: look until its pressure passes the ceiling for its kind, then danger",
			Example: Example{In: "bottled", Raises: []string{"packages[0].vessel=demijohn", "packages[0].count=4", "packages[0].fill=4.8 L"}, Spares: []string{"packages[0].vessel=plated bottle"}},
			look:    ratingUnknown,
		},
		{
			ID: "place-warmer", Watches: sealed, Worst: notice.Mend, Source: commonPractice,
			When:    "a place noted that is warmer than the warmest it was reckoned for",
			Example: Example{In: "bottled", Raises: []string{"done[+].did=moved", "done[0].when=2026-03-15", "done[0].at=26 C"}, Spares: []string{"done[+].did=moved", "done[0].when=2026-03-15", "done[0].at=19 C"}},
			look:    placeWarmer,
		},
		{
			ID: "headspace-odd", Watches: sealed, Worst: notice.Look, Source: commonPractice,
			When:    "less than 3 or more than 8 % of room above the beer in a container that keeps its shape",
			Example: Example{In: "bottled", Raises: []string{"packages[0].fill=450 mL"}, Spares: []string{"packages[0].fill=500 mL"}},
			look:    headspaceOdd,
		},
	}
}

// the is a container at the head of a sentence.
func the(k figures.Container) string {
	return capital(k.Called())
}

// live are the containers that are filled and not yet empty: nobody need be told
// about the others.
func (c *Case) live() []figures.Container {
	var live []figures.Container
	for _, k := range c.Containers() {
		if c.filled(k) && !c.Spent(k) && !k.Is("bucket") {
			live = append(live, k)
		}
	}
	return live
}

func primedWrongVolume(c *Case) []Found {
	p := c.Gyle.Priming
	racked := c.Gyle.Racked.Volume
	if !p.Worked.Written() || !p.Weight.Written() || !racked.Written() || racked.Value <= 0 {
		return nil
	}
	share := p.Worked.Value.Litres()/racked.Value.Litres() - 1
	severity := notice.Mend
	switch {
	case share < wrongVolumeLook && share > -wrongVolumeLook:
		return nil
	case share < wrongVolumeMend && share > -wrongVolumeMend:
		severity = notice.Look
	}
	reached := ""
	if f, ok := c.Find("condition", ""); ok {
		reached = fmt.Sprintf(" It will reach about %s.", measure(f))
	}
	do := "Weigh the sugar again for what was really racked; if it is in already, reckon with the condition above."
	if share > 0 && c.Stage >= figures.Maturing {
		do = "It is in already: keep it cold, serve it sooner, and vent a bag or cask cold."
	}
	f := Found{
		Severity: severity, Where: p.Worked.Where,
		Says: fmt.Sprintf("The sugar was worked out for %s L, and %s L were racked: %.0f %% %s.%s", q.Plain(p.Worked.Value.Litres()), q.Plain(racked.Value.Litres()), 100*max(share, -share), moreOrLess(share), reached),
		Why:  "The same sugar in less beer is more gas.",
		Do:   do,
	}
	if c.Stage == figures.Empty {
		f = nextTime(f, "weigh the sugar for what was really racked.")
	}
	return []Found{f}
}

func moreOrLess(share float64) string {
	if share > 0 {
		return "too much"
	}
	return "too little"
}

func overCondition(c *Case) []Found {
	aim := c.Gyle.Aim.Condition
	if !aim.Written() {
		return nil
	}
	var found []Found
	for _, k := range c.live() {
		f, ok := c.Find("condition", k.Key)
		if !ok || over(f, aim.Value.Volumes()+overAim) < Probably {
			continue
		}
		sure := over(f, aim.Value.Volumes()+overAim)
		found = append(found, Found{
			Severity: notice.Look, Where: whereOf(k), Of: k.Key,
			Says: fmt.Sprintf("%s %s reach %s, against %s aimed at.", the(k), sure.verb("will", "may"), measure(f), q.Plain(aim.Value.Volumes())),
			Why:  "Beer that far over its aim fobs in the line and prickles in the glass.",
			Do:   overConditionDo(k),
		})
	}
	return found
}

func overConditionDo(k figures.Container) string {
	if k.Is("bottle") {
		return "Chill the bottles well before you open them, and pour slowly; less sugar next time."
	}
	return "Chill it first, then vent it a little at a time; less sugar next time."
}

func pressureHigh(c *Case) []Found {
	var found []Found
	for _, k := range c.live() {
		f, ok := c.Find("pressure-warmest", k.Key)
		if !ok || k.Vessel == nil || !k.Vessel.Rated.Written() || !k.Rigid() || k.Is("pressure barrel") {
			continue
		}
		rated := k.Vessel.Rated.Value.Bar()
		severity := notice.Mend
		switch {
		case over(f, rated) >= Probably:
			severity = notice.Danger
		case over(f, rated*shareOfRating) < Probably && over(f, rated) < Perhaps:
			continue
		}
		found = append(found, Found{
			Severity: severity, Where: whereOf(k), Of: k.Key,
			Says: fmt.Sprintf("%s %s reach %s at the warmest; its maker allows %s bar.", the(k), over(f, rated*shareOfRating).verb("will", "may"), measure(f), q.Plain(rated)),
			Why:  "Nothing is left for a warm day or an odd reading.",
			Do:   "Move it somewhere cooler now, then vent it once it is cold.",
		})
	}
	return found
}

// ceiling is the pressure above which a container of a kind, without a maker's
// figure, is no longer merely "not shown safe". They are no ratings: steel kegs
// and casks are made for more, but nobody here knows this one (common practice,
// no source). Bottles have their own rule, in volumes.
func ceiling(k figures.Container) float64 {
	switch {
	case k.Is("keg"):
		return 2
	case k.Is("cask"):
		return 1
	}
	return unratedBar
}

func ratingUnknown(c *Case) []Found {
	var found []Found
	for _, k := range c.live() {
		if !k.Rigid() || k.Is("pressure barrel") || k.Vessel != nil && k.Vessel.Rated.Written() {
			continue
		}
		f, ok := c.Find("pressure-warmest", k.Key)
		out := Found{
			Severity: notice.Look, Where: whereOf(k), Of: k.Key,
			Says: fmt.Sprintf("No maker's figure is known for %s, so it is not shown safe.", k.Called()),
			Why:  "What it takes cannot be guessed from its looks.",
			Do:   "Find the maker's rating and note it on a vessel card (rated); keep it cool until then.",
		}
		if ok {
			out.Why = fmt.Sprintf("At the warmest it reaches %s; what it takes cannot be guessed from its looks.", measure(f))
			if !k.Is("bottle") && over(f, ceiling(k)) >= Probably {
				out.Severity = notice.Danger
				out.Says = fmt.Sprintf("%s %s reach %s, and nobody knows what it takes.", the(k), over(f, ceiling(k)).verb("will", "may"), measure(f))
				out.Why = "A container without a maker's figure counts as one that takes nothing."
				out.Do = "Chill it, then vent it slowly, your face turned away. Find the maker's rating before you fill it again."
			}
		}
		found = append(found, out)
	}
	return found
}

func placeWarmer(c *Case) []Found {
	var found []Found
	for _, k := range c.live() {
		stated := c.Conditioned(k).Warmest
		heat, at := c.WarmestPlace(k)
		if !stated.Written() || !at.Written() || heat.Celsius() <= stated.Value.Celsius()+0.5 {
			continue
		}
		found = append(found, Found{
			Severity: notice.Mend, Where: at, Of: k.Key,
			Says: fmt.Sprintf("%s stood at %.0f °C, warmer than the %.0f °C it was reckoned for.", the(k), heat.Celsius(), stated.Value.Celsius()),
			Why:  "Pressure rises with the warmest place, not with the usual one.",
			Do:   "Move it back to the cool, and correct the warmest heat (conditioned.warmest) so that the pressure is right.",
		})
	}
	return found
}

func headspaceOdd(c *Case) []Found {
	var found []Found
	for _, k := range c.live() {
		f, ok := c.Find("headspace", k.Key)
		capacity := c.CapacityOf(k)
		if !ok || capacity <= 0 || k.Is("keg") || k.Is("pressure barrel") {
			continue // these are seldom full, and have a valve
		}
		share := f
		share.Value, share.PlusMinus = f.Value/capacity, doubt(f.PlusMinus)/capacity
		low := under(share, headspaceLow) == Surely
		if !low && over(share, headspaceHigh) != Surely {
			continue
		}
		out := Found{
			Severity: notice.Look, Where: whereOf(k), Of: k.Key,
			Says: fmt.Sprintf("%s has %s %% of room above the beer; 3 to 8 is right.", the(k), q.Fixed(100*share.Value, 0)),
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

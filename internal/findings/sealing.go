package findings

import (
	"fmt"
	"strings"

	"gylebook/internal/figures"
	"gylebook/internal/notice"
	q "gylebook/internal/quantity"
)

const solubility = "R. F. Weiss, Mar. Chem. 2 (1974) 203, × 0.936 for beer"

// sealingRules are about gas and pressure in what the beer was sealed into.
func sealingRules() []Rule {
	sealed := []figures.Stage{figures.Maturing, figures.Pouring}
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
			ID: "bag-will-swell", Watches: sealed, Worst: notice.Mend, Source: solubility + "; breweries' guides to bags",
			When:    "more gas set free at the warmest than half a litre (look), or than the bag has room for (mend)",
			Example: Example{In: "bagged", Raises: []string{"priming.weight=45 g", "packages[0].vessel=soft bag 21 L"}, Spares: []string{"priming.weight=0.5 g"}},
			look:    bagWillSwell,
		},
		{
			ID: "bag-overprimed", Watches: sealed, Worst: notice.Mend, Source: "breweries' guides to bags",
			When:    "more than 1.5 vol in a soft bag",
			Example: Example{In: "bagged", Raises: []string{"priming.weight=80 g"}, Spares: []string{"priming.weight=45 g"}},
			look:    bagOverprimed,
		},
		{
			ID: "barrel-over", Watches: sealed, Worst: notice.Danger, Source: "a forum guide to pressure barrels: caps open at 10 to 15 psi",
			When:    "a pressure barrel over its rating, else over 0.7 bar",
			Example: Example{In: "barrelled", Raises: []string{"priming.weight=80 g"}, Spares: []string{"priming.weight=30 g"}},
			look:    barrelOver,
		},
		{
			ID: "cask-warm", Watches: []figures.Stage{figures.Maturing}, Worst: notice.Mend, Source: "a brewing-supplies house on storage and fining; a forum report of a blown keystone",
			When:    "a sealed cask over 19 °C, or a week sealed and never vented",
			Example: Example{In: "casked", Raises: []string{"conditioned.warmest=22 C"}, Spares: []string{"conditioned.warmest=19 C"}},
			look:    caskWarmRule,
		},
		{
			ID: "bottle-unfit", Watches: sealed, Worst: notice.Danger, Source: "glassmakers' statements",
			When:    "not made for pressure, chipped, or made for one trip and used again",
			Example: Example{In: "bottled", Raises: []string{"packages[0].checked=chipped"}, Spares: []string{"packages[0].checked=sound"}},
			look:    bottleUnfit,
		},
		{
			ID: "bottle-limit", Watches: sealed, Worst: notice.Danger, Source: "glassmakers' statements: near 4 vol for new beer bottles",
			When:    "no maker's figure and more than 2.5 vol (mend) or 3 vol (danger)",
			Example: Example{In: "bottled", Raises: []string{"priming.weight=200 g"}, Spares: []string{"priming.weight=120 g"}},
			look:    bottleLimit,
		},
		{
			ID: "keg-no-relief", Watches: sealed, Worst: notice.Danger, Source: "a trade association's keg alert, 2012",
			When:    "a keg without a relief valve, or a regulator set above its plate",
			Example: Example{In: "kegged", Raises: []string{"packages[0].relief=false"}, Spares: []string{"packages[0].relief=true"}},
			look:    kegNoRelief,
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
	name := k.Called()
	return strings.ToUpper(name[:1]) + name[1:]
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
	return []Found{{
		Severity: severity, Where: p.Worked.Where,
		Says: fmt.Sprintf("The sugar was worked out for %s L, and %s L were racked: %.0f %% %s.%s", q.Plain(p.Worked.Value.Litres()), q.Plain(racked.Value.Litres()), 100*max(share, -share), moreOrLess(share), reached),
		Why:  "The same sugar in less beer is more gas.",
		Do:   do,
	}}
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

func bagWillSwell(c *Case) []Found {
	var found []Found
	for _, k := range c.live() {
		free, ok := c.Find("gas-free", k.Key)
		if !ok || over(free, swellLook) < Probably {
			continue
		}
		out := Found{
			Severity: notice.Look, Where: whereOf(k), Of: k.Key,
			Says: fmt.Sprintf("%s will swell: %s of gas that the beer cannot hold at the warmest.", the(k), measure(free)),
			Why:  "A soft bag holds only what its temperature dissolves; gas let out warm is gone for good.",
			Do:   "Chill it swollen so that the beer takes gas back, then turn the tap up and let the rest out.",
		}
		if slack, ok := c.Find("bag-slack", k.Key); ok && under(slack, 0) >= Probably {
			out.Severity = notice.Mend
			out.Says = fmt.Sprintf("%s %s go tight: %s of gas is set free at the warmest, more than it has room for.", the(k), under(slack, 0).verb("will", "may"), measure(free))
			out.Do = "Chill it below 12 °C first; then ease the tap upward and let gas out until it is slack. Look daily."
		}
		found = append(found, out)
	}
	return found
}

func bagOverprimed(c *Case) []Found {
	var found []Found
	for _, k := range c.live() {
		f, ok := c.Find("condition", k.Key)
		if !ok || !k.Is("soft bag") || over(f, bagVolumes) < Probably {
			continue
		}
		found = append(found, Found{
			Severity: notice.Mend, Where: whereOf(k), Of: k.Key,
			Says: fmt.Sprintf("There %s %s in %s; more than %s is too much for a bag.", over(f, bagVolumes).verb("will be", "may be"), measure(f), k.Called(), q.Plain(bagVolumes)),
			Why:  "Bags leak and split at the seams, and the beer comes out as foam.",
			Do:   "Stand it in a tub, keep it cold, and let gas out every day until it stays slack.",
		})
	}
	return found
}

func barrelOver(c *Case) []Found {
	var found []Found
	for _, k := range c.live() {
		f, ok := c.Find("pressure-warmest", k.Key)
		if !ok || !k.Is("pressure barrel") {
			continue
		}
		limit, whose := barrelBar, "caps open at"
		if k.Vessel.Rated.Written() {
			limit, whose = k.Vessel.Rated.Value.Bar(), "its stamp allows"
		}
		sure := over(f, limit)
		if sure < Probably {
			continue
		}
		found = append(found, Found{
			Severity: notice.Danger, Where: whereOf(k), Of: k.Key,
			Says: fmt.Sprintf("%s %s reach %s at the warmest; %s %s bar.", the(k), sure.verb("will", "may"), measure(f), whose, q.Plain(limit)),
			Why:  "A relief valve may stick, and a barrel splits at its cap or seam.",
			Do:   "Stand it in the coldest place you have, then loosen the cap a little at a time, your face turned away.",
		})
	}
	return found
}

func caskWarmRule(c *Case) []Found {
	var found []Found
	for _, k := range c.live() {
		if !k.Is("cask") || c.OpenedYet(k) {
			continue
		}
		heat, at := c.WarmestPlace(k)
		filled := c.Filled(k)
		switch {
		case at.Written() && heat.Celsius() > caskWarm:
			found = append(found, Found{
				Severity: notice.Mend, Where: at, Of: k.Key,
				Says: fmt.Sprintf("%s stands at up to %.0f °C, and 19 is as warm as a sealed cask should be.", the(k), heat.Celsius()),
				Why:  "Pressure climbs with warmth, and a keystone has blown at 17 °C.",
				Do:   "Move it somewhere cooler, then put in a soft spile, cold, and let it work off.",
			})
		case filled.Written() && c.Now.Sub(filled.Time) > caskDays && !c.VentedYet(k):
			found = append(found, Found{
				Severity: notice.Mend, Where: whereOf(k), Of: k.Key,
				Says: fmt.Sprintf("%s has been sealed for %.0f days and never vented.", the(k), c.Now.Sub(filled.Time).Hours()/24),
				Why:  "Gas has nowhere to go until it is spiled.",
				Do:   "With the cask cold, knock a soft spile through the tut, a cloth over it, your face turned away.",
			})
		}
	}
	return found
}

func bottleUnfit(c *Case) []Found {
	var found []Found
	for _, k := range c.live() {
		look := k.Package.Checked
		if !look.Written() || look.Is("sound") || !k.Rigid() {
			continue
		}
		found = append(found, Found{
			Severity: notice.Danger, Where: look.Where, Of: k.Key,
			Says: fmt.Sprintf("%s %s, by your own look at it.", the(k), unfit(look.Word)),
			Why:  "It can burst below what a sound one takes, and without warning.",
			Do:   "Chill it, open it cold with goggles and gloves, and do not use it again.",
		})
	}
	return found
}

func unfit(word string) string {
	switch word {
	case "chipped":
		return "is chipped"
	case "one-trip":
		return "was made for one filling"
	}
	return "is not made for pressure"
}

func bottleLimit(c *Case) []Found {
	var found []Found
	for _, k := range c.live() {
		f, ok := c.Find("condition", k.Key)
		if !ok || !k.Is("bottle") || k.Vessel.Rated.Written() {
			continue
		}
		severity, sure := notice.Danger, over(f, bottleDanger)
		if sure < Probably {
			severity, sure = notice.Mend, over(f, bottleMend)
		}
		if sure < Probably {
			continue
		}
		found = append(found, Found{
			Severity: severity, Where: whereOf(k), Of: k.Key,
			Says: fmt.Sprintf("%s %s reach %s, and no maker's figure is known for it.", the(k), sure.verb("will", "may"), measure(f)),
			Why:  "Makers speak of about 4 vol for new beer bottles; used ones take less, and nobody knows how much.",
			Do:   "Keep them in a closed box in the coldest place. Open one cold, with goggles and gloves; if it gushes, vent them all.",
		})
	}
	return found
}

func kegNoRelief(c *Case) []Found {
	var found []Found
	for _, k := range c.live() {
		if !k.Is("keg") {
			continue
		}
		none := k.Package.Relief.No() || !k.Package.Relief.Written() && k.Vessel.Relief.No()
		set, rated := k.Package.Gas.Set, k.Vessel.Rated
		switch {
		case none:
			found = append(found, Found{
				Severity: notice.Danger, Where: whereOf(k), Of: k.Key,
				Says: fmt.Sprintf("%s has no working relief valve.", the(k)),
				Why:  "Kegs have burst, one of them fatally, when a regulator failed or beer fermented on.",
				Do:   "Shut the gas off, vent it, and fit and test a relief valve before it is used.",
			})
		case set.Written() && rated.Written() && set.Value > rated.Value:
			found = append(found, Found{
				Severity: notice.Danger, Where: set.Where, Of: k.Key,
				Says: fmt.Sprintf("The regulator is set to %s bar, and the plate allows %s.", q.Plain(set.Value.Bar()), q.Plain(rated.Value.Bar())),
				Why:  "The keg is held above what its maker allows for as long as the gas is on.",
				Do:   "Shut the gas off, vent the keg, and set the regulator below the plate.",
			})
		}
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

package rules

import (
	"fmt"

	"gylebook/internal/assay"
	"gylebook/internal/figures"
	"gylebook/internal/journal"
	"gylebook/internal/notice"
)

// caskRules are about casks, pressure barrels and kegs.
func caskRules() []Rule {
	return []Rule{
		{
			ID: "barrel-over", group: ofGas, Watches: sealed, Worst: notice.Danger, Source: "a forum guide to pressure barrels: caps open at 10 to 15 psi",
			When: say("a pressure barrel over its rating, else over %s", barrelBar),
			look: barrelOver,
		},
		{
			ID: "cask-warm", Watches: []figures.Stage{figures.Maturing}, Worst: notice.Mend, Source: "a brewing-supplies house on storage and fining; a forum report of a blown keystone",
			When: say("a sealed cask over %s, or a week sealed and never vented", caskWarm),
			look: caskWarmRule,
		},
		{
			ID: "keg-no-relief", Watches: sealed, Worst: notice.Danger, Source: "a trade association's keg alert, 2012",
			When: "a keg without a relief valve, or a regulator set above its plate",
			look: kegNoRelief,
		},
	}
}

func barrelOver(c *inspection) []Found {
	var found []Found
	for _, k := range c.Live() {
		f, ok := c.Find(figures.IDPressureWarmest, k.Key)
		if !k.Is(journal.PressureBarrel) {
			continue
		}
		if !ok {
			if beyond, is := c.beyondReckoning(k); is {
				found = append(found, beyond)
			}
			continue
		}
		limit, most, whose := barrelBar.Number, 2*barrelBar.Number, "caps open at"
		if k.Vessel.Rated.Written() {
			limit, whose = k.Vessel.Rated.Value.Bar(), "its stamp allows"
			most = limit
		}
		sure := assay.Over(f, limit)
		if sure < assay.Probably && assay.Over(f, most) < assay.Perhaps {
			continue
		}
		found = append(found, Found{
			Severity: notice.Danger, Where: assay.WhereOf(k), Of: k.Key,
			Says: fmt.Sprintf("At the warmest %s %s reach %s; %s %s.", k.Called(), sure.Verb("will", "may"), c.Measure(f), whose, c.PressureAtMost(limit)),
			Why:  "A relief valve may stick, and a barrel splits at its cap or seam." + c.placeTaken(k),
			Do:   c.relief(k),
		})
	}
	return found
}

func caskWarmRule(c *inspection) []Found {
	var found []Found
	for _, k := range c.Live() {
		if !k.Is(journal.Cask) || c.OpenedYet(k) {
			continue
		}
		heat, at := c.WarmestPlace(k)
		filled := c.Filled(k)
		switch {
		case at.Written() && heat.Celsius() > caskWarm.Number:
			found = append(found, Found{
				Severity: notice.Mend, Where: at, Of: k.Key,
				Says: fmt.Sprintf("%s stands at up to %s, and %s is as warm as a sealed cask should be.", the(k), c.Heat(heat.Celsius()), c.Units.AtMost(caskWarm.Number, "°C").Value),
				Why:  c.Text("Pressure climbs with warmth, and a keystone has blown at {17 °C}."),
				Do:   "Move it somewhere cooler, then put in a soft spile, cold, and let it work off.",
			})
		case filled.Written() && c.Now.Sub(filled.Time) > caskDays.Duration() && !c.VentedYet(k):
			found = append(found, Found{
				Severity: notice.Mend, Where: assay.WhereOf(k), Of: k.Key,
				Says: fmt.Sprintf("%s has been sealed for %.0f days and never vented.", the(k), c.Now.Sub(filled.Time).Hours()/24),
				Why:  "Gas has nowhere to go until it is spiled.",
				Do:   "With the cask cold, knock a soft spile through the tut, a cloth over it, your face turned away.",
			})
		}
	}
	return found
}

func kegNoRelief(c *inspection) []Found {
	var found []Found
	for _, k := range c.Live() {
		if !k.Is(journal.Keg) {
			continue
		}
		none := k.Package.Relief.No() || !k.Package.Relief.Written() && k.Vessel.Relief.No()
		set, rated := k.Package.Gas.Set, k.Vessel.Rated
		switch {
		case none:
			found = append(found, Found{
				Severity: notice.Danger, Where: assay.WhereOf(k), Of: k.Key,
				Says: fmt.Sprintf("%s has no working relief valve.", the(k)),
				Why:  "Kegs have burst, one of them fatally, when a regulator failed or beer fermented on.",
				Do:   "Shut the gas off, vent it, and fit and test a relief valve before it is used.",
			})
		case set.Written() && rated.Written() && set.Value > rated.Value:
			found = append(found, Found{
				Severity: notice.Danger, Where: set.Where, Of: k.Key,
				Says: fmt.Sprintf("The regulator is set to %s, and the plate allows %s.", c.PressureAtLeast(set.Value.Bar()), c.Units.AtMost(rated.Value.Bar(), "bar").Value),
				Why:  "The keg is held above what its maker allows for as long as the gas is on.",
				Do:   "Shut the gas off, vent the keg, and set the regulator below the plate.",
			})
		}
	}
	return found
}

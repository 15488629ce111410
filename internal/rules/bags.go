package rules

import (
	"fmt"

	"gylebook/internal/assay"
	"gylebook/internal/journal"
	"gylebook/internal/notice"
	q "gylebook/internal/quantity"
)

// bagRules are about soft bags, which swell before they hold any pressure.
func bagRules() []Rule {
	return []Rule{
		{
			ID: "bag-will-swell", Watches: sealed, Worst: notice.Mend, Source: solubility + "; breweries' guides to bags",
			When: say("more gas set free at the warmest than %q (look), or than the bag has room for (mend)", swellLook),
			look: bagWillSwell,
		},
		{
			ID: "bag-overprimed", Watches: sealed, Worst: notice.Mend, Source: "breweries' guides to bags",
			When: say("more than %s in a soft bag", bagVolumes),
			look: bagOverprimed,
		},
	}
}

func bagWillSwell(c *inspection) []Found {
	var found []Found
	for _, k := range c.Live() {
		free, ok := c.Find("gas-free", k.Key)
		if !ok || !assay.IsOver(free, swellLook) {
			continue
		}
		slack, known := c.Find("bag-slack", k.Key)
		tight := assay.No
		if known {
			tight = assay.Under(slack, 0.0)
		}
		if c.OpenedYet(k) && tight < assay.Probably {
			continue // what was drawn left room, and its gas has been let out
		}
		out := Found{
			Severity: notice.Look, Where: assay.WhereOf(k), Of: k.Key,
			Says: fmt.Sprintf("%s will swell: %s of gas that the beer cannot hold at the warmest.", the(k), c.Measure(free)),
			Why:  "A soft bag holds only what its temperature dissolves; gas let out warm is gone for good.",
			Do:   "Chill it swollen so that the beer takes gas back, then turn the tap up and let the rest out.",
		}
		if tight >= assay.Probably {
			out.Severity = notice.Mend
			out.Says = fmt.Sprintf("%s %s go tight: %s of gas is set free at the warmest, more than it has room for.", the(k), tight.Verb("will", "may"), c.Measure(free))
			out.Do = c.Text("Chill it below {12 °C} first; then ease the tap upward and let gas out until it is slack. Look daily.")
		}
		found = append(found, out)
	}
	return found
}

func bagOverprimed(c *inspection) []Found {
	var found []Found
	for _, k := range c.Live() {
		f, ok := c.Find("condition", k.Key)
		if !ok || !k.Is(journal.SoftBag) || !assay.IsOver(f, bagVolumes) {
			continue
		}
		found = append(found, Found{
			Severity: notice.Mend, Where: assay.WhereOf(k), Of: k.Key,
			Says: fmt.Sprintf("There %s %s in %s; more than %s is too much for a bag.", assay.Over(f, bagVolumes).Verb("will be", "may be"), c.Measure(f), k.Called(), q.Plain(bagVolumes.Number)),
			Why:  "Bags leak and split at the seams, and the beer comes out as foam.",
			Do:   "Stand it in a tub, keep it cold, and let gas out every day until it stays slack.",
		})
	}
	return found
}

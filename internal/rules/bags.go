package rules

import (
	"fmt"

	"gylebook/internal/assay"
	"gylebook/internal/figures"
	"gylebook/internal/journal"
	"gylebook/internal/notice"
	q "gylebook/internal/quantity"
)

// bagRules are about soft bags, which swell before they hold any pressure.
func bagRules() []Rule {
	return []Rule{
		{
			ID: "bag-will-swell", group: ofGas, Watches: sealed, Worst: notice.Danger, Source: solubility + "; breweries' guides to bags",
			When: "more gas set free at the warmest than half a litre (look), or than the bag has room for (mend); mend where it could come to a bar at the worst, danger where half a bar is likely",
			look: bagWillSwell,
		},
		{
			ID: "bag-overprimed", group: ofGas, Watches: sealed, Worst: notice.Mend, Source: "breweries' guides to bags",
			When: say("more than %s in a soft bag", bagVolumes),
			look: bagOverprimed,
		},
	}
}

// bursts tells whether a bag may come to more pressure than it takes, and how surely: a
// bound counts that passes twice as much, since what nobody names is taken at its worst.
func bursts(p figures.Figure) assay.Certainty {
	switch {
	case p.Kind == nil:
		return assay.No
	case assay.Over(p, bagBursts) >= assay.Probably:
		return assay.Over(p, bagBursts)
	}
	return assay.Over(p, bagWorst)
}

func bagWillSwell(c *inspection) []Found {
	var found []Found
	for _, k := range c.Live() {
		free, ok := c.Find(figures.IDGasFree, k.Key)
		p, _ := c.Find(figures.IDPressureWarmest, k.Key)
		if !ok || assay.Over(free, swellLook) < assay.Probably && bursts(p) < assay.Perhaps {
			continue
		}
		slack, known := c.Find(figures.IDBagSlack, k.Key)
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
			out.Do = c.relief(k)
		}
		if bursts(p) >= assay.Perhaps {
			out.Severity = notice.Mend
			if bursts(p) >= assay.Probably {
				out.Severity = notice.Danger
			}
			out.Says = fmt.Sprintf("At the warmest %s %s go tight, and come to %s.", k.Called(), assay.Over(p, bagBursts).Verb("will", "may"), c.Measure(p))
			out.Why = "A bag is made for no pressure: its seam or its tap gives way." + c.placeTaken(k)
			out.Do = c.relief(k)
		}
		found = append(found, out)
	}
	return found
}

func bagOverprimed(c *inspection) []Found {
	var found []Found
	for _, k := range c.Live() {
		f, ok := c.Find(figures.IDGasInAll, k.Key)
		if !ok || !k.Is(journal.SoftBag) || assay.Over(f, bagVolumes) < assay.Probably {
			continue
		}
		found = append(found, Found{
			Severity: notice.Mend, Where: assay.WhereOf(k), Of: k.Key,
			Says: fmt.Sprintf("There %s %s in %s; more than %s is too much for a bag.", assay.Over(f, bagVolumes).Verb("will be", "may be"), c.Measure(f), k.Called(), q.Plain(bagVolumes.Number)),
			Why:  "Bags leak and split at the seams, and the beer comes out as foam.",
			Do:   c.relief(k),
		})
	}
	return found
}

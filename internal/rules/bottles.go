package rules

import (
	"fmt"

	"gylebook/internal/assay"
	"gylebook/internal/figures"
	"gylebook/internal/journal"
	"gylebook/internal/notice"
)

// bottleRules are about bottles.
func bottleRules() []Rule {
	return []Rule{
		{
			ID: "bottle-unfit", Watches: sealed, Worst: notice.Danger, Source: "glassmakers' statements",
			When: "not made for pressure, chipped, or made for one trip and used again",
			look: bottleUnfit,
		},
		{
			ID: "bottle-limit", group: ofGas, Watches: sealed, Worst: notice.Danger, Source: "glassmakers' statements: near 4 vol for new beer bottles",
			When: say("a bottle, or anything else that keeps its shape and is as small or of no known kind, without a maker's figure "+
				"and with more than %s (mend), with more than %s or at the worst %s, or at the worst %s at the warmest (danger)", bottleMend, bottleDanger, bottleWorst, bottleBar),
			look: bottleLimit,
		},
	}
}

func bottleUnfit(c *inspection) []Found {
	var found []Found
	for _, k := range c.Live() {
		look := k.Package.Checked
		if !look.Written() || look.Is(journal.Sound) || !k.Rigid() {
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

func unfit(word journal.Soundness) string {
	switch word {
	case journal.Chipped:
		return "is chipped"
	case journal.OneTrip:
		return "was made for one filling"
	}
	return "is not made for pressure"
}

func bottleLimit(c *inspection) []Found {
	var found []Found
	for _, k := range c.Live() {
		f, whence, ok := c.gasAtLeast(k)
		if !ok || !c.likeBottle(k) {
			continue
		}
		severity, sure := notice.Danger, assay.Over(f, bottleDanger)
		if !hurtsBottle(f) {
			severity, sure = notice.Mend, assay.Over(f, bottleMend)
		}
		if p, known := c.Find(figures.IDPressureWarmest, k.Key); known && severity < notice.Danger && assay.Over(p, bottleBar) >= assay.Perhaps {
			found = append(found, Found{
				Severity: notice.Danger, Where: assay.WhereOf(k), Of: k.Key,
				Says: fmt.Sprintf("At the warmest %s %s reach %s, and no maker's figure is known for it.", k.Called(), assay.Over(p, bottleBar).Verb("will", "may"), c.Measure(p)),
				Why:  "In the warm little gas presses as much would in the cool." + c.placeTaken(k),
				Do:   c.relief(k),
			})
			continue
		}
		if sure < assay.Probably && severity < notice.Danger {
			continue
		}
		found = append(found, Found{
			Severity: severity, Where: assay.WhereOf(k), Of: k.Key,
			Says: fmt.Sprintf("%s %s reach %s%s, and no maker's figure is known for it.", the(k), sure.Verb("will", "may"), c.Measure(f), whence),
			Why:  "Makers speak of about 4 vol for new beer bottles; used ones take less, and nobody knows how much.",
			Do:   c.relief(k),
		})
	}
	return found
}

// hurtsBottle tells whether gas in a bottle without a maker's figure is a danger: where it
// is likely to pass the ceiling, or could at the worst come near what makers speak of for
// new bottles. Ordinary priming in ordinary bottles, level for two days, stays under both.
func hurtsBottle(f figures.Figure) bool {
	return assay.Over(f, bottleDanger) >= assay.Probably || assay.Over(f, bottleWorst) >= assay.Perhaps
}

// likeBottle tells whether a container without a maker's figure is held to what
// bottles take: one, or as small as one, or of no kind that anybody knows. Where
// its pressure already counts as a danger from unratedBar on, that says it.
func (c *inspection) likeBottle(k figures.Container) bool {
	if !unrated(k) || k.Is(journal.Bottle) {
		return unrated(k)
	}
	held := c.CapacityOf(k)
	if held == 0 {
		held = k.Package.Fill.Value.Litres()
	}
	if _, pressed := c.Find(figures.IDPressureWarmest, k.Key); pressed && ceiling(k) == unratedBar {
		return false
	}
	return held > 0 && held <= smallVessel.Number || k.Vessel == nil
}

// gasAtLeast is the gas that a container will hold; where the beer's own is not
// known, what its sugar alone gives, since there is no less.
func (c *inspection) gasAtLeast(k figures.Container) (f figures.Figure, whence string, ok bool) {
	if f, ok = c.Find(figures.IDGasInAll, k.Key); ok || k.Forced() {
		return f, "", ok
	}
	of := ""
	if k.Package.Priming.Written() {
		of = k.Key
	}
	f, ok = c.Find(figures.IDPrimingCO2, of)
	return f, " from its sugar alone", ok
}

package rules

import (
	"fmt"
	"math"

	"gylebook/internal/assay"
	"gylebook/internal/figures"
	"gylebook/internal/journal"
	"gylebook/internal/notice"
	q "gylebook/internal/quantity"
)

// recipeRules are about a grist and hops that do not make the beer aimed at.
func recipeRules() []Rule {
	return []Rule{
		{
			ID: "bitterness-off", Watches: always, Worst: notice.Look, Source: assay.CommonPractice,
			When:    "more than 5 IBU from the aim, or 0.1 from its bitterness to gravity; without an aim, that far outside the style",
			Example: Example{In: "planned", Raises: []string{"hops[0].weight=70 g"}, Spares: []string{"hops[0].weight=48 g"}},
			look:    bitternessOff,
		},
		{
			ID: "colour-off", Watches: always, Worst: notice.Look, Source: assay.CommonPractice,
			When:    "more than 20 % and more than 4 EBC from the aim; without an aim, that far outside the style",
			Example: Example{In: "planned", Raises: []string{"grist[1].weight=600 g"}, Spares: []string{"grist[1].weight=240 g"}},
			look:    colourOff,
		},
	}
}

// bitternessOff compares by one formula with itself, so that the formula's own
// scatter is no excuse: the value alone decides.
func bitternessOff(c *inspection) []Found {
	f, ok := c.Find("bitterness", "")
	want, wanted := c.BitternessTarget()
	if !ok || !wanted {
		return nil
	}
	off := f.Value - want.Nearest(f.Value)
	if math.Abs(off) <= bitternessOffBy && !c.unbalanced() {
		return nil
	}
	high := f.Value > want.Nearest(f.Value)
	says := fmt.Sprintf("The bitterness works out at %s, against %s.", c.Measure(f), want.Words)
	if math.Abs(off) <= bitternessOffBy {
		ratio, _ := c.Find("bitterness-ratio", "")
		says = fmt.Sprintf("Bitterness to gravity works out at %s, against %s aimed at.", q.Fixed(ratio.Value, 2), q.Fixed(c.AimedRatio(), 2))
		high = ratio.Value > c.AimedRatio()
	}
	out := Found{Severity: notice.Look, Where: hopsOf(c, f), Says: says, Why: "The balance of bitter and sweet is what the drinker meets first.", Do: "Weigh " + moreHops(high) + " of the hops still to go in; check each weight and alpha."}
	if !c.boiling() {
		return []Found{nextTime(out, "weigh "+moreHops(high)+" of the bittering hops.")}
	}
	return []Found{out}
}

// hopsOf is the first line of hops, where a finding about them points.
func hopsOf(c *inspection, f figures.Figure) journal.Where {
	if len(c.Gyle.Hops) > 0 {
		return c.Gyle.Hops[0].Where
	}
	return c.LastOf(f)
}

func moreHops(tooBitter bool) string {
	if tooBitter {
		return "less"
	}
	return "more"
}

func (c *inspection) unbalanced() bool {
	ratio, ok := c.Find("bitterness-ratio", "")
	return ok && c.AimedRatio() > 0 && math.Abs(ratio.Value-c.AimedRatio()) > assay.RatioOffBy
}

func colourOff(c *inspection) []Found {
	f, ok := c.Find("colour", "")
	want, wanted := c.ColourTarget()
	if !ok || !wanted {
		return nil
	}
	near := want.Nearest(f.Value)
	off := math.Abs(f.Value - near)
	if off <= assay.ColourOffBy || off <= assay.ColourOffShare*near {
		return nil
	}
	out := Found{
		Severity: notice.Look, Where: c.LastOf(f),
		Says: fmt.Sprintf("The colour works out at %s, against %s.", c.Measure(f), want.Words),
		Why:  "A slip in the crystal or roast malt shows in the colour first, and is tasted after.",
		Do:   "Check the weights of crystal and roast malt, and the colours their makers state.",
	}
	if c.Stage > figures.Copper || c.Come(c.Gyle.Mash.Started) {
		next := "weigh more crystal or roast malt, or check the colour its maker states."
		if f.Value > near {
			next = "weigh less roast malt first, or check the colour its maker states."
		}
		return []Found{nextTime(out, next)}
	}
	return []Found{out}
}

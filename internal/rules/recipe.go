package rules

import (
	"fmt"
	"math"

	"gylebook/internal/assay"
	"gylebook/internal/figures"
	"gylebook/internal/notice"
	q "gylebook/internal/quantity"
)

// recipeRules are about a grist and hops that do not make the beer aimed at.
func recipeRules() []Rule {
	return []Rule{
		{
			ID: "bitterness-off", Watches: always, Worst: notice.Look, Source: common,
			When: say("more than %s from the aim, or %s from its bitterness to gravity; without an aim, that far outside the style",
				bitternessOffBy, assay.RatioOffBy),
			Why:  "The balance of bitter and sweet is what the drinker meets first.",
			look: once(bitternessOff),
		},
		{
			ID: "colour-off", Watches: always, Worst: notice.Look, Source: common,
			When: say("more than %s and more than %s from the aim; without an aim, that far outside the style",
				assay.ColourOffShare, assay.ColourOffBy),
			Why:  "A slip in the crystal or roast malt shows in the colour first, and is tasted after.",
			Do:   "Check the weights of crystal and roast malt, and the colours their makers state.",
			look: once(colourOff),
		},
	}
}

// bitternessOff compares by one formula with itself, so that the formula's own
// scatter is no excuse: the value alone decides.
func bitternessOff(c *inspection) Found {
	f, ok := c.Find(figures.IDBitterness, "")
	want, wanted := c.BitternessTarget()
	if !ok || !wanted {
		return Found{}
	}
	off := f.Value - want.Nearest(f.Value)
	says := fmt.Sprintf("The bitterness works out at %s, against %s.", c.Measure(f), want.Words)
	if math.Abs(off) <= bitternessOffBy.Number {
		ratio, known := c.Find(figures.IDBitternessRatio, "")
		aim := c.AimedRatio()
		if off = ratio.Value - aim; !known || aim <= 0 || math.Abs(off) <= assay.RatioOffBy.Number {
			return Found{}
		}
		says = fmt.Sprintf("Bitterness to gravity works out at %s, against %s aimed at.", q.Fixed(ratio.Value, 2), q.Fixed(aim, 2))
	}
	out := Found{Where: c.LastOf(f), Says: says}
	if len(c.Gyle.Hops) > 0 {
		out.Where = c.Gyle.Hops[0].Where
	}
	weigh := either(off > 0, "less", "more")
	if !c.boiling() {
		out.Next = "weigh " + weigh + " of the bittering hops."
		return out
	}
	out.Do = "Weigh " + weigh + " of the hops still to go in; check each weight and alpha."
	return out
}

func colourOff(c *inspection) Found {
	f, ok := c.Find(figures.IDColour, "")
	want, wanted := c.ColourTarget()
	near := want.Nearest(f.Value)
	off := math.Abs(f.Value - near)
	if !ok || !wanted || off <= assay.ColourOffBy.Number || off <= assay.ColourOffShare.Number/100*near {
		return Found{}
	}
	out := Found{Where: c.LastOf(f), Says: fmt.Sprintf("The colour works out at %s, against %s.", c.Measure(f), want.Words)}
	if c.Stage > figures.Copper || c.Come(c.Gyle.Mash.Started) {
		out.Next = either(f.Value > near, "weigh less roast malt first,", "weigh more crystal or roast malt,") + " or check the colour its maker states."
	}
	return out
}

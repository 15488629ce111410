package findings

import (
	"fmt"
	"math"

	"gylebook/internal/figures"
	"gylebook/internal/journal"
	"gylebook/internal/notice"
	q "gylebook/internal/quantity"
)

// recipeRules are about a grist and hops that do not make the beer aimed at.
func recipeRules() []Rule {
	return []Rule{
		{
			ID: "bitterness-off", Watches: always, Worst: notice.Look, Source: commonPractice,
			When:    "more than 5 IBU from the aim, or 0.1 from its bitterness to gravity; without an aim, that far outside the style",
			Example: Example{In: "planned", Raises: []string{"hops[0].weight=70 g"}, Spares: []string{"hops[0].weight=48 g"}},
			look:    bitternessOff,
		},
		{
			ID: "colour-off", Watches: always, Worst: notice.Look, Source: commonPractice,
			When:    "more than 20 % and more than 4 EBC from the aim; without an aim, that far outside the style",
			Example: Example{In: "planned", Raises: []string{"grist[1].weight=600 g"}, Spares: []string{"grist[1].weight=240 g"}},
			look:    colourOff,
		},
	}
}

// target is what a figure should lie between, and in whose words.
type target struct {
	low, high float64
	words     string
}

func (c *Case) aimAt(value float64, unit string) target {
	return target{value, value, c.exactly(value, unit) + " aimed at"}
}

func (c *Case) asInStyle(low, high float64, unit string) target {
	return target{low, high, c.units.Between(low, high, unit) + " in its style"}
}

// nearest is the end of the target that a figure is compared with.
func (t target) nearest(x float64) float64 { return min(max(x, t.low), t.high) }

func (c *Case) style() *journal.Style {
	if card := c.Card("style", c.Gyle.Style); card != nil {
		return card.Style
	}
	return nil
}

func (c *Case) bitternessTarget() (target, bool) {
	if aim := c.Gyle.Aim.Bitterness; aim.Written() {
		return c.aimAt(aim.Value.IBU(), "IBU"), true
	}
	if style := c.style(); style != nil && style.Bitterness.Written() {
		return c.asInStyle(style.Bitterness.Low.IBU(), style.Bitterness.High.IBU(), "IBU"), true
	}
	return target{}, false
}

func (c *Case) colourTarget() (target, bool) {
	if aim := c.Gyle.Aim.Colour; aim.Written() {
		return c.aimAt(aim.Value.EBC(), "EBC"), true
	}
	if style := c.style(); style != nil && style.Colour.Written() {
		return c.asInStyle(style.Colour.Low.EBC(), style.Colour.High.EBC(), "EBC"), true
	}
	return target{}, false
}

// bitternessOff compares by one formula with itself, so that the formula's own
// scatter is no excuse: the value alone decides.
func bitternessOff(c *Case) []Found {
	f, ok := c.Find("bitterness", "")
	want, wanted := c.bitternessTarget()
	if !ok || !wanted {
		return nil
	}
	off := f.Value - want.nearest(f.Value)
	if math.Abs(off) <= bitternessOffBy && !c.unbalanced() {
		return nil
	}
	high := f.Value > want.nearest(f.Value)
	says := fmt.Sprintf("The bitterness works out at %s, against %s.", c.measure(f), want.words)
	if math.Abs(off) <= bitternessOffBy {
		ratio, _ := c.Find("bitterness-ratio", "")
		says = fmt.Sprintf("Bitterness to gravity works out at %s, against %s aimed at.", q.Fixed(ratio.Value, 2), q.Fixed(c.aimedRatio(), 2))
		high = ratio.Value > c.aimedRatio()
	}
	out := Found{Severity: notice.Look, Where: hopsOf(c, f), Says: says, Why: "The balance of bitter and sweet is what the drinker meets first.", Do: "Weigh " + moreHops(high) + " of the hops still to go in; check each weight and alpha."}
	if !c.boiling() {
		return []Found{nextTime(out, "weigh "+moreHops(high)+" of the bittering hops.")}
	}
	return []Found{out}
}

// hopsOf is the first line of hops, where a finding about them points.
func hopsOf(c *Case, f figures.Figure) journal.Where {
	if len(c.Gyle.Hops) > 0 {
		return c.Gyle.Hops[0].Where
	}
	return c.lastOf(f)
}

func moreHops(tooBitter bool) string {
	if tooBitter {
		return "less"
	}
	return "more"
}

// aimedRatio is the bitterness to gravity aimed at, 0 where the aim has not both.
func (c *Case) aimedRatio() float64 {
	aim := c.Gyle.Aim
	if !aim.Bitterness.Written() || !aim.OG.Written() || aim.OG.Value.Points() < 1 {
		return 0
	}
	return aim.Bitterness.Value.IBU() / aim.OG.Value.Points()
}

func (c *Case) unbalanced() bool {
	ratio, ok := c.Find("bitterness-ratio", "")
	return ok && c.aimedRatio() > 0 && math.Abs(ratio.Value-c.aimedRatio()) > ratioOffBy
}

func colourOff(c *Case) []Found {
	f, ok := c.Find("colour", "")
	want, wanted := c.colourTarget()
	if !ok || !wanted {
		return nil
	}
	near := want.nearest(f.Value)
	off := math.Abs(f.Value - near)
	if off <= colourOffBy || off <= colourOffShare*near {
		return nil
	}
	out := Found{
		Severity: notice.Look, Where: c.lastOf(f),
		Says: fmt.Sprintf("The colour works out at %s, against %s.", c.measure(f), want.words),
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

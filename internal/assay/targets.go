package assay

import (
	"gylebook/internal/journal"
	q "gylebook/internal/quantity"
)

// Target is what a figure should lie between, and in whose words.
type Target struct {
	Low, High float64
	Words     string
}

// AimAt is the target that an aim is.
func (c *Case) AimAt(value float64, unit string) Target {
	return Target{value, value, c.Exactly(value, unit) + " aimed at"}
}

// AsInStyle is the target that a range of the style is.
func (c *Case) AsInStyle(low, high float64, unit string) Target {
	return Target{low, high, c.Units.Between(low, high, unit) + " in its style"}
}

// Nearest is the end of the target that a figure is compared with.
func (t Target) Nearest(x float64) float64 { return min(max(x, t.Low), t.High) }

// target is what the aim says, else the style's card; ok is false where neither does.
func target[Q q.Quantity](c *Case, aim journal.Value[Q], style journal.RangeOf[Q], unit string, in func(Q) float64) (t Target, ok bool) {
	switch {
	case aim.Written():
		return c.AimAt(in(aim.Value), unit), true
	case style.Written():
		return c.AsInStyle(in(style.Low), in(style.High), unit), true
	}
	return Target{}, false
}

// BitternessTarget is the bitterness that the beer should have, in IBU.
func (c *Case) BitternessTarget() (Target, bool) {
	return target(c, c.Gyle.Aim.Bitterness, c.StyleCard().Bitterness, "IBU", q.Bitterness.IBU)
}

// ColourTarget is the colour that the beer should have, in EBC.
func (c *Case) ColourTarget() (Target, bool) {
	return target(c, c.Gyle.Aim.Colour, c.StyleCard().Colour, "EBC", q.Colour.EBC)
}

// ConditionTarget is the condition that the glass should have, in vol.
func (c *Case) ConditionTarget() (Target, bool) {
	return target(c, c.Gyle.Aim.Condition, c.StyleCard().Condition, "vol", q.Carbonation.Volumes)
}

// AimedRatio is the bitterness to gravity aimed at, 0 where the aim has not both.
func (c *Case) AimedRatio() float64 {
	aim := c.Gyle.Aim
	if !aim.Bitterness.Written() || !aim.OG.Written() || aim.OG.Value.Points() < 1 {
		return 0
	}
	return aim.Bitterness.Value.IBU() / aim.OG.Value.Points()
}

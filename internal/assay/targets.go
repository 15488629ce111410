package assay

import (
	"gylebook/internal/journal"
)

// Target is what a figure should lie between, and in whose words.
type Target struct {
	Low, High float64
	Words     string
}

func (c *Case) AimAt(value float64, unit string) Target {
	return Target{value, value, c.Exactly(value, unit) + " aimed at"}
}

func (c *Case) AsInStyle(low, high float64, unit string) Target {
	return Target{low, high, c.Units.Between(low, high, unit) + " in its style"}
}

// Nearest is the end of the target that a figure is compared with.
func (t Target) Nearest(x float64) float64 { return min(max(x, t.Low), t.High) }

func (c *Case) Style() *journal.Style {
	if card := c.Card("style", c.Gyle.Style); card != nil {
		return card.Style
	}
	return nil
}

func (c *Case) BitternessTarget() (Target, bool) {
	if aim := c.Gyle.Aim.Bitterness; aim.Written() {
		return c.AimAt(aim.Value.IBU(), "IBU"), true
	}
	if style := c.Style(); style != nil && style.Bitterness.Written() {
		return c.AsInStyle(style.Bitterness.Low.IBU(), style.Bitterness.High.IBU(), "IBU"), true
	}
	return Target{}, false
}

func (c *Case) ColourTarget() (Target, bool) {
	if aim := c.Gyle.Aim.Colour; aim.Written() {
		return c.AimAt(aim.Value.EBC(), "EBC"), true
	}
	if style := c.Style(); style != nil && style.Colour.Written() {
		return c.AsInStyle(style.Colour.Low.EBC(), style.Colour.High.EBC(), "EBC"), true
	}
	return Target{}, false
}

// AimedRatio is the bitterness to gravity aimed at, 0 where the aim has not both.
func (c *Case) AimedRatio() float64 {
	aim := c.Gyle.Aim
	if !aim.Bitterness.Written() || !aim.OG.Written() || aim.OG.Value.Points() < 1 {
		return 0
	}
	return aim.Bitterness.Value.IBU() / aim.OG.Value.Points()
}

package assay

import (
	"gylebook/internal/figures"
)

// ConversionRest is the rest that decides the beer: the one nearest to where
// malt makes sugar. Others cook, rest protein or stop the mash.
func (c *Case) ConversionRest() (figures.Figure, bool) {
	var best figures.Figure
	found := false
	for i := range c.Gyle.Mash.Rests {
		rest, ok := c.RestHeat(i)
		if ok && (!found || c.OffMash(rest.Value) < c.OffMash(best.Value)) {
			best, found = rest, true
		}
	}
	return best, found
}

func (c *Case) OffMash(heat float64) float64 {
	return max(c.Habits.MashHeat.Low-heat, heat-c.Habits.MashHeat.High, 0)
}

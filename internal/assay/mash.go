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
	return max(c.Habits.In(MashLow)-heat, heat-c.Habits.In(MashHigh), 0)
}

// BoilOffShare is how many % of the copper boil off in an hour.
func (c *Case) BoilOffShare() (figures.Figure, bool) {
	f, ok := c.Find(figures.IDBoilOff, "")
	before := c.Gyle.Copper.Before.Volume
	if !ok || !before.Written() || before.Value <= 0 {
		return f, false
	}
	share := 100 / before.Value.Litres()
	f.Value, f.PlusMinus = f.Value*share, f.PlusMinus*share
	return f, true
}

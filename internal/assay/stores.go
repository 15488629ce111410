package assay

import (
	"fmt"
	"time"

	"gylebook/internal/journal"
)

// HopsSince is when hops began to age: the opening of the packet, else the
// harvest, at the end of September.
func HopsSince(h journal.Hop) (since time.Time, what string) {
	switch {
	case h.Opened.Written():
		return h.Opened.Time, "were opened"
	case h.Crop.Written():
		return time.Date(h.Crop.N, time.October, 1, 0, 0, 0, 0, time.UTC), "were picked"
	}
	return time.Time{}, ""
}

// HopsKeep is how many months hops keep: each 15 °C colder halves what they
// lose.
func (h Habits) HopsKeep(hop journal.Hop) float64 {
	months := HopsSealed.Number
	if hop.Opened.Written() || hop.Kept.Is(journal.KeptWarm) {
		months = h.In(HopsOpen)
	}
	if hop.Kept.Is(journal.KeptFrozen) || hop.Kept.Is(journal.KeptCold) && hop.Opened.Written() {
		months *= 2
	}
	return months
}

// UsedOn is the day something goes in: its own, else brew day, else now.
func (c *Case) UsedOn(when journal.Moment) time.Time {
	switch {
	case when.Written():
		return when.Middle()
	case c.Gyle.Brewed.Written():
		return c.Gyle.Brewed.Middle()
	}
	return c.Now
}

// YeastAge says what is wrong with a yeast's age, "" for nothing.
func (c *Case) YeastAge(p journal.Pitch) string {
	use := c.UsedOn(p.Pitched)
	if p.BestBy.Written() && use.After(EndOf(p.BestBy)) {
		return fmt.Sprintf("The %s is past its date, %s.", p.Yeast.Name, Day(p.BestBy))
	}
	if !p.Packed.Written() || p.Starter.Written() {
		return ""
	}
	age := use.Sub(p.Packed.Middle())
	switch {
	case p.Sold.Is(journal.LiquidYeast) && age > LiquidKeeps.Duration():
		return fmt.Sprintf("The %s was packed %s before use, and has no starter.", p.Yeast.Name, DaysOf(age))
	case (p.Sold.Is(journal.YeastSlurry) || p.FromGyle.Written()) && age > SlurryKeeps.Duration():
		return fmt.Sprintf("The %s slurry was taken %s before use, and has no starter.", p.Yeast.Name, DaysOf(age))
	}
	return ""
}

// MainsLiquor tells whether the liquor came from a tap, by its card or its name.
func (c *Case) MainsLiquor() bool {
	if from := c.WaterCard().From; from.Written() {
		return from.Is(journal.MainsWater)
	}
	return HasWord(c.Gyle.Liquor.Water.Name, "tap", "mains")
}

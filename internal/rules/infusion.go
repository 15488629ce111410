package rules

import (
	"fmt"
	"math"

	"gylebook/internal/assay"
	"gylebook/internal/figures"
	"gylebook/internal/journal"
	"gylebook/internal/notice"
)

// infusionRules are about hot liquor that did not bring the mash where it was
// meant to.
func infusionRules() []Rule {
	return []Rule{
		{
			ID: "infusion-off", Watches: from(figures.Copper), Worst: notice.Look, Source: "heat balance of mash and hot liquor",
			When: "a rest reached by infusion and read further from its aim than a mash can be read: " +
				"look while the mash stands, a note for next time afterwards",
			look: infusionOff,
		},
	}
}

func infusionOff(c *inspection) []Found {
	var found []Found
	told, mashIsOff := c.ConversionRest()
	mashIsOff = mashIsOff && c.Outside(told, assay.MashLow, assay.MashHigh) >= assay.Probably
	for i, r := range c.Gyle.Mash.Rests {
		read, ok := c.RestHeat(i)
		if !ok || !infused(i, r) || !r.Aimed.Written() || mashIsOff && c.LastOf(told) == c.LastOf(read) {
			continue
		}
		if off := assay.Distance(read, r.Aimed.Value.Celsius()); assay.Over(off, 0.0) == assay.Surely {
			found = append(found, c.infusionMissed(i, r, read))
		}
	}
	return found
}

// infused tells whether a rest was reached by letting hot liquor in.
func infused(i int, r journal.Rest) bool { return i > 0 && r.By.Is(journal.Infusion) }

func (c *inspection) infusionMissed(i int, r journal.Rest, read figures.Figure) Found {
	low := read.Value < r.Aimed.Value.Celsius()
	f := Found{
		Where: c.LastOf(read), Of: r.Where.Key,
		Says: fmt.Sprintf("The infusion brought the mash to %s, and %s was meant.", c.Measure(read), c.Exactly(r.Aimed.Value.Celsius(), "°C")),
		Why:  c.bySum(r.Where.Key, read, low),
		Do:   c.stirIn(!low),
	}
	more, known := c.LiquorToLift(i)
	switch {
	case !c.mashing() && low && known && r.Liquor.Written():
		total := c.Rough(r.Liquor.Value.Litres()+more.Value, more.PlusMinus, "L")
		f.Next = fmt.Sprintf("let in %s instead of %s.", total, c.Exactly(r.Liquor.Value.Litres(), "L"))
	case !c.mashing():
		f.Next = either(low, "let in more, or hotter.", "let in less, and read the mash before the last of it.")
	case low && known:
		f.Do = fmt.Sprintf("Stir in %s more, as hot, and read it again within ten minutes.", c.Litres(more.Value, more.PlusMinus))
	}
	return f
}

// bySum says what the heat balance makes of where the mash settled.
func (c *inspection) bySum(of string, read figures.Figure, low bool) string {
	sum, ok := c.Find(figures.IDInfusionHeat, of)
	if !ok {
		return "What a rest makes of the malt goes by its heat."
	}
	off := read.Value - sum.Value
	why := ": the mash was warmer before than is written, or it was not stirred through."
	switch within := math.Abs(off) <= math.Hypot(read.PlusMinus, sum.PlusMinus); {
	case within && low:
		why = ": it was too little liquor, or not hot enough."
	case within:
		why = ": it was too much liquor."
	case off < 0:
		why = ": the tun took heat, the mash had cooled before, or it was not stirred through."
	}
	return "By the sum it should have come to " + c.Measure(sum) + why
}

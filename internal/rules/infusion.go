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
			When: "a rest reached by infusion and read further from its aim than a mash can be read: look while the mash stands, a note for next time afterwards",
			Example: Example{
				In:     "mashing",
				Raises: append(stepped(), "mash.rests[1].at=62 C"),
				Spares: append(stepped(), "mash.rests[1].at=65 C"),
				On:     "2026-03-01 10:00",
			},
			look: infusionOff,
		},
	}
}

// stepped is a mash of two rests, the second by an infusion meant for 66 °C.
func stepped() []string {
	return []string{
		"mash.rests[0].at=55 C", "mash.rests[+].by=infusion", "mash.rests[1].aimed=66 C", "mash.rests[1].for=60 min",
		"mash.rests[1].liquor=4 L", "mash.rests[1].liquor_at=98 C",
	}
}

func infusionOff(c *inspection) []Found {
	var found []Found
	told, mashIsOff := c.ConversionRest()
	mashIsOff = mashIsOff && assay.Outside(told, c.Habits.MashHeat.Low, c.Habits.MashHeat.High) >= assay.Probably
	for i, r := range c.Gyle.Mash.Rests {
		read, ok := c.RestHeat(i)
		if !ok || !infused(i, r) || !r.Aimed.Written() || mashIsOff && c.LastOf(told) == c.LastOf(read) {
			continue
		}
		if off := assay.Distance(read, r.Aimed.Value.Celsius()); assay.Over(off, 0) == assay.Surely {
			found = append(found, c.infusionMissed(i, r, read))
		}
	}
	return found
}

// infused tells whether a rest was reached by letting hot liquor in.
func infused(i int, r journal.Rest) bool { return i > 0 && r.By.Is(journal.Infusion) }

func (c *inspection) infusionMissed(i int, r journal.Rest, read figures.Figure) Found {
	f := Found{
		Severity: notice.Look, Where: c.LastOf(read), Of: fmt.Sprintf("mash.rests[%d]", i),
		Says: fmt.Sprintf("The infusion brought the mash to %s, and %s was meant.", c.Measure(read), c.Exactly(r.Aimed.Value.Celsius(), "°C")),
	}
	low := read.Value < r.Aimed.Value.Celsius()
	f.Why = c.bySum(f.Of, read, low)
	more, known := c.LiquorToLift(i)
	switch {
	case !c.mashing() && low && known && r.Liquor.Written():
		total := c.Rough(r.Liquor.Value.Litres()+more.Value, more.PlusMinus, "L")
		f = nextTime(f, fmt.Sprintf("let in %s instead of %s.", total, c.Exactly(r.Liquor.Value.Litres(), "L")))
	case !c.mashing():
		f = nextTime(f, map[bool]string{true: "let in more, or hotter.", false: "let in less, and read the mash before the last of it."}[low])
	case low && known:
		f.Do = fmt.Sprintf("Stir in %s more, as hot, and read it again within ten minutes.", c.Litres(more.Value, more.PlusMinus))
	case low:
		f.Do = c.Text("Stir in boiling liquor, {L|half a litre|a pint} at a time, and read it again within ten minutes.")
	default:
		f.Do = c.Text("Stir in cold liquor, {L|half a litre|a pint} at a time, and read it again within ten minutes.")
	}
	return f
}

// bySum says what the heat balance makes of where the mash settled.
func (c *inspection) bySum(of string, read figures.Figure, low bool) string {
	sum, ok := c.Find("infusion-heat", of)
	if !ok {
		return "What a rest makes of the malt goes by its heat."
	}
	should := "By the sum it should have come to " + c.Measure(sum)
	switch off := read.Value - sum.Value; {
	case math.Abs(off) <= math.Hypot(read.PlusMinus, sum.PlusMinus) && low:
		return should + ": it was too little liquor, or not hot enough."
	case math.Abs(off) <= math.Hypot(read.PlusMinus, sum.PlusMinus):
		return should + ": it was too much liquor."
	case off < 0:
		return should + ": the tun took heat, the mash had cooled before, or it was not stirred through."
	}
	return should + ": the mash was warmer before than is written, or it was not stirred through."
}

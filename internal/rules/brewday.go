package rules

import (
	"fmt"

	"gylebook/internal/assay"
	"gylebook/internal/figures"
	"gylebook/internal/notice"
	q "gylebook/internal/quantity"
)

// brewdayRules are about mash, run-off and the wort before its yeast.
func brewdayRules() []Rule {
	return []Rule{
		{
			ID: "mash-off", Watches: always, Worst: notice.Mend, Source: assay.MashArticle,
			When: say("no rest between %d and %s (limits.mash_heat may say otherwise): mend while the mash stands, "+
				"look on paper, a note for next time afterwards", assay.MashLow, assay.MashHigh),
			look: once(mashOff),
		},
		{
			ID: "mash-ph-off", Watches: always, Worst: notice.Mend, Source: assay.MashArticle,
			When: say("a cooled sample outside pH %s to %s (look), or %.1d to %s (mend); limits.mash_ph moves both",
				assay.MashPHLow, assay.MashPHHigh, mashPHLowest, assay.MashPHHighest),
			look: once(mashPHOff),
		},
		{
			ID: "oversparged", Watches: always, Worst: notice.Look, Source: common,
			When: say("sparge liquor over %s, run-off under %s, or its pH over %s",
				assay.SpargeHottest, assay.RunningsLowest, assay.RunningsPH),
			Why: "Hot, thin or alkaline run-off draws tannin from the husks: a mouth-drying, tea-like taste.",
			Do:  "Stop the run-off and make the copper up with liquor.",
			Next: say("stop the run-off sooner, at 1.008 or so, with sparge liquor no hotter than {%s}.",
				assay.SpargeHottest), mendable: (*inspection).spargeable,
			look: per(spargeLimits, spargeOver),
		},
		{
			ID: "og-off", Watches: from(figures.Copper), Worst: notice.Mend, Source: "worked: points × litres are conserved",
			When: say("more than %s from the aim before the yeast is in (mend), with the litres to add or boil away; "+
				"a note for next time afterwards", ogOffBy),
			look: once(ogOff),
		},
	}
}

func mashOff(c *inspection) Found {
	rest, ok := c.ConversionRest()
	sure := c.Outside(rest, assay.MashLow, assay.MashHigh)
	if !ok || sure < assay.Probably {
		return c.mashOffAim()
	}
	hot := assay.IsOver(rest, c.Habits.In(assay.MashHigh))
	f := Found{
		Severity: notice.Look, Where: c.LastOf(rest),
		Says: fmt.Sprintf("The mash %s too %s: %s, and %s.", sure.Verb("is", "may be"), either(hot, "hot", "cold"), c.Measure(rest),
			c.RightBetween(assay.MashLow, assay.MashHigh)),
		Why: either(hot, "Heat ends the making of sugar within minutes; the beer stays sweet and weak.",
			"Malt makes little sugar down there; what it makes ferments right out, and the beer is thin and hazy."),
		Do: "Correct the rest, and the strike with it.",
	}
	switch {
	case c.mashing():
		f.Severity = notice.Mend
		f.Do = c.Text("Stir in " + either(hot, "cold", "boiling") + " liquor, {L|a litre|a quart} at a time, and read the mash again within ten minutes.")
	case c.Stage >= figures.Copper:
		f.Next = either(hot, "bring the strike down by as much as the mash was too hot.", "bring the strike up by as much as the mash was too cold.")
	}
	return f
}

// mashOffAim is a mash whose heat makes beer, but another one than was meant.
func (c *inspection) mashOffAim() Found {
	for i, r := range c.Gyle.Mash.Rests {
		rest, ok := c.RestHeat(i)
		off := assay.Distance(rest, r.Aimed.Value.Celsius()).Value
		if !ok || infused(i, r) || !r.Aimed.Written() || off <= mashOffAimBy.Number {
			continue
		}
		hot := rest.Value > r.Aimed.Value.Celsius()
		f := Found{
			Severity: notice.Look, Where: c.LastOf(rest),
			Says: fmt.Sprintf("The mash is %s too %s: %s, and %s was meant.", c.Units.Fixed(off, "K", 1), either(hot, "hot", "cold"),
				c.Measure(rest), c.Units.Exactly(r.Aimed.Value.Celsius(), "°C").Value),
			Why: c.Text("{K|A degree warmer leaves|Two degrees warmer leave} about a point more gravity in the beer, {K|a degree|two degrees} colder a point less."),
			Do:  c.stirIn(hot),
		}
		if !c.mashing() {
			f.Next = "bring the strike " + either(hot, "down", "up") + " by as much."
		}
		return f
	}
	return Found{}
}

// stirIn is how a mash is brought back to its heat.
func (c *inspection) stirIn(hot bool) string {
	return c.Text("Stir in " + either(hot, "cold", "boiling") + " liquor, {L|half a litre|a pint} at a time, and read it again within ten minutes.")
}

func mashPHOff(c *inspection) Found {
	ph, ok := figures.AsRead(c.Gyle.Mash.PH)
	sure := c.Outside(ph, assay.MashPHLow, assay.MashPHHigh)
	if !ok || sure < assay.Probably {
		return Found{}
	}
	low, high := c.Habits.In(assay.MashPHLow), c.Habits.In(assay.MashPHHigh)
	alkaline := ph.Value > high
	f := Found{
		Severity: notice.Look, Where: c.LastOf(ph),
		Says: fmt.Sprintf("The mash %s too %s: pH %s, and %s to %s is right%s.", sure.Verb("is", "may be"), either(alkaline, "alkaline", "acid"),
			assay.Bare(ph), q.Plain(low), q.Plain(high), c.Habits.OwnOrTrade(assay.MashPHLow, " by your settings", "")),
		Why: either(alkaline, "It yields less, and the husks give a harsh, tea-like taste.", "It yields less, and the beer tastes sharp and thin."),
		Do: either(alkaline, "Stir in a few millilitres of lactic acid,", "Stir in a pinch of bicarbonate of soda,") +
			" wait five minutes, and read a cooled sample.",
	}
	if c.Stage >= figures.Copper && !c.mashing() {
		f.Next = either(alkaline, "add acid, or gypsum or calcium chloride, to the mash liquor.", "leave out some of the acid, or of the salts.")
	}
	// Where the settings have a range of their own, it is as far outside that where to
	// act as the trade's limits lie apart.
	low, high = low-(assay.MashPHLow.Number-mashPHLowest.Number), high+(assay.MashPHHighest.Number-assay.MashPHHigh.Number)
	if assay.Outside(ph, low, high) >= assay.Probably {
		f.Severity = notice.Mend
	}
	return f
}

// spargeLimit is something of the run-off beyond its limit, and what to say of it.
type spargeLimit struct {
	read figures.Figure
	says string
}

func spargeLimits(c *inspection) []spargeLimit {
	var all []spargeLimit
	sparge := c.Gyle.Sparge
	if f, ok := figures.AsRead(sparge.At); ok && assay.IsOver(f, assay.SpargeHottest) {
		all = append(all, spargeLimit{f, c.Sayf("The sparge liquor is %s; %s is hot enough.", c.Measure(f), assay.SpargeHottest)})
	}
	if f, ok := figures.AsRead(sparge.LastRunnings); ok && assay.IsUnder(f, assay.RunningsLowest) {
		says := fmt.Sprintf("The last run-off is down to %s; %s is as far as it should go.", assay.SG(q.Gravity(f.Value)), assay.RunningsLowest)
		all = append(all, spargeLimit{f, says})
	}
	if f, ok := figures.AsRead(sparge.PH); ok && assay.IsOver(f, assay.RunningsPH) {
		says := fmt.Sprintf("The last run-off is at pH %s; %s is as high as it should go.", assay.Bare(f), assay.RunningsPH)
		all = append(all, spargeLimit{f, says})
	}
	return all
}

func spargeOver(c *inspection, over spargeLimit) Found {
	return Found{Where: c.LastOf(over.read), Says: over.says}
}

func ogOff(c *inspection) Found {
	og, ok := c.Find(figures.IDOG, "")
	aim := c.Gyle.Aim.OG
	off := assay.Distance(assay.InPoints(og), aim.Value.Points())
	if !ok || !aim.Written() || c.DrawnFrom() || !assay.IsOver(off, ogOffBy) {
		return Found{}
	}
	high := og.Value > aim.Value.SG()
	f := Found{
		Where: c.LastOf(og),
		Says: fmt.Sprintf("The original gravity is %s, %s %s the aim of %s.", assay.SG(q.Gravity(og.Value)), assay.Points(off),
			either(high, "over", "under"), assay.SG(aim.Value)),
		Why: "A point is about a tenth of a per cent of alcohol, and balance shifts with it; before the yeast is the last cheap moment.",
		Do:  c.towardsAim(high),
	}
	if c.Stage > figures.Copper {
		f.Why = "A point is about a tenth of a per cent of alcohol, and the balance shifts with it."
		f.Next = "weigh the grist for what it really gave."
		if yield, ok := c.Find(figures.IDBrewhouseYield, ""); ok {
			f.Next = fmt.Sprintf("weigh the grist for the yield it really gave, %s.", c.Measure(yield))
		}
	}
	return f
}

// towardsAim is what brings the wort to its aim, in litres, as far as a volume says
// how much.
func (c *inspection) towardsAim(high bool) string {
	liquor, ok := c.LiquorForAim()
	away := c.Litres(-liquor.Value, liquor.PlusMinus)
	extract, inFermenter := c.ExtractForAim()
	switch {
	case !ok:
		return c.Text("Note the volume (fermenter.volume), and {L|the litres|how much} to add or boil away can be worked out.")
	case high:
		return fmt.Sprintf("Stir in %s of boiled, cooled liquor and read it again.", c.Litres(liquor.Value, liquor.PlusMinus))
	case !inFermenter:
		return fmt.Sprintf("Boil away another %s and read it again.", away)
	}
	const do = "Stir in %s of dried malt extract, boiled in a little of the wort; or put it back in the copper and boil away %s."
	return fmt.Sprintf(do, c.Units.Measure(extract.Value, extract.PlusMinus, "g", 0), away)
}

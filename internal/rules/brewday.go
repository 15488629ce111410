package rules

import (
	"fmt"

	"gylebook/internal/assay"
	"gylebook/internal/figures"
	"gylebook/internal/notice"
	q "gylebook/internal/quantity"
)

const mashArticle = "a brewing-supplies house's article on mashing regimes"

// brewdayRules are about mash, run-off and the wort before its yeast.
func brewdayRules() []Rule {
	return []Rule{
		{
			ID: "mash-off", Watches: always, Worst: notice.Mend, Source: mashArticle,
			When:    "no rest between 62 and 70 °C (limits.mash_heat may say otherwise): mend while the mash stands, look on paper, a note for next time afterwards",
			Example: Example{In: "mashing", Raises: []string{"mash.rests[0].at=73 C"}, Spares: []string{"mash.rests[0].at=70 C"}, On: "2026-03-01 09:40"},
			look:    mashOff,
		},
		{
			ID: "mash-ph-off", Watches: always, Worst: notice.Mend, Source: mashArticle,
			When:    "a cooled sample outside pH 5.1 to 5.6 (look), or 5.0 to 5.8 (mend); limits.mash_ph moves both",
			Example: Example{In: "mashing", Raises: []string{"mash.ph=6.0"}, Spares: []string{"mash.ph=5.6"}, On: "2026-03-01 09:40"},
			look:    mashPHOff,
		},
		{
			ID: "oversparged", Watches: always, Worst: notice.Look, Source: assay.CommonPractice,
			When:    "sparge liquor over 78 °C, run-off under 1.006, or its pH over 5.8",
			Example: Example{In: "mashing", Raises: []string{"sparge.last_runnings=1.003"}, Spares: []string{"sparge.last_runnings=1.008"}, On: "2026-03-01 10:40"},
			look:    oversparged,
		},
		{
			ID: "og-off", Watches: from(figures.Copper), Worst: notice.Mend, Source: "worked: points × litres are conserved",
			When:    "more than 3 points from the aim before the yeast is in (mend), with the litres to add or boil away; a note for next time afterwards",
			Example: Example{In: "pitching", Raises: []string{"fermenter.gravity=1.047"}, Spares: []string{"fermenter.gravity=1.044"}, On: "2026-03-01"},
			look:    ogOff,
		},
	}
}

func mashOff(c *inspection) []Found {
	rest, ok := c.ConversionRest()
	right := c.Habits.MashHeat
	sure := assay.Outside(rest, right.Low, right.High)
	if !ok || sure < assay.Probably {
		return c.mashOffAim()
	}
	hot := rest.Value > right.High
	f := Found{Severity: notice.Look, Where: c.LastOf(rest), Do: "Correct the rest, and the strike with it."}
	f.Says = fmt.Sprintf("The mash %s too %s: %s, and %s.", sure.Verb("is", "may be"), hotOrCold(hot), c.Measure(rest), c.RightBetween(right))
	f.Why = "Malt makes little sugar down there; what it makes ferments right out, and the beer is thin and hazy."
	next := "bring the strike up by as much as the mash was too cold."
	if hot {
		f.Why = "Heat ends the making of sugar within minutes; the beer stays sweet and weak."
		next = "bring the strike down by as much as the mash was too hot."
	}
	switch {
	case c.Stage > figures.Copper || c.Stage == figures.Copper && !c.mashing():
		return []Found{nextTime(f, next)}
	case c.mashing():
		f.Severity = notice.Mend
		f.Do = c.Text("Stir in boiling liquor, {L|a litre|a quart} at a time, and read the mash again within ten minutes.")
		if hot {
			f.Do = c.Text("Stir in cold liquor, {L|a litre|a quart} at a time, and read the mash again within ten minutes.")
		}
	}
	return []Found{f}
}

// mashOffAim is a mash whose heat makes beer, but another one than was meant.
func (c *inspection) mashOffAim() []Found {
	for i, r := range c.Gyle.Mash.Rests {
		rest, ok := c.RestHeat(i)
		if !ok || infused(i, r) || !r.Aimed.Written() || assay.Distance(rest, r.Aimed.Value.Celsius()).Value <= mashOffAimBy {
			continue
		}
		hot := rest.Value > r.Aimed.Value.Celsius()
		f := Found{
			Severity: notice.Look, Where: c.LastOf(rest),
			Says: c.Sayf("The mash is %s too %s: %s, and %s was meant.", c.Units.Fixed(assay.Distance(rest, r.Aimed.Value.Celsius()).Value, "K", 1), hotOrCold(hot), c.Measure(rest), c.Units.Exactly(r.Aimed.Value.Celsius(), "°C").Value),
			Why:  c.Text("{K|A degree warmer leaves|Two degrees warmer leave} about a point more gravity in the beer, {K|a degree|two degrees} colder a point less."),
			Do:   c.Text("Stir in boiling liquor, {L|half a litre|a pint} at a time, and read it again within ten minutes."),
		}
		if hot {
			f.Do = c.Text("Stir in cold liquor, {L|half a litre|a pint} at a time, and read it again within ten minutes.")
		}
		if !c.mashing() {
			f = nextTime(f, "bring the strike "+map[bool]string{true: "down", false: "up"}[hot]+" by as much.")
		}
		return []Found{f}
	}
	return nil
}

func hotOrCold(hot bool) string {
	if hot {
		return "hot"
	}
	return "cold"
}

func mashPHOff(c *inspection) []Found {
	ph, ok := figures.AsRead(c.Gyle.Mash.PH)
	right := c.Habits.MashPH
	sure := assay.Outside(ph, right.Low, right.High)
	if !ok || sure < assay.Probably {
		return nil
	}
	high := ph.Value > right.High
	f := Found{Severity: notice.Look, Where: c.LastOf(ph)}
	f.Says = fmt.Sprintf("The mash %s too %s: pH %s, and %s to %s is right%s.", sure.Verb("is", "may be"), sharpOrFlat(high), assay.Bare(ph), q.Plain(right.Low), q.Plain(right.High), assay.OwnOrTrade(right.Own, " by your settings", ""))
	f.Why = "It yields less, and the beer tastes sharp and thin."
	f.Do = "Stir in a pinch of bicarbonate of soda, wait five minutes, and read a cooled sample."
	next := "leave out some of the acid, or of the salts."
	if high {
		f.Why = "It yields less, and the husks give a harsh, tea-like taste."
		f.Do = "Stir in a few millilitres of lactic acid, wait five minutes, and read a cooled sample."
		next = "add acid, or gypsum or calcium chloride, to the mash liquor."
	}
	if c.Stage > figures.Copper || c.Stage == figures.Copper && !c.mashing() {
		return []Found{nextTime(f, next)}
	}
	if assay.Outside(ph, right.Low-mashPHUnder, right.High+mashPHOver) >= assay.Probably {
		f.Severity = notice.Mend
	}
	return []Found{f}
}

func sharpOrFlat(high bool) string {
	if high {
		return "alkaline"
	}
	return "acid"
}

func oversparged(c *inspection) []Found {
	sparge := c.Gyle.Sparge
	var found []Found
	say := func(f figures.Figure, says string) {
		out := Found{
			Severity: notice.Look, Where: c.LastOf(f), Says: says,
			Why: "Hot, thin or alkaline run-off draws tannin from the husks: a mouth-drying, tea-like taste.",
			Do:  "Stop the run-off and make the copper up with liquor.",
		}
		if !c.runningOff() && c.Stage != figures.Paper {
			out = nextTime(out, c.Text("stop the run-off sooner, at 1.008 or so, with sparge liquor no hotter than {78 °C}."))
		}
		found = append(found, out)
	}
	if f, ok := figures.AsRead(sparge.At); ok && assay.Over(f, assay.SpargeHottest) >= assay.Probably {
		say(f, c.Sayf("The sparge liquor is %s; {78 °C} is hot enough.", c.Measure(f)))
	}
	if f, ok := figures.AsRead(sparge.LastRunnings); ok && assay.Under(f, assay.RunningsLowest) >= assay.Probably {
		say(f, fmt.Sprintf("The last run-off is down to %s; 1.006 is as far as it should go.", assay.SG(q.Gravity(f.Value))))
	}
	if f, ok := figures.AsRead(sparge.PH); ok && assay.Over(f, assay.RunningsPH) >= assay.Probably {
		say(f, fmt.Sprintf("The last run-off is at pH %s; 5.8 is as high as it should go.", assay.Bare(f)))
	}
	return found
}

func ogOff(c *inspection) []Found {
	og, ok := c.Find("og", "")
	aim := c.Gyle.Aim.OG
	if !ok || !aim.Written() || c.DrawnFrom() {
		return nil
	}
	off := assay.Distance(assay.InPoints(og), aim.Value.Points())
	if assay.Over(off, ogOffBy) < assay.Probably {
		return nil
	}
	high := og.Value > aim.Value.SG()
	f := Found{
		Severity: notice.Mend, Where: c.LastOf(og),
		Says: fmt.Sprintf("The original gravity is %s, %s %s the aim of %s.", assay.SG(q.Gravity(og.Value)), assay.Points(off), overOrUnder(high), assay.SG(aim.Value)),
		Why:  "A point is about a tenth of a per cent of alcohol, and balance shifts with it; before the yeast is the last cheap moment.",
	}
	if c.Stage > figures.Copper {
		f.Why = "A point is about a tenth of a per cent of alcohol, and the balance shifts with it."
		return []Found{nextTime(f, c.planOnYield())}
	}
	if f.Do = c.towardsAim(high); f.Do == "" {
		f.Do = c.Text("Note the volume (fermenter.volume), and {L|the litres|how much} to add or boil away can be worked out.")
	}
	return []Found{f}
}

func overOrUnder(high bool) string {
	if high {
		return "over"
	}
	return "under"
}

func (c *inspection) planOnYield() string {
	if yield, ok := c.Find("brewhouse-yield", ""); ok {
		return fmt.Sprintf("weigh the grist for the yield it really gave, %s.", c.Measure(yield))
	}
	return "weigh the grist for what it really gave."
}

// towardsAim is what brings the wort to its aim, in litres; "" where no volume
// says how much.
func (c *inspection) towardsAim(high bool) string {
	liquor, ok := c.LiquorForAim()
	if !ok {
		return ""
	}
	if high {
		return fmt.Sprintf("Stir in %s of boiled, cooled liquor and read it again.", c.Litres(liquor.Value, liquor.PlusMinus))
	}
	away := c.Litres(-liquor.Value, liquor.PlusMinus)
	extract, inFermenter := c.ExtractForAim()
	if !inFermenter {
		return fmt.Sprintf("Boil away another %s and read it again.", away)
	}
	return fmt.Sprintf("Stir in %s of dried malt extract, boiled in a little of the wort; or put it back in the copper and boil away %s.", c.Units.Measure(extract.Value, extract.PlusMinus, "g", 0), away)
}

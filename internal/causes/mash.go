package causes

import (
	"fmt"

	"gylebook/internal/assay"
	"gylebook/internal/figures"
	"gylebook/internal/journal"
	q "gylebook/internal/quantity"
)

// mashCauses come of the grist and the mash.
func mashCauses() []Cause {
	return []Cause{
		{
			ID: "weak-wort", Name: "the wort was weaker than was meant", Source: common,
			Next: "Weigh the grist for the yield that this one really gave, or boil on before the yeast goes in.",
			Tests: []Test{
				{For: "original gravity %s or more under its aim", Against: "within %s of it, or over", Weight: Measurement,
					of: under(ogOff), pro: ogUnder, con: ogOnAim},
				{For: "%q or more of wort over the aim", Against: "within %q of it, or under", Weight: Circumstance,
					of: wortOff, pro: wortOver, con: wortOnAim},
			},
		},
		{
			ID: "strong-wort", Name: "it is a strong beer", Source: common,
			Next: "Weigh less malt, all of it in proportion: 3 points of original gravity are about 0.3 % vol.",
			Tests: []Test{
				{For: "alcohol %s or more over its aim", Against: "within %s of it, or under", Weight: Measurement,
					of: abvOff, pro: abvOver, con: abvOnAim},
				{For: "%s or more", Against: "%s or less", Weight: Measurement, of: alcohol, pro: abvStrong, con: abvOrdinary},
			},
		},
		{
			ID: "roast-strong", Name: "the roast malt is too much", Source: common,
			Now: "Blend it with a paler beer.", Next: "Halve the roast malt; crystal malt can give the colour back.",
			Tests: []Test{
				{For: "roast malt over %s of the grist", Against: "under %s", Weight: Measurement, Needs: "grist[].weight",
					of: inGrist("roast malt", roasted), pro: roastMuch, con: roastLittle},
				{For: say("colour over its aim by %s and %q", assay.ColourOffBy, assay.ColourOffShare), Against: say("within %s of it", colourOn),
					Weight: Circumstance, of: colourOff},
			},
		},
		{
			ID: "caramel-weak", Name: "there is too little crystal malt for toffee", Source: common,
			Next: "Take out {10 g} of roast for each {100 g} of crystal that goes in: the colour stays.",
			Tests: []Test{
				{For: "crystal malt under %s of the grist", Against: "%s or more", Weight: Measurement, Needs: "grist[].weight",
					of: inGrist("crystal malt", crystal), pro: crystalLittle, con: crystalFair},
				{For: "roast malt, and hardly any crystal: the colour is from the roast", Weight: Circumstance, Needs: "grist[].weight",
					look: roastForColour},
			},
		},
		{
			ID: "caramel-strong", Name: "there is too much crystal malt", Source: common,
			Now: "Serve it {K|a degree or two|two or three degrees} colder.", Next: "Take out a third of the crystal malt.",
			Tests: []Test{
				{For: "crystal malt over %s of the grist", Against: "%s or less", Weight: Measurement, Needs: "grist[].weight",
					of: inGrist("crystal malt", crystal), pro: crystalMuch, con: crystalFair},
			},
		},
		{
			ID: "tannin", Name: "the run-off drew tannin from the husks", Source: tasteFault,
			Now: "Keep it cold, and wait: some of it falls out.",
			Next: say("Stop the run-off at %s, with liquor no hotter than {%s}, and add acid where the pH is over %s.",
				runningsRight, assay.SpargeHottest, runOffPHRight),
			Tests: []Test{
				{For: "last run-off under %s", Against: "stopped at %s or above", Weight: Measurement, Needs: "sparge.last_runnings",
					of: lastRunnings, pro: assay.RunningsLowest, con: runningsRight},
				{For: "pH of the run-off over %s", Against: "%s or under", Weight: Measurement, Needs: "sparge.ph",
					of:  typed(func(g *journal.Gyle) journal.Value[q.Acidity] { return g.Sparge.PH }, "the last run-off was at pH %s"),
					pro: assay.RunningsPH, con: runOffPHRight},
				{For: "pH of the mash over %s", Against: "%s or under", Weight: Circumstance, Needs: "mash.ph",
					of:  typed(func(g *journal.Gyle) journal.Value[q.Acidity] { return g.Mash.PH }, "the mash was at pH %s"),
					pro: assay.MashPHHighest, con: assay.MashPHHigh},
				{For: "sparge liquor over %s", Against: "%s or under", Weight: Circumstance, Needs: "sparge.at",
					of:  typed(func(g *journal.Gyle) journal.Value[q.Temperature] { return g.Sparge.At }, "the sparge liquor was %s"),
					pro: assay.SpargeHottest, con: spargeRight},
			},
		},
	}
}

func wortOff(x *exam) reading {
	volume, ok := figures.AsRead(x.Gyle.Fermenter.Volume)
	aim := x.Gyle.Aim.Volume
	switch {
	case !ok:
		return without(needing("fermenter.volume"))
	case !aim.Written():
		return without(needing("aim.volume"))
	}
	went, aimed := x.Litres(volume.Value, volume.PlusMinus), x.Exactly(aim.Value.Litres(), "L")
	says := fmt.Sprintf("%s went into the fermenter, with %s aimed at", went, aimed)
	return reading{Figure: volume, says: says}.less(aim.Value.Litres())
}

func alcohol(x *exam) reading {
	f, ok := x.strength()
	if !ok {
		return without(needing("readings[].gravity"))
	}
	return x.measured(f, ok, "it has %s")
}

func abvOff(x *exam) reading {
	r, aim := alcohol(x), x.Gyle.Aim.ABV
	if r.says != "" && !aim.Written() {
		return without(needing("aim.abv"))
	}
	if r.says != "" {
		r.says += fmt.Sprintf(", with %s aimed at", q.Plain(float64(aim.Value)))
	}
	return r.less(float64(aim.Value))
}

func colourOff(x *exam) reading {
	f, ok := x.Find(figures.IDColour, "")
	want, aimed := x.ColourTarget()
	switch {
	case !ok:
		return without(x.lacking("colour", "grist[].colour"))
	case !aimed:
		return without(needing("aim.colour"))
	}
	near := want.Nearest(f.Value)
	says := fmt.Sprintf("the colour works out at %s, against %s", x.Measure(f), want.Words)
	return reading{Figure: f, says: says}.less(near).within(colourOver(near), colourOn.Number)
}

// colourOver is how many EBC over its aim a colour must be.
func colourOver(aim float64) float64 {
	return max(assay.ColourOffBy.Number, assay.ColourOffShare.Number/100*aim)
}

func roastForColour(x *exam) Sign {
	roast := inGrist("roast malt", roasted)(x)
	light, _, _ := x.gristShare(crystal)
	switch {
	case roast.says == "":
		return unknown
	case light.Value < crystalLittle.Number && roast.Value >= roastLittle.Number:
		return tells(For, roast.says+", and crystal malt hardly any", x.LastOf(roast.Figure))
	}
	return silent
}

func lastRunnings(x *exam) reading {
	f, ok := figures.AsRead(x.Gyle.Sparge.LastRunnings)
	if !ok {
		return without(unknown)
	}
	return reading{Figure: f, says: fmt.Sprintf("the last run-off was at %s", assay.SG(q.Gravity(f.Value)))}
}

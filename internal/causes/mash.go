package causes

import (
	"fmt"

	"gylebook/internal/assay"
	"gylebook/internal/figures"
	q "gylebook/internal/quantity"
)

// mashCauses come of the grist and the mash.
func mashCauses() []Cause {
	return []Cause{
		{
			ID: "weak-wort", Name: "the wort was weaker than was meant", Source: assay.CommonPractice,
			Next: "Weigh the grist for the yield that this one really gave, or boil on before the yeast goes in.",
			Tests: []Test{
				{For: "original gravity 3 points or more under its aim", Against: "within 1.5 points of it, or over", Weight: Measurement, look: wortUnderAim},
				{For: "a litre or more of wort over the aim", Against: "within half a litre of it, or under", Weight: Circumstance, look: wortStretched},
			},
		},
		{
			ID: "strong-wort", Name: "it is a strong beer", Source: assay.CommonPractice,
			Next: "Weigh less malt, all of it in proportion: 3 points of original gravity are about 0.3 % vol.",
			Tests: []Test{
				{For: "alcohol 0.5 % vol or more over its aim", Against: "within 0.2 % vol of it, or under", Weight: Measurement, look: strongerThanAim},
				{For: "6 % vol or more", Against: "4.5 % vol or less", Weight: Measurement, look: strongOutright},
			},
		},
		{
			ID: "roast-strong", Name: "the roast malt is too much", Source: assay.CommonPractice,
			Now: "Blend it with a paler beer.", Next: "Halve the roast malt; crystal malt can give the colour back.",
			Tests: []Test{
				{For: "roast malt over 3 % of the grist", Against: "under 1 %", Weight: Measurement, Needs: "grist[].weight", look: roastShare},
				{For: "colour over its aim by 4 EBC and a fifth", Against: "within 2 EBC of it", Weight: Circumstance, look: darkerThanAim},
			},
		},
		{
			ID: "caramel-weak", Name: "there is too little crystal malt for toffee", Source: assay.CommonPractice,
			Next: "Take out {10 g} of roast for each {100 g} of crystal that goes in: the colour stays.",
			Tests: []Test{
				{For: "crystal malt under 5 % of the grist", Against: "8 % or more", Weight: Measurement, Needs: "grist[].weight", look: crystalShare(crystalLittle, crystalFair)},
				{For: "roast malt, and hardly any crystal: the colour is from the roast", Weight: Circumstance, Needs: "grist[].weight", look: roastForColour},
			},
		},
		{
			ID: "caramel-strong", Name: "there is too much crystal malt", Source: assay.CommonPractice,
			Now: "Serve it {K|a degree or two|two or three degrees} colder.", Next: "Take out a third of the crystal malt.",
			Tests: []Test{
				{For: "crystal malt over 12 % of the grist", Against: "8 % or less", Weight: Measurement, Needs: "grist[].weight", look: crystalShare(crystalMuch, crystalFair)},
			},
		},
		{
			ID: "tannin", Name: "the run-off drew tannin from the husks", Source: tasteFaults,
			Now: "Keep it cold, and wait: some of it falls out.", Next: "Stop the run-off at 1.008, with liquor no hotter than {78 °C}, and add acid where the pH is over 5.6.",
			Tests: []Test{
				{For: "last run-off under 1.006", Against: "stopped at 1.008 or above", Weight: Measurement, Needs: "sparge.last_runnings", look: runningsThin},
				{For: "pH of the run-off over 5.8", Against: "5.6 or under", Weight: Measurement, Needs: "sparge.ph", look: runningsAlkaline},
				{For: "pH of the mash over 5.8", Against: "5.6 or under", Weight: Circumstance, Needs: "mash.ph", look: mashAlkaline},
				{For: "sparge liquor over 78 °C", Against: "76 °C or under", Weight: Circumstance, Needs: "sparge.at", look: spargeHot},
			},
		},
	}
}

func wortUnderAim(x *exam) Sign {
	off, says, lacking := x.pointsFrom("og", "original gravity", x.Gyle.Aim.OG)
	if says == "" {
		return lacking
	}
	return x.judged(less(off), ogUnder, ogOnAim, says)
}

func wortStretched(x *exam) Sign {
	volume, ok := figures.AsRead(x.Gyle.Fermenter.Volume)
	aim := x.Gyle.Aim.Volume
	switch {
	case !ok:
		return needing("fermenter.volume")
	case !aim.Written():
		return needing("aim.volume")
	}
	says := fmt.Sprintf("%s went into the fermenter, with %s aimed at", x.Litres(volume.Value, volume.PlusMinus), x.Exactly(aim.Value.Litres(), "L"))
	volume.Value -= aim.Value.Litres()
	return x.judged(volume, volumeOver, volumeOn, says)
}

func (x *exam) strength() (figures.Figure, bool) {
	if f, ok := x.First("abv-conditioned"); ok {
		return f, true
	}
	return x.Find("abv", "")
}

func strongerThanAim(x *exam) Sign {
	f, ok := x.strength()
	aim := x.Gyle.Aim.ABV
	switch {
	case !ok:
		return needing("readings[].gravity")
	case !aim.Written():
		return needing("aim.abv")
	}
	says := fmt.Sprintf("it has %s, with %s aimed at", x.Measure(f), q.Plain(float64(aim.Value)))
	f.Value -= float64(aim.Value)
	return x.judged(f, abvOver, abvOnAim, says)
}

func strongOutright(x *exam) Sign {
	f, ok := x.strength()
	if !ok {
		return needing("readings[].gravity")
	}
	return x.judged(f, abvStrong, abvOrdinary, fmt.Sprintf("it has %s", x.Measure(f)))
}

func roastShare(x *exam) Sign {
	f, names, ok := x.gristShare(roasted)
	if !ok {
		return unknown
	}
	return x.judged(f, roastMuch, roastLittle, share("roast malt", f, names))
}

func darkerThanAim(x *exam) Sign {
	f, ok := x.Find("colour", "")
	want, aimed := x.ColourTarget()
	switch {
	case !ok:
		return x.lacking("colour", "grist[].colour")
	case !aimed:
		return needing("aim.colour")
	}
	near := want.Nearest(f.Value)
	says := fmt.Sprintf("the colour works out at %s, against %s", x.Measure(f), want.Words)
	f.Value -= near
	return x.judged(f, max(assay.ColourOffBy.Number, assay.ColourOffShare.Number/100*near), assay.ColourOffBy.Number/2, says)
}

func crystalShare(pro, con float64) func(*exam) Sign {
	return func(x *exam) Sign {
		f, names, ok := x.gristShare(crystal)
		if !ok {
			return unknown
		}
		return x.judged(f, pro, con, share("crystal malt", f, names))
	}
}

func roastForColour(x *exam) Sign {
	roast, names, ok := x.gristShare(roasted)
	light, _, _ := x.gristShare(crystal)
	switch {
	case !ok:
		return unknown
	case light.Value < crystalLittle && roast.Value >= roastLittle:
		return tells(For, share("roast malt", roast, names)+", and crystal malt hardly any", x.LastOf(roast))
	}
	return silent
}

func runningsThin(x *exam) Sign {
	f, ok := figures.AsRead(x.Gyle.Sparge.LastRunnings)
	if !ok {
		return unknown
	}
	return x.judged(f, assay.RunningsLowest.Number, runningsRight, fmt.Sprintf("the last run-off was at %s", assay.SG(q.Gravity(f.Value))))
}

func runningsAlkaline(x *exam) Sign {
	f, ok := figures.AsRead(x.Gyle.Sparge.PH)
	if !ok {
		return unknown
	}
	return x.judged(f, assay.RunningsPH.Number, runningsPHRight, fmt.Sprintf("the last run-off was at pH %s", assay.Bare(f)))
}

func mashAlkaline(x *exam) Sign {
	f, ok := figures.AsRead(x.Gyle.Mash.PH)
	if !ok {
		return unknown
	}
	return x.judged(f, assay.MashPHHighest.Number, assay.MashPHHigh.Number, fmt.Sprintf("the mash was at pH %s", assay.Bare(f)))
}

func spargeHot(x *exam) Sign {
	f, ok := figures.AsRead(x.Gyle.Sparge.At)
	if !ok {
		return unknown
	}
	return x.judged(f, assay.SpargeHottest.Number, spargeRight, fmt.Sprintf("the sparge liquor was %s", x.Measure(f)))
}

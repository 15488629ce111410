package causes

import (
	"fmt"

	"gylebook/internal/assay"
	"gylebook/internal/figures"
	"gylebook/internal/journal"
	q "gylebook/internal/quantity"
)

// yeastCauses come of the yeast and of its first days.
func yeastCauses() []Cause {
	return []Cause{
		{
			ID: "weak-pitch", Name: "the yeast was weak, or too little, or late to start", Source: "home-brewing magazines on pitching rates; the start is common practice",
			Next: "Pitch fresher yeast, or more of it, or grow it in a starter.",
			Tests: []Test{
				{For: "under 0.75 million cells per mL and °P", Against: "1.0 or more", Weight: Measurement, Needs: "yeast[].weight or yeast[].cells", look: pitchedLittle},
				{For: "fallen by less than 3 points 36 hours after pitching", Against: "fallen by more within 36 hours", Weight: Measurement, Needs: "readings[], a gravity in the first 36 hours", look: startedLate},
				{For: "yeast past its date, or kept for too long without a starter", Against: "within its date", Weight: Circumstance, Needs: "yeast[].best_by", look: yeastTired},
				{For: "pitched a degree or more below the yeast's card (without one, 14 °C)", Against: "not below it", Weight: Circumstance, Needs: "yeast[].at", look: pitchedCool},
			},
		},
		{
			ID: "fermented-hot", Name: "it fermented hot", Source: tasteFaults,
			Now: "Let it age, or blend it: what heat has made stays.", Next: "Keep it cool for the first three days: wet towels and a draught will do.",
			Tests: []Test{
				{For: "in the first 72 hours 2 °C or more above the yeast's card, or over 24 °C without one", Against: "within its card, or 20 °C or under", Weight: Measurement, Needs: "readings[].temp, in the first three days", look: workedHot},
				{For: "pitched 3 °C or more above the yeast's card, or over 24 °C without one", Against: "within its card, or 20 °C or under", Weight: Circumstance, Needs: "yeast[].at", look: pitchedHot},
			},
		},
		{
			ID: "wild-yeast", Name: "a wild yeast got in", Source: tasteFaults,
			Now: "Chill it, watch the containers, and drink it soon.", Next: "Use fresh yeast, and clean everything that cold wort touches.",
			Tests: []Test{
				{For: "attenuation 5 % or more over the yeast's card", Against: "within it", Weight: Measurement, Needs: "yeast[].yeast, with a card that says how far it attenuates", look: fermentedWild},
				{For: "fallen by 2 points or more since it was racked", Against: "by less than a point", Weight: Measurement, Needs: needsGlass, look: fellSealed},
				{For: "yeast from another gyle", Against: "a fresh packet", Weight: Circumstance, Needs: "yeast[].sold", look: yeastReused},
			},
		},
	}
}

func pitchedLittle(x *exam) Sign {
	f, ok := x.Find("pitching-rate", "")
	if !ok {
		return x.lacking("pitching-rate", "yeast[].weight or yeast[].cells")
	}
	return x.judged(f, assay.PitchLow.Number, pitchEnough, fmt.Sprintf("%s million cells went in per mL and °P", assay.Bare(f)))
}

// startedLate looks at the readings around the time when the gravity should have
// begun to fall.
func startedLate(x *exam) Sign {
	og, ok := x.Find("og", "")
	if !ok || x.PitchedAt().IsZero() {
		return unknown
	}
	sign := unknown
	for _, r := range x.GravityReadings() {
		if !x.AfterPitching(r) {
			continue
		}
		since := r.When.Sub(x.PitchedAt())
		fallen := number(q.Gravity(og.Value).Points()-r.Gravity.Value.Points(), assay.FallDoubt, "points", r.Where)
		says := fmt.Sprintf("%s after pitching it had fallen by %s", hoursOf(since), assay.Points(atLeastNought(fallen)))
		begun := assay.Over(fallen, assay.BegunBy)
		switch {
		case since >= assay.SlowLook.Duration() && begun < assay.Probably:
			return Sign{Voice: For, May: begun == assay.Perhaps, Says: says, Where: r.Where}
		case since <= assay.SlowLook.Duration() && begun >= assay.Probably:
			return Sign{Voice: Against, May: begun == assay.Probably, Says: says, Where: r.Where}
		case since > assay.SlowLook.Duration() && sign.Voice == Unknown && begun >= assay.Probably:
			sign = silent // it had begun by then, and nobody knows when
			if since > assay.SlowLook.Duration()+assay.FirstDay.Duration() {
				sign = unknown
			}
		}
	}
	return sign
}

func yeastTired(x *exam) Sign {
	fresh := unknown
	for _, p := range x.Gyle.Yeast {
		if says := x.YeastAge(p); says != "" {
			return tells(For, clause(says), p.Where)
		}
		switch {
		case p.BestBy.Written():
			fresh = tells(Against, fmt.Sprintf("the %s was within its date", p.Yeast.Name), p.BestBy.Where)
		case p.Packed.Written():
			fresh = tells(Against, fmt.Sprintf("the %s was fresh enough", p.Yeast.Name), p.Packed.Where)
		}
	}
	return fresh
}

func pitchedCool(x *exam) Sign {
	for _, p := range x.Gyle.Yeast {
		heat, ok := figures.AsRead(p.At)
		if !ok {
			continue
		}
		low, _, whose := x.Workable(p, 0)
		if whose == "" {
			return unknown
		}
		return x.judged(heat, low-1, low, fmt.Sprintf("the yeast went in at %s; %s", x.Measure(heat), whose))
	}
	return unknown
}

// hottestYoung is the highest heat read in the first three days.
func (x *exam) hottestYoung() (hottest figures.Figure, ok bool) {
	for _, r := range x.HeatReadings() {
		if r.When.Sub(x.PitchedAt()) <= assay.YoungFor.Duration() && (!ok || r.Heat.Value > hottest.Value) {
			hottest, ok = r.Heat, true
		}
	}
	return hottest, ok
}

// fit is the heat at and below which a yeast makes no solvent, by its card.
func (x *exam) fit(p journal.Pitch) float64 {
	if _, high, ok := x.WorksAt(p); ok {
		return high
	}
	return workedCool
}

func (x *exam) firstPitch() journal.Pitch {
	if len(x.Gyle.Yeast) > 0 {
		return x.Gyle.Yeast[0]
	}
	return journal.Pitch{}
}

func workedHot(x *exam) Sign {
	f, ok := x.hottestYoung()
	if !ok {
		return unknown
	}
	p := x.firstPitch()
	_, high, whose := x.Workable(p, assay.HotOverCard.Number)
	if whose == "" {
		return unknown
	}
	return x.judged(f, high, x.fit(p), fmt.Sprintf("the warmest in its first three days was %s; %s", x.Measure(f), whose))
}

func pitchedHot(x *exam) Sign {
	for _, p := range x.Gyle.Yeast {
		heat, ok := figures.AsRead(p.At)
		if !ok {
			continue
		}
		_, high, whose := x.Workable(p, assay.PitchedOverCard.Number)
		if whose == "" {
			return unknown
		}
		return x.judged(heat, high, x.fit(p), fmt.Sprintf("the yeast went in at %s; %s", x.Measure(heat), whose))
	}
	return unknown
}

func fermentedWild(x *exam) Sign {
	f, ok := x.Find("apparent-attenuation", "")
	_, high, carded := x.attenuates()
	if !ok || !carded {
		return unknown
	}
	if len(x.Gyle.Added) > 0 || len(x.Gyle.DrawnFrom) > 0 {
		return silent // what fruit or another beer brought ferments as it likes
	}
	says := fmt.Sprintf("it attenuated by %s, and its card ends at %s %%", x.Measure(f), q.Plain(high))
	if sugar, _, ok := x.gristShare(fermentsOut); ok && sugar.Value > 0 {
		high += sugarLifts * sugar.Value
		says += fmt.Sprintf(", with its sugar at about %s %%", q.Fixed(high, 0))
	}
	return x.judged(f, high+wildOver, high, says)
}

// sugarLifts is by how many % the apparent attenuation rises for each % of the
// grist that is sugar: it ferments to about 120 % apparent, malt to about 75 %,
// and brings a third more extract than malt (worked by Balling's proportions).
const sugarLifts = 0.6

func fellSealed(x *exam) Sign {
	fall, says, ok := x.fellIn()
	if !ok {
		return unknown
	}
	return x.judged(fall, fellBy, fellNot, says)
}

func yeastReused(x *exam) Sign {
	for _, p := range x.Gyle.Yeast {
		switch {
		case p.FromGyle.Written():
			return hints(For, fmt.Sprintf("the yeast came from gyle %d", p.FromGyle.N), p.FromGyle.Where)
		case p.Sold.Is(journal.YeastSlurry):
			return hints(For, "the yeast was slurry from an earlier brewing", p.Sold.Where)
		case p.Sold.Written():
			return hints(Against, fmt.Sprintf("the yeast was fresh (%s)", p.Sold.Word), p.Sold.Where)
		}
	}
	return unknown
}

func atLeastNought(f figures.Figure) figures.Figure {
	f.Value = max(f.Value, 0)
	return f
}

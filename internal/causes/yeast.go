package causes

import (
	"fmt"

	"gylebook/internal/assay"
	"gylebook/internal/figures"
	"gylebook/internal/journal"
	q "gylebook/internal/quantity"
)

// needsYeastCard is what shows how far a yeast goes.
const needsYeastCard = "yeast[].yeast, with a card that says how far it attenuates"

// yeastCauses come of the yeast and of its first days.
func yeastCauses() []Cause {
	cool := say("within its card, or %s or under", workedCool)
	return []Cause{
		{
			ID: "weak-pitch", Name: "the yeast was weak, or too little, or late to start",
			Source: assay.PitchingRates + "; the start is common practice",
			Next:   "Pitch fresher yeast, or more of it, or grow it in a starter.",
			Tests: []Test{
				pitchedLittle(Measurement),
				{For: say("fallen by less than %s %s after pitching", assay.BegunBy, assay.SlowLook),
					Against: say("fallen by more within %s", assay.SlowLook), Weight: Measurement,
					Needs: say("readings[], a gravity in the first %s", assay.SlowLook), look: startedLate},
				{For: "yeast past its date, or kept for too long without a starter", Against: "within its date",
					Weight: Circumstance, Needs: "yeast[].best_by", look: yeastTired},
				{For: say("pitched %q or more below the yeast's card (without one, %s)", pitchedUnder, assay.PitchCoolest),
					Against: "not below it", Weight: Circumstance, Needs: "yeast[].at", of: pitchedCool},
			},
		},
		{
			ID: "fermented-hot", Name: "it fermented hot", Source: tasteFault,
			Now:  "Let it age, or blend it: what heat has made stays.",
			Next: "Keep it cool for the first three days: wet towels and a draught will do.",
			Tests: []Test{
				{For: say("in the first %s %s or more above the yeast's card, or over %s without one",
					assay.YoungFor, assay.HotOverCard, assay.PitchWarmest), Against: cool,
					Weight: Measurement, Needs: "readings[].temp, in the first three days", of: workedHot},
				{For: say("pitched %s or more above the yeast's card, or over %s without one", assay.PitchedOverCard, assay.PitchWarmest),
					Against: cool, Weight: Circumstance, Needs: "yeast[].at", of: pitchedHot},
			},
		},
		{
			ID: "wild-yeast", Name: "a wild yeast got in", Source: tasteFault,
			Now:  "Chill it, watch the containers, and drink it soon.",
			Next: "Use fresh yeast, and clean everything that cold wort touches.",
			Tests: []Test{
				{For: say("attenuation %s or more over the yeast's card", wildOver), Against: "within it", Weight: Measurement,
					Needs: needsYeastCard, of: fermentedWild},
				fellSealed(Measurement),
				{For: "yeast from another gyle", Against: "a fresh packet", Weight: Circumstance, Needs: "yeast[].sold", look: yeastReused},
			},
		},
	}
}

// pitchedLittle is the test of how much yeast went in.
func pitchedLittle(weight Weight) Test {
	return Test{
		For: "under %s", Against: "%.1d or more", Weight: weight, Needs: "yeast[].weight or yeast[].cells",
		of: func(x *exam) reading {
			f, ok := x.Find(figures.IDPitchingRate, "")
			if !ok {
				return without(x.lacking("pitching-rate", "yeast[].weight or yeast[].cells"))
			}
			return reading{Figure: f, says: fmt.Sprintf("%s million cells went in per mL and °P", assay.Bare(f))}
		},
		pro: assay.PitchLow, con: assay.PitchEnough,
	}
}

// startedLate looks at the readings around the time when the gravity should have
// begun to fall.
func startedLate(x *exam) Sign {
	og, ok := x.Find(figures.IDOG, "")
	if !ok || x.PitchedAt().IsZero() {
		return unknown
	}
	sign, slow := unknown, assay.SlowLook.Duration()
	for _, r := range x.GravityReadings() {
		if !x.AfterPitching(r) {
			continue
		}
		since := r.When.Sub(x.PitchedAt())
		fallen := number(q.Gravity(og.Value).Points()-r.Gravity.Value.Points(), assay.FallDoubt, "points", r.Where)
		begun := assay.Over(fallen, assay.BegunBy)
		fallen.Value = max(fallen.Value, 0)
		says := fmt.Sprintf("%s after pitching it had fallen by %s", hoursOf(since), assay.Points(fallen))
		switch {
		case since >= slow && begun < assay.Probably:
			return Sign{Voice: For, May: begun == assay.Perhaps, Says: says, Where: r.Where}
		case since <= slow && begun >= assay.Probably:
			return Sign{Voice: Against, May: begun == assay.Probably, Says: says, Where: r.Where}
		case since > slow && sign.Voice == Unknown && begun >= assay.Probably:
			sign = silent // it had begun by then, and nobody knows when
			if since > slow+assay.FirstDay.Duration() {
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

// pitchHeat is the heat of the first yeast that says at what it went in, with the
// limits of heat for that yeast and so much to spare above.
func (x *exam) pitchHeat(spare *assay.Limit) (r reading, p journal.Pitch, low, high float64) {
	for _, p := range x.Gyle.Yeast {
		if heat, ok := figures.AsRead(p.At); ok {
			low, high, whose := x.Workable(p, spare.In("°C"))
			if whose == "" {
				break
			}
			return reading{Figure: heat, says: fmt.Sprintf("the yeast went in at %s; %s", x.Measure(heat), whose)}, p, low, high
		}
	}
	return without(unknown), p, low, high
}

func pitchedCool(x *exam) reading {
	r, _, low, _ := x.pitchHeat(nil)
	return r.within(low-pitchedUnder.Number, low)
}

func pitchedHot(x *exam) reading {
	r, p, _, high := x.pitchHeat(assay.PitchedOverCard)
	return r.within(high, x.fit(p))
}

// fit is the heat at and below which a yeast makes no solvent, by its card.
func (x *exam) fit(p journal.Pitch) float64 {
	if _, high, ok := x.WorksAt(p); ok {
		return high
	}
	return workedCool.Number
}

func workedHot(x *exam) reading {
	f, ok := x.HottestYoung()
	p := x.FirstPitch()
	_, high, whose := x.Workable(p, assay.HotOverCard.Number)
	if !ok || whose == "" {
		return without(unknown)
	}
	says := fmt.Sprintf("the warmest in its first three days was %s; %s", x.Measure(f), whose)
	return reading{Figure: f, says: says}.within(high, x.fit(p))
}

func fermentedWild(x *exam) reading {
	f, ok := x.Find(figures.IDApparentAttenuation, "")
	_, high, carded := x.attenuates()
	switch {
	case !ok || !carded:
		return without(unknown)
	case len(x.Gyle.Added) > 0 || len(x.Gyle.DrawnFrom) > 0:
		return without(silent) // what fruit or another beer brought ferments as it likes
	}
	says := fmt.Sprintf("it attenuated by %s, and its card ends at %s %%", x.Measure(f), q.Plain(high))
	if sugar, _, ok := x.gristShare(fermentsOut); ok && sugar.Value > 0 {
		high += sugarLifts * sugar.Value
		says += fmt.Sprintf(", with its sugar at about %s %%", q.Fixed(high, 0))
	}
	return reading{Figure: f, says: says}.within(high+wildOver.Number, high)
}

// sugarLifts is by how many % the apparent attenuation rises for each % of the
// grist that is sugar: it ferments to about 120 % apparent, malt to about 75 %,
// and brings a third more extract than malt (worked by Balling's proportions).
const sugarLifts = 0.6

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

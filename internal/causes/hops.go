package causes

import (
	"fmt"
	"slices"

	"gylebook/internal/assay"
	"gylebook/internal/figures"
	"gylebook/internal/journal"
	q "gylebook/internal/quantity"
)

// hopCauses come of the hops.
func hopCauses() []Cause {
	return []Cause{
		{
			ID: "over-bittered", Name: "there is more bitterness than was meant", Source: assay.CommonPractice,
			Now: "Keep it: bitterness fades a little in a month or two.", Next: "Weigh a tenth less of the early hops.",
			Tests: []Test{
				{For: "bitterness 5 IBU or more over its aim or style", Against: "within 2 IBU of it, or under", Weight: Measurement, look: bitterOver},
				{For: "bitterness to gravity 0.1 over its aim; without one, over 0.9", Against: "on its aim; without one, under 0.75", Weight: Measurement, look: ratioOver},
			},
		},
		{
			ID: "under-bittered", Name: "there is less bitterness than was meant", Source: assay.CommonPractice,
			Now: "Take the sparkler off.", Next: "Add {10 g} of hops of 5 % alpha, boiled for an hour, in {20 L}: about 6 IBU.",
			Tests: []Test{
				{For: "bitterness 5 IBU or more under its aim or style", Against: "within 2 IBU of it, or over", Weight: Measurement, look: bitterUnder},
				{For: "bitterness to gravity 0.1 under its aim; without one, under 0.6", Against: "on its aim; without one, over 0.75", Weight: Measurement, look: ratioUnder},
				{For: "hops kept for longer than they keep their alpha", Weight: Circumstance, Needs: "hops[].crop", look: func(x *exam) Sign { return hopAge(x).onlyFor() }},
			},
		},
		{
			ID: "old-hops", Name: "the hops were old", Source: "home-brewing suppliers' pages on the keeping of hops",
			Next: "Buy fresh hops, rub and smell them, and keep them sealed in the freezer.",
			Tests: []Test{
				{For: "opened or kept warm for over 6 months, or over 24 months sealed and cold", Against: "fresher than that", Weight: Measurement, Needs: "hops[].crop", look: hopAge},
			},
		},
		{
			ID: "aroma-lost", Name: "there were few late hops, or their aroma was lost", Source: assay.CommonPractice + "; on the sparkler, beer blogs disagree",
			Now: "Take the sparkler off.", Next: "Add {0.5 g/L} of fresh hops dry, for three days.",
			Tests: []Test{
				{For: "hardly any hops late or dry", Against: "1 g/L of them or more", Weight: Measurement, Needs: "hops", look: lateHopsFew},
				{For: "a sparkler was on", Against: "it was off", Weight: Circumstance, Needs: "tastings[].sparkler", look: sparklerOn},
			},
		},
		{
			ID: "dry-hops-long", Name: "the dry hops stood in it too long", Source: assay.CommonPractice,
			Next: "Leave dry hops in for three or four days, and no longer than a week.",
			Tests: []Test{
				{For: "dry hops for over 7 days", Against: "for 4 days or fewer, or none", Weight: Measurement, Needs: "hops[].dry", look: dryHopsLong},
			},
		},
	}
}

// bitterOff is how many IBU the bitterness lies above its aim or style.
func (x *exam) bitterOff() (off figures.Figure, says string, lacking Sign) {
	f, ok := x.Find("bitterness", "")
	want, aimed := x.BitternessTarget()
	switch {
	case !ok:
		return f, "", x.lacking("bitterness", "hops[].alpha")
	case !aimed:
		return f, "", needing("aim.bitterness")
	}
	says = fmt.Sprintf("the bitterness works out at %s, against %s", x.Measure(f), want.Words)
	if len(f.From()) > 0 && len(x.Gyle.Hops) > 0 {
		f = f.At(x.Gyle.Hops[0].Where)
	}
	f.Value -= want.Nearest(f.Value)
	return f, says, silent
}

func bitterOver(x *exam) Sign {
	off, says, lacking := x.bitterOff()
	if says == "" {
		return lacking
	}
	return x.judged(off, ibuOff, ibuOnAim, says)
}

func bitterUnder(x *exam) Sign {
	off, says, lacking := x.bitterOff()
	if says == "" {
		return lacking
	}
	return x.judged(less(off), ibuOff, ibuOnAim, says)
}

// ratioOn is the share of ratioOffBy within which a ratio is on its aim.
var ratioOn = assay.RatioOffBy.Number / 3

func ratioOver(x *exam) Sign {
	f, says, ok := x.ratio()
	switch aim := x.AimedRatio(); {
	case !ok:
		return needing("hops[].alpha")
	case aim > 0:
		f.Value -= aim
		return x.judged(f, assay.RatioOffBy.Number, ratioOn, says)
	}
	return x.judged(f, ratioBitter, ratioEven, says)
}

func ratioUnder(x *exam) Sign {
	f, says, ok := x.ratio()
	switch aim := x.AimedRatio(); {
	case !ok:
		return needing("hops[].alpha")
	case aim > 0:
		f.Value = aim - f.Value
		return x.judged(f, assay.RatioOffBy.Number, ratioOn, says)
	}
	return x.judged(f, ratioSweet, ratioEvenLow, says)
}

func (x *exam) ratio() (figures.Figure, string, bool) {
	f, ok := x.Find("bitterness-ratio", "")
	if !ok {
		return f, "", false
	}
	says := fmt.Sprintf("bitterness to gravity is %s", assay.Bare(f))
	if aim := x.AimedRatio(); aim > 0 {
		says += fmt.Sprintf(", with %s aimed at", q.Fixed(aim, 2))
	}
	return f, says, true
}

// hopAge asks whether any hops were older than they keep.
func hopAge(x *exam) Sign {
	fresh := unknown
	for _, h := range x.Gyle.Hops {
		since, what := assay.HopsSince(h)
		if since.IsZero() {
			continue
		}
		age := assay.MonthsIn(x.UsedOn(h.When).Sub(since))
		says := fmt.Sprintf("the %s %s %.0f months before use", h.Hop.Name, what, age)
		if age > x.Habits.HopsKeep(h) {
			return tells(For, says, h.Where)
		}
		fresh = tells(Against, says, h.Where)
	}
	return fresh
}

// hoppedAt is how many g/L of some of the hops went in, and the line of the last
// of them.
func (x *exam) hoppedAt(fits func(journal.Hop) bool) (rate figures.Figure, ok bool) {
	volume, ok := figures.AsRead(x.Gyle.Fermenter.Volume)
	if !ok {
		volume, ok = figures.AsRead(x.Gyle.Racked.Volume)
	}
	if !ok || volume.Value <= 0 || len(x.Gyle.Hops) == 0 {
		return rate, false
	}
	grams := 0.0
	from := []journal.Where{x.Gyle.Hops[0].Where}
	for _, h := range x.Gyle.Hops {
		if !fits(h) {
			continue
		}
		if !h.Weight.Written() {
			return rate, false
		}
		grams += h.Weight.Value.Grams()
		from = append(from, h.Weight.Where)
	}
	value := grams / volume.Value
	return number(value, value*scaleShare, "g/L", from...), true
}

func lateHopsFew(x *exam) Sign {
	rate, ok := x.hoppedAt(lateHops)
	if !ok {
		return unknown
	}
	says := fmt.Sprintf("%s of hops went in late or dry", x.Units.Fixed(rate.Value, "g/L", 1))
	if rate.Value == 0 {
		says = "no hops went in late or dry"
	}
	return x.judged(rate, aromaEnough/5, aromaEnough, says)
}

func sparklerOn(x *exam) Sign {
	if x.bottled() {
		return silent
	}
	off := unknown
	for _, t := range x.found {
		switch {
		case x.straight(t): // there is none on it
		case t.Sparkler.Yes():
			return tells(For, "a sparkler was on when it was tasted", t.Sparkler.Where)
		case t.Sparkler.No():
			off = tells(Against, "no sparkler was on when it was tasted", t.Sparkler.Where)
		}
	}
	return off
}

func dryHopsLong(x *exam) Sign {
	dry := slices.DeleteFunc(slices.Clone(x.Gyle.Hops), func(h journal.Hop) bool { return !h.Dry.Written() })
	switch {
	case len(x.Gyle.Hops) == 0:
		return unknown
	case len(dry) == 0:
		return tells(Against, "there were no dry hops", x.Gyle.Hops[0].Where)
	}
	longest := slices.MaxFunc(dry, func(a, b journal.Hop) int { return int(a.Dry.Value.Minutes() - b.Dry.Value.Minutes()) })
	days := longest.Dry.Value.Hours() / 24
	f := number(days, 0.5, "days", longest.Dry.Where)
	return x.judged(f, dryLong, dryShort, fmt.Sprintf("the %s stood in it for %s", longest.Hop.Name, wholeDays(days)))
}

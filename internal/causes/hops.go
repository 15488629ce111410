package causes

import (
	"cmp"
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
			ID: "over-bittered", Name: "there is more bitterness than was meant", Source: common,
			Now: "Keep it: bitterness fades a little in a month or two.", Next: "Weigh a tenth less of the early hops.",
			Tests: []Test{
				{For: "bitterness %s or more over its aim or style", Against: "within %s of it, or under", Weight: Measurement,
					of: bitternessOff, pro: ibuOff, con: ibuOnAim},
				{For: say("bitterness to gravity %s over its aim; without one, over %s", assay.RatioOffBy, ratioBitter),
					Against: say("on its aim; without one, under %s", ratioEven), Weight: Measurement,
					of: func(x *exam) reading { return x.ratio(+1, ratioBitter) }},
			},
		},
		{
			ID: "under-bittered", Name: "there is less bitterness than was meant", Source: common,
			Now: "Take the sparkler off.", Next: "Add {10 g} of hops of 5 % alpha, boiled for an hour, in {20 L}: about 6 IBU.",
			Tests: []Test{
				{For: "bitterness %s or more under its aim or style", Against: "within %s of it, or over", Weight: Measurement,
					of: under(bitternessOff), pro: ibuOff, con: ibuOnAim},
				{For: say("bitterness to gravity %s under its aim; without one, under %s", assay.RatioOffBy, ratioSweet),
					Against: say("on its aim; without one, over %s", ratioEven), Weight: Measurement,
					of: func(x *exam) reading { return x.ratio(-1, ratioSweet) }},
				{For: "hops kept for longer than they keep their alpha", Weight: Circumstance, Needs: "hops[].crop", look: onlyFor(hopAge)},
			},
		},
		{
			ID: "old-hops", Name: "the hops were old", Source: "home-brewing suppliers' pages on the keeping of hops",
			Next: "Buy fresh hops, rub and smell them, and keep them sealed in the freezer.",
			Tests: []Test{
				{For: say("opened or kept warm for over %s, or over %s sealed and cold", assay.HopsOpen, assay.HopsSealed),
					Against: "fresher than that", Weight: Measurement, Needs: "hops[].crop", look: hopAge},
			},
		},
		{
			ID: "aroma-lost", Name: "there were few late hops, or their aroma was lost",
			Source: common + "; on the sparkler, beer blogs disagree",
			Now:    "Take the sparkler off.", Next: "Add {0.5 g/L} of fresh hops dry, for three days.",
			Tests: []Test{
				{For: "hardly any hops late or dry", Against: "%s of them or more", Weight: Measurement, Needs: "hops",
					of: hopRate(" late or dry", "hops", lateHops), pro: aromaLittle, con: aromaEnough},
				{For: "a sparkler was on", Against: "it was off", Weight: Circumstance, Needs: "tastings[].sparkler", look: sparklerOn},
			},
		},
		{
			ID: "dry-hops-long", Name: "the dry hops stood in it too long", Source: common,
			Next: "Leave dry hops in for three or four days, and no longer than a week.",
			Tests: []Test{
				{For: "dry hops for over %s", Against: "for %s or fewer, or none", Weight: Measurement, Needs: "hops[].dry",
					of: dryHopsStood, pro: dryLong, con: dryShort},
			},
		},
	}
}

// bitternessOff is how many IBU the bitterness lies above its aim or style.
func bitternessOff(x *exam) reading {
	f, ok := x.Find(figures.IDBitterness, "")
	want, aimed := x.BitternessTarget()
	switch {
	case !ok:
		return without(x.lacking("bitterness", "hops[].alpha"))
	case !aimed:
		return without(needing("aim.bitterness"))
	}
	says := fmt.Sprintf("the bitterness works out at %s, against %s", x.Measure(f), want.Words)
	if len(f.From()) > 0 && len(x.Gyle.Hops) > 0 {
		f = f.At(x.Gyle.Hops[0].Where)
	}
	return reading{Figure: f, says: says}.less(want.Nearest(f.Value))
}

// ratio is bitterness to gravity: how far it is over its aim, or under it where the
// side is below nought; without an aim the ratio itself, held against one that is even.
func (x *exam) ratio(side float64, unaimed *assay.Limit) reading {
	f, ok := x.Find(figures.IDBitternessRatio, "")
	if !ok {
		return without(needing("hops[].alpha"))
	}
	says := fmt.Sprintf("bitterness to gravity is %s", assay.Bare(f))
	aim := x.AimedRatio()
	if aim <= 0 {
		return reading{Figure: f, says: says}.within(unaimed.Number, ratioEven.Number)
	}
	f.Value = side * (f.Value - aim)
	says += fmt.Sprintf(", with %s aimed at", q.Fixed(aim, 2))
	return reading{Figure: f, says: says}.within(assay.RatioOffBy.Number, ratioOnAim.Number)
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

// hopRate is how many g/L of some of the hops went in.
func hopRate(how, what string, fits func(journal.Hop) bool) func(*exam) reading {
	return func(x *exam) reading {
		volume, ok := figures.AsRead(x.Gyle.Fermenter.Volume)
		if !ok {
			volume, ok = figures.AsRead(x.Gyle.Racked.Volume)
		}
		if !ok || volume.Value <= 0 || len(x.Gyle.Hops) == 0 {
			return without(unknown)
		}
		grams := 0.0
		from := []journal.Where{x.Gyle.Hops[0].Where}
		for _, h := range x.Gyle.Hops {
			switch {
			case !fits(h):
			case !h.Weight.Written():
				return without(unknown)
			default:
				grams += h.Weight.Value.Grams()
				from = append(from, h.Weight.Where)
			}
		}
		rate := grams / volume.Value
		r := reading{Figure: number(rate, rate*scaleShare, "g/L", from...)}
		r.says = fmt.Sprintf("%s of %s went in%s", x.Units.Fixed(rate, "g/L", 1), what, how)
		if rate == 0 {
			r.says = fmt.Sprintf("no %s went in%s", what, how)
		}
		return r
	}
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

func dryHopsStood(x *exam) reading {
	dry := slices.DeleteFunc(slices.Clone(x.Gyle.Hops), func(h journal.Hop) bool { return !dryHops(h) })
	switch {
	case len(x.Gyle.Hops) == 0:
		return without(unknown)
	case len(dry) == 0:
		return without(tells(Against, "there were no dry hops", x.Gyle.Hops[0].Where))
	}
	longest := slices.MaxFunc(dry, func(a, b journal.Hop) int { return cmp.Compare(a.Dry.Value, b.Dry.Value) })
	days := longest.Dry.Value.Hours() / 24
	says := fmt.Sprintf("the %s stood in it for %s", longest.Hop.Name, wholeDays(days))
	return reading{Figure: number(days, 0.5, "days", longest.Dry.Where), says: says}
}

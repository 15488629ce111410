package causes

import (
	"fmt"
	"time"

	"gylebook/internal/assay"
	"gylebook/internal/figures"
	"gylebook/internal/journal"
	q "gylebook/internal/quantity"
)

// fermentationCauses are about where the fermentation stopped.
func fermentationCauses() []Cause {
	return []Cause{
		{
			ID: "fermented-far", Name: "it fermented further than was meant", Source: "a brewing school's mash figures; the limits are common practice",
			Now: "A little more condition, or a sparkler, gives it some body.", Next: "Mash {1 to 2 K} warmer, with less sugar, or choose a yeast that stops sooner.",
			Tests: []Test{
				{For: "final gravity 2 points or more under its aim", Against: "within a point of it, or over", Weight: Measurement, look: endedLow},
				{For: "attenuation above the yeast's card", Against: "in the lower half of it", Weight: Circumstance, Needs: "yeast[].yeast, with a card that says how far it attenuates", look: attenuatedFar},
				{For: "mashed at 65 °C or cooler", Against: "at 67 °C or warmer", Weight: Circumstance, Needs: "mash.rests[].at", look: mashedCool},
				{For: "sugar over 10 % of the grist", Weight: Circumstance, Needs: "grist[].weight", look: sugared},
			},
		},
		{
			ID: "unfermented", Name: "sugar was left that could have fermented", Source: "a brewing school's mash figures; the limits are common practice",
			Now: "If the gravity still falls, treat what is sealed as under pressure: keep it cold and vent what can be vented.", Next: "Mash {1 to 2 K} cooler, pitch more yeast, and see two gravities agree before you rack.",
			Tests: []Test{
				{For: "final gravity 3 points or more over its aim", Against: "within a point of it, or under", Weight: Measurement, look: endedHigh},
				{For: "attenuation below the yeast's card", Against: "in the upper half of it", Weight: Circumstance, Needs: "yeast[].yeast, with a card that says how far it attenuates", look: attenuatedLittle},
				{For: "mashed at 69 °C or warmer", Against: "at 67 °C or cooler", Weight: Circumstance, Needs: "mash.rests[].at", look: mashedWarm},
				{For: "under 0.75 million cells per mL and °P", Against: "1.0 or more", Weight: Circumstance, Needs: "yeast[].weight or yeast[].cells", look: pitchedLittle},
			},
		},
	}
}

func endedLow(x *exam) Sign {
	off, says, lacking := x.pointsFrom("fg", "final gravity", x.Gyle.Aim.FG)
	if says == "" {
		return lacking
	}
	return x.judged(less(off), fgUnder, fgOnAim, says)
}

func endedHigh(x *exam) Sign {
	off, says, lacking := x.pointsFrom("fg", "final gravity", x.Gyle.Aim.FG)
	if says == "" {
		return lacking
	}
	return x.judged(off, fgOver, fgOnAim, says)
}

// attenuation is the apparent one, and a clause that sets it beside the card.
func (x *exam) attenuation() (f figures.Figure, low, high float64, says string, ok bool) {
	f, known := x.Find("apparent-attenuation", "")
	low, high, carded := x.attenuates()
	if !known || !carded {
		return f, low, high, "", false
	}
	return f, low, high, fmt.Sprintf("it attenuated by %s, and its yeast's card says %s to %s %%", x.Measure(f), q.Plain(low), q.Plain(high)), true
}

func attenuatedFar(x *exam) Sign {
	f, low, high, says, ok := x.attenuation()
	if !ok {
		return unknown
	}
	return beyond(x.judged(f, high, (low+high)/2, says), assay.Over(f, high))
}

func attenuatedLittle(x *exam) Sign {
	f, low, high, says, ok := x.attenuation()
	if !ok {
		return unknown
	}
	return beyond(x.judged(f, low, (low+high)/2, says), assay.Under(f, low))
}

// beyond lets a sign only may where the figure's ± reaches back over the end of a
// card's range: a range is no aim, and its end belongs to it.
func beyond(s Sign, sure assay.Certainty) Sign {
	s.May = s.May || s.Voice == For && sure != assay.Surely
	return s
}

func mashedCool(x *exam) Sign {
	rest, ok := x.ConversionRest()
	if !ok {
		return unknown
	}
	return x.judged(rest, mashDry, mashNotDry, fmt.Sprintf("it was mashed at %s", x.Measure(rest)))
}

func mashedWarm(x *exam) Sign {
	rest, ok := x.ConversionRest()
	if !ok {
		return unknown
	}
	return x.judged(rest, mashSweet, mashNotSweet, fmt.Sprintf("it was mashed at %s", x.Measure(rest)))
}

// sugared asks how much of the grist ferments right out. A grist without sugar
// tells nothing: most beers have none.
func sugared(x *exam) Sign {
	f, names, ok := x.gristShare(fermentsOut)
	if !ok {
		return unknown
	}
	return x.judged(f, sugarMuch, 0, share("sugar", f, names)).onlyFor()
}

// fermentsOut tells whether a line of the grist is sugar that yeast takes whole.
func fermentsOut(g journal.Grain, card *journal.Card) bool {
	lasting := card != nil && card.Sugar != nil && card.Sugar.Fermentable.Written() && float64(card.Sugar.Fermentable.Value) <= 50
	return g.Sugar.Written() && !lasting
}

// hours is a span as a figure of its own.
func hours(d, off time.Duration, where journal.Where) figures.Figure {
	return number(d.Hours(), off.Hours(), "h", where)
}

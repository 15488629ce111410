package causes

import (
	"fmt"

	"gylebook/internal/assay"
	"gylebook/internal/figures"
	"gylebook/internal/journal"
	q "gylebook/internal/quantity"
)

// hazeCauses are about what makes beer cloudy.
func hazeCauses() []Cause {
	return []Cause{
		{
			ID: "yeast-afloat", Name: "yeast was still in it", Source: "a brewing-supplies house's article on beer at the point of sale; the yeast is common practice",
			Now: "Leave it still for two days, and fine it again while it is cold.", Next: "Rack it off cleaner, cool it slowly, and set it in its place two days before.",
			Tests: []Test{
				{For: "moved or filled less than 36 hours before the glass", Against: "still for 3 days", Weight: Measurement, Needs: "done[].did moved, or racked.on", look: stoodShort},
				{For: "a yeast whose card says that it settles slowly", Against: "quickly", Weight: Circumstance, Needs: "yeast[].yeast, with a card that says how it settles", look: yeastSettles},
				{For: "no finings after the boil", Against: "fined in fermenter or container", Weight: Circumstance, Needs: "finings", look: notFined},
			},
		},
		{
			ID: "chill-haze", Name: "it hazes in the cold", Source: assay.CommonPractice,
			Now: "Serve it at {12 to 13 °C}.", Next: "Use copper finings in the last quarter of an hour, and boil it hard.",
			Tests: []Test{
				{For: "the glass at 10 °C or colder", Against: "hazy at 16 °C or warmer too", Weight: Measurement, Needs: "tastings[].at", look: hazyCold},
				{For: "no copper finings", Against: "copper finings used", Weight: Circumstance, Needs: "finings", look: copperFined},
				{For: "boiled for less than 60 minutes, or not at all", Weight: Circumstance, Needs: "copper.boiled", look: func(x *exam) Sign { return boiledShort(x).onlyFor() }},
			},
		},
		{
			ID: "starch-haze", Name: "starch was left from the mash", Source: assay.CommonPractice,
			Next: "Mash for an hour at {65 to 67 °C}, and look at the pH.",
			Tests: []Test{
				{For: "mashed for less than 45 minutes", Against: "for 60 minutes or more", Weight: Measurement, Needs: "mash.rests[].for", look: mashedShort},
				{For: "mashed over 70 °C", Against: "at 68 °C or under", Weight: Circumstance, Needs: "mash.rests[].at", look: mashedHot},
				{For: "flakes or raw grain in the grist", Weight: Circumstance, Needs: "grist", look: rawGrain},
				{For: "hazy at 16 °C or warmer too", Weight: Circumstance, Needs: "tastings[].at", look: hazyWarm},
			},
		},
		{
			ID: "hop-haze", Name: "dry hops made the haze", Source: assay.CommonPractice,
			Now: "Wait: some of it falls.", Next: "Use fewer dry hops, for a shorter time.",
			Tests: []Test{
				{For: "over 1 g/L of dry hops", Against: "under 0.3 g/L, or none", Weight: Measurement, Needs: "hops", look: dryHopped},
			},
		},
	}
}

// stoodShort is how long it had stood still before the last glass with the word.
// Where no move is noted, it counts from the filling, and only may.
func stoodShort(x *exam) Sign {
	t, ok := x.last()
	if !ok {
		return needing("tastings[].when")
	}
	k, ok := x.containerOf(t)
	if !ok {
		return needing("tastings[].package")
	}
	moved, noted := x.stirredBefore(k, t.When)
	what := "moved"
	if !noted {
		if moved, what = x.Filled(k), "filled"; !moved.Written() {
			return unknown
		}
	}
	still := t.When.Middle().Sub(moved.Middle())
	if still < 0 {
		return unknown
	}
	s := x.judged(hours(still, max(moved.HalfWidth(), t.When.HalfWidth()), moved.Where), stillShort, stillLong, fmt.Sprintf("%s was %s %s before that glass", x.called(k), what, hoursOf(still)))
	s.May = s.May || !noted && s.Voice == Against
	return s
}

// stirredBefore is the last time before a moment that something shook a
// container up.
func (x *exam) stirredBefore(k figures.Container, until journal.Moment) (last journal.Moment, any bool) {
	for _, d := range x.Deeds(journal.Moved, journal.Roused, journal.Stirred) {
		if assay.Concerns(d, k) && !d.When.Time.After(assay.EndOf(until)) && !d.When.Time.Before(x.Filled(k).Time) && (!any || d.When.Time.After(last.Time)) {
			last, any = d.When, true
		}
	}
	return last, any
}

func yeastSettles(x *exam) Sign {
	for _, p := range x.Gyle.Yeast {
		card := x.Card("yeast", p.Yeast)
		if card == nil || card.Yeast == nil || !card.Yeast.Settles.Written() {
			continue
		}
		says := fmt.Sprintf("the card of the %s says that it settles %s", p.Yeast.Name, card.Yeast.Settles.Word)
		switch card.Yeast.Settles.Word {
		case journal.SettlesSlowly:
			return tells(For, says, p.Where)
		case journal.SettlesQuickly:
			return tells(Against, says, p.Where)
		}
		return silent
	}
	return unknown
}

func notFined(x *exam) Sign {
	for _, f := range x.Gyle.Finings {
		if !x.forCopper(f) {
			return tells(Against, fmt.Sprintf("it was fined with %s", f.With.Name), f.Where)
		}
	}
	if !x.recipeWritten() {
		return unknown
	}
	return hints(For, "no finings after the boil are noted", journal.Where{})
}

// forCopper tells whether a fining goes into the copper.
func (x *exam) forCopper(f journal.Fining) bool {
	if f.Into.Written() {
		return f.Into.Is(journal.IntoCopper)
	}
	return assay.HasWord(f.With.Name, "copper", "irish", "carrag*", "kettle")
}

func hazyCold(x *exam) Sign {
	f, ok := x.warmestGlass()
	if !ok {
		return unknown
	}
	return x.judged(f, coldGlass, hazeGone, fmt.Sprintf("the glass was at %s", x.Measure(f)))
}

func hazyWarm(x *exam) Sign {
	f, ok := x.warmestGlass()
	if !ok {
		return unknown
	}
	return x.judged(f, hazeGone, coldGlass, fmt.Sprintf("it was hazy at %s too", x.Measure(f))).onlyFor()
}

func copperFined(x *exam) Sign {
	for _, f := range x.Gyle.Finings {
		if x.forCopper(f) {
			return tells(Against, fmt.Sprintf("%s went into the copper", f.With.Name), f.Where)
		}
	}
	if !x.recipeWritten() {
		return unknown
	}
	return hints(For, "no copper finings are noted", journal.Where{})
}

// mashedShort adds up the rests at which starch turns to sugar.
func mashedShort(x *exam) Sign {
	minutes := 0.0
	var from []journal.Where
	for i, r := range x.Gyle.Mash.Rests {
		heat, ok := x.RestHeat(i)
		if !r.For.Written() || !ok {
			return unknown
		}
		if heat.Value >= convertsFrom && heat.Value <= convertsTo {
			minutes += r.For.Value.Minutes()
			from = append(from, r.For.Where)
		}
	}
	if len(from) == 0 {
		return unknown
	}
	return x.judged(number(minutes, 0, "min", from...), mashShort, mashFull, fmt.Sprintf("it was mashed for %s minutes", q.Plain(minutes)))
}

// Starch turns to sugar between these, in °C (a brewing-supplies house's article
// on mashing regimes, with limits that are common practice).
const convertsFrom, convertsTo = 60.0, 75.0

func mashedHot(x *exam) Sign {
	rest, ok := x.ConversionRest()
	if !ok {
		return unknown
	}
	return x.judged(rest, mashCooked, mashFine, fmt.Sprintf("it was mashed at %s", x.Measure(rest)))
}

func rawGrain(x *exam) Sign {
	if len(x.Gyle.Grist) == 0 {
		return unknown
	}
	for _, g := range x.Gyle.Grist {
		name := nameOfGrain(g)
		if assay.HasWord(name, "flaked", "flakes", "raw", "unmalted", "torrified") {
			return hints(For, fmt.Sprintf("there is %s in the grist", name), g.Where)
		}
	}
	return silent
}

func dryHopped(x *exam) Sign {
	rate, ok := x.hoppedAt(func(h journal.Hop) bool { return h.Dry.Written() })
	if !ok {
		return unknown
	}
	says := fmt.Sprintf("%s of dry hops went in", x.Units.Fixed(rate.Value, "g/L", 1))
	if rate.Value == 0 {
		says = "no dry hops went in"
	}
	return x.judged(rate, dryHazy, dryClear, says)
}

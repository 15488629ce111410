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
			ID: "yeast-afloat", Name: "yeast was still in it", Source: assay.SalesArticle + "; the yeast is common practice",
			Now:  "Leave it still for two days, and fine it again while it is cold.",
			Next: "Rack it off cleaner, cool it slowly, and set it in its place two days before.",
			Tests: []Test{
				{For: say("moved or filled less than %s before the glass", stillShort), Against: say("still for %s", stillLong),
					Weight: Measurement, Needs: "done[].did moved, or racked.on", look: stoodShort},
				{For: "a yeast whose card says that it settles slowly", Against: "quickly", Weight: Circumstance,
					Needs: "yeast[].yeast, with a card that says how it settles", look: yeastSettles},
				{For: "no finings after the boil", Against: "fined in fermenter or container", Weight: Circumstance, Needs: "finings",
					look: notFined},
			},
		},
		{
			ID: "chill-haze", Name: "it hazes in the cold", Source: common,
			Now: "Serve it at {12 to 13 °C}.", Next: "Use copper finings in the last quarter of an hour, and boil it hard.",
			Tests: []Test{
				{For: "the glass at %s or colder", Against: "hazy at %s or warmer too", Weight: Measurement, Needs: "tastings[].at",
					of: warmestGlass("the glass was at %s"), pro: coldGlass, con: hazeGone},
				{For: "no copper finings", Against: "copper finings used", Weight: Circumstance, Needs: "finings", look: copperFined},
				{For: boiledTooShort(), Weight: Circumstance, Needs: "copper.boiled", look: onlyFor(boiledShort)},
			},
		},
		{
			ID: "starch-haze", Name: "starch was left from the mash", Source: common,
			Next: "Mash for an hour at {65 to 67 °C}, and look at the pH.",
			Tests: []Test{
				{For: "mashed for less than %s", Against: "for %s or more", Weight: Measurement, Needs: "mash.rests[].for",
					of: mashedFor, pro: mashShort, con: mashFull},
				{For: "mashed over %s", Against: "at %s or under", Weight: Circumstance, Needs: "mash.rests[].at",
					of: mashedAt, pro: mashCooked, con: mashFine},
				{For: "flakes or raw grain in the grist", Weight: Circumstance, Needs: "grist", look: rawGrain},
				{For: "hazy at %s or warmer too", Weight: Circumstance, Needs: "tastings[].at",
					of: warmestGlass("it was hazy at %s too"), pro: hazeGone, con: coldGlass},
			},
		},
		{
			ID: "hop-haze", Name: "dry hops made the haze", Source: common,
			Now: "Wait: some of it falls.", Next: "Use fewer dry hops, for a shorter time.",
			Tests: []Test{
				{For: "over %s of dry hops", Against: "under %s, or none", Weight: Measurement, Needs: "hops",
					of: hopRate("", "dry hops", dryHops), pro: dryHazy, con: dryClear},
			},
		},
	}
}

// stoodShort is how long it had stood still before the last glass with the word.
// Where no move is noted, it counts from the filling, and only may.
func stoodShort(x *exam) Sign {
	t, k, missing := x.tastedFrom(x.lastTasting())
	if missing != "" {
		return needing(missing)
	}
	moved, noted := x.stirredBefore(k, t.When)
	what := "moved"
	if !noted {
		moved, what = x.Filled(k), "filled"
	}
	still := t.When.Middle().Sub(moved.Middle())
	if !moved.Written() || still < 0 {
		return unknown
	}
	says := fmt.Sprintf("%s was %s %s before that glass", x.called(k), what, hoursOf(still))
	r := reading{Figure: hours(still, max(moved.HalfWidth(), t.When.HalfWidth()), moved.Where), says: says}
	s := x.held(r, stillShort, stillLong)
	s.May = s.May || !noted && s.Voice == Against
	return s
}

// stirredBefore is the last time before a moment that something shook a
// container up.
func (x *exam) stirredBefore(k figures.Container, until journal.Moment) (last journal.Moment, any bool) {
	for _, d := range x.Deeds(journal.Moved, journal.Roused, journal.Stirred) {
		between := !d.When.Time.After(assay.EndOf(until)) && !d.When.Time.Before(x.Filled(k).Time)
		if between && assay.Concerns(d, k) && (!any || d.When.Time.After(last.Time)) {
			last, any = d.When, true
		}
	}
	return last, any
}

func yeastSettles(x *exam) Sign {
	for _, p := range x.Gyle.Yeast {
		settles := x.YeastCard(p).Settles
		says := fmt.Sprintf("the card of the %s says that it settles %s", p.Yeast.Name, settles.Word)
		switch {
		case !settles.Written():
			continue
		case settles.Is(journal.SettlesSlowly):
			return tells(For, says, p.Where)
		case settles.Is(journal.SettlesQuickly):
			return tells(Against, says, p.Where)
		}
		return silent
	}
	return unknown
}

func notFined(x *exam) Sign {
	return x.fined(false, "it was fined with %s", "no finings after the boil are noted")
}

func copperFined(x *exam) Sign {
	return x.fined(true, "%s went into the copper", "no copper finings are noted")
}

// fined tells whether finings went into the copper, or after it.
func (x *exam) fined(inCopper bool, says, none string) Sign {
	for _, f := range x.Gyle.Finings {
		if forCopper(f) == inCopper {
			return tells(Against, fmt.Sprintf(says, f.With.Name), f.Where)
		}
	}
	if !x.recipeWritten() {
		return unknown
	}
	return hints(For, none, journal.Where{})
}

// forCopper tells whether a fining goes into the copper.
func forCopper(f journal.Fining) bool {
	if f.Into.Written() {
		return f.Into.Is(journal.IntoCopper)
	}
	return assay.HasWord(f.With.Name, "copper", "irish", "carrag*", "kettle")
}

// mashedFor adds up the rests at which starch turns to sugar.
func mashedFor(x *exam) reading {
	minutes := 0.0
	var from []journal.Where
	for i, r := range x.Gyle.Mash.Rests {
		heat, ok := x.RestHeat(i)
		if !r.For.Written() || !ok {
			return without(unknown)
		}
		if heat.Value >= convertsFrom.Number && heat.Value <= convertsTo.Number {
			minutes += r.For.Value.Minutes()
			from = append(from, r.For.Where)
		}
	}
	if len(from) == 0 {
		return without(unknown)
	}
	return reading{Figure: number(minutes, 0, "minutes", from...), says: fmt.Sprintf("it was mashed for %s minutes", q.Plain(minutes))}
}

func rawGrain(x *exam) Sign {
	return x.inTheGrist(hints, "flaked", "flakes", "raw", "unmalted", "torrified")
}

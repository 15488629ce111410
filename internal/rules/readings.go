package rules

import (
	"fmt"
	"slices"

	"gylebook/internal/assay"
	"gylebook/internal/figures"
	"gylebook/internal/journal"
	"gylebook/internal/notice"
	q "gylebook/internal/quantity"
)

// readingRules are about readings that cannot be right.
func readingRules() []Rule {
	return []Rule{
		{
			ID: "gravity-mistyped", Watches: always, Worst: notice.Mend, Source: common,
			When: "a gravity of 990 to 1150 or 99 to 115, or one that reads as degrees Plato",
			Why:  "Nothing can be worked out from it as it stands, and it counts as missing.",
			look: per(impossible(func(bad figures.Impossible) bool { return isGravity(bad) && bad.Guess != "" }), mistyped),
		},
		{
			ID: "gravity-impossible", Watches: always, Worst: notice.Mend, Source: common,
			When: "any other gravity outside 0.985 to 1.150",
			Why:  countsAsMissing,
			Do:   readAgain,
			look: per(impossible(func(bad figures.Impossible) bool { return isGravity(bad) && bad.Guess == "" }), cannotBe),
		},
		{
			ID: "value-impossible", Watches: always, Worst: notice.Mend, Source: "the limits of water, wort and one household's vessels",
			When: "a heat, volume, weight, pH, pressure or percentage that no home brewery can have",
			Why:  countsAsMissing,
			Do:   readAgain,
			look: per(impossible(func(bad figures.Impossible) bool { return !isGravity(bad) }), cannotBe),
		},
		{
			ID: "fg-above-og", Watches: from(figures.Working), Worst: notice.Mend, Source: common,
			When: "any later gravity above the original, beyond what the readings can tell",
			Why:  "Fermentation only lowers gravity: two lines may be swapped, or a reading taken on another scale.",
			Do:   "Compare both lines with your notes and correct the one that is wrong. Until then the later one counts for nothing.",
			look: per(gravities, aboveOG),
		},
		{
			ID: "gravity-rises", Watches: from(figures.Working), Worst: notice.Look, Source: common,
			When: say("the gravity rises by more than %s and nothing was added", risesBy),
			Why:  "Unmixed wort, a warm sample or gas on the hydrometer does that; beer does not.",
			Do:   "Read again: a sample at room heat, its gas shaken out.",
			look: per(successions, gravityRises),
		},
		{
			ID: "volume-grows", Watches: from(figures.Copper), Worst: notice.Look, Source: common,
			When: "more comes out of a step than went in and was added, beyond the readings' doubt",
			Why:  "A volume read hot is up to 4 % too big, and a mark may be wrong; yields and priming rest on it.",
			Do:   "Measure once more, cold and level, and note the heat beside a hot reading.",
			look: per(losses, volumeGrows),
		},
		{
			ID: "time-backwards", Watches: always, Worst: notice.Mend, Source: common,
			When: "events in an order that cannot be",
			look: timeBackwards,
		},
		{
			ID: "hydrometer-uncorrected", Watches: from(figures.Copper), Worst: notice.Mend, Source: "density of water: Tanaka et al., Metrologia 38 (2001) 301",
			When: say("a gravity with no sample heat, or read above %s", readTooHot),
			look: per(readings, uncorrected),
		},
		{
			ID: "refractometer-after-pitch", Watches: from(figures.Working), Worst: notice.Mend, Source: "a published study of refractometer readings of fermenting beer, 68 triplets",
			When: "Brix after pitching without an original gravity, or no hydrometer reading before packaging",
			look: refractometerAfterPitch,
		},
	}
}

const (
	countsAsMissing = "It counts as missing, and so does everything that needs it."
	readAgain       = "Read it again, or correct what was typed."
)

func isGravity(bad figures.Impossible) bool { return bad.Kind.Name == "gravity" }

// impossible are those of the impossible values that a rule is about.
func impossible(fits func(figures.Impossible) bool) func(*inspection) []figures.Impossible {
	return func(c *inspection) []figures.Impossible {
		return slices.DeleteFunc(slices.Clone(c.Impossible), func(bad figures.Impossible) bool { return !fits(bad) })
	}
}

func mistyped(_ *inspection, bad figures.Impossible) Found {
	return Found{
		Where: bad.Where,
		Says:  fmt.Sprintf("A gravity of %s cannot be; %s was probably meant.", bad.Found, bad.Guess),
		Do:    fmt.Sprintf("If you meant %s, type that.", bad.Guess),
	}
}

func cannotBe(c *inspection, bad figures.Impossible) Found {
	return Found{Where: bad.Where, Says: fmt.Sprintf("A %s of %s cannot be: %s is what is possible.", bad.Kind.Name, bad.Found, c.Text("{"+bad.Limit+"}"))}
}

func gravities(c *inspection) []figures.GravityReading { return c.GravityReadings() }

func aboveOG(c *inspection, r figures.GravityReading) Found {
	og, ok := c.Find(figures.IDOG, "")
	if !ok || !c.AboveOG(r) {
		return Found{}
	}
	return Found{Where: r.Where, Says: fmt.Sprintf("A later gravity, %s, stands above the original, %s.", assay.SG(r.Gravity.Value), assay.SG(q.Gravity(og.Value)))}
}

// successions are each two gravities that follow one another.
func successions(c *inspection) [][2]figures.GravityReading {
	var all [][2]figures.GravityReading
	read := c.GravityReadings()
	for i := 1; i < len(read); i++ {
		all = append(all, [2]figures.GravityReading{read[i-1], read[i]})
	}
	return all
}

func gravityRises(c *inspection, r [2]figures.GravityReading) Found {
	was, is := r[0], r[1]
	rise := is.Gravity.Value.Points() - was.Gravity.Value.Points()
	const fractions = 0.1 // what binary fractions may make of two points
	if !c.AfterPitching(was) || rise <= risesBy.Number+fractions || was.Refractometer != is.Refractometer || c.SugarAdded(was.When, is.When) {
		return Found{}
	}
	return Found{Where: is.Where, Says: fmt.Sprintf("The gravity rose by %.0f points, from %s to %s, and nothing was added.", rise, assay.SG(was.Gravity.Value), assay.SG(is.Gravity.Value))}
}

// losses are what went astray in each step.
func losses(c *inspection) []figures.Figure {
	return slices.DeleteFunc(slices.Clone(c.Figures), func(f figures.Figure) bool { return f.ID != figures.IDLosses })
}

func volumeGrows(c *inspection, f figures.Figure) Found {
	if f.Of == "dumped" || assay.Under(f, 0.0) != assay.Surely {
		return Found{}
	}
	return Found{Where: c.LastOf(f), Of: f.Of, Says: fmt.Sprintf("From %s, %s more came out than went in.", f.Of, c.Litres(-f.Value, f.PlusMinus))}
}

func uncorrected(c *inspection, r journal.Reading) Found {
	heat := r.SampleAt
	if !heat.Written() {
		heat = r.Temp
	}
	switch {
	case !r.Gravity.Written():
		return Found{}
	case !heat.Written():
		return Found{
			note: true, Where: r.Gravity.Where, Of: r.Where.Key,
			Says: c.Text("No heat is noted for this gravity, so it is taken as read near {20 °C}."),
			Why:  c.Text("A sample at {30 °C} reads nearly three points low."),
			Do:   "Note the sample's heat beside the next one (temp, or sample_at).",
		}
	case heat.Value.Celsius() > readTooHot.Number:
		return Found{
			Where: heat.Where, Of: r.Where.Key,
			Says: fmt.Sprintf("A sample at %s is too hot for a hydrometer.", c.Heat(heat.Value.Celsius())),
			Why:  "The correction is over six points there, and the glass may crack.",
			Do:   c.Text("Cool the sample in a closed jar to about {20 °C} and read it again."),
		}
	}
	return Found{}
}

func refractometerAfterPitch(c *inspection) []Found {
	og, known := c.Find(figures.IDOG, "")
	if !known {
		return per(readings, brixAlone)(c)
	}
	last := c.onlyRefractometer()
	if !last.Written() {
		return nil
	}
	return []Found{{
		Severity: notice.Look, Where: last,
		Says: "The final gravity rests on a refractometer alone.",
		Why:  fmt.Sprintf("Worked out from the original gravity, %s, it is good to two or three points at best.", assay.SG(q.Gravity(og.Value))),
		Do:   "Read a hydrometer in a degassed glass, and keep the containers cool until you have.",
	}}
}

func brixAlone(c *inspection, r journal.Reading) Found {
	if !r.Brix.Written() || !r.When.Written() || !r.When.Middle().After(c.PitchedAt()) {
		return Found{}
	}
	return Found{
		Where: r.Brix.Where,
		Says:  fmt.Sprintf("%s °Bx in fermenting beer says nothing without an original gravity.", q.Plain(float64(r.Brix.Value))),
		Why:   "Alcohol bends light too: a beer at 1.010 shows 5.3 °Bx, which looks like 1.021.",
		Do:    "Note the original gravity, or read a hydrometer.",
	}
}

// onlyRefractometer is the last reading of a packaged beer whose final gravity rests
// on a refractometer alone; not written where a hydrometer was read.
func (c *inspection) onlyRefractometer() (last journal.Where) {
	if c.Stage < figures.Maturing {
		return last
	}
	for _, r := range c.GravityReadings() {
		if !c.AfterPitching(r) {
			continue
		}
		if !r.Refractometer {
			return journal.Where{}
		}
		last = r.Where
	}
	return last
}

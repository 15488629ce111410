package rules

import (
	"fmt"

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
			ID: "gravity-mistyped", Watches: always, Worst: notice.Mend, Source: assay.CommonPractice,
			When:    "a gravity of 990 to 1150 or 99 to 115, or one that reads as degrees Plato",
			Example: Example{In: "bottled", Raises: []string{"readings[1].gravity=1010"}, Spares: []string{"readings[1].gravity=1.010"}},
			look:    gravityMistyped,
		},
		{
			ID: "gravity-impossible", Watches: always, Worst: notice.Mend, Source: assay.CommonPractice,
			When:    "any other gravity outside 0.985 to 1.150",
			Example: Example{In: "bottled", Raises: []string{"readings[1].gravity=1.210"}, Spares: []string{"readings[1].gravity=1010"}},
			look:    gravityImpossible,
		},
		{
			ID: "value-impossible", Watches: always, Worst: notice.Mend, Source: "the limits of water, wort and one household's vessels",
			When:    "a heat, volume, weight, pH, pressure or percentage that no home brewery can have",
			Example: Example{In: "bottled", Raises: []string{"mash.rests[0].at=200 C"}, Spares: []string{"mash.rests[0].at=75 C"}},
			look:    valueImpossible,
		},
		{
			ID: "fg-above-og", Watches: from(figures.Working), Worst: notice.Mend, Source: assay.CommonPractice,
			When:    "any later gravity above the original, beyond what the readings can tell",
			Example: Example{In: "bottled", Raises: []string{"readings[2].gravity=1.045"}, Spares: []string{"readings[2].gravity=1.041"}},
			look:    fgAboveOG,
		},
		{
			ID: "gravity-rises", Watches: from(figures.Working), Worst: notice.Look, Source: assay.CommonPractice,
			When:    "the gravity rises by more than 2 points and nothing was added",
			Example: Example{In: "bottled", Raises: []string{"readings[2].gravity=1.013"}, Spares: []string{"readings[2].gravity=1.012"}},
			look:    gravityRises,
		},
		{
			ID: "volume-grows", Watches: from(figures.Copper), Worst: notice.Look, Source: assay.CommonPractice,
			When:    "more comes out of a step than went in and was added, beyond the readings' doubt",
			Example: Example{In: "bottled", Raises: []string{"racked.volume=22.5 L"}, Spares: []string{"racked.volume=21 L"}},
			look:    volumeGrows,
		},
		{
			ID: "time-backwards", Watches: always, Worst: notice.Mend, Source: assay.CommonPractice,
			When:    "events in an order that cannot be",
			Example: Example{In: "bottled", Raises: []string{"racked.on=2026-02-20"}, Spares: []string{"racked.on=2026-04-20"}},
			look:    timeBackwards,
		},
		{
			ID: "hydrometer-uncorrected", Watches: from(figures.Copper), Worst: notice.Mend, Source: "density of water: Tanaka et al., Metrologia 38 (2001) 301",
			When:    "a gravity with no sample heat, or read above 40 °C",
			Example: Example{In: "bottled", Raises: []string{"readings[2].sample_at=45 C"}, Spares: []string{"readings[2].sample_at=30 C"}},
			look:    hydrometerUncorrected,
		},
		{
			ID: "refractometer-after-pitch", Watches: from(figures.Working), Worst: notice.Mend, Source: "a published study of refractometer readings of fermenting beer, 68 triplets",
			When:    "Brix after pitching without an original gravity, or no hydrometer reading before packaging",
			Example: Example{In: "working", Raises: []string{"fermenter.gravity=", "copper.after.gravity=", "readings[0].gravity=", "readings[1].gravity=", "readings[2].gravity=", "readings[2].brix=6.1"}, Spares: []string{"readings[2].gravity=", "readings[2].brix=6.1"}},
			look:    refractometerAfterPitch,
		},
		{
			ID: "reading-missing", Watches: from(figures.Copper), Worst: notice.Mend, Source: assay.CommonPractice,
			When:    "no original gravity, no gravity near racking, no racked volume or no warmest heat",
			Example: Example{In: "bottled", Raises: []string{"racked.volume="}, On: "2026-03-12"},
			look:    readingMissing,
		},
		{
			ID: "readings-sparse", Watches: []figures.Stage{figures.Working}, Worst: notice.Note, Source: assay.CommonPractice,
			When:    "more than 72 hours without a gravity after the second day (limits.readings_every may say otherwise)",
			Example: Example{In: "working", Spares: []string{"readings[+].when=2026-03-18", "readings[3].gravity=1.010"}, On: "2026-03-20"},
			look:    readingsSparse,
		},
		{
			ID: "yield-outlier", Watches: from(figures.Copper), Worst: notice.Look, Source: assay.CommonPractice,
			When:    "a brewhouse yield under 55 or over 90 % (limits.yield may say otherwise), or 10 off this brewer's own median",
			Example: Example{In: "bottled", Raises: []string{"grist[0].weight=2.4 kg"}, Spares: []string{"grist[0].weight=4.4 kg"}},
			look:    yieldOutlier,
		},
		{
			ID: "volumes-do-not-close", Watches: from(figures.Copper), Worst: notice.Look, Source: assay.CommonPractice,
			When:    "more than a litre astray, or under 5 or over 20 % boiled off in an hour",
			Example: Example{In: "bottled", Raises: []string{"copper.before.volume=34 L"}, Spares: []string{"copper.before.volume=26 L"}},
			look:    volumesDoNotClose,
		},
	}
}

func gravityMistyped(c *inspection) []Found {
	var found []Found
	for _, bad := range c.Impossible {
		if bad.Kind.Name == "gravity" && bad.Guess != "" {
			found = append(found, Found{
				Severity: notice.Mend, Where: bad.Where,
				Says: fmt.Sprintf("A gravity of %s cannot be; %s was probably meant.", bad.Found, bad.Guess),
				Why:  "Nothing can be worked out from it as it stands, and it counts as missing.",
				Do:   fmt.Sprintf("If you meant %s, type that.", bad.Guess),
			})
		}
	}
	return found
}

func gravityImpossible(c *inspection) []Found {
	var found []Found
	for _, bad := range c.Impossible {
		if bad.Kind.Name == "gravity" && bad.Guess == "" {
			found = append(found, c.impossible(bad))
		}
	}
	return found
}

func valueImpossible(c *inspection) []Found {
	var found []Found
	for _, bad := range c.Impossible {
		if bad.Kind.Name != "gravity" {
			found = append(found, c.impossible(bad))
		}
	}
	return found
}

func (c *inspection) impossible(bad figures.Impossible) Found {
	return Found{
		Severity: notice.Mend, Where: bad.Where,
		Says: fmt.Sprintf("A %s of %s cannot be: %s is what is possible.", bad.Kind.Name, bad.Found, c.Text("{"+bad.Limit+"}")),
		Why:  "It counts as missing, and so does everything that needs it.",
		Do:   "Read it again, or correct what was typed.",
	}
}

func fgAboveOG(c *inspection) []Found {
	og, ok := c.Find("og", "")
	if !ok {
		return nil
	}
	var found []Found
	for _, r := range c.GravityReadings() {
		if !c.AboveOG(r) {
			continue
		}
		found = append(found, Found{
			Severity: notice.Mend, Where: r.Where,
			Says: fmt.Sprintf("A later gravity, %s, stands above the original, %s.", assay.SG(r.Gravity.Value), assay.SG(q.Gravity(og.Value))),
			Why:  "Fermentation only lowers gravity: two lines may be swapped, or a reading taken on another scale.",
			Do:   "Compare both lines with your notes and correct the one that is wrong. Until then the later one counts for nothing.",
		})
	}
	return found
}

func gravityRises(c *inspection) []Found {
	var found []Found
	readings := c.GravityReadings()
	for i := 1; i < len(readings); i++ {
		was, is := readings[i-1], readings[i]
		rise := is.Gravity.Value.Points() - was.Gravity.Value.Points()
		if !c.AfterPitching(was) || rise <= risesBy+0.1 || was.Refractometer != is.Refractometer || c.SugarAdded(was.When, is.When) {
			continue
		}
		found = append(found, Found{
			Severity: notice.Look, Where: is.Where,
			Says: fmt.Sprintf("The gravity rose by %.0f points, from %s to %s, and nothing was added.", rise, assay.SG(was.Gravity.Value), assay.SG(is.Gravity.Value)),
			Why:  "Unmixed wort, a warm sample or gas on the hydrometer does that; beer does not.",
			Do:   "Read again: a sample at room heat, its gas shaken out.",
		})
	}
	return found
}

func volumeGrows(c *inspection) []Found {
	var found []Found
	for _, f := range c.Figures {
		if f.ID != "losses" || f.Of == "dumped" || assay.Under(f, 0) != assay.Surely {
			continue
		}
		found = append(found, Found{
			Severity: notice.Look, Where: c.LastOf(f), Of: f.Of,
			Says: fmt.Sprintf("From %s, %s more came out than went in.", f.Of, c.Litres(-f.Value, f.PlusMinus)),
			Why:  "A volume read hot is up to 4 % too big, and a mark may be wrong; yields and priming rest on it.",
			Do:   "Measure once more, cold and level, and note the heat beside a hot reading.",
		})
	}
	return found
}

func hydrometerUncorrected(c *inspection) []Found {
	var found []Found
	for i, r := range c.Gyle.Readings {
		if !r.Gravity.Written() {
			continue
		}
		heat := r.SampleAt
		if !heat.Written() {
			heat = r.Temp
		}
		if f, bad := c.uncorrected(r.Gravity, heat, fmt.Sprintf("readings[%d]", i)); bad {
			found = append(found, f)
		}
	}
	return found
}

func (c *inspection) uncorrected(gravity journal.Value[q.Gravity], heat journal.Value[q.Temperature], of string) (Found, bool) {
	switch {
	case !heat.Written():
		return Found{
			Severity: notice.Note, Where: gravity.Where, Of: of,
			Says: c.Text("No heat is noted for this gravity, so it is taken as read near {20 °C}."),
			Why:  c.Text("A sample at {30 °C} reads nearly three points low."),
			Do:   "Note the sample's heat beside the next one (temp, or sample_at).",
		}, true
	case heat.Value.Celsius() > uncorrectedHot:
		return Found{
			Severity: notice.Mend, Where: heat.Where, Of: of,
			Says: fmt.Sprintf("A sample at %s is too hot for a hydrometer.", c.Heat(heat.Value.Celsius())),
			Why:  "The correction is over six points there, and the glass may crack.",
			Do:   c.Text("Cool the sample in a closed jar to about {20 °C} and read it again."),
		}, true
	}
	return Found{}, false
}

func refractometerAfterPitch(c *inspection) []Found {
	var found []Found
	og, known := c.Find("og", "")
	for _, r := range c.Gyle.Readings {
		if !r.Brix.Written() || !r.When.Written() || !r.When.Middle().After(c.PitchedAt()) {
			continue
		}
		if !known {
			found = append(found, Found{
				Severity: notice.Mend, Where: r.Brix.Where,
				Says: fmt.Sprintf("%s °Bx in fermenting beer says nothing without an original gravity.", q.Plain(float64(r.Brix.Value))),
				Why:  "Alcohol bends light too: a beer at 1.010 shows 5.3 °Bx, which looks like 1.021.",
				Do:   "Note the original gravity, or read a hydrometer.",
			})
		}
	}
	if f, ok := c.onlyRefractometer(); ok && known {
		f.Why = fmt.Sprintf("Worked out from the original gravity, %s, it is good to two or three points at best.", assay.SG(q.Gravity(og.Value)))
		found = append(found, f)
	}
	return found
}

// onlyRefractometer tells whether a packaged beer's final gravity rests on a
// refractometer alone.
func (c *inspection) onlyRefractometer() (Found, bool) {
	if c.Stage < figures.Maturing {
		return Found{}, false
	}
	var last journal.Where
	for _, r := range c.GravityReadings() {
		if !c.AfterPitching(r) {
			continue
		}
		if !r.Refractometer {
			return Found{}, false
		}
		last = r.Where
	}
	return Found{
		Severity: notice.Look, Where: last,
		Says: "The final gravity rests on a refractometer alone.",
		Do:   "Read a hydrometer in a degassed glass, and keep the containers cool until you have.",
	}, last.Written()
}

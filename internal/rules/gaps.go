package rules

import (
	"fmt"
	"regexp"
	"slices"
	"time"

	"gylebook/internal/assay"
	"gylebook/internal/figures"
	"gylebook/internal/journal"
	"gylebook/internal/notice"
	q "gylebook/internal/quantity"
)

// gapRules are about what is lacking among the readings, and what does not add up.
func gapRules() []Rule {
	return []Rule{
		{
			ID: "reading-missing", Watches: from(figures.Copper), Worst: notice.Mend, Source: common,
			When: "no original gravity, no gravity near racking, no racked volume or no warmest heat",
			look: per(wanted, readingMissing),
		},
		{
			ID: "readings-sparse", Watches: []figures.Stage{figures.Working}, Worst: notice.Note, Source: common,
			When: say("more than %s without a gravity after the second day (limits.readings_every may say otherwise)", assay.ReadingsEvery),
			Why:  "Without readings there is no forecast, and quiet looks like finished.",
			Do:   "Read the gravity today and again in two days.",
			look: once(readingsSparse),
		},
		{
			ID: "yield-outlier", Watches: from(figures.Copper), Worst: notice.Look, Source: common,
			When: say("a brewhouse yield under %d or over %s (limits.yield may say otherwise), or %d off this brewer's own median", assay.YieldLow, assay.YieldHigh, yieldOff),
			Why:  "A weight, a volume or the crush slips more often than a mash excels.",
			Do:   "Check the grist's weights, the volume in the fermenter and its gravity.",
			look: once(yieldOutlier),
		},
		{
			ID: "volumes-do-not-close", Watches: from(figures.Copper), Worst: notice.Look, Source: common,
			When: say("more than %q astray, or under %d or over %s boiled off in an hour", assay.ClosesWithin, boilOffLow, boilOffHigh),
			look: volumesDoNotClose,
		},
	}
}

// dated is an event with its moment, in the order in which a gyle lives.
type dated struct {
	what string
	when journal.Moment
}

// timeBackwards looks for events before those they must follow. A future date
// is a plan; a plan out of order is a slip all the same.
func timeBackwards(c *inspection) []Found {
	g := c.Gyle
	line := []dated{{"brewed", g.Brewed}, {"mashed in", g.Mash.Started}, {"boiled", g.Copper.Started}}
	if len(g.Yeast) > 0 {
		line = append(line, dated{"pitched", g.Yeast[0].Pitched})
	}
	line = append(line, dated{"racked", g.Racked.On}, dated{"broached", g.Served.Broached}, dated{"emptied", g.Served.Emptied})
	found := outOfOrder(line)
	for _, p := range g.Packages {
		filled := p.On
		if !filled.Written() {
			filled = g.Racked.On
		}
		found = append(found, outOfOrder([]dated{{"brewed", g.Brewed}, {"filled", filled}, {"broached", p.Broached}, {"emptied", p.Emptied}})...)
	}
	return append(found, per(readings, readBeforeBrewing)(c)...)
}

func outOfOrder(line []dated) []Found {
	var found []Found
	var last dated
	for _, d := range line {
		if !d.when.Written() {
			continue
		}
		if last.when.Written() && assay.EndOf(d.when).Before(last.when.Time) {
			found = append(found, Found{
				Where: d.when.Where,
				Says:  fmt.Sprintf("It was %s on %s, before it was %s on %s.", d.what, assay.Day(d.when), last.what, assay.Day(last.when)),
				Why:   "Ages, intervals and the calendar are reckoned from these dates.",
				Do:    "Correct whichever date is wrong.",
			})
			continue
		}
		last = d
	}
	return found
}

func readBeforeBrewing(c *inspection, r journal.Reading) Found {
	if !r.When.Written() || !c.Gyle.Brewed.Written() || !assay.EndOf(r.When).Before(c.Gyle.Brewed.Time) {
		return Found{}
	}
	return Found{
		Where: r.When.Where,
		Says:  fmt.Sprintf("This reading of %s is dated before brew day, %s.", assay.Day(r.When), assay.Day(c.Gyle.Brewed)),
		Why:   "It cannot be of this beer, and it would spoil the forecast.",
		Do:    "Correct the date, or move the line to the gyle it belongs to.",
	}
}

// gap is a reading that later figures cannot do without, with the keys that have it.
type gap struct {
	lacking bool // at the step where it can still be taken, or after it
	mend    bool // it can be taken now
	finding Found
	keys    []string
}

func wanted(c *inspection) []gap {
	lacks := func(id figures.ID) bool { _, ok := c.Find(id, ""); return !ok }
	beforePitching, packaged := c.Stage == figures.Copper, c.Stage >= figures.Maturing
	fermenter, racked := c.Gyle.Fermenter.Where, c.Gyle.Racked.Where
	return []gap{
		{lacks(figures.IDOG) && !c.DrawnFrom() && (c.wortMade() || !beforePitching), beforePitching, Found{
			Where: fermenter,
			Says:  "There is no original gravity.",
			Why:   "Without it there is no alcohol, attenuation or yield.",
			Do:    "Read the wort before the yeast goes in (fermenter.gravity).",
		}, []string{"fermenter.gravity"}},
		{packaged && lacks(figures.IDFG) && !c.DrawnFrom(), c.justRacked(), Found{
			Where: racked,
			Says:  "There is no gravity from before racking.",
			Why:   "Nothing shows that it had finished, and what is still to come cannot be reckoned.",
			Do:    "Read a degassed glass of it now and note it (readings).",
		}, []string{"readings[].gravity", "readings[].when"}},
		{packaged && !c.Gyle.Racked.Volume.Written() && !c.DrawnFrom(), c.justRacked(), Found{
			Where: racked,
			Says:  "The racked volume is not noted.",
			Why:   "Priming and pints are reckoned from what really came over.",
			Do:    "Measure it, or add up what the containers took (racked.volume).",
		}, []string{"racked.volume"}},
		{packaged && lacks(figures.IDResidualCO2), c.justRacked(), Found{
			Where: racked,
			Says:  "The beer's heat since it slowed is not noted.",
			Why:   c.Text("It decides how much gas was left in it: 0.2 vol between {15 and 22 °C}."),
			Do:    "Note the warmest it stood at (racked.warmest).",
		}, []string{"racked.warmest", "racked.temp", "readings[].temp"}},
	}
}

// readingMissing asks for a reading. Where it was written and could not be read, the
// line is to be put right, and nothing measured again; where it cannot be true, the
// finding about that line says so.
func readingMissing(c *inspection, g gap) Found {
	f := g.finding
	f.note = !g.mend
	if !g.lacking || slices.ContainsFunc(c.Impossible, func(bad figures.Impossible) bool {
		return slices.Contains(g.keys, indices.ReplaceAllString(bad.Where.Key, "[]"))
	}) {
		return Found{}
	}
	for _, key := range g.keys {
		if where := c.Gyle.Unreadable(key); where.Written() {
			f.Where = where
			f.Says = fmt.Sprintf("%s is written, and could not be read.", where.Key)
			f.Do = "Put that line right: its error says how."
			return f
		}
	}
	return f
}

// indices are the numbers of items in a key's path.
var indices = regexp.MustCompile(`\[[0-9]+\]`)

// justRacked tells whether racking was in the last three days, while a reading
// can still be taken of what was racked.
func (c *inspection) justRacked() bool {
	on := c.Gyle.Racked.On
	return on.Written() && c.Now.Sub(on.Time) < 3*24*time.Hour
}

func readingsSparse(c *inspection) Found {
	since := c.PitchedAt()
	if since.IsZero() || c.Now.Sub(since) < 48*time.Hour {
		return Found{}
	}
	where := c.Gyle.Fermenter.Where
	for _, r := range c.Sightings() {
		if r.When.After(since) {
			since, where = r.When, r.Where
		}
	}
	if c.Now.Sub(since) <= c.Habits.Span(assay.ReadingsEvery) {
		return Found{}
	}
	own := "; your settings ask for one every " + c.Habits.Length(assay.ReadingsEvery)
	return Found{Where: where, Says: fmt.Sprintf("No gravity has been read for %s%s.", assay.SpanOf(c.Now.Sub(since)), c.Habits.OwnOrTrade(assay.ReadingsEvery, own, ""))}
}

func yieldOutlier(c *inspection) Found {
	f, ok := c.Find(figures.IDBrewhouseYield, "")
	past, usual := c.Past.Yield, "most brews give 65 to 85 %"
	switch {
	case !ok:
		return Found{}
	case c.Outside(f, assay.YieldLow, assay.YieldHigh) >= assay.Probably:
		usual = c.Habits.OwnOrTrade(assay.YieldLow, "your settings expect "+c.Between(assay.YieldLow, assay.YieldHigh), usual)
	case past.Enough() && assay.Outside(f, past.Median-yieldOff.Number, past.Median+yieldOff.Number) >= assay.Probably:
		usual = fmt.Sprintf("your own gyles give %.0f %% as a rule", past.Median)
	default:
		return Found{}
	}
	return Found{Where: c.LastOf(f), Says: fmt.Sprintf("The brewhouse yield is %s, and %s.", c.Measure(f), usual)}
}

func volumesDoNotClose(c *inspection) []Found {
	found := once(boilOffUnlikely)(c)
	if f, ok := c.Find(figures.IDLosses, "copper to fermenter"); ok && assay.Over(f, assay.ClosesWithin.Number+trubAllowance.Number) == assay.Surely {
		found = append(found, c.astray(f, "the copper and the fermenter"))
	}
	if f, ok := c.Find(figures.IDLosses, "filling"); ok && assay.Over(f, assay.ClosesWithin) == assay.Surely {
		found = append(found, c.astray(f, "what was racked and what the containers hold"))
	}
	return found
}

func (c *inspection) astray(f figures.Figure, between string) Found {
	return Found{
		Where: c.LastOf(f), Of: f.Of,
		Says: fmt.Sprintf("%s went astray between %s.", c.Litres(f.Value, f.PlusMinus), between),
		Why:  "A wrong mark or a leak throws off yield, bitterness and priming alike.",
		Do:   "Measure again, cold and level; note what was left behind or spilt.",
	}
}

// boilOffUnlikely is whether the copper loses an unlikely share in an hour.
func boilOffUnlikely(c *inspection) Found {
	share, ok := c.BoilOffShare()
	if !ok || assay.Outside(share, boilOffLow.Number, boilOffHigh.Number) < assay.Probably {
		return Found{}
	}
	return Found{
		Where: c.LastOf(share),
		Says:  fmt.Sprintf("The copper lost %s %% in an hour; %d to %d is usual.", q.Fixed(share.Value, 0), boilOffLow, boilOffHigh),
		Why:   "A volume read hot is 4 % too big, and a covered or timid boil leaves unwanted flavours.",
		Do:    "Check both volumes and note the heat at which they were read.",
	}
}

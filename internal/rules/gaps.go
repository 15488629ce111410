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
	for _, p := range g.Yeast {
		line = append(line, dated{"pitched", p.Pitched})
		break
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
	return append(found, readingsOutOfOrder(c)...)
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
				Severity: notice.Mend, Where: d.when.Where,
				Says: fmt.Sprintf("It was %s on %s, before it was %s on %s.", d.what, assay.Day(d.when), last.what, assay.Day(last.when)),
				Why:  "Ages, intervals and the calendar are reckoned from these dates.",
				Do:   "Correct whichever date is wrong.",
			})
			continue
		}
		last = d
	}
	return found
}

// readingsOutOfOrder looks for a reading before brew day, or long after the last
// container was emptied.
func readingsOutOfOrder(c *inspection) []Found {
	var found []Found
	for _, r := range c.Gyle.Readings {
		if r.When.Written() && c.Gyle.Brewed.Written() && assay.EndOf(r.When).Before(c.Gyle.Brewed.Time) {
			found = append(found, Found{
				Severity: notice.Mend, Where: r.When.Where,
				Says: fmt.Sprintf("This reading of %s is dated before brew day, %s.", assay.Day(r.When), assay.Day(c.Gyle.Brewed)),
				Why:  "It cannot be of this beer, and it would spoil the forecast.",
				Do:   "Correct the date, or move the line to the gyle it belongs to.",
			})
		}
	}
	return found
}

// readingMissing asks for the readings that later figures cannot do without, at
// the step where they can still be taken.
func readingMissing(c *inspection) []Found {
	var found []Found
	want := func(when bool, severity notice.Severity, at journal.Where, says, why, do string, keys ...string) {
		if when && !c.cannotBe(keys) {
			found = append(found, c.unreadOf(Found{Severity: severity, Where: at, Says: says, Why: why, Do: do}, keys...))
		}
	}
	_, hasOG := c.Find("og", "")
	beforePitching := c.Stage == figures.Copper
	want(!hasOG && !c.DrawnFrom() && (c.wortMade() || !beforePitching), grave(beforePitching), c.Gyle.Fermenter.Where,
		"There is no original gravity.", "Without it there is no alcohol, attenuation or yield.",
		"Read the wort before the yeast goes in (fermenter.gravity).", "fermenter.gravity")
	packaging := c.Stage >= figures.Maturing
	_, hasFG := c.Find("fg", "")
	want(packaging && !hasFG && !c.DrawnFrom(), grave(c.justRacked()), c.Gyle.Racked.Where,
		"There is no gravity from before racking.", "Nothing shows that it had finished, and what is still to come cannot be reckoned.",
		"Read a degassed glass of it now and note it (readings).", "readings[].gravity", "readings[].when")
	want(packaging && !c.Gyle.Racked.Volume.Written() && !c.DrawnFrom(), grave(c.justRacked()), c.Gyle.Racked.Where,
		"The racked volume is not noted.", "Priming and pints are reckoned from what really came over.",
		"Measure it, or add up what the containers took (racked.volume).", "racked.volume")
	_, hasResidual := c.Find("residual-co2", "")
	want(packaging && !hasResidual, grave(c.justRacked()), c.Gyle.Racked.Where,
		"The beer's heat since it slowed is not noted.", c.Text("It decides how much gas was left in it: 0.2 vol between {15 and 22 °C}."),
		"Note the warmest it stood at (racked.warmest).", "racked.warmest", "racked.temp", "readings[].temp")
	return found
}

// unreadOf is a finding that something is not noted where it was, and could not
// be read: then the line is to be put right, and nothing measured again.
func (c *inspection) unreadOf(f Found, keys ...string) Found {
	for _, key := range keys {
		where := c.Gyle.Unreadable(key)
		if !where.Written() {
			continue
		}
		f.Where = where
		f.Says = fmt.Sprintf("%s is written, and could not be read.", where.Key)
		f.Do = "Put that line right: its error says how."
		return f
	}
	return f
}

// cannotBe tells whether a value was written for one of these keys that cannot be
// true: the finding about that line says so, and the reading is not missing.
func (c *inspection) cannotBe(keys []string) bool {
	return slices.ContainsFunc(c.Impossible, func(bad figures.Impossible) bool {
		return slices.Contains(keys, indices.ReplaceAllString(bad.Where.Key, "[]"))
	})
}

// indices are the numbers of items in a key's path.
var indices = regexp.MustCompile(`\[[0-9]+\]`)

// grave is mend at the step that needs the reading, and a note ever after.
func grave(now bool) notice.Severity {
	if now {
		return notice.Mend
	}
	return notice.Note
}

// justRacked tells whether racking was in the last three days, while a reading
// can still be taken of what was racked.
func (c *inspection) justRacked() bool {
	on := c.Gyle.Racked.On
	return on.Written() && c.Now.Sub(on.Time) < 3*24*time.Hour
}

func readingsSparse(c *inspection) []Found {
	readings := c.Sightings()
	since := c.PitchedAt()
	if since.IsZero() || c.Now.Sub(since) < 48*time.Hour {
		return nil
	}
	where := c.Gyle.Fermenter.Where
	for _, r := range readings {
		if r.When.After(since) {
			since, where = r.When, r.Where
		}
	}
	if c.Now.Sub(since) <= c.Habits.ReadingsEvery.Duration {
		return nil
	}
	return []Found{{
		Severity: notice.Note, Where: where,
		Says: fmt.Sprintf("No gravity has been read for %s%s.", assay.SpanOf(c.Now.Sub(since)), c.asksForReadings()),
		Why:  "Without readings there is no forecast, and quiet looks like finished.",
		Do:   "Read the gravity today and again in two days.",
	}}
}

// asksForReadings is how often the settings want one, as the end of a sentence.
func (c *inspection) asksForReadings() string {
	return assay.OwnOrTrade(c.Habits.ReadingsEvery.Own, "; your settings ask for one every "+c.Habits.ReadingsEvery.String(), "")
}

func yieldOutlier(c *inspection) []Found {
	f, ok := c.Find("brewhouse-yield", "")
	if !ok {
		return nil
	}
	past, usual := c.Past.Yield, c.Habits.Yield
	switch {
	case assay.Outside(f, usual.Low, usual.High) >= assay.Probably:
		own := fmt.Sprintf("your settings expect %s to %s %%", q.Plain(usual.Low), q.Plain(usual.High))
		return []Found{c.yieldFound(f, assay.OwnOrTrade(usual.Own, own, "most brews give 65 to 85 %"))}
	case past.Enough() && assay.Over(f, past.Median+yieldOff) >= assay.Probably, past.Enough() && assay.Under(f, past.Median-yieldOff) >= assay.Probably:
		return []Found{c.yieldFound(f, fmt.Sprintf("your own gyles give %.0f %% as a rule", past.Median))}
	}
	return nil
}

func (c *inspection) yieldFound(f figures.Figure, usual string) Found {
	return Found{
		Severity: notice.Look, Where: c.LastOf(f),
		Says: fmt.Sprintf("The brewhouse yield is %s, and %s.", c.Measure(f), usual),
		Why:  "A weight, a volume or the crush slips more often than a mash excels.",
		Do:   "Check the grist's weights, the volume in the fermenter and its gravity.",
	}
}

func volumesDoNotClose(c *inspection) []Found {
	var found []Found
	if f, ok := c.boilOffShare(); ok {
		found = append(found, f)
	}
	if f, ok := c.Find("losses", "copper to fermenter"); ok && assay.Over(f, assay.ClosesWithin+trubAllowance) == assay.Surely {
		found = append(found, c.astray(f, "the copper and the fermenter"))
	}
	if f, ok := c.Find("losses", "filling"); ok && assay.Over(f, assay.ClosesWithin) == assay.Surely {
		found = append(found, c.astray(f, "what was racked and what the containers hold"))
	}
	return found
}

// trubAllowance is what trub, hops and hoses usually keep between copper and
// fermenter, in litres (common practice, no source).
const trubAllowance = 2.0

func (c *inspection) astray(f figures.Figure, between string) Found {
	return Found{
		Severity: notice.Look, Where: c.LastOf(f), Of: f.Of,
		Says: fmt.Sprintf("%s went astray between %s.", c.Litres(f.Value, f.PlusMinus), between),
		Why:  "A wrong mark or a leak throws off yield, bitterness and priming alike.",
		Do:   "Measure again, cold and level; note what was left behind or spilt.",
	}
}

// boilOffShare is whether the copper loses an unlikely share in an hour.
func (c *inspection) boilOffShare() (Found, bool) {
	f, ok := c.Find("boil-off", "")
	before := c.Gyle.Copper.Before.Volume
	if !ok || !before.Written() || before.Value <= 0 {
		return Found{}, false
	}
	share := 100 / before.Value.Litres()
	asShare := f
	asShare.Value, asShare.PlusMinus = f.Value*share, f.PlusMinus*share
	if assay.Over(asShare, boilOffHigh) < assay.Probably && assay.Under(asShare, boilOffLow) < assay.Probably {
		return Found{}, false
	}
	return Found{
		Severity: notice.Look, Where: c.LastOf(f),
		Says: fmt.Sprintf("The copper lost %s %% in an hour; 5 to 20 is usual.", q.Fixed(asShare.Value, 0)),
		Why:  "A volume read hot is 4 % too big, and a covered or timid boil leaves unwanted flavours.",
		Do:   "Check both volumes and note the heat at which they were read.",
	}, true
}

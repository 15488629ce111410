package rules

import (
	"fmt"
	"strings"
	"time"

	"gylebook/internal/assay"
	"gylebook/internal/figures"
	"gylebook/internal/journal"
	"gylebook/internal/notice"
	q "gylebook/internal/quantity"
)

// slipRules are about what can be read and cannot have been meant: a package
// that is not there, a score above the most, two things where one is asked for.
func slipRules() []Rule {
	return []Rule{
		{
			ID: "package-missing", Watches: always, Worst: notice.Look, Source: assay.CommonPractice,
			When:    "a reading, pour, deed or tasting of a package that the entry does not have",
			Example: Example{In: "pouring", Raises: []string{"tastings[0].package=7"}, Spares: []string{"tastings[0].package=0"}, On: "2026-03-28"},
			look:    packageMissing,
		},
		{
			ID: "poured-too-much", Watches: from(figures.Maturing), Worst: notice.Look, Source: assay.CommonPractice,
			When:    "more was poured and dumped than all the containers held, beyond its ±",
			Example: Example{In: "pouring", Raises: []string{"poured[+].when=2026-03-26", "poured[0].volume=24 L"}, Spares: []string{"poured[+].when=2026-03-26", "poured[0].volume=19 L"}, On: "2026-03-28"},
			look:    pouredTooMuch,
		},
		{
			ID: "score-off", Watches: always, Worst: notice.Look, Source: assay.CommonPractice,
			When:    "a score below nought or above what it is out of",
			Example: Example{In: "pouring", Raises: []string{"tastings[0].score=61"}, Spares: []string{"tastings[0].score=50"}, On: "2026-03-28"},
			look:    scoreOff,
		},
		{
			ID: "tasting-date", Watches: always, Worst: notice.Look, Source: assay.CommonPractice,
			When:    "a tasting that is still to come, or within two days of brewing",
			Example: Example{In: "pouring", Raises: []string{"tastings[0].when=2026-03-02"}, Spares: []string{"tastings[0].when=2026-03-27"}, On: "2026-03-28"},
			look:    tastingDate,
		},
		{
			ID: "primed-twice", Watches: from(figures.Working), Worst: notice.Look, Source: assay.CommonPractice,
			When:    "one priming with a weight in all and a weight in each, or with sugar and wort",
			Example: Example{In: "bottled", Raises: []string{"priming.each=2 g"}, Spares: []string{"priming.weight=82 g"}},
			look:    primedTwice,
		},
		{
			ID: "hop-times", Watches: always, Worst: notice.Look, Source: assay.CommonPractice,
			When:    "one line of hops with more than one of boiled, steeped and dry",
			Example: Example{In: "planned", Raises: []string{"hops[0].dry=4 days"}, Spares: []string{"hops[0].boiled=70 min"}},
			look:    hopTimes,
		},
		{
			ID: "alpha-odd", Watches: always, Worst: notice.Look, Source: "growers' sheets: about 2 to 20 %",
			When:    "alpha acids above 25 % or under 1 %",
			Example: Example{In: "planned", Raises: []string{"hops[0].alpha=48 %"}, Spares: []string{"hops[0].alpha=19 %"}},
			look:    alphaOdd,
		},
		{
			ID: "pitch-tiny", Watches: always, Worst: notice.Look, Source: "packets of dried yeast, 11 g for 20 L; a tenth of that is common practice",
			When:    "under a twentieth of a gram of dried yeast for each litre",
			Example: Example{In: "planned", Raises: []string{"yeast[0].weight=0.1 g"}, Spares: []string{"yeast[0].weight=5 g"}},
			look:    pitchTiny,
		},
		{
			ID: "accept-unknown", Watches: always, Worst: notice.Note, Source: "the list of findings",
			When:    "accept names a finding that there is not, and nearly one that there is",
			Example: Example{In: "bottled", Raises: []string{"accept[+].finding=rating-unknow", "accept[0].because=thick glass"}, Spares: []string{"accept[+].finding=rating-unknown", "accept[0].because=thick glass"}},
			look:    acceptUnknown,
		},
	}
}

func packageMissing(c *inspection) []Found {
	var found []Found
	tell := func(n journal.Whole) {
		if !n.Written() || n.N < len(c.Gyle.Packages) {
			return
		}
		found = append(found, Found{
			Severity: notice.Look, Where: n.Where,
			Says: fmt.Sprintf("There is no package %d: %s.", n.N, packageCount(len(c.Gyle.Packages))),
			Why:  "What is said of it counts for none of the containers.",
			Do:   "Correct the number; the first package is number 0.",
		})
	}
	for _, r := range c.Gyle.Readings {
		tell(r.Package)
	}
	for _, p := range c.Gyle.Poured {
		tell(p.Package)
	}
	for _, d := range c.Gyle.Done {
		tell(d.Package)
	}
	for _, t := range c.Gyle.Tastings {
		tell(t.Package)
	}
	return found
}

func packageCount(n int) string {
	switch n {
	case 0:
		return "the entry has none"
	case 1:
		return "the only one is number 0"
	}
	return fmt.Sprintf("they are numbered 0 to %d", n-1)
}

func pouredTooMuch(c *inspection) []Found {
	pints, ok := c.Find("pints", "")
	if !ok {
		return nil
	}
	drawn, last := q.Volume(0), journal.Where{}
	for _, p := range c.Gyle.Poured {
		if p.Volume.Written() && c.Come(p.When) {
			drawn, last = drawn+p.Volume.Value, p.Volume.Where
		}
	}
	for _, d := range c.Gyle.Done {
		if d.Did.Is(journal.Dumped) && d.Volume.Written() && c.Come(d.When) && d.Package.Written() {
			drawn, last = drawn+d.Volume.Value, d.Volume.Where
		}
	}
	if drawn.UKPints() <= pints.Value+assay.DoubtOf(pints.PlusMinus) {
		return nil
	}
	return []Found{{
		Severity: notice.Look, Where: last,
		Says: fmt.Sprintf("%s were poured in all, and there were %s.", c.Pints(drawn.UKPints()), c.Measure(pints)),
		Why:  "A pour was noted twice, or a volume is in another unit.",
		Do:   "Compare the pours with what was filled, and correct the one that is wrong.",
	}}
}

func scoreOff(c *inspection) []Found {
	var found []Found
	for _, t := range c.Gyle.Tastings {
		most := 50.0
		if t.OutOf.Written() {
			most = float64(t.OutOf.Value)
		}
		if score := float64(t.Score.Value); t.Score.Written() && (score < 0 || score > most) {
			found = append(found, Found{
				Severity: notice.Look, Where: t.Score.Where,
				Says: fmt.Sprintf("A score of %s is not between 0 and %s.", q.Plain(score), q.Plain(most)),
				Why:  "Scores are compared as shares of the most that could be given.",
				Do:   "Correct it, or say what it is out of (out_of).",
			})
		}
	}
	return found
}

// youngest is how old no beer is that anybody scores (common practice, no
// source).
const youngest = 48 * time.Hour

func tastingDate(c *inspection) []Found {
	var found []Found
	for _, t := range c.Gyle.Tastings {
		f := Found{Severity: notice.Look, Where: t.When.Where}
		switch {
		case !t.When.Written():
			continue
		case t.When.Time.After(c.Now):
			f.Says = fmt.Sprintf("This tasting is dated %s, which is still to come.", assay.Day(t.When))
			f.Why = "What was tasted is no plan, and its date decides what it is held against."
		case c.Gyle.Brewed.Written() && !c.DrawnFrom() && !t.When.Time.Before(c.Gyle.Brewed.Time) && t.When.Time.Sub(c.Gyle.Brewed.Time) < youngest:
			f.Says = fmt.Sprintf("This tasting is dated %s, and the beer was brewed on %s.", assay.Day(t.When), assay.Day(c.Gyle.Brewed))
			f.Why = "That was wort, or hardly begun: what it tasted of says nothing of the beer."
		case c.Gyle.Brewed.Written() && assay.EndOf(t.When).Before(c.Gyle.Brewed.Time):
			f.Says = fmt.Sprintf("This tasting is dated %s, before it was brewed on %s.", assay.Day(t.When), assay.Day(c.Gyle.Brewed))
			f.Why = "It cannot be of this beer."
		default:
			continue
		}
		f.Do = "Correct the date, if it is a slip."
		found = append(found, f)
	}
	return found
}

func primedTwice(c *inspection) []Found {
	primings := []*journal.Priming{&c.Gyle.Priming}
	for _, k := range c.Containers() {
		primings = append(primings, &k.Package.Priming)
	}
	var found []Found
	for _, p := range primings {
		f := Found{Severity: notice.Look, Where: p.Each.Where, Do: "Leave out the one that was not done."}
		switch sugar := p.Weight.Written() || p.Each.Written(); {
		case p.Wort.Written() && sugar:
			f.Where = p.Wort.Where
			f.Says, f.Why = "This priming has both sugar and wort.", "Only the wort is reckoned."
		case p.Weight.Written() && p.Each.Written():
			f.Says, f.Why = "This priming has a weight in all and a weight in each.", "Only the weight in each is reckoned."
		default:
			continue
		}
		found = append(found, f)
	}
	return found
}

func hopTimes(c *inspection) []Found {
	var found []Found
	for _, h := range c.Gyle.Hops {
		var times []string
		var last journal.Where
		for _, t := range []struct {
			key string
			journal.Where
		}{{"boiled", h.Boiled.Where}, {"steeped", h.Steeped.Where}, {"dry", h.Dry.Where}} {
			if t.Written() {
				times, last = append(times, t.key), t.Where
			}
		}
		if len(times) < 2 {
			continue
		}
		found = append(found, Found{
			Severity: notice.Look, Where: last,
			Says: fmt.Sprintf("This line of hops is %s at once.", strings.Join(times, " and ")),
			Why:  "The same weight would count for bitterness and again for what it does later.",
			Do:   "Write a line for each time hops went in.",
		})
	}
	return found
}

// alphaHigh and alphaLow are beyond what any hop is sold with, in % (growers'
// sheets give about 2 to 20).
const alphaHigh, alphaLow = 25.0, 1.0

func alphaOdd(c *inspection) []Found {
	var found []Found
	for _, h := range c.Gyle.Hops {
		alpha := float64(h.Alpha.Value)
		if !h.Alpha.Written() || h.Form.Is(journal.HopOil) || alpha <= alphaHigh && alpha >= alphaLow {
			continue
		}
		f := Found{
			Severity: notice.Look, Where: h.Alpha.Where,
			Says: fmt.Sprintf("No hop is known with %s %% of alpha acids; 2 to 20 is what they have.", q.Plain(alpha)),
			Why:  "Bitterness goes straight by it.",
			Do:   "Look at the packet again; it may be another figure, or a point is missing.",
		}
		found = append(found, f)
	}
	return found
}

// leastPitch is dried yeast, in grams for each litre, below which a weight is a
// slip: a tenth of what a packet gives (common practice, no source).
const leastPitch = 0.05

func pitchTiny(c *inspection) []Found {
	volume := c.Gyle.Fermenter.Volume
	if !volume.Written() {
		volume = c.Gyle.Aim.Volume
	}
	var total q.Mass
	var last journal.Where
	for _, p := range c.Gyle.Yeast {
		if !p.Weight.Written() || p.Sold.Is(journal.LiquidYeast, journal.YeastSlurry) || p.Starter.Written() {
			return nil // more than this, or something else, went in
		}
		total, last = total+p.Weight.Value, p.Weight.Where
	}
	litres := 20.0
	if volume.Written() && volume.Value > 0 {
		litres = volume.Value.Litres()
	}
	if !last.Written() || total.Grams() >= leastPitch*litres {
		return nil
	}
	return []Found{{
		Severity: notice.Look, Where: last,
		Says: fmt.Sprintf("%s g of yeast is next to nothing for %s; a packet is about 11 g.", q.Plain(total.Grams()), c.Exactly(litres, "L")),
		Why:  "So little starts late, and lets other things start first.",
		Do:   "Correct the weight, if it is a slip; else pitch a packet.",
	}}
}

// acceptUnknown looks for slips in the ids of findings. One that is near to none
// may be of the site, which has findings of its own.
func acceptUnknown(c *inspection) []Found {
	var ids []string
	for _, r := range Rules() {
		ids = append(ids, r.ID)
	}
	var found []Found
	for _, a := range c.Gyle.Accept {
		near := journal.Nearest(a.Finding.Text, ids)
		if !a.Finding.Written() || near == "" || near == a.Finding.Text {
			continue
		}
		found = append(found, Found{
			Severity: notice.Note, Where: a.Finding.Where,
			Says: fmt.Sprintf("There is no finding “%s”; the nearest is %s.", a.Finding.Text, near),
			Why:  "It silences nothing.",
			Do:   fmt.Sprintf("Write %s, if that is meant: the id stands in square brackets after each finding.", near),
		})
	}
	return found
}

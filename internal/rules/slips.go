package rules

import (
	"fmt"
	"strings"

	"gylebook/internal/assay"
	"gylebook/internal/figures"
	"gylebook/internal/journal"
	"gylebook/internal/notice"
	q "gylebook/internal/quantity"
	"gylebook/internal/tasting"
)

// slipRules are about what can be read and cannot have been meant: a package
// that is not there, a score above the most, two things where one is asked for.
func slipRules() []Rule {
	return []Rule{
		{
			ID: "package-missing", Watches: always, Worst: notice.Look, Source: common,
			When: "a reading, pour, deed or tasting of a package that the entry does not have",
			Why:  "What is said of it counts for none of the containers.",
			Do:   "Correct the number; the first package is number 0.",
			look: per(packagesNamed, packageMissing),
		},
		{
			ID: "poured-too-much", Watches: from(figures.Maturing), Worst: notice.Look, Source: common,
			When: "more was poured and dumped than all the containers held, beyond its ±",
			Why:  "A pour was noted twice, or a volume is in another unit.",
			Do:   "Compare the pours with what was filled, and correct the one that is wrong.",
			look: once(pouredTooMuch),
		},
		{
			ID: "score-off", Watches: always, Worst: notice.Look, Source: common,
			When: "a score below nought or above what it is out of",
			Why:  "Scores are compared as shares of the most that could be given.",
			Do:   "Correct it, or say what it is out of (out_of).",
			look: per(tastings, scoreOff),
		},
		{
			ID: "tasting-date", Watches: always, Worst: notice.Look, Source: common,
			When: say("a tasting that is still to come, or within %q of brewing", youngest),
			Do:   "Correct the date, if it is a slip.",
			look: per(tastings, tastingDate),
		},
		{
			ID: "primed-twice", Watches: from(figures.Working), Worst: notice.Look, Source: common,
			When: "one priming with a weight in all and a weight in each, or with sugar and wort",
			Do:   "Leave out the one that was not done.",
			look: per(primings, primedTwice),
		},
		{
			ID: "hop-times", Watches: always, Worst: notice.Look, Source: common,
			When: "one line of hops with more than one of boiled, steeped and dry",
			Why:  "The same weight would count for bitterness and again for what it does later.",
			Do:   "Write a line for each time hops went in.",
			look: per(hopLines, hopTimes),
		},
		{
			ID: "alpha-odd", Watches: always, Worst: notice.Look, Source: "growers' sheets: about 2 to 20 %",
			When: say("alpha acids above %s or under %s", alphaHigh, alphaLow),
			Why:  "Bitterness goes straight by it.",
			Do:   "Look at the packet again; it may be another figure, or a point is missing.",
			look: per(hopLines, alphaOdd),
		},
		{
			ID: "pitch-tiny", Watches: always, Worst: notice.Look,
			Source: "packets of dried yeast, 11 g for 20 L; a tenth of that is common practice",
			When:   say("under %q of dried yeast for each litre", leastPitch),
			Why:    "So little starts late, and lets other things start first.",
			Do:     "Correct the weight, if it is a slip; else pitch a packet.",
			look:   once(pitchTiny),
		},
		{
			ID: "accept-unknown", Watches: always, Worst: notice.Note, Source: "the list of findings",
			When: "accept names a finding that there is not, and nearly one that there is",
			Why:  "It silences nothing.",
			look: per(accepted, acceptUnknown),
		},
	}
}

func packagesNamed(c *inspection) []journal.Whole {
	var all []journal.Whole
	for _, r := range c.Gyle.Readings {
		all = append(all, r.Package)
	}
	for _, p := range c.Gyle.Poured {
		all = append(all, p.Package)
	}
	for _, d := range c.Gyle.Done {
		all = append(all, d.Package)
	}
	for _, t := range c.Gyle.Tastings {
		all = append(all, t.Package)
	}
	return all
}

func packageMissing(c *inspection, n journal.Whole) Found {
	there := len(c.Gyle.Packages)
	if !n.Written() || n.N < there {
		return Found{}
	}
	count := fmt.Sprintf("they are numbered 0 to %d", there-1)
	switch there {
	case 0:
		count = "the entry has none"
	case 1:
		count = "the only one is number 0"
	}
	return Found{Where: n.Where, Says: fmt.Sprintf("There is no package %d: %s.", n.N, count)}
}

func pouredTooMuch(c *inspection) Found {
	pints, ok := c.Find(figures.IDPints, "")
	drawn, last := q.Volume(0), journal.Where{}
	for _, p := range c.Gyle.Poured {
		if p.Volume.Written() && c.Come(p.When) {
			drawn, last = drawn+p.Volume.Value, p.Volume.Where
		}
	}
	for _, d := range c.Deeds(journal.Dumped) {
		if d.Volume.Written() && d.Package.Written() {
			drawn, last = drawn+d.Volume.Value, d.Volume.Where
		}
	}
	if !ok || drawn.UKPints() <= pints.Value+assay.DoubtOf(pints.PlusMinus) {
		return Found{}
	}
	return Found{
		Where: last,
		Says:  fmt.Sprintf("%s were poured in all, and there were %s.", c.Pints(drawn.UKPints()), c.Measure(pints)),
	}
}

func scoreOff(_ *inspection, t journal.Tasting) Found {
	score, most := float64(t.Score.Value), 50.0
	if t.OutOf.Written() {
		most = float64(t.OutOf.Value)
	}
	if !t.Score.Written() || score >= 0 && score <= most {
		return Found{}
	}
	return Found{
		Where: t.Score.Where,
		Says:  fmt.Sprintf("A score of %s is not between 0 and %s.", q.Plain(score), q.Plain(most)),
	}
}

func tastingDate(c *inspection, t journal.Tasting) Found {
	brewed := c.Gyle.Brewed
	f := Found{Where: t.When.Where}
	switch {
	case !t.When.Written():
	case t.When.Time.After(c.Now):
		f.Says = fmt.Sprintf("This tasting is dated %s, which is still to come.", assay.Day(t.When))
		f.Why = "What was tasted is no plan, and its date decides what it is held against."
	case !brewed.Written():
	case assay.EndOf(t.When).Before(brewed.Time):
		f.Says = fmt.Sprintf("This tasting is dated %s, before it was brewed on %s.", assay.Day(t.When), assay.Day(brewed))
		f.Why = "It cannot be of this beer."
	case !c.DrawnFrom() && !t.When.Time.Before(brewed.Time) && t.When.Time.Sub(brewed.Time) < youngest.Duration():
		f.Says = fmt.Sprintf("This tasting is dated %s, and the beer was brewed on %s.", assay.Day(t.When), assay.Day(brewed))
		f.Why = "That was wort, or hardly begun: what it tasted of says nothing of the beer."
	}
	return f
}

// primings are those of the gyle and of each container.
func primings(c *inspection) []*journal.Priming {
	all := []*journal.Priming{&c.Gyle.Priming}
	for _, k := range c.Containers() {
		all = append(all, &k.Package.Priming)
	}
	return all
}

func primedTwice(_ *inspection, p *journal.Priming) Found {
	switch {
	case p.Wort.Written() && (p.Weight.Written() || p.Each.Written()):
		return Found{Where: p.Wort.Where, Says: "This priming has both sugar and wort.", Why: "Only the wort is reckoned."}
	case p.Weight.Written() && p.Each.Written():
		return Found{
			Where: p.Each.Where,
			Says:  "This priming has a weight in all and a weight in each.",
			Why:   "Only the weight in each is reckoned.",
		}
	}
	return Found{}
}

func hopTimes(_ *inspection, h journal.Hop) Found {
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
		return Found{}
	}
	return Found{Where: last, Says: fmt.Sprintf("This line of hops is %s at once.", strings.Join(times, " and "))}
}

func alphaOdd(_ *inspection, h journal.Hop) Found {
	alpha := float64(h.Alpha.Value)
	if !h.Alpha.Written() || h.Form.Is(journal.HopOil) || alpha <= alphaHigh.Number && alpha >= alphaLow.Number {
		return Found{}
	}
	return Found{
		Where: h.Alpha.Where,
		Says:  fmt.Sprintf("No hop is known with %s %% of alpha acids; 2 to 20 is what they have.", q.Plain(alpha)),
	}
}

func pitchTiny(c *inspection) Found {
	volume := c.Gyle.Fermenter.Volume
	if !volume.Written() {
		volume = c.Gyle.Aim.Volume
	}
	var total q.Mass
	var last journal.Where
	for _, p := range c.Gyle.Yeast {
		if !p.Weight.Written() || p.Sold.Is(journal.LiquidYeast, journal.YeastSlurry) || p.Starter.Written() {
			return Found{} // more than this, or something else, went in
		}
		total, last = total+p.Weight.Value, p.Weight.Where
	}
	litres := 20.0
	if volume.Written() && volume.Value > 0 {
		litres = volume.Value.Litres()
	}
	if !last.Written() || total.Grams() >= leastPitch.Number*litres {
		return Found{}
	}
	const says = "%s g of yeast is next to nothing for %s; a packet is about 11 g."
	return Found{Where: last, Says: fmt.Sprintf(says, q.Plain(total.Grams()), c.Exactly(litres, "L"))}
}

func accepted(c *inspection) []journal.Accepted { return c.Gyle.Accept }

// acceptUnknown looks for slips in the ids of findings. One that is near to none
// may be of the site, which has findings of its own.
func acceptUnknown(_ *inspection, a journal.Accepted) Found {
	var ids []string
	for _, r := range Rules() {
		ids = append(ids, r.ID)
	}
	near := journal.Nearest(a.Finding.Text, ids)
	if !a.Finding.Written() || near == "" || near == a.Finding.Text {
		return Found{}
	}
	return Found{
		Where: a.Finding.Where,
		Says:  fmt.Sprintf("There is no finding “%s”; the nearest is %s.", a.Finding.Text, near),
		Do:    fmt.Sprintf("Write %s, if that is meant: the id stands in square brackets after each finding.", near),
	}
}

// tastingRules are about the words of tastings.
func tastingRules() []Rule {
	return []Rule{
		{
			ID: "tasting-word-nearly", Watches: always, Worst: notice.Note, Source: "gylebook's own list of tasting words",
			When: "a word found at a tasting is not known, and a letter or two off one that is",
			Why:  "A word that is not known stays as it is, but leads to no cause.",
			Do:   "If that was meant, write it so; if not, leave it.",
			look: per(wordsFound, tastingWord),
		},
	}
}

func wordsFound(c *inspection) []journal.Text {
	var all []journal.Text
	for _, t := range c.Gyle.Tastings {
		all = append(all, t.Found...)
	}
	return all
}

// tastingWord names the nearest known word for one that is none. A word that is
// near to nothing is the taster's own, and left in peace.
func tastingWord(_ *inspection, f journal.Text) Found {
	spelt, word := tasting.Nearest(f.Text)
	if _, known := tasting.Known(f.Text); known || spelt == "" {
		return Found{}
	}
	meant := "“" + spelt + "”"
	if spelt != word {
		meant += " (which counts as " + word + ")"
	}
	const says = "“%s” is not among the known tasting words; the nearest is %s."
	return Found{Where: f.Where, Says: fmt.Sprintf(says, tasting.Plain(f.Text), meant)}
}

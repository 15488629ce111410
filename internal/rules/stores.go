package rules

import (
	"fmt"
	"math"
	"strings"
	"time"

	"gylebook/internal/assay"
	"gylebook/internal/figures"
	"gylebook/internal/journal"
	"gylebook/internal/notice"
	q "gylebook/internal/quantity"
)

// storeRules are about what was kept too long, hops, yeast and wort, and about the
// liquor.
func storeRules() []Rule {
	return []Rule{
		{
			ID: "hops-old", Watches: always, Worst: notice.Look, Source: "home-brewing suppliers' pages on the keeping of hops",
			When: say("opened or kept warm for over %s (limits.opened_hops_keep may say otherwise), "+
				"or over %s sealed and cold; frozen, they keep twice as long", assay.HopsOpen, assay.HopsSealed),
			Do:   "Rub and smell them: cheese or hay means buy fresh. Otherwise weigh about a fifth more for bitterness.",
			look: per(hopLots, hopsOld),
		},
		{
			ID: "yeast-old", Watches: always, Worst: notice.Look, Source: common,
			When: say("past its date; liquid yeast over %s, or slurry over %s, without a starter", assay.LiquidKeeps, assay.SlurryKeeps),
			Why:  "Few of its cells may be alive: a slow start lets other things in first.",
			Do:   "Grow it in a starter first, or pitch a fresh packet beside it.",
			Next: "use fresher yeast, or grow it in a starter.", mendable: (*inspection).notPitched,
			look: per(pitches, func(c *inspection, p journal.Pitch) Found { return Found{Where: p.Where, Says: c.YeastAge(p)} }),
		},
		{
			ID: "wort-waits", Watches: from(figures.Copper), Worst: notice.Danger, Source: botulism,
			When: say("wort unpitched for over %s (look), or closed in for %s and not shown to be under pH %s (danger)",
				wortLook, wortDanger, wortSafePH),
			look: once(wortWaits),
		},
		{
			ID: "chlorine-left", Watches: always, Worst: notice.Note, Source: common,
			When: "mains liquor, or on brew day liquor from nobody knows where, with nothing noted against chlorine",
			Why:  "What is left of it makes a medicinal taste that no one can take out again.",
			Do:   "Crush half a sulphite tablet into the liquor before you heat it, and note it (liquor.chlorine); none means that there was none.",
			Next: "crush half a sulphite tablet into the liquor before you heat it, and note it.", mendable: (*inspection).notMashed,
			look: once(chlorineLeft),
		},
		{
			ID: "water-unbalanced", Watches: []figures.Stage{figures.Paper, figures.Copper}, Worst: notice.Look,
			Source: "electroneutrality; the bound is common practice, no source",
			When:   say("all six ions on the water's card, and its metals and the others more than %s of charge apart", unbalancedBy),
			Why:    "No water is like that: the report is a mean of several days, in other units, or lacks an ion. What is worked from it may be as far off.",
			Do:     "Look for an ion that is missing or is given as something else, alkalinity as CaCO₃ above all; else ask for one day's analysis.",
			look:   once(waterUnbalanced),
		},
	}
}

// hopLots are the lines of hops, one for each lot that is as old as itself.
func hopLots(c *inspection) []journal.Hop {
	seen := map[string]bool{}
	var lots []journal.Hop
	for _, h := range c.Gyle.Hops {
		since, what := assay.HopsSince(h)
		lot := strings.ToLower(h.Hop.Name) + what + since.String()
		if since.IsZero() || seen[lot] || c.hopsAge(h) <= c.Habits.HopsKeep(h) {
			continue
		}
		seen[lot] = true
		lots = append(lots, h)
	}
	return lots
}

func (c *inspection) hopsAge(h journal.Hop) float64 {
	since, _ := assay.HopsSince(h)
	return assay.MonthsIn(c.UsedOn(h.When).Sub(since))
}

func hopsOld(c *inspection, h journal.Hop) Found {
	_, what := assay.HopsSince(h)
	own := ""
	if c.Habits.Own(assay.HopsOpen) && (h.Opened.Written() || h.Kept.Is(journal.KeptWarm)) {
		own = "; by your settings they keep " + q.Plain(math.Round(10*c.Habits.HopsKeep(h))/10) + " months"
	}
	f := Found{
		Where: h.Where,
		Says:  fmt.Sprintf("The %s %s %.0f months before use%s.", h.Hop.Name, what, c.hopsAge(h), own),
		Why:   c.Text("Even a good keeper loses 15 to 30 % of its alpha in six months at {20 °C}; half of that for each {15 K} colder."),
	}
	if keeps := c.HopCard(h).Keeps; keeps.Written() {
		const says = "By its card this hop keeps %s %% of its alpha in six months at {20 °C}; half the loss for each {15 K} colder."
		f.Why = c.Sayf(says, q.Fixed(float64(keeps.Value), 0))
	}
	if c.Stage > figures.Copper && !h.When.Written() || c.Come(h.When) {
		f.Next = "use fresher hops, or keep them sealed in the freezer."
	}
	return f
}

// wortWaits asks how long wort has stood without yeast. A brewer may only have
// forgotten to note the pitching, and is told so.
func wortWaits(c *inspection) Found {
	pitched, noted := c.pitchedOn()
	unseen := c.Stage == figures.Working && len(c.Gyle.Yeast) == 0 && len(c.Gyle.Readings) == 0
	if !c.wortLeft() || c.DrawnFrom() || c.Stage > figures.Copper && !noted && !unseen {
		return Found{}
	}
	until := c.Now
	if noted && pitched.Before(until) {
		until = pitched
	}
	waited := until.Sub(c.wortMadeAt())
	sealed := c.Gyle.Fermenter.Airlocked
	switch {
	case waited >= wortDanger.Duration() && sealed.Yes() && !c.wortIsSour() && c.Stage < figures.Empty:
		return Found{
			Where: sealed.Where,
			Says:  fmt.Sprintf("This wort stood closed in for %s without yeast.", assay.DaysOf(waited)),
			Why: fmt.Sprintf("Wort over pH %s, shut away from air, can grow botulism; boiling or fermenting afterwards "+
				"is no cure to rely on.", wortSafePH),
			Do: fmt.Sprintf("Pour it away untasted. If it was pitched sooner, stood open, or was below pH %s, note that "+
				"(yeast.pitched, fermenter.airlocked, or a reading's ph).", wortSafePH),
		}
	case waited > wortLook.Duration() && (c.Stage == figures.Copper || unseen):
		return Found{
			Severity: notice.Look, Where: c.wortLine(),
			Says: fmt.Sprintf("This wort has stood for %s, and no yeast is noted.", assay.DaysOf(waited)),
			Why:  "Other things grow in it before the yeast does.",
			Do:   "Pitch it today; or note when you did (yeast, pitched).",
		}
	}
	return Found{}
}

func (c *inspection) pitchedOn() (time.Time, bool) {
	for _, p := range c.Gyle.Yeast {
		if p.Pitched.Written() {
			return p.Pitched.Middle(), true
		}
	}
	return time.Time{}, false
}

// wortMade tells whether the copper is done: wort was measured after it.
func (c *inspection) wortMade() bool {
	return c.Gyle.Copper.After.Written() || c.Gyle.Fermenter.Volume.Written() || c.Gyle.Fermenter.Gravity.Written()
}

// wortLeft tells whether there is wort, though its day was noted by halves: a day later
// its copper is done all the same. What only a plan has, a rest or a length of boil, is
// no note of it.
func (c *inspection) wortLeft() bool {
	if c.wortMade() || c.Gyle.Fermenter.Written() {
		return true
	}
	g := c.Gyle
	begun := g.Mash.Started.Written() || g.Mash.PH.Written() || g.Sparge.LastRunnings.Written() ||
		g.Copper.Before.Written() || g.Copper.Started.Written()
	return begun && c.Stage == figures.Copper && c.Now.Sub(c.wortMadeAt()) > wortLook.Duration()
}

// wortMadeAt is when the copper was done: by its start and length, else brew
// day.
func (c *inspection) wortMadeAt() time.Time {
	copper := c.Gyle.Copper
	switch {
	case copper.Started.Written():
		return copper.Started.Middle().Add(time.Duration(copper.Boiled.Value.Minutes()) * time.Minute)
	case c.Gyle.Brewed.Written():
		return c.Gyle.Brewed.Middle()
	}
	return c.Now
}

func (c *inspection) wortLine() journal.Where {
	if c.Gyle.Fermenter.Written() {
		return c.Gyle.Fermenter.Where
	}
	return c.Gyle.Copper.After.Where
}

// wortIsSour tells whether a reading before pitching shows the wort safely below
// the pH that botulism needs.
func (c *inspection) wortIsSour() bool {
	pitched, noted := c.pitchedOn()
	for _, r := range c.Gyle.Readings {
		ph, ok := figures.AsRead(r.PH)
		if ok && c.Come(r.When) && (!noted || !r.When.Middle().After(pitched)) && assay.Over(ph, wortSafePH) == assay.No {
			return true
		}
	}
	return false
}

func chlorineLeft(c *inspection) Found {
	liquor := c.Gyle.Liquor
	if c.DrawnFrom() || len(c.Gyle.Grist) == 0 || liquor.Chlorine.Written() && !liquor.Chlorine.Is(journal.NoChlorine) {
		return Found{}
	}
	if unknown := !liquor.Water.Written() && !liquor.Chlorine.Written() && c.brewDay(); !unknown && !c.MainsLiquor() {
		return Found{}
	}
	return Found{Where: liquor.Where, Says: "Nothing is noted against chlorine in the liquor."}
}

func waterUnbalanced(c *inspection) Found {
	balance, card, ok := c.WaterBalance()
	if !ok || math.Abs(balance.Value) <= unbalancedBy.Number {
		return Found{}
	}
	much, little := "calcium, magnesium and sodium", "sulphate, chloride and bicarbonate"
	if balance.Value < 0 {
		much, little = little, much
	}
	const says = "The report of %s does not balance: it has %s mEq/L more of %s than of %s."
	return Found{Where: card, Says: fmt.Sprintf(says, c.Gyle.Liquor.Water.Name, q.Fixed(math.Abs(balance.Value), 1), much, little)}
}

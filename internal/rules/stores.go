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

// storeRules are about what was kept too long: hops, yeast, wort; and about
// chlorine in the liquor.
func storeRules() []Rule {
	return []Rule{
		{
			ID: "hops-old", Watches: always, Worst: notice.Look, Source: "home-brewing suppliers' pages on the keeping of hops",
			When:    "opened or kept warm for over 6 months (limits.opened_hops_keep may say otherwise), or over 24 months sealed and cold; frozen, they keep twice as long",
			Example: Example{In: "planned", Raises: []string{"hops[0].opened=2025-06-01"}, Spares: []string{"hops[0].opened=2026-02-01"}},
			look:    hopsOld,
		},
		{
			ID: "yeast-old", Watches: always, Worst: notice.Look, Source: assay.CommonPractice,
			When:    "past its date; liquid yeast over 3 months, or slurry over 14 days, without a starter",
			Example: Example{In: "pitching", Raises: []string{"yeast[0].best_by=2026-01-31"}, Spares: []string{"yeast[0].best_by=2026-03-31"}, On: "2026-03-01"},
			look:    yeastOld,
		},
		{
			ID: "wort-waits", Watches: from(figures.Copper), Worst: notice.Danger, Source: "a home-brewing magazine on botulism in stored wort",
			When:    "wort unpitched for over 24 hours (look), or closed in for 72 hours and not shown to be under pH 4.6 (danger)",
			Example: Example{In: "pitching", Raises: []string{"yeast[0].pitched=2026-03-07"}, Spares: []string{"yeast[0].pitched=2026-03-07", "fermenter.airlocked=false"}, On: "2026-03-05"},
			look:    wortWaits,
		},
		{
			ID: "chlorine-left", Watches: always, Worst: notice.Note, Source: assay.CommonPractice,
			When:    "mains liquor, or on brew day liquor from nobody knows where, with nothing noted against chlorine",
			Example: Example{In: "planned", Raises: []string{"liquor.chlorine=", "liquor.water=tap water"}, Spares: []string{"liquor.water=tap water"}},
			look:    chlorineLeft,
		},
	}
}

func hopsOld(c *inspection) []Found {
	var found []Found
	told := map[string]bool{}
	for _, h := range c.Gyle.Hops {
		since, what := assay.HopsSince(h)
		age := assay.MonthsIn(c.UsedOn(h.When).Sub(since))
		lot := strings.ToLower(h.Hop.Name) + what + since.String()
		if since.IsZero() || age <= c.Habits.HopsKeep(h) || told[lot] {
			continue
		}
		told[lot] = true
		f := Found{
			Severity: notice.Look, Where: h.Where,
			Says: fmt.Sprintf("The %s %s %.0f months before use%s.", h.Hop.Name, what, age, c.asksOfHops(h)),
			Why:  c.hopsWhy(h),
			Do:   "Rub and smell them: cheese or hay means buy fresh. Otherwise weigh about a fifth more for bitterness.",
		}
		if c.Stage > figures.Copper && !h.When.Written() || c.Come(h.When) {
			f = nextTime(f, "use fresher hops, or keep them sealed in the freezer.")
		}
		found = append(found, f)
	}
	return found
}

// asksOfHops is how long the settings say that hops keep so, as the end of a
// sentence.
func (c *inspection) asksOfHops(h journal.Hop) string {
	own := c.Habits.OpenedHops.Own && (h.Opened.Written() || h.Kept.Is(journal.KeptWarm))
	return assay.OwnOrTrade(own, "; by your settings they keep "+assay.Months(c.Habits.HopsKeep(h)), "")
}

func (c *inspection) hopsWhy(h journal.Hop) string {
	if card := c.Card("hop", h.Hop); card != nil && card.Hop != nil && card.Hop.Keeps.Written() {
		return c.Sayf("By its card this hop keeps %s %% of its alpha in six months at {20 °C}; half the loss for each {15 K} colder.", q.Fixed(float64(card.Hop.Keeps.Value), 0))
	}
	return c.Text("Even a good keeper loses 15 to 30 % of its alpha in six months at {20 °C}; half of that for each {15 K} colder.")
}

func yeastOld(c *inspection) []Found {
	var found []Found
	for _, p := range c.Gyle.Yeast {
		says := c.YeastAge(p)
		if says == "" {
			continue
		}
		f := Found{
			Severity: notice.Look, Where: p.Where, Says: says,
			Why: "Few of its cells may be alive: a slow start lets other things in first.",
			Do:  "Grow it in a starter first, or pitch a fresh packet beside it.",
		}
		if c.Stage > figures.Copper {
			f = nextTime(f, "use fresher yeast, or grow it in a starter.")
		}
		found = append(found, f)
	}
	return found
}

// wortWaits asks how long wort has stood without yeast. A brewer may only have
// forgotten to note the pitching, and is told so.
func wortWaits(c *inspection) []Found {
	pitched, noted := c.pitchedOn()
	if !c.wortLeft() || c.DrawnFrom() || c.Stage > figures.Copper && !noted {
		return nil
	}
	until := c.Now
	if noted && pitched.Before(until) {
		until = pitched
	}
	waited := until.Sub(c.wortMadeAt())
	sealed := c.Gyle.Fermenter.Airlocked
	switch {
	case waited >= wortDanger && sealed.Yes() && !c.wortIsSour() && c.Stage < figures.Empty:
		return []Found{{
			Severity: notice.Danger, Where: sealed.Where,
			Says: fmt.Sprintf("This wort stood closed in for %s without yeast.", assay.DaysOf(waited)),
			Why:  "Wort over pH 4.6, shut away from air, can grow botulism; boiling or fermenting afterwards is no cure to rely on.",
			Do:   "Pour it away untasted. If it was pitched sooner, stood open, or was below pH 4.6, note that (yeast.pitched, fermenter.airlocked, or a reading's ph).",
		}}
	case waited > wortLook && c.Stage == figures.Copper:
		return []Found{{
			Severity: notice.Look, Where: c.wortLine(),
			Says: fmt.Sprintf("This wort has stood for %s, and no yeast is noted.", assay.DaysOf(waited)),
			Why:  "Other things grow in it before the yeast does.",
			Do:   "Pitch it today; or note when you did (yeast, pitched).",
		}}
	}
	return nil
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
// its copper is done all the same.
func (c *inspection) wortLeft() bool {
	if c.wortMade() || c.Gyle.Fermenter.Written() {
		return true
	}
	// What only a plan has, a rest or a length of boil, is no note of it.
	g := c.Gyle
	begun := g.Mash.Started.Written() || g.Mash.PH.Written() || g.Sparge.LastRunnings.Written() ||
		g.Copper.Before.Written() || g.Copper.Started.Written()
	return begun && c.Stage == figures.Copper && c.Now.Sub(c.wortMadeAt()) > wortLook
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

func chlorineLeft(c *inspection) []Found {
	liquor := c.Gyle.Liquor
	if c.DrawnFrom() || len(c.Gyle.Grist) == 0 || liquor.Chlorine.Written() && !liquor.Chlorine.Is(journal.NoChlorine) {
		return nil
	}
	mains := c.MainsLiquor()
	unknown := !liquor.Water.Written() && !liquor.Chlorine.Written() && c.brewDay()
	if !mains && !unknown {
		return nil
	}
	f := Found{
		Severity: notice.Note, Where: liquor.Where,
		Says: "Nothing is noted against chlorine in the liquor.",
		Why:  "What is left of it makes a medicinal taste that no one can take out again.",
		Do:   "Crush half a sulphite tablet into the liquor before you heat it, and note it (liquor.chlorine); none means that there was none.",
	}
	if !c.mashing() && c.Stage != figures.Paper {
		f = nextTime(f, "crush half a sulphite tablet into the liquor before you heat it, and note it.")
	}
	return []Found{f}
}

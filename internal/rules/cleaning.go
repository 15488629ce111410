package rules

import (
	"fmt"
	"regexp"
	"slices"

	"gylebook/internal/assay"
	"gylebook/internal/figures"
	"gylebook/internal/journal"
	"gylebook/internal/notice"
)

// cleaningRules are about cleaning, and what it leaves behind.
func cleaningRules() []Rule {
	return []Rule{
		{
			ID: "clean-missing", Watches: sealed, Worst: notice.Look, Source: common,
			When: say("a container filled, or a pump or tap drawn through, with no cleaning noted within %s before "+
				"(limits.clean_for may say otherwise); only where cleaning is noted for this gyle, or the beer is drawn through "+
				"a pump or tap", assay.CleanFor),
			Why:  "What lives in an unclean vessel or line sours the beer.",
			Next: "clean and rinse on the day, and note both.",
			look: func(c *inspection) []Found {
				return append(perContainer(filledUnclean)(c), per((*inspection).Drawn, aboutContainer(drawnUnclean))(c)...)
			},
		},
		{
			ID: "line-overdue", Watches: []figures.Stage{figures.Pouring}, Worst: notice.Mend,
			Source: assay.BarChecklist + "; guidance in the United States allows 14 days",
			When: say("a pump, or a keg's line, in use more than %s after it was last cleaned; limits.lines_cleaned_every may say otherwise",
				assay.LinesEvery),
			Why:  "After a week yeast and bacteria line it, and the beer comes out sour and hazy.",
			Do:   "Clean it before the next pint: cleaner, water until it runs clear, then litmus paper.",
			look: once(lineOverdue),
		},
		{
			ID: "rinse-missing", Watches: sealed, Worst: notice.Danger, Source: assay.BarChecklist,
			When: "a caustic, an acid or bleach used and no rinse noted after it (danger); " +
				"no litmus test after a caustic, or another cleaner not rinsed (look)",
			look: per(cleanings, rinseMissing),
		},
		{
			ID: "cleaner-mix", Watches: always, Worst: notice.Danger,
			Source: "Chemical & Engineering News on accidental mixing of bleach and acid",
			When: say("acid and bleach on the same thing within %q with no rinse between: "+
				"danger on that day and before it, a note afterwards", mixedWithin),
			Why:  "Acid sets chlorine gas free from bleach, and a little of it in a small room can kill.",
			Do:   "Use one of them only. If they have met, leave the room, open it up from outside, and stay out for an hour.",
			look: once(cleanerMix),
		},
	}
}

// pumped tells whether the beer comes through a hand pump, and so through a
// line that holds beer between sessions.
func (c *inspection) pumped() bool { return c.Gyle.Served.Through.Is(journal.HandPump) }

func (c *inspection) tapped() bool {
	return c.Gyle.Served.Through.Is(journal.Tap, journal.PicnicTap)
}

func filledUnclean(c *inspection, k figures.Container) Found {
	filled := c.Filled(k)
	if _, logged := c.LastCleaned(assay.AnyDeed); !logged || !filled.Written() || c.OpenedYet(k) || c.CleanedNear(filled, assay.AnyDeed) {
		return Found{}
	}
	within := c.Habits.OwnOrTrade(assay.CleanFor, c.Habits.Length(assay.CleanFor), "a day")
	return Found{
		Says: fmt.Sprintf("No cleaning is noted within %s of filling %s.", within, k.Called()),
		Do:   "If it was clean, note it (done: cleaned). If not, taste it in a week.",
		late: !c.within(filled.Middle(), freshlyFilled.Duration()),
	}
}

func drawnUnclean(c *inspection, k figures.Container) Found {
	_, logged := c.LastCleaned(assay.AnyDeed)
	switch {
	case c.pumped() && !c.CleanedSince(c.Broached(k), assay.LineDeed) && !c.lineIsOverdue():
		since := c.Habits.OwnOrTrade(assay.CleanFor, c.Habits.Length(assay.CleanFor), "the day")
		return Found{
			Says: fmt.Sprintf("No cleaning of pump and line is noted since %s before it was broached.", since),
			Do:   "Clean pump and line before the next pint, rinse, and note it (done: cleaned).",
		}
	case c.tapped() && !c.CleanedSince(c.Filled(k), assay.AnyDeed):
		return Found{
			Says: fmt.Sprintf("No cleaning is noted for %s or its tap.", k.Called()),
			Do:   "Clean the tap and note it (done: cleaned).",
			late: !logged,
		}
	}
	return Found{}
}

// lineIsOverdue tells whether the line was cleaned once, and too long ago.
func (c *inspection) lineIsOverdue() bool {
	last, any := c.LastCleaned(assay.LineDeed)
	return any && c.Now.Sub(last.Middle()) > c.Habits.Span(assay.LinesEvery)
}

func lineOverdue(c *inspection) Found {
	last, _ := c.LastCleaned(assay.LineDeed)
	inUse := func(k figures.Container) bool { return c.pumped() || c.tapped() && k.Is(journal.Keg) }
	if !c.lineIsOverdue() || !slices.ContainsFunc(c.Drawn(), inUse) {
		return Found{}
	}
	own := c.Habits.OwnOrTrade(assay.LinesEvery, " (your settings allow "+c.Habits.Length(assay.LinesEvery)+")", "")
	return Found{
		Where: last.Where,
		Says: fmt.Sprintf("The line was last cleaned %s ago%s, and beer is still drawn through it.",
			assay.SpanOf(c.Now.Sub(last.Middle())), own),
	}
}

// cleanings are what was cleaned of something that still holds beer.
func cleanings(c *inspection) []journal.Deed {
	if len(c.Live()) == 0 {
		return nil
	}
	return c.Deeds(journal.Cleaned)
}

func rinseMissing(c *inspection, d journal.Deed) Found {
	kind, rinse := c.CleanerKind(d)
	switch {
	case !rinse || kind == "" || kind == journal.OtherCleaner:
	case !c.Followed(d, journal.Rinsed):
		f := Found{Where: d.Where, Says: fmt.Sprintf("After the %s no rinse is noted.", d.With.Name)}
		if kind == journal.Caustic || kind == journal.Hypochlorite || kind == journal.AcidCleaner {
			f.Why = "Left in a line or vessel, it ends up in the glass and burns mouth and throat."
			f.Do = "Serve nothing until it is flushed with water, and litmus paper in what runs off is neutral. " +
				"If that was done, note it (done: rinsed, tested)."
			return f
		}
		f.Severity = notice.Look
		f.Why = "What is left of it flattens the head and can be tasted."
		f.Do = "If it was rinsed, note it (done: rinsed). If not, rinse before you use it."
		return f
	case kind == journal.Caustic && assay.LineDeed(d) && d.What.Written() && !c.Followed(d, journal.Tested):
		return Found{
			Severity: notice.Look, Where: d.Where,
			Says: fmt.Sprintf("After the %s no litmus test is noted.", d.With.Name),
			Why:  "A trace of caustic cannot be seen, and litmus is what shows that it has gone.",
			Do:   "Draw off a glass, dip litmus paper in it, and flush again unless it is neutral.",
		}
	}
	return Found{}
}

func cleanerMix(c *inspection) Found {
	for _, a := range c.Gyle.Done {
		if c.mixedInOne(a) {
			return c.mixed(a.When, assay.Capital(a.With.Name)+" come together.")
		}
		for _, b := range c.Gyle.Done {
			if !c.mixes(a, b) {
				continue
			}
			later := b.When
			if a.When.Time.After(b.When.Time) {
				later = a.When
			}
			return c.mixed(later, fmt.Sprintf("%s and %s come together, with no rinse between.", assay.Capital(a.With.Name), b.With.Name))
		}
	}
	return Found{}
}

// mixed is the warning of acid that met bleach on a day.
func (c *inspection) mixed(on journal.Moment, says string) Found {
	f := Found{Where: on.Where, Says: says}
	if c.Now.Sub(assay.EndOf(on)) > mixDanger.Duration() {
		f.Next = "use one product, and rinse well before any other."
	}
	return f
}

// together are the words between products that were used at once.
var together = regexp.MustCompile(`(?i)\s*(?:,|\+|&|/|\band\b|\bwith\b|\bplus\b|\bthen\b)\s*`)

// mixedInOne tells whether one line has bleach and acid in what was cleaned with.
func (c *inspection) mixedInOne(d journal.Deed) bool {
	var bleach, acid bool
	for _, name := range together.Split(d.With.Name, -1) {
		part := d
		part.With.Name = name
		kind, _ := c.CleanerKind(part)
		bleach, acid = bleach || kind == journal.Hypochlorite, acid || kind == journal.AcidCleaner
	}
	return bleach && acid
}

// mixes tells whether a is bleach and b acid, used on one thing within a day
// with no rinse between them.
func (c *inspection) mixes(a, b journal.Deed) bool {
	bleach, _ := c.CleanerKind(a)
	acid, _ := c.CleanerKind(b)
	cleaned := a.Did.Is(journal.Cleaned) && b.Did.Is(journal.Cleaned)
	if bleach != journal.Hypochlorite || acid != journal.AcidCleaner || !cleaned || !assay.SameThing(a, b) {
		return false
	}
	from, to := a.When, b.When
	if to.Time.Before(from.Time) {
		from, to = to, from
	}
	rinses := func(d journal.Deed) bool {
		return d.Did.Is(journal.Rinsed) && assay.SameThing(d, a) && !d.When.Time.Before(from.Time) && !d.When.Time.After(assay.EndOf(to))
	}
	return to.Time.Sub(assay.EndOf(from)) <= mixedWithin.Duration() && !slices.ContainsFunc(c.Gyle.Done, rinses)
}

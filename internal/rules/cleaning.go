package rules

import (
	"fmt"
	"time"

	"gylebook/internal/assay"
	"gylebook/internal/figures"
	"gylebook/internal/journal"
	"gylebook/internal/notice"
)

// cleaningRules are about cleaning, and what it leaves behind.
func cleaningRules() []Rule {
	return []Rule{
		{
			ID: "clean-missing", Watches: sealed, Worst: notice.Look, Source: assay.CommonPractice,
			When:    "a container filled, or a pump or tap drawn through, with no cleaning noted within 24 hours before (limits.clean_for may say otherwise); only where cleaning is noted for this gyle, or the beer is drawn through a pump or tap",
			Example: Example{In: "pouring", Raises: []string{"done[0].when=2026-02-12", "done[3].when=2026-03-23"}, Spares: []string{"done[3].when=2026-03-24"}, On: "2026-03-28"},
			look:    cleanMissing,
		},
		{
			ID: "line-overdue", Watches: []figures.Stage{figures.Pouring}, Worst: notice.Mend, Source: assay.BarChecklist + "; guidance in the United States allows 14 days",
			When:    "a pump, or a keg's line, in use more than 7 days after it was last cleaned; limits.lines_cleaned_every may say otherwise",
			Example: Example{In: "pouring", Raises: []string{"done[6].did=tested"}, Spares: []string{"done[6].did=cleaned"}, On: "2026-04-03"},
			look:    lineOverdue,
		},
		{
			ID: "rinse-missing", Watches: sealed, Worst: notice.Danger, Source: assay.BarChecklist,
			When:    "a caustic, an acid or bleach used and no rinse noted after it (danger); no litmus test after a caustic, or another cleaner not rinsed (look)",
			Example: Example{In: "pouring", Raises: []string{"done[7].did=tied in"}, Spares: []string{"done[8].did=tied in"}, On: "2026-04-01"},
			look:    rinseMissing,
		},
		{
			ID: "cleaner-mix", Watches: always, Worst: notice.Danger, Source: "Chemical & Engineering News on accidental mixing of bleach and acid",
			When:    "acid and bleach on the same thing within a day with no rinse between: danger on that day and before it, a note afterwards",
			Example: Example{In: "bottled", Raises: []string{"done[+].did=cleaned", "done[0].with=bleach", "done[0].when=2026-03-20 09:00", "done[0].what=bucket", "done[+].did=cleaned", "done[1].with=citric acid", "done[1].when=2026-03-20 10:00", "done[1].what=bucket"}, Spares: []string{"done[+].did=cleaned", "done[0].with=bleach", "done[0].when=2026-03-20 09:00", "done[0].what=bucket", "done[+].did=rinsed", "done[1].when=2026-03-20 09:30", "done[+].did=cleaned", "done[2].with=citric acid", "done[2].when=2026-03-20 10:00", "done[2].what=bucket"}},
			look:    cleanerMix,
		},
	}
}

// pumped tells whether the beer comes through a hand pump, and so through a
// line that holds beer between sessions.
func (c *inspection) pumped() bool { return c.Gyle.Served.Through.Is(journal.HandPump) }

func (c *inspection) tapped() bool {
	return c.Gyle.Served.Through.Is(journal.Tap, journal.PicnicTap)
}

func cleanMissing(c *inspection) []Found {
	var found []Found
	keeps := c.Habits.CleanFor
	_, logged := c.LastCleaned(assay.AnyDeed)
	for _, k := range c.Live() {
		filled := c.Filled(k)
		if !logged || !filled.Written() || c.OpenedYet(k) || c.CleanedNear(filled, assay.AnyDeed) {
			continue
		}
		found = append(found, c.notClean(k, fmt.Sprintf("No cleaning is noted within %s of filling %s.", assay.OwnOrTrade(keeps.Own, keeps.String(), "a day"), k.Called()), "If it was clean, note it (done: cleaned). If not, taste it in a week.", c.within(filled.Middle(), freshlyFilled)))
	}
	for _, k := range c.Drawn() {
		switch {
		case c.pumped() && !c.CleanedSince(c.Broached(k), assay.LineDeed) && !c.lineIsOverdue():
			found = append(found, c.notClean(k, fmt.Sprintf("No cleaning of pump and line is noted since %s before it was broached.", assay.OwnOrTrade(keeps.Own, keeps.String(), "the day")), "Clean pump and line before the next pint, rinse, and note it (done: cleaned).", true))
		case c.tapped() && !c.CleanedSince(c.Filled(k), assay.AnyDeed):
			found = append(found, c.notClean(k, fmt.Sprintf("No cleaning is noted for %s or its tap.", k.Called()), "Clean the tap and note it (done: cleaned).", logged))
		}
	}
	return found
}

// notClean is the finding, a note where nothing can be mended.
func (c *inspection) notClean(k figures.Container, says, do string, mendable bool) Found {
	f := Found{Severity: notice.Look, Where: assay.WhereOf(k), Of: k.Key, Says: says, Why: "What lives in an unclean vessel or line sours the beer.", Do: do}
	if !mendable {
		f = nextTime(f, "clean and rinse on the day, and note both.")
	}
	return f
}

// lineIsOverdue tells whether the line was cleaned once, and too long ago.
func (c *inspection) lineIsOverdue() bool {
	last, any := c.LastCleaned(assay.LineDeed)
	return any && c.Now.Sub(last.Middle()) > c.Habits.LinesCleaned.Duration
}

func lineOverdue(c *inspection) []Found {
	last, _ := c.LastCleaned(assay.LineDeed)
	if !c.lineIsOverdue() {
		return nil
	}
	for _, k := range c.Drawn() {
		if !c.pumped() && !(c.tapped() && k.Is(journal.Keg)) {
			continue
		}
		return []Found{{
			Severity: notice.Mend, Where: last.Where,
			Says: fmt.Sprintf("The line was last cleaned %s ago%s, and beer is still drawn through it.", assay.SpanOf(c.Now.Sub(last.Middle())), c.asksForCleaning()),
			Why:  "After a week yeast and bacteria line it, and the beer comes out sour and hazy.",
			Do:   "Clean it before the next pint: cleaner, water until it runs clear, then litmus paper.",
		}}
	}
	return nil
}

// asksForCleaning is how often the settings want the line cleaned, within a sentence.
func (c *inspection) asksForCleaning() string {
	return assay.OwnOrTrade(c.Habits.LinesCleaned.Own, " (your settings allow "+c.Habits.LinesCleaned.String()+")", "")
}

func rinseMissing(c *inspection) []Found {
	if len(c.Live()) == 0 {
		return nil
	}
	var found []Found
	for _, d := range c.Deeds(journal.Cleaned) {
		kind, rinse := c.CleanerKind(d)
		if !rinse || kind == "" || kind == journal.OtherCleaner {
			continue
		}
		harsh := kind == journal.Caustic || kind == journal.Hypochlorite || kind == journal.AcidCleaner
		switch {
		case !c.Followed(d, journal.Rinsed):
			found = append(found, notRinsed(d, harsh))
		case kind == journal.Caustic && assay.LineDeed(d) && d.What.Written() && !c.Followed(d, journal.Tested):
			found = append(found, Found{
				Severity: notice.Look, Where: d.Where,
				Says: fmt.Sprintf("After the %s no litmus test is noted.", d.With.Name),
				Why:  "A trace of caustic cannot be seen, and litmus is what shows that it has gone.",
				Do:   "Draw off a glass, dip litmus paper in it, and flush again unless it is neutral.",
			})
		}
	}
	return found
}

func notRinsed(d journal.Deed, harsh bool) Found {
	f := Found{
		Severity: notice.Look, Where: d.Where,
		Says: fmt.Sprintf("After the %s no rinse is noted.", d.With.Name),
		Why:  "What is left of it flattens the head and can be tasted.",
		Do:   "If it was rinsed, note it (done: rinsed). If not, rinse before you use it.",
	}
	if harsh {
		f.Severity = notice.Danger
		f.Why = "Left in a line or vessel, it ends up in the glass and burns mouth and throat."
		f.Do = "Serve nothing until it is flushed with water, and litmus paper in what runs off is neutral. If that was done, note it (done: rinsed, tested)."
	}
	return f
}

func cleanerMix(c *inspection) []Found {
	for _, a := range c.Gyle.Done {
		for _, b := range c.Gyle.Done {
			if !c.mixes(a, b) {
				continue
			}
			later := b.When
			if a.When.Time.After(b.When.Time) {
				later = a.When
			}
			f := Found{
				Severity: notice.Danger, Where: later.Where,
				Says: fmt.Sprintf("%s and %s come together, with no rinse between.", assay.Capital(a.With.Name), b.With.Name),
				Why:  "Acid sets chlorine gas free from bleach, and a little of it in a small room can kill.",
				Do:   "Use one of them only. If they have met, leave the room, open it up from outside, and stay out for an hour.",
			}
			if c.Now.Sub(assay.EndOf(later)) > mixDanger {
				f = nextTime(f, "use one product, and rinse well before any other.")
			}
			return []Found{f}
		}
	}
	return nil
}

// mixes tells whether a is bleach and b acid, used on one thing within a day
// with no rinse between them.
func (c *inspection) mixes(a, b journal.Deed) bool {
	bleach, _ := c.CleanerKind(a)
	acid, _ := c.CleanerKind(b)
	if bleach != journal.Hypochlorite || acid != journal.AcidCleaner || !a.Did.Is(journal.Cleaned) || !b.Did.Is(journal.Cleaned) || !assay.SameThing(a, b) {
		return false
	}
	from, to := a.When, b.When
	if to.Time.Before(from.Time) {
		from, to = to, from
	}
	if to.Time.Sub(assay.EndOf(from)) > 24*time.Hour {
		return false
	}
	for _, d := range c.Gyle.Done {
		if d.Did.Is(journal.Rinsed) && assay.SameThing(d, a) && !d.When.Time.Before(from.Time) && !d.When.Time.After(assay.EndOf(to)) {
			return false
		}
	}
	return true
}

package findings

import (
	"fmt"
	"time"

	"gylebook/internal/figures"
	"gylebook/internal/journal"
	"gylebook/internal/notice"
)

const barChecklist = "a cask-quality body's ten tips and its bar checklist"

// cleaningRules are about cleaning, and what it leaves behind.
func cleaningRules() []Rule {
	return []Rule{
		{
			ID: "clean-missing", Watches: sealed, Worst: notice.Look, Source: commonPractice,
			When:    "a container filled, or a pump or tap drawn through, with no cleaning noted within 24 hours before (limits.clean_for may say otherwise); only where cleaning is noted for this gyle, or the beer is drawn through a pump or tap",
			Example: Example{In: "pouring", Raises: []string{"done[0].when=2026-02-12", "done[3].when=2026-03-23"}, Spares: []string{"done[3].when=2026-03-24"}, On: "2026-03-28"},
			look:    cleanMissing,
		},
		{
			ID: "line-overdue", Watches: []figures.Stage{figures.Pouring}, Worst: notice.Mend, Source: barChecklist + "; guidance in the United States allows 14 days",
			When:    "a pump, or a keg's line, in use more than 7 days after it was last cleaned; limits.lines_cleaned_every may say otherwise",
			Example: Example{In: "pouring", Raises: []string{"done[6].did=tested"}, Spares: []string{"done[6].did=cleaned"}, On: "2026-04-03"},
			look:    lineOverdue,
		},
		{
			ID: "rinse-missing", Watches: sealed, Worst: notice.Danger, Source: barChecklist,
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
func (c *Case) pumped() bool { return c.Gyle.Served.Through.Is(journal.HandPump) }

func (c *Case) tapped() bool {
	return c.Gyle.Served.Through.Is(journal.Tap, journal.PicnicTap)
}

// drawn are the containers that are broached, not empty, and drawn through
// something.
func (c *Case) drawn() []figures.Container {
	var drawn []figures.Container
	for _, k := range c.live() {
		if c.OpenedYet(k) && !k.Is(journal.Bottle) {
			drawn = append(drawn, k)
		}
	}
	return drawn
}

// lineDeed tells whether a deed may have been done to the line or pump.
func lineDeed(d journal.Deed) bool {
	return !d.What.Written() || hasWord(d.What.Text, "line*", "pump*", "engine*", "tap*", "everything", "all")
}

// lastCleaned is when the last of the cleanings that fit was done.
func (c *Case) lastCleaned(fits func(journal.Deed) bool) (last journal.Moment, any bool) {
	for _, d := range c.deeds(journal.Cleaned) {
		if fits(d) && (!any || !d.When.Time.Before(last.Time)) {
			last, any = d.When, true
		}
	}
	return last, any
}

func anything(journal.Deed) bool { return true }

func cleanMissing(c *Case) []Found {
	var found []Found
	keeps := c.limits.cleanFor
	_, logged := c.lastCleaned(anything)
	for _, k := range c.live() {
		filled := c.Filled(k)
		if !logged || !filled.Written() || c.OpenedYet(k) || c.cleanedNear(filled, anything) {
			continue
		}
		found = append(found, c.notClean(k, fmt.Sprintf("No cleaning is noted within %s of filling %s.", asks(keeps.own, keeps.String(), "a day"), k.Called()), "If it was clean, note it (done: cleaned). If not, taste it in a week.", c.within(filled.Middle(), freshlyFilled)))
	}
	for _, k := range c.drawn() {
		switch {
		case c.pumped() && !c.cleanedSince(c.Broached(k), lineDeed) && !c.lineIsOverdue():
			found = append(found, c.notClean(k, fmt.Sprintf("No cleaning of pump and line is noted since %s before it was broached.", asks(keeps.own, keeps.String(), "the day")), "Clean pump and line before the next pint, rinse, and note it (done: cleaned).", true))
		case c.tapped() && !c.cleanedSince(c.Filled(k), anything):
			found = append(found, c.notClean(k, fmt.Sprintf("No cleaning is noted for %s or its tap.", k.Called()), "Clean the tap and note it (done: cleaned).", logged))
		}
	}
	return found
}

// notClean is the finding, a note where nothing can be mended.
func (c *Case) notClean(k figures.Container, says, do string, mendable bool) Found {
	f := Found{Severity: notice.Look, Where: whereOf(k), Of: k.Key, Says: says, Why: "What lives in an unclean vessel or line sours the beer.", Do: do}
	if !mendable {
		f = nextTime(f, "clean and rinse on the day, and note both.")
	}
	return f
}

// cleanedNear tells whether something was cleaned so shortly before a moment that it
// was still clean, or on its day.
func (c *Case) cleanedNear(m journal.Moment, fits func(journal.Deed) bool) bool {
	for _, d := range c.deeds(journal.Cleaned) {
		if fits(d) && !endOf(d.When).Before(m.Time.Add(-c.limits.cleanFor.Duration)) && d.When.Time.Before(endOf(m)) {
			return true
		}
	}
	return false
}

// cleanedSince tells whether something was cleaned after a moment, or so shortly
// before it that it was still clean.
func (c *Case) cleanedSince(m journal.Moment, fits func(journal.Deed) bool) bool {
	last, any := c.lastCleaned(fits)
	return any && (!m.Written() || !endOf(last).Before(m.Time.Add(-c.limits.cleanFor.Duration)))
}

// lineIsOverdue tells whether the line was cleaned once, and too long ago.
func (c *Case) lineIsOverdue() bool {
	last, any := c.lastCleaned(lineDeed)
	return any && c.Now.Sub(last.Middle()) > c.limits.linesCleaned.Duration
}

func lineOverdue(c *Case) []Found {
	last, _ := c.lastCleaned(lineDeed)
	if !c.lineIsOverdue() {
		return nil
	}
	for _, k := range c.drawn() {
		if !c.pumped() && !(c.tapped() && k.Is(journal.Keg)) {
			continue
		}
		return []Found{{
			Severity: notice.Mend, Where: last.Where,
			Says: fmt.Sprintf("The line was last cleaned %s ago%s, and beer is still drawn through it.", spanOf(c.Now.Sub(last.Middle())), c.asksForCleaning()),
			Why:  "After a week yeast and bacteria line it, and the beer comes out sour and hazy.",
			Do:   "Clean it before the next pint: cleaner, water until it runs clear, then litmus paper.",
		}}
	}
	return nil
}

// asksForCleaning is how often the settings want the line cleaned, within a sentence.
func (c *Case) asksForCleaning() string {
	return asks(c.limits.linesCleaned.own, " (your settings allow "+c.limits.linesCleaned.String()+")", "")
}

// cleanerKind is what a cleaner is, by its card; "" where nobody knows.
func (c *Case) cleanerKind(d journal.Deed) (kind journal.CleanerKind, rinse bool) {
	card := c.Card("cleaner", d.With)
	if card == nil || card.Cleaner == nil {
		return "", false
	}
	// A card that says nothing of a rinse: it is needed.
	return card.Cleaner.Is.Word, !card.Cleaner.Rinse.No()
}

func rinseMissing(c *Case) []Found {
	if len(c.live()) == 0 {
		return nil
	}
	var found []Found
	for _, d := range c.deeds(journal.Cleaned) {
		kind, rinse := c.cleanerKind(d)
		if !rinse || kind == "" || kind == journal.OtherCleaner {
			continue
		}
		harsh := kind == journal.Caustic || kind == journal.Hypochlorite || kind == journal.AcidCleaner
		switch {
		case !c.followed(d, journal.Rinsed):
			found = append(found, notRinsed(d, harsh))
		case kind == journal.Caustic && lineDeed(d) && d.What.Written() && !c.followed(d, journal.Tested):
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

// followed tells whether a deed of a kind came after a cleaning, for the same
// thing as far as their words can tell.
func (c *Case) followed(clean journal.Deed, kind journal.Act) bool {
	for _, d := range c.deeds(kind) {
		if !endOf(d.When).Before(clean.When.Time) && sameThing(d, clean) {
			return true
		}
	}
	return false
}

// sameThing tells whether two deeds may have been done to one thing: they share
// a word, or one of them names nothing.
func sameThing(a, b journal.Deed) bool {
	if !a.What.Written() || !b.What.Written() {
		return true
	}
	for _, w := range thingWords(a.What.Text) {
		if hasWord(b.What.Text, w, w+"s") || len(w) > 3 && hasWord(b.What.Text, w[:len(w)-1]) {
			return true
		}
	}
	return false
}

func cleanerMix(c *Case) []Found {
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
				Says: fmt.Sprintf("%s and %s come together, with no rinse between.", capital(a.With.Name), b.With.Name),
				Why:  "Acid sets chlorine gas free from bleach, and a little of it in a small room can kill.",
				Do:   "Use one of them only. If they have met, leave the room, open it up from outside, and stay out for an hour.",
			}
			if c.Now.Sub(endOf(later)) > mixDanger {
				f = nextTime(f, "use one product, and rinse well before any other.")
			}
			return []Found{f}
		}
	}
	return nil
}

// mixes tells whether a is bleach and b acid, used on one thing within a day
// with no rinse between them.
func (c *Case) mixes(a, b journal.Deed) bool {
	bleach, _ := c.cleanerKind(a)
	acid, _ := c.cleanerKind(b)
	if bleach != journal.Hypochlorite || acid != journal.AcidCleaner || !a.Did.Is(journal.Cleaned) || !b.Did.Is(journal.Cleaned) || !sameThing(a, b) {
		return false
	}
	from, to := a.When, b.When
	if to.Time.Before(from.Time) {
		from, to = to, from
	}
	if to.Time.Sub(endOf(from)) > 24*time.Hour {
		return false
	}
	for _, d := range c.Gyle.Done {
		if d.Did.Is(journal.Rinsed) && sameThing(d, a) && !d.When.Time.Before(from.Time) && !d.When.Time.After(endOf(to)) {
			return false
		}
	}
	return true
}

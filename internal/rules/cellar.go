package rules

import (
	"fmt"
	"strings"
	"time"

	"gylebook/internal/assay"
	"gylebook/internal/figures"
	"gylebook/internal/journal"
	"gylebook/internal/notice"
)

// cellarRules are about beer that waits to be served, and that has waited too
// long.
func cellarRules() []Rule {
	return []Rule{
		{
			ID: "settle-short", Watches: sealed, Worst: notice.Mend, Source: "a brewing-supplies house's article on beer at the point of sale",
			When: say("moved or stirred up less than %s before it is broached (36 is better; limits.settle_for may say otherwise)", assay.SettleFor),
			look: settleShort,
		},
		{
			ID: "finings-spoiled", Watches: always, Worst: notice.Look, Source: "a brewing-supplies house's article on isinglass; brewery pages on heat",
			When: say("isinglass kept over %s for more than %s (its card may say otherwise), or put into beer over %s",
				finingsKeptAt, finingsKeep, finingsHottest),
			look: finingsSpoiled,
		},
		{
			ID: "broached-too-long", Watches: []figures.Stage{figures.Pouring}, Worst: notice.Mend, Source: "a brewing-supplies house's article on beer at the point of sale; a cask-quality body's ten tips; sellers of bags",
			When: "open for longer than its kind of container keeps (look); mend once a taster finds it sour",
			look: broachedTooLong,
		},
	}
}

func settleShort(c *inspection) []Found {
	var found []Found
	settle := c.Habits.Span(assay.SettleFor)
	for _, k := range c.Live() {
		broach := c.broachOf(k)
		moved, ok := c.lastStirred(k)
		if !ok || !broach.Written() || k.Is(journal.Bottle, journal.Keg) || assay.EndOf(broach).Before(moved.Time) {
			continue
		}
		still := broach.Middle().Sub(moved.Middle())
		if still >= settle {
			continue
		}
		f := Found{
			Severity: notice.Mend, Where: moved.Where, Of: k.Key,
			Says: fmt.Sprintf("%s is moved %.0f hours before it is broached.", the(k), max(still.Hours(), 0)),
			Why:  c.Habits.OwnOrTrade(assay.SettleFor, "Sediment needs time to fall again, "+c.Habits.Length(assay.SettleFor)+" by your settings.", "Sediment needs a day to fall again, and a day and a half is better."),
			Do:   fmt.Sprintf("Leave it alone until %s; broached sooner, its first pints are cloudy.", moved.Middle().Add(settle).Format("15:04 on 2 January")),
		}
		if c.Now.After(moved.Middle().Add(settle)) {
			f = nextTime(f, fmt.Sprintf("have it in its place %s before, and leave it there.", c.Habits.OwnOrTrade(assay.SettleFor, c.Habits.Length(assay.SettleFor), "two days")))
		}
		found = append(found, f)
	}
	return found
}

// broachOf is when a container is broached, or is to be: by its own line, else
// the party it is meant for.
func (c *inspection) broachOf(k figures.Container) journal.Moment {
	if on := c.Broached(k); on.Written() {
		return on
	}
	return c.Gyle.Party.On
}

// lastStirred is the last time before broaching that something shook a
// container up.
func (c *inspection) lastStirred(k figures.Container) (last journal.Moment, any bool) {
	broach := c.broachOf(k)
	for _, d := range c.Gyle.Done {
		stirs := d.Did.Is(journal.Moved, journal.Roused, journal.Stirred)
		if !stirs || !assay.Concerns(d, k) || !d.When.Written() || broach.Written() && d.When.Time.After(assay.EndOf(broach)) || d.When.Time.Before(c.Filled(k).Time) {
			continue
		}
		if !any || d.When.Time.After(last.Time) {
			last, any = d.When, true
		}
	}
	return last, any
}

func finingsSpoiled(c *inspection) []Found {
	var found []Found
	for _, fining := range c.Gyle.Finings {
		if !c.isinglass(fining.With) {
			continue
		}
		says := c.spoiled(fining)
		if says == "" {
			continue
		}
		f := Found{
			Severity: notice.Look, Where: fining.Where, Says: says,
			Why: "Warmth undoes isinglass, and undone it clears nothing.",
			Do:  "Give it a fresh dose, kept cold, with the beer at its coldest.",
		}
		if c.Stage == figures.Empty {
			f = nextTime(f, "keep isinglass in the refrigerator, and fine cold beer.")
		}
		found = append(found, f)
	}
	return found
}

func (c *inspection) isinglass(with journal.Name) bool {
	return assay.HasWord(with.Name, "isinglass") || strings.EqualFold(c.FiningCard(with).Allergen.Text, "fish")
}

// spoiled says what the isinglass or the beer was put through, "" for nothing.
func (c *inspection) spoiled(f journal.Fining) string {
	if beer, ok := figures.AsRead(f.At); ok && assay.IsOver(beer, finingsHottest) {
		return c.Sayf("The isinglass goes into beer at %s; over %s it comes apart.", c.Measure(beer), finingsHottest)
	}
	kept, ok := figures.AsRead(f.KeptAt)
	if !ok || !f.Made.Written() || !assay.IsOver(kept, finingsKeptAt) {
		return ""
	}
	age, keeps := c.UsedOn(f.When).Sub(f.Made.Middle()), finingsKeep.Duration()
	if card := c.FiningCard(f.With).Keeps; card.Written() {
		keeps = card.Value.Span()
	}
	if age <= keeps {
		return ""
	}
	return fmt.Sprintf("The isinglass was kept at %s for %.0f months.", c.Measure(kept), assay.MonthsIn(age))
}

func broachedTooLong(c *inspection) []Found {
	var found []Found
	for _, k := range c.Drawn() {
		broached := c.Broached(k)
		keeps := figures.KeepingOf(k)
		open := c.Now.Sub(broached.Middle())
		longest := time.Duration((keeps.Broached + keeps.BroachOff + c.breather(k)) * 24 * float64(time.Hour))
		if !broached.Written() || open <= longest {
			continue
		}
		f := Found{
			Severity: notice.Look, Where: broached.Where, Of: k.Key,
			Says: fmt.Sprintf("%s has been open for %s; %.0f is as long as most keep.", the(k), assay.DaysOf(open), longest.Hours()/24),
			Why:  "Air, or what comes in with it, turns beer flat and then sour.",
			Do:   "Taste it before you offer it; finish it soon, or let it go.",
		}
		if c.foundSour(k) {
			f.Severity = notice.Mend
			f.Says = strings.TrimSuffix(f.Says, ".") + ", and a taster found it sour."
			f.Do = "Pour it away and wash the container and its tap today."
		}
		found = append(found, f)
	}
	return found
}

// breather is how many more days a cask breather gives.
func (c *inspection) breather(k figures.Container) float64 {
	if k.Is(journal.Cask) && c.Gyle.Served.Breather.Yes() {
		return breatherDays.Number
	}
	return 0
}

// foundSour tells whether anybody has found a container's beer sour since it was
// broached.
func (c *inspection) foundSour(k figures.Container) bool {
	for _, t := range c.Gyle.Tastings {
		if !c.Come(t.When) || t.When.Time.Before(c.Broached(k).Time) || t.Package.Written() && t.Package.N != k.Index {
			continue
		}
		for _, word := range t.Found {
			if assay.HasWord(word.Text, "sour", "vinegar*", "acetic") {
				return true
			}
		}
	}
	return false
}

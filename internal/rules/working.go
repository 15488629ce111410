package rules

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"gylebook/internal/assay"
	"gylebook/internal/figures"
	"gylebook/internal/journal"
	"gylebook/internal/notice"
	q "gylebook/internal/quantity"
)

// workingRules are about fermentation, and whether it was over when the beer was
// sealed.
func workingRules() []Rule {
	return []Rule{
		{
			ID: "not-finished", group: ofFinished, Watches: sealed, Worst: notice.Danger,
			Source: "home-brewing magazines' and suppliers' help pages on finishing before bottling",
			When:   "packaged without two gravities within a point over at least 48 hours, near the final gravity to expect, or with something fermentable or another culture put in after the last of them; look where only limits.level_for asks for longer; mend in a watched soft bag or a cask that was racked early on purpose",
			look:   notFinished,
		},
		{
			ID: "still-to-fall", group: ofFinished, Watches: []figures.Stage{figures.Working, figures.Maturing, figures.Pouring}, Worst: notice.Mend,
			Source: "a fermentation wiki on packaging; 0.504 vol a point by Balling's proportions",
			When:   "gravity above the final gravity to expect when sealed",
			look:   stillToFall,
		},
		{
			ID: "over-attenuated", Watches: []figures.Stage{figures.Working, figures.Maturing, figures.Pouring}, Worst: notice.Danger, Source: common,
			When: say("a gravity more than %s under the least that the yeast's card leaves, or under %s without sugar; "+
				"danger once sealed in something that keeps its shape", overCardBy, dryGravity),
			look: overAttenuated,
		},
		{
			ID: "stuck", Watches: []figures.Stage{figures.Working}, Worst: notice.Mend, Source: common,
			When: say("level for 48 hours more than %s above the final gravity to expect", stuckAbove),
			look: stuck,
		},
	}
}

func notFinished(c *inspection) []Found {
	late := c.Late()
	if len(c.Gyle.Packages) == 0 || c.BegunAsBeer() && len(late) == 0 {
		return nil
	}
	st := c.Stability()
	shown := c.BegunAsBeer() || st.Stable && c.nearExpected()
	var found []Found
	for _, k := range c.Live() {
		if in := lateIn(late, k); shown && len(in) > 0 {
			found = append(found, c.notReadSince(k, in))
			continue
		}
		if shown {
			continue
		}
		f := Found{Where: k.Package.Where, Of: k.Key}
		f.Says, f.Why = c.unfinished(st)
		f.Severity, f.Do = c.unfinishedIn(k)
		if st.AtLeast() && c.nearExpected() {
			// Level for long enough to be safe, and not for as long as the settings ask.
			f.Severity = min(f.Severity, notice.Look)
			f.Do = "Read a degassed glass when you open one: the same gravity again shows that it was done."
		}
		if c.readLevelIn(k) {
			f.Severity = min(f.Severity, notice.Look)
			f.Do = "A glass of it has shown the same gravity since: keep it cool, and read another in a month."
		}
		f.Do = c.readFirst() + f.Do
		found = append(found, f)
	}
	return found
}

// lateIn is what went into a container's beer after its last gravity.
func lateIn(all []figures.Late, k figures.Container) []figures.Late {
	return slices.DeleteFunc(slices.Clone(all), func(l figures.Late) bool { return l.Of != "" && l.Of != k.Key })
}

// notReadSince is a beer that was done, and had something put into it since: a culture
// that may go lower, extract that no reading has followed. What it comes to is told by
// the rules about gas.
func (c *inspection) notReadSince(k figures.Container, late []figures.Late) Found {
	names := make([]string, len(late))
	undated := ""
	for i, l := range late {
		names[i] = l.What
		if !l.Dated {
			undated = " Nobody says when " + l.What + " went in: if it was before, note the day (when)."
		}
	}
	f := Found{
		Severity: notice.Mend, Where: late[0].Where, Of: k.Key,
		Says: fmt.Sprintf("%s went into the beer in %s after the last gravity.", assay.Capital(inWords(names)), k.Called()),
		Why:  "What it still gives is in no reading, and all of it is counted as gas to come." + undated,
		Do:   "Keep it cold, read a degassed glass of it in a week, and note the gravity with package " + strconv.Itoa(k.Index) + ".",
	}
	if p, ok := c.Find(figures.IDGasInAll, k.Key); ok && k.Is(journal.Bottle) && hurtsBottle(p) {
		f.Severity, f.Do = c.unfinishedIn(k)
	}
	return f
}

// inWords joins names: a, b and c.
func inWords(names []string) string {
	if n := len(names); n > 1 {
		return strings.Join(names[:n-1], ", ") + " and " + names[n-1]
	}
	return names[0]
}

// unfinished says on what evidence the beer was not shown to be done.
func (c *inspection) unfinished(st figures.Stability) (says, why string) {
	why = "Sugar that ferments in a sealed container is the commonest cause of bursts; a quiet airlock proves nothing."
	if line := c.unreadGravity(); line.Written() && !st.Stable {
		return fmt.Sprintf("It is not shown to have finished: %s could not be read.", line.Key), why
	}
	switch {
	case len(st.Level) == 0:
		return "It was packaged without a gravity reading after pitching.", why
	case st.AtLeast() && !c.nearExpected():
		fg, _ := c.Find(figures.IDFG, "")
		expected, _ := c.ExpectedByYeast()
		return fmt.Sprintf("It was packaged level at %s, but about %s was to be expected.", assay.SG(q.Gravity(fg.Value)), assay.SG(expected)), why
	case len(st.Level) == 1:
		return "It was packaged without two gravities that agree, " + c.ApartBy() + " apart.", why
	case st.AtLeast():
		why = "Two days are the least that will do; a yeast that is slow at its end may go on for longer."
	}
	return fmt.Sprintf("It was packaged with gravities level for only %s%s.", c.LevelHours(st.Span), c.asksForLevel()), why
}

// asksForLevel is how long the settings want gravities to agree, as the end of a
// sentence that has hours too.
func (c *inspection) asksForLevel() string {
	return either(c.LevelOwn(), "; your settings ask for "+c.ApartBy(), "")
}

// unreadGravity is the first reading that may show that a beer was done, and
// could not be read.
func (c *inspection) unreadGravity() journal.Where {
	for _, key := range []string{"readings[].gravity", "readings[].when"} {
		if where := c.Gyle.Unreadable(key); where.Written() {
			return where
		}
	}
	return journal.Where{}
}

// readFirst is what comes before all else where a reading could not be read: put
// right, it may show the danger away.
func (c *inspection) readFirst() string {
	if line := c.unreadGravity(); line.Written() {
		return fmt.Sprintf("Put line %d right first; if it shows that all is well, this goes. ", line.Line)
	}
	return ""
}

// unfinishedIn is how grave that is in one container, and what to do there.
func (c *inspection) unfinishedIn(k figures.Container) (notice.Severity, string) {
	switch {
	case k.Is(journal.SoftBag):
		return notice.Mend, "Look at the bag daily; chill it and ease the gas out whenever it is firm."
	case k.Is(journal.Cask) && c.Gyle.Racked.Early.Yes():
		return notice.Mend, "Keep the spile soft until it is quiet, and look daily."
	case k.Is(journal.Keg) && relieved(k):
		return notice.Mend, "Vent it daily and read a degassed glass; leave the gas off until it stands still."
	case k.Is(journal.Bottle):
		return notice.Danger, c.relief(k) + " Read it degassed, and note it."
	}
	return notice.Danger, c.relief(k) + " Read a degassed glass."
}

// relieved tells whether a container has a relief valve, by its line or its card.
func relieved(k figures.Container) bool {
	if k.Package.Relief.Written() {
		return k.Package.Relief.Yes()
	}
	return k.Vessel != nil && k.Vessel.Relief.Yes()
}

// nearExpected tells whether the gravity stands near what the yeast should
// reach, as far as anyone knows what that is.
func (c *inspection) nearExpected() bool {
	fg, ok := c.Find(figures.IDFG, "")
	expected, off := c.ExpectedByYeast()
	if !ok || expected == 0 {
		return true
	}
	return c.near(q.Gravity(fg.Value).Points(), expected, off, assay.DoubtOf(fg.PlusMinus))
}

func stillToFall(c *inspection) []Found {
	f, ok := c.Find(figures.IDCO2ToCome, "")
	if !ok || !c.sealing() || c.Gyle.Racked.Early.Yes() {
		return nil // racked early on purpose, the fall is wanted; not-finished says how to mind it
	}
	sure := assay.Over(f, assay.FallsBy)
	if sure < assay.Probably {
		return nil
	}
	do := "Wait until two gravities agree, " + c.ApartBy() + " apart; or cut the priming sugar by as much."
	if c.Stage >= figures.Maturing {
		do = "Keep it cool, watch the containers daily, and vent what can be vented; serve it soon."
	}
	return []Found{{Severity: notice.Mend, Where: c.LastOf(f), Says: c.fallSaid(f, sure), Why: fmt.Sprintf("Each point still to fall gives half a volume, as much as %s.", c.pointInSugar()), Do: do}}
}

// fallSaid is what is still to come, in a sentence: of the gravity, of what went in since,
// or of both.
func (c *inspection) fallSaid(f figures.Figure, sure assay.Certainty) string {
	now, known := c.Find(figures.IDFG, "")
	if !known {
		now, known = c.Find(figures.IDGravityNow, "")
	}
	expected, ends := c.Find(figures.IDFGExpected, "")
	falls := known && ends && now.Value-expected.Value > float64(q.Point)/2
	switch late := lateIn(c.Late(), figures.Container{}); {
	case falls:
		return fmt.Sprintf("The gravity %s from %s to about %s: %s more gas, on top of priming.", sure.Verb("will still fall", "may still fall"), assay.SG(q.Gravity(now.Value)), assay.SG(q.Gravity(expected.Value)), c.Measure(f))
	case len(late) > 0:
		return fmt.Sprintf("%s went in after the last gravity: %s more gas, on top of priming.", assay.Capital(late[0].What), c.Measure(f))
	}
	return fmt.Sprintf("There %s %s of gas still to come, on top of priming.", sure.Verb("is", "may be"), c.Measure(f))
}

// pointInSugar is the sugar that gives as much gas as a point of gravity.
func (c *inspection) pointInSugar() string {
	rate := c.Units.Into("g/L")
	if !rate.Converts() {
		return "2 g of sugar in every litre"
	}
	return fmt.Sprintf("%s %s of sugar in every %s", q.Plain(q.Digits(rate.Of(2), 2)), c.Units.Into("g").Unit, c.Units.Into("L").Unit)
}

// sealing tells whether the beer is closed in, or is to be within a day. A
// racking planned for next week is no reason to hurry anybody.
func (c *inspection) sealing() bool {
	planned := c.Gyle.Racked.On
	switch {
	case c.Stage >= figures.Maturing:
		return true
	case planned.Written():
		return planned.Time.Sub(c.Now) <= sealedWithin.Duration()
	}
	return c.Gyle.Priming.Weight.Written()
}

func overAttenuated(c *inspection) []Found {
	f, ok := c.Find(figures.IDApparentAttenuation, "")
	fg, hasFG := c.Find(figures.IDFG, "")
	lowest := c.Lowest()
	if !ok || !hasFG || lowest.Gravity == 0 || lowest.GoesOn {
		return nil // one that goes on for months is expected to, and counted so
	}
	floor := float64(lowest.Gravity) - overCardBy.Number*float64(q.Point)
	past := lowest.Known && assay.Under(fg, floor) >= assay.Probably
	dry := !lowest.Simple && assay.Under(fg, dryGravity) >= assay.Probably && float64(lowest.Gravity) > dryGravity.Number
	if !past && !dry {
		return nil
	}
	says := fmt.Sprintf("It has fallen to %s, an apparent attenuation of %s", assay.SG(q.Gravity(fg.Value)), c.Measure(f))
	if past {
		says += fmt.Sprintf("; its yeast should stop at %s", assay.SG(lowest.Gravity))
	}
	found := Found{Severity: notice.Look, Where: c.LastOf(fg), Says: says + ".", Why: "A wild or starch-eating yeast may be at work, and it does not stop in the container.", Do: "Taste it, chill it, and read it again in a week before you package it."}
	if lowest.Where.Written() && !c.LastOf(fg).Written() {
		found.Where = lowest.Where
	}
	if c.sealedRigid() {
		found.Severity = notice.Danger
		found.Do = "Chill the containers first, then vent or open them cold, one at a time, with goggles and gloves; read a degassed glass."
	}
	return []Found{found}
}

func (c *inspection) sealedRigid() bool {
	for _, k := range c.Live() {
		if k.Rigid() {
			return true
		}
	}
	return false
}

func stuck(c *inspection) []Found {
	st := c.Stability()
	expected, off := c.ExpectedByYeast()
	if !st.AtLeast() || expected == 0 {
		return nil
	}
	last := st.Level[len(st.Level)-1]
	above := last.Gravity.Value.Points() - expected.Points()
	if above <= stuckAbove.Number {
		return nil
	}
	sure := assay.Surely
	if above-off/float64(q.Point) <= stuckAbove.Number {
		sure = assay.Probably
	}
	return []Found{{
		Severity: notice.Mend, Where: last.Where,
		Says: fmt.Sprintf("It %s stuck: level at %s for %.0f hours, and about %s was to be expected.", sure.Verb("is", "may be"), assay.SG(last.Gravity.Value), st.Span.Hours(), assay.SG(expected)),
		Why:  "The sugar that is left will ferment later, in the container.",
		Do:   c.Text("Bring it to {20 or 21 °C}, rouse the yeast gently, and repitch if two days change nothing. Do not package it."),
	}}
}

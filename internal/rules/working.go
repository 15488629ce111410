package rules

import (
	"fmt"

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
			ID: "not-finished", Watches: []figures.Stage{figures.Maturing, figures.Pouring}, Worst: notice.Danger,
			Source: "home-brewing magazines' and suppliers' help pages on finishing before bottling",
			When:   "packaged without two gravities within a point over at least 48 hours, near the final gravity to expect; look where only limits.level_for asks for longer; mend in a watched soft bag or a cask that was racked early on purpose",
			look:   notFinished,
		},
		{
			ID: "still-to-fall", Watches: []figures.Stage{figures.Working, figures.Maturing, figures.Pouring}, Worst: notice.Mend,
			Source: "a fermentation wiki on packaging; 0.504 vol a point by Balling's proportions",
			When:   "gravity above the final gravity to expect when sealed",
			look:   stillToFall,
		},
		{
			ID: "over-attenuated", Watches: []figures.Stage{figures.Working, figures.Maturing, figures.Pouring}, Worst: notice.Danger, Source: common,
			When: say("attenuation over %s above the yeast's card, or a gravity under %s without sugar; "+
				"danger once sealed in something that keeps its shape", overCard, dryGravity),
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
	if len(c.Gyle.Packages) == 0 || c.BegunAsBeer() {
		return nil
	}
	st := c.Stability()
	if st.Stable && c.nearExpected() {
		return nil
	}
	says, why := c.unfinished(st)
	var found []Found
	for _, k := range c.Containers() {
		if !c.IsFilled(k) || k.Is(journal.Bucket) || c.Spent(k) {
			continue
		}
		f := Found{Where: k.Package.Where, Of: k.Key, Says: says, Why: why}
		f.Severity, f.Do = c.unfinishedIn(k)
		if st.AtLeast() && c.nearExpected() {
			// Level for long enough to be safe, and not for as long as the settings ask.
			f.Severity = min(f.Severity, notice.Look)
			f.Do = "Read a degassed glass when you open one: the same gravity again shows that it was done."
		}
		f.Do = c.readFirst() + f.Do
		found = append(found, f)
	}
	return found
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
		fg, _ := c.Find("fg", "")
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
	case k.Is(journal.Keg) && k.Package.Relief.Yes():
		return notice.Mend, "Vent it daily and read a degassed glass; leave the gas off until it stands still."
	case k.Is(journal.Bottle):
		return notice.Danger, "Move them to the coldest place you have, boxed and covered, wearing goggles and gloves. Open one cold, outdoors, and read it degassed."
	}
	return notice.Danger, "Chill it, then vent it slowly, your face turned away; read a degassed glass."
}

// nearExpected tells whether the gravity stands near what the yeast should
// reach, as far as anyone knows what that is.
func (c *inspection) nearExpected() bool {
	fg, ok := c.Find("fg", "")
	expected, off := c.ExpectedByYeast()
	if !ok || expected == 0 {
		return true
	}
	return q.Gravity(fg.Value).Points()-expected.Points() <= max(assay.NearExpected.Number, off/float64(q.Point))+1000*assay.DoubtOf(fg.PlusMinus)/2
}

func stillToFall(c *inspection) []Found {
	f, ok := c.Find("co2-to-come", "")
	if !ok || !c.sealing() || c.Gyle.Racked.Early.Yes() {
		return nil // racked early on purpose, the fall is wanted; not-finished says how to mind it
	}
	sure := assay.Over(f, assay.FallsBy)
	if sure < assay.Probably {
		return nil
	}
	fg, _ := c.Find("fg", "")
	expected, _ := c.Find("fg-expected", "")
	do := "Wait until two gravities agree, " + c.ApartBy() + " apart; or cut the priming sugar by as much."
	if c.Stage >= figures.Maturing {
		do = "Keep it cool, watch the containers daily, and vent what can be vented; serve it soon."
	}
	return []Found{{
		Severity: notice.Mend, Where: c.LastOf(fg),
		Says: fmt.Sprintf("The gravity %s from %s to about %s: %s more gas, on top of priming.", sure.Verb("will still fall", "may still fall"), assay.SG(q.Gravity(fg.Value)), assay.SG(q.Gravity(expected.Value)), c.Measure(f)),
		Why:  fmt.Sprintf("Each point still to fall gives half a volume, as much as %s.", c.pointInSugar()),
		Do:   do,
	}}
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
	f, ok := c.Find("apparent-attenuation", "")
	fg, hasFG := c.Find("fg", "")
	if !ok || !hasFG {
		return nil
	}
	top, where := c.TopAttenuation()
	past := top > 0 && assay.IsOver(f, top+overCard.Number)
	dry := assay.IsUnder(fg, dryGravity) && !c.sugarInGrist()
	if !past && !dry {
		return nil
	}
	says := fmt.Sprintf("It has fallen to %s, an apparent attenuation of %s", assay.SG(q.Gravity(fg.Value)), c.Measure(f))
	if past {
		says += fmt.Sprintf("; the yeast's card stops at %.0f %%", top)
	}
	found := Found{Severity: notice.Look, Where: c.LastOf(fg), Says: says + ".", Why: "A wild or starch-eating yeast may be at work, and it does not stop in the container.", Do: "Taste it, chill it, and read it again in a week before you package it."}
	if where.Written() && !c.LastOf(fg).Written() {
		found.Where = where
	}
	if c.sealedRigid() {
		found.Severity = notice.Danger
		found.Do = "Chill the containers first, then vent or open them cold, one at a time, with goggles and gloves; read a degassed glass."
	}
	return []Found{found}
}

func (c *inspection) sealedRigid() bool {
	for _, k := range c.Containers() {
		if k.Rigid() && c.IsFilled(k) && !c.Spent(k) {
			return true
		}
	}
	return false
}

func (c *inspection) sugarInGrist() bool {
	for _, g := range c.Gyle.Grist {
		if g.Sugar.Written() {
			return true
		}
	}
	return len(c.Gyle.Added) > 0
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

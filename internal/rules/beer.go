package rules

import (
	"fmt"
	"time"

	"gylebook/internal/assay"
	"gylebook/internal/figures"
	"gylebook/internal/journal"
	"gylebook/internal/notice"
	q "gylebook/internal/quantity"
)

// beerRules are about beer that has done working, or seems to have.
func beerRules() []Rule {
	return []Rule{
		{
			ID: "fg-implausible", Watches: from(figures.Working), Worst: notice.Look, Source: common,
			When: say("an apparent attenuation under %d or over %s once it has stood still or was racked; "+
				"a yeast's card that goes further outranks them", attenuationLow, attenuationHigh),
			look: fgImplausible,
		},
		{
			ID: "beer-ph-off", Watches: from(figures.Working), Worst: notice.Mend, Source: "a brewing-supplies house's article on the pH of beer",
			When: say("at racking surely outside pH %s to %s (look), or over %s (mend)", beerPHLow, beerPHHigh, beerPHSpoils),
			look: beerPHOff,
		},
		{
			ID: "hop-creep", group: ofFinished, Watches: []figures.Stage{figures.Working, figures.Maturing, figures.Pouring}, Worst: notice.Danger,
			Source: "a home-brewing magazine on hop creep: 1 to 2 °P reported, and 3.0 vol that became 4.5",
			When:   say("dry hops, and level for less than %s after them when it was sealed: danger in glass, mend elsewhere", hopsLevel),
			look:   hopCreep,
		},
	}
}

func fgImplausible(c *inspection) []Found {
	f, ok := c.Find(figures.IDApparentAttenuation, "")
	if !ok || c.DrawnFrom() || len(c.Gyle.Added) > 0 || c.Stage == figures.Working && !c.Stability().AtLeast() {
		return nil
	}
	low, high := c.plausible()
	if assay.Outside(f, low, high) < assay.Probably {
		return nil
	}
	out := Found{
		Severity: notice.Look, Where: c.LastOf(f),
		Says: fmt.Sprintf("The apparent attenuation is %s; %s to %s %% is what yeasts do.", c.Measure(f), q.Plain(low), q.Plain(high)),
		Why:  "The instrument is wrong more often than the yeast.",
		Do:   c.Text("Put the hydrometer in water at {20 °C}: it should read 1.000. Then read a degassed sample again."),
	}
	if c.Stage == figures.Empty {
		out = nextTime(out, "try the hydrometer in water first.")
	}
	return []Found{out}
}

// plausible is how far a yeast attenuates, by the trade or by its card where
// that goes further.
func (c *inspection) plausible() (low, high float64) {
	low, high = attenuationLow.Number, attenuationHigh.Number
	for _, p := range c.Gyle.Yeast {
		if card := c.YeastCard(p).Attenuates; card.Written() {
			low, high = min(low, float64(card.Low)), max(high, float64(card.High))
		}
	}
	return low, high
}

func beerPHOff(c *inspection) []Found {
	ph, ok := c.PhAtRacking()
	if !ok {
		return nil
	}
	high, low := assay.Over(ph, beerPHHigh) == assay.Surely, assay.Under(ph, beerPHLow) == assay.Surely && len(c.Gyle.Added) == 0
	if !high && !low {
		return nil
	}
	f := Found{
		Severity: notice.Look, Where: c.LastOf(ph),
		Says: fmt.Sprintf("The beer is at pH %s; %s to %s is usual at racking.", assay.Bare(ph), beerPHLow, beerPHHigh),
		Why:  "So low a figure may be souring, or a meter that has drifted.",
		Do:   "Taste it, and try the meter in fresh buffer.",
	}
	if high {
		f.Why = "The higher the pH, the more can grow in it; a meter that has drifted shows the same."
	}
	switch {
	case c.Stage == figures.Empty:
		f = nextTime(f, "try the meter in fresh buffer before racking.")
	case assay.IsOver(ph, beerPHSpoils):
		f.Severity = notice.Mend
		f.Do = "Try the meter in fresh buffer and read it again. If it is so, keep the beer cold and drink it soon."
	}
	return []Found{f}
}

// hopCreep looks at how long the gravity stood level with the dry hops in it.
func hopCreep(c *inspection) []Found {
	hops, dry := c.lastDryHops()
	if !dry || !c.sealing() {
		return nil
	}
	level := c.levelSince(hops.When)
	if level >= hopsLevel.Duration() {
		return nil
	}
	found := Found{
		Where: hops.Where,
		Says:  fmt.Sprintf("With dry hops in it, the gravity was seen level for only %.0f hours.", level.Hours()),
		Why:   "Hops carry enzymes that free sugar slowly: beer that stood still has gone from 3.0 to 4.5 vol in the bottle.",
	}
	if c.Stage == figures.Working {
		found.Severity = notice.Mend
		found.Do = fmt.Sprintf("Wait until gravities %s apart agree before you seal it; keep it cold from then on.", hopsLevel)
		return []Found{found}
	}
	var all []Found
	for _, k := range c.Live() {
		if c.readLevelIn(k) {
			continue
		}
		f := found
		f.Of = k.Key
		f.Says = fmt.Sprintf("With dry hops in it, the beer in %s was seen level for only %.0f hours.", k.Called(), level.Hours())
		f.Severity, f.Do = notice.Mend, "Keep it cold, ease the gas out whenever it is firm, and read a degassed glass in a week."
		if k.Is(journal.Bottle) && !k.Vessel.Material.Is(journal.PlasticMade, journal.SteelMade) {
			f.Severity = notice.Danger
			f.Do = c.relief(k) + " Read it degassed, and note it."
		}
		all = append(all, f)
	}
	return all
}

// lastDryHops is the last dry hops that have gone in, or would have by now.
func (c *inspection) lastDryHops() (last journal.Hop, any bool) {
	for _, h := range c.Gyle.Hops {
		if h.Dry.Written() && (!h.When.Written() || c.Come(h.When)) && (!any || h.When.Time.After(last.When.Time)) {
			last, any = h, true
		}
	}
	return last, any
}

// levelSince is how long the last level readings span, those before a moment
// left out.
func (c *inspection) levelSince(when journal.Moment) time.Duration {
	var first, last time.Time
	for _, r := range c.Stability().Level {
		if when.Written() && r.When.Before(when.Time) {
			continue
		}
		if first.IsZero() {
			first = r.When
		}
		last = r.When
	}
	return last.Sub(first)
}

// readLevelIn tells whether a glass from a container, read a week or more after
// it was filled, shows that the gravity has not fallen in there. It is the
// answer to a danger of sealing too soon.
func (c *inspection) readLevelIn(k figures.Container) bool {
	fg, known := c.Find(figures.IDFG, "")
	filled := c.Filled(k)
	for _, r := range c.Gyle.Readings {
		of := r.Package.Written() && r.Package.N == k.Index
		if !known || !of || !c.Come(r.When) || !filled.Written() || r.When.Middle().Sub(filled.Middle()) < proofAfter.Duration() {
			continue
		}
		if g, ok := figures.AsRead(r.Gravity); ok && q.Gravity(fg.Value).Points()-q.Gravity(g.Value).Points() <= proofWithin.Number {
			return true
		}
	}
	return false
}

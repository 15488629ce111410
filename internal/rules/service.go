package rules

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"gylebook/internal/assay"
	"gylebook/internal/figures"
	"gylebook/internal/journal"
	"gylebook/internal/notice"
	"gylebook/internal/planning"
)

// serviceRules are about the pump, the glass and the party.
func serviceRules() []Rule {
	return []Rule{
		{
			ID: "serve-temperature", Watches: sealed, Worst: notice.Look, Source: assay.BarChecklist,
			When: say("served outside %d to %s (note), or under %d or over %s (look), which limits.serve_at moves; "+
				"bottles and kegs may be colder", assay.ServeCold, assay.ServeWarm, serveColdest, serveHottest),
			look: once(serveTemperature),
		},
		{
			ID: "party-too-early", Watches: alive, Worst: notice.Mend, Source: common,
			When: "the first container is ready after the party",
			Why:  "Beer that is hurried is hazy at best, and at worst bursts its bottle.",
			Do: "Move the party, or pour another beer. Warming it to {18 °C} saves some days; " +
				"never shorten the wait for two gravities that agree.",
			look: once(partyTooEarly),
		},
		{
			ID: "pints-short", Watches: alive, Worst: notice.Look, Source: "party-planning pages; the share that is lost is common practice",
			When: "fewer pints than the party's guests are likely to drink",
			Why:  "Line and first pull take a pint or so more, and guests bring guests.",
			Do:   "Brew or buy another beer, or pour halves.",
			look: once(pintsShort),
		},
		{
			ID: "units", Watches: alive, Worst: notice.Note, Source: "UK Chief Medical Officers' guideline, by way of the health service",
			When: say("a party's plan comes to more than %s a guest", unitsEach),
			Why:  "The advice is no more than 14 units in a week, spread out.",
			Do:   "Set out water and food, offer halves and something without alcohol, and see that nobody drives.",
			look: once(unitsPlanned),
		},
		{
			ID: "pump-drip", Watches: sealed, Worst: notice.Note, Source: common,
			When: "a container above its hand pump, and no check valve",
			Why:  "It siphons through the pump and drips all night.",
			Do:   "Set it lower than the pump, or fit a check valve in the line.",
			look: once(pumpDrip),
		},
		{
			ID: "plan-late", Watches: []figures.Stage{figures.Paper, figures.Copper, figures.Working}, Worst: notice.Mend,
			Source: "common practice, with the limits of trade articles on cask care",
			When: "not packaged yet, and counted forward from now (or from the day it is to be brewed) it is ready for its party " +
				"only by hurrying (look), or not at all (mend)",
			look: once(planLate),
		},
	}
}

func serveTemperature(c *inspection) Found {
	heat, ok := figures.AsRead(c.Gyle.Served.At)
	low, high := c.Habits.In(assay.ServeCold), c.Habits.In(assay.ServeWarm)
	cold := assay.IsUnder(heat, low) && !c.servedCold()
	if !ok || !cold && !assay.IsOver(heat, high) {
		return Found{}
	}
	f := Found{
		Where: c.LastOf(heat),
		Says: fmt.Sprintf("It is served at %s; %s is where %s.", c.Measure(heat), c.Between(assay.ServeCold, assay.ServeWarm),
			c.Habits.OwnOrTrade(assay.ServeCold, "your settings want it", "ale tastes of most")),
		Why: either(cold, "Cold dulls hops and malt alike, and can make it hazy.", "Warm, it loses its gas and tastes flat."),
		Do: either(cold, "Let it stand out of the cold for an hour first.",
			c.Text("Cool the container, not the glass: a wet cloth and moving air take off {K|three or four|five to seven} degrees.")),
	}
	// As far outside the settings' range it is wrong as the trade's limits lie apart.
	tooHot, tooCold := high+serveHottest.Number-assay.ServeWarm.Number, low-assay.ServeCold.Number+serveColdest.Number
	f.note = !assay.IsOver(heat, tooHot) && !(cold && assay.IsUnder(heat, tooCold))
	return f
}

// servedCold tells whether everything that is left is in bottles or kegs, which
// many like colder.
func (c *inspection) servedCold() bool {
	return !slices.ContainsFunc(c.Live(), func(k figures.Container) bool { return !k.Is(journal.Bottle, journal.Keg) })
}

func partyTooEarly(c *inspection) Found {
	party := c.Gyle.Party.On
	ready, off, ok := c.firstReady()
	late := figures.Figure{Value: ready.Sub(party.Middle()).Hours() / 24, PlusMinus: off}
	if !c.PartyAhead() || !ok || len(c.Drawn()) > 0 || !assay.IsOver(late, lateWorthAWord) {
		return Found{}
	}
	return Found{
		Where: party.Where,
		Says:  fmt.Sprintf("It should be ready about %s, and the party is on %s.", dayMonth(ready), dayMonth(party.Time)),
	}
}

func dayMonth(t time.Time) string { return t.Format("2 January") }

// firstReady is when the first container that is filled should be ready, and its ±
// in days. What is not filled yet has a timetable (plan-late).
func (c *inspection) firstReady() (ready time.Time, off float64, ok bool) {
	for _, f := range c.Figures {
		if f.ID == figures.IDReadyOn && (!ok || f.Date.Before(ready)) {
			ready, off, ok = f.Date.Add(12*time.Hour), f.PlusMinus, true
		}
	}
	return ready, off, ok
}

// plannedPints is what the party is likely to drink: a pint in the first hour,
// half to three quarters in each that follows, and no more than so many.
func (c *inspection) plannedPints(most float64) (each, all float64, ok bool) {
	party := c.Gyle.Party
	if !c.PartyAhead() || !party.Guests.Written() {
		return 0, 0, false
	}
	hours := assay.UsualParty.Number
	if party.Hours.Written() {
		hours = float64(party.Hours.Value)
	}
	each = min(assay.FirstHour.Number+laterHours.Number*max(hours-1, 0), most)
	return each, each * float64(party.Guests.Value), true
}

func pintsShort(c *inspection) Found {
	_, wanted, ok := c.plannedPints(c.Habits.In(assay.MostPints))
	have, known := c.PintsToPour()
	if !ok || !known || !assay.IsUnder(have, wanted) {
		return Found{}
	}
	const says = "There are about %s, and %.0f guests are likely to drink %s."
	return Found{
		Where: c.Gyle.Party.Where,
		Says:  fmt.Sprintf(says, c.Pints(have.Value), float64(c.Gyle.Party.Guests.Value), c.PintCount(wanted)),
	}
}

// unitsPlanned reckons with what guests are likely to drink whatever the settings
// hope: a cap of theirs may be higher than the trade's here, never lower.
func unitsPlanned(c *inspection) Found {
	each, _, ok := c.plannedPints(max(c.Habits.In(assay.MostPints), assay.MostPints.Number))
	pint, known := c.UnitsInAPint()
	if !ok || !known || each*pint <= unitsEach.Number {
		return Found{}
	}
	return Found{
		Where: c.Gyle.Party.Where,
		Says:  fmt.Sprintf("The plan comes to about %s a guest, %.0f units.", c.Units.Fixed(each, "UK pints", 1), each*pint),
	}
}

func pumpDrip(c *inspection) Found {
	served := c.Gyle.Served
	if !c.pumped() || !served.AbovePump.Yes() || served.CheckValve.Yes() || len(c.Live()) == 0 {
		return Found{}
	}
	return Found{Where: served.AbovePump.Where, Says: "The container stands above the pump, and no check valve is noted."}
}

func planLate(c *inspection) Found {
	all := planning.Timetables(c.Sheet)
	if len(all) == 0 {
		return Found{}
	}
	party := c.Gyle.Party.On
	soonest := slices.MinFunc(all, func(a, b planning.Timetable) int { return a.Ready().Compare(b.Ready()) })
	inTime := func(t planning.Timetable) bool { return t.Hurried == 0 && t.Late == 0 }
	days := func(n int) string { return assay.DaysOf(time.Duration(n) * 24 * time.Hour) }
	switch {
	case soonest.Late > 0:
		return Found{
			Where: party.Where,
			Says: fmt.Sprintf("It cannot be ready for the party on %s: hurried as far as is right, in a %s, it is ready on %s.",
				dayMonth(party.Time), strings.TrimSuffix(soonest.Name, "s"), dayMonth(soonest.Ready())),
			Why: "Two gravities that agree, " + c.ApartBy() + " apart, and a day standing still cannot be given up: " +
				"one keeps bottles whole, the other keeps beer clear.",
			Do: fmt.Sprintf("Move the party by %s, or pour another beer.", days(soonest.Late)),
		}
	case slices.ContainsFunc(all, inTime) || float64(soonest.Hurried) < hurryWorthAWord.Number:
		return Found{}
	}
	return Found{
		Severity: notice.Look, Where: party.Where,
		Says: fmt.Sprintf("For the party on %s it lacks %s of its usual time, and can be ready only by hurrying.",
			dayMonth(party.Time), days(soonest.Hurried)),
		Why: "Conditioned warmer and settled for less long, it may be less bright and less lively.",
		Do:  c.Sayf("Condition it at {18 °C}, never over {19 °C} in a cask, and leave two level gravities %s apart as they are.", c.ApartBy()),
	}
}

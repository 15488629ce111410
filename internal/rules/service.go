package rules

import (
	"fmt"
	"time"

	"gylebook/internal/assay"
	"gylebook/internal/figures"
	"gylebook/internal/journal"
	"gylebook/internal/notice"
)

// serviceRules are about the pump, the glass and the party.
func serviceRules() []Rule {
	return []Rule{
		{
			ID: "serve-temperature", Watches: sealed, Worst: notice.Look, Source: assay.BarChecklist,
			When:    "served outside 10 to 14 °C (note), or under 8 or over 16 °C (look), which limits.serve_at moves; bottles and kegs may be colder",
			Example: Example{In: "pouring", Raises: []string{"served.at=18 C"}, Spares: []string{"served.at=14 C"}, On: "2026-03-28"},
			look:    serveTemperature,
		},
		{
			ID: "party-too-early", Watches: alive, Worst: notice.Mend, Source: assay.CommonPractice,
			When:    "the first container is ready after the party",
			Example: Example{In: "bagged", Raises: []string{"party.on=2026-03-21"}, Spares: []string{"party.on=2026-03-28"}, On: "2026-03-14"},
			look:    partyTooEarly,
		},
		{
			ID: "pints-short", Watches: alive, Worst: notice.Look, Source: "party-planning pages; the share that is lost is common practice",
			When:    "fewer pints than the party's guests are likely to drink",
			Example: Example{In: "bagged", Raises: []string{"party.on=2026-04-04", "party.guests=30", "party.hours=3"}, Spares: []string{"party.on=2026-04-04", "party.guests=12", "party.hours=3"}},
			look:    pintsShort,
		},
		{
			ID: "units", Watches: alive, Worst: notice.Note, Source: "UK Chief Medical Officers' guideline, by way of the health service",
			When:    "a party's plan comes to more than 6 units a guest",
			Example: Example{In: "bagged", Raises: []string{"party.on=2026-04-04", "party.guests=6", "party.hours=5"}, Spares: []string{"party.on=2026-04-04", "party.guests=6", "party.hours=3"}},
			look:    unitsPlanned,
		},
		{
			ID: "pump-drip", Watches: sealed, Worst: notice.Note, Source: assay.CommonPractice,
			When:    "a container above its hand pump, and no check valve",
			Example: Example{In: "pouring", Raises: []string{"served.above_pump=true", "served.check_valve=false"}, Spares: []string{"served.above_pump=true", "served.check_valve=true"}, On: "2026-03-28"},
			look:    pumpDrip,
		},
	}
}

func serveTemperature(c *inspection) []Found {
	heat, ok := figures.AsRead(c.Gyle.Served.At)
	if !ok {
		return nil
	}
	right := c.Habits.ServeAt
	warm := assay.Over(heat, right.High) >= assay.Probably
	cold := assay.Under(heat, right.Low) >= assay.Probably && !c.servedCold()
	if !warm && !cold {
		return nil
	}
	f := Found{
		Severity: notice.Note, Where: c.LastOf(heat),
		Says: fmt.Sprintf("It is served at %s; %s is where %s.", c.Measure(heat), c.Units.Between(right.Low, right.High, "°C"), assay.OwnOrTrade(right.Own, "your settings want it", "ale tastes of most")),
		Why:  "Warm, it loses its gas and tastes flat.",
		Do:   c.Text("Cool the container, not the glass: a wet cloth and moving air take off {K|three or four|five to seven} degrees."),
	}
	if cold {
		f.Why, f.Do = "Cold dulls hops and malt alike, and can make it hazy.", "Let it stand out of the cold for an hour first."
	}
	if assay.Over(heat, right.High+serveOver) >= assay.Probably || cold && assay.Under(heat, right.Low-serveUnder) >= assay.Probably {
		f.Severity = notice.Look
	}
	return []Found{f}
}

// servedCold tells whether everything that is left is in bottles or kegs, which
// many like colder.
func (c *inspection) servedCold() bool {
	for _, k := range c.Live() {
		if !k.Is(journal.Bottle, journal.Keg) {
			return false
		}
	}
	return true
}

func partyTooEarly(c *inspection) []Found {
	party := c.Gyle.Party.On
	ready, off, ok := c.firstReady()
	if !c.PartyAhead() || !ok || len(c.Drawn()) > 0 {
		return nil
	}
	late := figures.Figure{Value: ready.Sub(party.Middle()).Hours() / 24, PlusMinus: off}
	if assay.Over(late, 0.5) < assay.Probably {
		return nil
	}
	return []Found{{
		Severity: notice.Mend, Where: party.Where,
		Says: fmt.Sprintf("It should be ready about %s, and the party is on %s.", ready.Format("2 January"), party.Time.Format("2 January")),
		Why:  "Beer that is hurried is hazy at best, and at worst bursts its bottle.",
		Do:   c.Text("Move the party, or pour another beer. Warming it to {18 °C} saves some days; never shorten the wait for two gravities that agree."),
	}}
}

// firstReady is when the first container that is filled should be ready, and its ±
// in days. What is not filled yet has a timetable (plan-late).
func (c *inspection) firstReady() (ready time.Time, off float64, ok bool) {
	for _, f := range c.Figures {
		if f.ID == "ready-on" && (!ok || f.Date.Before(ready)) {
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
	hours := assay.UsualParty
	if party.Hours.Written() {
		hours = float64(party.Hours.Value)
	}
	each = min(assay.FirstHour+laterHours*max(hours-1, 0), most)
	return each, each * float64(party.Guests.Value), true
}

func pintsShort(c *inspection) []Found {
	_, wanted, ok := c.plannedPints(c.Habits.PintsEach.Most)
	have, known := c.PintsToPour()
	if !ok || !known || assay.Under(have, wanted) < assay.Probably {
		return nil
	}
	return []Found{{
		Severity: notice.Look, Where: c.Gyle.Party.Where,
		Says: fmt.Sprintf("There are about %s, and %.0f guests are likely to drink %s.", c.Pints(have.Value), float64(c.Gyle.Party.Guests.Value), c.PintCount(wanted)),
		Why:  "Line and first pull take a pint or so more, and guests bring guests.",
		Do:   "Brew or buy another beer, or pour halves.",
	}}
}

// unitsPlanned reckons with what guests are likely to drink whatever the settings
// hope: a cap of theirs may be higher than the trade's here, never lower.
func unitsPlanned(c *inspection) []Found {
	each, _, ok := c.plannedPints(max(c.Habits.PintsEach.Most, assay.MostPints))
	pint, known := c.UnitsInAPint()
	if !ok || !known || each*pint <= unitsEach {
		return nil
	}
	return []Found{{
		Severity: notice.Note, Where: c.Gyle.Party.Where,
		Says: fmt.Sprintf("The plan comes to about %s a guest, %.0f units.", c.Units.Fixed(each, "UK pints", 1), each*pint),
		Why:  "The advice is no more than 14 units in a week, spread out.",
		Do:   "Set out water and food, offer halves and something without alcohol, and see that nobody drives.",
	}}
}

func pumpDrip(c *inspection) []Found {
	served := c.Gyle.Served
	if !c.pumped() || !served.AbovePump.Yes() || served.CheckValve.Yes() || len(c.Live()) == 0 {
		return nil
	}
	return []Found{{
		Severity: notice.Note, Where: served.AbovePump.Where,
		Says: "The container stands above the pump, and no check valve is noted.",
		Why:  "It siphons through the pump and drips all night.",
		Do:   "Set it lower than the pump, or fit a check valve in the line.",
	}}
}

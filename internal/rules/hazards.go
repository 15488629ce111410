package rules

import (
	"fmt"

	"gylebook/internal/assay"
	"gylebook/internal/figures"
	"gylebook/internal/journal"
	"gylebook/internal/notice"
	q "gylebook/internal/quantity"
)

// hazardRules are about heat, gas and what the dog eats.
func hazardRules() []Rule {
	return []Rule{
		{
			ID: "hot-liquor", Watches: []figures.Stage{figures.Copper}, Worst: notice.Note, Source: "figures on burns, quoted second-hand: 5 s at 60 °C, 1 to 2 s at 65 to 70",
			When:    "brew day, always",
			Example: Example{In: "mashing", Raises: []string{"mash.ph=5.3"}, Spares: []string{"brewed=2026-02-28"}, On: "2026-03-01 09:40"},
			look:    hotLiquor,
		},
		{
			ID: "burner-indoors", Watches: always, Worst: notice.Danger, Source: "New South Wales Health on carbon monoxide",
			When:    "bottled gas, charcoal or wood under a copper in a room: danger until the boil is over, a note afterwards",
			Example: Example{In: "mashing", Raises: []string{"copper.fuel=bottled gas", "copper.indoors=true"}, Spares: []string{"copper.fuel=bottled gas", "copper.indoors=false"}, On: "2026-03-01 09:40"},
			look:    burnerIndoors,
		},
		{
			ID: "co2-space", Watches: alive, Worst: notice.Danger, Source: "HSE, EH40: 0.5 % for 8 hours, 1.5 % for 15 minutes; NIOSH: 4 % is immediate danger",
			When:    "more than 500 g of gas from the beer, or a cylinder of it, in a room under 20 m³ whose air does not move: danger; look where it is not said whether the air moves",
			Example: Example{In: "working", Raises: []string{"fermenter.room=10 m3", "fermenter.aired=false"}, Spares: []string{"fermenter.room=10 m3", "fermenter.aired=true"}, On: "2026-03-03"},
			look:    co2Space,
		},
		{
			ID: "spent-hops", Watches: from(figures.Copper), Worst: notice.Look, Source: "J. Am. Vet. Med. Assoc. 210(1) 51-54",
			When:    "hops composted where a dog lives (dogs, in the journal's settings)",
			Example: Example{In: "bottled", Raises: []string{"done[+].did=composted", "done[0].when=2026-03-12", "done[0].what=spent hops"}, Spares: []string{"done[+].did=binned", "done[0].when=2026-03-12", "done[0].what=spent hops"}},
			look:    spentHops,
		},
	}
}

func hotLiquor(c *inspection) []Found {
	if !c.brewDay() {
		return nil
	}
	return []Found{{
		Severity: notice.Note, Where: c.Gyle.Brewed.Where,
		Says: c.Text("Brew day: liquor and wort at {60 °C} and over."),
		Why:  c.Text("At {60 °C} skin scalds deeply in about five seconds, at {70 °C} in one or two."),
		Do:   "Boots and gloves on, children and animals out, drained hoses, and never lift a full hot vessel.",
	}}
}

// fuelUnsaid is a copper in a room of which nobody says what heats it.
func (c *inspection) fuelUnsaid() []Found {
	if !c.boiling() && c.Stage > figures.Copper {
		return nil
	}
	return []Found{{
		Severity: notice.Look, Where: c.Gyle.Copper.Indoors.Where,
		Says: "The copper stands in a room, and nothing says what heats it.",
		Why:  "Bottled gas, charcoal and wood make carbon monoxide, which has no smell and kills people who feel only tired.",
		Do:   "Burn none of these indoors. If it is electric, say so (copper.fuel).",
	}}
}

func burnerIndoors(c *inspection) []Found {
	fuel := c.Gyle.Copper.Fuel
	burns := fuel.Is(journal.BottledGas, journal.Charcoal, journal.WoodFire)
	unread := c.Gyle.Unreadable("copper.fuel")
	if fuel.Written() && !burns || !c.Gyle.Copper.Indoors.Yes() || c.Gyle.Copper.Boiled.None {
		return nil
	}
	if !fuel.Written() && !unread.Written() {
		return c.fuelUnsaid()
	}
	with := "with " + string(fuel.Word)
	if !fuel.Written() {
		with = "with something that could not be read (copper.fuel)"
	}
	f := Found{
		Severity: notice.Danger, Where: c.Gyle.Copper.Indoors.Where,
		Says: fmt.Sprintf("The copper is heated indoors %s.", with),
		Why:  "It makes carbon monoxide, which has no smell and kills people who feel only tired.",
		Do:   "Take it outdoors before you light it. If it is lit, put it out, open everything and leave.",
	}
	if !c.boiling() && c.Stage != figures.Copper {
		f = nextTime(f, "boil outdoors, or with electricity.")
	}
	return []Found{f}
}

func co2Space(c *inspection) []Found { return append(c.workingSpace(), c.cylinderSpace()...) }

// cylinderSpace looks for cylinders in small rooms: a leaking one gives off
// kilograms of gas.
func (c *inspection) cylinderSpace() []Found {
	var found []Found
	for _, k := range c.Containers() {
		gas := k.Package.Gas
		if !gas.Room.Written() || gas.Aired.Yes() || gas.Room.Value.Litres() >= roomCubicMetres*1000 || c.Spent(k) {
			continue
		}
		f := Found{
			Severity: notice.Look, Where: gas.Room.Where, Of: k.Key,
			Says: fmt.Sprintf("A gas cylinder stands in %s m³ of air.", q.Plain(gas.Room.Value.Litres()/1000)),
			Why:  c.Text("{kg|A kilogram leaking from it is 5 % of the air of 10|Two pounds leaking from it are 5 % of the air of 9} m³; 4 can kill. It lies low and has no smell."),
			Do:   "Say whether the room's air moves (gas.aired); open it well before you go in.",
		}
		if gas.Aired.No() {
			f.Severity = notice.Danger
			f.Do = "Stand it, chained upright, where the air moves, and close its valve when you leave. Never go in after someone."
		}
		found = append(found, f)
	}
	return found
}

// workingSpace is the gas of the fermentation in a small room.
func (c *inspection) workingSpace() []Found {
	if c.Stage > figures.Working {
		return nil
	}
	room := c.Gyle.Fermenter.Room
	gas, ok := c.GasGiven()
	if !room.Written() || !ok || c.Gyle.Fermenter.Aired.Yes() || c.gasIsGone() {
		return nil
	}
	small := room.Value.Litres() < roomCubicMetres*1000
	sure := assay.Over(gas, gasGrams)
	if !small || sure < assay.Probably {
		return nil
	}
	share := 100 * gas.Value / gasGramsPerLitre / room.Value.Litres()
	f := Found{
		Severity: notice.Look, Where: room.Where,
		Says: fmt.Sprintf("It gives off about %s of carbon dioxide: %s %% of this room's air, if none is changed.", c.gasWeight(gas), q.Fixed(share, 0)),
		Why:  "Half a per cent is the limit for a working day, 1.5 for a quarter of an hour, and 4 can kill; it lies low and has no smell.",
		Do:   "Say whether the room's air moves (fermenter.aired); open it well before you go in.",
	}
	if c.Gyle.Fermenter.Aired.No() {
		f.Severity = notice.Danger
		f.Do = "Move it where the air moves. Open the room from outside and wait before you go in; leave at once if your head aches, and never go in after someone."
	}
	return []Found{f}
}

// gasWeight is a weight of gas, in grams or pounds, without its ±.
func (c *inspection) gasWeight(gas figures.Figure) string {
	if c.Units.Weight.IsMetric() {
		return c.Rough(gas.Value, max(gas.PlusMinus, 10), "g")
	}
	return c.Rough(gas.Value/1000, max(gas.PlusMinus, 50)/1000, "kg")
}

// gasIsGone tells whether the gravity stands still, so that no more comes.
func (c *inspection) gasIsGone() bool { return c.Stage == figures.Working && c.Stability().AtLeast() }

func spentHops(c *inspection) []Found {
	if c.Settings == nil || !c.Settings.Dogs.Yes() {
		return nil
	}
	for _, d := range c.Deeds(journal.Composted) {
		if d.What.Written() && !assay.HasWord(d.What.Text, "hop*", "trub", "goods", "everything") {
			continue
		}
		f := Found{
			Severity: notice.Look, Where: d.Where,
			Says: "Hops went on the compost, and a dog lives here.",
			Why:  "Dogs that ate spent hops have overheated and died.",
			Do:   "Dig them in deep or bin them, sealed. If a dog has had any, ring the vet now.",
		}
		if !c.within(d.When.Middle(), compostFresh) {
			f = nextTime(f, "bin spent hops in a closed bag.")
		}
		return []Found{f}
	}
	return nil
}

package rules

import (
	"fmt"
	"slices"

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
			ID: "hot-liquor", Watches: []figures.Stage{figures.Copper}, Worst: notice.Note,
			Source: "figures on burns, quoted second-hand: 5 s at 60 °C, 1 to 2 s at 65 to 70",
			When:   "brew day, always",
			Why:    "At {60 °C} skin scalds deeply in about five seconds, at {70 °C} in one or two.",
			Do:     "Boots and gloves on, children and animals out, drained hoses, and never lift a full hot vessel.",
			look:   once(hotLiquor),
		},
		{
			ID: "burner-indoors", Watches: always, Worst: notice.Danger, Source: "New South Wales Health on carbon monoxide",
			When: "bottled gas, charcoal or wood under a copper in a room: danger until the boil is over, a note afterwards",
			Why:  "It makes carbon monoxide, which has no smell and kills people who feel only tired.",
			Do:   "Take it outdoors before you light it. If it is lit, put it out, open everything and leave.",
			Next: "boil outdoors, or with electricity.", mendable: (*inspection).heating,
			look: once(burnerIndoors),
		},
		{
			ID: "co2-space", Watches: alive, Worst: notice.Danger,
			Source: "HSE, EH40: 0.5 % for 8 hours, 1.5 % for 15 minutes; NIOSH: 4 % is immediate danger",
			When: say("more than %s of gas from the beer, or a cylinder of it, in a room under %s whose air does not move: danger; "+
				"look where it is not said whether the air moves", gasGrams, roomSize),
			look: func(c *inspection) []Found { return append(once(workingSpace)(c), per(notSpent, cylinderSpace)(c)...) },
		},
		{
			ID: "spent-hops", Watches: from(figures.Copper), Worst: notice.Look, Source: "J. Am. Vet. Med. Assoc. 210(1) 51-54",
			When: "hops composted where a dog lives (dogs, in the journal's settings)",
			Why:  "Dogs that ate spent hops have overheated and died.",
			Do:   "Dig them in deep or bin them, sealed. If a dog has had any, ring the vet now.",
			look: once(spentHops),
		},
	}
}

func hotLiquor(c *inspection) Found {
	if !c.brewDay() {
		return Found{}
	}
	return Found{Where: c.Gyle.Brewed.Where, Says: c.Text("Brew day: liquor and wort at {60 °C} and over.")}
}

// heating tells whether there is a boil still to come, or on its day.
func (c *inspection) heating() bool { return c.boiling() || c.Stage == figures.Copper }

// fuelNotKnown is a copper in a room of which nobody says what heats it, or in a word
// that could not be read: then it may burn.
func (c *inspection) fuelNotKnown() Found {
	f := Found{
		Where: c.Gyle.Copper.Indoors.Where,
		Says:  "The copper is heated indoors with something that could not be read (copper.fuel).",
	}
	if c.Gyle.Unreadable("copper.fuel").Written() {
		return f
	}
	f.Severity, f.Says = notice.Look, "The copper stands in a room, and nothing says what heats it."
	f.Why = "Bottled gas, charcoal and wood make carbon monoxide, which has no smell and kills people who feel only tired."
	f.Do = "Burn none of these indoors. If it is electric, say so (copper.fuel)."
	return f
}

func burnerIndoors(c *inspection) Found {
	fuel := c.Gyle.Copper.Fuel
	burns := fuel.Is(journal.BottledGas, journal.Charcoal, journal.WoodFire)
	if fuel.Written() && !burns || !c.Gyle.Copper.Indoors.Yes() || c.Gyle.Copper.Boiled.None {
		return Found{}
	}
	if !fuel.Written() {
		return c.fuelNotKnown()
	}
	return Found{Where: c.Gyle.Copper.Indoors.Where, Says: fmt.Sprintf("The copper is heated indoors with %s.", fuel.Word)}
}

// notSpent are the containers that are not empty yet, filled or not.
func notSpent(c *inspection) []figures.Container {
	return slices.DeleteFunc(slices.Clone(c.Containers()), c.Spent)
}

func small(room journal.Value[q.Volume]) bool { return room.Value.Litres() < roomSize.Number*1000 }

// cylinderSpace looks for cylinders in small rooms: a leaking one gives off
// kilograms of gas.
func cylinderSpace(c *inspection, k figures.Container) Found {
	gas := k.Package.Gas
	if !gas.Room.Written() || gas.Aired.Yes() || !small(gas.Room) {
		return Found{}
	}
	f := Found{
		Severity: notice.Look, Where: gas.Room.Where, Of: k.Key,
		Says: fmt.Sprintf("A gas cylinder stands in %s m³ of air.", q.Plain(gas.Room.Value.Litres()/1000)),
		Why: c.Text("{kg|A kilogram leaking from it is 5 % of the air of 10|Two pounds leaking from it are 5 % of the air of 9} m³; " +
			"4 can kill. It lies low and has no smell."),
		Do: "Say whether the room's air moves (gas.aired); open it well before you go in.",
	}
	if gas.Aired.No() {
		f.Severity = notice.Danger
		f.Do = "Stand it, chained upright, where the air moves, and close its valve when you leave. Never go in after someone."
	}
	return f
}

// gasGramsPerLitre is the weight of a litre of carbon dioxide at 20 °C.
const gasGramsPerLitre = 1.84

// gasInRooms is why carbon dioxide is told of.
const gasInRooms = "Half a per cent is the limit for a working day, 1.5 for a quarter of an hour, and 4 can kill; it lies low and has no smell."

// workingSpace is the gas of the fermentation in a small room, or in one whose size could
// not be read.
func workingSpace(c *inspection) Found {
	fermenter := c.Gyle.Fermenter
	room := fermenter.Room
	gas, ok := c.GasGiven()
	level := c.Stage == figures.Working && c.Stability().AtLeast() // no more gas comes
	if lost := c.Gyle.Unreadable("fermenter.room"); lost.Written() && c.Stage == figures.Working && !fermenter.Aired.Yes() && !level {
		return Found{
			Severity: notice.Look, Where: lost,
			Says: "It gives off carbon dioxide into a room whose size could not be read.",
			Why:  gasInRooms, Do: "Open the room well before you go in, and leave at once if your head aches. Write its size in m³ (fermenter.room).",
		}
	}
	if c.Stage > figures.Working || !room.Written() || !ok || fermenter.Aired.Yes() || level || !small(room) || !assay.IsOver(gas, gasGrams) {
		return Found{}
	}
	share := 100 * gas.Value / gasGramsPerLitre / room.Value.Litres()
	f := Found{
		Severity: notice.Look, Where: room.Where,
		Says: fmt.Sprintf("It gives off about %s of carbon dioxide: %s %% of this room's air, if none is changed.", c.gasWeight(gas), q.Fixed(share, 0)),
		Why:  gasInRooms,
		Do:   "Say whether the room's air moves (fermenter.aired); open it well before you go in.",
	}
	if fermenter.Aired.No() {
		f.Severity = notice.Danger
		f.Do = "Move it where the air moves. Open the room from outside and wait before you go in; " +
			"leave at once if your head aches, and never go in after someone."
	}
	return f
}

// gasWeight is a weight of gas, in grams or pounds, without its ±.
func (c *inspection) gasWeight(gas figures.Figure) string {
	if c.Units.Weight.IsMetric() {
		return c.Rough(gas.Value, max(gas.PlusMinus, 10), "g")
	}
	return c.Rough(gas.Value/1000, max(gas.PlusMinus, 50)/1000, "kg")
}

func spentHops(c *inspection) Found {
	if c.Settings == nil || !c.Settings.Dogs.Yes() {
		return Found{}
	}
	for _, d := range c.Deeds(journal.Composted) {
		if d.What.Written() && !assay.HasWord(d.What.Text, "hop*", "trub", "goods", "everything") {
			continue
		}
		f := Found{Where: d.Where, Says: "Hops went on the compost, and a dog lives here."}
		if !c.within(d.When.Middle(), compostFresh.Duration()) {
			f.Next = "bin spent hops in a closed bag."
		}
		return f
	}
	return Found{}
}

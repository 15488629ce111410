package site

import (
	"slices"

	"gylebook/internal/book"
	"gylebook/internal/figures"
	"gylebook/internal/journal"
)

// follow ends every caution.
const follow = "Follow the maker’s rating and instructions, your local rules, and a licensed person’s advice where one is required."

// caution is one warning that is printed where it matters, whatever the readings
// say.
type caution struct {
	matters func(g *book.Gyle) bool
	says    string
}

// everyCaution is in the order of a gyle's life. All are common practice, no
// source.
var everyCaution = []caution{
	{aboutHeat, "Hot liquor and wort scald in seconds. Stand the vessel firmly, keep children and animals away, never lift it full."},
	{aboutFlame, "Burn gas and charcoal outdoors only, on level ground, with an alarm near; look at the hose first."},
	{aboutElectricity, "Electricity beside water wants a residual-current device and dry hands."},
	{aboutCleaners, "Cleaners burn skin and eyes: gloves and goggles, add them to water and not water to them, one at a time, never acid with hypochlorite; rinse, then test."},
	{aboutWorking, "A working beer gives off hundreds of litres of carbon dioxide, which lies low and has no smell. Let the room’s air move; leave it at a headache, and do not go in after anybody."},
	{aboutSealed, "Sealed beer can burst. Do not package it until the gravity is steady; never exceed a container’s rating; if you do not know it, treat it as none."},
	{holds(journal.SoftBag), "Let the gas out of a swollen bag outdoors, chilled, its tap turned up and away from faces."},
	{holds(journal.Bottle), "Wear eye protection with glass. If one bottle bursts, cool the others where they stand and open them only with gloves and goggles."},
	{aboutCylinder, "Chain a gas cylinder upright in moving air, and close its valve when nobody is there."},
	{aboutServing, "For adults, by choice; offer water; no driving; not in pregnancy. Barley beer is not gluten-free: ask before you pour. Home-brewed beer is not for sale."},
}

// cautions are those that matter for what a gyle is doing, short, each once.
func cautions(g *book.Gyle) []string {
	var all []string
	for _, c := range everyCaution {
		if c.matters(g) {
			all = append(all, c.says)
		}
	}
	if len(all) > 0 {
		all = append(all, follow)
	}
	return all
}

// brewing tells whether its brew day is still to come, or is today.
func brewing(g *book.Gyle) bool { return g.Sheet.Stage <= figures.Copper }

func aboutHeat(g *book.Gyle) bool {
	return brewing(g) && !g.Copper.Boiled.None && len(g.DrawnFrom) == 0
}

func aboutFlame(g *book.Gyle) bool {
	return brewing(g) && g.Copper.Fuel.Is(journal.BottledGas, journal.Charcoal, journal.WoodFire)
}

func aboutElectricity(g *book.Gyle) bool {
	return brewing(g) && g.Copper.Fuel.Is(journal.Electric, journal.Induction)
}

// aboutCleaners is where a cleaner is named, while there is beer to be had.
func aboutCleaners(g *book.Gyle) bool {
	return g.Sheet.Stage < figures.Empty && slices.ContainsFunc(g.Done, func(d journal.Deed) bool {
		return d.Did.Is(journal.Cleaned) && d.With.Written()
	})
}

func aboutWorking(g *book.Gyle) bool { return g.Sheet.Stage == figures.Working }

func aboutSealed(g *book.Gyle) bool {
	return g.Sheet.Stage >= figures.Working && g.Sheet.Stage < figures.Empty
}

// holds is where beer stands in a container of a kind, or is about to.
func holds(kind journal.VesselKind) func(*book.Gyle) bool {
	return func(g *book.Gyle) bool {
		return aboutSealed(g) && slices.ContainsFunc(g.Sheet.Containers(), func(c figures.Container) bool { return c.Is(kind) })
	}
}

func aboutCylinder(g *book.Gyle) bool {
	return aboutSealed(g) && slices.ContainsFunc(g.Packages, func(p journal.Package) bool { return p.Gas.Set.Written() || p.Gas.With.Written() })
}

// aboutServing is while it is poured, and where a party is planned.
func aboutServing(g *book.Gyle) bool {
	return g.Sheet.Stage == figures.Pouring || g.Party.On.Written() && g.Sheet.Stage < figures.Empty
}

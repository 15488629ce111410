package site

import (
	"gylebook/internal/book"
	"gylebook/internal/figures"
)

// follow ends every caution.
const follow = "Follow the maker’s rating and instructions, your local rules, and a licensed person’s advice where one is required."

// cautions are those that matter for what a gyle is doing, short. All are common
// practice, no source.
func cautions(g *book.Gyle) []string {
	var all []string
	stage := g.Sheet.Stage
	if stage <= figures.Copper && !g.Copper.Boiled.None {
		all = append(all, "Hot liquor and wort scald in seconds. Stand the vessel firmly, keep children and animals away, never lift it full.")
		switch g.Copper.Fuel.Word {
		case "bottled gas", "charcoal", "wood":
			all = append(all, "Burn gas and charcoal outdoors only, on level ground, with an alarm near.")
		case "electric", "induction":
			all = append(all, "Electricity beside water wants a residual-current device and dry hands.")
		}
	}
	if stage == figures.Working {
		all = append(all, "A working beer gives off hundreds of litres of carbon dioxide, which lies low and has no smell. Let the room’s air move; leave it at a headache.")
	}
	if stage >= figures.Working && stage < figures.Empty {
		all = append(all, "Sealed beer can burst. Do not package it until the gravity is steady; never exceed a container’s rating; if you do not know it, treat it as none.")
	}
	if stage >= figures.Maturing && stage < figures.Empty {
		for _, c := range g.Sheet.Containers() {
			if c.Is("bottle") {
				all = append(all, "Wear eye protection with glass. If one bottle bursts, cool the others where they stand and open them only with gloves and goggles.")
				break
			}
		}
	}
	if stage == figures.Pouring {
		all = append(all, "For adults, by choice; offer water; no driving. Barley beer is not gluten-free: ask before you pour.")
	}
	if len(all) > 0 {
		all = append(all, follow)
	}
	return all
}

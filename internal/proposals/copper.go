package proposals

import (
	"fmt"
	"math"
	"strings"

	"gylebook/internal/assay"
	"gylebook/internal/figures"
	"gylebook/internal/journal"
	q "gylebook/internal/quantity"
)

// bitterness is put right by the longest boiled hops: they count for most, and
// bring least aroma.
func (p *proposer) bitterness() {
	g, ok := gapOf(p, "bitterness", "The bitterness", p.Gyle.Aim.Bitterness)
	if !ok || p.passedOver(g) {
		return
	}
	hops, ok := p.bitteringHops()
	if !ok {
		p.pass(g, "The bitterness is off its aim, and no boiled hops with their weight are written down to change.")
		return
	}
	m, expected, ok := p.weighedFor(g, hops)
	if !ok {
		return
	}
	was, _ := m.fromTo()
	p.propose(g, expected, Proposal{
		Cause:  p.bitternessCause(g, hops, was),
		Change: m.insteadOf("Boil") + "; leave the late hops as they are.",
		Know:   "Taste it beside this one at the same heat, with the same sparkler or none: the sum only compares gyles.",
		Source: "Tinseth's sum, the same for every gyle; " +
			"10 g of 5 % alpha for an hour is about 6 IBU in 20 L (common practice, worked)",
	}, m)
}

func (p *proposer) bitternessCause(g gap, hops lever, was string) string {
	word := g.side("too little", "too much")
	cause := fmt.Sprintf("By weight and alpha %s of %s was %s for this much wort", was, hops.what, word)
	aim, after := p.Gyle.Aim.Volume, p.Gyle.Copper.After.Volume
	thin := 100*float64(after.Value)/float64(aim.Value) - 100
	if aim.Written() && after.Written() && thin > 0 == g.low() && math.Abs(thin) > copperOff.Number {
		const says = "; the copper held %s where %s was aimed at, which counts too"
		cause += fmt.Sprintf(says, p.Litres(float64(after.Value), 0), p.Litres(float64(aim.Value), 0))
	}
	return cause + "."
}

// bitteringHops is the weight of the longest boiled addition.
func (p *proposer) bitteringHops() (lever, bool) {
	longest := func(g *journal.Gyle, named string) int {
		best := -1
		for i, h := range g.Hops {
			if !h.Boiled.Written() || !h.Weight.Written() || named != "" && !strings.EqualFold(h.Hop.Name, named) {
				continue
			}
			if best < 0 || h.Boiled.Value > g.Hops[best].Boiled.Value {
				best = i
			}
		}
		return best
	}
	i := longest(p.Gyle, "")
	if i < 0 {
		return lever{}, false
	}
	name := p.Gyle.Hops[i].Hop.Name
	l, ok := leverAt(p.Case, strings.ToLower(name), func(g *journal.Gyle) *journal.Value[q.Mass] {
		if i := longest(g, name); i >= 0 {
			return &g.Hops[i].Weight
		}
		return nil
	})
	return l.perWort(), ok
}

// weighedFor is how far to move a weight for a figure to meet its aim, some of it
// left at least, and the figure to expect of that; ok is false where it cannot be
// worked out or nothing is moved.
func (p *proposer) weighedFor(g gap, l lever) (m move, expected figures.Figure, ok bool) {
	least := leastLeft.Number / 100 * l.was
	leads := func(m move) (figures.Figure, bool) {
		m.to = math.Max(m.to, least)
		return p.worked(p.Past, m).Find(g.id, "")
	}
	if m, expected, ok = solved(l, g.aim, leads); m.to < least {
		m = l.moved(least)
		expected, ok = leads(m)
	}
	return m, expected, ok && m.to != l.was
}

// colour is put right by the roast first, else by the darkest malt there is: a
// little of it moves the colour and hardly anything else.
func (p *proposer) colour() {
	g, ok := gapOf(p, "colour", "The colour", p.Gyle.Aim.Colour)
	if !ok || p.passedOver(g) {
		return
	}
	dark, ok := p.darkMalt()
	if !ok {
		p.pass(g, p.Text("The colour is off its aim, and there is no dark malt in the grist to change; "+
			"{10 g} of roast barley in {20 L} gives about {1.8 EBC}."))
		return
	}
	m, expected, ok := p.weighedFor(g, dark)
	if !ok {
		return
	}
	was, _ := m.fromTo()
	p.propose(g, expected, Proposal{
		Cause:  fmt.Sprintf("The colour is what the malts bring, and %s brings most of it: %s.", dark.what, was),
		Change: m.insteadOf("Weigh") + "." + p.gravityMoved(m),
		Know:   "Hold a glass of each to the same window: the sum is good to about 15 %, the eye to less than that side by side.",
		Source: "Morey's sum; roast first: 10 g of roast barley is about 1.8 EBC in 20 L, " +
			"100 g of crystal 150 about 2 EBC (common practice, worked)",
	}, m)
}

// gravityMoved says what a change of malt does to the original gravity, where a
// hydrometer would show it.
func (p *proposer) gravityMoved(m move) string {
	before, ok := p.gravityToExpect()
	after, known := p.gravityToExpect(m)
	moved := 1000 * (after.Value - before.Value)
	if !ok || !known || math.Abs(moved) < 2*sameGravity.Number {
		return ""
	}
	base, ok := p.baseMalt()
	if !ok || base.key == m.lever.key {
		return ""
	}
	word := "up"
	if moved < 0 {
		word = "down"
	}
	const says = " The original gravity goes %s by %.0f points with it; weigh the %s to match."
	return fmt.Sprintf(says, word, math.Abs(moved), base.what)
}

// darkMalt is the lever of the line that brings most of the colour: among roasts
// where there are any.
func (p *proposer) darkMalt() (lever, bool) {
	best, most := -1, 0.0
	for i, grain := range p.Gyle.Grist {
		colour := p.colourOf(grain)
		if !grain.Weight.Written() || colour < darkFrom.Number {
			continue
		}
		brings := colour * float64(grain.Weight.Value)
		if colour >= roastFrom.Number {
			brings += 1e9
		}
		if brings > most {
			best, most = i, brings
		}
	}
	if best < 0 {
		return lever{}, false
	}
	return p.grainLever(best)
}

// colourOf is a line's colour in EBC, by itself or its card; 0 where nobody says.
func (p *proposer) colourOf(g journal.Grain) float64 {
	if g.Colour.Written() {
		return g.Colour.Value.EBC()
	}
	card := p.GrainCard(g)
	return assay.MaltFacts(card).Colour.Value.EBC() + assay.SugarFacts(card).Colour.Value.EBC()
}

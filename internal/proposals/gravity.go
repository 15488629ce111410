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

const gristSource = "litre-degrees by definition, and this brewer's own yield; " +
	"100 g of pale malt is about 1.1 points in 20 L (common practice, worked)"

// gravity is about the original gravity: too much or too little wort, or too much
// or too little extract in it.
func (p *proposer) gravity() {
	g, ok := gapOf(p, "og", "The original gravity", p.Gyle.Aim.OG)
	if !ok || p.passedOver(g) {
		return
	}
	if wort, ok := p.wortExplains(g); ok {
		p.lessWort(g, wort)
		return
	}
	p.grist(g)
}

// wortOver is by how many litres the wort missed its aim, where the readings can
// tell and it moves the gravity the way that the gravity went.
func (p *proposer) wortOver(g gap) (over figures.Figure, ok bool) {
	aim := p.Gyle.Aim.Volume
	over, known := figures.AsRead(p.Gyle.Fermenter.Volume)
	if !known || !aim.Written() {
		return over, false
	}
	over.Value -= float64(aim.Value)
	return over, math.Abs(over.Value) > over.PlusMinus && over.Value > 0 == g.low()
}

// wortExplains is the same where it accounts for most of the gravity's gap: points
// times litres stay the same.
func (p *proposer) wortExplains(g gap) (over figures.Figure, ok bool) {
	if over, ok = p.wortOver(g); !ok {
		return over, false
	}
	aim := float64(p.Gyle.Aim.Volume.Value)
	inAim := q.Gravity(g.got.Value).Points() * (aim + over.Value) / aim
	return over, math.Abs(inAim-q.Gravity(g.aim).Points()) < math.Abs(1000*g.by())/2
}

// lessWort brings the wort to the volume aimed at, with the grist as it is.
func (p *proposer) lessWort(g gap, over figures.Figure) {
	expected, ok := p.gravityToExpect()
	if !ok {
		return
	}
	p.byVolume = true
	side, made := "more", "thinned"
	if over.Value < 0 {
		side, made = "less", "stronger"
	}
	move, words := p.wortBy(-over.Value)
	p.propose(g, expected, Proposal{
		Cause: fmt.Sprintf("There was %s %s wort than aimed at, and it was %s by as much; the extract itself was there.",
			p.litresOff(over), side, made),
		Change: words,
		Know:   "Measure the wort in the fermenter cold: at the volume aimed at, the gravity should be there too.",
		Source: "points times litres are conserved; this brewer's own yield",
	}, move...)
}

func (p *proposer) litresOff(f figures.Figure) string {
	return p.Litres(math.Abs(f.Value), f.PlusMinus)
}

// wortBy is how to end with so many litres more (or, below nought, less): boil for
// longer or shorter where that is soon done, else more or less sparge liquor.
func (p *proposer) wortBy(litresMore float64) (moves []move, words string) {
	boilOff, known := p.Find(figures.IDBoilOff, "")
	boiled, set := leverAt(p.Case, "the boil", func(g *journal.Gyle) *journal.Value[q.Duration] { return &g.Copper.Boiled })
	minutes := -litresMore / boilOff.Value * 60
	if known && set && boilOff.Value > 0 && minutes > 0 && minutes <= longestExtra.Number {
		m := boiled.moved(boiled.was + minutes)
		was, to := m.fromTo()
		return []move{m}, fmt.Sprintf("Boil for %s instead of %s: it boils off %s.", to, was, p.Measure(boilOff))
	}
	sparge, set := leverAt(p.Case, "the sparge liquor", func(g *journal.Gyle) *journal.Value[q.Volume] { return &g.Sparge.Liquor })
	if set && sparge.was+litresMore > 0 {
		m := sparge.moved(sparge.was + litresMore)
		was, to := m.fromTo()
		return []move{m}, fmt.Sprintf("Sparge with %s instead of %s.", to, was)
	}
	word := "more"
	if litresMore < 0 {
		word = "less"
	}
	return nil, fmt.Sprintf("Use %s %s liquor.", p.Units.Fixed(math.Abs(litresMore), "L", 1), word)
}

// gravityToExpect is the gravity of the next gyle in the volume aimed at, with
// levers moved: the sheet's own figure at the yield that the next gyle is planned
// by.
func (p *proposer) gravityToExpect(moves ...move) (figures.Figure, bool) {
	past := p.next
	yield, ok := p.yieldToPlanBy()
	if !ok {
		return figures.Figure{}, false
	}
	past.Yield = yield
	return p.worked(past, moves...).Find(figures.IDOGExpected, "")
}

// yieldToPlanBy is this brewer's own median once three gyles are known; before
// that what this gyle gave, which tells more than what brewers in general get.
func (p *proposer) yieldToPlanBy() (figures.Learned, bool) {
	if p.next.Yield.Enough() {
		return p.next.Yield, true
	}
	f, ok := p.Find(figures.IDBrewhouseYield, "")
	if !ok {
		return figures.Learned{}, p.nothingMashed()
	}
	// As three gyles, so that it is leant on at all: its spread is wide enough.
	return figures.Learned{Median: f.Value, HalfWidth: math.Hypot(assay.DoubtOf(f.PlusMinus)/2, oneYield.Number), Gyles: 3}, true
}

func (p *proposer) nothingMashed() bool {
	for _, g := range p.Gyle.Grist {
		if g.Malt.Written() || g.Adjunct.Written() {
			return false
		}
	}
	return len(p.Gyle.Grist) > 0
}

// grist scales what there is most of in the grist: it brings least colour, and one
// weight is soon changed.
func (p *proposer) grist(g gap) {
	base, ok := p.baseMalt()
	expected, known := p.gravityToExpect()
	if !ok || !known {
		p.pass(g, "The original gravity is off its aim; how much grist would mend that needs fermenter.volume and the grist's weights.")
		return
	}
	if near := 1000 * (expected.Value - g.aim); math.Abs(near) < sameGravity.Number || near > 0 == (g.by() < 0) {
		const once = "The original gravity missed its aim this once: at %s, the same grist should give %s. " +
			"Check the crush, the scale and the volume before changing it."
		p.pass(g, fmt.Sprintf(once, p.yieldWords(), inSentence(p.Case, expected)))
		return
	}
	m, after, _ := p.weighedForGravity(base, g.aim)
	const know = "Read the gravity in the fermenter before the yeast goes in: %s says that it was the grist."
	p.propose(g, after, Proposal{
		Cause:  p.gristCause(g),
		Change: m.insteadOf("Weigh") + ": the yield to plan by is " + p.yieldWords() + ".",
		Know:   fmt.Sprintf(know, inSentence(p.Case, gravityAs(g, after))),
		Source: gristSource,
	}, m)
}

// weighedForGravity is a malt weighed for a gravity, with other moves made before.
func (p *proposer) weighedForGravity(malt lever, aim float64, before ...move) (m move, expected figures.Figure, ok bool) {
	return solved(malt, aim, func(m move) (figures.Figure, bool) { return p.gravityToExpect(append(before, m)...) })
}

func gravityAs(g gap, f figures.Figure) figures.Figure {
	return figures.Figure{Kind: g.got.Kind, Value: f.Value, PlusMinus: f.PlusMinus}
}

func (p *proposer) yieldWords() string {
	yield, ok := p.yieldToPlanBy()
	if !ok || yield.Gyles == 0 {
		return "what was read"
	}
	value, off := q.Rounded(yield.Median, 2*yield.HalfWidth)
	if p.next.Yield.Enough() {
		return fmt.Sprintf("%s ± %s %%, the median of your last %d gyles", value, off, yield.Gyles)
	}
	return fmt.Sprintf("%s ± %s %%, as in this gyle", value, off)
}

// gristCause is what is believed to be behind extract too little or too much: the
// recipe, where it could not have made the aim at the yield it was planned by, or
// else the yield.
func (p *proposer) gristCause(g gap) string {
	word := g.side("less", "more")
	var causes []string
	if planned, ok := p.Find(figures.IDOGExpected, ""); ok && (planned.Value-g.aim)/g.by() > 0.5 {
		causes = append(causes, fmt.Sprintf("the grist was weighed for %s from the first", inSentence(p.Case, planned)))
	}
	if yield, ok := p.Find(figures.IDBrewhouseYield, ""); ok {
		usual := p.Past.Yield
		if usual.Enough() && math.Abs(yield.Value-usual.Median) > math.Hypot(yield.PlusMinus, 2*usual.HalfWidth) {
			const less = "the goods gave %s than they usually do: %s, and %.0f %% is the median of %d gyles"
			causes = append(causes, fmt.Sprintf(less, word, p.Measure(yield), usual.Median, usual.Gyles))
		} else if len(causes) == 0 {
			causes = append(causes, fmt.Sprintf("the goods gave %s than the recipe counts on: %s", word, p.Measure(yield)))
		}
	}
	if len(causes) == 0 {
		return fmt.Sprintf("The grist gave %s than the aim needs.", word)
	}
	cause := assay.Capital(strings.Join(causes, "; and ")) + "."
	if over, ok := p.wortOver(g); ok {
		cause += fmt.Sprintf(" The wort was %s off its volume, which did the smaller part; the grist first.", p.litresOff(over))
	}
	return cause
}

// baseMalt is the lever of the heaviest line that is mashed; of an extract beer,
// of the heaviest line.
func (p *proposer) baseMalt() (lever, bool) {
	heaviest := -1
	for i, g := range p.Gyle.Grist {
		mashed := (g.Malt.Written() || g.Adjunct.Written()) && !g.Into.Is(journal.IntoCopper, journal.IntoFermenter)
		if !g.Weight.Written() || !mashed && !p.nothingMashed() {
			continue
		}
		if heaviest < 0 || g.Weight.Value > p.Gyle.Grist[heaviest].Weight.Value {
			heaviest = i
		}
	}
	if heaviest < 0 {
		return lever{}, false
	}
	return p.grainLever(heaviest)
}

func (p *proposer) grainLever(i int) (lever, bool) {
	name := grainName(p.Gyle.Grist[i])
	l, ok := leverAt(p.Case, name, func(g *journal.Gyle) *journal.Value[q.Mass] {
		for j := range g.Grist {
			if grainName(g.Grist[j]) == name {
				return &g.Grist[j].Weight
			}
		}
		return nil
	})
	return l.perWort(), ok
}

// grainName is what a line of the grist is called.
func grainName(g journal.Grain) string {
	for _, n := range []journal.Name{g.Malt, g.Adjunct, g.Sugar, g.Syrup} {
		if n.Name != "" {
			return strings.ToLower(n.Name)
		}
	}
	return ""
}

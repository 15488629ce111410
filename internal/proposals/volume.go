package proposals

import (
	"fmt"
	"math"
	"slices"

	"gylebook/internal/assay"
	"gylebook/internal/figures"
	"gylebook/internal/journal"
	q "gylebook/internal/quantity"
)

// volume is about wort too much or too little in the fermenter. Where the gravity's
// gap was one of volume, that is put right with it.
func (p *proposer) volume() {
	aim := p.Gyle.Aim.Volume
	read, ok := figures.AsRead(p.Gyle.Fermenter.Volume)
	if !ok || !aim.Written() || p.byVolume {
		return
	}
	g := p.gapRead(inFermenter, "The wort in the fermenter", read, float64(aim.Value), aim.Where)
	if p.passedOver(g) {
		return
	}
	moves, words := p.wortBy(-g.by())
	if len(moves) == 0 {
		p.pass(g, fmt.Sprintf("%s is %s off its aim; how much liquor to change needs sparge.liquor.", g.name, g.amount()))
		return
	}
	expected := g.got
	expected.Value = g.aim
	p.propose(g, expected, Proposal{
		Cause:  p.volumeCause(g),
		Change: words + p.gristToMatch(),
		Know:   "Measure the wort cold, in the copper and in the fermenter: the difference is what stays behind.",
		Source: "a balance of volumes: what goes in less what boils off and stays behind",
	}, moves...)
}

// volumeCause compares what boiled off and stayed behind with what usually does.
func (p *proposer) volumeCause(g gap) string {
	cause := fmt.Sprintf("Too %s liquor for what the goods soaked up", g.side("little", "much"))
	if boilOff, ok := p.Find(figures.IDBoilOff, ""); ok {
		cause += fmt.Sprintf(", the copper boiled off (%s)", p.Measure(boilOff))
	}
	if lost, ok := p.Find(figures.IDLosses, "copper to fermenter"); ok {
		cause += fmt.Sprintf(" and stayed in it (%s)", p.Measure(lost))
	}
	return cause + "."
}

// gristToMatch says what the grist gives in the volume aimed at, where that is off
// the gravity aimed at.
func (p *proposer) gristToMatch() string {
	aim := p.Gyle.Aim.OG
	expected, ok := p.gravityToExpect()
	base, based := p.baseMalt()
	near := math.Abs(expected.Value-float64(aim.Value)) < 2*sameGravity.Number/1000
	if !ok || !based || !aim.Written() || implausible(aim) || near {
		return ""
	}
	m, _, _ := p.weighedForGravity(base, float64(aim.Value))
	was, text := m.fromTo()
	const says = " In that much wort the grist makes %s: weigh %s of %s with it instead of %s."
	return fmt.Sprintf(says, inSentence(p.Case, expected), text, base.what, was)
}

// left is about what stayed behind at racking: pints that nobody drinks. Where the
// wort itself was off its aim, that comes first.
func (p *proposer) left() {
	lost, ok := p.Find(figures.IDLosses, "fermenter to container")
	if !ok || assay.Over(lost, assay.LossHigh) < assay.Surely || p.proposed(inFermenter.ID) || p.byVolume {
		return
	}
	much := assay.Capital(p.Measure(lost))
	switch usual := p.next.Losses; {
	case lost.Value > lossMost.Number:
		const says = "%s did not come out of the fermenter at racking: more than sediment holds, so some of it was drawn off."
		p.pass(gap{id: racked.ID}, fmt.Sprintf(says, much))
	case usual.Enough() && usual.Median <= assay.LossHigh.Number:
		const says = "%s stayed in the fermenter this once; your last %d gyles left %s in the middle."
		p.pass(gap{id: racked.ID}, fmt.Sprintf(says, much, usual.Gyles, p.Units.Fixed(usual.Median, "L", 1)))
	default:
		p.brewMore(lost)
	}
}

// brewMore makes up for what stays behind.
func (p *proposer) brewMore(lost figures.Figure) {
	got, known := figures.AsRead(p.Gyle.Racked.Volume)
	aimOf := func(g *journal.Gyle) *journal.Value[q.Volume] { return &g.Aim.Volume }
	aim, written := leverAt(p.Case, "the volume aimed at", aimOf)
	if !known || !written {
		return
	}
	over := lost.Value - assay.UsualLoss()
	g := p.gapRead(racked, "The beer racked", got, got.Value+over, p.Gyle.Racked.Volume.Where)
	m := aim.moved(aim.was + over)
	was, text := m.fromTo()
	expected := g.got
	expected.Value, expected.PlusMinus = got.Value+m.to-aim.was, math.Hypot(got.PlusMinus, lost.PlusMinus)
	p.propose(g, expected, Proposal{
		Gap: p.Sayf("%s stayed in the fermenter at racking, and {L|1 to 2 L is|two to four pints are} usual: %s.",
			assay.Capital(p.Measure(lost)), p.Pints(over/q.UKPint.Litres())),
		Cause: "Deep sediment, or a tap or siphon that stops well above it. Hops in the fermenter hold beer too.",
		Change: fmt.Sprintf("Brew %s instead of %s, if the fermenter has room, so that as much beer reaches the glass; "+
			"scale the grist with it.", text, was),
		Know:   "Measure what is racked: it should be more by what was added.",
		Source: fmt.Sprintf("common practice: %d to %s stay behind; your own losses once three gyles are known", assay.LossLow, assay.LossHigh),
	}, m)
}

// strength is about the alcohol: it follows from the gravities, unless those are
// not aimed at.
func (p *proposer) strength() {
	g, ok := gapOf(p, "abv", "The alcohol", p.Gyle.Aim.ABV)
	if !ok || p.passedOver(g) {
		return
	}
	aim := p.Gyle.Aim
	passed := func(u Unproposed) bool { return u.Figure == "og" || u.Figure == "fg" }
	switch {
	case p.proposed("og") || p.proposed("fg") || slices.ContainsFunc(p.unproposed, passed):
		p.pass(g, fmt.Sprintf("The alcohol is %s off its aim because the gravities are: it comes right with them.", g.amount()))
	case aim.OG.Written() && aim.FG.Written():
		const says = "The gravities are on their aims and the alcohol is not: the aims do not agree. From %s to %s makes about what was got."
		p.pass(g, fmt.Sprintf(says, assay.SG(aim.OG.Value), assay.SG(aim.FG.Value)))
	case p.DrawnFrom() || p.sweetened():
		p.pass(g, "The alcohol is off its aim, and more than the grist made it: how much to change cannot be told.")
	default:
		p.strongerGrist(g)
	}
}

// strongerGrist weighs the grist for the strength, at the attenuation that the
// yeast is known for here.
func (p *proposer) strongerGrist(g gap) {
	got, ok := p.Find(figures.IDApparentAttenuation, "")
	base, based := p.baseMalt()
	if !ok || !based {
		return
	}
	attenuation := figures.Learned{Median: got.Value, HalfWidth: assay.DoubtOf(got.PlusMinus) / 2, Gyles: 1}
	yield, planned := p.yieldToPlanBy()
	past := p.next
	past.Yield = yield
	m, expected, ok := solved(base, g.aim, func(m move) (figures.Figure, bool) {
		if !planned {
			return figures.Figure{}, false
		}
		return p.worked(past, m).Inquire().StrengthToExpect(attenuation)
	})
	if !ok || math.Abs(m.to-base.was) < 1 {
		p.pass(g, "The alcohol is off its aim; the volume and the weights that would size a change are not all written down.")
		return
	}
	const cause = "The yeast did its part (%s); it is the wort's strength, a tenth of a per cent for each point."
	p.propose(g, expected, Proposal{
		Cause:  fmt.Sprintf(cause, p.Measure(got)),
		Change: m.insteadOf("Weigh") + ": the yield to plan by is " + p.yieldWords() + ".",
		Know:   "The alcohol worked out from the two gravities, once the second has stood still.",
		Source: gristSource,
	}, m)
}

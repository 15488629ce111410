package proposals

import (
	"fmt"
	"math"

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
	read.Kind = &figures.Kind{ID: volumeRead, Label: "In the fermenter", Unit: "L", Decimals: 1}
	g := gap{of: p.Case, id: volumeRead, name: "The wort in the fermenter", got: read, aim: float64(aim.Value), where: aim.Where, show: func(x float64) string { return p.Exactly(math.Round(x*10)/10, "L") }}
	if p.untold(g) {
		return
	}
	moves, words := p.wortBy(-g.by())
	if len(moves) == 0 {
		p.pass(g, fmt.Sprintf("%s is %s off its aim; how much liquor to change needs sparge.liquor.", g.name, g.amount()))
		return
	}
	expected := read
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
	word := map[bool]string{true: "little", false: "much"}[g.low()]
	cause := fmt.Sprintf("Too %s liquor for what the goods soaked up", word)
	if boilOff, ok := p.Find("boil-off", ""); ok {
		cause += fmt.Sprintf(", the copper boiled off (%s)", p.Measure(boilOff))
	}
	if lost, ok := p.Find("losses", "copper to fermenter"); ok {
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
	if !ok || !based || !aim.Written() || implausible(aim) || math.Abs(expected.Value-float64(aim.Value)) < 2*sameGravity/1000 {
		return ""
	}
	to := base.moved(solve(base.was, float64(aim.Value), func(x float64) (float64, bool) {
		f, ok := p.gravityToExpect(move{base, x})
		return f.Value, ok
	}))
	was, text := to.fromTo()
	return fmt.Sprintf(" In that much wort the grist makes %s: weigh %s of %s with it instead of %s.", inSentence(p.Case, expected), text, base.what, was)
}

// left is about what stayed behind at racking: pints that nobody drinks. Where the
// wort itself was off its aim, that comes first.
func (p *proposer) left() {
	lost, ok := p.Find("losses", "fermenter to container")
	_, wort := findProposal(p.proposals, volumeRead)
	if !ok || assay.Over(lost, assay.LossHigh) < assay.Surely || wort || p.byVolume {
		return
	}
	switch usual := p.next.Losses; {
	case lost.Value > lossMost:
		p.unproposed = append(p.unproposed, Unproposed{rackedRead, fmt.Sprintf("%s did not come out of the fermenter at racking: more than sediment holds, so some of it was drawn off.", assay.Capital(p.Measure(lost)))})
	case usual.Enough() && usual.Median <= assay.LossHigh.Number:
		p.unproposed = append(p.unproposed, Unproposed{rackedRead, fmt.Sprintf("%s stayed in the fermenter this once; your last %d gyles left %s in the middle.", assay.Capital(p.Measure(lost)), usual.Gyles, p.Units.Fixed(usual.Median, "L", 1))})
	default:
		p.brewMore(lost)
	}
}

// brewMore makes up for what stays behind.
func (p *proposer) brewMore(lost figures.Figure) {
	racked, known := figures.AsRead(p.Gyle.Racked.Volume)
	aim, written := leverAt(p.Case, "the volume aimed at", func(g *journal.Gyle) *journal.Value[q.Volume] { return &g.Aim.Volume })
	if !known || !written {
		return
	}
	racked.Kind = &figures.Kind{ID: rackedRead, Label: "Racked", Unit: "L", Decimals: 1}
	over := lost.Value - assay.UsualLoss()
	g := gap{of: p.Case, id: rackedRead, name: "The beer racked", got: racked, aim: racked.Value + over, where: p.Gyle.Racked.Volume.Where, show: func(x float64) string { return p.Units.Fixed(x, "L", 1).String() }}
	m := aim.moved(aim.was + over)
	was, text := m.fromTo()
	expected := figures.Figure{Kind: racked.Kind, Value: racked.Value + m.to - aim.was, PlusMinus: math.Hypot(racked.PlusMinus, lost.PlusMinus)}
	p.propose(g, expected, Proposal{
		Gap:    p.Sayf("%s stayed in the fermenter at racking, and {L|1 to 2 L is|two to four pints are} usual: %s.", assay.Capital(p.Measure(lost)), p.Pints(over/q.UKPint.Litres())),
		Cause:  "Deep sediment, or a tap or siphon that stops well above it. Hops in the fermenter hold beer too.",
		Change: fmt.Sprintf("Brew %s instead of %s, if the fermenter has room, so that as much beer reaches the glass; scale the grist with it.", text, was),
		Know:   "Measure what is racked: it should be more by what was added.",
		Source: "common practice: 1 to 2 L stay behind; your own losses once three gyles are known",
	}, m)
}

// rackedRead is the beer racked, as read.
const rackedRead = "racked"

// findProposal is the proposal for a figure, among those so far.
func findProposal(all []Proposal, figure string) (Proposal, bool) {
	for _, p := range all {
		if p.Figure == figure {
			return p, true
		}
	}
	return Proposal{}, false
}

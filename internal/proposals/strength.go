package proposals

import (
	"fmt"
	"math"
	"slices"

	"gylebook/internal/assay"
	"gylebook/internal/figures"
	q "gylebook/internal/quantity"
)

// strength is about the alcohol: it follows from the gravities, unless those are
// not aimed at.
func (p *proposer) strength() {
	g, ok := gapOf(p, "abv", "The alcohol", p.Gyle.Aim.ABV, func(x float64) string { return q.Plain(x) + " % vol" })
	if !ok || p.untold(g) {
		return
	}
	aim := p.Gyle.Aim
	missed := func(id string) bool {
		return slices.ContainsFunc(p.proposals, func(pr Proposal) bool { return pr.Figure == id }) ||
			slices.ContainsFunc(p.unproposed, func(u Unproposed) bool { return u.Figure == id })
	}
	switch {
	case missed("og") || missed("fg"):
		p.pass(g, fmt.Sprintf("The alcohol is %s off its aim because the gravities are: it comes right with them.", g.amount()))
	case aim.OG.Written() && aim.FG.Written():
		p.pass(g, fmt.Sprintf("The gravities are on their aims and the alcohol is not: the aims do not agree. From %s to %s makes about what was got.", assay.SG(aim.OG.Value), assay.SG(aim.FG.Value)))
	case p.DrawnFrom() || p.sweetened():
		p.pass(g, "The alcohol is off its aim, and more than the grist made it: how much to change cannot be told.")
	default:
		p.strongerGrist(g)
	}
}

// strongerGrist weighs the grist for the strength, at the attenuation that the
// yeast is known for here.
func (p *proposer) strongerGrist(g gap) {
	got, ok := p.Find("apparent-attenuation", "")
	base, based := p.baseMalt()
	if !ok || !based {
		return
	}
	attenuation := figures.Learned{Median: got.Value, HalfWidth: assay.DoubtOf(got.PlusMinus) / 2, Gyles: 1}
	at := func(m move) (figures.Figure, bool) {
		past := p.next
		yield, ok := p.yieldToPlanBy()
		past.Yield = yield
		if !ok {
			return figures.Figure{}, false
		}
		return p.worked(past, m).Inquire().StrengthToExpect(attenuation)
	}
	m := base.moved(solve(base.was, g.aim, func(x float64) (float64, bool) {
		f, ok := at(move{base, x})
		return f.Value, ok
	}))
	expected, ok := at(m)
	if !ok || math.Abs(m.to-base.was) < 1 {
		p.pass(g, "The alcohol is off its aim; the volume and the weights that would size a change are not all written down.")
		return
	}
	was, text := m.fromTo()
	p.propose(g, expected, Proposal{
		Cause:  fmt.Sprintf("The yeast did its part (%s); it is the wort's strength, a tenth of a per cent for each point.", p.Measure(got)),
		Change: fmt.Sprintf("Weigh %s of %s instead of %s: the yield to plan by is %s.", text, base.what, was, p.yieldWords()),
		Know:   "The alcohol worked out from the two gravities, once the second has stood still.",
		Source: gristSource,
	}, m)
}

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

// sugarOf is the share, in %, of the extract that plain sugars bring: those that
// are no syrup and no malt.
func (p *proposer) sugarOf() float64 {
	og, known := p.Find(figures.IDOG, "")
	volume, read := figures.AsRead(p.Gyle.Fermenter.Volume)
	if !known || !read || og.Value <= 1 {
		return 0
	}
	degrees := 0.0
	for _, g := range p.Gyle.Grist {
		if isSugar(g) && g.Weight.Written() {
			extract := q.PureSugar
			if card := assay.SugarFacts(p.GrainCard(g)).Extract; card.Written() {
				extract = card.Value
			}
			degrees += g.Weight.Value.Kilograms() * float64(extract)
		}
	}
	return 100 * degrees / (q.Gravity(og.Value).Points() * volume.Value)
}

func isSugar(g journal.Grain) bool {
	return g.Sugar.Written() && !assay.HasWord(g.Sugar.Name, "lactose", "milk")
}

// lessSugar swaps sugar for malt, so that the original gravity stays: as much of it
// as the aim needs.
func (p *proposer) lessSugar(g gap, got figures.Figure) {
	i := slices.IndexFunc(p.Gyle.Grist, func(g journal.Grain) bool { return isSugar(g) && g.Weight.Written() })
	sugar, ok := p.grainLever(i)
	base, based := p.baseMalt()
	now, known := p.gravityToExpect()
	share := p.sugarOf() / 100
	if !ok || !based || !known || share >= 1 {
		p.otherMash(g, got)
		return
	}
	malt := (got.Value - share*sugarAttenuates.Number) / (1 - share)
	more := sugarAttenuates.Number - malt // of sugar than of malt
	gone := math.Min((got.Value-p.attenuationWanted(g, got))/more, share)
	out := sugar.moved(sugar.was * (1 - gone/share))
	gone = share * (sugar.was - out.to) / sugar.was
	in, _, _ := p.weighedForGravity(base, now.Value, out)
	expected, ok := p.FinalGravityBy(figures.Learned{
		Median:    got.Value - gone*more,
		HalfWidth: math.Hypot(assay.DoubtOf(got.PlusMinus)/2, gone*sugarOff.Number), Gyles: 1,
	})
	if !ok {
		return
	}
	wasMalt, toMalt := in.fromTo()
	leave := out.insteadOf("Weigh")
	if wasSugar, _ := out.fromTo(); out.to == 0 {
		leave = fmt.Sprintf("Leave out the %s of %s", wasSugar, sugar.what)
	}
	p.propose(g, expected, Proposal{
		Cause: fmt.Sprintf("Sugar ferments right out, and it is %.0f %% of the extract. A cool mash dries a beer too; the sugar first.%s",
			100*share, p.usualWithYeast()),
		Change: fmt.Sprintf("%s, and for its gravity %s of %s instead of %s.", leave, toMalt, base.what, wasMalt),
		Know:   p.knowByGravity(g, expected, "it was the sugar"),
		Source: fmt.Sprintf("Balling's proportions: plain sugar attenuates to %s by apparent gravity", sugarAttenuates),
	}, out, in)
}

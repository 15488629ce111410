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

const mashSource = "a brewing school's laboratory series (82 % apparent at 65 °C, 70 % at 70 °C), disputed: " +
	"the ± owns up to that"

// attenuation is about the final gravity: how far the yeast took the wort. A final
// gravity that is off only because the original one was is no fault of mash or
// yeast.
func (p *proposer) attenuation() {
	g, ok := gapOf(p, "fg", "The final gravity", p.Gyle.Aim.FG)
	got, known := p.Find(figures.IDApparentAttenuation, "")
	if !ok || p.passedOver(g) {
		return
	}
	switch aimed, aims := p.attenuationAimed(); {
	case !known || got.Provisional || p.DrawnFrom() || p.sweetened():
		p.pass(g, "The final gravity is off its aim, and sugar or beer went in that the original gravity does not have: "+
			"what the yeast made of it cannot be told apart.")
		return
	case aims && math.Abs(got.Value-aimed) <= got.PlusMinus:
		const says = "The final gravity is off because the original gravity was: the yeast attenuated %s, and %.0f %% was aimed at."
		p.pass(g, fmt.Sprintf(says, p.Measure(got), aimed))
		return
	}
	switch {
	case g.low() && p.sugarOf() >= sugarShare.Number && !p.mashUnder(coolMash.Number):
		p.lessSugar(g, got)
	case !g.low() && p.weaklyPitched():
		p.morePitch(g)
	default:
		p.otherMash(g, got)
	}
}

// attenuationAimed is the attenuation between the gravities aimed at, in % by
// points: within 1 % of that by Plato.
func (p *proposer) attenuationAimed() (float64, bool) {
	aim := p.Gyle.Aim
	if !aim.OG.Written() || !aim.FG.Written() || aim.OG.Value.Points() < 1 {
		return 0, false
	}
	return 100 * (1 - aim.FG.Value.Plato()/aim.OG.Value.Plato()), true
}

// sweetened tells that sugar went in which the original gravity does not have.
func (p *proposer) sweetened() bool {
	for _, a := range p.Gyle.Added {
		if a.Fruit.Name != "" || a.Juice.Name != "" || a.Sugar.Written() {
			return true
		}
	}
	return slices.ContainsFunc(p.Gyle.Grist, func(g journal.Grain) bool { return g.Into.Is(journal.IntoFermenter) })
}

// mashUnder tells whether the mash stood surely or probably under a heat.
func (p *proposer) mashUnder(heat float64) bool {
	rest, ok := p.ConversionRest()
	return ok && rest.Value < heat
}

// otherMash moves the mash's heat.
func (p *proposer) otherMash(g gap, got figures.Figure) {
	rest, ok := p.restLever()
	if !ok {
		p.pass(g, "The final gravity is off its aim; what the mash had to do with it needs mash.rests[0].at.")
		return
	}
	degrees := p.degreesFor(g, got)
	to := math.Min(math.Max(rest.was+degrees, p.Habits.In(assay.MashLow)), p.Habits.In(assay.MashHigh))
	m := rest.moved(to)
	moved := m.to - rest.was
	if math.Abs(moved) < leastDegree.Number || moved > 0 != g.low() {
		const says = "The final gravity is off its aim, and the mash at %s can go no further: it is for another yeast, or more of it."
		p.pass(g, fmt.Sprintf(says, rest.said(rest.was)))
		return
	}
	expected, ok := p.gravityAfter(got, moved)
	if !ok {
		return
	}
	was, text := m.fromTo()
	p.propose(g, expected, Proposal{
		Cause:  p.mashCause(g, rest),
		Change: fmt.Sprintf("Mash at %s instead of %s, and leave the rest as it is.", text, was),
		Know:   p.knowByGravity(g, expected, "it was the mash"),
		Source: mashSource,
	}, m)
}

func (p *proposer) knowByGravity(g gap, expected figures.Figure, cause string) string {
	const says = "Two level gravities near %s say that %s; one near %s again, that it was not."
	return fmt.Sprintf(says, inSentence(p.Case, gravityAs(g, expected)), cause, g.show(g.got.Value))
}

// degreesFor is how far to move the mash for the aim, no further than the trade
// goes at once.
func (p *proposer) degreesFor(g gap, got figures.Figure) float64 {
	degrees := (got.Value - p.attenuationWanted(g, got)) / dryerPerDegree.Number
	return math.Min(math.Max(degrees, -mostDegrees.Number), mostDegrees.Number)
}

// attenuationWanted is the attenuation that meets the aim, in %: between the
// gravities aimed at, else from the original gravity that there was.
func (p *proposer) attenuationWanted(g gap, got figures.Figure) float64 {
	if aimed, ok := p.attenuationAimed(); ok {
		return aimed
	}
	if og, ok := p.Find(figures.IDOG, ""); ok && og.Value > 1 {
		return 100 * (1 - q.Gravity(g.aim).Plato()/q.Gravity(og.Value).Plato())
	}
	return got.Value
}

// gravityAfter is the final gravity to expect of a mash so many degrees warmer:
// the sheet's own, at the attenuation that leaves.
func (p *proposer) gravityAfter(got figures.Figure, degrees float64) (figures.Figure, bool) {
	return p.FinalGravityBy(figures.Learned{
		Median:    got.Value - dryerPerDegree.Number*degrees,
		HalfWidth: math.Hypot(assay.DoubtOf(got.PlusMinus)/2, dryerOff.Number/math.Sqrt(3)*degrees),
		Gyles:     1,
	})
}

// restLever is the heat of the rest that makes the sugar, as conversionRest has it.
func (p *proposer) restLever() (lever, bool) {
	return leverAt(p.Case, "the mash", func(g *journal.Gyle) *journal.Value[q.Temperature] {
		best := -1
		for i, r := range g.Mash.Rests {
			if r.At.Written() && (best < 0 || p.OffMash(r.At.Value.Celsius()) < p.OffMash(g.Mash.Rests[best].At.Value.Celsius())) {
				best = i
			}
		}
		if best < 0 {
			return nil
		}
		return &g.Mash.Rests[best].At
	})
}

// mashCause is what is believed to be behind an attenuation off its aim.
func (p *proposer) mashCause(g gap, rest lever) string {
	cause := g.side("A cooler mash makes a wort that ferments further out", "A warmer mash leaves more that the yeast cannot use")
	cause += fmt.Sprintf(", and this one stood at %s", rest.said(rest.was))
	if sugar := p.sugarOf(); g.low() && sugar >= sugarShare.Number {
		const says = ". Sugar dries a beer too, and it is %.0f %% of the extract; one change at a time, the mash first"
		cause += fmt.Sprintf(says, sugar)
	}
	if rate, ok := p.Find(figures.IDPitchingRate, ""); ok && !g.low() && assay.IsUnder(rate, assay.PitchLow) {
		cause += ". Little yeast would show the same, and there may have been little: " + p.Measure(rate)
	}
	return cause + "." + p.usualWithYeast()
}

// usualWithYeast says what this brewer's earlier gyles did with the yeast, where
// three or more are known and this one was not like them.
func (p *proposer) usualWithYeast() string {
	got, ok := p.Find(figures.IDApparentAttenuation, "")
	for _, pitch := range p.Gyle.Yeast {
		usual := p.Past.Attenuation[pitch.Yeast.Name]
		if !ok || !usual.Enough() || math.Abs(got.Value-usual.Median) <= math.Hypot(got.PlusMinus, usual.HalfWidth) {
			continue
		}
		const says = " Your %d gyles before with %s attenuated %.0f %%, this one %s."
		return fmt.Sprintf(says, usual.Gyles, pitch.Yeast.Name, usual.Median, p.Measure(got))
	}
	return ""
}

// weaklyPitched tells whether the pitching rate was surely low: one that may have
// been leaves the mash as the first thing to change.
func (p *proposer) weaklyPitched() bool {
	rate, ok := p.Find(figures.IDPitchingRate, "")
	_, weighed := p.pitchLever()
	return ok && weighed && assay.Under(rate, assay.PitchLow) == assay.Surely
}

func (p *proposer) pitchLever() (lever, bool) {
	return leverAt(p.Case, "yeast", func(g *journal.Gyle) *journal.Value[q.Mass] {
		if len(g.Yeast) == 0 {
			return nil
		}
		return &g.Yeast[0].Weight
	})
}

// morePitch brings the yeast up to the ale rule; with enough of it the beer should
// end where the yeast is known to.
func (p *proposer) morePitch(g gap) {
	rate, _ := p.Find(figures.IDPitchingRate, "")
	yeast, _ := p.pitchLever()
	got, _ := p.Find(figures.IDApparentAttenuation, "")
	ends, off := p.ExpectedByYeast()
	if ends == 0 || float64(ends) >= g.got.Value || rate.Value <= 0 {
		p.otherMash(g, got)
		return
	}
	m := yeast.moved(yeast.was * pitchUsual.Number / rate.Value)
	expected := figures.Figure{Kind: g.got.Kind, Value: float64(ends), PlusMinus: off}
	p.propose(g, expected, Proposal{
		Cause: fmt.Sprintf("Little yeast went in: %s, and %d to %.1d is the rule for ales. A warm mash could have done it too; "+
			"the yeast first.", p.Measure(rate), assay.PitchLow, assay.PitchEnough),
		Change: m.insteadOf("Pitch") + ".",
		Know:   p.knowByGravity(g, expected, "it was the yeast"),
		Source: "home-brewing magazines on pitching rates; where the yeast ends, by its card or your own gyles",
	}, m)
}

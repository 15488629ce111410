package proposals

import (
	"fmt"
	"math"

	"gylebook/internal/assay"
	"gylebook/internal/brewing"
	"gylebook/internal/figures"
	"gylebook/internal/journal"
	q "gylebook/internal/quantity"
)

// mashHeat compares where the mash settled with where the liquor should have
// brought it: what is missing went into the tun.
func (p *proposer) mashHeat() {
	strikeOf := func(g *journal.Gyle) *journal.Value[q.Temperature] { return &g.Mash.Strike }
	strike, ok := leverAt(p.Case, "the strike liquor", strikeOf)
	first, known := leverAt(p.Case, "the mash", firstRest)
	if !ok || !known || len(p.Gyle.Mash.Rests) == 0 {
		return
	}
	sum, ok := p.Find(figures.IDStrikeTemperature, "")
	rest, read := p.RestHeat(0)
	used, typed := figures.AsRead(p.Gyle.Mash.Strike)
	if !ok || !read || !typed {
		return
	}
	if math.Abs(used.Value-sum.Value) <= rest.PlusMinus {
		return // a degree of mash takes more than one of strike: this cannot be told
	}
	meant, perDegree, ok := p.settles(first, strike.was)
	if !ok || math.Abs(perDegree) < 0.5 {
		return
	}
	rest.PlusMinus = math.Hypot(rest.PlusMinus, math.Hypot(sum.PlusMinus, used.PlusMinus)/perDegree)
	g := p.gapRead(mashHeat, "The mash", rest, meant, strike.where)
	if !g.tellable() {
		return
	}
	m := strike.moved(strike.was - g.by()*perDegree)
	was, text := m.fromTo()
	word := g.side("takes heat", "was warm itself, or the grist warmer than written")
	reckoned := p.tunReckoned()
	if g.low() && reckoned != noTun {
		word = "takes more heat"
	}
	expected := figures.Figure{Kind: mashHeat, Value: rest.Value + (m.to-strike.was)/perDegree, PlusMinus: rest.PlusMinus}
	p.propose(g, expected, Proposal{
		Gap: fmt.Sprintf("Liquor at %s should have made a mash of %s, and it settled at %s.", was, g.show(meant), p.Measure(g.got)),
		Cause: fmt.Sprintf("The tun %s; the sum reckons with %s. A thermometer that is off would show the same: "+
			"try it in boiling water.", word, reckoned),
		Change: fmt.Sprintf("For a mash of %s, strike with %s instead of %s.", g.show(meant), text, was),
		Know:   fmt.Sprintf("Stir, wait five minutes, and read the mash in three places: %s says that it was the tun.", p.Measure(expected)),
		Source: "heat balance of grist and liquor; the tun by difference",
	}, m)
}

// noTun is said of a sum that reckons with no heat into the tun.
const noTun = "none"

// tunReckoned is what the sum of the strike says that the tun takes.
func (p *proposer) tunReckoned() string {
	card := p.Card(journal.CardVessel, p.Gyle.Mash.Vessel)
	if card == nil || card.Vessel == nil || !card.Vessel.Takes.Written() {
		return noTun
	}
	return "the " + p.Units.Fixed(card.Vessel.Takes.Value.Litres(), "L", 1).String() + " of its card"
}

func firstRest(g *journal.Gyle) *journal.Value[q.Temperature] {
	if len(g.Mash.Rests) == 0 {
		return nil
	}
	return &g.Mash.Rests[0].At
}

// settles is the rest that a strike heat should lead to, by the sheet's own heat
// balance, and how many degrees of strike a degree of rest takes.
func (p *proposer) settles(rest lever, strike float64) (heat, perDegree float64, ok bool) {
	at := func(x float64) (float64, bool) {
		f, ok := p.worked(p.Past, move{rest, x}).Find(figures.IDStrikeTemperature, "")
		return f.Value, ok
	}
	low, ok1 := at(rest.was)
	high, ok2 := at(rest.was + 1)
	if !ok1 || !ok2 || high == low {
		return 0, 0, false
	}
	return rest.was + (strike-low)/(high-low), high - low, true
}

// mashPH sizes acid by what malt buffers, where the mash was outside its range.
func (p *proposer) mashPH() {
	ph, ok := figures.AsRead(p.Gyle.Mash.PH)
	low, high := p.Habits.In(assay.MashPHLow), p.Habits.In(assay.MashPHHigh)
	if !ok || assay.Outside(ph, low, high) < assay.Probably {
		return
	}
	whose := " by your settings"
	if !p.Habits.Own(assay.MashPHLow) {
		low, high, whose = mashPHLow.Number, mashPHHigh.Number, ""
	}
	says := fmt.Sprintf("%s to %s is right%s", q.Plain(low), q.Plain(high), whose)
	g := p.gapRead(mashPH, "The mash’s pH", ph, (low+high)/2, p.Gyle.Mash.PH.Where)
	acid, per, ok := p.mashAcid()
	kilos := p.mashedKilos()
	if !ok || kilos <= 0 {
		const needs = "The mash was at pH %s, and %s; how much acid to change needs one in liquor.acids, with its strength."
		p.pass(g, fmt.Sprintf(needs, assay.Bare(g.got), says))
		return
	}
	litresOf := func(by float64) float64 { return by * mashBuffers.Number * kilos / per / 1000 }
	m := acid.moved(acid.was + litresOf(g.by()))
	by := (m.to - acid.was) / litresOf(1)
	off := 2 * by * mashBuffersOff.Number / mashBuffers.Number / math.Sqrt(3)
	expected := figures.Figure{Kind: mashPH, Value: ph.Value - by, PlusMinus: math.Hypot(ph.PlusMinus, off)}
	was, text := m.fromTo()
	p.propose(g, expected, Proposal{
		Gap: fmt.Sprintf("The mash was at pH %s, and %s.", assay.Bare(g.got), says),
		Cause: fmt.Sprintf("There was %s acid in it for this liquor and grist. A probe not calibrated that day, or a hot sample, "+
			"would show the same.", g.side("too much", "too little")),
		Change: fmt.Sprintf("Put %s of %s acid into the mash instead of %s.", text, acid.what, was),
		Know:   "Read a cooled sample ten minutes after mashing in, with the meter calibrated that morning.",
		Source: fmt.Sprintf("malt buffers about %d mEq of acid a kilogram and pH, 25 to 45 (from memory)", mashBuffers),
	}, m)
}

// mashAcid is the volume of the acid that goes into the mash, and its mEq per mL.
func (p *proposer) mashAcid() (l lever, per float64, ok bool) {
	at := func(g *journal.Gyle) *journal.Value[q.Volume] {
		for i, a := range g.Liquor.Acids {
			if a.Volume.Written() && (a.Into.Is(journal.IntoMash) || !a.Into.Written()) {
				return &g.Liquor.Acids[i].Volume
			}
		}
		return nil
	}
	for _, a := range p.Gyle.Liquor.Acids {
		if v := at(p.Gyle); v == nil || v.Where != a.Volume.Where {
			continue
		}
		acid, density, known := acidOf(a)
		strength, err := brewing.AcidStrength(acid, a.Strength.Value, density, q.Acidity((mashPHLow.Number+mashPHHigh.Number)/2))
		if !known || err != nil || !a.Strength.Written() || strength <= 0 {
			return lever{}, 0, false
		}
		l, ok = leverAt(p.Case, a.Acid.String(), at)
		return l, float64(strength), ok
	}
	return lever{}, 0, false
}

// acidOf is an acid and how heavy it is at the strength that brewers buy it at
// (handbook densities at 20 °C, from memory; 5 % either way is nothing beside what
// malts differ by).
func acidOf(a journal.Acid) (acid brewing.Acid, density q.Gravity, ok bool) {
	share := q.Gravity(a.Strength.Value.Fraction())
	switch a.Acid.Word {
	case journal.Lactic:
		return brewing.LacticAcid, 1 + 0.24*share, true
	case journal.Phosphoric:
		return brewing.PhosphoricAcid, 1 + 0.8*share, true
	case journal.Hydrochloric:
		return brewing.HydrochloricAcid, 1 + 0.5*share, true
	case journal.Sulphuric:
		return brewing.SulphuricAcid, 1 + 0.85*share, true
	case journal.Citric:
		return brewing.CitricAcid, 1 + 0.45*share, true
	}
	return 0, 0, false
}

func (p *proposer) mashedKilos() float64 {
	kilos := 0.0
	for _, g := range p.Gyle.Grist {
		if (g.Malt.Written() || g.Adjunct.Written()) && (!g.Into.Written() || g.Into.Is(journal.IntoMash)) && g.Weight.Written() {
			kilos += g.Weight.Value.Kilograms()
		}
	}
	return kilos
}

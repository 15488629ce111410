package figures

import (
	"errors"

	"gylebook/internal/brewing"
	"gylebook/internal/journal"
	q "gylebook/internal/quantity"
)

var (
	kindBoilOff = &Kind{
		ID: "boil-off", Label: "Boil-off", Unit: "L/h", Decimals: 1,
		Says:    "What the copper loses as steam in an hour.",
		Formula: "{b} = ({V₁} − {V₂}) ÷ {t}",
		Symbols: []string{"V₁: before the boil, L at 20 °C", "V₂: after it, L at 20 °C", "t: boiled, h"},
		Valid:   "any boil", Source: "definition", Checked: "definition",
	}
	kindBitterness = &Kind{
		ID: "bitterness", Label: "Bitterness", Unit: "IBU", Decimals: 0,
		Says:    "Iso-alpha acids by one formula for every gyle, so that gyles compare. A laboratory's figure may be a fifth off.",
		Formula: "{B} = Σ weight × alpha × utilisation(time, {G}) ÷ {V}",
		Symbols: []string{"B: bitterness, IBU", "G: mean gravity of the boil", "V: wort after the boil, L, with liquor added later"},
		Valid:   "boils to 120 min in wort of 1.000 to 1.120",
		Source:  "G. Tinseth (1997), in J. Palmer, How to Brew, ch. 5; steeped: Malowicki and Shellhammer, J. Agric. Food Chem. 53 (2005) 4434",
		Checked: "58 printed cells of Tinseth's table, to 0.0005",
	}
	kindBitternessRatio = &Kind{
		ID: "bitterness-ratio", Label: "Bitterness to gravity", Unit: "IBU per point", Decimals: 2,
		Says:    "Bitterness over points of original gravity: how the balance lies.",
		Formula: "{r} = {B} ÷ (({OG} − 1) × 1000)",
		Symbols: []string{"B: bitterness, IBU", "OG: original gravity"},
		Valid:   "any beer above water", Source: "definition", Checked: "definition",
	}
	kindColour = &Kind{
		ID: "colour", Label: "Colour", Unit: "EBC", Decimals: 0,
		Says:    "From the malts' colours. Real beers lie within about 15 % of it.",
		Formula: "{C} = 1.97 × 1.4922 × {MCU}^0.6859",
		Symbols: []string{"C: colour, EBC", "MCU: Σ weight × colour ÷ volume, in lb °L per US gallon"},
		Valid:   "to about 100 EBC",
		Source:  "D. Morey, Approximating SRM beer color of homemade beer, Brewing Techniques (coefficients from memory)",
		Checked: "a table of 14 values of the formula",
	}
	copperKinds = []*Kind{kindBoilOff, kindLiquorBack, kindBoilOn, kindBitterness, kindBitternessRatio, kindColour}
)

// boiling is what happens in the copper.
func boiling(s *Sheet) {
	if s.begunAsBeer() {
		s.drawnOver()
		return
	}
	s.boilOff()
	s.towardsAim()
	if len(s.Gyle.Hops) > 0 || s.hoppedSyrup() {
		b := s.bitterness()
		extrapolated(add(s, kindBitterness, "", b, sym("B", b, "IBU"), sym("G", s.boilGravity(), ""), sym("V", s.hoppedVolume(), "L")), s.boiledBeyond())
		ratio := from2(s, bitternessRatio, b, s.ogOrExpected())
		add(s, kindBitternessRatio, "", ratio, sym("r", ratio, ""), sym("B", b, ""), sym("OG", s.ogOrExpected(), ""))
	}
	if len(s.Gyle.Grist) > 0 {
		mcu := s.colourUnits()
		colour := from1(s, brewing.ColourMorey, mcu)
		if colour.known {
			colour = scattered(s, colour, float64(colour.Value)*colourScatter, "EBC", "the colour formula", "real beers lie within about 15 % of it (common practice, no source)")
		}
		extrapolated(add(s, kindColour, "", colour, sym("C", colour, "EBC"), sym("MCU", mcu, "")), colour.Value > darkestKnown)
	}
}

// Where the formulas of this file end: Tinseth's table with 120 min and 1.120, and
// Morey's beers about 100 EBC.
const (
	longestBoil   = 120 * q.Minute
	strongestBoil = q.Gravity(1.120)
	darkestKnown  = q.Colour(100)
)

// boiledBeyond tells whether hops boiled for longer, or in stronger wort, than
// the formula's table has.
func (s *Sheet) boiledBeyond() bool {
	if g := s.boilGravity(); g.known && g.Value > strongestBoil {
		return true
	}
	for i := range s.Gyle.Hops {
		h := &s.Gyle.Hops[i]
		if h.Boiled.Written() && !h.Boiled.None && h.Boiled.Value > longestBoil {
			return true
		}
	}
	return false
}

// How far the formulas that are only fits lie from real beers, as standard
// uncertainties, shares of the value. Bitterness is used to compare gyles, and
// laboratories find it a fifth off; colour 15 % (common practice, no source).
const (
	bitternessScatter = 0.10
	colourScatter     = 0.075
)

func (s *Sheet) boilOff() {
	c := &s.Gyle.Copper
	if c.Boiled.None || s.Stage < Copper || !c.Written() {
		return
	}
	before, after := s.measuredVolume(c.Before, "copper.before.volume"), s.measuredVolume(c.After, "copper.after.volume")
	boiled := read(s, c.Boiled, "copper.boiled", ofBoilTime)
	off := from3(s, brewing.BoilOff, before, after, boiled)
	add(s, kindBoilOff, "", off, sym("b", off, "L/h"), sym("V₁", before, "L"), sym("V₂", after, "L"), sym("t", hours(s, boiled), "h"))
}

func hours(s *Sheet, d Estimate[q.Duration]) Estimate[q.Number] {
	return times[q.Number](s, d, q.Duration(1).Hours())
}

// bitterness is the sum of all additions, diluted by liquor added later.
func (s *Sheet) bitterness() Estimate[q.Bitterness] {
	return s.memoBitterness.once(func() Estimate[q.Bitterness] {
		total := exactly(q.Bitterness(0))
		for i := range s.Gyle.Hops {
			h := &s.Gyle.Hops[i]
			total = sum(s, total, s.addition(i, h))
		}
		if total.known {
			total = scattered(s, total, float64(total.Value)*bitternessScatter, "IBU", "the bitterness formula", "it compares gyles; a laboratory's figure may be a fifth off (common practice, no source)")
		}
		for i := range s.Gyle.Grist {
			g := &s.Gyle.Grist[i]
			if g.Bitterness.Written() {
				total = sum(s, total, read(s, g.Bitterness, keyOf(g.Bitterness.Where, "grist", i, "bitterness"), ofTin))
			}
		}
		return total
	})
}

func (s *Sheet) hoppedSyrup() bool {
	for i := range s.Gyle.Grist {
		g := &s.Gyle.Grist[i]
		if g.Bitterness.Written() {
			return true
		}
	}
	return false
}

// addition is the bitterness from one addition. Dry hops give none by this
// reckoning.
func (s *Sheet) addition(i int, h *journal.Hop) Estimate[q.Bitterness] {
	if h.Dry.Written() || !h.Boiled.Written() && !h.Steeped.Written() {
		return exactly(q.Bitterness(0))
	}
	weight, alpha := read(s, h.Weight, keyOf(h.Weight.Where, "hops", i, "weight"), ofSmall), s.alphaOf(i, h)
	if h.Steeped.Written() {
		heat := read(s, h.At, keyOf(h.At.Where, "hops", i, "at"), ofMashHeat)
		if !h.At.Written() {
			heat = customary(s, q.Celsius(90), 5, "°C", "the steep's heat", "not written: taken as 90 ± 5 °C, falling from the boil")
		}
		return from6(s, brewing.BitternessSteeped, weight, alpha, read(s, h.Steeped, keyOf(h.Steeped.Where, "hops", i, "steeped"), ofBoilTime), heat, s.boilGravity(), s.hoppedVolume())
	}
	return from5(s, brewing.BitternessTinseth, weight, alpha, read(s, h.Boiled, keyOf(h.Boiled.Where, "hops", i, "boiled"), ofBoilTime), s.boilGravity(), s.hoppedVolume())
}

func (s *Sheet) alphaOf(i int, h *journal.Hop) Estimate[q.Percent] {
	k := key("hops", i, "alpha")
	if h.Alpha.Written() {
		return read(s, h.Alpha, k, ofAlpha)
	}
	if card := s.card("hop", h.Hop); card != nil && card.Hop != nil && card.Hop.Alpha.Written() {
		return read(s, card.Hop.Alpha, k, ofVariety)
	}
	return missing[q.Percent](k)
}

// hoppedVolume is what the bitterness is dissolved in: the wort after the boil,
// else in the fermenter, else the volume aimed at; liquor added later dilutes.
func (s *Sheet) hoppedVolume() Estimate[q.Volume] {
	return s.memoHoppedVolume.once(func() Estimate[q.Volume] {
		after := s.measuredVolume(s.Gyle.Copper.After, "copper.after.volume")
		if after.known && s.Gyle.Fermenter.Topped.Written() {
			after = s.toppedUp(after)
		}
		return first(after, s.fermenterVolume(), read(s, s.Gyle.Aim.Volume, "aim.volume", asWished))
	})
}

// toppedUp is what wort from the copper comes to once it is as thin as in the
// fermenter: what stayed behind in the copper took its bitterness and colour
// with it before any liquor was added. Where the fermenter's volume is not
// known nothing is taken as lost.
func (s *Sheet) toppedUp(wort Estimate[q.Volume]) Estimate[q.Volume] {
	topped := read(s, s.Gyle.Fermenter.Topped, "fermenter.topped_up", ofVolume)
	thinned := from3(s, func(wort, fermenter, topped q.Volume) (q.Volume, error) {
		if topped >= fermenter {
			return 0, errAllLiquor
		}
		return wort * fermenter / (fermenter - topped), nil
	}, wort, s.fermenterVolume(), topped)
	return first(thinned, sum(s, wort, topped))
}

// boilGravity is the mean of the gravities before and after the boil, else the one
// after it, else the original gravity, which later liquor may have thinned.
func (s *Sheet) boilGravity() Estimate[q.Gravity] {
	return s.memoBoilGravity.once(func() Estimate[q.Gravity] {
		before := &s.Gyle.Copper.Before
		mean := from2(s, func(a, b q.Gravity) (q.Gravity, error) { return (a + b) / 2, nil },
			s.hydrometer(before.Gravity, "copper.before.gravity", before.With, before.SampleAt, before.Temp), s.copperOG())
		return first(mean, s.copperOG(), s.ogOrExpected())
	})
}

// colourUnits is the malts' colour in the wort, in lb °L per US gallon.
func (s *Sheet) colourUnits() Estimate[q.Number] {
	total := exactly(q.Number(0))
	for i := range s.Gyle.Grist {
		g := &s.Gyle.Grist[i]
		colour := s.colourOf(i, g)
		if colour.known && colour.Value == 0 {
			continue
		}
		weight := read(s, g.Weight, keyOf(g.Weight.Where, "grist", i, "weight"), ofWeight)
		total = sum(s, total, from3(s, brewing.ColourUnits, weight, colour, s.hoppedVolume()))
	}
	return total
}

func (s *Sheet) colourOf(i int, g *journal.Grain) Estimate[q.Colour] {
	k := key("grist", i, "colour")
	if g.Colour.Written() {
		return read(s, g.Colour, k, ofColour)
	}
	card := s.cardOfGrain(g)
	switch {
	case card != nil && card.Malt != nil && card.Malt.Colour.Written():
		return read(s, card.Malt.Colour, k, ofColour)
	case card != nil && card.Sugar != nil && card.Sugar.Colour.Written():
		return read(s, card.Sugar.Colour, k, ofColour)
	case card != nil && card.Sugar != nil:
		return exactly(q.Colour(0))
	}
	return missing[q.Colour](k)
}

var errAllLiquor = errors.New("the fermenter would hold nothing but the liquor added to it")

var errNoGravity = errors.New("no gravity above water to compare with")

func bitternessRatio(b q.Bitterness, og q.Gravity) (q.Number, error) {
	if og.Points() < 1 {
		return 0, errNoGravity
	}
	return q.Number(b.IBU() / og.Points()), nil
}

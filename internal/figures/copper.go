package figures

import (
	"errors"
	"slices"

	"gylebook/internal/brewing"
	"gylebook/internal/journal"
	q "gylebook/internal/quantity"
)

var (
	kindBoilOff = &Kind{
		ID: IDBoilOff, Label: "Boil-off", Unit: "L/h", Decimals: 1,
		Says:    "What the copper loses as steam in an hour.",
		Formula: "{b} = ({V₁} − {V₂}) ÷ {t}",
		Symbols: []string{"V₁: before the boil, L at 20 °C", "V₂: after it, L at 20 °C", "t: boiled, h"},
		Valid:   "any boil", Source: "definition", Checked: "definition",
	}
	kindBitterness = &Kind{
		ID: IDBitterness, Label: "Bitterness", Unit: "IBU", Decimals: 0,
		Says:    "Iso-alpha acids by one formula for every gyle, so that gyles compare. A laboratory's figure may be a fifth off. Pellets count as leaf, and old hops as fresh.",
		Formula: "{B} = Σ weight × alpha × utilisation(time, {G}) ÷ {V}",
		Symbols: []string{"B: bitterness, IBU", "G: mean gravity of the boil", "V: wort after the boil, L, with liquor added later"},
		Valid:   "boils to 120 min in wort of 1.000 to 1.120",
		Source:  "G. Tinseth (1997), in J. Palmer, How to Brew, ch. 5; steeped: Malowicki and Shellhammer, J. Agric. Food Chem. 53 (2005) 4434",
		Checked: "58 printed cells of Tinseth's table, to 0.0005",
	}
	kindBitternessRatio = &Kind{
		ID: IDBitternessRatio, Label: "Bitterness to gravity", Unit: "IBU per point", Decimals: 2,
		Says:    "Bitterness over points of original gravity: how the balance lies.",
		Formula: "{r} = {B} ÷ (({OG} − 1) × 1000)",
		Symbols: []string{"B: bitterness, IBU", "OG: original gravity"},
		Valid:   "any beer above water", Source: "definition", Checked: "definition",
	}
	kindColour = &Kind{
		ID: IDColour, Label: "Colour", Unit: "EBC", Decimals: 0,
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
func boiling(b *bench) {
	if b.begunAsBeer() {
		b.drawnOver()
		return
	}
	b.boilOff()
	b.towardsAim()
	if len(b.Gyle.Hops) > 0 || b.hoppedSyrup() {
		ibu, og := b.bitterness(), b.ogOrExpected()
		f := add(b, kindBitterness, "", ibu, sym("B", ibu, "IBU"), sym("G", b.boilGravity(), ""), sym("V", b.hoppedVolume(), "L"))
		extrapolated(f, b.boiledBeyond())
		ratio := from2(b, bitternessRatio, ibu, og)
		add(b, kindBitternessRatio, "", ratio, sym("r", ratio, ""), sym("B", ibu, ""), sym("OG", og, ""))
	}
	if len(b.Gyle.Grist) > 0 {
		mcu := b.colourUnits()
		colour := from1(b, brewing.ColourMorey, mcu)
		if colour.known {
			colour = scattered(b, colour, float64(colour.Value)*colourScatter, "EBC", "the colour formula", "real beers lie within about 15 % of it (common practice, no source)")
		}
		extrapolated(add(b, kindColour, "", colour, sym("C", colour, "EBC"), sym("MCU", mcu, "")), colour.Value > darkestKnown)
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
func (b *bench) boiledBeyond() bool {
	if g := b.boilGravity(); g.known && g.Value > strongestBoil {
		return true
	}
	for i := range b.Gyle.Hops {
		h := &b.Gyle.Hops[i]
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

func (b *bench) boilOff() {
	c := &b.Gyle.Copper
	if c.Boiled.None || b.Stage < Copper || !c.Written() {
		return
	}
	before, after := b.measuredVolume(c.Before, "copper.before.volume"), b.measuredVolume(c.After, "copper.after.volume")
	boiled := read(b, c.Boiled, "copper.boiled", ofBoilTime)
	off := from3(b, brewing.BoilOff, before, after, boiled)
	add(b, kindBoilOff, "", off, sym("b", off, "L/h"), sym("V₁", before, "L"), sym("V₂", after, "L"), sym("t", hours(b, boiled), "h"))
}

func hours(b *bench, d Estimate[q.Duration]) Estimate[q.Number] {
	return times[q.Number](b, d, q.Duration(1).Hours())
}

// bitterness is the sum of all additions, diluted by liquor added later.
func (b *bench) bitterness() Estimate[q.Bitterness] {
	return b.memoBitterness.once(func() Estimate[q.Bitterness] {
		if b.onlyDryHopped() {
			return withheld[q.Bitterness]("no hops are noted for the copper, and those in the beer give none that can be reckoned")
		}
		total := exactly(q.Bitterness(0))
		for i := range b.Gyle.Hops {
			h := &b.Gyle.Hops[i]
			total = sum(b, total, b.addition(i, h))
		}
		if total.known {
			total = scattered(b, total, float64(total.Value)*bitternessScatter, "IBU", "the bitterness formula", "it compares gyles; a laboratory's figure may be a fifth off (common practice, no source)")
		}
		for i := range b.Gyle.Grist {
			g := &b.Gyle.Grist[i]
			if g.Bitterness.Written() {
				total = sum(b, total, read(b, g.Bitterness, keyOf(g.Bitterness.Where, "grist", i, "bitterness"), ofTin))
			}
		}
		return total
	})
}

// onlyDryHopped tells of an entry that names hops in the beer and none in the copper, nor a
// hopped syrup: whether there were any, nobody says. Of beer that was not boiled it is sure.
func (b *bench) onlyDryHopped() bool {
	if len(b.Gyle.Hops) == 0 || b.hoppedSyrup() || b.Gyle.Copper.Boiled.None {
		return false
	}
	return !slices.ContainsFunc(b.Gyle.Hops, func(h journal.Hop) bool { return !isDry(&h) })
}

// isDry tells whether hops went into the beer and not into the copper.
func isDry(h *journal.Hop) bool {
	return h.Dry.Written() || h.Into.Is(journal.IntoFermenter, journal.IntoPackage)
}

func (b *bench) hoppedSyrup() bool {
	for i := range b.Gyle.Grist {
		g := &b.Gyle.Grist[i]
		if g.Bitterness.Written() {
			return true
		}
	}
	return false
}

// addition is the bitterness from one addition. Dry hops give none by this
// reckoning; of hops that nobody says how long they boiled, what they give is not
// known, nor the sum.
func (b *bench) addition(i int, h *journal.Hop) Estimate[q.Bitterness] {
	if isDry(h) {
		return exactly(q.Bitterness(0))
	}
	if !h.Boiled.Written() && !h.Steeped.Written() {
		return missing[q.Bitterness](key("hops", i, "boiled"))
	}
	weight, alpha := read(b, h.Weight, keyOf(h.Weight.Where, "hops", i, "weight"), ofSmall), b.alphaOf(i, h)
	if h.Steeped.Written() {
		heat := read(b, h.At, keyOf(h.At.Where, "hops", i, "at"), ofMashHeat)
		if !h.At.Written() {
			heat = customary(b, q.Celsius(90), 5, "°C", "the steep's heat", "not written: taken as 90 ± 5 °C, falling from the boil")
		}
		return from6(b, brewing.BitternessSteeped, weight, alpha, read(b, h.Steeped, keyOf(h.Steeped.Where, "hops", i, "steeped"), ofBoilTime), heat, b.boilGravity(), b.hoppedVolume())
	}
	boiled := from5(b, brewing.BitternessTinseth, weight, alpha, read(b, h.Boiled, keyOf(h.Boiled.Where, "hops", i, "boiled"), ofBoilTime), b.boilGravity(), b.hoppedVolume())
	if !h.Into.Is(journal.IntoMash) {
		return boiled
	}
	comesThrough := customary(b, q.Number(mashHops), mashHopsOff, "", "what of hops in the mash comes into the copper",
		"a tenth to a half of what boiling them gives (common practice, no source; reports differ)")
	return from2(b, func(ibu q.Bitterness, part q.Number) (q.Bitterness, error) {
		return ibu * q.Bitterness(max(part, 0)), nil
	}, boiled, comesThrough)
}

// What hops in the mash give, as a share of the same hops boiled (common practice, no
// source): most of their acids stay in the goods.
const mashHops, mashHopsOff = 0.3, 0.2

func (b *bench) alphaOf(i int, h *journal.Hop) Estimate[q.Percent] {
	k := key("hops", i, "alpha")
	if h.Alpha.Written() {
		return read(b, h.Alpha, k, ofAlpha)
	}
	if card := b.card("hop", h.Hop); card != nil && card.Hop != nil && card.Hop.Alpha.Written() {
		return read(b, card.Hop.Alpha, k, ofVariety)
	}
	return missing[q.Percent](k)
}

// hoppedVolume is what the bitterness is dissolved in: the wort after the boil with the
// liquor that was added to it, else in the fermenter, else the volume aimed at.
func (b *bench) hoppedVolume() Estimate[q.Volume] {
	return b.memoHoppedVolume.once(func() Estimate[q.Volume] {
		after, filled := b.measuredVolume(b.Gyle.Copper.After, "copper.after.volume"), b.fermenterVolume()
		switch {
		case after.known && b.Gyle.Fermenter.Topped.Written():
			after = b.toppedUp(after)
		case after.known && filled.known && filled.Value > madeUp*after.Value:
			after = filled // nobody says with how much liquor
		}
		return first(after, filled, read(b, b.Gyle.Aim.Volume, "aim.volume", asWished))
	})
}

// madeUp is from which share of the wort after the boil on a fermenter holds liquor too:
// more than two volumes read by eye may differ by (common practice, no source).
const madeUp = 1.1

// toppedUp is what wort from the copper comes to once it is as thin as in the
// fermenter: what stayed behind in the copper took its bitterness and colour
// with it before any liquor was added. Where the fermenter's volume is not
// known nothing is taken as lost.
func (b *bench) toppedUp(wort Estimate[q.Volume]) Estimate[q.Volume] {
	topped := read(b, b.Gyle.Fermenter.Topped, "fermenter.topped_up", ofVolume)
	thinned := from3(b, func(wort, fermenter, topped q.Volume) (q.Volume, error) {
		if topped >= fermenter {
			return 0, errAllLiquor
		}
		return wort * fermenter / (fermenter - topped), nil
	}, wort, b.fermenterVolume(), topped)
	return first(thinned, sum(b, wort, topped))
}

// boilGravity is the mean of the gravities before and after the boil, else the one
// after it, else the original gravity as it was before liquor thinned it.
func (b *bench) boilGravity() Estimate[q.Gravity] {
	return b.memoBoilGravity.once(func() Estimate[q.Gravity] {
		before := &b.Gyle.Copper.Before
		mean := from2(b, func(a, b q.Gravity) (q.Gravity, error) { return (a + b) / 2, nil },
			b.hydrometer(before.Gravity, "copper.before.gravity", before.With, before.SampleAt, before.Temp), b.copperOG())
		return first(mean, b.copperOG(), b.unthinnedOG())
	})
}

// unthinnedOG is the original gravity as it stood in the copper: of a small boil that was
// made up with liquor in the fermenter it was as much stronger as the volumes say.
func (b *bench) unthinnedOG() Estimate[q.Gravity] {
	og, after := b.ogOrExpected(), b.measuredVolume(b.Gyle.Copper.After, "copper.after.volume")
	if b.Gyle.Fermenter.Topped.Written() {
		topped := read(b, b.Gyle.Fermenter.Topped, "fermenter.topped_up", ofVolume)
		boiled := from2(b, func(all, topped q.Volume) (q.Volume, error) {
			if topped >= all {
				return 0, errAllLiquor
			}
			return all - topped, nil
		}, b.fermenterVolume(), topped)
		wort := first(boiled, after)
		return first(from3(b, strengthened, og, wort, sum(b, wort, topped)), og)
	}
	before := b.measuredVolume(b.Gyle.Copper.Before, "copper.before.volume")
	return first(from3(b, strengthened, og, first(after, before), b.hoppedVolume()), og)
}

// strengthened is the gravity of wort before liquor brought it to a greater volume.
func strengthened(g q.Gravity, wort, with q.Volume) (q.Gravity, error) {
	if wort <= 0 {
		return 0, errAllLiquor
	}
	return 1 + (g-1)*max(q.Gravity(with/wort), 1), nil
}

// colourUnits is the malts' colour in the wort, in lb °L per US gallon.
func (b *bench) colourUnits() Estimate[q.Number] {
	total := exactly(q.Number(0))
	for i := range b.Gyle.Grist {
		g := &b.Gyle.Grist[i]
		colour := b.colourOf(i, g)
		if colour.known && colour.Value == 0 {
			continue
		}
		weight := read(b, g.Weight, keyOf(g.Weight.Where, "grist", i, "weight"), ofWeight)
		total = sum(b, total, from3(b, brewing.ColourUnits, weight, colour, b.hoppedVolume()))
	}
	return total
}

func (b *bench) colourOf(i int, g *journal.Grain) Estimate[q.Colour] {
	k := key("grist", i, "colour")
	if g.Colour.Written() {
		return read(b, g.Colour, k, ofColour)
	}
	card := b.cardOfGrain(g)
	switch {
	case card != nil && card.Malt != nil && card.Malt.Colour.Written():
		return read(b, card.Malt.Colour, k, ofColour)
	case card != nil && card.Sugar != nil && card.Sugar.Colour.Written():
		return read(b, card.Sugar.Colour, k, ofColour)
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

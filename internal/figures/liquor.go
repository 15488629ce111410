package figures

import (
	"gylebook/internal/brewing"
	q "gylebook/internal/quantity"
)

var (
	kindLiquorNeeded = &Kind{
		ID: IDLiquorNeeded, Label: "Liquor needed", Unit: "L", Decimals: 1,
		Says:    "Strike, infusion and sparge liquor together for the volume aimed at in the fermenter, all of it cold: what the goods keep, what boils off and what stays behind in the copper come on top. Boil-off and losses are this brewer's own where three earlier gyles tell.",
		Formula: "{L} = {V} + {m} × {a} + {b} × {t} + {l}",
		Symbols: []string{"L: liquor, L at 20 °C", "V: volume aimed at in the fermenter, L", "m: what is mashed, kg", "a: what the goods keep, L/kg", "b: boil-off, L/h", "t: boil, h", "l: left behind in the copper, L"},
		Valid:   "one boil of up to 12 h", Source: "conservation of volume; what goods keep is common practice, no source",
		Checked: "a gyle worked by hand",
	}
	kindSparge = &Kind{
		ID: IDSpargeLiquor, Label: "Sparge liquor", Unit: "L", Decimals: 1,
		Says:    "What of the liquor needed is left for the sparge once the mash has had its own.",
		Formula: "{S} = max(0, {L} − {M} − {I})",
		Symbols: []string{"S: sparge liquor, L at 20 °C", "L: liquor needed, L", "M: strike liquor, L", "I: infusions, L"},
		Valid:   kindLiquorNeeded.Valid, Source: kindLiquorNeeded.Source, Checked: kindLiquorNeeded.Checked,
	}
	kindLiquorBack = &Kind{
		ID: IDLiquorBack, Label: "Liquor to let back for the aim", Unit: "L", Decimals: 1,
		Says:    "While the yeast is not in: the cold liquor that thins the wort to the gravity aimed at, nothing where it is not too strong. Reckoned in the fermenter, else in the copper after the boil, else before it.",
		Formula: "{l} = max(0, {V} × {G} × (P ÷ Pₐ − 1)), P from {G}, Pₐ from {Gₐ}",
		Symbols: []string{"l: liquor to add, L", "V: wort, L", "G: its gravity", "Gₐ: gravity aimed at"},
		Valid:   "gravity 1.000 to 1.150, aim 1.002 to 1.150", Source: "conservation of extract and of mass",
		Checked: "wort and liquor blended have the gravity aimed at",
	}
	kindBoilOn = &Kind{
		ID: IDBoilOn, Label: "To boil away for the aim", Unit: "L", Decimals: 1,
		Says:    "While the yeast is not in: the water that must still boil away so that the wort comes up to the gravity aimed at, nothing where it is not too weak.",
		Formula: "{l} = max(0, {V} × {G} × (1 − P ÷ Pₐ)), P from {G}, Pₐ from {Gₐ}",
		Symbols: []string{"l: to boil away, L", "V: wort, L", "G: its gravity", "Gₐ: gravity aimed at"},
		Valid:   kindLiquorBack.Valid, Source: kindLiquorBack.Source, Checked: "boiling away is letting back, backwards",
	}
)

// What a brewing costs in liquor where no gyles of one's own tell (common
// practice, no source): what the goods keep, a part of the volume that boils off in
// an hour, and a part that stays behind with the break.
const (
	goodsKeep, goodsKeepOff         = 1.0, 0.2 // L/kg
	boilsOffHourly, boilsOffOff     = 0.12, 0.06
	staysInCopper, staysInCopperOff = 0.08, 0.05
)

// liquorFor is the liquor that a brewing needs, as long as it can be measured out.
func (b *bench) liquorFor() {
	if b.Stage > Copper || b.begunAsBeer() || b.onlyStirred() {
		return
	}
	wanted, kept := read(b, b.Gyle.Aim.Volume, "aim.volume", asWished), customary(b, q.Number(goodsKeep), goodsKeepOff, "L/kg", "what the goods keep", "0.8 to 1.2 L/kg are found (common practice, no source)")
	boilOff, lost := b.boilOffToExpect(wanted), b.copperLossToExpect(wanted)
	boiled := read(b, b.Gyle.Copper.Boiled, "copper.boiled", ofBoilTime)
	if b.Gyle.Copper.Boiled.None {
		boiled = exactly(q.Duration(0))
	}
	needed := from6(b, brewing.LiquorNeeded, wanted, b.mashedWeight(), kept, boilOff, boiled, lost)
	add(b, kindLiquorNeeded, "", needed, sym("L", needed, "L"), sym("V", wanted, ""), sym("m", kilograms(b, b.mashedWeight()), ""), sym("a", kept, ""), sym("b", boilOff, ""), sym("t", hours(b, boiled), ""), sym("l", lost, ""))
	if b.mashedWeight().known && b.mashedWeight().Value == 0 {
		return // an extract beer is not sparged
	}
	strike, infused := b.mashLiquor(), b.infused(len(b.Gyle.Mash.Rests))
	sparge := from3(b, func(needed, strike, infused q.Volume) (q.Volume, error) { return max(0, needed-strike-infused), nil }, needed, strike, infused)
	add(b, kindSparge, "", sparge, sym("S", sparge, "L"), sym("L", needed, ""), sym("M", strike, ""), sym("I", infused, ""))
}

// onlyStirred tells whether nothing is mashed and nothing boiled: a kit is made up
// to its mark.
func (b *bench) onlyStirred() bool {
	return !b.Gyle.Copper.Written() && b.mashedWeight().known && b.mashedWeight().Value == 0
}

// boilOffToExpect is this gyle's own boil-off once it is known, else the
// brewer's past, else the usual part of the volume.
func (b *bench) boilOffToExpect(wanted Estimate[q.Volume]) Estimate[q.Number] {
	c := &b.Gyle.Copper
	own := from3(b, brewing.BoilOff, b.measuredVolume(c.Before, "copper.before.volume"), b.measuredVolume(c.After, "copper.after.volume"), read(b, c.Boiled, "copper.boiled", ofBoilTime))
	switch {
	case own.known && own.Value >= 0:
		return own
	case b.Past.BoilOff.Enough():
		return learned[q.Number](b, b.Past.BoilOff, "L/h", "the boil-off to plan by")
	}
	share := customary(b, q.Number(boilsOffHourly), boilsOffOff, "", "the boil-off to plan by", "6 to 18 % of the wort in an hour, until three gyles of one's own are known (common practice, no source)")
	return from2(b, func(v q.Volume, share q.Number) (q.Number, error) { return share * q.Number(v.Litres()), nil }, wanted, share)
}

// copperLossToExpect is what stays behind in the copper: by the brewer's past,
// else the usual part of the volume.
func (b *bench) copperLossToExpect(wanted Estimate[q.Volume]) Estimate[q.Volume] {
	if b.Past.CopperLosses.Enough() {
		return learned[q.Volume](b, b.Past.CopperLosses, "L", "what stays in the copper, to plan by")
	}
	share := customary(b, q.Number(staysInCopper), staysInCopperOff, "", "what stays in the copper, to plan by", "3 to 13 % with the break and hops, until three gyles of one's own are known (common practice, no source)")
	return from2(b, func(v q.Volume, share q.Number) (q.Volume, error) { return v * q.Volume(share), nil }, wanted, share)
}

// towardsAim is what brings the wort to the gravity aimed at, while that can still
// be done.
func (b *bench) towardsAim() {
	if b.Stage != Copper || b.begunAsBeer() {
		return
	}
	aim := read(b, b.Gyle.Aim.OG, "aim.og", asWished)
	volume, gravity := b.wortNow()
	signed := from3(b, brewing.LiquorBack, volume, gravity, aim)
	back := from1(b, func(v q.Volume) (q.Volume, error) { return max(0, v), nil }, signed)
	away := from1(b, func(v q.Volume) (q.Volume, error) { return max(0, -v), nil }, signed)
	add(b, kindLiquorBack, "", back, sym("l", back, "L"), sym("V", volume, ""), sym("G", gravity, ""), sym("Gₐ", aim, ""))
	add(b, kindBoilOn, "", away, sym("l", away, "L"), sym("V", volume, ""), sym("G", gravity, ""), sym("Gₐ", aim, ""))
}

// wortNow is the wort as last measured: in the fermenter, else after the boil,
// else before it.
func (b *bench) wortNow() (Estimate[q.Volume], Estimate[q.Gravity]) {
	c := &b.Gyle.Copper
	after, before := b.measuredVolume(c.After, "copper.after.volume"), b.measuredVolume(c.Before, "copper.before.volume")
	inCopper := b.hydrometer(c.Before.Gravity, "copper.before.gravity", c.Before.With, c.Before.SampleAt, c.Before.Temp)
	switch {
	case b.fermenterVolume().known && b.og().known:
		return b.fermenterVolume(), b.og()
	case after.known && b.copperOG().known:
		return after, b.copperOG()
	case before.known && inCopper.known && !c.After.Written():
		return before, inCopper
	}
	return after, b.copperOG()
}

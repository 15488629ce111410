package figures

import (
	"errors"
	"slices"

	"gylebook/internal/brewing"
	"gylebook/internal/journal"
	q "gylebook/internal/quantity"
)

var (
	kindOGExpected = &Kind{
		ID: IDOGExpected, Label: "Original gravity to expect", Unit: "SG", Decimals: 4,
		Says:    "What the grist should give in the volume aimed at, at this brewer's own brewhouse yield.",
		Formula: "{OG} = 1 + ({M} × {η} + {S}) ÷ (1000 × {V})",
		Symbols: []string{"OG: gravity to expect", "M: litre-degrees in what is mashed", "η: brewhouse yield", "S: litre-degrees of sugars added later", "V: volume aimed at, else in the fermenter"},
		Valid:   "up to 1.150",
		Source:  "litre-degrees by definition; pure sugar 385 Ldeg/kg from NBS Circular C440",
		Checked: "sucrose at 40 and 100 g/L by its density",
	}
	kindMashYield = &Kind{
		ID: IDMashYield, Label: "Mash yield", Unit: "%", Decimals: 0,
		Says:    "Extract in the copper before the boil, of all that was in the mash.",
		Formula: "{η} = ({OG} − 1) × 1000 × {V} ÷ {M}",
		Symbols: []string{"OG: gravity before the boil", "V: wort before the boil, L at 20 °C", "M: litre-degrees in what was mashed"},
		Valid:   "any mash", Source: "litre-degrees by definition", Checked: "mass balance of extract",
	}
	kindBrewhouseYield = &Kind{
		ID: IDBrewhouseYield, Label: "Brewhouse yield", Unit: "%", Decimals: 0,
		Says:    "Extract in the fermenter, less sugars added after the mash, of all that was in the mash. The figure to plan the next gyle by.",
		Formula: "{η} = (({OG} − 1) × 1000 × {V} − {S}) ÷ {M}",
		Symbols: []string{"OG: original gravity", "V: wort in the fermenter, L", "S: litre-degrees of sugars added later, before it was read, as far as they came into the fermenter", "M: litre-degrees in what was mashed"},
		Valid:   "any mash", Source: "litre-degrees by definition", Checked: "mass balance of extract",
	}
	kindLiquorToGrist = &Kind{
		ID: IDLiquorToGrist, Label: "Liquor to grist", Unit: "L/kg", Decimals: 1,
		Says:    "How thick the mash is.",
		Formula: "{r} = {L} ÷ {m}",
		Symbols: []string{"L: strike liquor, L", "m: what is mashed, kg"},
		Valid:   "any mash", Source: "definition", Checked: "definition",
	}
	kindStrike = &Kind{
		ID: IDStrikeTemperature, Label: "Strike temperature", Unit: "°C", Decimals: 1,
		Says:    "How hot the liquor must be so that the mash settles at its first rest. A tun takes heat where mash.vessel names one whose card says how much, or as your last mashes in it showed; any other is taken as warmed. Slaking heat, worth 1 to 3 °C with very dry malt, is left out, and its doubt is in the ±.",
		Formula: "{Ts} = {T} + (0.41 × {m} × ({T} − {Tg}) + {U}) ÷ {L} + {l} × (1 + 0.41 × {m} ÷ {L})",
		Symbols: []string{"Ts: strike temperature, °C", "T: first rest, °C", "Tg: the grist's heat, °C", "m: what is mashed, kg", "U: the tun's share, the litres of liquor that it is like × (T − its heat), 0 for one that was warmed", "L: strike liquor, L", "l: how much cooler than that your last mashes in this tun settled, K"},
		Valid:   "rest 30 to 80 °C",
		Source:  "heat balance; 0.41 of water's heat for malt: Pauls & Whites Brewing Room Book 1984/85, as reproduced",
		Checked: "two worked examples of that book, to 0.25 °C at its one heat for malt, and four tuns worked by hand",
	}
	kindMashHeatLost = &Kind{
		ID: IDMashHeatLost, Label: "Heat the mash lost", Unit: "K", Decimals: 1,
		Says:    "How much cooler the mash settled than liquor, grist and tun should: what a cold tun took, less what dry malt gave. The next strike in the same tun allows for the middle of three or more.",
		Formula: "{l} = ({L} × {Ts} + 0.41 × {m} × {Tg} + {U}) ÷ ({L} + 0.41 × {m} + {u}) − {T}",
		Symbols: []string{"l: heat lost, K", "L: strike liquor, L", "Ts: the liquor's heat", "m: what is mashed, kg", "Tg: the grist's heat", "u, U: what the tun's card says, as litres of liquor, and × its heat", "T: the first rest, as it came out"},
		Valid:   "mashes that were read after the grist was in",
		Source:  "heat balance; 0.41 of water's heat for malt: Pauls & Whites Brewing Room Book 1984/85, as reproduced",
		Checked: "the strike temperature's balance, turned round",
	}
	mashKinds = []*Kind{kindOGExpected, kindLiquorNeeded, kindSparge, kindLiquorToGrist, kindStrike, kindMashHeatLost, kindInfusionLiquor, kindInfusionHeat, kindMashYield, kindBrewhouseYield}
)

// mashing is what the grist gives and how it is mashed.
func mashing(b *bench) {
	if len(b.Gyle.Grist) == 0 {
		return
	}
	mashed, later := b.mashed(), b.addedLater()
	b.liquorFor()
	expected := b.ogToExpect()
	add(b, kindOGExpected, "", expected, sym("OG", expected, ""), sym("M", mashed, ""), sym("η", b.planningYield(), "%"), sym("S", later, ""), sym("V", b.planningVolume(), "L"))
	if b.mashedWeight().known && b.mashedWeight().Value == 0 {
		return // an extract beer: nothing was mashed
	}
	strikeLiquor := read(b, b.Gyle.Mash.Liquor, "mash.liquor", ofVolume)
	ratio := from2(b, ratioOfLiquor, strikeLiquor, b.mashedWeight())
	add(b, kindLiquorToGrist, "", ratio, sym("r", ratio, "L/kg"), sym("L", strikeLiquor, "L"), sym("m", kilograms(b, b.mashedWeight()), "kg"))
	b.strike(strikeLiquor)
	b.heatLost()
	b.infusions()
	if b.Stage >= Copper {
		b.yields(mashed)
	}
}

func (b *bench) yields(mashed Estimate[q.Number]) {
	before := b.Gyle.Copper.Before
	gravity := b.hydrometer(before.Gravity, "copper.before.gravity", before.With, before.SampleAt, before.Temp)
	volume := b.measuredVolume(before, "copper.before.volume")
	inCopper := from2(b, litreDegrees, volume, gravity)
	mashYield := from2(b, brewing.Yield, inCopper, mashed)
	add(b, kindMashYield, "", mashYield, sym("η", mashYield, "%"), sym("OG", gravity, ""), sym("V", volume, ""), sym("M", mashed, ""))
	brewhouse := b.brewhouseYield()
	add(b, kindBrewhouseYield, "", brewhouse, sym("η", brewhouse, "%"), sym("OG", b.og(), ""), sym("V", b.fermenterVolume(), ""), sym("S", b.reachedFermenter(b.addedBeforeOG()), ""), sym("M", mashed, ""))
}

// reachedFermenter is what came into the fermenter of the sugar that was put into the
// copper: its part of the wort, where both volumes are known.
func (b *bench) reachedFermenter(sugar Estimate[q.Number]) Estimate[q.Number] {
	after := b.measuredVolume(b.Gyle.Copper.After, "copper.after.volume")
	topped := exactly(q.Volume(0))
	if b.Gyle.Fermenter.Topped.Written() {
		topped = read(b, b.Gyle.Fermenter.Topped, "fermenter.topped_up", ofVolume)
	}
	part := from4(b, func(sugar q.Number, after, filled, topped q.Volume) (q.Number, error) {
		if after <= 0 {
			return 0, errAllLiquor
		}
		return sugar * q.Number(min(max((filled-topped)/after, 0), 1)), nil
	}, sugar, after, b.fermenterVolume(), topped)
	return first(part, sugar)
}

func (b *bench) brewhouseYield() Estimate[q.Percent] {
	mashed, later := b.mashed(), b.reachedFermenter(b.addedBeforeOG())
	got := from2(b, litreDegrees, b.fermenterVolume(), b.og())
	return from3(b, func(got, later, mashed q.Number) (q.Percent, error) {
		return brewing.Yield(got-later, mashed)
	}, got, later, mashed)
}

// ogToExpect is the gravity that the grist should give.
func (b *bench) ogToExpect() Estimate[q.Gravity] {
	return b.memoOGExpected.once(func() Estimate[q.Gravity] { return b.ogOfGrist(b.addedLater()) })
}

// ogOfGrist is the gravity of what the mash should give and of so much more.
func (b *bench) ogOfGrist(later Estimate[q.Number]) Estimate[q.Gravity] {
	total := from3(b, func(mashed q.Number, yield q.Percent, later q.Number) (q.Number, error) {
		return mashed*q.Number(yield.Fraction()) + later, nil
	}, b.mashed(), b.planningYield(), later)
	return from2(b, func(degrees q.Number, v q.Volume) (q.Gravity, error) {
		g, err := brewing.GravityOf(degrees, v)
		if err == nil && g > strongestWort {
			err = errTooStrong
		}
		return g, err
	}, total, b.planningVolume())
}

// strongestWort is the strongest that a grist is reckoned to make.
const strongestWort = q.Gravity(1.150)

var errTooStrong = errors.New("the grist would make wort above 1.150 in so little: a weight or a volume must be a slip")

// ogOrExpected is the original gravity, or what to expect of it on paper.
func (b *bench) ogOrExpected() Estimate[q.Gravity] {
	wort := slices.ContainsFunc(b.Gyle.Grist, func(g journal.Grain) bool { return b.inWort(&g) })
	if !wort || b.og().known {
		return b.og() // a grist of nothing but late sugar tells no original gravity
	}
	return first(b.og(), b.ogOfGrist(b.sugarDegrees(addedLater)))
}

// planningYield is this brewer's own median, else the stated default.
func (b *bench) planningYield() Estimate[q.Percent] {
	if past := b.Past.Yield; past.Enough() {
		return learned[q.Percent](b, past, "%", "the brewhouse yield to plan by")
	}
	return customary(b, q.Percent(72), 8, "%", "the brewhouse yield to plan by", "72 ± 8 % until three gyles of one's own are known (common practice, no source)")
}

// planningVolume is the volume aimed at, else what is in the fermenter.
func (b *bench) planningVolume() Estimate[q.Volume] {
	return first(read(b, b.Gyle.Aim.Volume, "aim.volume", asWished), b.fermenterVolume())
}

func (b *bench) fermenterVolume() Estimate[q.Volume] {
	return read(b, b.Gyle.Fermenter.Volume, "fermenter.volume", ofVolume)
}

// measuredVolume is a volume brought to 20 °C where it was read hot.
func (b *bench) measuredVolume(m journal.Measured, key string) Estimate[q.Volume] {
	volume := read(b, m.Volume, key, ofVolume)
	if !m.Temp.Written() {
		return volume
	}
	return from2(b, brewing.VolumeAt20, volume, read(b, m.Temp, m.Temp.Key, ofHeat))
}

// A part of the grist: what is mashed, or what joins the wort later. A malt
// goes into the mash, a sugar or syrup into the copper, unless it says
// otherwise.
func mashedIn(g *journal.Grain) bool   { return intoOf(g) == journal.IntoMash }
func addedLater(g *journal.Grain) bool { return !mashedIn(g) && !bottled(g) }

// bottled tells whether a line of the grist went into a container.
func bottled(g *journal.Grain) bool { return g.Into.Is(journal.IntoPackage) || g.Package.Written() }

func intoOf(g *journal.Grain) journal.Place {
	switch {
	case g.Into.Written():
		return g.Into.Word
	case g.Sugar.Written() || g.Syrup.Written():
		return journal.IntoCopper
	}
	return journal.IntoMash
}

// potential is the litre-degrees in a part of the grist.
func (b *bench) potential(part func(*journal.Grain) bool) Estimate[q.Number] {
	total := exactly(q.Number(0))
	for i := range b.Gyle.Grist {
		g := &b.Gyle.Grist[i]
		if !part(g) {
			continue
		}
		weight := read(b, g.Weight, keyOf(g.Weight.Where, "grist", i, "weight"), ofWeight)
		total = sum(b, total, from2(b, brewing.LitreDegrees, weight, b.extractOf(i, g)))
	}
	return total
}

// mashed is the litre-degrees in what is mashed.
func (b *bench) mashed() Estimate[q.Number] {
	return b.memoMashed.once(func() Estimate[q.Number] { return b.potential(mashedIn) })
}

// addedLater is the litre-degrees in what joins the wort after the mash.
func (b *bench) addedLater() Estimate[q.Number] {
	return b.memoAddedLater.once(func() Estimate[q.Number] { return b.potential(addedLater) })
}

// addedBeforeOG is the litre-degrees of what joined the wort after the mash and
// before its original gravity was read.
func (b *bench) addedBeforeOG() Estimate[q.Number] {
	if !b.anyJoined() {
		return b.addedLater()
	}
	return b.potential(func(g *journal.Grain) bool { return addedLater(g) && !b.joined(g) })
}

// mashedWeight is the weight of what is mashed.
func (b *bench) mashedWeight() Estimate[q.Mass] {
	return b.memoMashedWeight.once(func() Estimate[q.Mass] {
		total := exactly(q.Mass(0))
		for i := range b.Gyle.Grist {
			g := &b.Gyle.Grist[i]
			if mashedIn(g) {
				total = sum(b, total, read(b, g.Weight, keyOf(g.Weight.Where, "grist", i, "weight"), ofWeight))
			}
		}
		return total
	})
}

// extractOf is what a kilogram of a line of the grist can give: as the line
// says, else as its card does.
func (b *bench) extractOf(i int, g *journal.Grain) Estimate[q.Extract] {
	k := key("grist", i, "extract")
	if g.Extract.Written() {
		return read(b, g.Extract, k, ofExtract)
	}
	if card := b.cardOfGrain(g); card != nil {
		switch {
		case card.Malt != nil && card.Malt.Extract.Written():
			return read(b, card.Malt.Extract, k, ofExtract)
		case card.Sugar != nil && card.Sugar.Extract.Written():
			return read(b, card.Sugar.Extract, k, ofExtract)
		}
	}
	return missing[q.Extract](k)
}

// cardOfGrain is the card that a line of the grist names, nil for none.
func (s *Sheet) cardOfGrain(g *journal.Grain) *journal.Card {
	for _, n := range []struct {
		kind journal.CardKind
		name journal.Name
	}{{journal.CardMalt, g.Malt}, {journal.CardMalt, g.Adjunct}, {journal.CardSugar, g.Sugar}, {journal.CardSugar, g.Syrup}} {
		if card := s.card(n.kind, n.name); card != nil {
			return card
		}
	}
	return nil
}

func litreDegrees(v q.Volume, g q.Gravity) (q.Number, error) {
	return q.Number(v.Litres() * g.Points()), nil
}

func ratioOfLiquor(v q.Volume, m q.Mass) (q.Number, error) {
	return q.Number(v.Litres() / m.Kilograms()), nil
}

func kilograms(b *bench, m Estimate[q.Mass]) Estimate[q.Number] {
	return times[q.Number](b, m, q.Mass(1).Kilograms())
}

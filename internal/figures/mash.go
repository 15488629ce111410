package figures

import (
	"errors"
	"fmt"

	"gylebook/internal/brewing"
	"gylebook/internal/journal"
	q "gylebook/internal/quantity"
)

var (
	kindOGExpected = &Kind{
		ID: "og-expected", Label: "Original gravity to expect", Unit: "SG", Decimals: 4,
		Says:    "What the grist should give in the volume aimed at, at this brewer's own brewhouse yield.",
		Formula: "{OG} = 1 + ({M} × {η} + {S}) ÷ (1000 × {V})",
		Symbols: []string{"OG: gravity to expect", "M: litre-degrees in what is mashed", "η: brewhouse yield", "S: litre-degrees of sugars added later", "V: volume aimed at, else in the fermenter"},
		Valid:   "up to 1.150",
		Source:  "litre-degrees by definition; pure sugar 385 Ldeg/kg from NBS Circular C440",
		Checked: "sucrose at 40 and 100 g/L by its density",
	}
	kindMashYield = &Kind{
		ID: "mash-yield", Label: "Mash yield", Unit: "%", Decimals: 0,
		Says:    "Extract in the copper before the boil, of all that was in the mash.",
		Formula: "{η} = ({OG} − 1) × 1000 × {V} ÷ {M}",
		Symbols: []string{"OG: gravity before the boil", "V: wort before the boil, L at 20 °C", "M: litre-degrees in what was mashed"},
		Valid:   "any mash", Source: "litre-degrees by definition", Checked: "mass balance of extract",
	}
	kindBrewhouseYield = &Kind{
		ID: "brewhouse-yield", Label: "Brewhouse yield", Unit: "%", Decimals: 0,
		Says:    "Extract in the fermenter, less sugars added after the mash, of all that was in the mash. The figure to plan the next gyle by.",
		Formula: "{η} = (({OG} − 1) × 1000 × {V} − {S}) ÷ {M}",
		Symbols: []string{"OG: original gravity", "V: wort in the fermenter, L", "S: litre-degrees of sugars added later, before it was read", "M: litre-degrees in what was mashed"},
		Valid:   "any mash", Source: "litre-degrees by definition", Checked: "mass balance of extract",
	}
	kindLiquorToGrist = &Kind{
		ID: "liquor-to-grist", Label: "Liquor to grist", Unit: "L/kg", Decimals: 1,
		Says:    "How thick the mash is.",
		Formula: "{r} = {L} ÷ {m}",
		Symbols: []string{"L: strike liquor, L", "m: what is mashed, kg"},
		Valid:   "any mash", Source: "definition", Checked: "definition",
	}
	kindStrike = &Kind{
		ID: "strike-temperature", Label: "Strike temperature", Unit: "°C", Decimals: 1,
		Says:    "How hot the liquor must be so that the mash settles at its first rest. A tun takes heat where mash.vessel names one whose card says how much; any other is taken as warmed. Slaking heat, worth 1 to 3 °C with very dry malt, is left out.",
		Formula: "{Ts} = {T} + (0.41 × {m} × ({T} − {Tg}) + {U}) ÷ {L}",
		Symbols: []string{"Ts: strike temperature, °C", "T: first rest, °C", "Tg: the grist's heat, °C", "m: what is mashed, kg", "U: the tun's share, the litres of liquor that it is like × (T − its heat), 0 for one that was warmed", "L: strike liquor, L"},
		Valid:   "rest 30 to 80 °C",
		Source:  "heat balance; 0.41 of water's heat for malt: Pauls & Whites Brewing Room Book 1984/85, as reproduced",
		Checked: "two worked examples of that book, to 0.25 °C at its one heat for malt, and four tuns worked by hand",
	}
	mashKinds = []*Kind{kindOGExpected, kindLiquorNeeded, kindSparge, kindLiquorToGrist, kindStrike, kindInfusionLiquor, kindInfusionHeat, kindMashYield, kindBrewhouseYield}
)

// mashing is what the grist gives and how it is mashed.
func mashing(s *Sheet) {
	if len(s.Gyle.Grist) == 0 {
		return
	}
	mashed, later := s.mashed(), s.addedLater()
	s.liquorFor()
	expected := s.ogToExpect()
	add(s, kindOGExpected, "", expected, sym("OG", expected, ""), sym("M", mashed, ""), sym("η", s.planningYield(), "%"), sym("S", later, ""), sym("V", s.planningVolume(), "L"))
	if s.mashedWeight().known && s.mashedWeight().Value == 0 {
		return // an extract beer: nothing was mashed
	}
	strikeLiquor := read(s, s.Gyle.Mash.Liquor, "mash.liquor", ofVolume)
	ratio := from2(s, ratioOfLiquor, strikeLiquor, s.mashedWeight())
	add(s, kindLiquorToGrist, "", ratio, sym("r", ratio, "L/kg"), sym("L", strikeLiquor, "L"), sym("m", kilograms(s, s.mashedWeight()), "kg"))
	s.strike(strikeLiquor)
	s.infusions()
	if s.Stage >= Copper {
		s.yields(mashed)
	}
}

func (s *Sheet) strike(liquor Estimate[q.Volume]) {
	rest := missing[q.Temperature]("mash.rests[0].at")
	if rests := s.Gyle.Mash.Rests; len(rests) > 0 {
		rest = read(s, rests[0].At, "mash.rests[0].at", asWished)
	}
	grain := read(s, s.Gyle.Mash.GrainAt, "mash.grain_at", ofHeat)
	if !s.Gyle.Mash.GrainAt.Written() {
		grain = customary(s, q.Celsius(18), 4, "°C", "the grist's heat", "not written: taken as 18 ± 4 °C, a cool room")
	}
	tun, tunAt := s.tun(grain)
	share := inWords("U", "0")
	if tun.Value > 0 {
		share = inWords("U", fmt.Sprintf("%s × (%s − %s)", sym("", tun, "").text(), sym("", rest, "").text(), sym("", tunAt, "").text()))
	}
	strike := from6(s, brewing.StrikeTemperatureInTun, rest, grain, s.mashedWeight(), liquor, tun, tunAt)
	add(s, kindStrike, "", strike, sym("Ts", strike, "°C"), sym("T", rest, ""), sym("Tg", grain, ""), sym("m", kilograms(s, s.mashedWeight()), ""), share, sym("L", liquor, ""))
}

// tun is the mash tun as the litres of liquor that would take as much heat, and how
// warm it stands: none where no card says, since a tun is usually warmed.
func (s *Sheet) tun(grain Estimate[q.Temperature]) (takes Estimate[q.Volume], at Estimate[q.Temperature]) {
	takes, at = s.tunTakes(), grain
	if warmed := s.Gyle.Mash.VesselAt; warmed.Written() && takes.Value > 0 {
		at = read(s, warmed, "mash.vessel_at", ofHeat)
	}
	return takes, at
}

func (s *Sheet) tunTakes() Estimate[q.Volume] {
	card := s.card("vessel", s.Gyle.Mash.Vessel)
	if card == nil || card.Vessel == nil || !card.Vessel.Takes.Written() {
		return exactly(q.Volume(0))
	}
	return read(s, card.Vessel.Takes, card.Vessel.Takes.Key, ofTun)
}

func (s *Sheet) yields(mashed Estimate[q.Number]) {
	before := s.Gyle.Copper.Before
	gravity := s.hydrometer(before.Gravity, "copper.before.gravity", before.With, before.SampleAt, before.Temp)
	volume := s.measuredVolume(before, "copper.before.volume")
	inCopper := from2(s, litreDegrees, volume, gravity)
	mashYield := from2(s, brewing.Yield, inCopper, mashed)
	add(s, kindMashYield, "", mashYield, sym("η", mashYield, "%"), sym("OG", gravity, ""), sym("V", volume, ""), sym("M", mashed, ""))
	brewhouse := s.brewhouseYield()
	add(s, kindBrewhouseYield, "", brewhouse, sym("η", brewhouse, "%"), sym("OG", s.og(), ""), sym("V", s.fermenterVolume(), ""), sym("S", s.addedBeforeOG(), ""), sym("M", mashed, ""))
}

func (s *Sheet) brewhouseYield() Estimate[q.Percent] {
	mashed, later := s.mashed(), s.addedBeforeOG()
	got := from2(s, litreDegrees, s.fermenterVolume(), s.og())
	return from3(s, func(got, later, mashed q.Number) (q.Percent, error) {
		return brewing.Yield(got-later, mashed)
	}, got, later, mashed)
}

// ogToExpect is the gravity that the grist should give.
func (s *Sheet) ogToExpect() Estimate[q.Gravity] {
	return s.memoOGExpected.once(func() Estimate[q.Gravity] {
		total := from3(s, func(mashed q.Number, yield q.Percent, later q.Number) (q.Number, error) {
			return mashed*q.Number(yield.Fraction()) + later, nil
		}, s.mashed(), s.planningYield(), s.addedLater())
		return from2(s, func(degrees q.Number, v q.Volume) (q.Gravity, error) {
			g, err := brewing.GravityOf(degrees, v)
			if err == nil && g > strongestWort {
				err = errTooStrong
			}
			return g, err
		}, total, s.planningVolume())
	})
}

// strongestWort is the strongest that a grist is reckoned to make.
const strongestWort = q.Gravity(1.150)

var errTooStrong = errors.New("the grist would make wort above 1.150 in so little: a weight or a volume must be a slip")

// ogOrExpected is the original gravity, or what to expect of it on paper.
func (s *Sheet) ogOrExpected() Estimate[q.Gravity] {
	if len(s.Gyle.Grist) == 0 || s.og().known {
		return s.og()
	}
	return first(s.og(), s.ogToExpect())
}

// planningYield is this brewer's own median, else the stated default.
func (s *Sheet) planningYield() Estimate[q.Percent] {
	if past := s.Past.Yield; past.Enough() {
		return learned[q.Percent](s, past, "%", "the brewhouse yield to plan by")
	}
	return customary(s, q.Percent(72), 8, "%", "the brewhouse yield to plan by", "72 ± 8 % until three gyles of one's own are known (common practice, no source)")
}

// planningVolume is the volume aimed at, else what is in the fermenter.
func (s *Sheet) planningVolume() Estimate[q.Volume] {
	return first(read(s, s.Gyle.Aim.Volume, "aim.volume", asWished), s.fermenterVolume())
}

func (s *Sheet) fermenterVolume() Estimate[q.Volume] {
	return read(s, s.Gyle.Fermenter.Volume, "fermenter.volume", ofVolume)
}

// measuredVolume is a volume brought to 20 °C where it was read hot.
func (s *Sheet) measuredVolume(m journal.Measured, key string) Estimate[q.Volume] {
	volume := read(s, m.Volume, key, ofVolume)
	if !m.Temp.Written() {
		return volume
	}
	return from2(s, brewing.VolumeAt20, volume, read(s, m.Temp, m.Temp.Key, ofHeat))
}

// A part of the grist: what is mashed, or what joins the wort later. A malt
// goes into the mash, a sugar or syrup into the copper, unless it says
// otherwise.
func mashedIn(g *journal.Grain) bool   { return !addedLater(g) }
func addedLater(g *journal.Grain) bool { return intoOf(g) != "mash" }

func intoOf(g *journal.Grain) string {
	switch {
	case g.Into.Written():
		return g.Into.Word
	case g.Sugar.Written() || g.Syrup.Written():
		return "copper"
	}
	return "mash"
}

// potential is the litre-degrees in a part of the grist.
func (s *Sheet) potential(part func(*journal.Grain) bool) Estimate[q.Number] {
	total := exactly(q.Number(0))
	for i := range s.Gyle.Grist {
		g := &s.Gyle.Grist[i]
		if !part(g) {
			continue
		}
		weight := read(s, g.Weight, keyOf(g.Weight.Where, "grist", i, "weight"), ofWeight)
		total = sum(s, total, from2(s, brewing.LitreDegrees, weight, s.extractOf(i, g)))
	}
	return total
}

// mashed is the litre-degrees in what is mashed.
func (s *Sheet) mashed() Estimate[q.Number] {
	return s.memoMashed.once(func() Estimate[q.Number] { return s.potential(mashedIn) })
}

// addedLater is the litre-degrees in what joins the wort after the mash.
func (s *Sheet) addedLater() Estimate[q.Number] {
	return s.memoAddedLater.once(func() Estimate[q.Number] { return s.potential(addedLater) })
}

// addedBeforeOG is the litre-degrees of what joined the wort after the mash and
// before its original gravity was read.
func (s *Sheet) addedBeforeOG() Estimate[q.Number] {
	if !s.anyJoined() {
		return s.addedLater()
	}
	return s.potential(func(g *journal.Grain) bool { return addedLater(g) && !s.joined(g) })
}

// mashedWeight is the weight of what is mashed.
func (s *Sheet) mashedWeight() Estimate[q.Mass] {
	return s.memoMashedWeight.once(func() Estimate[q.Mass] {
		total := exactly(q.Mass(0))
		for i := range s.Gyle.Grist {
			g := &s.Gyle.Grist[i]
			if mashedIn(g) {
				total = sum(s, total, read(s, g.Weight, keyOf(g.Weight.Where, "grist", i, "weight"), ofWeight))
			}
		}
		return total
	})
}

// extractOf is what a kilogram of a line of the grist can give: as the line
// says, else as its card does.
func (s *Sheet) extractOf(i int, g *journal.Grain) Estimate[q.Extract] {
	k := key("grist", i, "extract")
	if g.Extract.Written() {
		return read(s, g.Extract, k, ofExtract)
	}
	if card := s.cardOfGrain(g); card != nil {
		switch {
		case card.Malt != nil && card.Malt.Extract.Written():
			return read(s, card.Malt.Extract, k, ofExtract)
		case card.Sugar != nil && card.Sugar.Extract.Written():
			return read(s, card.Sugar.Extract, k, ofExtract)
		}
	}
	return missing[q.Extract](k)
}

// cardOfGrain is the card that a line of the grist names, nil for none.
func (s *Sheet) cardOfGrain(g *journal.Grain) *journal.Card {
	for _, n := range []struct {
		kind string
		name journal.Name
	}{{"malt", g.Malt}, {"malt", g.Adjunct}, {"sugar", g.Sugar}, {"sugar", g.Syrup}} {
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

func kilograms(s *Sheet, m Estimate[q.Mass]) Estimate[q.Number] {
	return times[q.Number](s, m, q.Mass(1).Kilograms())
}

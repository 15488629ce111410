package figures

import (
	"slices"
	"time"

	"gylebook/internal/brewing"
	"gylebook/internal/journal"
	q "gylebook/internal/quantity"
)

var (
	kindOG = &Kind{
		ID: "og", Label: "Original gravity", Unit: "SG", Decimals: 4,
		Says:    "The wort's gravity before the yeast: as read in the fermenter, else the last reading at or before pitching, else the copper's after the boil.",
		Formula: "{OG} = reading, corrected to 20 °C",
		Symbols: []string{"OG: original gravity, SG 20/20 °C"},
		Valid:   "sample 0 to 60 °C",
		Source:  "water density: Tanaka et al., Metrologia 38 (2001) 301; Kell, J. Chem. Eng. Data 20 (1975) 97",
		Checked: "a published table of hydrometer corrections for a 15 °C instrument, to 0.0002",
	}
	kindFG = &Kind{
		ID: "fg", Label: "Final gravity", Unit: "SG", Decimals: 4,
		Says:    "The last reading before the beer was racked, primed or sealed; by hydrometer, a refractometer only where there is none, a logger only where the beer has fallen on since. Provisional until it has stood still for 48 hours.",
		Formula: "{FG} = reading, corrected to 20 °C",
		Symbols: []string{"FG: final gravity, SG 20/20 °C"},
		Valid:   kindOG.Valid, Source: kindOG.Source, Checked: kindOG.Checked,
	}
	kindNow = &Kind{
		ID: "gravity-now", Label: "Gravity now", Unit: "SG", Decimals: 4,
		Says:    "The last reading of all; a logger's last hour, set right by the readings by hand, where that is later.",
		Formula: "{PG} = reading, corrected to 20 °C",
		Symbols: []string{"PG: present gravity, SG 20/20 °C"},
		Valid:   kindOG.Valid, Source: kindOG.Source, Checked: kindOG.Checked,
	}
	kindExpectedFG = &Kind{
		ID: "fg-expected", Label: "Final gravity to expect", Unit: "SG", Decimals: 4,
		Says:    "Where it should stop: the gravity once it has stood still, else the lower of the forecast and of the yeast's attenuation by its card or by this brewer's past with it, since gas reckoned too low is the unsafe side. Never the aim.",
		Formula: "{FG} where (P₀ − P) ÷ P₀ = {A}, P₀ from {OG}",
		Symbols: []string{"A: apparent attenuation, by Plato", "OG: original gravity"},
		Valid:   "attenuation 0 to 110 %",
		Source:  "definition of apparent attenuation (ASBC Beer-6)",
		Checked: "round trip with apparent attenuation",
	}
	gravityKinds = []*Kind{kindOG, kindFG, kindNow, kindExpectedFG}
)

// gravities are the beer's gravities.
func gravities(s *Sheet) {
	if s.Stage >= Copper || s.og().known {
		add(s, kindOG, "", s.og(), sym("OG", s.og(), ""))
	}
	if s.Stage >= Working {
		if f := add(s, kindFG, "", s.fg(), sym("FG", s.fg(), "")); f != nil {
			f.Provisional = !s.Stability().AtLeast()
			f.Note = s.loggedNote(s.fg())
		}
		if f := add(s, kindNow, "", s.gravityNow(), sym("PG", s.gravityNow(), "")); f != nil {
			f.Note = s.loggedNote(s.gravityNow())
		}
	}
	attenuation := shown(s, func() Estimate[q.Percent] {
		return from2(s, brewing.ApparentAttenuation, s.ogToFerment(), s.expectedFG())
	})
	add(s, kindExpectedFG, "", s.expectedFG(), sym("FG", s.expectedFG(), ""), sym("A", attenuation, "%"), sym("OG", s.ogToFerment(), ""))
}

// og is the original gravity.
func (s *Sheet) og() Estimate[q.Gravity] {
	return s.memoOG.once(func() Estimate[q.Gravity] {
		if s.begunAsBeer() {
			return s.drawnGravity(kindOG.ID)
		}
		return first(s.fermenterOG(), s.lastBeforePitching(), s.thinnedOG())
	})
}

// hydrometerOG is the original gravity without the readings after pitching, so
// that a refractometer's can be worked out from it.
func (s *Sheet) hydrometerOG() Estimate[q.Gravity] {
	return first(s.fermenterOG(), s.thinnedOG(), s.firstReadingOG())
}

func (s *Sheet) fermenterOG() Estimate[q.Gravity] {
	return s.memoFermenterOG.once(func() Estimate[q.Gravity] {
		f := &s.Gyle.Fermenter
		return s.hydrometer(f.Gravity, "fermenter.gravity", f.With, f.SampleAt, f.Temp)
	})
}

func (s *Sheet) copperOG() Estimate[q.Gravity] {
	return s.memoCopperOG.once(func() Estimate[q.Gravity] {
		after := &s.Gyle.Copper.After
		return s.hydrometer(after.Gravity, "copper.after.gravity", after.With, after.SampleAt, after.Temp)
	})
}

// thinnedOG is the gravity after the boil, thinned by the liquor that was added
// later: water into what the fermenter holds besides, else into all of the
// copper's wort.
func (s *Sheet) thinnedOG() Estimate[q.Gravity] {
	if !s.Gyle.Fermenter.Topped.Written() {
		return s.copperOG()
	}
	topped := read(s, s.Gyle.Fermenter.Topped, "fermenter.topped_up", ofVolume)
	wort := from2(s, func(all, topped q.Volume) (q.Volume, error) {
		if topped >= all {
			return 0, errAllLiquor
		}
		return all - topped, nil
	}, s.fermenterVolume(), topped)
	after := s.measuredVolume(s.Gyle.Copper.After, "copper.after.volume")
	return from4(s, brewing.BlendedGravity, first(wort, after), s.copperOG(), topped, exactly(q.Gravity(1)))
}

// firstReadingOG is a hydrometer's reading at or before pitching.
func (s *Sheet) firstReadingOG() Estimate[q.Gravity] {
	for i := range s.Gyle.Readings {
		r := &s.Gyle.Readings[i]
		if r.Gravity.Written() && !s.pitchedAt().IsZero() && !s.readingTime(r).After(s.pitchedAt()) {
			return s.hydrometer(r.Gravity, keyOf(r.Gravity.Where, "readings", i, "gravity"), r.With, r.SampleAt, r.Temp)
		}
	}
	return missing[q.Gravity]("fermenter.gravity")
}

// lastBeforePitching is the last reading at or before pitching.
func (s *Sheet) lastBeforePitching() Estimate[q.Gravity] {
	last := missing[q.Gravity]("fermenter.gravity")
	for _, r := range s.GravityReadings() {
		if !s.pitchedAt().IsZero() && !r.When.After(s.pitchedAt()) {
			last = r.Gravity
		}
	}
	return last
}

// fg is the final gravity, which may still be provisional.
func (s *Sheet) fg() Estimate[q.Gravity] {
	return s.memoFG.once(func() Estimate[q.Gravity] {
		if s.begunAsBeer() && len(s.GravityReadings()) == 0 {
			return s.drawnGravity(kindFG.ID)
		}
		last := s.lastBeforeSealing()
		if l := s.logOf(); l != nil && l.supersedes(last) {
			return l.now.Gravity
		}
		return last
	})
}

// lastBeforeSealing is the last hydrometer's reading before the beer was racked,
// primed or sealed; the last refractometer's where there is none.
func (s *Sheet) lastBeforeSealing() Estimate[q.Gravity] {
	last, byHydrometer := missing[q.Gravity]("readings[+].gravity"), false
	for _, r := range s.beforeSealing() {
		if byHydrometer && r.Refractometer {
			continue
		}
		last, byHydrometer = r.Gravity, !r.Refractometer
	}
	return last
}

// beforeSealing are the readings after pitching and before the beer was racked,
// primed or sealed: all of them while it is none of these.
func (s *Sheet) beforeSealing() []GravityReading {
	return s.memoBeforeSealing.once(func() []GravityReading {
		sealed, isSealed := s.sealedAt()
		all := s.GravityReadings()
		in := make([]GravityReading, 0, len(all))
		for _, r := range all {
			if r.When.After(s.pitchedAt()) && (!isSealed || !r.When.After(sealed)) && !s.AboveOG(r) {
				in = append(in, r)
			}
		}
		return in
	})
}

// AboveOG tells whether a reading of beer cannot be, since it stands above the
// original gravity by more than that one's standard uncertainty and nothing that
// raises a gravity went in. It counts as missing.
func (s *Sheet) AboveOG(r GravityReading) bool {
	og := s.og()
	return og.known && r.When.After(s.pitchedAt()) &&
		float64(r.Gravity.Value) > float64(og.Value)+og.Uncertainty() && !s.SugarAdded(s.pitchedAt(), r.When)
}

// gravityNow is the last reading of all that can be.
func (s *Sheet) gravityNow() Estimate[q.Gravity] {
	last := s.lastReading()
	l := s.logOf()
	switch {
	case l != nil && l.now.Gravity.known && (last == nil || l.now.When.After(last.When)):
		return l.now.Gravity
	case last == nil:
		return first(s.fg(), s.og())
	}
	return last.Gravity
}

// lastReading is the last reading by hand that can be, nil for none.
func (s *Sheet) lastReading() *GravityReading {
	all := s.GravityReadings()
	for i := len(all) - 1; i >= 0; i-- {
		if !s.AboveOG(all[i]) {
			return &all[i]
		}
	}
	return nil
}

// expectedFG is where the gravity should stop. Until it has, the lower of the
// forecast and of what the yeast is known for counts: a beer that has slowed for
// a day draws a curve that ends too high, and gas reckoned too low bursts bottles.
func (s *Sheet) expectedFG() Estimate[q.Gravity] {
	return s.memoExpectedFG.once(func() Estimate[q.Gravity] {
		if s.Stability().AtLeast() {
			return s.fg()
		}
		f, _ := s.Forecast()
		if f == nil {
			return s.expectedByYeast()
		}
		forecast, byYeast := s.forecastFG(), s.expectedByYeast()
		if byYeast.known && byYeast.Value < forecast.Value {
			return byYeast
		}
		return forecast
	})
}

// expectedByYeast is where the yeast should stop, whatever the readings say. What
// no yeast can use, such as lactose, stays in the beer on top; sugar that joined
// it later is fermented with the rest.
func (s *Sheet) expectedByYeast() Estimate[q.Gravity] {
	og := s.ogToFerment()
	stays := s.unfermentable()
	if stays.known && stays.Value == 0 {
		return from2(s, brewing.FinalGravityFromAttenuation, og, s.expectedAttenuation())
	}
	return from3(s, func(og q.Gravity, a q.Percent, stays q.Number) (q.Gravity, error) {
		over := q.Gravity(stays) * q.Point
		fg, err := brewing.FinalGravityFromAttenuation(og-over, a)
		return fg + over, err
	}, og, s.expectedAttenuation(), stays)
}

// unfermentable is how many points of gravity come from sugars that yeast cannot
// use, by their cards: lactose all of it, syrups in part.
func (s *Sheet) unfermentable() Estimate[q.Number] {
	total := exactly(q.Number(0))
	for i := range s.Gyle.Grist {
		g := &s.Gyle.Grist[i]
		card := s.cardOfGrain(g)
		if card == nil || card.Sugar == nil || !card.Sugar.Fermentable.Written() || card.Sugar.Fermentable.Value > mostlyFermentable {
			continue
		}
		weight := read(s, g.Weight, keyOf(g.Weight.Where, "grist", i, "weight"), ofWeight)
		fermentable := read(s, card.Sugar.Fermentable, card.Sugar.Fermentable.Key, doubt{})
		total = sum(s, total, from3(s, func(m q.Mass, e q.Extract, fermentable q.Percent) (q.Number, error) {
			degrees, err := brewing.LitreDegrees(m, e)
			return q.Number(1-fermentable.Fraction()) * degrees, err
		}, weight, s.extractOf(i, g), fermentable))
	}
	if total.known && total.Value == 0 {
		return total
	}
	return from2(s, func(degrees q.Number, v q.Volume) (q.Number, error) {
		return degrees / q.Number(v.Litres()), nil
	}, total, first(s.fermenterVolume(), read(s, s.Gyle.Aim.Volume, "aim.volume", asWished)))
}

// mostlyFermentable is the share above which a sugar counts in the yeast's own
// attenuation, as the malt's dextrins do.
const mostlyFermentable = 50

// expectedAttenuation is what the yeast should do: by its card, else by this
// brewer's past with it.
func (s *Sheet) expectedAttenuation() Estimate[q.Percent] {
	for i := range s.Gyle.Yeast {
		p := &s.Gyle.Yeast[i]
		card := s.card("yeast", p.Yeast)
		if card == nil || card.Yeast == nil || !card.Yeast.Attenuates.Written() {
			continue
		}
		a := card.Yeast.Attenuates
		return input(s, a.Middle(), Input{What: "what the card of " + p.Yeast.Name + " says", Where: a.Where, Uncertainty: standard(float64(a.HalfWidth())), Unit: "%", Reason: "half the range on the card"})
	}
	for i := range s.Gyle.Yeast {
		p := &s.Gyle.Yeast[i]
		if past := s.Past.Attenuation[p.Yeast.Name]; past.Enough() {
			return learned[q.Percent](s, past, "%", "the past with "+p.Yeast.Name)
		}
	}
	return missing[q.Percent]("yeast[0].yeast")
}

// Stability is whether the gravity has stood still, and on what evidence.
type Stability struct {
	Stable bool
	// Level are the last readings that agree within the instrument's own error,
	// in order of time; Span is how long they cover.
	Level []GravityReading
	Span  time.Duration
	// Needs is how long they must cover: 48 hours, or what the settings ask beyond
	// that.
	Needs time.Duration
}

// AtLeast tells whether the gravity stood still for the 48 hours that no setting
// shortens, though the settings may ask for more.
func (st Stability) AtLeast() bool { return len(st.Level) >= 2 && st.Span >= levelFor }

// What stands still: readings within one point of each other over at least 48
// hours (home-brewing magazines' and suppliers' advice on finishing; the point
// is a hydrometer's division).
const (
	levelWithin = 1.0 // points
	levelFor    = time.Duration(journal.LevelAtLeast) * time.Minute
)

// Stability looks back from the last reading before sealing. A float that hops hold
// down stands still whatever the beer does: so where a logger's sightings reach
// back farther than the readings by hand, the last word is still a reading by
// hand, and the logger must agree with one before that. A logger that has fallen
// on since takes the last word away again.
func (s *Sheet) Stability() Stability { return s.memoStability.once(s.stability) }

func (s *Sheet) stability() Stability {
	st := s.level()
	st.Needs = levelFor
	if s.Settings != nil && s.Settings.Limits.LevelFor.Written() {
		st.Needs = max(levelFor, s.Settings.Limits.LevelFor.Value.Span())
	}
	st.Stable = len(st.Level) >= 2 && st.Span >= st.Needs
	return st
}

// level is the last readings that are level with one another.
func (s *Sheet) level() Stability {
	hand := s.beforeSealing()
	if len(hand) == 0 {
		return Stability{}
	}
	last := hand[len(hand)-1]
	st := levelUpTo(hand, last)
	if farther := levelUpTo(byTime(hand, s.vouchedFor()), last); farther.Span > st.Span {
		st = farther
	}
	if l := s.logOf(); l != nil && l.fallenSince(last, st) {
		return Stability{Level: []GravityReading{last}}
	}
	return st
}

// levelUpTo is how far back from a reading all the others are level with it.
func levelUpTo(all []GravityReading, last GravityReading) Stability {
	end := slices.IndexFunc(all, func(r GravityReading) bool { return r.Index == last.Index && !r.Logged })
	start := end
	low, high := last.Gravity.Value.Points(), last.Gravity.Value.Points()
	for start > 0 {
		points := all[start-1].Gravity.Value.Points()
		if max(high, points)-min(low, points) > levelWithin+roundingOfPoints {
			break
		}
		low, high = min(low, points), max(high, points)
		start--
	}
	return Stability{Level: all[start : end+1], Span: last.When.Sub(all[start].When)}
}

// roundingOfPoints keeps two readings of 1.011 and 1.010 within a point though
// their temperature corrections differ by a few hundredths of one.
const roundingOfPoints = 0.25

package figures

import (
	"time"

	"gylebook/internal/brewing"
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
		Says:    "The last reading before the beer was racked, primed or sealed; by hydrometer, a refractometer only where there is none. Provisional until it has stood still for 48 hours.",
		Formula: "{FG} = reading, corrected to 20 °C",
		Symbols: []string{"FG: final gravity, SG 20/20 °C"},
		Valid:   kindOG.Valid, Source: kindOG.Source, Checked: kindOG.Checked,
	}
	kindNow = &Kind{
		ID: "gravity-now", Label: "Gravity now", Unit: "SG", Decimals: 4,
		Says:    "The last reading of all.",
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
			f.Provisional = !s.Stability().Stable
		}
		add(s, kindNow, "", s.gravityNow(), sym("PG", s.gravityNow(), ""))
	}
	add(s, kindExpectedFG, "", s.expectedFG(), sym("FG", s.expectedFG(), ""), sym("A", from2(s, brewing.ApparentAttenuation, s.ogOrExpected(), s.expectedFG()), "%"), sym("OG", s.ogOrExpected(), ""))
}

// og is the original gravity.
func (s *Sheet) og() Estimate[q.Gravity] {
	return s.memoOG.once(func() Estimate[q.Gravity] {
		if s.begunAsBeer() {
			return s.drawnGravity("original gravity", (*Sheet).og)
		}
		return first(s.fermenterOG(), s.lastBeforePitching(), s.copperOG())
	})
}

// hydrometerOG is the original gravity without the readings after pitching, so
// that a refractometer's can be worked out from it.
func (s *Sheet) hydrometerOG() Estimate[q.Gravity] {
	return first(s.fermenterOG(), s.copperOG(), s.firstReadingOG())
}

func (s *Sheet) fermenterOG() Estimate[q.Gravity] {
	f := s.Gyle.Fermenter
	return s.hydrometer(f.Gravity, "fermenter.gravity", f.With, f.SampleAt, f.Temp)
}

func (s *Sheet) copperOG() Estimate[q.Gravity] {
	after := s.Gyle.Copper.After
	return s.hydrometer(after.Gravity, "copper.after.gravity", after.With, after.SampleAt, after.Temp)
}

// firstReadingOG is a hydrometer's reading at or before pitching.
func (s *Sheet) firstReadingOG() Estimate[q.Gravity] {
	for i, r := range s.Gyle.Readings {
		if r.Gravity.Written() && !s.pitchedAt().IsZero() && !s.readingTime(r).After(s.pitchedAt()) {
			return s.hydrometer(r.Gravity, key("readings", i, "gravity"), r.With, r.SampleAt, r.Temp)
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
			return s.drawnGravity("final gravity", (*Sheet).fg)
		}
		last := missing[q.Gravity]("readings[+].gravity")
		for _, r := range s.beforeSealing() {
			if !r.Refractometer || !last.known {
				last = r.Gravity
			}
		}
		return last
	})
}

// beforeSealing are the readings after pitching and before the beer was racked,
// primed or sealed: all of them while it is none of these.
func (s *Sheet) beforeSealing() []GravityReading {
	return s.memoBeforeSealing.once(func() []GravityReading {
		sealed, isSealed := s.sealedAt()
		var in []GravityReading
		for _, r := range s.GravityReadings() {
			if r.When.After(s.pitchedAt()) && (!isSealed || !r.When.After(sealed)) {
				in = append(in, r)
			}
		}
		return in
	})
}

// gravityNow is the last reading of all.
func (s *Sheet) gravityNow() Estimate[q.Gravity] {
	all := s.GravityReadings()
	if len(all) == 0 {
		return first(s.fg(), s.og())
	}
	return all[len(all)-1].Gravity
}

// expectedFG is where the gravity should stop. Until it has, the lower of the
// forecast and of what the yeast is known for counts: a beer that has slowed for
// a day draws a curve that ends too high, and gas reckoned too low bursts bottles.
func (s *Sheet) expectedFG() Estimate[q.Gravity] {
	return s.memoExpectedFG.once(func() Estimate[q.Gravity] {
		if s.Stability().Stable {
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

// expectedByYeast is where the yeast should stop, whatever the readings say.
func (s *Sheet) expectedByYeast() Estimate[q.Gravity] {
	return from2(s, brewing.FinalGravityFromAttenuation, s.ogOrExpected(), s.expectedAttenuation())
}

// expectedAttenuation is what the yeast should do: by its card, else by this
// brewer's past with it.
func (s *Sheet) expectedAttenuation() Estimate[q.Percent] {
	for _, p := range s.Gyle.Yeast {
		card := s.card("yeast", p.Yeast)
		if card == nil || card.Yeast == nil || !card.Yeast.Attenuates.Written() {
			continue
		}
		a := card.Yeast.Attenuates
		return input(s, a.Middle(), Input{What: "what the card of " + p.Yeast.Name + " says", Where: a.Where, Uncertainty: standard(float64(a.HalfWidth())), Unit: "%", Reason: "half the range on the card"})
	}
	for _, p := range s.Gyle.Yeast {
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
}

// What stands still: readings within one point of each other over at least 48
// hours (home-brewing magazines' and suppliers' advice on finishing; the point
// is a hydrometer's division).
const (
	levelWithin = 1.0 // points
	levelFor    = 48 * time.Hour
)

// Stability looks back from the last reading before sealing.
func (s *Sheet) Stability() Stability { return s.memoStability.once(s.stability) }

func (s *Sheet) stability() Stability {
	all := s.beforeSealing()
	if len(all) == 0 {
		return Stability{}
	}
	last := all[len(all)-1]
	start := len(all) - 1
	low, high := last.Gravity.Value.Points(), last.Gravity.Value.Points()
	for start > 0 {
		points := all[start-1].Gravity.Value.Points()
		if max(high, points)-min(low, points) > levelWithin+roundingOfPoints {
			break
		}
		low, high = min(low, points), max(high, points)
		start--
	}
	st := Stability{Level: all[start:], Span: last.When.Sub(all[start].When)}
	st.Stable = len(st.Level) >= 2 && st.Span >= levelFor
	return st
}

// roundingOfPoints keeps two readings of 1.011 and 1.010 within a point though
// their temperature corrections differ by a few hundredths of one.
const roundingOfPoints = 0.25

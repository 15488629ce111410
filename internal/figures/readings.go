package figures

import (
	"slices"
	"strings"
	"time"

	"gylebook/internal/brewing"
	"gylebook/internal/journal"
	q "gylebook/internal/quantity"
)

// GravityReading is one reading of the beer's gravity, corrected.
type GravityReading struct {
	Index   int // in readings, -1 for a logger's sighting
	When    time.Time
	Where   journal.Where
	Gravity Estimate[q.Gravity]
	Temp    journal.Value[q.Temperature] // the beer's
	// Refractometer says that it was worked out from Brix and the original
	// gravity, which is a good deal less sure.
	Refractometer bool
	// Logged says that it stands for some hours of a logger's rows, set right by
	// what was read by hand.
	Logged bool
}

// gravityReadings are the readings by hand of the whole beer (not of one
// container) up to the clock, in order of time, those with a gravity that can be.
// Sightings has the logger's as well.
func (b *bench) gravityReadings() []GravityReading {
	return b.memoReadings.once(b.readByHand)
}

func (b *bench) readByHand() []GravityReading {
	all := make([]GravityReading, 0, len(b.Gyle.Readings))
	for i := range b.Gyle.Readings {
		r := &b.Gyle.Readings[i]
		if r.Package.Written() || r.When.Written() && r.When.Middle().After(endOfDay(b.Now)) {
			continue
		}
		if !r.When.Written() {
			continue // it could be wort or beer, before or after anything else
		}
		g, brix := b.readingGravity(i, r)
		if g.known {
			where := r.Gravity.Where
			if brix {
				where = r.Brix.Where
			}
			all = append(all, GravityReading{Index: i, When: b.readingTime(r), Where: where, Gravity: g, Temp: r.Temp, Refractometer: brix})
		}
	}
	slices.SortStableFunc(all, func(a, b GravityReading) int { return a.When.Compare(b.When) })
	return all
}

// readingTime is when a reading was taken: a reading without a time counts as
// taken on brew day, after the ones before it.
func (s *Sheet) readingTime(r *journal.Reading) time.Time {
	if r.When.Written() {
		return r.When.Middle()
	}
	return s.Gyle.Brewed.Middle()
}

// endOfDay lets a reading of today count whatever the hour: it is the midnight
// to come where the clock is.
func endOfDay(t time.Time) time.Time {
	y, m, d := t.Date()
	return time.Date(y, m, d+1, 0, 0, 0, 0, t.Location())
}

// readingGravity is the gravity of one reading: by hydrometer, else by
// refractometer, which before pitching reads wort and after it needs the
// original gravity.
func (b *bench) readingGravity(i int, r *journal.Reading) (g Estimate[q.Gravity], brix bool) {
	reading, brix := b.refracted(i, r)
	switch {
	case !brix:
		return b.hydrometer(r.Gravity, keyOf(r.Gravity.Where, "readings", i, "gravity"), r.With, r.SampleAt, r.Temp), false
	case !b.readingTime(r).After(b.pitchedAt()):
		return b.wortByRefractometer(reading, r.With), true
	}
	g = from3(b, brewing.GravityByRefractometer, b.hydrometerOG(), reading, b.wortFactor(r.With))
	return scattered(b, g, float64(brewing.RefractometerScatter), "SG", "the refractometer's method", "fits to measured beers scatter so widely"), true
}

// refracted is what a refractometer showed: as Brix, or on its scale of gravities, which is
// the same by the table of sugar and as wrong in beer. False of a hydrometer's reading.
func (b *bench) refracted(i int, r *journal.Reading) (Estimate[q.Brix], bool) {
	if r.Brix.Written() && !r.Gravity.Written() {
		return read(b, r.Brix, keyOf(r.Brix.Where, "readings", i, "brix"), b.doubtOf(r.With, journal.OfBrix, ofBrix)), true
	}
	if !r.Gravity.Written() || !b.isRefractometer(r.With) {
		return Estimate[q.Brix]{}, false
	}
	shown := read(b, r.Gravity, keyOf(r.Gravity.Where, "readings", i, "gravity"), ofHydrometer)
	return from1(b, func(g q.Gravity) (q.Brix, error) { return q.Brix(g.Plato()), nil }, shown), true
}

// isRefractometer tells whether an instrument that a reading of gravity names reads Brix, by
// its card, or where it has none by its name.
func (b *bench) isRefractometer(with journal.Name) bool {
	card := b.cardCalled(journal.CardInstrument, with.Name)
	if card == nil || card.Instrument == nil || !card.Instrument.Measures.Written() {
		return strings.Contains(strings.ToLower(with.Name), "refractometer")
	}
	return card.Instrument.Measures.Is(journal.OfBrix)
}

// wortFactor is how much more than the extract of wort a refractometer shows.
func (b *bench) wortFactor(with journal.Name) Estimate[float64] {
	if card := b.instrument(with, journal.OfBrix); card != nil && card.WortFactor.Written() {
		return as[float64](read(b, card.WortFactor, "wort_factor", ofWortFactor))
	}
	return as[float64](customary(b, brewing.WortFactor, 0.02, "", "the refractometer's wort factor", "wort reads 0 to 4 % above sucrose (common practice, no source)"))
}

func (b *bench) wortByRefractometer(reading Estimate[q.Brix], with journal.Name) Estimate[q.Gravity] {
	return from2(b, brewing.WortGravityByRefractometer, reading, b.wortFactor(with))
}

// hydrometer is a gravity read by hydrometer, corrected from the sample's heat
// to the instrument's, and for its stated bias. The bias that is not known is
// one input for all readings of the instrument.
func (b *bench) hydrometer(v journal.Value[q.Gravity], key string, with journal.Name, temps ...journal.Value[q.Temperature]) Estimate[q.Gravity] {
	by := b.hydrometerOf(with)
	reading := read(b, v, key, by.doubt)
	if !reading.known {
		return reading
	}
	if !v.Typed {
		reading = sum(b, reading, b.biasOf(by))
	}
	corrected := from3(b, brewing.HydrometerCorrected, reading, b.sampleHeat(temps), by.calibrated)
	if corrected.known {
		return corrected
	}
	return withheld[q.Gravity](corrected.lack.Because)
}

// sampleHeat is the first heat written that a trial jar can have; with none, a
// cooled sample about the house.
func (b *bench) sampleHeat(temps []journal.Value[q.Temperature]) Estimate[q.Temperature] {
	for _, t := range temps {
		if t.Written() && t.Value <= hottestSample {
			return read(b, t, t.Key, ofHotSample)
		}
	}
	return customary(b, q.Celsius(20), 5, "°C", "the sample's heat", "not written: taken as 20 ± 5 °C, a sample left to cool")
}

// hottestSample is where a glass hydrometer stops being read at all: hotter
// figures are the copper's, not the sample's.
const hottestSample = q.Temperature(60)

// pitchedAt is when the first yeast went in: the earliest of those that were put into
// the fermenter; brew day's noon where the first of them has no day, or none has one.
func (s *Sheet) pitchedAt() time.Time {
	var earliest time.Time
	for i := range s.Gyle.Yeast {
		p := &s.Gyle.Yeast[i]
		switch {
		case p.Into.Is(journal.IntoPackage) || p.Package.Written():
		case !p.Pitched.Written() && i == 0 && s.Gyle.Brewed.Written():
			return s.Gyle.Brewed.Middle()
		case p.Pitched.Written() && (earliest.IsZero() || p.Pitched.Middle().Before(earliest)):
			earliest = p.Pitched.Middle()
		}
	}
	return orElse(earliest, s.Gyle.Brewed.Middle())
}

// sealedAt is the end of fermentation proper: the first of racking, priming and
// filling that has come. A bare date ends with its day, since the last reading
// is taken that morning.
func (b *bench) sealedAt() (time.Time, bool) {
	first := b.memoSealed.once(func() time.Time {
		first := b.sealing(b.sealing(time.Time{}, b.Gyle.Racked.On), b.Gyle.Priming.On)
		for i := range b.Gyle.Packages {
			p := &b.Gyle.Packages[i]
			first = b.sealing(b.sealing(first, p.On), p.Priming.On)
		}
		return first
	})
	return first, !first.IsZero()
}

// sealing is the earlier of what is known to be first and the end of a moment
// that has come.
func (b *bench) sealing(first time.Time, m journal.Moment) time.Time {
	if !m.Written() || m.Time.After(b.Now) {
		return first
	}
	end := m.Time
	if m.DateOnly {
		end = end.AddDate(0, 0, 1)
	}
	if first.IsZero() || end.Before(first) {
		return end
	}
	return first
}

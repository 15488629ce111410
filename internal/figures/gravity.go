package figures

import (
	"time"

	"gylebook/internal/brewing"
	q "gylebook/internal/quantity"
)

var (
	kindOG = &Kind{
		ID: IDOG, Label: "Original gravity", Unit: "SG", Decimals: 4,
		Says:    "The wort's gravity before the yeast: as read in the fermenter, else the last reading at or before pitching, else the copper's after the boil.",
		Formula: "{OG} = reading, corrected to 20 °C",
		Symbols: []string{"OG: original gravity, SG 20/20 °C"},
		Valid:   "sample 0 to 60 °C",
		Source:  "water density: Tanaka et al., Metrologia 38 (2001) 301; Kell, J. Chem. Eng. Data 20 (1975) 97",
		Checked: "a published table of hydrometer corrections for a 15 °C instrument, to 0.0002",
	}
	kindFG = &Kind{
		ID: IDFG, Label: "Final gravity", Unit: "SG", Decimals: 4,
		Says:    "The last reading before the beer was racked, primed or sealed; by hydrometer, a refractometer only where there is none, a logger only where the beer has fallen on since. Provisional until it has stood still for 48 hours.",
		Formula: "{FG} = reading, corrected to 20 °C",
		Symbols: []string{"FG: final gravity, SG 20/20 °C"},
		Valid:   kindOG.Valid, Source: kindOG.Source, Checked: kindOG.Checked,
	}
	kindNow = &Kind{
		ID: IDGravityNow, Label: "Gravity now", Unit: "SG", Decimals: 4,
		Says:    "The last reading of all; a logger's last hour, set right by the readings by hand, where that is later.",
		Formula: "{PG} = reading, corrected to 20 °C",
		Symbols: []string{"PG: present gravity, SG 20/20 °C"},
		Valid:   kindOG.Valid, Source: kindOG.Source, Checked: kindOG.Checked,
	}
	kindExpectedFG = &Kind{
		ID: IDFGExpected, Label: "Final gravity to expect", Unit: "SG", Decimals: 4,
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
func gravities(b *bench) {
	if b.Stage >= Copper || b.og().known {
		add(b, kindOG, "", b.og(), sym("OG", b.og(), ""))
	}
	if b.Stage >= Working {
		if f := add(b, kindFG, "", b.fg(), sym("FG", b.fg(), "")); f != nil {
			f.Provisional = !b.standing().AtLeast()
			f.Note = b.loggedNote(b.fg())
		}
		if f := add(b, kindNow, "", b.gravityTold(), sym("PG", b.gravityTold(), "")); f != nil {
			f.Note = b.loggedNote(b.gravityTold())
		}
	}
	attenuation := from2(b, brewing.ApparentAttenuation, b.ogToFerment(), b.expectedFG())
	add(b, kindExpectedFG, "", b.expectedFG(), sym("FG", b.expectedFG(), ""), sym("A", attenuation, "%"), sym("OG", b.ogToFerment(), ""))
}

// og is the original gravity.
func (b *bench) og() Estimate[q.Gravity] {
	return b.memoOG.once(func() Estimate[q.Gravity] {
		if b.begunAsBeer() {
			return b.drawnGravity(kindOG.ID)
		}
		return first(b.fermenterOG(), b.lastBeforePitching(), b.thinnedOG())
	})
}

// hydrometerOG is the original gravity without the readings after pitching, so
// that a refractometer's can be worked out from it.
func (b *bench) hydrometerOG() Estimate[q.Gravity] {
	return first(b.fermenterOG(), b.thinnedOG(), b.wortReadOG())
}

func (b *bench) fermenterOG() Estimate[q.Gravity] {
	return b.memoFermenterOG.once(func() Estimate[q.Gravity] {
		f := &b.Gyle.Fermenter
		if f.Gravity.Written() && b.isRefractometer(f.With) {
			shown := read(b, f.Gravity, "fermenter.gravity", ofHydrometer)
			return b.wortByRefractometer(from1(b, func(g q.Gravity) (q.Brix, error) { return q.Brix(g.Plato()), nil }, shown), f.With)
		}
		return b.hydrometer(f.Gravity, "fermenter.gravity", f.With, f.SampleAt, f.Temp)
	})
}

func (b *bench) copperOG() Estimate[q.Gravity] {
	return b.memoCopperOG.once(func() Estimate[q.Gravity] {
		after := &b.Gyle.Copper.After
		return b.hydrometer(after.Gravity, "copper.after.gravity", after.With, after.SampleAt, after.Temp)
	})
}

// thinnedOG is the gravity after the boil, thinned by the liquor that was added
// later: water into what the fermenter holds besides, else into all of the
// copper's wort.
func (b *bench) thinnedOG() Estimate[q.Gravity] {
	if !b.Gyle.Fermenter.Topped.Written() {
		return b.copperOG()
	}
	topped := read(b, b.Gyle.Fermenter.Topped, "fermenter.topped_up", ofVolume)
	wort := from2(b, func(all, topped q.Volume) (q.Volume, error) {
		if topped >= all {
			return 0, errAllLiquor
		}
		return all - topped, nil
	}, b.fermenterVolume(), topped)
	after := b.measuredVolume(b.Gyle.Copper.After, "copper.after.volume")
	return from4(b, brewing.BlendedGravity, first(wort, after), b.copperOG(), topped, exactly(q.Gravity(1)))
}

// firstReadingOG is a hydrometer's reading at or before pitching.
// wortReadOG is the last gravity that was read of the wort before the yeast went in, by
// either instrument.
func (b *bench) wortReadOG() Estimate[q.Gravity] {
	og, at := missing[q.Gravity]("fermenter.gravity"), time.Time{}
	for i := range b.Gyle.Readings {
		r := &b.Gyle.Readings[i]
		when := b.readingTime(r)
		if !r.When.Written() || b.pitchedAt().IsZero() || when.After(b.pitchedAt()) || when.Before(at) || !r.Gravity.Written() && !r.Brix.Written() {
			continue
		}
		og, _ = b.readingGravity(i, r)
		at = when
	}
	return og
}

// lastBeforePitching is the last reading at or before pitching.
func (b *bench) lastBeforePitching() Estimate[q.Gravity] {
	last := missing[q.Gravity]("fermenter.gravity")
	for _, r := range b.gravityReadings() {
		if !b.pitchedAt().IsZero() && !r.When.After(b.pitchedAt()) {
			last = r.Gravity
		}
	}
	return last
}

// fg is the final gravity, which may still be provisional.
func (b *bench) fg() Estimate[q.Gravity] {
	return b.memoFG.once(func() Estimate[q.Gravity] {
		if b.begunAsBeer() && len(b.gravityReadings()) == 0 {
			return b.drawnGravity(kindFG.ID)
		}
		last := b.lastBeforeSealing()
		if l := b.logOf(); l != nil && l.supersedes(last) {
			return l.now.Gravity
		}
		return last
	})
}

// lastBeforeSealing is the last hydrometer's reading before the beer was racked,
// primed or sealed; the last refractometer's where there is none.
func (b *bench) lastBeforeSealing() Estimate[q.Gravity] {
	last, byHydrometer := missing[q.Gravity]("readings[+].gravity"), false
	for _, r := range b.beforeSealing() {
		if byHydrometer && r.Refractometer {
			continue
		}
		last, byHydrometer = r.Gravity, !r.Refractometer
	}
	return last
}

// beforeSealing are the readings after pitching and before the beer was racked,
// primed or sealed: all of them while it is none of these.
func (b *bench) beforeSealing() []GravityReading {
	return b.memoBeforeSealing.once(func() []GravityReading {
		sealed, isSealed := b.sealedAt()
		all := b.gravityReadings()
		in := make([]GravityReading, 0, len(all))
		for _, r := range all {
			if r.When.After(b.pitchedAt()) && (!isSealed || !r.When.After(sealed)) && !b.aboveOG(r) {
				in = append(in, r)
			}
		}
		return in
	})
}

// aboveOG tells whether a reading of beer cannot be, since it stands above the
// original gravity by more than that one's standard uncertainty and nothing that
// raises a gravity went in. It counts as missing.
func (b *bench) aboveOG(r GravityReading) bool {
	og := b.og()
	return og.known && r.When.After(b.pitchedAt()) &&
		float64(r.Gravity.Value) > float64(og.Value)+og.Uncertainty() && !b.SugarAdded(b.pitchedAt(), r.When)
}

// gravityNow is the last reading of all that can be.
func (b *bench) gravityNow() Estimate[q.Gravity] {
	last := b.lastReading()
	l := b.logOf()
	switch {
	case l != nil && l.now.Gravity.known && (last == nil || l.now.When.After(last.When)):
		return l.now.Gravity
	case last == nil:
		return first(b.fg(), b.og())
	}
	return last.Gravity
}

// gravityTold is the same, but not the original one once it has worked for a day: then
// nobody knows.
func (b *bench) gravityTold() Estimate[q.Gravity] {
	const aDay = 24 * time.Hour
	all := byTime(b.gravityReadings(), b.sightings())
	unread := len(all) == 0 || !all[len(all)-1].When.After(b.pitchedAt())
	if unread && !b.fg().known && b.Now.Sub(b.pitchedAt()) > aDay {
		return missing[q.Gravity]("readings[+].gravity")
	}
	return b.gravityNow()
}

// lastReading is the last reading by hand that can be, nil for none.
func (b *bench) lastReading() *GravityReading {
	all := b.gravityReadings()
	for i := len(all) - 1; i >= 0; i-- {
		if !b.aboveOG(all[i]) {
			return &all[i]
		}
	}
	return nil
}

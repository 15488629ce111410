package figures

import (
	"time"

	"gylebook/internal/journal"
	q "gylebook/internal/quantity"
)

// How warm a container was on a day, and how cold it may have been.

// heatOn is the heat that a container stood at on a day, else its cellar's.
func (b *bench) heatOn(c Container, at time.Time) Estimate[q.Temperature] {
	if there := b.placeOn(c, at).heat; there.Written() {
		return read(b, there, there.Key, ofHeat)
	}
	return b.cellarHeat(c)
}

// heatOrCold is the same, and at worst a refrigerator's where nobody says: under one
// pressure cold beer holds more.
func (b *bench) heatOrCold(c Container, at time.Time) likelyAndWorst[q.Temperature] {
	w := surely(b.heatOn(c, at))
	there := b.placeOn(c, at)
	unsaid := there.most || !there.heat.Written() && !b.cellarNamed(c).Written()
	if unsaid || b.movedNowhere(c, at, at, journal.Moved, journal.Chilled) {
		w.worst = orCold(w.likely)
	}
	return w
}

// orCold is a refrigerator's heat where that is colder.
func orCold(heat Estimate[q.Temperature]) Estimate[q.Temperature] {
	if heat.Value.Celsius() <= coldPlace {
		return heat
	}
	return exactly(q.Celsius(coldPlace))
}

// placeOn is the place that is named for a container on a day.
func (b *bench) placeOn(c Container, at time.Time) (there place) {
	for _, p := range b.placesOf(c) {
		if p.from.After(at) || !p.to.IsZero() && !p.to.After(at) {
			continue
		}
		if there.heat.Written() && p.from.Before(there.from) {
			continue
		}
		there = p
	}
	return there
}

// cellarHeat is where it is served from: as written, else the cylinder's, else the
// trade's cellar.
func (b *bench) cellarHeat(c Container) Estimate[q.Temperature] {
	if named := b.cellarNamed(c); named.Written() {
		return read(b, named, named.Key, ofHeat)
	}
	return customary(b, q.Celsius(12), 1, "°C", "the cellar's heat", "not written: taken as 12 ± 1 °C, the trade's cellar (a cask-quality body's ten tips)")
}

func (b *bench) cellarNamed(c Container) journal.Value[q.Temperature] {
	for _, h := range []journal.Value[q.Temperature]{b.Cellared(c).At, b.Gyle.Served.At, c.Package.Gas.At} {
		if h.Written() && limitsOf(h.Value.Kind()).hold(float64(h.Value)) {
			return h
		}
	}
	return journal.Value[q.Temperature]{}
}

package figures

import (
	"time"

	q "gylebook/internal/quantity"
)

// unsettled is what went into the beer after the last gravity that counts, priming
// apart.
func (b *bench) unsettled() []Late {
	var late []Late
	for _, a := range b.additions() {
		at, dated := b.entered(a)
		early := !a.bottled()
		if a.water || a.creeps || b.primes(a) || early && !b.afterLastGravity(at) || b.readSince(a.into, at) {
			continue
		}
		late = append(late, Late{What: a.what, Where: a.where, Of: b.keyOfContainer(a.into), Dated: dated})
	}
	for _, c := range b.cultures() {
		if c.second(b) && (c.into != allOf || b.afterLastGravity(c.pitched.Middle())) && !b.readSince(c.into, c.pitched.Middle()) {
			late = append(late, Late{What: c.name, Where: c.pitched.Where, Of: b.keyOfContainer(c.into), Dated: true, Culture: true})
		}
	}
	return late
}

// primes tells whether an addition is priming by another name: sugar or wort that went
// into the containers by the day of filling. It is to come in full, and says nothing of
// whether the beer was done.
func (b *bench) primes(a addition) bool {
	sealed, is := b.sealedAt()
	return a.bottled() && (a.worty() || a.weight.known) && is && (!a.when.Written() || a.when.Time.Before(sealed.AddDate(0, 0, 1)))
}

func (b *bench) keyOfContainer(of int) string {
	if of == allOf {
		return ""
	}
	return b.containers[of].Key
}

// readSince tells whether a gravity was read in a container, or in each of them, after
// a moment.
func (b *bench) readSince(of int, at time.Time) bool {
	read := func(i int) bool {
		all := b.readInsideOf(i)
		return len(all) > 0 && all[len(all)-1].at.After(at)
	}
	if of != allOf {
		return read(of)
	}
	for i := range b.containers {
		if !read(i) {
			return false
		}
	}
	return len(b.containers) > 0
}

// lowestOf is where the keenest culture would leave the beer.
func (b *bench) lowestOf() Lowest {
	least, most, goesOn := b.attenuationLimits(allOf)
	must := b.musts().joined
	end, high := b.endsAt(must, exactly(most)), b.endsAt(must, exactly(least))
	if !end.known || !high.known {
		return Lowest{GoesOn: goesOn}
	}
	lowest := Lowest{Gravity: end.Value, Least: high.Value, Known: len(b.cultures()) > 0, GoesOn: goesOn, Simple: must.simple.Value >= 1}
	for _, c := range b.cultures() {
		lowest.Known = lowest.Known && c.known
		if c.most == most {
			lowest.Where = c.where
		}
	}
	return lowest
}

// gaugesChecked is each gauge reading beside the account as it stood at that hour.
func (b *bench) gaugesChecked() []GaugeCheck {
	var all []GaugeCheck
	for _, c := range b.containers {
		posts := b.reckon(c).likely.posts
		for i := range posts {
			if posts[i].what != gauging {
				continue
			}
			if check, ok := b.gaugeChecked(c, posts, i); ok {
				all = append(all, check)
			}
		}
	}
	return all
}

func (b *bench) gaugeChecked(c Container, posts []posting, i int) (GaugeCheck, bool) {
	r := b.reckon(c)
	if r.lack != nil {
		return GaugeCheck{}, false
	}
	read, heat := posts[i].a.likely, posts[i].b.likely
	if !read.known || !heat.known {
		return GaugeCheck{}, false
	}
	w := r.likely
	w.until = i
	many, lack := b.evaluateMany(func(x, y []float64) error {
		s, err := w.through(x)
		if err != nil {
			return err
		}
		t := q.Temperature(heat.value)
		then, err := s.At(t)
		if err != nil {
			return err
		}
		s.CO2 += s.sugar + s.fall
		rested, err := s.At(t)
		y[0], y[1] = then.Gauge.Bar(), rested.Gauge.Bar()
		return err
	}, r.numbers, 2)
	if lack != nil {
		return GaugeCheck{}, false
	}
	figure, _ := aside("bar", result[q.Pressure](read))
	return GaugeCheck{Of: c.Key, Where: posts[i].where, Read: figure, Least: many[0].value, Most: many[1].value, PlusOff: 2 * max(many[0].u, many[1].u)}, true
}

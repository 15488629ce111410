package histories

import (
	"fmt"
	"math"
	"time"
)

// story is what happens to the beer of an entry, of which its lines tell a part.
type story struct {
	c          Chance
	h          *History
	in         int
	batch      float64 // L in the fermenter
	og, fg     float64
	brisk      float64 // days in which two thirds of the gravity fall
	racked     float64 // days after brew day
	left       float64 // L that were racked and no container has yet
	containers []container
}

// container is one line of packages.
type container struct {
	size, fill float64 // L
	count      int
	filled     float64 // days after brew day
}

// Random is an entry by chance, some with another that it was drawn from.
func Random(c Chance) History {
	h := History{Now: begun.Add(time.Duration(c.Between(0, 90) * 24 * float64(time.Hour))).Truncate(time.Minute)}
	if c.Maybe(0.25) {
		h = h.Added(c.air())
	}
	if c.Maybe(0.12) {
		source := c.story(&h, Source)
		source.ferments()
		source.later()
	}
	subject := c.story(&h, Subject)
	if len(h.All(Source, "fermenter")) > 0 {
		subject.drawn()
	} else {
		subject.ferments()
	}
	subject.later()
	subject.closes()
	subject.isKept()
	return h
}

// air is a setting that says how heavy the air is.
func (c Chance) air() Line {
	if c.Maybe(0.5) {
		return Line{In: Settings, Of: "altitude", Keys: []Key{{Plain, fmt.Sprintf("%.0f m", c.Between(0, 2500))}}}
	}
	return Line{In: Settings, Of: "air_pressure", Keys: []Key{{Plain, fmt.Sprintf("%.1f kPa", c.Between(75, 104))}}}
}

func (c Chance) story(h *History, in int) *story {
	s := &story{c: c, h: h, in: in, batch: c.Between(4, 50), og: 1 + c.Between(0.028, 0.095), brisk: c.Between(0.7, 6), racked: c.Between(4, 25)}
	s.fg = 1 + (s.og-1)*c.Between(0.05, 0.45)
	s.left = s.batch * c.Between(0.85, 0.98)
	return s
}

// add puts a line into the entry.
func (s *story) add(k keys) { *s.h = s.h.Added(*k.line) }

func (s *story) one(of string) keys  { return s.c.line(s.in, of, false) }
func (s *story) item(of string) keys { return s.c.line(s.in, of, true) }

func (s *story) day(days float64) func() string { return func() string { return s.c.Day(days) } }
func (s *story) heat(low, high float64) func() string {
	return func() string { return s.c.Heat(low, high) }
}
func (s *story) litres(value float64) func() string {
	return func() string { return s.c.Litres(value) }
}

// ferments is brew day and what the beer did until it was racked.
func (s *story) ferments() {
	c := s.c
	if c.Maybe(0.95) {
		s.add(s.one("brewed").put(Plain, begun.Format(time.DateOnly)))
	}
	if c.Maybe(0.8) {
		s.add(s.item("grist").put("malt", "pale").put("weight", c.Grams(s.batch*(s.og-1)*1e6/240)).maybe(0.8, "extract", func() string { return "300 Ldeg/kg" }))
	}
	if c.Maybe(0.2) {
		s.add(s.item("grist").put(Pick(c, "sugar", "syrup"), Pick(c, Sugars...)).put("weight", c.Grams(s.batch*c.Between(2, 20))).put("into", "copper"))
	}
	pitch := s.item("yeast").put("yeast", Pick(c, "house ale", "dried ale", "saison yeast", "low-attenuating ale", "lager yeast", "any"))
	s.add(pitch.maybe(0.9, "pitched", s.day(c.Between(0.4, 1.2))).maybe(0.3, "at", s.heat(8, 24)))
	s.add(s.one("fermenter").put("volume", c.Litres(s.batch)).maybe(0.92, "gravity", func() string { return c.gravity(s.og) }).
		maybe(0.4, "sample_at", s.heat(15, 30)))
	if c.Maybe(0.1) {
		s.valve()
	}
	s.readings()
}

// valve is a spunding valve on the fermenter.
func (s *story) valve() {
	c := s.c
	f, _ := s.h.One(s.in, "fermenter")
	*s.h = s.h.Changed(f.ID, func(l Line) Line {
		l = l.With("spunding.set", c.Bar(0.2, 1.8))
		if c.Maybe(0.5) {
			l = l.With("spunding.from", c.Day(c.Between(1, s.racked)))
		}
		if c.Maybe(0.2) {
			l = l.With("spunding.to", c.Day(c.Between(1, s.racked+2)))
		}
		return l
	})
}

// gravityOn is the beer's gravity so many days after brew day.
func (s *story) gravityOn(day float64) float64 {
	return s.fg + (s.og-s.fg)*math.Exp(-max(day-0.8, 0)/s.brisk)
}

func (s *story) readings() {
	c := s.c
	for range c.IntN(7) {
		s.reading(c.Between(0.2, s.racked))
	}
	if c.Maybe(0.5) { // twice near the end, as brewers do who want to know
		s.reading(s.racked - c.Between(0.1, 0.5))
		s.reading(s.racked - c.Between(0.6, 5))
	}
}

func (s *story) reading(day float64) {
	c := s.c
	r := s.item("readings").maybe(0.97, "when", s.day(day))
	sg := s.gravityOn(day) + c.Between(-0.0006, 0.0006)
	if c.Maybe(0.93) {
		r.put("gravity", c.gravity(sg))
	} else {
		r.put("brix", fmt.Sprintf("%.1f", 4+(sg-1)*200))
	}
	r.maybe(0.7, "temp", s.heat(8, 26)).maybe(0.15, "sample_at", s.heat(15, 30))
	r.maybe(0.07, "pressure", func() string { return c.Bar(0, 1.5) })
	s.add(r)
}

// drawn is beer from the other entry instead of a mash.
func (s *story) drawn() {
	c := s.c
	s.og, s.fg, s.left = 1.045, 1.010, s.batch
	s.add(s.item("drawn_from").put("gyle", "1").put("volume", c.Litres(s.batch)).put("on", c.Day(c.Between(8, 24))))
	if c.Maybe(0.5) {
		s.reading(s.racked - c.Between(0.1, 5))
	}
	s.racked += 20
}

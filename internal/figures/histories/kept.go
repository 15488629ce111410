package histories

import "fmt"

// closes is racking, priming and filling.
func (s *story) closes() {
	c := s.c
	if c.Maybe(0.8) {
		s.add(s.one("racked").maybe(0.9, "on", s.day(s.racked)).maybe(0.75, "volume", s.litres(s.left)).
			maybe(0.6, "temp", s.heat(1, 24)).maybe(0.4, "warmest", s.heat(10, 28)))
	}
	if c.Maybe(0.55) {
		s.add(keys{c, &Line{In: s.in, Of: "priming"}}.primed("", s.left, 1))
	}
	if c.Maybe(0.3) {
		s.add(s.one("aim").put("condition", fmt.Sprintf("%.1f vol", c.Between(1, 3))).maybe(0.3, "volume", s.litres(s.batch)))
	}
	for range Pick(c, 0, 1, 1, 1, 2, 2, 3) {
		s.filled()
	}
	for range Pick(c, 0, 0, 1, 2) {
		s.readingInside()
	}
}

// primed is a priming of so much beer in so many containers.
func (k keys) primed(under string, beer float64, count int) keys {
	c := k.c
	if c.Maybe(0.2) {
		k.put(under+"wort", c.Litres(beer*c.Between(0.02, 0.12))).maybe(0.7, under+"gravity", func() string { return c.gravity(1 + c.Between(0.03, 0.08)) })
		return k.maybe(0.3, under+"working", func() string { return Pick(c, "true", "false") })
	}
	k.maybe(0.8, under+"sugar", func() string { return Pick(c, Sugars...) })
	dose := beer * c.Between(0.5, 12)
	switch {
	case c.Maybe(0.5):
		k.put(under+"weight", c.Grams(dose))
	case c.Maybe(0.7):
		k.put(under+"each", c.Grams(dose/float64(count)))
	case len(k.line.Keys) == 0 || !k.line.Has(under+"sugar"):
		k.put(under+"sugar", "sucrose")
	}
	return k.maybe(0.2, under+"on", func() string { return c.Day(c.Between(4, 30)) })
}

// filled is a line of containers.
func (s *story) filled() {
	c := s.c
	kind := Pick(c, "bottle", "bottle", "soft bag", "keg", "cask", "pressure barrel", "other")
	v := container{count: 1, filled: s.racked + Pick(c, 0, 0, 0.3, 2)}
	v.size = s.left * c.Between(0.3, 1)
	if kind == "bottle" {
		v.size, v.count = Pick(c, 0.33, 0.5, 0.75), 1+c.IntN(12)
	}
	vessel := vesselOf(kind, v.size)
	if of := Pick(c, carded...); c.Maybe(0.15) {
		vessel, v.size, v.count = of.name, of.size, 1
	}
	v.fill = v.size * c.Between(0.5, 1.04)
	k := s.item("packages").put("vessel", vessel).maybe(0.75, "fill", s.litres(v.fill))
	if v.count > 1 {
		k.put("count", fmt.Sprint(v.count))
	}
	k.maybe(0.5, "on", s.day(v.filled)).maybe(0.15, "purged", func() string { return Pick(c, "true", "false") })
	if c.Maybe(0.25) {
		k.primed("priming.", v.fill*float64(v.count), v.count)
	}
	if c.Maybe(0.25) {
		k.Gas("gas.", v.filled)
	}
	if c.Maybe(0.08) {
		k.put("spunding.set", c.Bar(0.1, 1)).maybe(0.4, "spunding.from", s.day(v.filled+c.Between(0, 10))).maybe(0.3, "spunding.to", s.day(v.filled+c.Between(0, 30)))
	}
	k.maybe(0.2, "relief", func() string { return Pick(c, "true", "false") })
	k.maybe(0.15, "replaced_by", func() string { return Pick(c, "air", "breather", "cylinder", "nothing") })
	if c.Maybe(0.25) {
		k.conditioned("conditioned.", v.filled)
	}
	if c.Maybe(0.2) {
		k.cellared("cellared.", v.filled)
	}
	k.maybe(0.2, "broached", s.day(v.filled+c.Between(5, 40))).maybe(0.08, "emptied", s.day(v.filled+c.Between(20, 60)))
	s.left = max(s.left-v.fill*float64(v.count), 0.5)
	s.containers = append(s.containers, v)
	s.add(k)
}

// vesselOf is a vessel as it is named, some by names that no card knows.
func vesselOf(kind string, size float64) string {
	switch kind {
	case "bottle":
		return fmt.Sprintf("bottle %.0f mL", size*1000)
	case "other":
		return "the old jug"
	case "cask":
		if size > 15 && size < 22 {
			return "pin"
		}
	}
	return fmt.Sprintf("%s %.1f L", kind, size)
}

// Gas writes a cylinder that is put on.
func (k keys) Gas(under string, day float64) keys {
	c := k.c
	k.maybe(0.8, under+"with", func() string { return Pick(c, "co2", "co2", "mixed", "nitrogen") })
	k.put(under+"set", c.Bar(0.1, 2.5)).maybe(0.4, under+"at", func() string { return c.Heat(1, 18) })
	if k.line.Value(under+"with") == "mixed" {
		k.maybe(0.6, under+"share", func() string { return fmt.Sprintf("%.0f %%", c.Between(20, 80)) })
	}
	k.maybe(0.5, under+"from", func() string { return c.Day(day + c.Between(0, 20)) })
	return k.maybe(0.3, under+"to", func() string { return c.Day(day + c.Between(1, 40)) })
}

func (k keys) conditioned(under string, day float64) keys {
	c := k.c
	k.put(under+"at", c.Heat(8, 28)).maybe(0.3, under+"warmest", func() string { return c.Heat(15, 34) })
	k.maybe(0.4, under+"from", func() string { return c.Day(day) })
	return k.maybe(0.4, under+"to", func() string { return c.Day(day + c.Between(2, 25)) })
}

func (k keys) cellared(under string, day float64) keys {
	c := k.c
	k.put(under+"at", c.Heat(1, 18)).maybe(0.2, under+"warmest", func() string { return c.Heat(8, 26) })
	return k.maybe(0.4, under+"from", func() string { return c.Day(day + c.Between(2, 25)) })
}

// readingInside is what was read of a container, or of the beer, after filling.
func (s *story) readingInside() {
	c := s.c
	day := s.racked + c.Between(0.5, 40)
	r := s.item("readings").put("when", c.Day(day))
	r.maybe(0.5, "gravity", func() string { return c.gravity(s.gravityOn(day) + c.Between(-0.001, 0.003)) })
	r.maybe(0.5, "pressure", func() string { return c.Bar(0, 3) })
	r.maybe(0.6, "temp", s.heat(2, 28))
	if len(r.line.Keys) == 1 {
		r.put("temp", c.Heat(2, 28))
	}
	if len(s.containers) > 0 && c.Maybe(0.8) {
		r.put("package", fmt.Sprint(c.IntN(len(s.containers))))
	}
	s.add(r)
}

// isKept is where the beer stood, what was let out of it and how it was drunk.
func (s *story) isKept() {
	c := s.c
	if c.Maybe(0.4) {
		s.add(s.one("conditioned").conditioned("", s.racked))
	}
	if c.Maybe(0.35) {
		s.add(s.one("cellared").cellared("", s.racked))
	}
	if c.Maybe(0.3) {
		k := s.one("served").maybe(0.7, "broached", s.day(s.racked+c.Between(5, 40))).maybe(0.6, "at", s.heat(4, 16))
		k.maybe(0.3, "breather", func() string { return Pick(c, "true", "false") }).maybe(0.2, "replaced_by", func() string { return Pick(c, "air", "breather", "cylinder", "nothing") })
		k.maybe(0.1, "emptied", s.day(s.racked+c.Between(20, 60)))
		if len(k.line.Keys) > 0 {
			s.add(k)
		}
	}
	for range Pick(c, 0, 0, 0, 1, 2) {
		*s.h = s.h.Added(Vented(c, s.racked+c.Between(0, 40), len(s.containers)))
	}
	for range Pick(c, 0, 0, 1, 2) {
		*s.h = s.h.Added(Moved(c, s.racked+c.Between(0, 40), len(s.containers)))
	}
	for range Pick(c, 0, 0, 0, 1, 3) {
		k := s.item("poured").put("when", c.Day(s.racked+c.Between(5, 45))).put("volume", c.Litres(c.Between(0.2, 3)))
		s.add(k.ofOne(len(s.containers)))
	}
}

// ofOne names one of so many containers, or none.
func (k keys) ofOne(containers int) keys {
	if containers > 0 && k.c.Maybe(0.6) {
		k.put("package", fmt.Sprint(k.c.IntN(containers)))
	}
	return k
}

// Vented is gas let out of one of so many containers, or of all.
func Vented(c Chance, day float64, containers int) Line {
	k := c.line(Subject, "done", true).put("when", c.Day(day)).put("did", Pick(c, "vented", "vented", "burped"))
	return *k.maybe(0.6, "until", func() string { return Pick(c, "quiet", "moment") }).maybe(0.5, "at", func() string { return c.Heat(2, 25) }).ofOne(containers).line
}

// Moved is a container, or all, brought to another heat.
func Moved(c Chance, day float64, containers int) Line {
	k := c.line(Subject, "done", true).put("when", c.Day(day)).put("did", Pick(c, "moved", "chilled", "warmed"))
	low, high := 1.0, 32.0
	switch k.line.Value("did") {
	case "chilled":
		high = 10
	case "warmed":
		low = 15
	}
	return *k.put("at", c.Heat(low, high)).ofOne(containers).line
}

package histories

import "fmt"

// What goes into beer, by names that the larder's cards know and by one that none
// does.
var (
	Sugars = []string{"sucrose", "dextrose", "honey", "malt extract", "invert syrup", "treacle of any kind"}
	Fruits = []string{"damson", "cherry", "a fruit of any kind"}
	Yeasts = []string{"brettanomyces", "champagne yeast", "saison yeast", "house ale", "wild yeast", "a yeast of any kind"}
)

// later is what went into the beer after the yeast, any day, dated or not.
func (s *story) later() {
	c := s.c
	for _, put := range []func(Chance, int, float64, float64) Line{Sugar, Fruit, Wort, Liquor, Hops, Yeast, ToppedUp} {
		if c.Maybe(0.12) {
			*s.h = s.h.Added(put(c, s.in, s.batch, s.whenever()))
		}
	}
	if c.Maybe(0.15) {
		s.add(s.item("done").put("when", c.Day(c.Between(1, s.racked))).put("did", Pick(c, "vented", "dumped", "roused")).
			maybe(0.3, "volume", s.litres(c.Between(0.1, 1))).maybe(0.4, "until", func() string { return Pick(c, "quiet", "moment") }))
	}
}

// whenever is a day before, at or after racking.
func (s *story) whenever() float64 {
	if s.c.Maybe(0.3) {
		return s.racked - s.c.Between(0, 1)
	}
	return s.c.Between(1, 50)
}

// into is where something went, and which container.
func (k keys) into(batch float64) keys {
	k.maybe(0.85, "into", func() string { return Pick(k.c, "fermenter", "fermenter", "package") })
	if k.line.Value("into") == "package" && k.c.Maybe(0.5) {
		k.put("package", fmt.Sprint(k.c.IntN(2)))
	}
	return k
}

// Sugar is a sugar or syrup put into beer.
func Sugar(c Chance, in int, batch, day float64) Line {
	k := c.line(in, "grist", true).put(Pick(c, "sugar", "sugar", "syrup"), Pick(c, Sugars...)).put("weight", c.Grams(batch*c.Between(0.2, 25)))
	k.put("into", Pick(c, "fermenter", "fermenter", "package"))
	if k.line.Value("into") == "package" {
		k.maybe(0.5, "package", func() string { return fmt.Sprint(c.IntN(2)) })
	}
	return *k.maybe(0.75, "when", func() string { return c.Day(day) }).line
}

// Fruit is fruit or juice put into beer.
func Fruit(c Chance, in int, batch, day float64) Line {
	k := c.line(in, "added", true)
	switch c.IntN(3) {
	case 0:
		k.put("fruit", Pick(c, Fruits...)).put("weight", c.Grams(batch*c.Between(5, 150)))
	case 1:
		k.put("juice", Pick(c, Fruits...)).put("volume", c.Litres(batch*c.Between(0.02, 0.2)))
	case 2:
		k.put("other", "vanilla sugar").put("sugar", "90 %").put("weight", c.Grams(batch*c.Between(0.2, 10)))
	}
	if !k.line.Has("sugar") {
		k.maybe(0.4, "sugar", func() string { return fmt.Sprintf("%.0f %%", c.Between(4, 18)) })
	}
	return *k.into(batch).maybe(0.75, "when", func() string { return c.Day(day) }).line
}

// Wort is wort put into beer.
func Wort(c Chance, in int, batch, day float64) Line {
	k := c.line(in, "added", true).put("wort", Pick(c, "speise", "first runnings", "krausen")).put("volume", c.Litres(batch*c.Between(0.01, 0.2)))
	k.maybe(0.7, "gravity", func() string { return c.gravity(1 + c.Between(0.02, 0.09)) }).maybe(0.3, "working", func() string { return Pick(c, "true", "false") })
	return *k.into(batch).maybe(0.75, "when", func() string { return c.Day(day) }).line
}

// Liquor is water put into beer.
func Liquor(c Chance, in int, batch, day float64) Line {
	k := c.line(in, "added", true).put("liquor", "boiled water").put("volume", c.Litres(batch*c.Between(0.01, 0.2)))
	return *k.into(batch).maybe(0.75, "when", func() string { return c.Day(day) }).line
}

// Hops are hops put into beer.
func Hops(c Chance, in int, batch, day float64) Line {
	k := c.line(in, "hops", true).put("hop", "goldings").put("weight", c.Grams(batch*c.Between(0.2, 8))).put("alpha", "5 %")
	k.put("dry", fmt.Sprintf("%d days", 1+c.IntN(7)))
	return *k.into(batch).maybe(0.75, "when", func() string { return c.Day(day) }).line
}

// Yeast is another yeast put into beer.
func Yeast(c Chance, in int, batch, day float64) Line {
	k := c.line(in, "yeast", true).put("yeast", Pick(c, Yeasts...))
	k.maybe(0.4, "into", func() string { return Pick(c, "fermenter", "package") })
	if k.line.Value("into") == "package" {
		k.maybe(0.5, "package", func() string { return fmt.Sprint(c.IntN(2)) })
	}
	return *k.maybe(0.8, "pitched", func() string { return c.Day(day) }).line
}

// ToppedUp is a topping up, with what its words say or do not.
func ToppedUp(c Chance, in int, batch, day float64) Line {
	k := c.line(in, "done", true).put("when", c.Day(day)).put("did", "topped up").put("volume", c.Litres(batch*c.Between(0.01, 0.15)))
	k.maybe(0.7, "what", func() string { return Pick(c, "with wort", "with liquor", "with beer", "with sugar water") })
	return *k.maybe(0.2, "package", func() string { return fmt.Sprint(c.IntN(2)) }).line
}

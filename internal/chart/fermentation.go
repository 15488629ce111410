package chart

import (
	"cmp"
	"fmt"
	"html/template"
	"time"
)

// Expected is a forecast for one moment: the specific gravity, and the
// interval in which it is expected to lie.
type Expected struct {
	At               time.Time
	Value, Low, High float64
}

// FermentationInput is what Fermentation draws. Every series may be empty and
// need not be sorted; 100,000 points are welcome.
type FermentationInput struct {
	Frame
	Gravity     []Point    // specific gravity read by hand, with its ±; more than 48 are thinned
	Logged      []Point    // specific gravity from a logger, drawn as a curve
	Forecast    []Expected // the course still expected
	Temperature []Point    // of the beer, in the unit of Heat
	Heat        string     // °C where it is empty
	Events      []Event    // the axis of time reaches all of them
	Said        string     // a few words that stand out: "1.011, stable for 48 h"
	Zone        *time.Location
}

const (
	dotRadius    = 3.0
	mostReadings = 48
	mostCurve    = 180
	mostHeat     = 120
	mostExpected = 40
)

// course is a FermentationInput made ready: usable, sorted and thinned.
type course struct {
	read, logged, heat, expected []mark
	degrees                      string
}

// Fermentation draws gravity against time, as readings with their intervals
// and as a logger's curve, the forecast with its band, and below it the
// temperature on the same axis of time. Without any of these the result is
// empty.
//
// The gravity axis covers all readings. For wide intervals and bands it grows
// by no more than the height of the readings, and cuts off what is beyond, so
// that one wild interval does not flatten the curve.
func Fermentation(in FermentationInput) template.HTML {
	c := courseOf(in)
	hasGravity, hasHeat := len(c.read)+len(c.logged)+len(c.expected) > 0, len(c.heat) > 0
	var panels []panel
	if hasGravity {
		panels = append(panels, c.gravityPanel(in.width()))
	}
	if hasHeat {
		panels = append(panels, c.heatPanel())
	}
	if len(panels) == 0 {
		return ""
	}
	drawn := newTimeChart(in.Frame, c.times(), surroundings{in.Said, in.Events, in.Zone}, panels...)
	if hasGravity {
		c.drawGravity(drawn, drawn.open(panels[0], true).axis)
	}
	if hasHeat {
		drawn.curve("heat", c.heat, drawn.open(panels[len(panels)-1], !hasGravity).axis)
	}
	height := drawn.close(c.key())
	desc := c.describe(drawn.time) + eventWords(in.Events, drawn.time)
	return in.hang(sheet{name: "fermentation", title: "Gravity and temperature", desc: desc, height: height}, &drawn.pen)
}

func courseOf(in FermentationInput) course {
	return course{
		read:     thinned(marks(in.Gravity), mostReadings),
		logged:   thinned(marks(in.Logged), mostCurve),
		heat:     thinned(marks(in.Temperature), mostHeat),
		expected: thinned(expectations(in.Forecast), mostExpected),
		degrees:  cmp.Or(in.Heat, "°C"),
	}
}

// expectations are the usable ones in the order of time. Where a bound is
// missing or on the wrong side, the forecast itself takes its place.
func expectations(of []Expected) []mark {
	var kept []mark
	for _, e := range of {
		if !dated(e.At) || !usable(e.Value) {
			continue
		}
		m := mark{seconds(e.At), e.Value, e.Value, e.Value}
		if usable(e.Low) {
			m.low = min(e.Low, m.v)
		}
		if usable(e.High) {
			m.high = max(e.High, m.v)
		}
		kept = append(kept, m)
	}
	sortByTime(kept)
	return kept
}

func (c course) times() span {
	var s span
	for _, series := range [][]mark{c.read, c.logged, c.heat, c.expected} {
		for _, m := range series {
			s.take(m.t)
		}
	}
	return s
}

func (c course) gravityPanel(width float64) panel {
	var s span
	for _, series := range [][]mark{c.read, c.logged, c.expected} {
		for _, m := range series {
			s.take(m.v)
		}
	}
	s.stretch(0.004)
	limit := s
	for _, series := range [][]mark{c.read, c.expected} {
		for _, m := range series {
			grown := limit
			grown.reach(m.low, (limit.hi-limit.lo)/2)
			grown.reach(m.high, (limit.hi-limit.lo)/2)
			s.take(grown.lo, grown.hi)
		}
	}
	a := s.ruled(0, 0, 8, 0.001)
	return panel{"Gravity", a, max(a.decimals, 3), min(max(0.42*width, 150), 240)}
}

func (c course) heatPanel() panel {
	var s span
	for _, m := range c.heat {
		s.take(m.v)
	}
	s.stretch(2)
	a := s.ruled(0, 0, 4, 0.5)
	return panel{"Temperature, " + c.degrees, a, a.decimals, 60}
}

func (c course) drawGravity(on *timeChart, a axis) {
	on.band(c.expected, a)
	on.curve("forecast", c.expected, a)
	on.curve("line", c.logged, a)
	if len(c.read) > 0 {
		on.dots(c.read, a)
	}
}

func (c course) key() []sample {
	var key []sample
	if len(c.read) > 0 && len(c.logged)+len(c.expected) > 0 {
		key = append(key, sample{"dot", "read"})
	}
	if len(c.logged) > 0 {
		key = append(key, sample{"line", "logged"})
	}
	if len(c.expected) > 0 {
		key = append(key, sample{"forecast", "forecast"})
	}
	return key
}

// describe tells the course in a few sentences.
func (c course) describe(t timeAxis) string {
	said := ""
	gravity := c.read
	if len(gravity) == 0 {
		gravity = c.logged
	}
	if n := len(gravity); n == 1 {
		said += fmt.Sprintf(" Gravity was %s on %s.", spoken(gravity[0].v, 3), t.says(gravity[0].t))
	} else if n > 1 {
		said += fmt.Sprintf(" Gravity went from %s on %s to %s on %s.", spoken(gravity[0].v, 3), t.says(gravity[0].t),
			spoken(gravity[n-1].v, 3), t.says(gravity[n-1].t))
	}
	if n := len(c.expected); n > 0 {
		last := c.expected[n-1]
		said += fmt.Sprintf(" The forecast is %s on %s, between %s and %s.", spoken(last.v, 3), t.says(last.t), spoken(last.low, 3), spoken(last.high, 3))
	}
	if len(c.heat) > 0 {
		var s span
		for _, m := range c.heat {
			s.take(m.v)
		}
		if low, high := spoken(s.lo, 1), spoken(s.hi, 1); low == high {
			said += " The beer stood at " + low + " " + c.degrees + "."
		} else {
			said += fmt.Sprintf(" The beer stood between %s and %s %s.", low, high, c.degrees)
		}
	}
	return oneLine(said)
}

package chart

import "time"

// timeChart lays out what charts over time have in common, from the top: some
// words that stand out, the flags of events, one or two panels, the names of
// the ticks, a key.
type timeChart struct {
	pen
	time                    timeAxis
	left, right, width, top float64 // top is where the next thing goes
	said                    string  // stands over the first panel
	flags                   []pennant
	lanes, unnamed          int
	cut                     bool // some interval is longer than its axis
}

// surroundings are what a chart over time has around its panels.
type surroundings struct {
	said   string
	events []Event
	zone   *time.Location
}

// panel is one axis of values, upward.
type panel struct {
	name     string
	axis     axis
	decimals int // of its labels
	height   float64
}

const (
	leastLeft = 34.0 // room for the labels of the upward axis, at the least
	rightRoom = 10.0
)

// newTimeChart rules the axis of time and finds the places of the flags. The
// panels must be known for the room that their labels take.
func newTimeChart(f Frame, times span, around surroundings, panels ...panel) *timeChart {
	c := &timeChart{width: f.width(), left: leastLeft, top: margin}
	for _, p := range panels {
		for _, v := range p.axis.ticks() {
			c.left = max(c.left, breadth(spoken(v, p.decimals))+margin+5)
		}
	}
	c.right = c.width - rightRoom
	for _, e := range around.events {
		if dated(e.At) {
			times.take(seconds(e.At))
		}
	}
	c.time = newTimeAxis(times, around.zone, c.left, c.right)
	c.said = shortenStrong(around.said, c.right-margin)
	c.flags, c.lanes, c.unnamed = hoist(flagsOf(around.events, c.time), margin, c.width-margin)
	return c
}

// open rules a panel and moves down past it. The flags fly over the first
// panel; through the others only their lines run.
func (c *timeChart) open(p panel, first bool) panel {
	c.head(p.name, first)
	over := c.top + 2
	if first {
		c.top += float64(c.lanes) * laneHeight
	}
	top, foot := c.top+8, c.top+8+p.height
	p.axis.from, p.axis.to = foot, top
	c.time.rule(&c.pen, foot)
	c.rule(p)
	if first {
		fly(&c.pen, c.flags, over, foot)
	} else {
		c.lines(top, foot)
	}
	c.top = foot + 8
	return p
}

// head names a panel, and says over the first what is to be said, on the same
// line if both fit.
func (c *timeChart) head(name string, first bool) {
	if first && c.said != "" {
		c.text("strong", c.right, c.top+ascent, end, c.said)
		if breadth(name)+breadthStrong(c.said)+12 > c.right-margin {
			c.top += lineHeight
		}
	}
	c.text("", margin, c.top+ascent, begin, name)
	c.top += lineHeight
}

// rule draws the level lines of a panel with their labels.
func (c *timeChart) rule(p panel) {
	var t trace
	for _, v := range p.axis.ticks() {
		y := p.axis.at(v)
		t.level(y, c.left, c.right)
		c.text("", c.left-5, y+4, end, spoken(v, p.decimals))
	}
	c.path("grid", t.String())
}

// lines carries the flags' lines through a lower panel.
func (c *timeChart) lines(top, foot float64) {
	var t trace
	for _, f := range c.flags {
		t.upright(f.x, top, foot)
	}
	c.path("event", t.String())
}

// close names the ticks and sets the key; what it returns is the height.
func (c *timeChart) close(key []sample) float64 {
	c.time.name(&c.pen, c.top+ascent, margin, c.width-margin)
	c.top += lineHeight + 4
	c.top = legend(&c.pen, key, margin, c.width-margin, c.top)
	if said := unnamedWords(c.unnamed); said != "" {
		c.text("", margin, c.top+ascent, begin, said)
		c.top += lineHeight
	}
	if c.cut {
		c.text("", margin, c.top+ascent, begin, goesOn)
		c.top += lineHeight
	}
	return c.top + margin
}

// curve draws a series as one line, or as a short stroke where it is but one.
func (c *timeChart) curve(class string, series []mark, on axis) {
	var t trace
	for i, m := range series {
		x, y := c.time.at(m.t), on.at(m.v)
		switch {
		case len(series) == 1:
			t.level(y, max(x-4, c.left), min(x+4, c.right))
		case i == 0:
			t.move(x, y)
		default:
			t.line(x, y)
		}
	}
	c.path(class, t.String())
}

// band fills between the lows and the highs of a series.
func (c *timeChart) band(series []mark, on axis) {
	if len(series) < 2 {
		return
	}
	var t trace
	for i, m := range series {
		if i == 0 {
			t.move(c.time.at(m.t), on.at(m.high))
			continue
		}
		t.line(c.time.at(m.t), on.at(m.high))
	}
	for i := len(series) - 1; i >= 0; i-- {
		t.line(c.time.at(series[i].t), on.at(series[i].low))
	}
	c.path("band", t.String()+"Z")
}

// dots draws a series as readings, each with its interval.
func (c *timeChart) dots(series []mark, on axis) {
	var whiskers trace
	for _, m := range series {
		if m.high > m.low {
			cut := on.whisker(&whiskers, c.time.at(m.t), m.low, m.high)
			c.cut = c.cut || cut
		}
	}
	c.path("whisker", whiskers.String())
	c.group("dot")
	for _, m := range series {
		c.circle("", c.time.at(m.t), on.at(m.v), dotRadius)
	}
	c.endGroup()
}

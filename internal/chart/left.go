package chart

import (
	"cmp"
	"fmt"
	"html/template"
	"strings"
	"time"
)

// LeftInput is what Left draws.
type LeftInput struct {
	Frame
	Left   []Point   // pints left from each moment on; need not be sorted; PlusMinus is not drawn
	Pints  string    // what they are called where not pints: US pints
	Until  time.Time // the last count still holds at this moment; zero ends the line at the last point
	Events []Event   // broached, the party, drink by; the axis of time reaches all of them
	Said   string    // a few words that stand out: "11 pints left"
	Zone   *time.Location
}

const mostSteps = 200

// Left draws the pints left over time, as steps, on an axis that begins at
// zero. Without a usable point the result is empty.
func Left(in LeftInput) template.HTML {
	steps := thinned(marks(in.Left), mostSteps)
	if len(steps) == 0 {
		return ""
	}
	if last := steps[len(steps)-1]; dated(in.Until) && seconds(in.Until) > last.t {
		last.t = seconds(in.Until)
		steps = append(steps, last)
	}
	var times, pints span
	pints.take(0)
	for _, m := range steps {
		times.take(m.t)
		pints.take(m.v)
	}
	pints.stretch(2)
	pints.lo = min(pints.lo, 0)
	a := pints.ruled(0, 0, 6, 1)
	called := cmp.Or(in.Pints, "pints")
	title := strings.ToUpper(called[:1]) + called[1:] + " left"
	c := newTimeChart(in.Frame, times, surroundings{in.Said, in.Events, in.Zone}, panel{axis: a})
	ruled := c.open(panel{title, a, a.decimals, min(max(0.34*in.width(), 120), 200)}, true)
	c.steps(steps, ruled.axis)
	height := c.close(nil)
	first, last := steps[0], steps[len(steps)-1]
	desc := fmt.Sprintf("%s %s on %s, %s on %s.", spoken(first.v, 0), called, c.time.says(first.t), spoken(last.v, 0), c.time.says(last.t))
	return in.hang(sheet{name: "left", title: title, desc: desc + eventWords(in.Events, c.time), height: height}, &c.pen)
}

// steps draws a series that holds each value until the next point.
func (c *timeChart) steps(series []mark, on axis) {
	if len(series) == 1 {
		c.curve("line", series, on)
		return
	}
	var t trace
	t.move(c.time.at(series[0].t), on.at(series[0].v))
	for _, m := range series[1:] {
		t.across(c.time.at(m.t))
		t.down(on.at(m.v))
	}
	c.path("line", t.String())
}

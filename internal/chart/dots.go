package chart

import (
	"fmt"
	"html"
	"html/template"
	"math"
	"slices"
	"strconv"
)

// Result is one figure of one gyle, with its half-width (zero where none is known).
type Result struct {
	Gyle             int
	Value, PlusMinus float64
	Href             string // where its dot leads, "" for nowhere
}

// DotsInput is what Dots draws, in one unit throughout.
type DotsInput struct {
	Frame
	Name      string   // of the figure, with its unit: "Apparent attenuation, %"
	Results   []Result // in the order to be shown; beyond 120, the last 120
	Low, High float64  // a range to stand behind the dots; none where High is not above Low
	Range     string   // what it is: "the card's range"
	Median    float64  // a line; none where it is zero or not a number
}

const (
	mostDots = 120
	// hitRadius is how near to a dot a finger may come.
	hitRadius = 9.0
)

// Dots draws a dot with its interval for each gyle, side by side, labelled by
// its number. Results that are not numbers are left out; without any, the
// result is empty.
func Dots(in DotsInput) template.HTML {
	broken := func(r Result) bool { return !usable(r.Value) }
	all := slices.DeleteFunc(slices.Clone(in.Results), broken)
	if len(all) == 0 {
		return ""
	}
	d := dots{in: in, all: all[max(0, len(all)-mostDots):], cut: max(0, len(all)-mostDots)}
	height := d.draw()
	name := oneLine(in.Name)
	if name == "" {
		name = "Results by gyle"
	}
	return in.hang(sheet{name: "dots", title: name, desc: d.describe(), height: height, linked: d.linked}, &d.pen)
}

// dots is a DotsInput being drawn.
type dots struct {
	pen
	in   DotsInput
	all  []Result
	cut  int // results not shown
	axis axis

	linked, goesOn bool // some dot leads somewhere; some interval is longer than the axis
}

func (d *dots) hasRange() bool {
	return usable(d.in.Low) && usable(d.in.High) && d.in.High > d.in.Low
}

func (d *dots) hasMedian() bool { return usable(d.in.Median) && d.in.Median != 0 }

func (d *dots) draw() (height float64) {
	width, top := d.in.width(), margin
	if name := shorten(d.in.Name, width-2*margin); name != "" {
		d.text("", margin, top+ascent, begin, name)
		top += lineHeight
	}
	top += 8
	foot := top + min(max(0.34*width, 120), 200)
	d.axis = d.rule(top, foot)
	left := leastLeft
	for _, v := range d.axis.ticks() {
		left = max(left, breadth(spoken(v, d.axis.decimals))+margin+5)
	}
	right := width - rightRoom
	d.grid(left, right)
	d.behind(left, right)
	d.spread(left, right)
	d.number(left, right, foot+6+ascent)
	end := legend(&d.pen, d.key(), margin, width-margin, foot+6+lineHeight+4)
	if d.goesOn {
		d.text("", margin, end+ascent, begin, goesOn)
		end += lineHeight
	}
	return end + margin
}

// rule finds the axis: over all results, the range and the median, and over
// intervals by no more than the height of these.
func (d *dots) rule(top, foot float64) axis {
	var s span
	for _, r := range d.all {
		s.take(r.Value)
	}
	if d.hasRange() {
		s.take(d.in.Low, d.in.High)
	}
	if d.hasMedian() {
		s.take(d.in.Median)
	}
	s.stretch(max(1e-3, 0.02*max(math.Abs(s.lo), math.Abs(s.hi))))
	limit, grown := s, s
	for _, r := range d.all {
		pm := halfWidth(r.PlusMinus)
		one := limit
		one.reach(r.Value-pm, limit.hi-limit.lo)
		one.reach(r.Value+pm, limit.hi-limit.lo)
		grown.take(one.lo, one.hi)
	}
	return grown.ruled(foot, top, 6, 0)
}

func (d *dots) grid(left, right float64) {
	var t trace
	for _, v := range d.axis.ticks() {
		t.level(d.axis.at(v), left, right)
		d.text("", left-5, d.axis.at(v)+4, end, spoken(v, d.axis.decimals))
	}
	d.path("grid", t.String())
}

// behind draws the range and the median.
func (d *dots) behind(left, right float64) {
	if d.hasRange() {
		y := d.axis.at(d.in.High)
		d.rect("band", left, y, right-left, d.axis.at(d.in.Low)-y)
	}
	if d.hasMedian() {
		var t trace
		t.level(d.axis.at(d.in.Median), left, right)
		d.path("median", t.String())
	}
}

// place is where the dot of the nth result stands.
func (d *dots) place(n int, left, right float64) float64 {
	share := (right - left) / float64(len(d.all))
	return left + share*(float64(n)+0.5)
}

func (d *dots) spread(left, right float64) {
	var whiskers trace
	for n, r := range d.all {
		if pm := halfWidth(r.PlusMinus); pm > 0 {
			cut := d.axis.whisker(&whiskers, d.place(n, left, right), r.Value-pm, r.Value+pm)
			d.goesOn = d.goesOn || cut
		}
	}
	d.path("whisker", whiskers.String())
	d.group("dot")
	for n, r := range d.all {
		d.dot(r, d.place(n, left, right))
	}
	d.endGroup()
}

// dot is one result. Where it leads somewhere, it says which it is, and there is room
// for a finger around it.
func (d *dots) dot(r Result, x float64) {
	y := d.axis.at(r.Value)
	if !safe(r.Href) {
		d.circle("", x, y, dotRadius)
		return
	}
	d.linked = true
	says := fmt.Sprintf("Gyle %d: %s", r.Gyle, d.says(r.Value))
	if pm := halfWidth(r.PlusMinus); pm > 0 {
		says += "\u00a0±\u00a0" + d.says(pm)
	}
	d.add(`<a href="`, html.EscapeString(r.Href), `" aria-label="`, says, `"><title>`, says, `</title>`)
	d.circle("hit", x, y, hitRadius)
	d.circle("", x, y, dotRadius)
	d.endLink()
}

// number sets the gyle numbers, the last for certain, and of the rest, from
// the right, each that has room.
func (d *dots) number(left, right, y float64) {
	free := d.in.width() - margin
	for n := len(d.all) - 1; n >= 0; n-- {
		label := strconv.Itoa(d.all[n].Gyle)
		half := breadth(label) / 2
		x := min(d.place(n, left, right), d.in.width()-margin-half)
		if x+half > free || x-half < margin {
			continue
		}
		d.text("", x, y, middle, label)
		free = x - half - 6
	}
}

func (d *dots) key() []sample {
	key := []sample{{"dot", "a gyle"}}
	if d.hasMedian() {
		key = append(key, sample{"median", "median " + d.says(d.in.Median)})
	}
	if d.hasRange() {
		name := d.in.Range
		if name == "" {
			name = "expected"
		}
		key = append(key, sample{"band", name})
	}
	if d.cut > 0 {
		key[0].words = fmt.Sprintf("a gyle, the last %d of %d", len(d.all), len(d.all)+d.cut)
	}
	return key
}

// says prints a value one decimal finer than the ticks.
func (d *dots) says(v float64) string { return spoken(v, min(d.axis.decimals+1, 6)) }

func (d *dots) describe() string {
	var s span
	for _, r := range d.all {
		s.take(r.Value)
	}
	said := fmt.Sprintf("Gyle %d: %s.", d.all[0].Gyle, d.says(d.all[0].Value))
	if len(d.all) > 1 {
		said = fmt.Sprintf("%d gyles, from %s to %s; the last, gyle %d, %s.", len(d.all), d.says(s.lo), d.says(s.hi),
			d.all[len(d.all)-1].Gyle, d.says(d.all[len(d.all)-1].Value))
	}
	if d.hasMedian() {
		said += " The median is " + d.says(d.in.Median) + "."
	}
	if d.hasRange() {
		said += fmt.Sprintf(" The range behind them is %s to %s.", d.says(d.in.Low), d.says(d.in.High))
	}
	return said
}

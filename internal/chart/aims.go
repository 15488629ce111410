package chart

import (
	"fmt"
	"html/template"
	"math"
)

// Aim is one figure that was aimed at and what came of it, in one unit.
type Aim struct {
	Frame
	Name                string // "Original gravity"
	Aim, Got, PlusMinus float64
	AimWords, GotWords  string // the numbers as the page prints them; empty prints two decimals
}

const (
	// aimReach is how many half-widths lie between the aim and the end of a
	// row. With four, the question that matters (does the interval hold the
	// aim?) is answered near the middle, and a miss by far shows as one.
	aimReach = 4.0
	// aimShare is the reach of a row without an interval, as a share of its aim.
	aimShare = 0.1
	// aimHeight is that of a row, its line running through the middle.
	aimHeight = 28.0
)

// Interval draws one row of a table: the aim in the middle, the result as a dot with
// its interval to the left of it (less) or to the right (more). Each row has its own
// scale, four half-widths to either side, so that the intervals look alike and the
// distances compare: an interval that crosses the middle means that the readings
// cannot tell the result from the aim. Without an interval the row reaches a tenth of
// the aim, or as far as the result lies. A result beyond the end stands at the end, as
// an arrowhead.
//
// It is empty where the aim or the result is not a number.
func Interval(a Aim) template.HTML {
	if !usable(a.Aim) || !usable(a.Got) {
		return ""
	}
	var p pen
	var line, mark trace
	width, track := a.width(), aimHeight/2
	line.level(track, margin, width-margin)
	p.path("grid", line.String())
	mark.upright(width/2, track-11, track+11)
	p.path("aim", mark.String())
	a.place(&p, width, track)
	return a.hang(sheet{name: "interval", title: orElse(a.Name, "Figure"), desc: a.says() + ".", height: aimHeight}, &p)
}

func (a Aim) place(p *pen, width, track float64) {
	pm, off := halfWidth(a.PlusMinus), a.Got-a.Aim
	reach := aimReach * pm
	if pm == 0 {
		reach = max(aimShare*math.Abs(a.Aim), math.Abs(off), math.SmallestNonzeroFloat32)
	}
	s := scale{-reach, reach, margin + 5, width - margin - 5}
	if math.Abs(off) > reach {
		arrowhead(p, s.at(off), track, math.Copysign(1, off))
		return
	}
	if pm > 0 {
		var t trace
		from, to := s.at(off-pm), s.at(off+pm)
		t.level(track, from, to)
		t.upright(from, track-7, track+7)
		t.upright(to, track-7, track+7)
		p.path("whisker", t.String())
	}
	p.circle("dot", s.at(off), track, dotRadius+3)
	p.add("\n")
}

// arrowhead points to where a result lies that the row does not reach.
func arrowhead(p *pen, x, y, side float64) {
	var t trace
	t.move(x+4*side, y)
	t.line(x-10*side, y-8)
	t.line(x-10*side, y+8)
	p.path("dot", t.String()+"Z")
}

// written are the numbers in words.
func (a Aim) written() (aim, got string) {
	aim, got = oneLine(a.AimWords), oneLine(a.GotWords)
	if aim == "" {
		aim = spoken(a.Aim, 2)
	}
	if got == "" {
		got = spoken(a.Got, 2)
		if pm := halfWidth(a.PlusMinus); pm > 0 {
			got += " ± " + spoken(pm, 2)
		}
	}
	return aim, got
}

func (a Aim) says() string {
	aim, got := a.written()
	return fmt.Sprintf("Aim %s, got %s", aim, got)
}

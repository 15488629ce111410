package chart

import (
	"fmt"
	"html/template"
	"math"
)

// Aim is one figure that was aimed at and what came of it, in one unit.
type Aim struct {
	Name                string // "Original gravity"
	Aim, Got, PlusMinus float64
	AimWords, GotWords  string // the numbers as the page prints them; empty prints two decimals
}

// AimsInput is what Aims draws.
type AimsInput struct {
	Frame
	Aims []Aim // in the order to be shown; beyond 24, the first 24
}

const (
	mostAims = 24
	// aimReach is how many half-widths lie between the aim and the end of a
	// row. With four, the question that matters (does the interval hold the
	// aim?) is answered near the middle, and a miss by far shows as one.
	aimReach = 4.0
	// aimShare is the reach of a row without an interval, as a share of its aim.
	aimShare = 0.1
)

// Aims draws one row a figure: the aim in the middle, the result as a dot with
// its interval to the left of it (less) or to the right (more). Each row has
// its own scale, four half-widths to either side, so that the intervals look
// alike and the distances compare: an interval that crosses the middle means
// that the readings cannot tell the result from the aim. Without an interval
// the row reaches a tenth of the aim, or as far as the result lies. A result
// beyond the end stands at the end, as an arrowhead.
//
// Rows whose aim or result is not a number are left out; without any, the
// result is empty.
func Aims(in AimsInput) template.HTML {
	var p pen
	y := margin + lineHeight + 6
	var said []string
	for _, a := range in.Aims {
		if !usable(a.Aim) || !usable(a.Got) || len(said) == mostAims {
			continue
		}
		y = a.draw(&p, in.width(), y)
		said = append(said, a.says())
	}
	if len(said) == 0 {
		return ""
	}
	width := in.width()
	p.text("", margin, margin+ascent, begin, "less")
	p.text("", width/2, margin+ascent, middle, "as aimed")
	p.text("", width-margin, margin+ascent, end, "more")
	return in.hang(sheet{name: "aims", title: "Aims and results", desc: listed(said) + ".", height: y}, &p)
}

func (a Aim) draw(p *pen, width, y float64) (next float64) {
	aim, got := a.written()
	got = shortenStrong(got, width/2)
	p.text("strong", width-margin, y+ascent, end, got)
	p.text("", margin, y+ascent, begin, shorten(orElse(a.Name, "Figure")+", aim "+aim, width-2*margin-breadthStrong(got)-8))
	track := y + lineHeight + 9
	var line, mark trace
	line.level(track, margin, width-margin)
	p.path("grid", line.String())
	mark.upright(width/2, track-7, track+7)
	p.path("aim", mark.String())
	a.place(p, width, track)
	return track + 16
}

// place sets the dot and its interval on the row.
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
		t.upright(from, track-4, track+4)
		t.upright(to, track-4, track+4)
		p.path("whisker", t.String())
	}
	p.circle("dot", s.at(off), track, dotRadius+0.5)
	p.add("\n")
}

// arrowhead points to where a result lies that the row does not reach.
func arrowhead(p *pen, x, y, side float64) {
	var t trace
	t.move(x+4*side, y)
	t.line(x-5*side, y-5)
	t.line(x-5*side, y+5)
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
	return fmt.Sprintf("%s: aim %s, got %s", orElse(a.Name, "Figure"), aim, got)
}

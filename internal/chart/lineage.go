package chart

import (
	"fmt"
	"html/template"
	"strconv"
)

// Gyle is one gyle of a Lineage.
type Gyle struct {
	Number  int
	Name    string
	Href    string // its page: a relative address, or one of the web; others are dropped
	Follows []int  // the gyles that it revises or was drawn from; beyond four, the first four that are here
	Here    bool   // the chart stands on its own page, so it is marked and not a link
}

// LineageInput is what Lineage draws.
type LineageInput struct {
	Frame
	Gyles []Gyle // in the order of brewing; beyond 60, the last 60
}

const (
	mostGyles   = 60
	mostParents = 4
	gyleHeight  = 26.0
	laneWidth   = 18.0
	mostLeft    = 120.0 // of the lanes together; more lanes stand closer
)

// Lineage draws gyles one below another, each with its number and name, and
// beside them the lines of descent. It takes a single line of revisions,
// branches, and blends of several; numbers that are not there are passed over
// and circles broken. Without a gyle the result is empty.
func Lineage(in LineageInput) template.HTML {
	gyles := in.Gyles[max(0, len(in.Gyles)-mostGyles):]
	if len(gyles) == 0 {
		return ""
	}
	f := familyOf(gyles)
	rows, count := f.place()
	l := lineage{gyles: gyles, rows: rows, gap: min(laneWidth, mostLeft/float64(max(count, 1))), width: in.width()}
	l.top = margin
	if cut := len(in.Gyles) - len(gyles); cut > 0 {
		l.text("", margin, l.top+ascent, begin, fmt.Sprintf("%d earlier gyles are not shown", cut))
		l.top += lineHeight + 4
	}
	for row := range rows {
		l.descents(row)
	}
	for row := range rows {
		l.gyle(row, margin+float64(count)*l.gap+8)
	}
	height := l.top + float64(len(rows))*gyleHeight
	return in.hang(sheet{name: "lineage", title: "Lineage", desc: f.describe(gyles), height: height, linked: l.linked}, &l.pen)
}

// lineage is a LineageInput being drawn.
type lineage struct {
	pen
	gyles           []Gyle
	rows            []placed
	gap, width, top float64
	linked          bool
}

func (l *lineage) x(lane int) float64 { return margin + 6 + float64(lane)*l.gap }
func (l *lineage) y(row int) float64  { return l.top + (float64(row)+0.5)*gyleHeight }

// descents draws the lines that come to a row: out of the parent's lane within
// the row below it, straight down, and into the gyle's own lane at the end.
func (l *lineage) descents(row int) {
	here := l.rows[row]
	for _, d := range here.incoming {
		var t trace
		from, by, to := l.x(l.rows[d.row].lane), l.x(d.lane), l.x(here.lane)
		t.move(from, l.y(d.row))
		if d.row == row-1 {
			by = from
		} else if by != from {
			bend(&t, from, by, l.y(d.row), l.y(d.row+1))
		}
		if by != to {
			t.down(l.y(row - 1))
			bend(&t, by, to, l.y(row-1), l.y(row))
		} else {
			t.down(l.y(row))
		}
		l.path("edge", t.String())
	}
}

// bend is a curve from one lane to another that leaves and arrives upright.
func bend(t *trace, from, to, top, foot float64) {
	half := (top + foot) / 2
	t.to('C', from, half)
	t.to(' ', to, half)
	t.to(' ', to, foot)
}

func (l *lineage) gyle(row int, left float64) {
	g := l.gyles[l.rows[row].gyle]
	x, y := l.x(l.rows[row].lane), l.y(row)
	if g.Here {
		l.circle("here", x, y, dotRadius+1.5)
	} else {
		l.circle("dot", x, y, dotRadius+0.5)
	}
	l.add("\n")
	words := shortenStrong(strconv.Itoa(g.Number)+" "+g.Name, l.width-margin-left)
	if words == "" {
		return
	}
	if g.Here || !safe(g.Href) {
		l.text("strong", left, y+4, begin, words)
		return
	}
	l.linked = true
	l.link(g.Href)
	l.text("strong", left, y+4, begin, words)
	l.endLink()
}

// describe tells the lineage in the order that it is drawn.
func (f family) describe(gyles []Gyle) string {
	var said []string
	for _, i := range f.order {
		words := "gyle " + strconv.Itoa(gyles[i].Number)
		if name := oneLine(gyles[i].Name); name != "" {
			words += " " + name
		}
		var parents []string
		for _, parent := range f.parents[i] {
			parents = append(parents, strconv.Itoa(gyles[parent].Number))
		}
		if len(parents) > 0 {
			words += " follows " + listed(parents)
		}
		said = append(said, words)
	}
	return "In order: " + listed(said) + "."
}

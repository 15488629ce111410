package chart

// sample is one entry of a chart's key: a little of the drawing, and what it is.
type sample struct {
	class string // dot, band, or a line's class
	words string
}

const sampleWidth = 22.0

// legend sets samples side by side from the top y, as many lines as they need,
// and returns where the next thing may begin.
func legend(p *pen, samples []sample, left, right, y float64) float64 {
	if len(samples) == 0 {
		return y
	}
	x := left
	for _, s := range samples {
		s.words = shorten(s.words, right-left-sampleWidth-6)
		need := sampleWidth + 6 + breadth(s.words)
		if x > left && x+need > right {
			x, y = left, y+lineHeight
		}
		s.draw(p, x, y+ascent-4)
		p.text("", x+sampleWidth+4, y+ascent, begin, s.words)
		x += need + 10
	}
	return y + lineHeight
}

func (s sample) draw(p *pen, x, y float64) {
	switch s.class {
	case "dot":
		var t trace
		t.upright(x+sampleWidth/2, y-6, y+6)
		p.path("whisker", t.String())
		p.circle("dot", x+sampleWidth/2, y, dotRadius)
		p.add("\n")
	case "band", "part1", "part2", "part3", "vented":
		p.rect(s.class, x+4, y-5, sampleWidth-8, 10)
	default:
		var t trace
		t.level(y, x, x+sampleWidth)
		p.path(s.class, t.String())
	}
}

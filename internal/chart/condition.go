package chart

import (
	"fmt"
	"html/template"
	"strings"
)

// ConditionInput is what Condition draws: volumes of carbon dioxide (at 0 °C
// and 101.325 kPa) per volume of beer. A part that is zero, negative or not a
// number is left out; so are Aim and Takes.
type ConditionInput struct {
	Frame
	Residual, Priming, ToCome float64 // left from fermentation, from sugar, from gravity still to fall
	Vented                    float64 // let out again, taken off the sum
	PlusMinus                 float64 // half-width of the total
	Aim                       float64
	Takes                     float64 // the most that the container takes

	// What the parts say of themselves after their volumes; empty takes plain words.
	ResidualWords, PrimingWords, ToComeWords, VentedWords string
}

const (
	barHeight = 24.0
	partGap   = 1.0 // tells neighbouring parts apart where their colours are alike
	// takesReach bounds how far a container's limit stretches the scale, as a
	// multiple of all else; a limit beyond stands at the end with an arrow.
	takesReach = 2.0
)

// gas is one part of the bar.
type gas struct {
	class, words string
	volumes      float64
}

// Condition draws where the condition comes from: a bar of what is left from
// fermentation, what priming gives and what is still to come, the total with
// its interval below it, and above it the marks of the aim and of what the
// container takes. Without any part the result is empty.
func Condition(in ConditionInput) template.HTML {
	c := condition{in: in, parts: in.parts()}
	for _, part := range c.parts {
		c.sum += part.volumes
	}
	if c.sum == 0 {
		return ""
	}
	c.vented = min(positive(in.Vented), c.sum)
	height := c.draw()
	return in.hang(sheet{name: "condition", title: "Where the condition comes from", desc: c.describe(), height: height}, &c.pen)
}

func (in ConditionInput) parts() []gas {
	var parts []gas
	for _, part := range []gas{
		{"part1", orElse(in.ResidualWords, "left from fermentation"), positive(in.Residual)},
		{"part2", orElse(in.PrimingWords, "from priming"), positive(in.Priming)},
		{"part3", orElse(in.ToComeWords, "still to come"), positive(in.ToCome)},
	} {
		if part.volumes > 0 {
			parts = append(parts, part)
		}
	}
	return parts
}

// positive is a value or zero: less than a thousandth of a volume cannot be
// seen, and more than a thousand does not exist.
func positive(v float64) float64 {
	if !usable(v) || v < 0.001 || v > 1000 {
		return 0
	}
	return v
}

func orElse(words, plain string) string {
	if words = oneLine(words); words != "" {
		return words
	}
	return plain
}

// condition is a ConditionInput being drawn.
type condition struct {
	pen
	in          ConditionInput
	parts       []gas
	sum, vented float64
}

func (c *condition) total() float64 { return c.sum - c.vented }

// says is the total in words.
func (c *condition) says() string {
	if pm := halfWidth(c.in.PlusMinus); pm > 0 {
		return fmt.Sprintf("%s ± %s vol", spoken(c.total(), 2), spoken(pm, 2))
	}
	return spoken(c.total(), 2) + " vol"
}

func (c *condition) draw() (height float64) {
	width := c.in.width()
	a := c.rule(margin+6, width-margin-12)
	c.text("strong", margin, margin+ascent, begin, shortenStrong(c.says(), width-2*margin))
	top := margin + lineHeight + 4
	flags, lanes, _ := hoist(c.flags(a), margin, width-margin)
	bar := top + float64(lanes)*laneHeight + 6
	c.bar(a, bar)
	c.marks(a, flags, top, bar+barHeight+4)
	c.interval(a, bar+barHeight+11)
	foot := c.scale(a, bar+barHeight+20)
	for _, s := range c.key() {
		foot = legend(&c.pen, []sample{s}, margin, width-margin, foot)
	}
	return foot + margin
}

func (c *condition) rule(from, to float64) axis {
	s := span{some: true}
	s.take(c.sum, min(c.total()+halfWidth(c.in.PlusMinus), 2*c.sum), positive(c.in.Aim))
	s.take(min(positive(c.in.Takes), takesReach*s.hi))
	return s.ruled(from, to, 6, 0.001)
}

// flags are the aim and the limit, hung on the scale.
func (c *condition) flags(a axis) []pennant {
	var all []pennant
	if v := positive(c.in.Aim); v > 0 {
		all = append(all, pennant{x: a.at(v), words: "aim " + spoken(v, 2)})
	}
	if v := positive(c.in.Takes); v > 0 {
		words := "takes " + spoken(v, 2)
		if v > a.hi {
			words += " →"
		}
		all = append(all, pennant{x: a.at(v), words: words})
	}
	return all
}

func (c *condition) bar(a axis, y float64) {
	sum := 0.0
	for _, part := range c.parts {
		x := a.at(sum)
		sum += part.volumes
		c.rect(part.class, x, y, max(a.at(sum)-x-partGap, partGap), barHeight)
	}
	if c.vented > 0 {
		x := a.at(c.total())
		c.rect("vented", x, y, a.at(c.sum)-x, barHeight)
	}
}

// marks draws the aim and the limit, each from its own label's lane down.
// Where both stand in one place they share a label, and both are drawn.
func (c *condition) marks(a axis, flags []pennant, top, foot float64) {
	for _, m := range []struct {
		class string
		v     float64
	}{{"takes", positive(c.in.Takes)}, {"aim", positive(c.in.Aim)}} {
		if m.v == 0 {
			continue
		}
		x := a.at(m.v)
		lane := 0
		for _, f := range flags {
			if x >= f.x && x-f.x <= 2 {
				lane = f.lane
			}
		}
		var t trace
		t.upright(x, top+float64(lane)*laneHeight+2, foot)
		c.path(m.class, t.String())
	}
	for _, f := range flags {
		f.set(&c.pen, top)
	}
}

// interval draws the total with its whisker, below the bar, where nothing
// stands behind it.
func (c *condition) interval(a axis, y float64) {
	total, pm := c.total(), halfWidth(c.in.PlusMinus)
	if pm > 0 {
		var t trace
		from, to := a.at(total-pm), a.at(total+pm)
		t.level(y, from, to)
		t.upright(from, y-4, y+4)
		t.upright(to, y-4, y+4)
		c.path("whisker", t.String())
	}
	c.circle("dot", a.at(total), y, dotRadius)
	c.add("\n")
}

// scale draws the axis of volumes below the bar.
func (c *condition) scale(a axis, y float64) (next float64) {
	var base, t trace
	base.level(y, a.from, a.to)
	free := margin
	for _, v := range a.ticks() {
		x, label := a.at(v), spoken(v, a.decimals)
		t.upright(x, y, y+4)
		half := breadth(label) / 2
		at := min(max(x, margin+half), c.in.width()-margin-half)
		if at-half >= free {
			c.text("", at, y+6+ascent, middle, label)
			free = at + half + 6
		}
	}
	c.path("axis", base.String())
	c.path("grid", t.String())
	return y + 6 + lineHeight + 4
}

func (c *condition) key() []sample {
	var key []sample
	for _, part := range c.parts {
		key = append(key, sample{part.class, spoken(part.volumes, 2) + " " + part.words})
	}
	if c.vented > 0 {
		key = append(key, sample{"vented", spoken(c.vented, 2) + " " + orElse(c.in.VentedWords, "let out again")})
	}
	return key
}

func (c *condition) describe() string {
	var parts []string
	for _, s := range c.key() {
		parts = append(parts, s.words)
	}
	var b strings.Builder
	b.WriteString(listed(parts) + " make " + c.says())
	if v := positive(c.in.Aim); v > 0 {
		b.WriteString("; the aim is " + spoken(v, 2))
	}
	if v := positive(c.in.Takes); v > 0 {
		b.WriteString("; the container takes " + spoken(v, 2))
	}
	return b.String() + "."
}

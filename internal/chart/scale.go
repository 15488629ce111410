package chart

import "math"

// usable tells a number that can be drawn; NaN compares with nothing. The bound keeps sums and
// differences of such numbers exact enough to place; no figure of the trade
// comes near it.
func usable(v float64) bool { return math.Abs(v) <= 1e9 }

// halfWidth is an interval as drawn: none where it is not a positive number.
func halfWidth(v float64) float64 {
	if !usable(v) || v < 0 {
		return 0
	}
	return v
}

// scale carries values from lo…hi to coordinates from…to.
type scale struct{ lo, hi, from, to float64 }

// at is the coordinate of a value, never outside from…to.
func (s scale) at(v float64) float64 {
	share := min(max((v-s.lo)/(s.hi-s.lo), 0), 1)
	return s.from + share*(s.to-s.from)
}

// span gathers the range of values.
type span struct {
	lo, hi float64
	some   bool
}

func (s *span) take(values ...float64) {
	for _, v := range values {
		if !s.some {
			s.lo, s.hi, s.some = v, v, true
			continue
		}
		s.lo, s.hi = min(s.lo, v), max(s.hi, v)
	}
}

// stretch makes room: no span is narrower than least, nor so narrow against
// its values that floating point could not tell its ticks apart.
func (s *span) stretch(least float64) {
	least = max(least, 1e-6*max(math.Abs(s.lo), math.Abs(s.hi)))
	if short := least - (s.hi - s.lo); short > 0 {
		s.lo, s.hi = s.lo-short/2, s.hi+short/2
	}
}

// reach lets the span grow to v, but by no more than limit.
func (s *span) reach(v, limit float64) {
	s.lo = min(s.lo, max(v, s.lo-limit))
	s.hi = max(s.hi, min(v, s.hi+limit))
}

// axis is a scale with its ticks.
type axis struct {
	scale
	step     float64
	decimals int
}

// goesOn is what an arrow at the end of an interval means.
const goesOn = "An arrow: the interval goes on."

// whisker adds an interval to a trace. Where the axis ends before it, an arrow says
// that it goes on, so that no doubt looks smaller than it is.
func (a axis) whisker(t *trace, x, low, high float64) (cut bool) {
	t.upright(x, a.at(high), a.at(low))
	tip := func(y, back float64) {
		t.move(x-3, y+back)
		t.line(x, y)
		t.line(x+3, y+back)
		cut = true
	}
	if high > a.hi {
		tip(a.at(a.hi), 5)
	}
	if low < a.lo {
		tip(a.at(a.lo), -5)
	}
	return cut
}

// ruled makes an axis whose ends are ticks and which has no more than about
// most ticks, no closer than least.
func (s span) ruled(from, to float64, most int, least float64) axis {
	step := niceStep((s.hi-s.lo)/float64(max(most-1, 1)), least)
	a := axis{step: step, decimals: decimals(step)}
	a.scale = scale{math.Floor(s.lo/step+1e-9) * step, math.Ceil(s.hi/step-1e-9) * step, from, to}
	if a.hi <= a.lo {
		a.hi = a.lo + step
	}
	return a
}

// ticks are the values at which the axis is marked, upward.
func (a axis) ticks() []float64 {
	var all []float64
	count := int(math.Round((a.hi - a.lo) / a.step))
	for i := range count + 1 {
		all = append(all, a.lo+float64(i)*a.step)
	}
	return all
}

// niceStep is the least of 1, 2 and 5 times a power of ten that is at least
// rough and at least least.
func niceStep(rough, least float64) float64 {
	rough = max(rough, least)
	base := math.Pow(10, math.Floor(math.Log10(rough)+1e-9))
	for _, times := range []float64{1, 2, 5} {
		if times*base >= rough*(1-1e-9) {
			return times * base
		}
	}
	return 10 * base
}

// decimals is how many of them tell neighbouring ticks apart.
func decimals(step float64) int {
	return max(0, int(math.Ceil(-math.Log10(step)-1e-9)))
}

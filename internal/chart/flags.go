package chart

import (
	"cmp"
	"slices"
	"strconv"
	"time"
)

// Event is a moment marked on the axis of time: pitched, roused, racked.
type Event struct {
	At    time.Time
	Label string
}

// pennant is a label hoisted on an upright line: to the right of it, or to the
// left. Lane 0 is the highest; a flag without words has only its line.
type pennant struct {
	x     float64
	words string
	left  bool
	lane  int
}

const (
	laneHeight = 14.0
	mostLanes  = 6
	flagGap    = 4.0 // between a line and its label
	mostEvents = 60
)

// reach is how far a flag's words lie to its side.
func (f pennant) reach() float64 { return flagGap + breadth(f.words) }

// cover is the stretch that a flag's words and line need, with some air.
func (f pennant) cover() (from, to float64) {
	if f.left {
		return f.x - f.reach() - flagGap, f.x + flagGap
	}
	return f.x - flagGap, f.x + f.reach() + flagGap
}

// holds tells whether x lies within a flag's words.
func (f pennant) holds(x float64) bool {
	from, to := f.cover()
	return f.words != "" && from < x && x < to
}

// hoist places flags so that no label lies on another, is crossed by another's
// line, or passes from…to. Flags come back from left to right, with the number
// of lanes and of those that lost their words for want of room.
//
// Labels stand to the right of their lines where they can, else to the left.
// A flag whose line comes up among another's words must hang below it, since
// lines run only downward. Where these demands run in a circle, the rightmost
// flag in it changes sides, or if it cannot, the longest loses its words.
func hoist(flags []pennant, from, to float64) (placed []pennant, lanes, unnamed int) {
	placed = gather(flags, 0.45*(to-from))
	silent := wordless(placed)
	for i := range placed {
		f := &placed[i]
		f.left = f.x+f.reach() > to
	}
	order, stuck := descending(placed)
	for len(stuck) > 0 {
		release(placed, stuck, from)
		order, stuck = descending(placed)
	}
	for n, i := range order {
		placed[i].lane = lane(placed, order[:n], i)
	}
	for i := range placed {
		if placed[i].lane >= mostLanes {
			placed[i].words = ""
		}
		if placed[i].words != "" {
			lanes = max(lanes, placed[i].lane+1)
		}
	}
	for i := range placed {
		if placed[i].words == "" {
			placed[i].lane = lanes
		}
	}
	return placed, lanes, wordless(placed) - silent
}

// descending puts flags in an order in which each comes after all that must
// hang above it. Those that no such order holds are stuck.
func descending(flags []pennant) (order, stuck []int) {
	for i := range flags {
		stuck = append(stuck, i)
	}
	for {
		free := slices.IndexFunc(stuck, func(i int) bool {
			return !slices.ContainsFunc(stuck, func(other int) bool { return other != i && flags[other].holds(flags[i].x) })
		})
		if free < 0 {
			return order, stuck
		}
		order = append(order, stuck[free])
		stuck = slices.Delete(stuck, free, free+1)
	}
}

// release loosens a circle of flags. Each flag turns once at most and loses
// its words once at most, so that the circles come to an end.
func release(flags []pennant, stuck []int, from float64) {
	longest := stuck[0]
	for _, i := range slices.Backward(stuck) {
		f := &flags[i]
		if !f.left && f.x-f.reach() >= from {
			f.left = true
			return
		}
		if f.reach() > flags[longest].reach() {
			longest = i
		}
	}
	flags[longest].words = ""
}

// lane is the highest free lane for a flag, below all that must hang above it.
func lane(flags []pennant, above []int, i int) int {
	least, taken := 0, map[int]bool{}
	from, to := flags[i].cover()
	for _, other := range above {
		o := flags[other]
		if o.holds(flags[i].x) {
			least = max(least, o.lane+1)
		}
		if a, b := o.cover(); o.words != "" && a < to && b > from {
			taken[o.lane] = true
		}
	}
	for taken[least] {
		least++
	}
	return least
}

func wordless(flags []pennant) (count int) {
	for _, f := range flags {
		if f.words == "" {
			count++
		}
	}
	return count
}

// gather sorts flags and joins those that stand in one place.
func gather(flags []pennant, most float64) []pennant {
	flags = slices.Clone(flags)
	slices.SortStableFunc(flags, func(a, b pennant) int { return cmp.Compare(a.x, b.x) })
	var apart []pennant
	for _, f := range flags {
		last := len(apart) - 1
		if last < 0 || f.x-apart[last].x > 2 {
			apart = append(apart, f)
			continue
		}
		if was := &apart[last]; f.words != "" && was.words != "" && f.words != was.words {
			was.words += ", " + f.words
		} else if was.words == "" {
			was.words = f.words
		}
	}
	for i := range apart {
		apart[i].words = shorten(apart[i].words, most-2*flagGap)
	}
	return apart
}

// flagsOf hangs events on their axis.
func flagsOf(events []Event, a timeAxis) []pennant {
	var flags []pennant
	for _, e := range events[:min(len(events), mostEvents)] {
		if dated(e.At) {
			flags = append(flags, pennant{x: a.at(seconds(e.At)), words: oneLine(e.Label)})
		}
	}
	return flags
}

// fly draws flags whose lanes begin at top, with lines down to foot.
func fly(p *pen, flags []pennant, top, foot float64) {
	var lines trace
	for _, f := range flags {
		lines.upright(f.x, top+float64(f.lane)*laneHeight+2, foot)
	}
	p.path("event", lines.String())
	for _, f := range flags {
		f.set(p, top)
	}
}

// set writes a flag's words beside its line.
func (f pennant) set(p *pen, top float64) {
	y := top + float64(f.lane)*laneHeight + ascent - 1
	if f.left {
		p.text("", f.x-flagGap, y, end, f.words)
	} else {
		p.text("", f.x+flagGap, y, begin, f.words)
	}
}

// unnamedWords says how many marks have no label.
func unnamedWords(count int) string {
	switch count {
	case 0:
		return ""
	case 1:
		return "1 mark has no room for its name"
	}
	return strconv.Itoa(count) + " marks have no room for their names"
}

// eventWords names events for those who listen.
func eventWords(events []Event, a timeAxis) string {
	var parts []string
	for _, e := range events {
		if dated(e.At) && len(parts) < 20 {
			parts = append(parts, oneLine(e.Label)+" "+e.At.In(a.zone).Format("2 January"))
		}
	}
	if len(parts) == 0 {
		return ""
	}
	return " Marked: " + listed(parts) + "."
}

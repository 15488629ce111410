package book

import (
	"math"
	"slices"

	"gylebook/internal/figures"
	"gylebook/internal/journal"
	"gylebook/internal/parallel"
)

// remembered is how many gyles back a brewer's past reaches, about a year of
// home brewing: kettles, crushers and habits change, and an old yield is no
// guide to the next. (Common practice, no source: brewers are told to use the
// median of their last few.)
const remembered = 10

// memory is the lessons of one figure in the order of brewing, and what is known by each
// of them.
type memory struct {
	turns   []int // whose lesson it is
	lessons []lessonFigure
	learned []figures.Learned // after each, from the latest
}

func (m *memory) add(turn int, t lessonFigure) {
	if t.known {
		m.turns, m.lessons = append(m.turns, turn), append(m.lessons, t)
	}
}

// learn works out what is known by each lesson.
func (m *memory) learn() {
	m.learned = make([]figures.Learned, len(m.lessons))
	parallel.Each(len(m.lessons), 0, func(i int) { m.learned[i] = learnedFrom(m.lessons[:i+1]) })
}

// before is what the gyles before a place in the order of brewing taught.
func (m *memory) before(turn int) figures.Learned {
	if m == nil {
		return figures.Learned{}
	}
	n, _ := slices.BinarySearch(m.turns, turn)
	if n == 0 {
		return figures.Learned{}
	}
	return m.learned[n-1]
}

// learnedFrom is the median and the spread of the latest lessons. The half-width is the
// deviation from the median that about two thirds of gyles stay within: of n
// deviations the ⌈2(n+1)/3⌉-th smallest, which allows for the next gyle being none of
// those seen; and never less than the readings' own doubt.
func learnedFrom(lessons []lessonFigure) figures.Learned {
	if len(lessons) == 0 {
		return figures.Learned{}
	}
	latest := lessons[max(0, len(lessons)-remembered):]
	n := len(latest)
	var allValues, allDoubts [remembered]float64
	values, doubts := allValues[:n], allDoubts[:n]
	for i, t := range latest {
		values[i], doubts[i] = t.value, t.doubt
	}
	middle := median(values)
	for i, v := range values {
		values[i] = math.Abs(v - middle)
	}
	slices.Sort(values)
	k := min((2*(n+1)+2)/3, n)
	return figures.Learned{Median: middle, HalfWidth: max(values[k-1], median(doubts)), Gyles: n, Mash: mashedAt(latest)}
}

// mashedAt is the middle of how warm those were mashed of which somebody says; 0 for none.
func mashedAt(lessons []lessonFigure) float64 {
	var heats []float64
	for _, t := range lessons {
		if t.mash > 0 {
			heats = append(heats, t.mash)
		}
	}
	if len(heats) == 0 {
		return 0
	}
	return median(heats)
}

// median is the middle value, halfway between the two middle ones of an even
// number. It sorts what it is given.
func median(values []float64) float64 {
	slices.Sort(values)
	n := len(values)
	if n%2 == 1 {
		return values[n/2]
	}
	return (values[n/2-1] + values[n/2]) / 2
}

// memories are what all gyles taught.
type memories struct {
	yield, losses, copperLosses, boilOff memory
	attenuation                          map[string]*memory // by the yeast's name as its card has it
	mashLost                             map[string]*memory // by the tun as it is named
}

// remember takes the lessons in the order of brewing.
func remember(lessons []lesson) *memories {
	m := &memories{attenuation: map[string]*memory{}, mashLost: map[string]*memory{}}
	for turn, l := range lessons {
		m.yield.add(turn, l.yield)
		m.losses.add(turn, l.losses)
		m.copperLosses.add(turn, l.copperLosses)
		m.boilOff.add(turn, l.boilOff)
		addTo(m.mashLost, l.tun, turn, l.mashLost)
		if l.yeast != "" {
			addTo(m.attenuation, l.yeast, turn, l.attenuation)
		}
	}
	for _, one := range []*memory{&m.yield, &m.losses, &m.copperLosses, &m.boilOff} {
		one.learn()
	}
	for _, some := range []map[string]*memory{m.attenuation, m.mashLost} {
		for _, one := range some {
			one.learn()
		}
	}
	return m
}

func addTo(some map[string]*memory, name string, turn int, t lessonFigure) {
	if some[name] == nil {
		some[name] = new(memory)
	}
	some[name].add(turn, t)
}

// knowledge is what a gyle may lean on.
type knowledge struct {
	yield, losses, copperLosses, boilOff figures.Learned
	yeasts                               []yeastKnowledge // of its own
	tun                                  string
	mashLost                             figures.Learned // in that tun
}

type yeastKnowledge struct {
	typed, proper string // the name in the entry, and as its card has it
	attenuation   figures.Learned
}

// before is what the gyles before a place in the order of brewing taught.
func (m *memories) before(turn int, yeasts []yeastKnowledge, tun string) knowledge {
	k := knowledge{
		m.yield.before(turn), m.losses.before(turn), m.copperLosses.before(turn), m.boilOff.before(turn),
		slices.Clone(yeasts), tun, m.mashLost[tun].before(turn),
	}
	for i, y := range k.yeasts {
		k.yeasts[i].attenuation = m.attenuation[y.proper].before(turn)
	}
	return k
}

// of is what a gyle may lean on: from the days before its own; and what is known once its
// own day has taught too.
func (m *memories) of(g *Gyle, l *journal.Larder) (then, next knowledge) {
	yeasts := make([]yeastKnowledge, 0, 1) // mostly
	for _, p := range g.Yeast {
		yeasts = append(yeasts, yeastKnowledge{typed: p.Yeast.Name, proper: yeastName(l, p.Yeast.Name)})
	}
	tun := g.Mash.Vessel.Name
	return m.before(g.sameDay.from, yeasts, tun), m.before(g.sameDay.to, yeasts, tun)
}

// past is what is known as figures lean on it.
func (k knowledge) past() figures.Past {
	past := figures.Past{Yield: k.yield, Losses: k.losses, CopperLosses: k.copperLosses, BoilOff: k.boilOff}
	if k.mashLost.Gyles > 0 {
		past.MashLost = map[string]figures.Learned{k.tun: k.mashLost}
	}
	for _, y := range k.yeasts {
		if y.attenuation.Gyles == 0 {
			continue
		}
		if past.Attenuation == nil {
			past.Attenuation = map[string]figures.Learned{}
		}
		past.Attenuation[y.proper], past.Attenuation[y.typed] = y.attenuation, y.attenuation
	}
	return past
}

// days gives each gyle, in the order of brewing, the places of those of its day.
func days(gyles []*Gyle) {
	for from, to := 0, 0; from < len(gyles); from = to {
		for to < len(gyles) && day(gyles[to].Begun).Equal(day(gyles[from].Begun)) {
			to++
		}
		for _, g := range gyles[from:to] {
			g.sameDay = span{from, to}
		}
	}
}

// span is the places in the order of brewing of gyles one after another, the last one
// not among them.
type span struct{ from, to int }
